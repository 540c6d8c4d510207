"""Rules about laps between planes: over ridges, over lines that water runs across, onto valley sheets.

Worked out from how pieces lie: along the end of what lies over, what is on top on either side of the lap.  Places along
a line are distances from its lower numbered end, the start of the side of the area that is judged.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.roof.values import Edge
from lapwright.rulecheck.lie import PlyLie
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.read import GivenLap, GivenPlan, GivenTJoint
from lapwright.rulecheck.values import XY, Violation

GRAZES = 100.0  # a stretch shorter than this many tolerances, 10 mm, may be listed or not
BEYOND = 2.0  # sheets are looked for so far past the ends of a side, where they run up a wall [m]
WITHIN = 1e-3  # the end of a sheet is its outline, right to 1 mm; it is looked at so far within [m]

Seen = tuple[float, float, str]


@dataclass(frozen=True, slots=True)
class Meeting:
    """One pair of what lies over and under along a line, from and to along it [m]."""

    low: float
    high: float
    under: str
    over: str


@dataclass(frozen=True, slots=True)
class Across:
    """A line with a lap along it: its plan ends, its length on the slope, the lap's width, name, and what meets."""

    ply: str
    line: tuple[XY, XY]
    length: float
    width: float
    name: str
    meetings: tuple[Meeting, ...]

    def at(self, along: float) -> XY:
        """The plan point so far along the line."""
        (x0, y0), (x1, y1) = self.line
        share = along / self.length
        return (x0 + (x1 - x0) * share, y0 + (y1 - y0) * share)

    def place(self, at: XY) -> tuple[float, float]:
        """How far along the line and how far off it in plan a point lies."""
        (x0, y0), (x1, y1) = self.line
        plan = math.dist(*self.line)
        dx, dy = (x1 - x0) / plan, (y1 - y0) / plan
        along = (at[0] - x0) * dx + (at[1] - y0) * dy
        return along * self.length / plan, abs((at[1] - y0) * dx - (at[0] - x0) * dy)


def plane_lap_ids(plan: GivenPlan) -> frozenset[str]:
    """Ids of the listed laps that join pieces of two areas, or a piece and a valley sheet.

    Source: docs/method/rulecheck.md
    """
    area = {piece.id: ply.area for ply in plan.plies for piece in ply.pieces}
    valleys = {one.id for one in plan.details if one.kind == "valley"}
    found = []
    for lap in plan.laps:
        areas = [area[id] for id in lap.pieces if id in area]
        is_on_valley = len(areas) == 1 and any(id in valleys for id in lap.pieces)
        if is_on_valley or len(set(areas)) == 2:
            found.append(lap.id)
    return frozenset(found)


def plane_lap_violations(plan: GivenPlan, lies: Sequence[PlyLie], ids: frozenset[str]) -> Iterator[Violation]:
    """Laps between planes, and T-joints in them, that are missing, too many, or other than they lie.

    ids: of the laps that are listed as such.
    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_planelap_rule.py
    """
    by_key = {(lie.area.name, lie.ply.ply): (k, lie) for k, lie in enumerate(lies)}
    lines = [line for k, lie in enumerate(lies) for line in _lines(plan, k, lie, by_key)]
    listed = [lap for lap in plan.laps if lap.id in ids]
    by_pair: dict[frozenset[str], list[GivenLap]] = {}
    for lap in listed:
        by_pair.setdefault(frozenset(lap.pieces), []).append(lap)
    close = lies[0].limits.close if lies else 0.0
    asked = {frozenset((one.under, one.over)) for line in lines for one in line.meetings}
    for lap in listed:
        if frozenset(lap.pieces) not in asked:
            text = f"Lap {lap.id}: its pieces do not lie on one another; take it out."
            yield Violation("plane_lap", (lap.id, *lap.pieces), lap.line[0], "a lap", "none", text)
    for line in lines:
        yield from _listed(line, by_pair, close)
    yield from _joints(plan, lines, by_pair, close)


def _lines(
    plan: GivenPlan, k: int, lie: PlyLie, by_key: Mapping[tuple[str, str], tuple[int, PlyLie]]
) -> Iterator[Across]:
    """The laps of one ply of one area over its lines with other areas; each line is told by the area that is over."""
    for edge in lie.area.edges:
        place, other = by_key.get((edge.meets, lie.ply.ply), (-1, lie))
        if place < 0:
            continue
        if edge.kind == "valley":
            yield _in_valley(plan, lie, edge)
        elif edge.is_over or (edge.kind == "ridge" and place < k):
            yield _over(lie, edge, other)


