"""What drains, scuppers and pipes ask for: sump, metal, target plies, strips over flanges."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Ply
from lapwright.defaults.values import Rules
from lapwright.geometry.polygon import Side, sides_of
from lapwright.layout.details.lengths import TICKS, along, detail_ticks, lengths, round_up
from lapwright.layout.values import XY, Detail, Lap
from lapwright.roof.values import Area, Drain, Edge, Opening, Pipe, Point

FIELD_DRAINS = ("drain", "overflow_drain")
SCUPPERS = ("scupper", "overflow_scupper")


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle of sheet laid at one place: what it belongs to, its name and kind, sizes [ticks], middle in plan."""

    of: str
    name: str
    kind: str
    length: int
    width: int
    at: XY | None


@dataclass(frozen=True, slots=True)
class Patched:
    """A patch as pieces of sheet, side by side where one is not wide enough, with the laps between them."""

    details: tuple[Detail, ...]
    laps: tuple[Lap, ...]


def field_drain(area: Area, drain: Drain, plies: Sequence[Ply], rules: Rules) -> Iterator[Patched]:
    """A drain in the field: its sump, the metal square set on the base, a target of the base under one of the cap.

    plies: the bottom one, the top one.
    Source: common practice, no source; VA 07 52 16.12 (sumps)
    Checked: tests/layout/test_detail_drains.py
    """
    at = None if drain.at is None else (drain.at[0] / TICKS, drain.at[1] / TICKS)
    side = sump_side(area, drain, rules)
    if side > 0:
        yield Patched((item(area, drain.name, "sump", "sump", side, at),), ())
    metal = detail_ticks("drain_metal", "coverage")
    yield Patched((item(area, drain.name, "drain metal", "drain_metal", metal, at),), ())
    for ply, name in zip(plies, ("drain_base_target", "drain_cap_target"), strict=True):
        side = detail_ticks(name, "coverage")
        yield patch(area, Patch(drain.name, f"{ply.ply} target", "target", side, side, at), ply, rules)


def sump_side(area: Area, drain: Drain, rules: Rules) -> int:
    """Side of the sump [ticks]: as the usual one, or what there is room for to the nearest edge or opening.

    Source: common practice, no source (4 ft by 4 ft, at least 2 ft by 2 ft)
    Checked: tests/layout/test_detail_drains.py
    """
    usual = detail_ticks("sump_side")
    if drain.at is None:
        return usual
    room = [
        *(room_to_edge(drain.at, edge) for edge in area.edges if edge.kind not in ("ridge", "valley")),
        *(room_to_opening(drain.at, opening) for opening in area.openings),
    ]
    step = rules.cut_step_ticks
    return max(0, min(usual, math.floor(2.0 * min(room, default=float(usual)) / step) * step))


def room_to_edge(at: Point, edge: Edge) -> float:
    """Half the side of the largest square along east and north about a point that stays off a side [ticks]."""
    return room_to_line(at, (edge.start, edge.end))


def room_to_line(at: Point, line: Side) -> float:
    """The same off a line."""
    (ax, ay), (bx, by) = line
    if ax == bx or ay == by:
        return max(apart(at[0], ax, bx), apart(at[1], ay, by))
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    share = min(1.0, max(0.0, ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / length2))
    return math.dist(at, (ax + share * (bx - ax), ay + share * (by - ay))) / math.sqrt(2.0)


def room_to_opening(at: Point, opening: Opening) -> float:
    """The same off an opening."""
    if opening.ring:
        return min(room_to_line(at, side) for side in sides_of(opening.outline))
    (x, y), (w, h) = opening.corner, opening.size
    return max(apart(at[0], x, x + w), apart(at[1], y, y + h))


def apart(at: int, one: int, other: int) -> float:
    """How far a place lies from a stretch; 0 within it."""
    return float(max(min(one, other) - at, at - max(one, other), 0))


