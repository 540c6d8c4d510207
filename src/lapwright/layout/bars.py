"""Where no end lap may lie in a run, whatever its neighbours do: beside openings and where pieces would fall in two.

*Bar*: an open span of places that a joint may not take; its ends may.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from lapwright.layout.joints import Span
from lapwright.layout.pieces import PlyGround, around, overlapping
from lapwright.layout.runs import Run, parts_of
from lapwright.layout.values import Course

if TYPE_CHECKING:
    from shapely import Polygon


def hole_bars(run: Run, end_lap: int) -> list[Span]:
    """Over an opening inside the sheet only its held lap may lie.  Source: docs/method/layout.md, held laps"""
    return [(hole.left - end_lap, hole.right) for hole in run.holes]


def loose_bars(run: Run, end_lap: int) -> list[Span]:
    """Where a cut across the run would meet its sheet twice, so that pieces could fall in two.

    Source: geometry
    Checked: tests/layout/test_bars.py
    """
    if run.is_plain:
        return []
    from shapely import LineString  # shapely is heavy; the readers never need it

    low, high = run.shape.bounds[1] - 1, run.shape.bounds[3] + 1
    corners = sorted({round(x) for part in parts_of(run.shape) for ring in rings_of(part) for x, _ in ring})
    found = []
    for left, right in pairwise(corners):
        middle = (left + right) / 2
        cut = run.shape.intersection(LineString([(middle, low), (middle, high)]))
        if len(getattr(cut, "geoms", [cut])) > 1:
            found.append((left - end_lap - 1, right + 1))
    return found


def rings_of(part: Polygon) -> list[Sequence[tuple[float, float]]]:
    """The rings of a polygon, outer first."""
    return [list(part.exterior.coords), *[list(ring.coords) for ring in part.interiors]]


def held_bars(ply: int, course: Course, grounds: Sequence[PlyGround], stagger: int, ply_offset: int) -> list[Span]:
    """What held laps of neighbouring courses and plies bar in a course.  Source: the rules"""
    own = grounds[ply]
    found = around(held_in(own, (course.index - 1, course.index + 1)), stagger)
    for other in (ply - 1, ply + 1):
        if 0 <= other < len(grounds):
            near = overlapping(course, grounds[other].courses)
            found += around(held_in(grounds[other], near), ply_offset)
    return found


def held_in(ground: PlyGround, courses: Sequence[int]) -> list[int]:
    """Held joints of some courses of a ply."""
    return [joint for course in courses for joint in ground.held_by_course.get(course, ())]
