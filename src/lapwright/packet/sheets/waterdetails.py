"""Sections through the ways out for water: a drain in its sump, a scupper through a wall.

Drain: base, the metal square in mastic, a target of the base, the cap and its target, all cut only to the bolt ring.
Scupper: its flange lies on the plies; a strip of the base, then a wider one of the cap, close it.
Source: common practice, no source; sizes from the layout, defaults/details.csv and defaults/coverage.csv
"""

from __future__ import annotations

from dataclasses import replace

from lapwright.defaults.si import default_si
from lapwright.packet.drawing import Fill, Ink, Item, Pattern, Pt, Stroke, rectangle
from lapwright.packet.sheets.buildup import Buildup, Path
from lapwright.packet.sheets.linedetails import mirrored
from lapwright.packet.sheets.section import Section
from lapwright.packet.sheets.substrate import PLIES, REMARK, Job, drawn_thickness, sheet_words, substrate
from lapwright.packet.sheets.walldetail import WALL_THICK
from lapwright.roof.values import Drain

SHOWN = 0.14  # roof shown beyond the sump or the last strip [m]
BOWL_SHOWN, RING, SUNK, DOME = 0.1016, 0.05, 0.025, 0.09  # drawn where not given; ring, sump's depth, strainer [m]
DRIP, OVER = 0.04, 0.12  # scupper's lip outside the wall; wall shown over the opening [m]
SLEEVE_SHOWN = 0.1016


def drain_section(job: Job, drain: Drain, sump: float, *, title: str) -> Section:
    """The section through a drain, `sump` [m] the side of its sump, 0 for none."""
    section = Section(title)
    radius = (BOWL_SHOWN if drain.diameter is None else drain.diameter) / 2
    targets = (default_si("coverage", "drain_base_target"), default_si("coverage", "drain_cap_target"))
    metal = default_si("coverage", "drain_metal")
    half = max(sump, *targets, metal) / 2 + SHOWN
    inner = radius + RING
    edge = max(sump / 2, inner + 0.02)
    deep = sunk_substrate(section, job, (half, edge, inner), SUNK if sump > 0 else 0.0)
    path = Path(((-half, 0.0), (-edge, 0.0), (-inner, -SUNK if sump > 0 else 0.0)))
    build = Buildup(path)
    lay_drain(section, job, build, (half, metal, targets[0], targets[1]))
    section.items += [mirrored(item, 0.0) for item in section.items]
    draw_bowl(section, job, drain, (radius, build.height(path.stations[-1]) + path.points[-1][1], deep))
    top = build.height(0.0)
    if sump > 0:
        section.dim((-sump / 2, top), (sump / 2, top), 29.0, f"sump {job.words(sump)}")
    for off, words, wide in (
        (8.0, "metal", metal),
        (15.0, "base target", targets[0]),
        (22.0, "cap target", targets[1]),
    ):
        section.dim((-wide / 2, top), (wide / 2, top), off, f"{words} {job.words(wide)}")
    section.remarks += [
        REMARK,
        "No side lap or end lap in the sump. Plies are cut to the bolt ring only after all are down; probe, then clamp."
        " The sump's depth is drawn, not given.",
    ]
    return section


def sunk_substrate(section: Section, job: Job, spans: tuple[float, float, float], sunk: float) -> float:
    """Deck and boards at the left of a drain, their top sunk from the edge of the sump to the ring; how deep [m]."""
    half, edge, inner = spans
    deep = substrate(section, job, -half, -inner)

    def lowered(points: tuple[Pt, ...]) -> tuple[Pt, ...]:
        found: list[Pt] = []
        for x, y in points:
            if abs(y) < 1e-9 and x > -half + 1e-9:
                found += [(-edge, 0.0), (x, -sunk)] if not found or found[-1][0] < x else [(x, -sunk), (-edge, 0.0)]
            else:
                found.append((x, y))
        return tuple(found)

    items: list[Item] = []
    for item in section.items:
        if isinstance(item, Fill):
            items.append(replace(item, rings=tuple(lowered(ring) for ring in item.rings)))
        elif isinstance(item, Stroke) and item.closed:
            items.append(replace(item, points=lowered(item.points)))
        else:
            items.append(item)
    section.items = items
    return deep


def lay_drain(section: Section, job: Job, build: Buildup, sizes: tuple[float, float, float, float]) -> None:
    """Plies, metal and targets at the left of a drain, from the bottom."""
    half, metal, base_target, cap_target = sizes
    end = build.path.stations[-1]
    inner = -build.path.points[-1][0]
    bottom, top = job.field_plies[0], job.field_plies[-1]
    x = 0.02

    def layer(words: str, wide: float, thick: float, look: tuple[Pattern, Ink]) -> None:
        nonlocal x
        start = max(0.0, end - (wide / 2 - inner))
        section.part(build.lay(start, end, thick), look[0], ink=look[1])
        at = start + x
        section.note(build.path.at(at, build.height(at) - thick / 2), words, "left")
        x += 0.012

    for ply in job.field_plies[:-1]:
        words = sheet_words(f"{ply.ply} ply", ply.sheet, job.units)
        layer(words, 2 * half + 1.0, drawn_thickness(ply.sheet), (PLIES.get(ply.ply, "diagonal"), "ink"))
    words = f"lead or copper {job.words(metal)} square, primed, set in mastic"
    layer(words, metal, 0.004, ("solid", "ink"))
    words = f"target of the {bottom.ply}, {job.words(base_target)} square"
    layer(words, base_target, drawn_thickness(bottom.sheet), ("cross", "ink"))
    layer(sheet_words("cap ply", top.sheet, job.units), 2 * half + 1.0, drawn_thickness(top.sheet), ("solid", "grey"))
    words = f"target of the {top.ply}, {job.words(cap_target)} square"
    layer(words, cap_target, drawn_thickness(top.sheet), ("back", "ink"))


