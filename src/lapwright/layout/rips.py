"""Where courses are ripped so that the lap lines of neighbouring plies keep their offset, with the fewest rips.

The i-th lap line of a ply lies at  begins + i·pitch - grid·v , where v, its *lowering*, counts the grid steps that the
starter and the ripped courses below have taken off full sheets.  A full course leaves v as it was, a ripped one raises
it.  Every rule bounds a difference of two lowerings, so the lowerings that a pair of lines can have together make up
zones, and the search is exact.  Derivation: docs/method/layout.md, "Sheets that drift".
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import product

from lapwright.layout.laplines import Band, Lines, Stack
from lapwright.layout.zones import Zone, bounded, holds, make_zone, raised, span_of


@dataclass(frozen=True, slots=True)
class At:
    """How far the plies are laid.

    index: of each ply's last line, from 1.  above: for each pair of neighbours, is the lower ply's last line the
    higher one.  done: has the ply its top line.
    """

    index: tuple[int, ...]
    above: tuple[bool, ...]
    done: tuple[bool, ...]


@dataclass(slots=True)
class Reached:
    """Lowerings that can be reached, from which others, and which ply was ripped on the way (None: a full course)."""

    at: At
    zone: Zone
    before: Reached | None
    ripped: int | None
    ply: int | None


@dataclass(frozen=True)
class Problem:
    """Plies that have lap lines, bottom first, with what holds for them.

    laid: of each ply its lines where they are given and only the others are sought.
    pairs: places of neighbours among `bands`.  top: least exposed width of the top course.  whole: plies that are not
    to be ripped, but for the starter.  full_start: plies whose first course is a full sheet.
    """

    bands: tuple[Band, ...]
    pairs: tuple[tuple[int, int], ...]
    stack: Stack
    top: int
    whole: frozenset[int]
    full_start: frozenset[int]
    laid: tuple[tuple[int, ...] | None, ...]

    @cached_property
    def size(self) -> int:
        """Rows of a zone."""
        return len(self.bands) + 1

    @cached_property
    def neighbours(self) -> tuple[tuple[tuple[int, int, bool], ...], ...]:
        """Of each ply: (neighbour, place of the pair, is this ply the lower of the two)."""
        found: list[list[tuple[int, int, bool]]] = [[] for _ in self.bands]
        for k, (low, high) in enumerate(self.pairs):
            found[low].append((high, k, True))
            found[high].append((low, k, False))
        return tuple(tuple(each) for each in found)

    @cached_property
    def most(self) -> tuple[int, ...]:
        """Grid steps that can be taken off a course of each ply."""
        return tuple(
            0 if given is not None else (band.pitch - self.stack.rip) // self.stack.grid
            for band, given in zip(self.bands, self.laid, strict=True)
        )

    def nominal(self, ply: int, index: int) -> int:
        """A line that nothing has lowered."""
        given = self.laid[ply]
        if given is not None:
            return given[index - 1]
        return self.bands[ply].begins + index * self.bands[ply].pitch

    def start(self) -> Iterator[Reached]:
        """The first line of every ply, each way that they can lie."""
        spans = [(0, 0 if p in self.full_start else most) for p, most in enumerate(self.most)]
        first = (1,) * len(self.bands)
        for above in product((False, True), repeat=len(self.pairs)):
            zone: Zone | None = make_zone(spans)
            for k, (p, q) in enumerate(self.pairs):
                zone = self.apart(zone, p, q, first, is_above=above[k])
            for done in product((False, True), repeat=len(self.bands)):
                kept = zone
                for p, is_done in enumerate(done):
                    kept = self.ending(kept, p, 1, is_done=is_done)
                if kept is not None:
                    yield Reached(At(first, above, done), kept, None, None, None)

    def apart(self, zone: Zone | None, p: int, q: int, index: Sequence[int], *, is_above: bool) -> Zone | None:
        """What of a zone has the line of ply p the offset above that of ply q, or below it."""
        if zone is None:
            return None
        base = self.nominal(p, index[p]) - self.nominal(q, index[q])
        if is_above:
            return bounded(zone, self.size, p, q, (base - self.stack.offset) // self.stack.grid)
        return bounded(zone, self.size, q, p, (-base - self.stack.offset) // self.stack.grid)

    def ending(self, zone: Zone | None, ply: int, index: int, *, is_done: bool) -> Zone | None:
        """What of a zone lets the line be the ply's top one, or leaves room for another."""
        if zone is None:
            return None
        given = self.laid[ply]
        if given is not None:
            return zone if is_done == (index == len(given)) else None
        band, fixed, grid = self.bands[ply], self.size - 1, self.stack.grid
        left = self.nominal(ply, index) - band.ends
        if not is_done:
            return bounded(zone, self.size, fixed, ply, -(left + self.stack.rip + self.top) // grid)
        is_held = index == 1 and ply in self.full_start  # nothing but the full first course lies below the top one
        kept = bounded(zone, self.size, fixed, ply, -(left + (0 if is_held else self.top)) // grid)
        return None if kept is None else bounded(kept, self.size, ply, fixed, (left + band.width) // grid)

    def next_ply(self, at: At) -> int:
        """The ply to get its next line: one whose last line lies below those of its unfinished neighbours."""
        free = [
            p
            for p, near in enumerate(self.neighbours)
            if not at.done[p] and all(at.done[q] or at.above[k] != is_lower for q, k, is_lower in near)
        ]
        return min(free, key=lambda p: (self.nominal(p, at.index[p]), p))

    def onward(self, here: Reached, zone: Zone, ply: int, ripped: int | None) -> Iterator[Reached]:
        """The ways that the ply's next line can lie, with its lowerings in `zone` already."""
        at = here.at
        index = (*at.index[:ply], at.index[ply] + 1, *at.index[ply + 1 :])
        ways: list[tuple[tuple[bool, ...], Zone]] = [(at.above, zone)]
        for q, k, is_lower in self.neighbours[ply]:
            if at.above[k] == is_lower:
                continue  # the neighbour is finished below
            grown = []
            for above, kept in ways:
                for is_above in (False, True):
                    left = self.apart(kept, ply, q, index, is_above=is_above)
                    if left is not None:
                        grown.append(((*above[:k], is_above == is_lower, *above[k + 1 :]), left))
            ways = grown
        for above, kept in ways:
            for is_done in (True, False):
                left = self.ending(kept, ply, index[ply], is_done=is_done)
                if left is not None:
                    done = (*at.done[:ply], is_done, *at.done[ply + 1 :])
                    yield Reached(At(index, above, done), left, here, ripped, ply)


@dataclass(slots=True)
class Found:
    """What a search came to.

    ends: the ends with the fewest rips, the first found first.  rips: how many those are.  is_whole: the search went to
    its end, so that what it did not find is not there.
    """

    ends: list[Reached]
    rips: int
    is_whole: bool


def search(problem: Problem, *, most: int | None = None, zones: int, start: Sequence[Reached] | None = None) -> Found:
    """Ends that are reached with the fewest ripped courses.

    most: no more rips than this.  zones: how many sets of lowerings are looked at before the search gives up.
    start: where to begin, if not at the first courses.
    Holds for: any stack of plies; exact where `is_whole`.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_rips.py against brute force
    """
    seen: dict[At, list[Zone]] = {}
    level = list(problem.start() if start is None else start)
    left, rips = zones, 0
    while level and (most is None or rips <= most):
        ends, level, looked = _level(problem, level, seen, left)
        if ends:
            return Found(ends, rips, is_whole=True)
        left -= looked
        if left <= 0:
            return Found([], rips, is_whole=False)
        rips += 1
    return Found([], rips, is_whole=True)


def _level(
    problem: Problem, level: Sequence[Reached], seen: dict[At, list[Zone]], most: int
) -> tuple[list[Reached], list[Reached], int]:
    """Everything that full courses reach from a level: the ends, the next level one rip on, zones looked at."""
    ends: list[Reached] = []
    ripped: list[Reached] = []
    looked = 0
    waiting: dict[int, list[Reached]] = {}
    for one in level:
        waiting.setdefault(sum(one.at.index), []).append(one)
    while waiting and looked < most:
        for here in waiting.pop(min(waiting)):
            if not _is_new(here, seen):
                continue
            looked += 1
            if all(here.at.done):
                ends.append(here)
                continue
            ply = problem.next_ply(here.at)
            for one in problem.onward(here, here.zone, ply, None):
                waiting.setdefault(sum(one.at.index), []).append(one)
            if ply not in problem.whole and problem.most[ply] > 0:
                zone = raised(here.zone, problem.size, ply, 1, problem.most[ply])
                ripped += problem.onward(here, zone, ply, ply)
    return ends, ripped, looked


def search_any(problem: Problem, zones: int) -> Found:
    """Any end at all, whatever is ripped: the highest place reached is followed first.

    Holds for: any stack of plies; exact where `is_whole`.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_rips.py against brute force
    """
    seen: dict[At, list[Zone]] = {}
    waiting = sorted(problem.start(), key=lambda one: all(one.at.done))
    left = zones
    while waiting:
        here = waiting.pop()
        if not _is_new(here, seen):
            continue
        if all(here.at.done):
            return Found([here], 0, is_whole=True)
        left -= 1
        if left <= 0:
            return Found([], 0, is_whole=False)
        ply = problem.next_ply(here.at)
        can_rip = ply not in problem.whole and problem.most[ply] > 0
        zone = raised(here.zone, problem.size, ply, 0, problem.most[ply]) if can_rip else here.zone
        waiting += sorted(problem.onward(here, zone, ply, ply if can_rip else None), key=lambda one: all(one.at.done))
    return Found([], 0, is_whole=True)


def _is_new(here: Reached, seen: dict[At, list[Zone]]) -> bool:
    """Is there a point in it that was not reached with as few rips; if so it is kept."""
    known = seen.setdefault(here.at, [])
    for zone in reversed(known):
        if holds(zone, here.zone):
            return False
    known.append(here.zone)
    return True


def lines_of(problem: Problem, end: Reached) -> tuple[Lines, ...]:
    """The lines that lead to an end, every lowering in the middle of what is open to it, from the top down."""
    size, grid = problem.size, problem.stack.grid
    values = _middle(end.zone, size)
    lines: list[list[int]] = [[] for _ in problem.bands]
    here: Reached | None = end
    while here is not None and here.before is not None:
        ply = here.ply
        assert ply is not None  # every step but the first one adds a line
        lines[ply].append(problem.nominal(ply, here.at.index[ply]) - grid * values[ply])
        if here.ripped is not None:
            values[ply] = _lowering(here.before.zone, size, values, ply, problem.most[ply])
        here = here.before
    found = []
    for p, band in enumerate(problem.bands):
        first = problem.nominal(p, 1) - grid * values[p]
        found.append(Lines(band, first - band.begins + band.lap, (first, *reversed(lines[p]))))
    return tuple(found)


def _middle(zone: Zone, size: int) -> list[int]:
    """A point of a zone: the plies that start full least lowered, the others half-way, the top ply first."""
    values = [0] * (size - 1)
    for p in reversed(range(size - 1)):
        low, high = span_of(zone, size, p)
        values[p] = low if p == size - 2 else (low + high) // 2
        fixed = size - 1
        kept = bounded(zone, size, p, fixed, values[p])
        kept = None if kept is None else bounded(kept, size, fixed, p, -values[p])
        assert kept is not None  # the value lies between the ends of its span
        zone = kept
    return values


def _lowering(zone: Zone, size: int, values: Sequence[int], ply: int, most: int) -> int:
    """Half-way among the lowerings from which a rip of the ply's next course leads to its value."""
    low, high = values[ply] - most, values[ply]
    for b, value in enumerate([*values, 0]):
        if b != ply:
            high = min(high, value + zone[ply * size + b])
            low = max(low, value - zone[b * size + ply])
    return (low + high) // 2