def pipe_flashed(area: Area, pipe: Pipe, plies: Sequence[Ply], rules: Rules) -> Iterator[Patched]:
    """A pipe: its flashing with clamp, a strip of the base over the flange, a wider one of the cap over that.

    Source: common practice, no source: (d + 8 + 8)² and (d + 8 + 12)² in², 4" flange, 4" and 6" past it
    Checked: tests/layout/test_detail_drains.py
    """
    at = (pipe.at[0] / TICKS, pipe.at[1] / TICKS)
    yield Patched((item(area, pipe.name, "pipe flashing", "pipe_flashing", pipe.diameter, at),), ())
    for ply, more in zip(plies, flange_strips(), strict=True):
        side = pipe.diameter + more
        yield patch(area, Patch(pipe.name, f"{ply.ply} pipe strip", "pipe_strip", side, side, at), ply, rules)


def scupper_flashed(area: Area, drain: Drain, plies: Sequence[Ply], rules: Rules) -> Iterator[Patched]:
    """A scupper: its metal, and strips over its flange in both plies, as at a pipe.

    Without its width and height nothing can be said of the strips.
    Source: common practice, no source
    Checked: tests/layout/test_detail_drains.py
    """
    at = scupper_place(area, drain)
    metal = item(area, drain.name, "scupper metal", "scupper_metal", 0, at)
    yield Patched((replace(metal, length=drain.width or 0.0, width=drain.height or 0.0),), ())
    if drain.width is None or drain.height is None:
        return
    sizes = round(drain.width * TICKS), round(drain.height * TICKS)
    for ply, more in zip(plies, flange_strips(), strict=True):
        long, wide = (size + more for size in sizes)
        yield patch(area, Patch(drain.name, f"{ply.ply} scupper strip", "scupper_strip", long, wide, at), ply, rules)


def flange_strips() -> tuple[int, int]:
    """How much wider than the pipe or opening the first and the second strip are [ticks]."""
    flange = detail_ticks("flange")
    return 2 * (flange + detail_ticks("flange_strip_first")), 2 * (flange + detail_ticks("flange_strip_second"))


def scupper_place(area: Area, drain: Drain) -> XY | None:
    """The middle of a scupper in plan [m]; None where it is not said."""
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if edge is None or drain.from_start is None:
        return None
    share = min(1.0, drain.from_start * TICKS / math.dist(edge.start, edge.end))
    return along(edge.start, edge.end, share, share)[0]


def item(area: Area, of: str, name: str, kind: str, side: int, at: XY | None) -> Detail:
    """A thing that is bought, or a sunk square; side [ticks]."""
    return Detail(f"{area.name}/{of}/{name}", kind, area.name, of, "", "", side / TICKS, side / TICKS, at=at)


def patch(area: Area, what: Patch, ply: Ply, rules: Rules) -> Patched:
    """A rectangle of sheet as its pieces: one that is wider than the sheet takes several, side lap on side lap."""
    sheet = ply.sheet
    short, long = sorted((what.length, what.width))
    panels = lengths(short, sheet.width_ticks, sheet.side_lap_ticks)
    details = tuple(
        Detail(
            id=f"{area.name}/{what.of}/{what.name} {k}",
            kind=what.kind,
            area=area.name,
            of=what.of,
            sheet=sheet.name,
            ply=ply.ply,
            length=long / TICKS,
            width=(b - a) / TICKS,
            takes_ticks=round_up(long, rules.cut_step_ticks),
            at=what.at,
        )
        for k, (a, b) in enumerate(panels, start=1)
    )
    laps = tuple(
        panel_lap(details[k - 1], details[k], short, panels[k][0], sheet.side_lap_ticks) for k in range(1, len(panels))
    )
    return Patched(details, laps)


def panel_lap(one: Detail, other: Detail, total: int, begins: float, lap: int) -> Lap:
    """The side lap between two pieces of a patch; the line is the edge of the later one."""
    x, y = other.at or (0.0, 0.0)
    left, half = x - total / 2 / TICKS + begins / TICKS, other.length / 2
    line = ((left, y - half), (left, y + half))
    pair = (one.id, other.id)
    return Lap(f"{other.id}/lap", "flashing", one.area, one.ply, pair, line, other.length, lap / TICKS)
