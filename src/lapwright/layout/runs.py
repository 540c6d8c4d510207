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

from lapwright.layout.region import Region, filled
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

    free: levels between which it alone covers the ground; alone: the ground there.  margins: what it leaves to its
    neighbours between openings and its long edges.
    """

    course: Course
    ground: BaseGeometry
    near: tuple[tuple[UV, ...], ...]
    free: tuple[int, int]
    alone: BaseGeometry
    margins: tuple[BaseGeometry, ...]


def ply_runs(region: Region, courses: Sequence[Course], lap: int) -> tuple[tuple[Run, ...], ...]:
    """The runs of every course of a ply, each course left to right.

    courses: from the low edge up, each lower and upper edge above those of the course before.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    near = reached(region.openings, courses)
    grounds = bands(filled(region.outline), courses)
    rows = [make_row(courses, place, grounds[place], near[place], lap) for place in range(len(courses))]
    return tuple(course_runs(rows, place) for place in range(len(rows)))


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


def course_runs(rows: Sequence[Row], place: int) -> tuple[Run, ...]:
    """The runs of one course, left to right.

    A run reaches as far as its course is needed: ground within a side lap of the sheet's edge is left to the
    neighbouring course where that one lies there anyway, and what this one has to cover for a neighbour is needed.
    rows: all courses of the ply; place: of this one among them.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    from shapely.ops import unary_union

    row, neighbours = rows[place], [rows[k] for k in (place - 1, place + 1) if 0 <= k < len(rows)]
    left_to_it = [margin for other in neighbours for margin in other.margins]
    if not row.margins and not left_to_it and is_oblong(row):
        left, _, right, _ = row.ground.bounds
        return (make_run(row.ground, row.ground, (int(left), int(right)), row.course, row.near),)
    ground, needed = row.ground, row.alone
    if row.margins:
        ground = ground.difference(unary_union(row.margins))
        needed = between(ground, *row.free)
    if left_to_it:
        needed = unary_union([needed, *(ground.intersection(margin) for margin in left_to_it)])
    if place < len(rows) - 1:
        needed = with_uncovered(needed, ground, row, rows[place + 1])
    parts = parts_of(ground)
    runs = []
    for part in parts:
        its_own = needed if len(parts) == 1 else part.intersection(needed)
        runs += part_runs(part, its_own, row.ground if row.margins else part, row.course, row.near)
    runs.sort(key=lambda run: (run.left, run.right, run.shape.bounds[1]))
    spans = [own_span(run, runs, row.course) for run in runs]
    return tuple(replace(run, span=span) if span else run for run, span in zip(runs, spans, strict=True))


def is_oblong(row: Row) -> bool:
    """The ground under a course is a rectangle between whole ticks, and more of it than rounding is the course's own.

    It is one run then, whatever the courses beside it cover.
    """
    ground = row.ground
    if ground.is_empty or not is_rectangle(ground):
        return False
    left, low, right, high = ground.bounds
    own = min(high, row.free[1]) - max(low, row.free[0])
    return bool(left.is_integer() and right.is_integer() and own > LEAST and right - left > LEAST)


def own_span(run: Run, runs: Sequence[Run], course: Course) -> tuple[int, int] | None:
    """Low and high edge of a run that has another one above or below it over the same stretch; None where none does.

    It ends where it is needed on that side, on the other where its course does.
    """
    from shapely import box

    _, low, _, high = run.shape.bounds
    span = (course.low, course.high)
    for other in runs:
        left, right = max(run.left, other.left), min(run.right, other.right)
        if other is run or right - left <= LEAST:
            continue
        _, its_low, _, its_high = other.shape.intersection(box(left, course.low, right, course.high)).bounds
        if its_low >= high:
            span = (span[0], math.ceil(high))
        elif its_high <= low:
            span = (math.floor(low), span[1])
    return None if span == (course.low, course.high) else span


def between(shape: BaseGeometry, low: float, high: float) -> BaseGeometry:
    """What of a shape lies between two levels."""
    from shapely import box

    if shape.is_empty:
        return shape
    left, bottom, right, top = shape.bounds
    if low < top and bottom < high and is_rectangle(shape):
        return box(left, max(low, bottom), right, min(high, top))
    return shape.intersection(box(left - 1, low, right + 1, high))


def is_rectangle(shape: BaseGeometry) -> bool:
    """A shape has four corners and fills the rectangle about it."""
    from shapely import get_num_coordinates

    left, low, right, high = shape.bounds
    return bool(get_num_coordinates(shape) == 5 and shape.area == (right - left) * (high - low))


def with_uncovered(needed: BaseGeometry, ground: BaseGeometry, row: Row, above: Row) -> BaseGeometry:
    """What a course is needed for, with what the one above leaves of the lap between them.

    That one lies wherever it is needed for ground of its own, over the whole of its width, but not on ground that an
    opening parts from that.
    """
    from shapely.ops import unary_union

    own = [part for part in parts_of(above.alone) if part.area > LEAST * LEAST]
    if any(is_as_wide(part, ground) and (not above.near or fills_all(part, above)) for part in own):
        return needed
    shadow = unary_union([shadow_of(above, part, row.course.low - 1) for part in own])
    bare = between(ground, row.free[1], row.course.high).difference(shadow)
    return needed if bare.is_empty else needed.union(bare)


def fills_all(part: BaseGeometry, row: Row) -> bool:
    """A part is as wide as all ground of its course, which openings part nowhere."""
    return row.ground.geom_type == "Polygon" and is_as_wide(part, row.ground)


def is_as_wide(part: BaseGeometry, whole: BaseGeometry) -> bool:
    """A part reaches along the course as far as a whole, both ways."""
    left, _, right, _ = part.bounds
    first, _, last, _ = whole.bounds
    return bool(left <= first and last <= right)


def shadow_of(row: Row, own: BaseGeometry, low: int) -> BaseGeometry:
    """What a course lies over, down to a level, over the width of a part that it is needed for."""
    from shapely import box
    from shapely.ops import unary_union

    left, _, right, _ = own.bounds
    blank = box(left, low, right, row.course.high + 1)
    parts = parts_of(row.ground.intersection(blank)) if row.near else []
    loose = [part for part in parts if part.intersection(own).area <= LEAST * LEAST < part.area]
    return blank.difference(unary_union(loose)) if loose else blank


def part_runs(
    part: BaseGeometry, needed: BaseGeometry, whole: BaseGeometry, course: Course, near: Sequence[Sequence[UV]]
) -> list[Run]:
    """The runs that one connected part of a course takes: one for each stretch that is needed.

    needed: what of the part is.  whole: ground that its sheets may lie on, the part itself where nothing is left out.
    """
    from shapely import box
    from shapely.ops import unary_union

    spans: list[tuple[int, int]] = []
    core = [piece.bounds for piece in parts_of(needed) if piece.area > LEAST * LEAST]
    for left, right in sorted((round(bounds[0]), round(bounds[2])) for bounds in core):
        if spans and left <= spans[-1][1] + LEAST:
            spans[-1] = (spans[-1][0], max(spans[-1][1], right))
        else:
            spans.append((left, right))
    first, _, last, _ = part.bounds
    found = []
    for left, right in spans:
        if right - left < LEAST:
            continue
        reach = box(left, course.low, right, course.high)
        cut = part if left <= first and last <= right else part.intersection(reach)
        if whole is part:
            lies = [piece for piece in parts_of(cut) if piece.area > LEAST * LEAST]
        else:
            pieces = parts_of(whole.intersection(reach))
            lies = [piece for piece in pieces if piece.intersection(cut).area > LEAST * LEAST]
        lain = lies[0] if len(lies) == 1 else unary_union(lies)
        found.append(make_run(cut, lain, (left, right), course, near))
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
