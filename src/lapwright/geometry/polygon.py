"""Polygons with whole-number corners: areas, what lies inside what; every answer exact.

A *polygon* is its corners in walking order, either way round, the first not repeated at the end.
*Side* i runs from corner i to corner i + 1, counted from 0.  Python's whole numbers do not overflow, so no
answer here depends on the size of the coordinates.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

Point = tuple[int, int]
Side = tuple[Point, Point]
Box = tuple[int, int, int, int]


def turn(a: Point, b: Point, c: Point) -> int:
    """Twice the signed area of a triangle: above 0 where c lies left of the way from a to b, 0 on its line."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def signed_area2(points: Sequence[Point]) -> int:
    """Twice the area of a polygon; above 0 where its corners run counter-clockwise."""
    if not points:
        return 0
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*points, points[0]]))


def sides_of(points: Sequence[Point]) -> tuple[Side, ...]:
    """The sides, in walking order, the last one back to the first corner."""
    return tuple(pairwise([*points, points[0]])) if points else ()


def counter_clockwise(points: Sequence[Point]) -> tuple[Point, ...]:
    """The same polygon, its corners counter-clockwise from the same first corner."""
    if signed_area2(points) >= 0:
        return tuple(points)
    return (points[0], *reversed(points[1:]))


def bounds(points: Sequence[Point]) -> Box:
    """Least x, least y, greatest x, greatest y."""
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return (min(xs), min(ys), max(xs), max(ys))


def is_on_side(point: Point, side: Side) -> bool:
    """The point lies on the side or at one of its ends."""
    (ax, ay), (bx, by) = side
    if not (min(ax, bx) <= point[0] <= max(ax, bx) and min(ay, by) <= point[1] <= max(ay, by)):
        return False
    return turn(side[0], side[1], point) == 0


def place_of(points: Sequence[Point], point: Point) -> int:
    """Where a point lies: 1 inside the polygon, 0 on its outline, -1 outside."""
    x, y = point
    inside = False
    for a, b in sides_of(points):
        if (a[1] > y) != (b[1] > y):
            side = turn(a, b, point)
            if side == 0:
                return 0
            if (side > 0) == (b[1] > a[1]):
                inside = not inside
        elif point in (a, b) or (a[1] == y == b[1] and min(a[0], b[0]) <= x <= max(a[0], b[0])):
            return 0
    return 1 if inside else -1


def contains(outer: Sequence[Point], inner_rect: Sequence[Point]) -> bool:
    """A rectangle along the axes lies wholly in a polygon; touching the outline from within is allowed.

    inner_rect: any two or more of its corners that span it.
    Holds for: an outline that does not cross itself, a rectangle with an area.
    """
    left, low, right, high = bounds(inner_rect)
    if any(enters(side, (left, low, right, high)) for side in sides_of(outer)):
        return False
    doubled = [(2 * x, 2 * y) for x, y in outer]  # so that the middle is a whole number
    return place_of(doubled, (left + right, low + high)) == 1


def enters(side: Side, box: Box) -> bool:
    """Part of a side lies strictly inside a rectangle along the axes.

    Source: separating axes of a segment and a rectangle: x, y and the segment's normal.
    """
    (ax, ay), (bx, by) = side
    left, low, right, high = box
    if max(ax, bx) <= left or min(ax, bx) >= right or max(ay, by) <= low or min(ay, by) >= high:
        return False
    corners = ((left, low), (right, low), (right, high), (left, high))
    turns = [turn(side[0], side[1], corner) for corner in corners]
    return min(turns) < 0 < max(turns) or side[0] == side[1]


def is_clear_of(side: Side, centre: Point, diameter: int) -> bool:
    """A circle does not cross a side; touching is allowed."""
    (ax, ay), (bx, by) = side
    x, y = 2 * centre[0], 2 * centre[1]
    if 2 * max(ax, bx) <= x - diameter or 2 * min(ax, bx) >= x + diameter:
        return True
    if 2 * max(ay, by) <= y - diameter or 2 * min(ay, by) >= y + diameter:
        return True
    dx, dy = bx - ax, by - ay
    along = (centre[0] - ax) * dx + (centre[1] - ay) * dy
    length2 = dx * dx + dy * dy
    if 0 < along < length2:
        return 4 * turn(side[0], side[1], centre) ** 2 >= diameter * diameter * length2
    return all((x - 2 * px) ** 2 + (y - 2 * py) ** 2 >= diameter * diameter for px, py in side)