def _in_valley(plan: GivenPlan, lie: PlyLie, edge: Edge) -> Across:
    """What ends on the sheets of a valley."""
    back = lie.limits.valley_back
    start, end = _beside(lie, edge, -back)
    over = _on_top(lie, edge, -back - WITHIN)
    line = (lie.slope.plan(*start), lie.slope.plan(*end))
    empty = Across(lie.ply.ply, line, math.dist(start, end), metres(lie.sheet.width_ticks // 2) - back, "", ())
    sheets = []
    for one in plan.details:
        if one.kind == "valley" and one.ply == lie.ply.ply and one.line and _is_near(empty, one.line, back):
            begins, ends = (empty.place(point)[0] for point in one.line)
            sheets.append((min(begins, ends), max(begins, ends), one.id, begins < ends))
    name = f"the {lie.name} onto the valley at side {edge.side}"
    return _filled(empty, name, _topmost(sheets), over)


def _is_near(line: Across, ends: tuple[XY, XY], off: float) -> bool:
    """A valley sheet's line is the valley's: as far from the lap's edge as that is held back, in plan."""
    places = [line.place(point) for point in ends]
    is_beside = all(abs(away - off) < 0.02 for _, away in places)
    return is_beside and min(a for a, _ in places) < line.length and max(a for a, _ in places) > 0.0


def _topmost(sheets: Sequence[tuple[float, float, str, bool]]) -> list[Seen]:
    """What shows of the sheets of a valley: each is drawn from its low end up, and lies on the one below it."""
    found: list[Seen] = []
    for low, high, id, is_drawn_along in sorted(sheets):
        if found and found[-1][1] > low:
            if is_drawn_along:
                found[-1] = (found[-1][0], low, found[-1][2])
            else:
                low = found[-1][1]
        found.append((low, high, id))
    return found


def _over(lie: PlyLie, edge: Edge, other: PlyLie) -> Across:
    """What runs out over the line onto the other plane's pieces; the line is drawn on that plane."""
    across = min(
        (one for one in other.area.edges if one.meets == lie.area.name),
        key=lambda one: min(
            sum(math.dist(a, b) for a, b in zip(pair, (edge.start, edge.end), strict=True))
            for pair in ((one.start, one.end), (one.end, one.start))
        ),
    )
    reach, beyond = lie.limits.over_ridge, lie.limits.over_ridge if across.kind == "ridge" or across.is_over else 0.0
    start, end = _beside(other, across, -reach)
    under = _on_top(other, across, -reach)
    over = _on_top(lie, edge, reach - WITHIN)
    # planes of unlike slope do not quite meet in one line of one length
    length = math.dist(start, end)
    scale = length / math.dist(*_beside(lie, edge, 0.0))
    over = [(low * scale, high * scale, id) for low, high, id in over]
    if math.dist(across.start, edge.start) > math.dist(across.start, edge.end):
        over = [(length - high, length - low, id) for low, high, id in reversed(over)]
    line = (other.slope.plan(*start), other.slope.plan(*end))
    empty = Across(lie.ply.ply, line, math.dist(start, end), reach + beyond, "", ())
    return _filled(empty, f"the {lie.name} over side {edge.side}", under, over)


def _filled(empty: Across, name: str, under: Sequence[Seen], over: Sequence[Seen]) -> Across:
    meetings = [
        Meeting(max(a, c), min(b, d), below, above)
        for a, b, below in under
        for c, d, above in over
        if min(b, d) - max(a, c) > 0.0
    ]
    meetings.sort(key=lambda one: one.low)
    return Across(empty.ply, empty.line, empty.length, empty.width, name, tuple(meetings))


def _beside(lie: PlyLie, edge: Edge, off: float) -> tuple[XY, XY]:
    """The ends of a side on the slope, moved outwards."""
    start, end = (lie.slope.uv((metres(x), metres(y))) for x, y in (edge.start, edge.end))
    ring = lie.area.outline
    area2 = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*ring, ring[0])))
    length, sense = math.dist(start, end), 1.0 if area2 > 0 else -1.0
    out = ((end[1] - start[1]) / length * sense * off, -(end[0] - start[0]) / length * sense * off)
    return (start[0] + out[0], start[1] + out[1]), (end[0] + out[0], end[1] + out[1])


def _on_top(lie: PlyLie, edge: Edge, off: float) -> list[Seen]:
    """What shows along a line so far outward of a side: of pieces on one another the one laid last, in order.

    Past an end of the side only where no other plane begins.
    """
    start, end = _beside(lie, edge, off)
    length = math.dist(start, end)
    way = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    joined = {point for one in lie.area.edges if one.meets and one.side != edge.side for point in (one.start, one.end)}
    more = (0.0 if edge.start in joined else -BEYOND, 0.0 if edge.end in joined else BEYOND)
    ends = [(at[0] + way[0] * far, at[1] + way[1] * far) for at, far in zip((start, end), more, strict=True)]
    left: Shape = LineString(ends)
    found: list[Seen] = []
    for lying in sorted(lie.lying, key=lambda one: -one.given.sequence):
        shape = lie.own[lying.id]
        cut = left.intersection(shape)
        parts = [part for part in getattr(cut, "geoms", [cut]) if part.geom_type == "LineString" and part.length > 0.0]
        for part in parts:
            far = sorted((u - start[0]) * way[0] + (v - start[1]) * way[1] for u, v in part.coords)
            found.append((far[0], far[-1], lying.id))
        if parts:
            left = left.difference(shape)
    return sorted(found)


