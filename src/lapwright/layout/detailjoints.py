"""T-joints of details: where a lap between details, or the foot of one, crosses a lap of the field.

*Bed*: the ply that a detail lies on.  The lap's exposed edge runs over the laps of that ply; each place where the two
edges cross lies three sheets thick and more.  The field turns up at a wall, so the edge of a lap between flashing
pieces is followed on up the cant as far as the ply goes, laid flat like the ply.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.layout.details.lengths import FOOT
from lapwright.layout.feet import bed_of
from lapwright.layout.laps import GRAZING, TICKS
from lapwright.layout.region import turn_up
from lapwright.layout.values import XY, Detail, Frame, Lap, TJoint
from lapwright.roof.values import Area

CELL = 10 * FOOT  # side of the squares that laps are looked up by
HAIR = 1.0  # edges that end a tick short of one another meet
TURNED_UP = ("parapet", "wall")

UV = tuple[float, float]
Segment = tuple[UV, UV]
Straight = tuple[int, float, float, float, float, Segment]


@dataclass(slots=True)
class Bed:
    """Laps of one ply on one area in its slope frame [ticks].

    cells: laps along the course and across it by the squares of the roof that they reach into, each with its number and
    from where to where it reaches in either direction; skew: the rest, between planes.
    """

    frame: Frame
    cells: dict[tuple[int, int], list[Straight]] = field(default_factory=dict)
    skew: list[tuple[int, Segment]] = field(default_factory=list)

    def add(self, number: int, line: tuple[XY, XY]) -> None:
        """Take a lap in by its number and its edge in plan [m]."""
        edge = self.edge(line)
        left, right, low, high = extent(edge)
        if right - left >= HAIR and high - low >= HAIR:
            self.skew.append((number, edge))
            return
        reach = (left - HAIR, right + HAIR, low - HAIR, high + HAIR)
        lap = (number, *reach, edge)
        for cell in cells_of(*reach):
            self.cells.setdefault(cell, []).append(lap)

    def edge(self, line: tuple[XY, XY]) -> Segment:
        """A plan line [m] in the frame."""
        (x0, y0), (x1, y1) = line
        return (self.frame.slope_uv(x0 * TICKS, y0 * TICKS), self.frame.slope_uv(x1 * TICKS, y1 * TICKS))

    def near(self, edge: Segment) -> Iterator[tuple[int, Segment]]:
        """The laps that an edge comes as near to as they reach."""
        left, right, low, high = extent(edge)
        found = {
            number: one
            for cell in cells_of(left, right, low, high)
            for number, first, last, bottom, top, one in self.cells.get(cell, ())
            if first <= right and left <= last and bottom <= high and low <= top
        }
        yield from found.items()
        yield from self.skew


def extent(edge: Segment) -> tuple[float, float, float, float]:
    """From where to where an edge goes, along the course and up the fall.  Source: arithmetic"""
    (u0, v0), (u1, v1) = edge
    return (*((u0, u1) if u0 < u1 else (u1, u0)), *((v0, v1) if v0 < v1 else (v1, v0)))


def cells_of(left: float, right: float, low: float, high: float) -> list[tuple[int, int]]:
    """The squares of the roof that a stretch of it reaches into.  Source: arithmetic"""
    first, last, bottom, top = int(left // CELL), int(right // CELL), int(low // CELL), int(high // CELL)
    if first == last and bottom == top:
        return [(first, bottom)]
    return [(i, j) for i in range(first, last + 1) for j in range(bottom, top + 1)]


@dataclass(frozen=True, slots=True)
class Over:
    """A lap of a detail: the ply that it lies on, its exposed edge in plan [m], followed up the wall."""

    lap: Lap
    bed: str
    line: tuple[XY, XY]


def detail_joints(
    laps: Sequence[Lap],
    details: Sequence[Detail],
    areas: Sequence[Area],
    frames: Mapping[str, Frame],
    assembly: Assembly,
    rules: Rules,
) -> list[TJoint]:
    """Every place where a lap between details, or a foot of one, crosses a lap of the ply that they lie on.

    Source: common practice, no source; geometry
    Checked: tests/layout/test_detail_joints.py
    """
    by_id = {one.id: one for one in details}
    beds = make_beds(laps, by_id, frames, rules.valley_back_ticks / TICKS)
    found: list[TJoint] = []
    for over in overs(laps, by_id, areas, assembly, rules):
        met = sorted(
            (share, number)
            for (_, ply), bed in beds.items()
            if ply == over.bed
            for share, number in crossed(bed, bed.edge(over.line))
        )
        found += joints_at(over, met, laps)
    return found


def make_beds(
    laps: Sequence[Lap], details: Mapping[str, Detail], frames: Mapping[str, Frame], back: float
) -> dict[tuple[str, str], Bed]:
    """The laps of the field by area and ply, those over ridges and onto valley sheets among them.

    Of the end laps of valley sheets as much as the courses leave open, that far to either side of the line [m].
    """
    found: dict[tuple[str, str], Bed] = {}
    for number, lap in enumerate(laps):
        over = details.get(lap.pieces[1])
        if over is None or over.kind == "valley":
            line = lap.line if over is None else about_the_middle(lap.line, back)
            found.setdefault((lap.area, lap.ply), Bed(frames[lap.area])).add(number, line)
    return found


def about_the_middle(line: tuple[XY, XY], far: float) -> tuple[XY, XY]:
    """So much of a line to either side of its middle.  Source: geometry"""
    (x0, y0), (x1, y1) = line
    part = min(0.5, far / math.dist(*line))
    low, high = 0.5 - part, 0.5 + part
    return ((x0 + (x1 - x0) * low, y0 + (y1 - y0) * low), (x0 + (x1 - x0) * high, y0 + (y1 - y0) * high))


def overs(
    laps: Iterable[Lap], details: Mapping[str, Detail], areas: Sequence[Area], assembly: Assembly, rules: Rules
) -> Iterator[Over]:
    """Laps between details that lie on a ply, and the feet of details on it.

    Not among the first: valley sheets, whose T-joints are those of the laps between planes, and strips about a scupper,
    which stand on the wall.
    """
    rise = turn_up(rules, under_cap=False) / TICKS
    kinds = {(area.name, f"side {edge.side}"): edge.kind for area in areas for edge in area.edges}
    for lap in laps:
        one, two = (details.get(id) for id in lap.pieces)
        bed = bed_of(two, assembly)
        if bed is None:
            continue
        if one is None or one.kind == "valley":
            yield Over(lap, bed, lap.line)
            continue
        if one.line is None and one.at is None:
            continue
        is_up = one.kind == "flashing" and kinds.get((one.area, one.of), "parapet") in TURNED_UP
        yield Over(lap, bed, followed(lap.line, rise) if is_up else lap.line)


def followed(line: tuple[XY, XY], rise: float) -> tuple[XY, XY]:
    """A line that begins at a wall, begun so far up it, laid flat.  Source: geometry"""
    (x0, y0), (x1, y1) = line
    more = rise / math.dist(*line)
    return ((x0 - (x1 - x0) * more, y0 - (y1 - y0) * more), (x1, y1))


def crossed(bed: Bed, edge: Segment) -> Iterator[tuple[float, int]]:
    """Where an edge crosses the laps of a bed: its share and the lap's number."""
    for number, other in bed.near(edge):
        share = meeting_share(edge, other)
        if share is not None:
            yield share, number


