"""Runs: what one course covers without a break, and the end laps that openings hold.

An opening that spans the sheet splits the run.  One that reaches in from a long side is a notch.  One wholly
inside the width is passed by two notched pieces that meet in an end lap between its corners: a *held* lap.
What is left of a sheet beside an opening counts only where it is wider than the side lap, since the
neighbouring course covers that much anyway.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
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
    what is left beside an opening, too narrow to count on.
    """

    course: int
    left: int
    right: int
    holes: tuple[Hole, ...]
    corners: tuple[int, ...]
    shape: Any = field(compare=False, repr=False)
    lies: Any = field(compare=False, repr=False)

    @property
    def is_plain(self) -> bool:
        """A rectangle: whatever is cut from it stays in one piece."""
        low, high = self.shape.bounds[1], self.shape.bounds[3]
        return not self.holes and bool(self.shape.area > (self.right - self.left) * (high - low) - LEAST * LEAST)


def course_runs(region: Region, courses: Sequence[Course], place: int, lap: int) -> tuple[Run, ...]:
    """The runs of one course, left to right.

    A run reaches as far as its course is needed: ground within a side lap of the sheet's edge is left to the
    neighbouring course where that one lies there anyway.
    courses: all courses of the ply; place: of this one among them.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    from shapely.ops import unary_union

    course, last = courses[place], len(courses) - 1
    low_free = course.low if place == 0 else course.low + lap
    high_free = course.high if place == last else course.high - lap
    ground = region.shape.intersection(level(region, course.low, course.high))
    near = [ring for ring in region.openings if touches(ring, course)]
    margins = [margin for ring in near for margin in ligaments(ring, course, low_free, high_free)]
    if margins:
        ground = ground.difference(unary_union(margins))
    needed = ground.intersection(level(region, low_free, high_free))
    if place < last:
        left_over = ground.intersection(level(region, high_free, course.high))
        needed = needed.union(left_over.difference(shadow(region, courses, place + 1, lap)))
    whole = region.shape.intersection(level(region, course.low, course.high))
    runs = [run for part in parts_of(ground) for run in part_runs(part, needed, whole, course, near)]
    return tuple(sorted(runs, key=lambda run: (run.left, run.shape.bounds[1])))


def level(region: Region, low: float, high: float) -> BaseGeometry:
    """A level band over the whole width of the ground."""
    from shapely import box

    return box(region.left - 1, low, region.right + 1, high)


def shadow(region: Region, courses: Sequence[Course], place: int, lap: int) -> BaseGeometry:
    """The stretches along the courses where a course is needed for ground of its own, over all levels."""
    from shapely import box
    from shapely.ops import unary_union

    course = courses[place]
    high_free = course.high if place == len(courses) - 1 else course.high - lap
    own = region.shape.intersection(level(region, course.low + lap, high_free))
    spans = [part.bounds for part in parts_of(own) if part.area > LEAST * LEAST]
    return unary_union([box(left, region.begins - 1, right, region.ends + 1) for left, _, right, _ in spans])


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


def touches(ring: Sequence[UV], course: Course) -> bool:
    """The opening reaches into the course's sheet."""
    return min(v for _, v in ring) < course.high and max(v for _, v in ring) > course.low


def ligaments(ring: Sequence[UV], course: Course, low_free: int, high_free: int) -> list[Any]:
    """What would be left of the sheet between an opening and its long edges, no wider than the side lap."""
    from shapely import MultiPoint, box

    low, high = min(v for _, v in ring), max(v for _, v in ring)
    left, right = min(u for u, _ in ring), max(u for u, _ in ring)
    found = []
    if course.low < low <= low_free and high > low_free:
        swept = MultiPoint([*ring, *[(u, v - (low - course.low)) for u, v in ring]]).convex_hull
        found.append(swept.intersection(box(left, course.low, right, low_free)))
    if high_free <= high < course.high and low < high_free:
        swept = MultiPoint([*ring, *[(u, v + (course.high - high)) for u, v in ring]]).convex_hull
        found.append(swept.intersection(box(left, high_free, right, course.high)))
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
