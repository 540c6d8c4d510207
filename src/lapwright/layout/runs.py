"""Runs: what one course covers without a break, and the end laps that openings hold.

An opening that spans the sheet splits the run.  One that reaches in from a long side is a notch.  One wholly
inside the width is passed by two notched pieces that meet in an end lap between its corners: a *held* lap.
What is left of a sheet beside an opening counts only where it is wider than the side lap, since the
neighbouring course covers that much anyway.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lapwright.layout.region import Region
from lapwright.layout.values import UV, Course

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

LEAST = 80  # 1 mm: what is smaller is rounding, not roof


@dataclass(frozen=True, slots=True)
class Hole:
    """An opening wholly inside a sheet's width: its extent along the course [ticks]."""

    left: int
    right: int


@dataclass(frozen=True, slots=True)
class Run:
    """One unbroken stretch of a course [ticks]: from left to right, the holes in it, corners to keep clear of."""

    course: int
    left: int
    right: int
    holes: tuple[Hole, ...]
    corners: tuple[int, ...]


def course_runs(region: Region, course: Course, count: int, lap: int) -> tuple[Run, ...]:
    """The runs of one course, left to right.

    count: courses of the ply, which tells the first and the last one.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py
    """
    from shapely import box
    from shapely.ops import unary_union

    low_free = course.low if course.index == 1 else course.low + lap
    high_free = course.high if course.index == count else course.high - lap
    band = box(region.left - 1, course.low, region.right + 1, course.high)
    inner = box(region.left - 1, low_free, region.right + 1, high_free)
    ground = region.shape.intersection(band)
    near = [ring for ring in region.openings if touches(ring, course)]
    margins = [margin for ring in near for margin in ligaments(ring, course, low_free, high_free)]
    if margins:
        ground = ground.difference(unary_union(margins))
    return tuple(
        make_run(part, course, near)
        for part in sorted(parts_of(ground), key=lambda part: (part.bounds[0], part.bounds[1]))
        if is_worth_laying(part, inner)
    )


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


def is_worth_laying(part: BaseGeometry, inner: BaseGeometry) -> bool:
    """Neither a sliver of rounding nor something the neighbouring courses' laps cover."""
    left, low, right, high = part.bounds
    if right - left < LEAST or high - low < LEAST:
        return False
    reached = part.intersection(inner)
    return bool(reached.area > LEAST * LEAST)


def make_run(part: BaseGeometry, course: Course, near: Sequence[Sequence[UV]]) -> Run:
    """The run that covers one part of a course."""
    left, right = round(part.bounds[0]), round(part.bounds[2])
    holes = sorted((round(ring.bounds[0]), round(ring.bounds[2])) for ring in part.interiors)
    corners = sorted({u for ring in near for u, v in ring if left < u < right and course.low <= v <= course.high})
    return Run(course.index, left, right, tuple(Hole(*hole) for hole in holes), tuple(corners))