def meeting_share(one: Segment, other: Segment) -> float | None:
    """How far along the first of two edges they cross, as a share of it; None where they do not, or run alike.

    Source: geometry
    Checked: tests/layout/test_detail_joints.py
    """
    (ax, ay), (bx, by), (cx, cy), (dx, dy) = *one, *other
    (px, py), (qx, qy) = (bx - ax, by - ay), (dx - cx, dy - cy)
    long, wide = math.hypot(px, py), math.hypot(qx, qy)
    cross = px * qy - py * qx
    if abs(cross) < 1e-6 * long * wide:
        return None
    share = ((cx - ax) * qy - (cy - ay) * qx) / cross
    along = ((cx - ax) * py - (cy - ay) * px) / cross
    is_met = -HAIR <= share * long <= long + HAIR and -HAIR <= along * wide <= wide + HAIR
    return share if is_met else None


def joints_at(over: Over, met: Iterable[tuple[float, int]], laps: Sequence[Lap]) -> Iterator[TJoint]:
    """A T-joint at each place; where several laps of the field meet in one place, with the first of them."""
    (x0, y0), (x1, y1) = over.line
    last = -math.inf
    for share, number in met:
        here = share * math.dist(*over.line) * TICKS
        if here - last > GRAZING:
            last, under = here, laps[number]
            at = (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)
            name = f"{over.lap.id}/on {under.id}"
            yield TJoint(name, under.area, under.ply, at, (over.lap.id, under.id), "detail")
