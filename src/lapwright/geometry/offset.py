"""A polygon with each side moved by its own distance, corners mitred.

*Outwards* is away from the polygon's inside, whichever way its corners run.  A *step* joins two sides that
run on in nearly one line but move by different distances: the corner is moved with each of them.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise
from typing import Any

XY = tuple[float, float]

# A mitre farther along the side than this many times the larger distance becomes a step.  At 4 it keeps every
# corner whose sides turn by more than 28 degrees, also where one side moves out and the other in.
STEP_FROM = 4.0
# Turned back sharper than this, a corner's mitre is cut off square: at 20 the corner has less than 6 degrees.
SPIKE_FROM = 20.0
SAME = 1e-9
# GEOS 3.14.1 gives the whole of one polygon as its difference from another that is the same but for a rounding;
# on a grid it does not.
GRID = 1e-6


def offset_sides(points: Sequence[tuple[float, float]], distances: Sequence[float]) -> tuple[XY, ...]:
    """The polygon with side i (corner i to corner i + 1) moved outwards by distances[i]; negative is inwards.

    Same unit in and out, corners in the same walking order, starting at the moved first corner where nothing
    vanishes.  Where moved sides cross one another, what is turned inside out is dropped and the largest part
    kept, its outer ring only (a pocket whose mouth closes is filled).  Empty where nothing is left.

    Holds for: an outline that does not cross itself; distances small beside the roof's sides.
    Raises: ValueError where there are not as many distances as sides.
    Source: arithmetic; parts told apart by winding number
    Checked: tests/geometry/test_offset.py
    """
    if len(distances) != len(points):
        raise ValueError(f"{len(points)} sides, {len(distances)} distances")
    sign = 1.0 if _area2(points) >= 0 else -1.0
    moved = _moved_sides(points, distances, sign)
    left = _without_vanished(moved)
    ring = _ring(left)
    if len(ring) < 3:
        return ()
    if max(distances) <= 0 and _is_convex(points, sign) and not _clipped(points, moved):
        return ()
    kept = [side for side in left if side.length_now() >= -SAME]
    if len(kept) == len(moved) and _is_simple(ring):
        return tuple(ring)
    gone = [side for side in moved if side not in kept]
    return _mended(ring, moved, sign, inside_out=any(side.distance < 0 for side in gone))


def _is_convex(points: Sequence[XY], sign: float) -> bool:
    """Every corner turns the same way as the whole."""
    count = len(points)
    turns = (_area2([points[i - 2], points[i - 1], points[i]]) for i in range(count))
    return all(sign * turn >= 0 for turn in turns)


def _clipped(points: Sequence[XY], moved: Sequence[_Moved]) -> list[XY]:
    """What of a convex polygon lies on the inner side of every moved side; empty where nothing does."""
    kept = list(points)
    for side in moved:
        beyond = [_beyond(side, point) for point in kept]
        cut: list[XY] = []
        for i, (point, over) in enumerate(zip(kept, beyond, strict=True)):
            before, was_over = kept[i - 1], beyond[i - 1]
            if (over > 0) != (was_over > 0):
                share = was_over / (was_over - over)
                cut.append((before[0] + share * (point[0] - before[0]), before[1] + share * (point[1] - before[1])))
            if over <= 0:
                cut.append(point)
        kept = cut
    return kept if abs(_area2(kept)) > SAME else []


def _beyond(side: _Moved, point: XY) -> float:
    """How far a point lies outside a moved side's line."""
    return (point[0] - side.a[0]) * side.normal[0] + (point[1] - side.a[1]) * side.normal[1] - side.distance


class _Moved:
    """A side as it was (a to b), moved by `distance` along its outward normal."""

    __slots__ = ("a", "b", "begin", "distance", "end", "normal", "way")

    def __init__(self, a: XY, b: XY, distance: float, sign: float) -> None:
        length = math.dist(a, b)
        self.a, self.b = a, b
        self.distance = distance if abs(distance) > GRID else 0.0
        self.way: XY = ((b[0] - a[0]) / length, (b[1] - a[1]) / length)
        self.normal: XY = (sign * self.way[1], -sign * self.way[0])
        self.begin: XY = a
        self.end: XY = b

    def shifted(self, point: XY) -> XY:
        """A point moved with the side."""
        return (point[0] + self.distance * self.normal[0], point[1] + self.distance * self.normal[1])

    def length_now(self) -> float:
        """Its length after the move; below 0 where its neighbours have met in front of it and it is turned round."""
        return (self.end[0] - self.begin[0]) * self.way[0] + (self.end[1] - self.begin[1]) * self.way[1]

    def vanishes_at(self) -> float:
        """The share of the move at which a turned side has no length left."""
        before = math.dist(self.a, self.b)
        return before / (before - self.length_now())

    def ground(self) -> list[XY]:
        """What the side passes over, straight in front of it."""
        return [self.a, self.b, self.shifted(self.b), self.shifted(self.a)]


def _moved_sides(points: Sequence[XY], distances: Sequence[float], sign: float) -> list[_Moved]:
    """The sides that have a length, each with the ends it gets from its neighbours."""
    closed = [*points, points[0]] if points else []
    moved = [_Moved(a, b, d, sign) for (a, b), d in zip(pairwise(closed), distances, strict=True) if a != b]
    _join(moved)
    return moved


def _join(moved: Sequence[_Moved]) -> None:
    for before, after in zip([*moved[-1:], *moved[:-1]], moved, strict=True):
        before.end, after.begin = _corner(before, after)


