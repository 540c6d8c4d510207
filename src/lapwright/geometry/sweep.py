"""Whether an outline crosses itself, and where: a sweep from left to right, exact on whole numbers.

The sides cut by the sweep line are kept in order from below; only neighbours can meet first, so
n sides need n log n comparisons.  A side *ends* before the next one *starts* at the same corner.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from lapwright.geometry.polygon import Point, Side, is_on_side, sides_of, turn

MOST_TOLD = 20


def crossings(points: Sequence[Point]) -> tuple[tuple[int, int], ...]:
    """Pairs of sides (from 0, the lower first) that meet otherwise than end to start at their common corner.

    Empty exactly where the outline is simple.  Sides of no length are passed over.  Once a pair is found its two
    sides are set aside, so a side that crosses several others is told once; at most MOST_TOLD pairs in all.
    Source: M. I. Shamos and D. Hoey, Geometric intersection problems, 1976 [from memory]
    Checked: tests/geometry/test_sweep.py
    """
    sides = {index: side for index, side in enumerate(sides_of(points)) if side[0] != side[1]}
    order = list(sides)
    sweep = _Sweep(sides, order)
    found = _fold_backs(sides, order) + _shared_corners(sides, order)
    aside = {near for pair in found for index in pair for near in (index, order[sweep.rank[index] - 1])}
    while len(found) < MOST_TOLD:
        pair = sweep.first_pair(index for index in order if index not in aside)
        if pair is None:
            break
        found.append(pair)
        aside.update(pair)
    return tuple(sorted(set(found))[:MOST_TOLD])


def meet(one: Side, two: Side) -> bool:
    """Two sides share at least one point, ends included."""
    (a, b), (c, d) = one, two
    if max(a[0], b[0]) < min(c[0], d[0]) or max(c[0], d[0]) < min(a[0], b[0]):
        return False
    if max(a[1], b[1]) < min(c[1], d[1]) or max(c[1], d[1]) < min(a[1], b[1]):
        return False
    if is_across(one, two):
        return True
    return is_on_side(a, two) or is_on_side(b, two) or is_on_side(c, one) or is_on_side(d, one)


def is_across(one: Side, two: Side) -> bool:
    """Two sides cross at one point inside both."""
    (a, b), (c, d) = one, two
    left, right = turn(a, b, c), turn(a, b, d)
    if not (left < 0 < right or right < 0 < left):
        return False
    left, right = turn(c, d, a), turn(c, d, b)
    return left < 0 < right or right < 0 < left


def meeting_place(one: Side, two: Side) -> Point:
    """A point that two meeting sides share, to the nearest whole number; an end of one where they share several."""
    for point, other in ((one[0], two), (one[1], two), (two[0], one), (two[1], one)):
        if is_on_side(point, other):
            return point
    (a, b), (c, d) = one, two
    before, after = turn(c, d, a), turn(c, d, b)
    share = Fraction(before, before - after)
    return (round(a[0] + share * (b[0] - a[0])), round(a[1] + share * (b[1] - a[1])))


def _fold_backs(sides: dict[int, Side], order: Sequence[int]) -> list[tuple[int, int]]:
    """Neighbours of which the second runs back over the first."""
    found = []
    for place, second in enumerate(order):
        first = order[place - 1]
        (a, b), (_, c) = sides[first], sides[second]
        dot = (a[0] - b[0]) * (c[0] - b[0]) + (a[1] - b[1]) * (c[1] - b[1])
        if turn(a, b, c) == 0 and dot > 0 and first != second:
            found.append((min(first, second), max(first, second)))
    return list(dict.fromkeys(found))


def _shared_corners(sides: dict[int, Side], order: Sequence[int]) -> list[tuple[int, int]]:
    """Sides that start at a corner where an earlier one started."""
    starts: defaultdict[Point, list[int]] = defaultdict(list)
    for index in order:
        starts[sides[index][0]].append(index)
    return [(same[0], other) for same in starts.values() for other in same[1:]]


@dataclass(slots=True)
class _Sweep:
    """The sides on the sweep line, from below; each side's left and right end by index."""

    sides: dict[int, Side]
    order: list[int]
    left: dict[int, Point] = field(init=False)
    right: dict[int, Point] = field(init=False)
    rank: dict[int, int] = field(init=False)
    line: list[int] = field(init=False)

    def __post_init__(self) -> None:
        self.left = {index: min(side) for index, side in self.sides.items()}
        self.right = {index: max(side) for index, side in self.sides.items()}
        self.rank = {index: place for place, index in enumerate(self.order)}
        self.line = []

    def first_pair(self, indices: Iterable[int]) -> tuple[int, int] | None:
        """The first two sides found to meet, or None where none do."""
        self.line = []
        events = []
        for index in indices:
            events.append((self.left[index], 1, index))
            events.append((self.right[index], 0, index))
        for _, is_start, index in sorted(events):
            pair = self._start(index) if is_start else self._end(index)
            if pair is not None:
                return pair
        return None

    def _start(self, index: int) -> tuple[int, int] | None:
        place = self._place(index)
        self.line.insert(place, index)
        return self._clash(place - 1, place) or self._clash(place, place + 1)

    def _end(self, index: int) -> tuple[int, int] | None:
        place = self._place(index)
        if place == len(self.line) or self.line[place] != index:
            place = self.line.index(index)
        self.line.pop(place)
        return self._clash(place - 1, place)

    def _place(self, index: int) -> int:
        """The first place on the line that is not below the side."""
        low, high = 0, len(self.line)
        while low < high:
            middle = (low + high) // 2
            if self._height(index, self.line[middle]) > 0:
                low = middle + 1
            else:
                high = middle
        return low

    def _height(self, one: int, two: int) -> int:
        """Above 0 where side `one` lies above side `two` on the sweep line."""
        if one == two:
            return 0
        if self.left[one] >= self.left[two]:
            low, high = self.left[two], self.right[two]
            return turn(low, high, self.left[one]) or turn(low, high, self.right[one])
        low, high = self.left[one], self.right[one]
        return -(turn(low, high, self.left[two]) or turn(low, high, self.right[two]))

    def _clash(self, below: int, above: int) -> tuple[int, int] | None:
        if below < 0 or above >= len(self.line):
            return None
        one, two = sorted((self.line[below], self.line[above]))
        if (self.rank[two] - self.rank[one]) % len(self.order) in (1, len(self.order) - 1):
            return None  # neighbours share a corner; folding back over one another was looked for before
        return (one, two) if meet(self.sides[one], self.sides[two]) else None
