"""Where no end lap may lie, whatever its neighbours do: near a drain, in a valley, at an opening's corner.

*Joint*: the place u where the later piece begins, so that the end lap takes up the strip from there to an end lap on.
Spans are open: their ends are allowed.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lapwright.assembly.values import Ply
from lapwright.defaults.si import default_number
from lapwright.defaults.values import Rules
from lapwright.layout.frame import to_slope
from lapwright.layout.joints import Span
from lapwright.layout.values import UV, Frame
from lapwright.roof.values import Area

INCH = 2_032
CLEAR = 3 * INCH  # an end lap keeps this from an opening's corner where there is room
IN_THE_FIELD = ("drain", "overflow_drain")


def barred(
    area: Area, frame: Frame, ply: Ply, course_low: int, course_high: int, end_lap: int, rules: Rules
) -> list[Span]:
    """Open spans of u that no joint of a course may lie in: its end lap would be near a drain or in a valley.

    course_low, course_high: the edges of the course's sheet [ticks].
    Holds for: drains in the field, and valleys between two areas that cross the courses; one that runs along them lies
        under a whole course, whose end laps have to lie on it somewhere.
    Source: common practice, no source; docs/method/layout.md
    Checked: tests/layout/test_keepclear.py
    """
    spans = list(near_drains(area, frame, (course_low, course_high), end_lap, rules))
    for edge in area.edges:
        if edge.kind == "valley" and edge.meets:
            start, end = to_slope(frame, (edge.start, edge.end))
            if crosses_courses(start, end):
                spans += in_band(valley_band(start, end, ply.sheet.width_ticks), (course_low, course_high), end_lap)
    return spans


def near_drains(area: Area, frame: Frame, course: tuple[int, int], end_lap: int, rules: Rules) -> Iterator[Span]:
    """Where an end lap would come nearer to the middle of a drain than `end_lap_drain`."""
    low, high = course
    for drain in (*area.drains, *area.near):
        if drain.kind not in IN_THE_FIELD or drain.at is None:
            continue
        ((u, v),) = to_slope(frame, (drain.at,))
        apart = max(low - v, v - high, 0)
        if apart < rules.end_lap_drain_ticks:
            half = math.ceil(math.sqrt(rules.end_lap_drain_ticks**2 - apart**2))
            yield (u - half - end_lap - 1, u + half + 1)


def crosses_courses(start: UV, end: UV) -> bool:
    """A line stands across the courses, not along them: at `valley_along` or more to them.

    Source: common practice, no source
    """
    rise, run = abs(end[1] - start[1]), abs(end[0] - start[0])
    return rise >= math.tan(math.radians(default_number("roof", "valley_along"))) * run


def valley_band(start: UV, end: UV, width: int) -> tuple[tuple[float, float], ...]:
    """The corners of what a sheet of this width covers that lies with its middle on a line."""
    length = math.dist(start, end)
    across = (-(end[1] - start[1]) / length * width / 2, (end[0] - start[0]) / length * width / 2)
    return (
        (start[0] + across[0], start[1] + across[1]),
        (end[0] + across[0], end[1] + across[1]),
        (end[0] - across[0], end[1] - across[1]),
        (start[0] - across[0], start[1] - across[1]),
    )


def in_band(band: Sequence[tuple[float, float]], course: tuple[int, int], end_lap: int) -> list[Span]:
    """Where an end lap of a course would lie on a convex band."""
    inside = list(crossings_of(band, course))
    if not inside:
        return []
    return [(math.floor(min(inside)) - end_lap - 1, math.ceil(max(inside)) + 1)]


def crossings_of(band: Sequence[tuple[float, float]], course: tuple[int, int]) -> Iterator[float]:
    """The places along the course of the band's corners within it, and of where the band's sides enter and leave it."""
    low, high = course
    for (u0, v0), (u1, v1) in zip(band, (*band[1:], band[0]), strict=True):
        if low < v0 < high:
            yield u0
        for level in (low, high):
            if min(v0, v1) < level < max(v0, v1):
                yield u0 + (u1 - u0) * (level - v0) / (v1 - v0)


def corner_spans(corners: Sequence[int], end_lap: int) -> list[Span]:
    """Open spans that keep an end lap clear of the corners of notches.

    Source: common practice, no source
    """
    return [(corner - end_lap - CLEAR // 2, corner + CLEAR // 2) for corner in corners]
