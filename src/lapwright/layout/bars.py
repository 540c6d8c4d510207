"""Where no end lap may lie in a run, whatever its neighbours do: beside openings and where pieces would fall in two.

*Bar*: an open span of places that a joint may not take; its ends may.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from lapwright.layout.joints import Span
from lapwright.layout.pieces import PlyGround, around, overlapping
from lapwright.layout.rows import LEAST, parts_of
from lapwright.layout.runs import Run
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
    return [(left - end_lap - 1, right + 1) for left, right in twice_met(run)]


def torn_bars(run: Run, end_lap: int) -> list[Span]:
    """Where a piece that begins or ends would fall in two whatever the other joints are.

    Beside a notch that stands askew a tongue is left on one hand of the cut, and nothing on that hand holds it.
    Source: geometry
    Checked: tests/layout/test_bars.py
    """
    found: list[Span] = []
    for left, right in twice_met(run):
        if falls(run, left + LEAST, run.right):
            last = farthest(lambda at: falls(run, at, run.right), left + LEAST, right - LEAST)
            found.append((left - 1, last + 1))
        if falls(run, run.left, right - LEAST):
            first = farthest(lambda at: falls(run, run.left, at), right - LEAST, left + LEAST)
            found.append((first - end_lap - 1, right - end_lap + 1))
    return found


def twice_met(run: Run) -> list[Span]:
    """The stretches of a run, between corners of its sheet, in which a cut across it meets that sheet twice."""
    if run.is_plain:
        return []
    sides = [
        (min(a[0], b[0]), max(a[0], b[0]))
        for part in parts_of(run.shape)
        for ring in rings_of(part)
        for a, b in pairwise(ring)
    ]
    corners = sorted({round(x) for side in sides for x in side})
    met = {(left, right): sum(a <= (left + right) / 2 < b for a, b in sides) for left, right in pairwise(corners)}
    return [stretch for stretch, sides_met in met.items() if sides_met > 2]  # two for each part of the cut


def falls(run: Run, left: int, right: int) -> bool:
    """What lies between two places of a run is of more than one part."""
    from shapely import box

    _, low, _, high = run.shape.bounds
    parts = [part.bounds for part in parts_of(run.shape.intersection(box(left, low - 1, right, high + 1)))]
    return sum(bool(part[3] - part[1] > LEAST) for part in parts) > 1


def farthest(holds: Callable[[int], bool], near: int, far: int) -> int:
    """The last place from `near` towards `far`, to a millimetre, at which something holds that holds at `near`."""
    if holds(far):
        return far
    while abs(far - near) > LEAST:
        middle = (near + far) // 2
        near, far = (middle, far) if holds(middle) else (near, middle)
    return near


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
