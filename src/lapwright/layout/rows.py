"""Courses as rows of a ply: the ground under each, what it alone covers of it, and what it leaves to its neighbours."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lapwright.layout.values import UV, Course

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LEAST = 80  # 1 mm: what is smaller is rounding, not roof


@dataclass(frozen=True, slots=True)
class Row:
    """A course with what its sheets meet: the ground under them, and the openings that reach into them.

    free: levels between which it alone covers the ground; alone: the ground there.  margins: what it leaves to its
    neighbours between openings and its long edges.
    """

    course: Course
    ground: BaseGeometry
    near: tuple[tuple[UV, ...], ...]
    free: tuple[int, int]
    alone: BaseGeometry
    margins: tuple[BaseGeometry, ...]


def reached(openings: Sequence[tuple[UV, ...]], courses: Sequence[Course]) -> list[tuple[tuple[UV, ...], ...]]:
    """The openings that reach into each course's sheet, in their own order."""
    lows, highs = [course.low for course in courses], [course.high for course in courses]
    found: list[list[tuple[UV, ...]]] = [[] for _ in courses]
    for ring in openings:
        first = bisect_right(highs, min(v for _, v in ring))
        last = bisect_left(lows, max(v for _, v in ring))
        for place in range(first, last):
            found[place].append(ring)
    return [tuple(rings) for rings in found]


def bands(shape: BaseGeometry, courses: Sequence[Course]) -> list[BaseGeometry]:
    """What of a shape lies under each course.

    It is halved until one course is left, so that a course is not cut out of the whole roof.
    """
    part = between(shape, courses[0].low, courses[-1].high)
    if len(courses) == 1:
        return [part]
    middle = len(courses) // 2
    return [*bands(part, courses[:middle]), *bands(part, courses[middle:])]


def make_row(
    courses: Sequence[Course], place: int, band: BaseGeometry, near: tuple[tuple[UV, ...], ...], lap: int
) -> Row:
    """A course and its ground.  band: what lies under it within the outline, openings and all."""
    from shapely import Polygon
    from shapely.ops import unary_union

    course = courses[place]
    low = course.low if place == 0 else course.low + lap
    high = course.high if place == len(courses) - 1 else course.high - lap
    ground = band.difference(unary_union([Polygon(ring) for ring in near])) if near else band
    margins = tuple(margin for ring in near for margin in ligaments(ring, course, low, high))
    return Row(course, ground, near, (low, high), between(ground, low, high), margins)


def between(shape: BaseGeometry, low: float, high: float) -> BaseGeometry:
    """What of a shape lies between two levels."""
    from shapely import box

    if shape.is_empty:
        return shape
    left, bottom, right, top = shape.bounds
    if low < top and bottom < high and fills(shape, left, bottom, right, top):
        return box(left, max(low, bottom), right, min(high, top))
    return shape.intersection(box(left - 1, low, right + 1, high))


def is_rectangle(shape: BaseGeometry) -> bool:
    """A shape has four corners and fills the rectangle about it."""
    return fills(shape, *shape.bounds)


def fills(shape: BaseGeometry, left: float, low: float, right: float, high: float) -> bool:
    """A shape has four corners and fills the rectangle about it, which is given."""
    from shapely import get_num_coordinates

    return bool(get_num_coordinates(shape) == 5 and shape.area == (right - left) * (high - low))


def ligaments(ring: Sequence[UV], course: Course, low_free: int, high_free: int) -> list[Any]:
    """What would be left of the sheet between an opening and its long edges, no wider than the side lap.

    Of an opening that stands askew, all of what lies straight below or above it where that is no wider anywhere.
    """
    from shapely import MultiPoint, box

    low, high = min(v for _, v in ring), max(v for _, v in ring)
    left, right = min(u for u, _ in ring), max(u for u, _ in ring)
    ends = [[v for u, v in ring if abs(u - end) <= 1] for end in (left, right)]
    below, above = max(min(levels) for levels in ends), min(max(levels) for levels in ends)
    found = []
    if course.low < low <= low_free:
        swept = MultiPoint([*ring, *[(u, v - (low - course.low)) for u, v in ring]])
        under = [(left, course.low), (right, course.low)] if below <= low_free else []
        found.append(swept.union(MultiPoint(under)).convex_hull.intersection(box(left, course.low, right, low_free)))
    if high_free <= high < course.high:
        swept = MultiPoint([*ring, *[(u, v + (course.high - high)) for u, v in ring]])
        over = [(left, course.high), (right, course.high)] if above >= high_free else []
        found.append(swept.union(MultiPoint(over)).convex_hull.intersection(box(left, high_free, right, course.high)))
    return found


def parts_of(shape: BaseGeometry) -> list[BaseGeometry]:
    """The polygons of a shape."""
    if shape.geom_type == "Polygon":
        return [shape]
    return [part for part in getattr(shape, "geoms", ()) if part.geom_type == "Polygon"]
