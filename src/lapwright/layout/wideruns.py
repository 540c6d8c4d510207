"""Runs of courses that lap wider than asked: as long as the ground asks of what they have to cover, and lying on all
that their sheets lie on.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

from lapwright.layout.region import Region, filled
from lapwright.layout.rows import LEAST, between, parts_of
from lapwright.layout.runs import Run, ply_runs
from lapwright.layout.values import Course

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def wide_runs(region: Region, courses: Sequence[Course], side_lap: int) -> tuple[tuple[Run, ...], ...]:
    """The runs of every course of a ply, each course left to right; nothing goes through where sheets lap wider.

    Where that leaves ground between two courses to neither of them, the upper one has to cover it.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_wholesheets.py, tests/reference, tests/properties/test_layout.py
    """
    from shapely import prepare

    ground = filled(region.outline)
    prepare(ground)
    low_ones: set[int] = set()
    while True:
        asked = needed(courses, side_lap, low_ones)
        found = ply_runs(region, asked, side_lap)
        if list(courses) == asked:
            return found
        left = {place for place in range(1, len(courses)) if leaves_ground(ground, courses, found, place)} - low_ones
        if not left:
            break
        low_ones |= left
    return tuple(
        runs if course == part else tuple(as_laid(runs, course, ground))
        for runs, course, part in zip(found, courses, asked, strict=True)
    )


def needed(courses: Sequence[Course], side_lap: int, low_ones: Collection[int] = ()) -> list[Course]:
    """What of each course the ground needs: where a side lap is wider than asked, only as much of it as is asked.

    What lies under the next course, or over the one before it, is spare: beside a step of the ground both need not go
    on for it.
    low_ones: places of courses that the ground needs from their low edges on.
    """
    lows = [
        above.low if place in low_ones else max(above.low, below.high - side_lap)
        for place, (below, above) in enumerate(pairwise(courses), start=1)
    ]
    highs = [above.low + side_lap for above in courses[1:]]
    edges = zip([courses[0].low, *lows], [*highs, courses[-1].high], strict=True)
    return [replace(one, low=low, high=high) for one, (low, high) in zip(courses, edges, strict=True)]


def leaves_ground(ground: BaseGeometry, courses: Sequence[Course], runs: Sequence[Sequence[Run]], place: int) -> bool:
    """Ground in the lap between a course and the one below it lies under no run of either."""
    from shapely import box
    from shapely.ops import unary_union

    low, high = courses[place].low, courses[place - 1].high
    spans = [(run.left, run.right) for row in runs[place - 1 : place + 1] for run in row]
    first, _, last, _ = ground.bounds
    if any(left <= first and last <= right for left, right in spans):
        return False
    lap = between(ground, low, high)
    covered = unary_union([box(left, low, right, high) for left, right in spans])
    return bool(lap.difference(covered).area > LEAST * LEAST)


def as_laid(runs: Sequence[Run], course: Course, ground: BaseGeometry) -> Iterator[Run]:
    """The runs of a course with all that their sheets lie on."""
    from shapely import box
    from shapely.ops import unary_union

    band = between(ground, course.low, course.high)
    for run in runs:
        under = band.intersection(box(run.left, course.low, run.right, course.high))
        parts = [part for part in parts_of(under) if part.intersection(run.shape).area > LEAST * LEAST]
        lain = parts[0] if len(parts) == 1 else unary_union(parts)
        yield replace(run, shape=lain, lies=lain)
