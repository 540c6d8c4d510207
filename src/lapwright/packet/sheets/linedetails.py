"""Sections across the lines where planes and roofs meet: ridge, valley, tie-in, expansion joint.

Ridge: each ply runs past the line, the plane laid later over the one laid before.  Valley: in each ply its own sheet
first, the courses end short of the line and lap onto it.  Tie-in: strips from the new roof onto the old one.
Source: common practice, no source; sizes from the rules and defaults/details.csv
"""

from __future__ import annotations

from dataclasses import replace

from lapwright.assembly.values import Ply
from lapwright.defaults.si import default_si
from lapwright.packet.drawing import Fill, Item, Pt, Stroke, rectangle
from lapwright.packet.sheets.buildup import Buildup, Path
from lapwright.packet.sheets.section import Section, break_line
from lapwright.packet.sheets.substrate import PLIES, REMARK, Job, drawn_thickness, sheet_words, substrate
from lapwright.packet.sheets.walldetail import WALL_THICK, Stand, flashing_section

SHOWN = 0.16  # roof shown beyond the last lap [m]
GAP = 0.05  # of an expansion joint, drawn; its width is the designer's [m]


def sloped(job: Job, half: float, slopes: Pt, title: str) -> tuple[Section, Buildup]:
    """A section over a line at x = 0 from which the roof falls away to both sides, or towards it for slopes under 0.

    half: how far it goes to either side [m]; slopes: at the left, at the right.
    """
    section = Section(title)
    substrate(section, job, -half, half)
    section.items = [tilted(item, slopes, half) for item in section.items]
    section.notes = [replace(note, at=tilt(note.at, slopes)) for note in section.notes]
    return section, Buildup(Path((tilt((-half, 0.0), slopes), (0.0, 0.0), tilt((half, 0.0), slopes))))


def tilt(point: Pt, slopes: Pt) -> Pt:
    """A point of a level substrate brought to the slope of its side."""
    return (point[0], point[1] - (slopes[0] if point[0] < 0 else slopes[1]) * abs(point[0]))


def tilted(item: Item, slopes: Pt, half: float) -> Item:
    """An item of a level substrate brought to the slopes to either side of x = 0, with a bend there."""

    def bent(points: tuple[Pt, ...], *, closed: bool) -> tuple[Pt, ...]:
        found: list[Pt] = []
        for a, b in zip(points, (*points[1:], points[0]) if closed else (*points[1:], points[-1]), strict=True):
            found.append(tilt(a, slopes))
            if a[0] * b[0] < 0 and abs(a[0] - b[0]) > half:
                found.append((0.0, a[1] + (b[1] - a[1]) * a[0] / (a[0] - b[0])))
        return tuple(found)

    if isinstance(item, Stroke):
        return replace(item, points=bent(item.points, closed=item.closed))
    if isinstance(item, Fill):
        return replace(item, rings=tuple(bent(ring, closed=True) for ring in item.rings))
    return item


def lay_ply(section: Section, build: Buildup, ply: Ply, span: tuple[float, float]) -> Pt:
    """One length of a ply from station to station; returns the middle of its thickness near its outer end."""
    start, end = span
    thick = drawn_thickness(ply.sheet)
    ring = build.lay(start, end, thick)
    section.part(ring, PLIES.get(ply.ply, "diagonal"), ink="grey" if ply.ply == "cap" else "ink")
    at = start + 0.03 if start < 1e-9 else end - 0.03
    return build.path.at(at, build.height(at) - thick / 2)


def ridge_section(job: Job, slopes: Pt, *, title: str) -> Section:
    """The section across a ridge: in each ply the plane laid first runs past it, the other one over that."""
    over = job.rule("over_ridge")
    half = over + SHOWN
    section, build = sloped(job, half, slopes, title)
    x = 0.0
    for ply in job.field_plies:
        at = lay_ply(section, build, ply, (0.0, half + over))
        section.note((at[0] + x, at[1]), f"{sheet_words(f'{ply.ply} ply', ply.sheet, job.units)}, laid first", "left")
        at = lay_ply(section, build, ply, (half - over, 2 * half))
        section.note((at[0] - x, at[1]), f"{ply.ply} ply of the plane laid later, over the ridge")
        x += 0.014
    top = build.height(half)
    section.dim((-over, top), (0.0, top), 8.0, job.words(over))
    section.dim((0.0, top), (over, top), 8.0, job.words(over))
    section.remarks += [REMARK, "Ply by ply: no lap of one ply lies in line with a lap of the ply under it."]
    return section