def _listed(line: Across, by_pair: Mapping[frozenset[str], Sequence[GivenLap]], close: float) -> Iterator[Violation]:
    """Each pair that meets along a line is listed over the stretches where it does, as wide as it is."""
    pairs: dict[tuple[str, str], list[Meeting]] = {}
    for one in line.meetings:
        pairs.setdefault((one.under, one.over), []).append(one)
    for (under, over), meetings in pairs.items():
        laps = by_pair.get(frozenset((under, over)), ())
        needs, read = sum(one.high - one.low for one in meetings), sum(lap.length for lap in laps)
        if abs(read - needs) > GRAZES * close and (laps or needs > GRAZES * close):
            text = (
                f"{line.name}: the lap of {over} on {under} is listed over {{read}}, it is {{needs}}; list all of it."
            )
            where = line.at(meetings[0].low)
            yield Violation("plane_lap", (*(lap.id for lap in laps), under, over), where, read, needs, _capital(text))
            continue
        for lap in laps:
            yield from _sizes(line, lap, close)


def _sizes(line: Across, lap: GivenLap, close: float) -> Iterator[Violation]:
    off = max(line.place(point)[1] for point in lap.line)
    if off > 10 * close:
        text = f"Lap {lap.id}: its line is {{read}} off the end of the sheet over it; draw it there."
        yield Violation("plane_lap", (lap.id,), lap.line[0], off, 0.0, text)
    begins, ends = (line.place(point)[0] for point in lap.line)
    for name, read, needs in (("width", lap.width, line.width), ("length", lap.length, abs(ends - begins))):
        if abs(read - needs) > 10 * close:
            text = f"Lap {lap.id}: {name} {{read}}, but it is {{needs}}; write what it is."
            yield Violation("plane_lap", (lap.id,), lap.line[0], read, needs, text)


def _joints(
    plan: GivenPlan, lines: Sequence[Across], by_pair: Mapping[frozenset[str], Sequence[GivenLap]], close: float
) -> Iterator[Violation]:
    """Every place along a line where another piece begins, a lap between the two listed, is a T-joint; no other is.

    Those on either side of a stretch that grazes may be listed as if it were not there.
    by_pair: laps between planes by the pieces that they join.
    """
    between = {frozenset(lap.pieces): lap.id for lap in plan.laps}
    ids = {lap.id for laps in by_pair.values() for lap in laps}
    left = [joint for joint in plan.tjoints if ids.intersection(joint.laps)]
    for line in lines:
        own = {lap.id for one in line.meetings for lap in by_pair.get(frozenset((one.under, one.over)), ())}
        for one, two, lap in changes_along(line.meetings, between, GRAZES * close):
            at = line.at(two.low)
            here = _found(left, lap, own, at, 2 * GRAZES * close)
            if here is not None:
                left.remove(here)
            elif min(one.high - one.low, two.high - two.low) > GRAZES * close:
                text = f"{line.name}: lap {lap} ends in that lap; list the T-joint."
                yield Violation("tjoint", (lap,), at, "not listed", "a T-joint", _capital(text))
        real = [one for one in line.meetings if one.high - one.low > GRAZES * close]
        for one, two, lap in changes_along(real, between, GRAZES * close):
            here = _found(left, lap, own, line.at(two.low), 2 * GRAZES * close) if one.high < two.low else None
            if here is not None:
                left.remove(here)
    for joint in left:
        text = f"T-joint {joint.id}: no lap ends in a lap between planes there; take it out or move it."
        yield Violation("tjoint", (joint.id,), joint.at, "a T-joint", "none", text)


def changes_along(
    meetings: Sequence[Meeting], between: Mapping[frozenset[str], str], near: float
) -> Iterator[tuple[Meeting, Meeting, str]]:
    """Meetings that follow one another no farther than `near` apart, where two pieces that change share a listed lap.

    between: listed laps by the pieces that they join.
    Source: docs/method/rulecheck.md
    """
    for one, two in pairwise(meetings):
        for pair in (frozenset((one.under, two.under)), frozenset((one.over, two.over))):
            if len(pair) == 2 and pair in between and two.low - one.high <= near:
                yield one, two, between[pair]


def _found(joints: Sequence[GivenTJoint], lap: str, across: set[str], at: XY, near: float) -> GivenTJoint | None:
    """A T-joint near a place that names a lap and one of those across the line, since two lines may end near there."""
    here = (one for one in joints if lap in one.laps and across.intersection(one.laps))
    return next((one for one in here if math.dist(one.at, at) <= near), None)


def _capital(text: str) -> str:
    return text[0].upper() + text[1:]
