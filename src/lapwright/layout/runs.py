"""Runs: what one course covers without a break, and the end laps that openings hold.

An opening that spans the sheet splits the run.  One that reaches in from a long side is a notch.  One wholly
inside the width is passed by two notched pieces that meet in an end lap between its corners: a *held* lap.
What is left of a sheet beside an opening counts only where it is wider than the side lap, since the
neighbouring course covers that much anyway.
"""

from __future__ import annotations

import math
from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from lapwright.layout.region import Region
from lapwright.layout.values import UV, Course

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LEAST = 80  # 1 mm: what is smaller is rounding, not roof


@dataclass(frozen=True, slots=True)
class Hole:
    """An opening wholly inside a sheet's width: places of its corners along the course, rising [ticks]."""

    corners: tuple[int, ...]

    @property
    def left(self) -> int:
        """Where it begins."""
        return self.corners[0]

    @property
    def right(self) -> int:
        """Where it ends."""
        return self.corners[-1]


@dataclass(frozen=True, slots=True)
class Run:
    """One unbroken stretch of a course [ticks]: from left to right, the holes in it, corners to keep clear of.

    shape: what its sheets have to cover; lies: where they really lie once they are notched and trimmed, which takes in
    what is left beside an opening, too narrow to count on.  span: low and high edge of its sheets where another run of
    the course lies above or below it, as where an opening leaves a strip of the course on either side; else None.
    """

    course: int
    left: int
    right: int
    holes: tuple[Hole, ...]
    corners: tuple[int, ...]
    shape: Any = field(compare=False, repr=False)
    lies: Any = field(compare=False, repr=False)
    span: tuple[int, int] | None = None

    @property
    def is_plain(self) -> bool:
        """A rectangle: whatever is cut from it stays in one piece."""
        low, high = self.shape.bounds[1], self.shape.bounds[3]
        return not self.holes and bool(self.shape.area > (self.right - self.left) * (high - low) - LEAST * LEAST)

    def fills(self, low: int, high: int) -> bool:
        """A rectangle as deep as that: none of what lies between the two edges is trimmed off."""
        bounds = self.shape.bounds
        return self.is_plain and bool(bounds[1] < low + LEAST and bounds[3] > high - LEAST)


@dataclass(frozen=True, slots=True)
class Row:
    """A course with what its sheets meet: the ground under them, and the openings that reach into them.

    margins: what it leaves to its neighbours between openings and its long edges.
    """

    course: Course
    ground: BaseGeometry
    near: tuple[tuple[UV, ...], ...]
    margins: tuple[BaseGeometry, ...] = ()


def ply_runs(region: Region, courses: Sequence[Course], lap: int) -> tuple[tuple[Run, ...], ...]:
    """The runs of every course of a ply, each course left to right.

    courses: from the low edge up, each lower and upper edge above those of the course before.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    near = reached(region.openings, courses)
    grounds = bands(region.shape, courses)
    rows = [Row(*row) for row in zip(courses, grounds, near, strict=True)]
    rows = [replace(row, margins=margins_of(rows, k, lap)) for k, row in enumerate(rows)]
    return tuple(course_runs(rows, place, lap) for place in range(len(rows)))


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
    """The ground under each course.

    The ground is halved until one course is left, so that a course is not cut out of the whole roof.
    """
    part = shape.intersection(level(shape, courses[0].low, courses[-1].high))
    if len(courses) == 1:
        return [part]
    middle = len(courses) // 2
    return [*bands(part, courses[:middle]), *bands(part, courses[middle:])]


def course_runs(rows: Sequence[Row], place: int, lap: int) -> tuple[Run, ...]:
    """The runs of one course, left to right.

    A run reaches as far as its course is needed: ground within a side lap of the sheet's edge is left to the
    neighbouring course where that one lies there anyway, and what this one has to cover for a neighbour is needed.
    rows: all courses of the ply; place: of this one among them.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    from shapely.ops import unary_union

    course, whole, near = rows[place].course, rows[place].ground, rows[place].near
    last = len(rows) - 1
    low_free, high_free = free_of(rows, place, lap)
    margins = rows[place].margins
    ground = whole.difference(unary_union(margins)) if margins else whole
    needed = ground.intersection(level(ground, low_free, high_free))
    left_to_it = [margin for k in (place - 1, place + 1) if 0 <= k <= last for margin in rows[k].margins]
    if left_to_it:
        needed = unary_union([needed, *(ground.intersection(margin) for margin in left_to_it)])
    if place < last:
        left_over = ground.intersection(level(ground, high_free, course.high))
        needed = needed.union(left_over.difference(shadow(rows, place + 1, lap)))
    runs = [run for part in parts_of(ground) for run in part_runs(part, needed, whole, course, near)]
    runs.sort(key=lambda run: (run.left, run.right, run.shape.bounds[1]))
    return tuple(replace(run, span=own_span(run, runs, course)) for run in runs)