def draw_bowl(section: Section, job: Job, drain: Drain, sizes: tuple[float, float, float]) -> None:
    """Bowl, clamping ring and strainer about x = 0; sizes: radius, top of the plies at the ring, depth of the deck."""
    radius, top, deep = sizes
    outer = radius + RING
    section.line(
        ((-outer, top), (-outer, -SUNK * 1.6), (-radius, -deep * 0.8), (-radius, -deep - 0.02)), weight="outline"
    )
    section.line(((outer, top), (outer, -SUNK * 1.6), (radius, -deep * 0.8), (radius, -deep - 0.02)), weight="outline")
    for side in (-1, 1):
        x = outer + 0.012 if side > 0 else -outer - 0.052
        section.part(rectangle(x, top, 0.04, 0.012), "solid", weight="medium")
    section.line(((-outer, top + 0.012), (-radius * 0.8, top + DOME), (radius * 0.8, top + DOME), (outer, top + 0.012)))
    section.note((radius * 0.6, top + DOME), "strainer")
    section.note((outer + 0.03, top + 0.006), "clamping ring, bolted; mastic under the plies")
    given = "size not given" if drain.diameter is None else job.words(drain.diameter)
    section.note((radius, -deep * 0.9), f"{drain.kind.replace('_', ' ')}, {given}")
    section.dim((-radius, -deep - 0.02), (radius, -deep - 0.02), -6.0, given)
    if drain.sill is not None:
        for x in (-outer - 0.006, outer + 0.006):
            section.line(((x, top), (x, top + drain.sill)), weight="outline")
        section.note((outer + 0.006, top + drain.sill * 0.8), "rim of the overflow, above the roof")
        section.dim((outer + 0.05, top), (outer + 0.05, top + drain.sill), 7.0, job.words(drain.sill))


def scupper_section(job: Job, drain: Drain, *, title: str) -> Section:
    """The section through a scupper: roof at the left, wall at x = 0."""
    section = Section(title)
    flange = default_si("details", "flange")
    strips = [flange + default_si("details", f"flange_strip_{name}") for name in ("first", "second")]
    length = strips[1] + SHOWN
    deep = substrate(section, job, -length, 0.0)
    build = Buildup(Path(((-length, 0.0), (0.0, 0.0))))
    x = 0.02
    for ply in job.field_plies:
        thick = drawn_thickness(ply.sheet)
        ring = build.lay(0.0, length, thick)
        section.part(ring, PLIES.get(ply.ply, "diagonal"), ink="grey" if ply.ply == "cap" else "ink")
        words = sheet_words(f"{ply.ply} ply", ply.sheet, job.units)
        section.note(build.path.at(x, build.height(x) - thick / 2), words, "left")
        x += 0.014
    finished = build.height(length - 0.01)
    sill = finished + (drain.sill or 0.0)
    tall = SLEEVE_SHOWN if drain.height is None else drain.height
    draw_sleeve(section, job, drain, (sill, tall, deep, flange, finished))
    if not drain.sill:
        for ply, wide, pattern in ((job.field_plies[0], strips[0], "cross"), (job.field_plies[-1], strips[1], "solid")):
            thick = drawn_thickness(ply.sheet)
            ring = build.lay(length - wide, length, thick)
            section.part(ring, "cross" if pattern == "cross" else "solid", ink="ink" if pattern == "cross" else "grey")
            at = length - wide + 0.03
            words = f"{ply.ply} strip, {job.words(wide - flange)} past the flange"
            section.note(build.path.at(at, build.height(at) - thick / 2), words)
            section.dim((-wide, finished), (0.0, finished), 9.0 if pattern == "cross" else 17.0, job.words(wide))
    section.remarks += [
        REMARK,
        "The base flashing of the wall is turned into the opening and the flange set on it in mastic; strips close it.",
    ]
    return section


def draw_sleeve(section: Section, job: Job, drain: Drain, sizes: tuple[float, float, float, float, float]) -> None:
    """The wall with its opening and the metal through it; sizes: sill, height, depth, flange, finished roof [m]."""
    sill, tall, deep, flange, finished = sizes
    head = sill + tall
    section.part(rectangle(0.0, -deep, WALL_THICK, deep + sill), "concrete", weight="medium")
    section.part(rectangle(0.0, head, WALL_THICK, OVER), "concrete", weight="medium")
    out = WALL_THICK + DRIP
    floor: tuple[Pt, ...] = ((0.0, sill), (out, sill), (out + 0.01, sill - 0.02))
    inner = ((-flange, sill), *floor) if not drain.sill else ((0.0, sill - min(flange, sill)), *floor)
    section.line(inner, weight="outline")
    section.line(((0.0, head + flange), (0.0, head), (out, head)), weight="outline")
    width = "width not given" if drain.width is None else f"{job.words(drain.width)} wide"
    section.note((WALL_THICK * 0.5, sill), f"{drain.kind.replace('_', ' ')}: metal through the wall, {width}")
    section.note((0.0, head + flange * 0.5), f"flange {job.words(flange)}, primed, set in mastic, nailed")
    section.note((WALL_THICK * 0.5, head + OVER * 0.7), "wall or parapet")
    height = "height not given" if drain.height is None else job.words(tall)
    section.dim((out, sill), (out, head), 12.0, height)
    if drain.sill:
        section.dim((0.0, finished), (0.0, sill), -9.0, f"sill {job.words(drain.sill)}")
