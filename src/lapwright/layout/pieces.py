"""Pieces of every course: held laps first, then joints that keep the rules, then the pieces between them."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from lapwright.assembly.values import Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.joints import Span, rounded_up
from lapwright.layout.keepclear import CLEAR, INCH
from lapwright.layout.laps import Laid
from lapwright.layout.plain import plain
from lapwright.layout.runs import Hole, Run
from lapwright.layout.values import Course, Piece

SLIT = 2 * INCH  # an opening shorter than the end lap and this much is slit, like a pipe


@dataclass(frozen=True, slots=True)
class PlyGround:
    """One ply of an area, ready for its pieces: courses and their runs; held joints by (course, run) and by
    course; shortest and longest piece [ticks]; barred: by course, open spans that no free joint may lie in
    (keepclear.py).
    """

    ply: str
    sheet: Sheet
    courses: tuple[Course, ...]
    runs: tuple[tuple[Run, ...], ...]
    held: Mapping[tuple[int, int], tuple[int, ...]]
    held_by_course: Mapping[int, tuple[int, ...]]
    shortest: int
    longest: int
    barred: Mapping[int, tuple[Span, ...]] = field(default_factory=dict)


@plain
class Stretch:
    """One piece of a run before it has an id: from, to, and the length cut for it [ticks]."""

    course: int
    left: int
    right: int
    cut: int


def held_room(hole: Hole, end_lap: int) -> Span | None:
    """Where the lap that passes an opening may begin; None where the opening is so small that it is slit.

    The lap lies between two neighbouring corners, the pair that is farthest apart; where none is far enough apart,
    anywhere in the opening.
    """
    if hole.right - hole.left - end_lap < SLIT:
        return None
    left, right = max(pairwise(hole.corners), key=lambda pair: (pair[1] - pair[0], -pair[0]))
    if right - left < end_lap:
        left, right = hole.left, hole.right
    return left, right - end_lap


def held_joints(holes: Sequence[Hole], end_lap: int, *, to_right: bool) -> tuple[int, ...]:
    """Where the laps that pass openings of a run begin; one lap passes openings that lie above one another.

    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_held_joints.py
    """
    rooms: list[Span] = []
    for low, high in sorted(room for hole in holes if (room := held_room(hole, end_lap)) is not None):
        if rooms and low <= rooms[-1][1]:
            rooms[-1] = (low, min(high, rooms[-1][1]))
        else:
            rooms.append((low, high))
    clear = [min(CLEAR, (high - low) // 2) for low, high in rooms]
    return tuple(high - off if to_right else low + off for (low, high), off in zip(rooms, clear, strict=True))


def hold_joints(
    runs: Sequence[Sequence[Run]], end_lap: int, is_right: Callable[[int], bool]
) -> dict[tuple[int, int], tuple[int, ...]]:
    """Held joints of a ply by (course, run).  is_right: whether a course's lie to the right in their opening."""
    return {
        (run.course, r): held_joints(run.holes, end_lap, to_right=is_right(run.course))
        for of_course in runs
        for r, run in enumerate(of_course)
    }


def overlapping(course: Course, others: Sequence[Course]) -> list[int]:
    """Indices of the courses of another ply that lie over or under this one; others rise."""
    first = bisect_right(others, course.low, key=lambda other: other.high)
    last = bisect_left(others, course.high, key=lambda other: other.low)
    return [other.index for other in others[first:last]]


def around(places: Sequence[int], distance: int) -> list[Span]:
    """Open spans that keep `distance` from each place."""
    return [(place - distance, place + distance) for place in places]


def run_stretches(run: Run, joints: Sequence[int], end_lap: int, step: int) -> list[Stretch]:
    """The pieces of a run between its joints.  Source: arithmetic"""
    lefts = [run.left, *joints]
    rights = [*[joint + end_lap for joint in joints], run.right]
    return [
        Stretch(run.course, left, right, rounded_up(right - left, step))
        for left, right in zip(lefts, rights, strict=True)
    ]


def make_pieces(
    area: str, ground: PlyGround, joints: Mapping[tuple[int, int], tuple[int, ...]], rules: Rules
) -> list[Laid]:
    """The pieces of a ply, course by course from the low edge, in each course run by run from the left.

    Ids are made of area, ply, course and place in the course; the place counts from the left across all its runs, which
    may lie beside one another over a stretch where an opening or a side is turned.
    """
    lap, step = ground.sheet.end_lap_ticks, rules.cut_step_ticks
    laid: list[Laid] = []
    for course, runs in zip(ground.courses, ground.runs, strict=True):
        cut = [
            (run, stretch)
            for r, run in enumerate(runs)
            for stretch in run_stretches(run, joints[(course.index, r)], lap, step)
        ]
        for (run, stretch), place in zip(cut, places_from_left([stretch for _, stretch in cut]), strict=True):
            low, high = run.span or (course.low, course.high)
            piece = Piece(
                id=f"{area}/{ground.ply}/{course.index:02d}/{place}",
                area=area,
                ply=ground.ply,
                course=course.index,
                place=place,
                u0=stretch.left,
                u1=stretch.right,
                v0=low,
                v1=high,
                cut_length=stretch.cut,
                sheet=ground.sheet.name,
            )
            laid.append(Laid(piece, run))
    return laid


def places_from_left(stretches: Sequence[Stretch]) -> list[int]:
    """The place of each stretch of a course from the left, from 1; of two that begin together the shorter is first.

    Source: arithmetic
    """
    order = sorted(range(len(stretches)), key=lambda k: (stretches[k].left, stretches[k].right, k))
    places = [0] * len(stretches)
    for place, k in enumerate(order, start=1):
        places[k] = place
    return places
