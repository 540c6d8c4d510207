"""What courses of certain kinds take beside one another, for the sweep from the top down (sweep.py).

Terms: levels.py.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import product

from lapwright.layout.levels import Kind, Of, PlyTask, can_meet, fewest_laps, make_kind, may_cover

NEVER = float("inf")
Both = tuple[float, float]  # loose and tight
Row = tuple[int, int, tuple[float, ...]]  # courses that are tight before and after, as bits, and what is taken


@dataclass(frozen=True, slots=True)
class Apart:
    """The rules between courses and plies [ticks], loosened by what lengths are read to.

    joints: by ply and ply, the distance that joints keep.
    """

    offset: int
    offset_at_rip: int
    narrowest: int
    joints: tuple[tuple[int, ...], ...]


@dataclass(frozen=True, slots=True)
class Worth:
    """What courses take.

    own: of a ply and a kind, so much as it takes when it is loose and when it is tight.
    beside: of an end lap and a course next to its own in the same ply that covers the place where it runs up to it.
    """

    own: Callable[[int, Kind], tuple[float, float]]
    beside: float = 0.0


@dataclass(slots=True)
class Takes:
    """What the courses of all plies take, worked out once for each kind."""

    plies: Sequence[PlyTask]
    apart: Apart
    worths: Sequence[Worth]
    _kinds: dict[tuple[int, Of], Kind] = field(default_factory=dict)
    _own: dict[tuple[int, Of], tuple[Both, ...]] = field(default_factory=dict)
    _meet: dict[tuple[tuple[int, Of], ...], bool] = field(default_factory=dict)
    _tables: dict[object, tuple[Row, ...]] = field(default_factory=dict)
    _still: dict[tuple[int, int, tuple[int, ...]], tuple[float, ...]] = field(default_factory=dict)
    _shared: dict[tuple[int, Of, Of], int] = field(default_factory=dict)

    def kind(self, ply: int, of: Of) -> Kind:
        """A kind of course of a ply, made once."""
        if (ply, of) not in self._kinds:
            self._kinds[(ply, of)] = make_kind(self.plies[ply], of[0], of[1], is_sure=of[2])
        return self._kinds[(ply, of)]

    def own(self, ply: int, of: Of) -> tuple[Both, ...]:
        """What a course takes, loose and tight, for each worth."""
        if (ply, of) not in self._own:
            kind = self.kind(ply, of)
            self._own[(ply, of)] = tuple(worth.own(ply, kind) for worth in self.worths)
        return self._own[(ply, of)]

    def meet(self, *courses: tuple[int, Of]) -> bool:
        """Tight courses can all lie on or beside one another."""
        if courses not in self._meet:
            spans = [(self.kind(ply, of).joints, ply) for ply, of in courses]
            met = [one for one in spans if one[0]]
            self._meet[courses] = len(met) < 2 or can_meet(met, self.apart.joints)
        return self._meet[courses]

    def shared(self, p: int, one: Of, other: Of) -> int:
        """End laps that a course has at least where one next to it in its ply lies as well, and the other way round.

        Both cover a stretch, whatever else they cover; so many pieces it takes, and their joints lie within it.
        Source: docs/method/layout.md, bounds
        Checked: tests/layout/test_takes.py, tests/reference
        """
        name = (p, min(one, other), max(one, other))
        if name not in self._shared:
            ply = self.plies[p]
            self._shared[name] = min(
                fewest_laps(min(a[1], b[1]) - max(a[0], b[0]), ply.longest, ply.end_lap)
                for a, b in product(may_cover(ply, *one[:2]), may_cover(ply, *other[:2]))
            )
        return self._shared[name]

    def near(self, ply: int) -> list[int]:
        """Neighbouring plies."""
        return [other for other in (ply - 1, ply + 1) if 0 <= other < len(self.plies)]

    def still(self, p: int, line: int) -> tuple[float, ...]:
        """What courses of a ply below a course that begins on a line or higher take at least, for each worth.

        Of lines with no more than a pitch between them, h over the pitch, rounded down, pairs that follow one another
        lie within a height h from the low edge or from such a line; one less within a band with a step at both ends.
        Courses between two of them cover that band alone.  All courses are the whole height over the pitch, rounded up;
        those that are in none of these bands cover any one.  Each lies beside the one above it.
        """
        ply, last = self.plies[p], len(self.plies[p].levels) - 1
        pitch = ply.width - ply.side_lap
        counts = tuple(
            max(0, (min(line, level.high) - level.low) // pitch - (0 < b < last))
            for b, level in enumerate(ply.levels)
            if level.low < line
        )
        others = max(0, -(-(line - ply.begins) // pitch) - sum(counts))
        if (p, others, counts) not in self._still:
            self._still[(p, others, counts)] = tuple(self._together(p, others, counts))
        return self._still[(p, others, counts)]

    def _together(self, p: int, others: int, counts: Sequence[int]) -> Iterator[float]:
        """What so many courses over each band and others take, with the end laps that run up to a neighbour."""
        bands: list[Of] = [(b, b, False) for b in range(len(self.plies[p].levels))]
        least = [[min(both) for both in self.own(p, of)] for of in bands]
        pairs = [max(0, count - 1) for count in counts]
        joints = sum(many * self.shared(p, of, of) for many, of in zip(pairs, bands, strict=False))
        joints += (others + sum(counts) - sum(pairs)) * min(self.shared(p, *pair) for pair in product(bands, bands))
        for w, worth in enumerate(self.worths):
            total = others * min(own[w] for own in least) + worth.beside * 2 * joints
            yield total + sum(count * own[w] for own, count in zip(least, counts, strict=False))

    def start(self, kinds: Sequence[Of], tight: int) -> tuple[float, ...]:
        """What the top courses take, for each worth."""
        for ply in range(len(kinds) - 1):
            if tight >> ply & 3 == 3 and not self.meet((ply, kinds[ply]), (ply + 1, kinds[ply + 1])):
                return (NEVER,) * len(self.worths)
        return tuple(
            sum(self.own(ply, kind)[w][tight >> ply & 1] for ply, kind in enumerate(kinds))
            for w in range(len(self.worths))
        )

    def table(self, p: int, old: Of, new: Of, near: tuple[tuple[int, Of], ...]) -> tuple[Row, ...]:
        """Which courses may be tight before and after, and what the new one takes with its end laps beside the old."""
        name = (p, old, new, near)
        if name not in self._tables:
            self._tables[name] = tuple(self._rows(p, old, new, near))
        return self._tables[name]

    def _rows(self, p: int, old: Of, new: Of, near: Sequence[tuple[int, Of]]) -> Iterator[Row]:
        kinds = self.kind(p, old), self.kind(p, new)
        for before, is_tight in product(range(1 << len(self.plies)), (0, 1)):
            was_tight = before >> p & 1
            if not self._may(p, (old, was_tight), (new, is_tight), [one for one in near if before >> one[0] & 1]):
                continue
            joints = 2 * self.shared(p, old, new)
            for (one, tight), other in (((kinds[0], was_tight), kinds[1]), ((kinds[1], is_tight), kinds[0])):
                if one.is_all and other.left <= one.left and one.right <= other.right:
                    joints += not tight
            own = self.own(p, new)
            more = tuple(both[is_tight] + worth.beside * joints for both, worth in zip(own, self.worths, strict=True))
            yield before, before & ~(1 << p) | is_tight << p, more

    def _may(self, p: int, old: tuple[Of, int], new: tuple[Of, int], near: Sequence[tuple[int, Of]]) -> bool:
        """A new course may be tight or not beside the one above it and those of neighbouring plies that are tight."""
        if not new[1]:
            return True
        mine = (p, new[0])
        if old[1] and not self.meet((p, old[0]), mine):
            return False
        for other in near:
            if not self.meet(mine, other) or (old[1] and not self.meet((p, old[0]), mine, other)):
                return False
        return True


def reach_of(ply: PlyTask, count: int) -> int:
    """From the low line of the lowest course so far down to the next one at most: a sheet, less its lap below the top.

    Source: arithmetic
    """
    return ply.width if count == 1 else ply.width - ply.side_lap
