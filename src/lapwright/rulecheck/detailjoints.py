"""The rule about T-joints of details: each place where a lap between details crosses a lap of the ply that they lie on.

Where the edges of those laps lie is worked out from the sizes and places of the details, where the laps of the field
lie from how its pieces do.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from shapely import Point

from lapwright.assembly.values import Ply
from lapwright.roof.values import Area
from lapwright.rulecheck.details import Row
from lapwright.rulecheck.feet import foot_edges, foot_laps
from lapwright.rulecheck.ground import turn_up_of
from lapwright.rulecheck.lapedges import Edge, bed_of, edges_of
from lapwright.rulecheck.laplist import LapBook
from lapwright.rulecheck.limits import Limits
from lapwright.rulecheck.read import GivenLap, GivenPlan, GivenTJoint
from lapwright.rulecheck.values import XY, Violation

ONE_PLACE = 0.01  # edges of the field that cross so near to one another make one T-joint [m]


@dataclass(frozen=True, slots=True)
class Crossing:
    """Where the edge of a detail's lap crosses a lap of the field: the plan point, and whether it surely does.

    until: where the two run alike, within the tolerance, the far end of that stretch.
    """

    at: XY
    is_sure: bool
    until: XY | None = None

    def off(self, at: XY) -> float:
        """How far a point lies from it."""
        return math.dist(self.at, at) if self.until is None else _off((self.at, self.until), at)


def detail_lap_ids(plan: GivenPlan) -> frozenset[str]:
    """Ids of the listed laps between two details, or of a detail on the field, none of them a valley sheet.

    Source: docs/method/rulecheck.md
    """
    known = {one.id for one in plan.details if one.kind != "valley"}
    feet = {lap.id for laps in foot_laps(plan).values() for lap in laps}
    return frozenset(feet | {lap.id for lap in plan.laps if known.issuperset(lap.pieces)})


def detail_joint_violations(
    plan: GivenPlan,
    areas: Sequence[Area],
    plies: Sequence[Ply],
    rows: Sequence[Row],
    books: Sequence[LapBook],
    across: frozenset[str],
    limits: Limits,
) -> Iterator[Violation]:
    """T-joints of details that are not listed, listed where there is none, or that name other laps.

    across: ids of the laps between planes.
    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_detail_joint_rule.py
    """
    laps = {lap.id: lap for lap in plan.laps}
    lines = [lap for lap in plan.laps if lap.id in across]
    lines += list(_open_in_valleys(plan, limits.valley_back))
    beds = [Bed(book, [lap for lap in lines if lap.ply == book.lie.ply.ply]) for book in books]
    rise = turn_up_of(limits, is_under_cap=False)
    left: dict[str, list[GivenTJoint]] = {}
    ours = detail_lap_ids(plan)
    for joint in plan.tjoints:
        for id in ours.intersection(joint.laps):
            left.setdefault(id, []).append(joint)
    for edge in (*edges_of(plan, areas, plies, rows, rise), *foot_edges(plan)):
        name = bed_of(edge.over, plies)
        found = [one for bed in beds if name == bed.book.lie.ply.ply for one in bed.crossings(edge)]
        listed = left.pop(edge.lap.id, [])
        yield from _missing(edge.lap, found, listed, limits)
        yield from _idle(edge.lap, found, listed, laps, limits)


def _open_in_valleys(plan: GivenPlan, back: float) -> Iterator[GivenLap]:
    """End laps of valley sheets, as much of their edges as the courses leave open on either side of the line."""
    valleys = {one.id for one in plan.details if one.kind == "valley"}
    for lap in plan.laps:
        long = math.dist(*lap.line)
        if valleys.issuperset(lap.pieces) and long > 0.0:
            (x0, y0), (x1, y1) = lap.line
            x, y, half = (x0 + x1) / 2, (y0 + y1) / 2, min(back / long, 0.5)
            dx, dy = (x1 - x0) * half, (y1 - y0) * half
            yield replace(lap, line=((x - dx, y - dy), (x + dx, y + dy)))


class Bed:
    """The laps of one ply on one area, ready to be crossed."""

    def __init__(self, book: LapBook, across: Sequence[GivenLap]) -> None:
        """across: laps of the ply between planes and in valleys, wherever they lie."""
        self.book, self.across = book, across
        self.sides = sorted(book.sides.values(), key=lambda side: side.v)
        self.ends = sorted(book.ends.values(), key=lambda end: end.joint)
        self.levels = [side.v for side in self.sides]
        self.places = [end.joint for end in self.ends]

    def crossings(self, edge: Edge) -> Iterator[Crossing]:
        """Where an edge crosses them."""
        lie, close = self.book.lie, self.book.lie.limits.close * 2
        one, two = (lie.slope.uv(point) for point in edge.line)
        (low_u, high_u), (low_v, high_v) = (sorted((a, b)) for a, b in zip(one, two, strict=True))
        for side in self.sides[bisect_left(self.levels, low_v - close) : bisect_right(self.levels, high_v + close)]:
            if high_v - low_v > close:
                share = (side.v - one[1]) / (two[1] - one[1])
                at = (one[0] + (two[0] - one[0]) * share, side.v)
                spans = [[_room(at[0], span) for span in choice] for choice in side.choices]
                rooms = [max(some, default=-math.inf) for some in spans]
                yield from self._crossing(at, [min(rooms), _inside(share, edge)], [max(rooms), _inside(share, edge)])
            else:
                alongs = [span for choice in side.choices for span in choice]
                yield from self._alike([((a, side.v), (b, side.v)) for a, b in _shared((low_u, high_u), alongs)])
        for end in self.ends[bisect_left(self.places, low_u - close) : bisect_right(self.places, high_u + close)]:
            if high_u - low_u > close:
                share = (end.joint - one[0]) / (two[0] - one[0])
                at = (end.joint, one[1] + (two[1] - one[1]) * share)
                rooms = [_room(at[1], (end.low, end.high)), _inside(share, edge)]
                yield from self._crossing(at, [*rooms, self._on_ground(at)], rooms)
            else:
                shared = _shared((low_v, high_v), [(end.low, end.high)])
                yield from self._alike([((end.joint, a), (end.joint, b)) for a, b in shared])
        yield from self._over_lines(edge)

    def _alike(self, stretches: Iterable[tuple[XY, XY]]) -> Iterator[Crossing]:
        """An edge that runs along a lap may meet it anywhere on the stretch of both, or nowhere."""
        plan = self.book.lie.slope.plan
        yield from (Crossing(plan(*one), False, plan(*two)) for one, two in stretches)

    def _crossing(self, at: XY, surely: Sequence[float], perhaps: Sequence[float]) -> Iterator[Crossing]:
        gap = self.book.lie.limits.gap
        if min(perhaps) >= -gap:
            yield Crossing(self.book.lie.slope.plan(*at), min(surely) > gap)

    def _on_ground(self, at: XY) -> float:
        """How far within the ply's ground a point lies; 0 where it is off it."""
        reach = self.book.lie.ground.reach
        return float(reach.boundary.distance(Point(at))) if reach.contains(Point(at)) else 0.0

    def _over_lines(self, edge: Edge) -> Iterator[Crossing]:
        """Laps between planes and in valleys: they are as they are listed, which is judged elsewhere."""
        (ax, ay), (bx, by) = edge.line
        for lap in self.across:
            (cx, cy), (dx, dy) = lap.line
            cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
            if lap.area != self.book.lie.area.name or abs(cross) < 1e-6 * math.dist(*edge.line) * math.dist(*lap.line):
                continue
            share = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
            along = ((cx - ax) * (by - ay) - (cy - ay) * (bx - ax)) / cross
            room = min(along, 1.0 - along) * math.dist(*lap.line)
            at = (ax + (bx - ax) * share, ay + (by - ay) * share)
            if min(room, _inside(share, edge)) >= -ONE_PLACE:
                yield Crossing(at, min(room, _inside(share, edge)) > ONE_PLACE)