def _without_vanished(moved: Sequence[_Moved]) -> list[_Moved]:
    """The sides that are left where turned ones, the first to vanish first, give way to their neighbours.

    A side between two parallel ones stays: its neighbours would never meet.
    """
    left = list(moved)
    while len(left) > 3:
        turned = [index for index, side in enumerate(left) if side.length_now() < -SAME]
        turned = [index for index in turned if not _is_parallel(left[index - 1], left[(index + 1) % len(left)])]
        if not turned:
            break
        left.pop(min(turned, key=lambda index: left[index].vanishes_at()))
        _join(left)
    return left


def _is_parallel(one: _Moved, two: _Moved) -> bool:
    return abs(one.way[0] * two.way[1] - one.way[1] * two.way[0]) < SAME


def _corner(before: _Moved, after: _Moved) -> tuple[XY, XY]:
    """Where the corner between two sides goes: twice the same point for a mitre, two points for a step."""
    stay, go = before.shifted(before.b), after.shifted(after.a)
    cross = before.way[0] * after.way[1] - before.way[1] * after.way[0]
    dot = before.way[0] * after.way[0] + before.way[1] * after.way[1]
    if math.dist(stay, go) == 0:
        return (stay, stay)
    if abs(cross) < SAME:
        return (stay, go)
    # how far along the first side, from its own moved end, the two moved lines meet
    along = ((go[0] - stay[0]) * after.way[1] - (go[1] - stay[1]) * after.way[0]) / cross
    most = (STEP_FROM if dot > 0 else SPIKE_FROM) * max(abs(before.distance), abs(after.distance))
    if abs(along) > most:
        return (stay, go)
    mitre = (stay[0] + along * before.way[0], stay[1] + along * before.way[1])
    return (mitre, mitre)


def _ring(moved: Sequence[_Moved]) -> list[XY]:
    """The moved corners in order, none twice running, starting where the first side does."""
    ring: list[XY] = []
    for side in moved:
        for point in (side.begin, side.end):
            if not ring or math.dist(ring[-1], point) > SAME:
                ring.append(point)
    while len(ring) > 1 and math.dist(ring[0], ring[-1]) <= SAME:
        ring.pop()
    return ring


def _area2(points: Sequence[XY]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(points, [*points[1:], *points[:1]], strict=True))


def _is_simple(ring: Sequence[XY]) -> bool:
    from shapely import Polygon  # shapely is heavy; reading a job never needs it

    return bool(Polygon(ring).is_valid)


def _mended(ring: Sequence[XY], moved: Sequence[_Moved], sign: float, *, inside_out: bool) -> tuple[XY, ...]:
    """The largest part of what the ring runs round the right way.

    A polygon turned inside out twice, across and along, winds the right way again: a square of 10 moved in by 8
    would come back as a square of 6.  So where a side moved in has turned, the result keeps to the polygon and the
    ground its sides were moved out over, and off the ground they were moved in over.
    """
    from shapely import LineString, Polygon, difference, intersection, union_all
    from shapely.ops import polygonize

    faces = polygonize(union_all(LineString([*ring, ring[0]])))
    kept = [face for face in faces if sign * _winding(ring, face.representative_point().coords[0]) > 0]
    shape = union_all(kept, grid_size=GRID)
    if inside_out:
        out = [Polygon(side.ground()) for side in moved if side.distance > 0] + _mitres(moved, sign)
        inward = [Polygon(side.ground()) for side in moved if side.distance < 0]
        within = union_all([Polygon([side.a for side in moved]), *out], grid_size=GRID)
        shape = intersection(shape, within, grid_size=GRID)
        shape = difference(shape, union_all(inward, grid_size=GRID), grid_size=GRID)
    return _largest(shape, sign)


def _mitres(moved: Sequence[_Moved], sign: float) -> list[Any]:
    """The corners between two sides moved out, beyond what lies straight in front of them."""
    from shapely import Polygon

    found = []
    for before, after in zip([moved[-1], *moved[:-1]], moved, strict=True):
        cross = before.way[0] * after.way[1] - before.way[1] * after.way[0]
        if before.distance > 0 and after.distance > 0 and sign * cross > SAME and before.end == after.begin:
            found.append(Polygon([after.a, before.shifted(after.a), before.end, after.shifted(after.a)]))
    return found


def _largest(shape: Any, sign: float) -> tuple[XY, ...]:  # noqa: ANN401  # shapely has no types
    """The outer ring of the largest part."""
    parts = [part for part in getattr(shape, "geoms", [shape]) if part.geom_type == "Polygon" and part.area > SAME]
    if not parts:
        return ()
    largest = max(parts, key=lambda part: (part.area, [-bound for bound in part.bounds]))
    corners = [(float(x), float(y)) for x, y in largest.exterior.simplify(10 * GRID).coords[:-1]]
    if (_area2(corners) > 0) != (sign > 0):
        corners.reverse()
    return tuple(corners) if len(corners) > 2 else ()


def _winding(ring: Sequence[XY], point: XY) -> int:
    """How often the ring runs round the point, counter-clockwise."""
    x, y = point
    count = 0
    for (ax, ay), (bx, by) in zip(ring, [*ring[1:], *ring[:1]], strict=True):
        left = (bx - ax) * (y - ay) - (x - ax) * (by - ay)
        if ay <= y < by and left > 0:
            count += 1
        elif by <= y < ay and left < 0:
            count -= 1
    return count