def valley_section(job: Job, slopes: Pt, *, title: str) -> Section:
    """The section across a valley: its sheet first, the courses of both sides held back from the line."""
    back = job.rule("valley_back")
    widest = max(ply.sheet.width_ticks for ply in job.field_plies) / 80_000
    half = widest / 2 + SHOWN
    section, build = sloped(job, half, (-slopes[0], -slopes[1]), title)
    x = 0.0
    for ply in job.field_plies:
        wide = ply.sheet.width_ticks / 80_000
        lay_ply(section, build, ply, (half - wide / 2, half + wide / 2))
        here = half + wide * 0.2 + 4 * x
        point = build.path.at(here, build.height(here) - drawn_thickness(ply.sheet) / 2)
        section.note(point, f"valley sheet of the {ply.ply}, a whole width: {job.words(wide)}")
        at = lay_ply(section, build, ply, (0.0, half - back))
        section.note((at[0] + x, at[1]), sheet_words(f"{ply.ply} ply", ply.sheet, job.units), "left")
        lay_ply(section, build, ply, (half + back, 2 * half))
        x += 0.014
    top = build.height(half - back - 0.01)
    section.dim((-back, top), (0.0, top), 10.0, job.words(back))
    section.dim((0.0, top), (back, top), 10.0, job.words(back))
    section.dim((-widest / 2, top), (widest / 2, top), 20.0, job.words(widest))
    section.remarks += [
        REMARK,
        "In each ply the valley sheet lies first and runs through; the courses lap onto it.",
    ]
    return section


def tie_in_section(job: Job, *, title: str) -> Section:
    """The section across a tie-in: the new plies meet the old roof, two strips close the joint."""
    section = Section(title)
    wide = {"base": default_si("details", "tie_in_base"), "cap": default_si("details", "tie_in_cap")}
    half = wide["cap"] / 2 + SHOWN
    deep = substrate(section, job, -half, 0.0)
    build = Buildup(Path(((-half, 0.0), (half, 0.0))))
    x = 0.0
    for ply in job.field_plies:
        at = lay_ply(section, build, ply, (0.0, half))
        section.note((at[0] + x, at[1]), sheet_words(f"{ply.ply} ply", ply.sheet, job.units), "left")
        x += 0.014
    finished = build.height(0.01)
    section.part(rectangle(0.0, 0.0, half, finished), "faint")
    build = Buildup(build.path, [(0.0, finished), (2 * half, finished)])
    section.note((half * 0.8, finished * 0.5), "old roof, cleaned and primed; its build-up as found")
    section.part(rectangle(0.0, -deep, half, deep), "faint")
    section.line(break_line((half, -deep), (half, finished), 0.01), weight="thin")
    for name, ply in (("base", job.field_plies[0]), ("cap", job.field_plies[-1])):
        across = wide[name]
        thick = drawn_thickness(ply.sheet)
        section.part(
            build.lay(half - across / 2, half + across / 2, thick),
            PLIES["strip"] if name == "base" else "solid",
            ink="ink" if name == "base" else "grey",
        )
        x = across / 2 - 0.02
        words = sheet_words(f"{name} strip, {job.words(across)} wide", ply.sheet, job.units)
        section.note((x, build.height(half + x) - thick / 2), words)
    top = build.height(half)
    section.dim((-wide["base"] / 2, top), (wide["base"] / 2, top), 7.0, job.words(wide["base"]))
    section.dim((-wide["cap"] / 2, top), (wide["cap"] / 2, top), 15.0, job.words(wide["cap"]))
    section.remarks += [REMARK, "Both strips lie half on the new roof and half on the old one; water runs over them."]
    return section


def expansion_section(job: Job, stand: Stand, *, title: str) -> Section:
    """The section across an expansion joint: a flashed curb on either side, a cover over both."""
    section = flashing_section(job, stand, title=title)
    middle = WALL_THICK + GAP / 2
    rise = max(y for item in section.items if isinstance(item, Stroke) for _, y in item.points)
    section.items += [mirrored(item, middle) for item in section.items]
    beside = 2 * middle + max(-x for item in section.items if isinstance(item, Stroke) for x, _ in item.points)
    section.dims = [
        replace(dim, a=(beside, dim.a[1]), b=(beside, dim.b[1])) if dim.a[0] > WALL_THICK + 1e-6 else dim
        for dim in section.dims
    ]
    cover = (
        (-0.03, rise - 0.06),
        (-0.03, rise + 0.012),
        (2 * middle + 0.03, rise + 0.012),
        (2 * middle + 0.03, rise - 0.06),
    )
    section.line(cover, weight="outline")
    section.note((2 * middle + 0.01, rise + 0.012), "cover or bellows over both curbs, free to move, as designed")
    section.note((middle, rise * 0.4), "joint: its width is the designer's")
    section.remarks.append("Both sides alike. The joint is raised on curbs, never at the roof's surface.")
    return section


def mirrored(item: Item, middle: float) -> Item:
    """An item on the other side of an upright line."""

    def over(point: Pt) -> Pt:
        return (2 * middle - point[0], point[1])

    if isinstance(item, Stroke):
        return replace(item, points=tuple(map(over, item.points)))
    if isinstance(item, Fill):
        return replace(item, rings=tuple(tuple(map(over, ring)) for ring in item.rings))
    return replace(item, at=over(item.at))