def _room(at: float, span: tuple[float, float]) -> float:
    """How far within a stretch a place lies; below 0 outside it."""
    return min(at - span[0], span[1] - at)


def _shared(span: tuple[float, float], others: Iterable[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    """What a stretch has in common with each of others."""
    for low, high in others:
        if max(span[0], low) <= min(span[1], high):
            yield max(span[0], low), min(span[1], high)


def _inside(share: float, edge: Edge) -> float:
    """How far within an edge a share of it lies."""
    return min(share, 1.0 - share) * math.dist(*edge.line)


def _missing(
    lap: GivenLap, found: Sequence[Crossing], listed: Sequence[GivenTJoint], limits: Limits
) -> Iterator[Violation]:
    near = ONE_PLACE + 2 * limits.gap
    told = [joint.at for joint in listed]
    for one in found:
        if one.is_sure and not any(math.dist(one.at, at) <= near for at in told):
            told.append(one.at)  # one place is missed once
            text = f"Lap {lap.id} crosses a lap of the field; list the T-joint."
            yield Violation("tjoint", (lap.id,), one.at, "not listed", "a T-joint", text)


def _idle(
    lap: GivenLap,
    found: Sequence[Crossing],
    listed: Sequence[GivenTJoint],
    laps: Mapping[str, GivenLap],
    limits: Limits,
) -> Iterator[Violation]:
    """Joints off every crossing, joints that name no field lap through their place, places that are listed twice."""
    near, taken = 2 * limits.gap, list[XY]()
    for joint in listed:
        others = [laps[id] for id in joint.laps if id in laps and id != lap.id]
        if not any(one.off(joint.at) <= near for one in found):
            text = f"T-joint {joint.id}: its lap crosses no lap of the field there; take it out or move it."
            yield Violation("tjoint", (joint.id,), joint.at, "a T-joint", "none", text)
        elif any(math.dist(at, joint.at) <= near for at in taken):
            text = f"T-joint {joint.id} is listed in its place already; list it once."
            yield Violation("tjoint", (joint.id,), joint.at, "twice", "once", text)
        elif len(joint.laps) != 2 or not any(_off(other.line, joint.at) <= ONE_PLACE for other in others):
            text = f"T-joint {joint.id} does not name the two laps that cross there; name both."
            yield Violation("tjoint", (joint.id,), joint.at, ", ".join(joint.laps), "both laps", text)
        taken.append(joint.at)


def _off(line: tuple[XY, XY], at: XY) -> float:
    """How far a point lies from a line."""
    (x0, y0), (x1, y1) = line
    long = math.dist(*line)
    share = min(1.0, max(0.0, ((at[0] - x0) * (x1 - x0) + (at[1] - y0) * (y1 - y0)) / (long * long or 1.0)))
    return math.dist(at, (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share))
