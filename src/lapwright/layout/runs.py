"""Runs: what one course covers without a break, and the end laps that openings hold.

An opening that spans the sheet splits the run.  One that reaches in from a long side is a notch.  One wholly
inside the width is passed by two notched pieces that meet in an end lap between its corners: a *held* lap.
What is left of a sheet beside an opening counts only where it is wider than the side lap, since the
neighbouring course covers that much anyway.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Any

from lapwright.layout.lapground import Need, with_shares
from lapwright.layout.region import Region, filled
from lapwright.layout.rows import LEAST, Row, bands, between, is_rectangle, make_row, parts_of, reached
from lapwright.layout.values import UV, Course

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


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
        if self.holes:
            return False
        _, low, _, high = self.shape.bounds
        return bool(self.shape.area > (self.right - self.left) * (high - low) - LEAST * LEAST)

    def fills(self, low: int, high: int) -> bool:
        """A rectangle as deep as that: none of what lies between the two edges is trimmed off."""
        if self.holes:
            return False
        _, bottom, _, top = self.shape.bounds
        return bool(bottom < low + LEAST and top > high - LEAST) and self.is_plain


def ply_runs(region: Region, courses: Sequence[Course], lap: int) -> tuple[tuple[Run, ...], ...]:
    """The runs of every course of a ply, each course left to right.

    courses: from the low edge up, each lower and upper edge above those of the course before.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    near = reached(region.openings, courses)
    grounds = bands(filled(region.outline), courses)
    rows = [make_row(courses, place, grounds[place], near[place], lap) for place in range(len(courses))]
    needs = [own_need(rows, place) for place in range(len(rows))]
    return tuple(course_runs(need, needed) for need, needed in zip(needs, with_shares(needs), strict=True))


def own_need(rows: Sequence[Row], place: int) -> Need:
    """What a course is needed for by itself.  rows: all courses of the ply; place: of this one among them.

    Ground within a side lap of the sheet's edge is left to the neighbouring course where that one lies there anyway,
    and what this one has to cover for a neighbour is needed.
    """
    from shapely.ops import unary_union

    row, neighbours = rows[place], [rows[k] for k in (place - 1, place + 1) if 0 <= k < len(rows)]
    left_to_it = [margin for other in neighbours for margin in other.margins]
    ground, needed = row.ground, row.alone
    if not row.margins and not left_to_it and is_oblong(row):
        return Need(row, ground, ground, is_whole=True)
    if row.margins:
        ground = ground.difference(unary_union(row.margins))
        needed = between(ground, *row.free)
    if left_to_it:
        needed = unary_union([needed, *(ground.intersection(margin) for margin in left_to_it)])
    return Need(row, ground, needed)


def course_runs(need: Need, needed: BaseGeometry) -> tuple[Run, ...]:
    """The runs of one course, left to right: as far as it is needed.

    needed: what it has to cover, its share of the laps with it.
    Source: common practice, no source (notch, split, held end lap)
    Checked: tests/layout/test_place.py, tests/properties/test_layout.py
    """
    row = need.row
    if need.is_whole:
        left, _, right, _ = row.ground.bounds
        return (make_run(row.ground, row.ground, (int(left), int(right)), row.course, row.near),)
    parts = parts_of(need.ground)
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

    It ends where it is needed on that side, on the other where its course does.  Where an opening that stands askew
    parts the two no level does; the one that lies higher there at both its edges is the upper one.  One whose sheets go
    on past the opening lies on both sides of the other: neither is the upper one.
    """
    from shapely import box

    _, low, _, high = run.shape.bounds
    span = (course.low, course.high)
    for other in runs:
        left, right = max(run.left, other.left), min(run.right, other.right)
        if other is run or right - left <= LEAST:
            continue
        there = box(left, course.low, right, course.high)
        (_, here_low, _, here_high), (_, its_low, _, its_high) = (
            one.lies.intersection(there).bounds for one in (run, other)
        )
        if its_low > here_low and its_high > here_high:
            span = (span[0], math.ceil(high))
        elif its_low < here_low and its_high < here_high:
            span = (math.floor(low), span[1])
    return None if span == (course.low, course.high) else span


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
