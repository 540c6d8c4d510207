"""T-joints of details: where a lap between details, or the foot of one, crosses a lap of the field.

*Bed*: the ply that a detail lies on.  The lap's exposed edge runs over the laps of that ply; each place where the two
edges cross lies three sheets thick and more.  The field turns up at a wall, so the edge of a lap between flashing
pieces is followed on up the cant as far as the ply goes, laid flat like the ply.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from lapwright.assembly.values import Assembly
from lapwright.defaults.values import Rules
from lapwright.layout.feet import bed_of
from lapwright.layout.laps import GRAZING, TICKS
from lapwright.layout.plain import plain
from lapwright.layout.region import turn_up
from lapwright.layout.values import XY, Detail, Frame, Lap, TJoint
from lapwright.roof.values import Area

HAIR = 1.0  # edges that end a tick short of one another meet
TURNED_UP = ("parapet", "wall")

UV = tuple[float, float]
Segment = tuple[UV, UV]
Edges = np.ndarray[Any, np.dtype[np.float64]]
Shapes = np.ndarray[Any, np.dtype[np.object_]]


@dataclass(slots=True)
class Bed:
    """Laps of one ply on one area: the area's frame, their numbers, and their edges in plan [m]."""

    frame: Frame
    numbers: list[int] = field(default_factory=list)
    lines: list[tuple[XY, XY]] = field(default_factory=list)

    def crossed(self, lines: Sequence[tuple[XY, XY]]) -> Iterator[tuple[int, float, int]]:
        """Where edges in plan [m] cross the laps: the edge's place among them, its share, the lap's number."""
        from shapely import STRtree  # shapely is heavy; the readers never need it

        edges, laps = edges_in(self.frame, lines), edges_in(self.frame, self.lines)
        is_askew = (np.abs(laps[:, 0] - laps[:, 2]) >= HAIR) & (np.abs(laps[:, 1] - laps[:, 3]) >= HAIR)
        near = STRtree(boxes(laps, np.where(is_askew, 2.0 * HAIR, HAIR))).query(boxes(edges, np.zeros(len(edges))))
        for k, place in near.T.tolist():
            share = meeting_share(as_segment(edges[k]), as_segment(laps[place]))
            if share is not None:
                yield k, share, self.numbers[place]


def edges_in(frame: Frame, lines: Sequence[tuple[XY, XY]]) -> Edges:
    """Lines in plan [m] in a frame [ticks], shape (lines, 4): from u, v to u, v.  Source: geometry"""
    x0, y0, x1, y1 = np.asarray(lines, dtype=float).reshape(-1, 4).T * TICKS
    return np.column_stack([*frame.slope_uv(x0, y0), *frame.slope_uv(x1, y1)])


def as_segment(edge: Edges) -> Segment:
    """One row of edges.  Source: arithmetic"""
    u0, v0, u1, v1 = edge.tolist()
    return ((u0, v0), (u1, v1))


def boxes(edges: Edges, more: Edges) -> Shapes:
    """Boxes about edges, as much wider on every side as each is given more [ticks].  Source: geometry"""
    from shapely import box

    left, right = np.minimum(edges[:, 0], edges[:, 2]), np.maximum(edges[:, 0], edges[:, 2])
    low, high = np.minimum(edges[:, 1], edges[:, 3]), np.maximum(edges[:, 1], edges[:, 3])
    made: Shapes = box(left - more, low - more, right + more, high + more)
    return made


@plain
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
    told = list(overs(laps, by_id, areas, assembly, rules))
    met: list[list[tuple[float, int]]] = [[] for _ in told]
    for (_, ply), bed in beds.items():
        places = [k for k, over in enumerate(told) if over.bed == ply]
        for k, share, number in bed.crossed([told[place].line for place in places]):
            met[places[k]].append((share, number))
    return [joint for over, places in zip(told, met, strict=True) for joint in joints_at(over, sorted(places), laps)]


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
            bed = found.setdefault((lap.area, lap.ply), Bed(frames[lap.area]))
            bed.numbers.append(number)
            bed.lines.append(lap.line if over is None else about_the_middle(lap.line, back))
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
