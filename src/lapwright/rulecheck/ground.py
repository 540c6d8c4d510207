"""The ground of a ply: where it has to lie and how far it may run, on the slope.

*Moved* outline: each side shifted along its outward normal by what the edge of its kind asks.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from shapely import MultiPolygon, Polygon, box, prepare, union_all
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.roof.cutouts import cut_outs
from lapwright.roof.values import Area, Edge
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.slope import Box, Slope, box_of
from lapwright.rulecheck.values import XY
from lapwright.rulecheck.wide import depth

WALLS = ("parapet", "wall")
# A mitre that runs farther along a blunt corner than this many times the larger shift becomes a step.
LONGEST_MITRE = 4.0
PARALLEL = 1e-9
SAME = 1e-6  # corners of an upright opening, one above the other


@dataclass(frozen=True, slots=True)
class Hole:
    """The hole at an opening, on the slope: its name, its outline, the box round it, where its corners are along u.

    The ply turns up there, so it is smaller than the opening; openings that touch make one, by the names of all.
    below: how far up the ground straight below it reaches; above: how far down that straight above it does.  Only for
    one that stands askew these are not its low and its high side.  is_inside: the ground goes on all round it.
    """

    name: str
    shape: Polygon
    box: Box
    corners_u: tuple[float, ...]
    below: float
    above: float
    is_inside: bool = True

    def is_passed(self, strip: tuple[float, float], room: float, close: float) -> bool:
        """An end lap whose sheets both lie within `strip` along u passes the opening clear of its corners.

        Where no two neighbouring corners are as far apart as `room`, between the outermost ones is enough.
        """
        if strip[0] < self.box[0] - close or strip[1] > self.box[2] + close:
            return False
        has_room = any(two - one >= room for one, two in pairwise(self.corners_u))
        return not has_room or not any(strip[0] + close < corner < strip[1] - close for corner in self.corners_u)

    def is_within(self, low: float, high: float, covered: tuple[float, ...], close: float, *, surely: bool) -> bool:
        """The hole lies wholly inside a sheet between two levels, and is no notch of it.

        covered: how much of the sheet the neighbouring courses cover at its low and its high side.  Where all that lies
        between the hole and a long side is no wider, it is a notch: that strip is cut away.  One that stands askew and
        comes so near to both long sides with its corners splits the run.
        surely: a hole with one corner so near to a long side is none either, since a cut from it to that side lies on
        the neighbouring course.
        """
        _, v0, _, v1 = self.box
        to_low, to_high = v0 - low <= covered[0] + close, high - v1 <= covered[1] + close
        if surely:
            is_notch = to_low or to_high
        else:
            is_notch = self.below - low <= covered[0] + close or high - self.above <= covered[1] + close
        is_between = self.is_inside and low + close < v0 and v1 < high - close
        return is_between and not is_notch and not (to_low and to_high)


@dataclass(frozen=True, slots=True)
class Side:
    """A side of the outline on the slope: its number, kind, ends (outline counter-clockwise), shift outwards [m].

    is_joined: it is one edge with a side of another area.
    """

    number: int
    kind: str | None
    start: XY
    end: XY
    shift: float
    is_joined: bool = False

    def strip(self) -> Polygon:
        """What lies straight outwards of the side, as deep as its shift."""
        x, y = _outward(self.start, self.end)
        out = (x * self.shift, y * self.shift)
        far_end, far_start = _plus(self.end, out), _plus(self.start, out)
        return Polygon([self.start, self.end, far_end, far_start])


@dataclass(frozen=True, slots=True)
class Ground:
    """The ground of one ply on one area.

    reach: how far it may run, openings taken out; must: what it has to cover; core: the part of `must` within the
    outline.  depth: lowest and highest v that the ply reaches.
    """

    sides: tuple[Side, ...]
    holes: tuple[Hole, ...]
    reach: Shape
    must: Shape
    core: Shape
    low: float
    high: float


def ground_of(area: Area, slope: Slope, limits: Limits, *, is_cap: bool, is_under_cap: bool) -> Ground:
    """The ground of a ply from the edges of its area."""
    sides = _sides(area, slope, limits, is_cap=is_cap, is_under_cap=is_under_cap)
    whole = _moved(sides, [side.shift for side in sides])
    holes = tuple(_holes(area, slope, limits, turn_up_of(limits, is_under_cap=is_under_cap and not is_cap), whole))
    cut_out = union_all([hole.shape for hole in holes]) if holes else Polygon()
    core = _moved(sides, [min(side.shift, 0.0) for side in sides])
    strips = [side.strip() for side in sides if side.shift > 0.0]
    # beyond the corners nothing is asked: there sheets are cut and folded
    must = whole.intersection(union_all([core, *strips])).difference(cut_out)
    reach = whole.difference(cut_out)
    prepare(reach)
    _, low, _, high = whole.bounds if reach.is_empty else reach.bounds
    return Ground(sides, holes, reach, must, core, low, high)


def shift_of(edge: Edge, limits: Limits, *, is_under_cap: bool) -> float:
    """How far beyond a side's line a ply ends; below 0 where it is held back."""
    kind = edge.kind
    if edge.meets:
        # a line between two planes: away from a valley's water, over a ridge, and over the line that water runs across
        return {"valley": -limits.valley_back, "ridge": limits.over_ridge}.get(
            kind or "", limits.over_ridge if edge.is_over else 0.0
        )
    if kind == "metal_edge":
        return limits.base_over_edge if is_under_cap else -limits.cap_back_from_edge
    if kind in WALLS:
        return turn_up_of(limits, is_under_cap=is_under_cap)
    return 0.0


