"""Beside a ripped top course: lines that come closer there, where none keep every offset.

The lines of each ply are given up to a place and sought from there to the top: the last few of a long slope, all of a
short one, and then the search is exact.  As in `rips` a line is told by its *lowering*, the grid steps taken off full
sheets below it, so every rule bounds the difference of two lowerings: offset above or offset below, full or ripped.
What is open is tried one way and the other, the fewest plies that come closer first, then the fewest ripped courses.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations, pairwise, product

from lapwright.layout.laplines import Band, Lines, Stack, least_offset
from lapwright.layout.zones import Zone, bounded, make_zone, span_of

LOOKS = 8_000  # ways looked at, for each number of plies that come closer, before the search gives up
LOOKS_AT_TOP = 2_000  # where some lines are given
BELOW = 3  # given lines that the sought ones are compared with

Place = tuple[int, int]  # ply, line; lines counted from 0
Bound = tuple[int, int, int]  # variables a, b and the most that a - b can be


@dataclass(frozen=True, slots=True)
class Beside:
    """The line of a neighbour that lies next to a ripped top course: of which ply, for which rip, is it the lower."""

    rip: int
    line: Place
    is_below: bool


@dataclass(frozen=True, slots=True)
class Choice:
    """One way to decide something: what it bounds, how many courses it rips, which pair it brings near, if one."""

    bound: Bound
    rips: int
    loose: tuple[Place, Place] | None


@dataclass(frozen=True)
class Ask:
    """How many lines each ply has, which plies come closer at a ripped top, and what lies next to those tops.

    laid: the lines of each ply that are given.
    """

    bands: tuple[Band, ...]
    laid: tuple[tuple[int, ...], ...]
    stack: Stack
    counts: tuple[int, ...]
    rips: tuple[int, ...]
    beside: tuple[Beside, ...] = ()

    @cached_property
    def size(self) -> int:
        """Rows of a zone."""
        return 1 + sum(count - len(laid) for count, laid in zip(self.counts, self.laid, strict=True))

    @cached_property
    def places(self) -> dict[Place, tuple[int, int]]:
        """Of each line its variable, and where it lies if nothing is taken off; given ones hang on the fixed one."""
        found: dict[Place, tuple[int, int]] = {}
        variable = 0
        for p, (band, laid, count) in enumerate(zip(self.bands, self.laid, self.counts, strict=True)):
            found |= {(p, i): (self.size - 1, line) for i, line in enumerate(laid)}
            base = laid[-1] if laid else band.begins
            for i in range(len(laid), count):
                found[(p, i)] = (variable, base + (i - len(laid) + 1) * band.pitch)
                variable += 1
        return found

    def at(self, place: Place) -> tuple[int, int]:
        """Variable of a line, and where it lies if nothing is taken off."""
        return self.places[place]

    def bound(self, one: Place, two: Place, apart: int) -> Bound:
        """The first line lies above the second by a distance."""
        (a, high), (b, low) = self.places[one], self.places[two]
        return a, b, (high - low - apart) // self.stack.grid

    def above(self, zone: Zone | None, one: Place, two: Place, apart: int) -> Zone | None:
        """What of a zone has the first line above the second by a distance."""
        return None if zone is None else bounded(zone, self.size, *self.bound(one, two, apart))

    def top(self, p: int) -> Place:
        """The top line of a ply."""
        return p, self.counts[p] - 1


@dataclass(frozen=True, slots=True)
class Way:
    """Lowerings that are open, with the pairs of lines that lie closer as they lie: the upper one first."""

    ask: Ask
    zone: Zone
    loose: tuple[tuple[Place, Place], ...]


@dataclass(frozen=True, slots=True)
class Closer:
    """What was found: lines of every ply, the least offset beside a rip, and was everything looked at.

    lines: None where there are none.
    """

    lines: tuple[Lines, ...] | None
    offset: int = 0
    is_whole: bool = True


@dataclass(slots=True)
class Best:
    """The best way so far, and how many may still be looked at.

    key: what it is judged by, the lesser the better.  offset: least distance of lines beside its ripped tops.
    """

    looks: int
    key: tuple[int, ...] | None = None
    offset: int = 0
    way: Way | None = None


def come_closer(
    bands: Sequence[Band], laid: Sequence[tuple[int, ...]], stack: Stack, *, greatest: bool = False
) -> Closer:
    """Lines that come closer beside a ripped top course, and only there.

    laid: the lines of each ply that stay; the others are sought.  Fewest such plies come first, then fewest ripped
    courses, then fewest courses, then the greatest offset there.  greatest: nothing but that offset counts.
    Holds for: any stack of plies; exact where no lines are given and everything was looked at.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_atrip.py against brute force
    """
    counts = product(*(counts_of(band, given, stack) for band, given in zip(bands, laid, strict=True)))
    in_order = sorted(counts, key=sum)
    best = Best(0)
    is_whole = one_pass(bands, laid, stack, in_order, best, greatest=greatest)
    before = 0
    while greatest and best.offset > before:  # asked for more than was found, rooms are shared out otherwise
        before = best.offset
        is_whole = one_pass(bands, laid, stack, in_order, best, greatest=greatest)
    return Closer(None if best.way is None else lines_of(best.way), best.offset, is_whole)


def one_pass(
    bands: Sequence[Band],
    laid: Sequence[tuple[int, ...]],
    stack: Stack,
    in_order: Sequence[tuple[int, ...]],
    best: Best,
    *,
    greatest: bool,
) -> bool:
    """Every way that is better than the best so far, for so many looks; whether all was looked at."""
    is_whole = True
    for number in range(1, len(bands) + 1):
        best.looks = LOOKS_AT_TOP if any(laid) else LOOKS
        for count, rips in product(in_order, combinations(range(len(bands)), number)):
            if best.looks <= 0:
                is_whole = False
                break
            if all(count[p] > 1 and count[p] > len(laid[p]) for p in rips):
                least = best.offset + 1 if greatest else stack.offset_at_rip
                given = replace(stack, offset_at_rip=max(1, least))
                try_all(Ask(tuple(bands), tuple(laid), given, count, rips), best, greatest=greatest)
        if best.way is not None and not greatest:
            break
    return is_whole and best.looks > 0


def counts_of(band: Band, given: tuple[int, ...], stack: Stack) -> list[int]:
    """How many lines a ply can have, those given among them.  Source: arithmetic"""
    if band.ends - band.begins <= band.width:
        return [0]
    left = band.ends - (given[-1] if given else band.begins)
    least = max(0 if given else 1, -(-(left - band.width) // band.pitch))
    return [len(given) + more for more in range(least, max(least, left // stack.rip) + 1)]


def try_all(bare: Ask, best: Best, *, greatest: bool) -> None:
    """Every way of one choice of counts and ripped tops, whatever lies beside those tops."""
    zone = opened(bare)
    best.looks -= 1
    for beside in besides(bare, zone) if zone is not None else ():
        ask = replace(bare, beside=beside)
        if best.looks <= 0:
            return
        kept: Zone | None = zone
        for each in beside:
            kept = near_by(ask, kept, each)
        best.looks -= 1
        fewest = best.key[1] if best.key and not greatest else sum(ask.counts)
        for way, rips in ways(ask, kept, decisions(ask), fewest - len(ask.rips), best) if kept is not None else ():
            judge(way, rips, best, greatest=greatest)


def judge(way: Way, rips: int, best: Best, *, greatest: bool) -> None:
    """Keep a way that is better than the best so far."""
    nearest = with_nearest(way)
    if nearest is None:
        return
    key: tuple[int, ...] = (len(way.ask.rips), rips + len(way.ask.rips), sum(way.ask.counts))
    if best.key is not None and not greatest and key > best.key[:-1]:
        return
    offset, spread = widest(nearest)
    key = (-offset,) if greatest else (*key, -offset)
    if best.key is None or key < best.key:
        best.key, best.offset, best.way = key, offset, spread


def opened(ask: Ask) -> Zone | None:
    """Widths of all courses: at least the narrowest, at most full, and ripped below a ripped top."""
    most = [(band.pitch - ask.stack.rip) // ask.stack.grid for band in ask.bands]
    sought = [(p, i) for p, count in enumerate(ask.counts) for i in range(len(ask.laid[p]), count)]
    last = len(ask.bands) - 1
    spans = []
    for p, i in sought:
        is_held = p == last and not ask.laid[p]
        steps = i - len(ask.laid[p]) + (0 if is_held else 1)
        spans.append((0, steps * most[p]))
    zone: Zone | None = make_zone(spans)
    for p, i in sought:
        (v, base), band = ask.at((p, i)), ask.bands[p]
        if zone is not None and i > len(ask.laid[p]):
            zone = bounded(zone, ask.size, v, v - 1, most[p])
            zone = None if zone is None else bounded(zone, ask.size, v - 1, v, 0)
        if zone is not None and i == ask.counts[p] - 1:
            least = 0 if p == last and i == 0 else ask.stack.rip
            zone = bounded(zone, ask.size, ask.size - 1, v, (band.ends - least - base) // ask.stack.grid)
            if zone is not None:
                zone = bounded(zone, ask.size, v, ask.size - 1, (base - band.ends + band.width) // ask.stack.grid)
        if zone is not None and p in ask.rips and i == ask.counts[p] - 1:
            under = v - 1 if i > len(ask.laid[p]) else ask.size - 1
            zone = bounded(zone, ask.size, under, v, -1)
    return zone


def besides(ask: Ask, zone: Zone) -> Iterator[tuple[Beside, ...]]:
    """What can lie next to the ripped tops: for each and each neighbour nothing in particular, or one of its lines."""
    choices: list[list[Beside | None]] = []
    for p in ask.rips:
        for q in (p - 1, p + 1):
            if 0 <= q < len(ask.bands):
                lines = range(max(0, len(ask.laid[q]) - BELOW), ask.counts[q])
                any_line = [Beside(p, (q, i), is_below) for i in lines for is_below in (True, False)]
                choices.append([None, *(one for one in any_line if near_by(ask, zone, one) is not None)])
    for each in product(*choices):
        yield tuple(one for one in each if one is not None)


def near_by(ask: Ask, zone: Zone | None, beside: Beside) -> Zone | None:
    """What of a zone has a line below or above a ripped top, no further than half a course where another follows."""
    top, (q, i) = ask.top(beside.rip), beside.line
    high, low = (top, beside.line) if beside.is_below else (beside.line, top)
    kept = ask.above(zone, high, low, ask.stack.offset_at_rip)
    other = i + 1 if beside.is_below else i - 1
    if 0 <= other < ask.counts[q]:
        kept = ask.above(kept, low, high, -(ask.bands[q].pitch // 2))
        high, low = ((q, other), top) if beside.is_below else (top, (q, other))
        kept = ask.above(kept, high, low, ask.stack.offset_at_rip)
    return kept


def decisions(ask: Ask) -> list[tuple[Choice, Choice]]:
    """What is open, from the bottom: is a course full, which line of a pair is the upper one."""
    found: list[tuple[int, int, tuple[Choice, Choice]]] = []
    for p, count in enumerate(ask.counts):
        for i in range(max(1, len(ask.laid[p])), count - 1 if p in ask.rips else count):
            (v, place), (under, _) = ask.places[(p, i)], ask.places[(p, i - 1)]
            found.append((place, 0, (Choice((v, under, 0), 0, None), Choice((under, v, -1), 1, None))))
    for p, q in pairwise(range(len(ask.bands))):
        loose = {ask.top(each) for each in ask.rips if each in (p, q)}
        loose |= {each.line for each in ask.beside if {each.rip, each.line[0]} == {p, q}}
        for one, two in product(compared(ask, p), compared(ask, q)):
            if ask.places[one][0] == ask.places[two][0]:
                continue  # both given
            is_loose = one in loose or two in loose
            apart = ask.stack.offset_at_rip if is_loose else ask.stack.offset
            both = ((one, two), (two, one))
            upper, lower = (Choice(ask.bound(*each, apart), 0, each if is_loose else None) for each in both)
            found.append((max(ask.places[one][1], ask.places[two][1]), 1, (upper, lower)))
    return [each for *_, each in sorted(found, key=lambda one: one[:2])]


def compared(ask: Ask, p: int) -> list[Place]:
    """Lines of a ply that are compared with others: those sought and a few below them."""
    return [(p, i) for i in range(max(0, len(ask.laid[p]) - BELOW), ask.counts[p])]


def ways(
    ask: Ask, zone: Zone, todo: Sequence[tuple[Choice, Choice]], most: int, best: Best
) -> Iterator[tuple[Way, int]]:
    """Every way to decide what is open, with `most` ripped courses; each with how many there are."""
    waiting: list[tuple[Zone, int, int, tuple[tuple[Place, Place], ...]]] = [(zone, 0, 0, ())]
    while waiting and best.looks > 0:
        here, k, rips, loose = waiting.pop()
        best.looks -= 1
        if k == len(todo):
            yield Way(ask, here, loose), rips
            continue
        for choice in reversed(todo[k]):
            kept = bounded(here, ask.size, *choice.bound) if rips + choice.rips <= most else None
            if kept is not None:
                more = () if choice.loose is None else (choice.loose,)
                waiting.append((kept, k + 1, rips + choice.rips, (*loose, *more)))


def with_nearest(way: Way) -> Way | None:
    """What of a way has the chosen line nearest to each ripped top, none on the other side nearer.

    The sum of two distances from one line is bounded; each gets half of the room that there is.
    """
    ask, zone = way.ask, way.zone
    grid = ask.stack.grid
    for each in ask.beside:
        q, i = each.line
        other = (q, i + 1 if each.is_below else i - 1)
        if not 0 <= other[1] < ask.counts[q]:
            continue
        (t, top), (a, near), (b, far) = ask.at(ask.top(each.rip)), ask.at(each.line), ask.at(other)
        # the chosen line is the nearer one where 2·top ≤ near + far (below), or ≥ (above)
        room = near + far - 2 * top if each.is_below else 2 * top - near - far
        cells = [zone[t * ask.size + each_v] if each.is_below else zone[each_v * ask.size + t] for each_v in (a, b)]
        left = room // grid + sum(cells)
        if left < 0:
            return None
        kept: Zone | None = zone
        for v, cell, part in zip((a, b), cells, (left // 2, left - left // 2), strict=True):
            first, second = (v, t) if each.is_below else (t, v)
            kept = None if kept is None or v == t else bounded(kept, ask.size, first, second, part - cell)
        if kept is None:
            return None
        zone = kept
    return replace(way, zone=zone)


def widest(way: Way) -> tuple[int, Way]:
    """The greatest offset that all loose pairs keep together, with what is open then.  Source: halving"""
    low, high = way.ask.stack.offset_at_rip, way.ask.stack.offset
    spread = way.zone
    while low < high:
        middle = (low + high + 1) // 2
        kept: Zone | None = way.zone
        for one, two in way.loose:
            kept = way.ask.above(kept, one, two, middle)
        if kept is None:
            high = middle - 1
        else:
            low, spread = middle, kept
    return low, replace(way, zone=spread)


def lines_of(way: Way) -> tuple[Lines, ...]:
    """Lines half-way between what is open to them, from the top ply down; those that come closer are told."""
    ask, zone = way.ask, way.zone
    values: dict[int, int] = {}
    for v in reversed(range(ask.size - 1)):
        low, high = span_of(zone, ask.size, v)
        values[v] = (low + high) // 2
        kept = bounded(zone, ask.size, v, ask.size - 1, values[v])
        kept = None if kept is None else bounded(kept, ask.size, ask.size - 1, v, -values[v])
        assert kept is not None  # the value lies between the ends of its span
        zone = kept
    found = []
    for p, (band, laid) in enumerate(zip(ask.bands, ask.laid, strict=True)):
        more = []
        for i in range(len(laid), ask.counts[p]):
            v, base = ask.at((p, i))
            more.append(base - ask.stack.grid * values[v])
        lines = (*laid, *more)
        starter = lines[0] - band.begins + band.lap if lines else band.ends - band.begins
        found.append(Lines(band, starter, lines))
    return tuple(noted(found, ask.stack.offset))


def noted(lines: Sequence[Lines], offset: int) -> Iterator[Lines]:
    """The plies with a note where they come closer to a neighbour than the offset."""
    for p, one in enumerate(lines):
        near = [least_offset(one.lines, lines[q].lines) for q in (p - 1, p + 1) if 0 <= q < len(lines)]
        is_closer = any(gap is not None and gap < offset for gap in near)
        yield replace(one, exceptions=("offset_at_rip",)) if is_closer else one
