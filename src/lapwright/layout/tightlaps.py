"""How little the courses of an area take on given course lines, since not all of them can have the fewest pieces.

*Tight*: a course with the fewest pieces, so that its joints can only lie within the play that they leave (levels.py).
Courses that lie beside and on one another keep their joints apart, so of each three that do, one may need a piece more.
Which one, and with how few in all, is worked out from the low edge up, line by line.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from itertools import product

from lapwright.layout.joints import Span
from lapwright.layout.levels import can_meet

Place = tuple[int, Sequence[Span]]  # ply, spans of a tight course's joints


@dataclass(frozen=True, slots=True)
class CourseTakes:
    """A course on its line.

    spans: of its joints where it is tight; none where it has none.  least, more: what it takes when it is tight, and
    how much more it takes when it is not.
    """

    low: int
    spans: tuple[Span, ...]
    least: float
    more: float


@dataclass(slots=True)
class TightLaps:
    """Courses of all plies, ply by ply from the low edge up.  apart: by ply and ply, the distance that joints keep."""

    plies: Sequence[Sequence[CourseTakes]]
    apart: Sequence[Sequence[int]]
    _meet: dict[tuple[tuple[int, tuple[Span, ...]], ...], bool] = field(default_factory=dict)

    def least(self) -> float:
        """What all courses take at least, as far as courses beside and on one another tell.

        Source: docs/method/layout.md, which course lines
        Checked: tests/layout/test_tightlaps.py
        """
        current = [courses[0] for courses in self.plies]
        states = self._first(current)
        for course, p in sorted(
            ((course, p) for p, courses in enumerate(self.plies) for course in courses[1:]),
            key=lambda one: (one[0].low, one[1]),
        ):
            states = self._after(states, current, p, course)
            current[p] = course
        return min(states.values())

    def _first(self, current: Sequence[CourseTakes]) -> dict[tuple[bool, ...], float]:
        """What the first courses take, by which of them are tight."""
        found = {}
        for tight in product((True, False), repeat=len(current)):
            pairs = [(p, p + 1) for p in range(len(current) - 1) if tight[p] and tight[p + 1]]
            if all(self._can(*((q, current[q]) for q in pair)) for pair in pairs):
                found[tight] = sum(
                    course.least + (not is_tight) * course.more for course, is_tight in zip(current, tight, strict=True)
                )
        return found

    def _after(
        self, states: dict[tuple[bool, ...], float], current: Sequence[CourseTakes], p: int, course: CourseTakes
    ) -> dict[tuple[bool, ...], float]:
        """What all take once a course follows in ply p, by which of the current ones are tight."""
        found: dict[tuple[bool, ...], float] = {}
        old = (p, current[p])
        for (tight, paid), is_tight in product(states.items(), (True, False)):
            near = [(q, current[q]) for q in (p - 1, p + 1) if 0 <= q < len(current) and tight[q]]
            if is_tight and not self._fits(old if tight[p] else None, (p, course), near):
                continue
            now = (*tight[:p], is_tight, *tight[p + 1 :])
            worth = paid + course.least + (not is_tight) * course.more
            found[now] = min(worth, found.get(now, worth))
        return found

    def _fits(
        self, old: tuple[int, CourseTakes] | None, new: tuple[int, CourseTakes], near: Sequence[tuple[int, CourseTakes]]
    ) -> bool:
        """A tight course may follow a tight one, if `old` is one, on tight ones of neighbouring plies."""
        if old is None:
            return all(self._can(new, other) for other in near)
        return self._can(old, new) and all(self._can(old, new, other) for other in near)

    def _can(self, *courses: tuple[int, CourseTakes]) -> bool:
        """Courses that lie beside and on one another can all be tight."""
        key = tuple((p, course.spans) for p, course in courses if course.spans)
        if key not in self._meet:
            self._meet[key] = len(key) < 2 or can_meet([(spans, p) for p, spans in key], self.apart)
        return self._meet[key]