def turn_up_of(limits: Limits, *, is_under_cap: bool) -> float:
    """How far beyond the line of a wall or curb a ply ends, laid flat."""
    return limits.turn_up + (limits.base_up_wall if is_under_cap else limits.cap_up_wall)


def _sides(area: Area, slope: Slope, limits: Limits, *, is_cap: bool, is_under_cap: bool) -> tuple[Side, ...]:
    """The sides on the slope, counter-clockwise."""
    corners = [slope.uv((metres(x), metres(y))) for x, y in area.outline]
    numbered = list(zip(range(1, len(corners) + 1), area.edges, pairwise([*corners, corners[0]]), strict=True))
    if _area2(corners) < 0:
        numbered = [(number, edge, (end, start)) for number, edge, (start, end) in reversed(numbered)]
    asks_turned_down = is_under_cap and not is_cap
    return tuple(
        Side(number, edge.kind, start, end, shift_of(edge, limits, is_under_cap=asks_turned_down), bool(edge.meets))
        for number, edge, (start, end) in numbered
        if start != end
    )


def _holes(area: Area, slope: Slope, limits: Limits, turn_up: float, whole: Shape) -> Iterator[Hole]:
    """What openings leave of themselves as holes, once the ply turns up at them; none where that is too shallow."""
    shapes = [
        (cut.name, union_all([Polygon([slope.uv((metres(x), metres(y))) for x, y in ring]) for ring in cut.rings]))
        for cut in cut_outs(area)
    ]
    taken = union_all([shape for _, shape in shapes]) if shapes else Polygon()
    for part in getattr(taken, "geoms", [taken]):
        names = " and ".join(name for name, shape in shapes if shape.intersection(part).area > 0.0)
        left = part.buffer(-turn_up, join_style="mitre")
        for hole in getattr(left, "geoms", [left]):
            if not hole.is_empty and depth(hole) > limits.slit_depth and hole.intersects(whole):
                yield replace(_hole(names, hole), is_inside=bool(whole.contains_properly(hole)))


def _hole(name: str, shape: Polygon) -> Hole:
    corners = list(shape.exterior.coords[:-1])
    found = box_of(corners)
    ends = [[v for u, v in corners if abs(u - end) < SAME] for end in (found[0], found[2])]
    below, above = max(min(levels) for levels in ends), min(max(levels) for levels in ends)
    # a level side at the bottom or the top, however its corners are cut off, leaves a strip as wide as it everywhere
    below = found[1] if _is_level(corners, found[1]) else below
    above = found[3] if _is_level(corners, found[3]) else above
    return Hole(name, shape, found, tuple(sorted(u for u, _ in corners)), below, above)


def _is_level(corners: Sequence[XY], level: float) -> bool:
    return sum(abs(v - level) < SAME for _, v in corners) > 1


def _moved(sides: Sequence[Side], shifts: Sequence[float]) -> Shape:
    """The outline with each side shifted outwards, corners mitred; the largest part where a shift closes a neck."""
    ring: list[XY] = []
    before = list(zip([*sides[-1:], *sides[:-1]], [*shifts[-1:], *shifts[:-1]], strict=True))
    for (one, shift_one), (two, shift_two) in zip(before, zip(sides, shifts, strict=True), strict=True):
        ring += _corner(one, shift_one, two, shift_two)
    shape = Polygon(ring)
    if not shape.is_valid:
        shape = shape.buffer(0)
    return max(shape.geoms, key=lambda part: part.area) if isinstance(shape, MultiPolygon) else shape


def _corner(one: Side, shift_one: float, two: Side, shift_two: float) -> list[XY]:
    """Where the corner between two shifted sides comes to lie: one point, or two for a step."""
    out_one, out_two = _outward(one.start, one.end), _outward(two.start, two.end)
    stay = _plus(one.end, (out_one[0] * shift_one, out_one[1] * shift_one))
    go = _plus(two.start, (out_two[0] * shift_two, out_two[1] * shift_two))
    cross = out_one[0] * out_two[1] - out_one[1] * out_two[0]
    dot = out_one[0] * out_two[0] + out_one[1] * out_two[1]
    if abs(cross) < PARALLEL:
        return [stay] if math.dist(stay, go) < PARALLEL else [stay, go]
    # moved along side one by t, the point lies on the shifted line of side two
    t = (shift_two - shift_one * dot) / cross
    if dot > 0 and abs(t) > LONGEST_MITRE * max(abs(shift_one), abs(shift_two)):
        return [stay, go]
    way = (-out_one[1], out_one[0])
    return [_plus(stay, (way[0] * t, way[1] * t))]


def _outward(start: XY, end: XY) -> XY:
    """Unit normal to the right of the way from start to end."""
    length = math.dist(start, end)
    return ((end[1] - start[1]) / length, -(end[0] - start[0]) / length)


def _plus(a: XY, b: XY) -> XY:
    return (a[0] + b[0], a[1] + b[1])


def _area2(points: Sequence[XY]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]]))


def upright(found: Box) -> Polygon:
    """A box as a polygon."""
    return box(*found)