def free_of(rows: Sequence[Row], place: int, lap: int) -> tuple[int, int]:
    """The levels between which a course alone covers the ground."""
    course = rows[place].course
    low = course.low if place == 0 else course.low + lap
    return low, course.high if place == len(rows) - 1 else course.high - lap


def margins_of(rows: Sequence[Row], place: int, lap: int) -> tuple[BaseGeometry, ...]:
    """What a course leaves to its neighbours between openings and its long edges."""
    row = rows[place]
    return tuple(margin for ring in row.near for margin in ligaments(ring, row.course, *free_of(rows, place, lap)))


def own_span(run: Run, runs: Sequence[Run], course: Course) -> tuple[int, int] | None:
    """Low and high edge of a run that has another one above or below it over the same stretch; None where none does."""
    from shapely import box

    _, low, _, high = run.shape.bounds
    for other in runs:
        left, right = max(run.left, other.left), min(run.right, other.right)
        if other is run or right - left <= LEAST:
            continue
        _, its_low, _, its_high = other.shape.intersection(box(left, course.low, right, course.high)).bounds
        if its_low >= high or its_high <= low:
            return math.floor(low), math.ceil(high)
    return None


def level(shape: BaseGeometry, low: float, high: float) -> BaseGeometry:
    """A level band over the whole width of a shape."""
    from shapely import box

    if shape.is_empty:
        return shape
    left, _, right, _ = shape.bounds
    return box(left - 1, low, right + 1, high)


def shadow(rows: Sequence[Row], place: int, lap: int) -> BaseGeometry:
    """The stretches along the courses where a course is needed for ground of its own, over it and the one below."""
    from shapely import box
    from shapely.ops import unary_union

    course, ground = rows[place].course, rows[place].ground
    high_free = course.high if place == len(rows) - 1 else course.high - lap
    own = ground.intersection(level(ground, course.low + lap, high_free))
    spans = [part.bounds for part in parts_of(own) if part.area > LEAST * LEAST]
    below = rows[place - 1].course
    return unary_union([box(left, below.low - 1, right, course.high + 1) for left, _, right, _ in spans])


def part_runs(
    part: BaseGeometry, needed: BaseGeometry, whole: BaseGeometry, course: Course, near: Sequence[Sequence[UV]]
) -> list[Run]:
    """The runs that one connected part of a course takes: one for each stretch that is needed."""
    from shapely import box
    from shapely.ops import unary_union

    spans: list[tuple[int, int]] = []
    core = [piece for piece in parts_of(part.intersection(needed)) if piece.area > LEAST * LEAST]
    for left, right in sorted((round(piece.bounds[0]), round(piece.bounds[2])) for piece in core):
        if spans and left <= spans[-1][1] + LEAST:
            spans[-1] = (spans[-1][0], max(spans[-1][1], right))
        else:
            spans.append((left, right))
    found = []
    for left, right in spans:
        if right - left < LEAST:
            continue
        reach = box(left, course.low, right, course.high)
        cut = part.intersection(reach)
        lies = [piece for piece in parts_of(whole.intersection(reach)) if piece.intersection(cut).area > LEAST * LEAST]
        found.append(make_run(cut, unary_union(lies), (left, right), course, near))
    return found


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
    if course.low < low <= low_free and high > low_free:
        swept = MultiPoint([*ring, *[(u, v - (low - course.low)) for u, v in ring]])
        under = [(left, course.low), (right, course.low)] if below <= low_free else []
        found.append(swept.union(MultiPoint(under)).convex_hull.intersection(box(left, course.low, right, low_free)))
    if high_free <= high < course.high and low < high_free:
        swept = MultiPoint([*ring, *[(u, v + (course.high - high)) for u, v in ring]])
        over = [(left, course.high), (right, course.high)] if above >= high_free else []
        found.append(swept.union(MultiPoint(over)).convex_hull.intersection(box(left, high_free, right, course.high)))
    return found


def parts_of(shape: BaseGeometry) -> list[BaseGeometry]:
    """The polygons of a shape."""
    if shape.geom_type == "Polygon":
        return [shape]
    return [part for part in getattr(shape, "geoms", ()) if part.geom_type == "Polygon"]


def make_run(
    shape: BaseGeometry, lies: BaseGeometry, span: tuple[int, int], course: Course, near: Sequence[Sequence[UV]]
) -> Run:
    """The run over one stretch of a course."""
    from shapely import Polygon

    left, right = span
    rings = [Polygon(ring) for part in parts_of(shape) for ring in part.interiors]
    holes = sorted({tuple(sorted({u for u, _ in ring})) for ring in near if any(is_in(ring, hole) for hole in rings)})
    corners = sorted({u for ring in near for u, v in ring if left < u < right and course.low <= v <= course.high})
    return Run(course.index, left, right, tuple(Hole(corners) for corners in holes), tuple(corners), shape, lies)


def is_in(ring: Sequence[UV], hole: BaseGeometry) -> bool:
    """An opening fills a hole of a run's shape."""
    from shapely import Polygon

    opening = Polygon(ring)
    return bool(hole.intersection(opening).area > opening.area / 2)
