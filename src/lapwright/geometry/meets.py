"""Where two polygons meet: whether they overlap, and which of their sides lie on one another.

Exact on whole numbers.  Touching, at a corner or along a side, is not overlap.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from lapwright.geometry.polygon import (
    Box,
    Point,
    Side,
    bounds,
    counter_clockwise,
    is_on_side,
    place_of,
    sides_of,
    turn,
)
from lapwright.geometry.sweep import is_across, meet

_Mark = tuple[int, int, int, int, int, int]  # left, right, low, high, of which sequence, index


@dataclass(frozen=True, slots=True)
class Coincidence:
    """A stretch that two sides share: side of the first polygon, side of the second (from 0), its length."""

    first: int
    second: int
    length: float


def overlap(a: Sequence[Point], b: Sequence[Point]) -> bool:
    """Two polygons share more than corners and stretches of their outlines.

    Holds for: outlines that do not cross themselves.
    Source: arithmetic; where no side crosses another, an outline changes from inside to outside of the other
        polygon only where the two touch, so one look at each stretch between touches is enough.
    Checked: tests/geometry/test_meets.py
    """
    if not _boxes_overlap(bounds(a), bounds(b)):
        return False
    one, two = counter_clockwise(a), counter_clockwise(b)
    touching_one: dict[int, None] = {}
    touching_two: dict[int, None] = {}
    sides_one, sides_two = sides_of(one), sides_of(two)
    for i, j in meeting_boxes(sides_one, sides_two):
        if is_across(sides_one[i], sides_two[j]):
            return True
        touching_one[i] = None
        touching_two[j] = None
    return _goes_inside(one, two, list(touching_one) or [0]) or _goes_inside(two, one, list(touching_two) or [0])


def is_well_inside(outer: Sequence[Point], inner: Sequence[Point]) -> bool:
    """A polygon lies inside another and touches it nowhere.

    Source: arithmetic
    Checked: tests/geometry/test_meets.py
    """
    walls, sides = sides_of(outer), sides_of(inner)
    return place_of(outer, inner[0]) > 0 and not any(meet(walls[i], sides[j]) for i, j in meeting_boxes(walls, sides))


def meeting_boxes(one: Sequence[Side], two: Sequence[Side]) -> Iterator[tuple[int, int]]:
    """Pairs (i, j) of a side of each sequence whose bounding boxes meet, touching included."""
    if not one or not two:
        return
    marks = [(*_span(side), 0, index) for index, side in enumerate(one)]
    others = [(*_span(side), 1, index) for index, side in enumerate(two)]
    marks, others = _within_reach(marks, others), _within_reach(others, marks)
    if _is_better_across(marks + others):
        marks = [(low, high, left, right, of, index) for left, right, low, high, of, index in marks]
        others = [(low, high, left, right, of, index) for left, right, low, high, of, index in others]
    open_sides: tuple[dict[int, tuple[int, int, int]], ...] = ({}, {})
    for left, right, low, high, of, index in sorted(marks + others):
        facing = open_sides[1 - of]
        for other in [key for key, (other_right, _, _) in facing.items() if other_right < left]:
            del facing[other]
        for other, (_, other_low, other_high) in facing.items():
            if low <= other_high and other_low <= high:
                yield (index, other) if of == 0 else (other, index)
        open_sides[of][index] = (right, low, high)


def _within_reach(marks: Sequence[_Mark], others: Sequence[_Mark]) -> list[_Mark]:
    """The marks that meet the box around all the others: of two areas side by side, only those at the seam."""
    left, right = min(mark[0] for mark in others), max(mark[1] for mark in others)
    low, high = min(mark[2] for mark in others), max(mark[3] for mark in others)
    return [mark for mark in marks if mark[0] <= right and left <= mark[1] and mark[2] <= high and low <= mark[3]]


def _is_better_across(marks: Sequence[_Mark]) -> bool:
    """Fewer boxes lie beside one another when the sweep runs along y: a seam that runs north is swept northwards."""
    if not marks:
        return False
    wide = max(mark[1] for mark in marks) - min(mark[0] for mark in marks)
    high = max(mark[3] for mark in marks) - min(mark[2] for mark in marks)
    return sum(mark[3] - mark[2] for mark in marks) * wide < sum(mark[1] - mark[0] for mark in marks) * high


def coincident_sides(a: Sequence[Point], b: Sequence[Point], *, slack: int = 0) -> tuple[Coincidence, ...]:
    """Stretches longer than `slack` that a side of `a` and a side of `b` share, either way round.

    slack: how far apart two sides may lie and still be one [same unit as the points].
    Checked: tests/geometry/test_meets.py
    """
    sides_a, sides_b = sides_of(a), sides_of(b)
    grown = [((x0 - slack, y0 - slack), (x1 + slack, y1 + slack)) for x0, y0, x1, y1 in map(bounds, sides_b)]
    found = []
    for i, j in meeting_boxes(sides_a, grown):
        length = _shared_length(sides_a[i], sides_b[j], slack)
        if length > slack:
            found.append(Coincidence(i, j, length))
    return tuple(sorted(found, key=lambda each: (each.first, each.second)))


def _span(side: Side) -> tuple[int, int, int, int]:
    (ax, ay), (bx, by) = side
    return (min(ax, bx), max(ax, bx), min(ay, by), max(ay, by))


def _boxes_overlap(one: Box, two: Box) -> bool:
    return one[0] < two[2] and two[0] < one[2] and one[1] < two[3] and two[1] < one[3]


def _goes_inside(one: Sequence[Point], two: Sequence[Point], places: Sequence[int]) -> bool:
    """Some stretch of the named sides of `one` has ground of both polygons on its left.

    Both run counter-clockwise, and no side of one crosses a side of the other.
    """
    doubled = [(2 * x, 2 * y) for x, y in two]
    sides, others = sides_of(one), sides_of(two)
    known = set(others)  # a seam of whole sides needs no look around the polygon
    touches: dict[int, set[Point]] = {place: set(sides[place]) for place in places}
    for place, j in meeting_boxes([sides[place] for place in places], others):
        corner = others[j][0], others[j][1]
        touches[places[place]].update(point for point in corner if is_on_side(point, sides[places[place]]))
    for place in places:
        start, end = sides[place]
        stops = sorted(touches[place], reverse=start > end)
        for here, there in pairwise(stops):
            if (there, here) in known:
                continue
            middle = (here[0] + there[0], here[1] + there[1])
            where = place_of(doubled, middle)
            if where > 0 or (where == 0 and _runs_along(doubled, middle, (here, there))):
                return True
    return False


def _runs_along(doubled: Sequence[Point], middle: Point, way: Side) -> bool:
    """The polygon's side through `middle` runs the same way, so that both lie on the same side of it."""
    (ax, ay), (bx, by) = way
    for start, end in sides_of(doubled):
        if is_on_side(middle, (start, end)) and start != end:
            return (end[0] - start[0]) * (bx - ax) + (end[1] - start[1]) * (by - ay) > 0
    return False


def _shared_length(one: Side, two: Side, slack: int) -> float:
    """Length of side `one` along which side `two` is no farther than `slack`; 0 where they are not parallel there."""
    start, end = one
    dx, dy = end[0] - start[0], end[1] - start[1]
    length2 = dx * dx + dy * dy
    along = [(x - start[0]) * dx + (y - start[1]) * dy for x, y in two]
    if length2 == 0 or along[0] == along[1]:
        return 0.0
    begin, finish = max(0, min(along)), min(length2, max(along))
    if begin >= finish:
        return 0.0
    apart = [turn(start, end, point) for point in two]
    for at in (begin, finish):
        # twice the area between the lines at this place, over the length of `one`, is the distance
        here = apart[0] + Fraction((apart[1] - apart[0]) * (at - along[0]), along[1] - along[0])
        if here * here > slack * slack * length2:
            return 0.0
    return float((finish - begin) / length2**0.5)
