"""Ways to split a run into pieces, for the search to choose from.

Most runs are laid as x, unit, unit, …, y: two lengths that are free and equal ones between.  With unit *U*, end lap *e*
and *k* pieces over a run *L* long, x + y = L + (k − 1)·e − (k − 2)·U, and every joint follows from x, so the joints
that neighbours forbid leave a list of intervals for x.  Where none is left, joints are placed one by one instead.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterator, Sequence
from functools import lru_cache

from lapwright.layout.joints import Cutting, rounded_up, split_run
from lapwright.layout.plain import plain
from lapwright.layout.pool import Stock

Span = tuple[int, int]
KEPT = 500  # lists of free first lengths remembered: many states have the same joints beside a part


@plain
class Split:
    """One way to split a run: joints; cut lengths of the first and last piece; unit and number of those between.

    Where pieces are all different, `ends` holds all of them and there are no middles.
    """

    joints: tuple[int, ...]
    ends: tuple[int, ...]
    unit: int
    middles: int

    def cuts(self, roll: int) -> int:
        """Pieces shorter than the roll, each of which is cut off it."""
        return sum([length < roll for length in self.ends]) + self.middles * (self.unit < roll)

    @property
    def pieces(self) -> int:
        """How many pieces there are."""
        return len(self.ends) + self.middles


def splits(
    left: int, right: int, stock: Stock, bars: Sequence[Span], hints: Sequence[int], *, extra: int = 1
) -> Iterator[Split]:
    """Ways to split a run, joints outside the open spans `bars`.

    hints: lengths that the first or the last piece would do well to have, offcuts above all.  extra: pieces more than
    the fewest that are tried.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_splits.py
    """
    length = right - left
    whole = rounded_up(length, stock.step)
    if whole <= stock.longest:
        yield Split((), (whole,), 0, 0)
    if length + stock.end_lap < 2 * stock.shortest:
        return
    kept = tuple(bars)
    for unit in stock.units:
        fewest = max(2, -(-(length - stock.end_lap) // (min(unit, stock.longest) - stock.end_lap)))
        most = max(2, -(-(length - stock.end_lap) // (stock.longest - stock.end_lap)))
        for count in range(min(fewest, most), fewest + extra + 1):
            yield from lattices(left, right, stock, kept, hints, (unit, count))


def lattices(
    left: int, right: int, stock: Stock, bars: tuple[Span, ...], hints: Sequence[int], made: tuple[int, int]
) -> Iterator[Split]:
    """The splits into `count` pieces with middles of `unit`; made: unit and count."""
    unit, count = made
    total = right - left + (count - 1) * stock.end_lap - (count - 2) * unit
    spans = free_firsts(left, total, stock, bars, made)
    if not spans:
        return
    pitch = unit - stock.end_lap
    for first in sorted(firsts(spans, total, stock, hints)):
        start = left + first - stock.end_lap
        joints = tuple(range(start, start + (count - 1) * pitch, pitch))
        last = rounded_up(total - first, stock.step)
        yield Split(joints, (first, last), unit, count - 2)


@lru_cache(maxsize=KEPT)
def free_firsts(left: int, total: int, stock: Stock, bars: tuple[Span, ...], made: tuple[int, int]) -> tuple[Span, ...]:
    """Lengths that the first piece may have, as closed spans on the cutting step; total: first and last together."""
    unit, count = made
    step, pitch, base = stock.step, unit - stock.end_lap, left - stock.end_lap
    low = rounded_up(max(stock.shortest, total - stock.longest), step)
    high = min(stock.longest, total - stock.shortest) // step * step
    if low > high:
        return ()
    taken: list[Span] = []
    laps = count - 1
    for a, b in bars:  # each bar as it bars the first length by way of one joint after the other
        far = b - base
        joint = (a - base - high) // pitch
        if joint > 0:
            far -= joint * pitch
        else:
            joint = 0
        while far > low and joint < laps:
            taken.append((far - b + a, far))
            far -= pitch
            joint += 1
    taken.sort()
    found: list[Span] = []
    at = low
    for a, b in taken:
        if b <= at:
            continue
        if a >= at:
            stop = min(high, a // step * step)
            if stop >= at:
                found.append((at, stop))
        at = max(at, -(-b // step) * step)
        if at > high:
            return tuple(found)
    return (*found, (at, high))


def firsts(spans: Sequence[Span], total: int, stock: Stock, hints: Sequence[int]) -> set[int]:
    """First lengths worth trying: the ends of each span, and those that make the first or last piece a hint."""
    step = stock.step
    lows, highs = [low for low, _ in spans], [high for _, high in spans]
    found = {lows[0], highs[-1]}
    for low, high in spans[1:3]:
        found.update((low, high))
    for hint in hints:
        first, last = hint // step * step, rounded_up(total - hint, step)
        below, above = bisect_right(lows, first) - 1, bisect_left(highs, last)
        if below >= 0:
            found.add(min(highs[below], first))
        if above < len(spans):
            found.add(max(lows[above], last))
    return found


def single_splits(left: int, right: int, stock: Stock, bars: Sequence[Span]) -> Iterator[Split]:
    """Splits with joints placed one by one: the fewest, from either end.

    Source: method of our own, docs/method/layout.md
    """
    for short_first in (False, True):
        cutting = Cutting(stock.step, stock.end_lap, stock.shortest, stock.longest)
        joints = split_run(left, right, cutting, bars, short_first=short_first)
        if joints is not None:
            yield split_at(left, right, joints, stock)


def split_at(left: int, right: int, joints: Sequence[int], stock: Stock) -> Split:
    """The split with given joints.  Source: arithmetic"""
    lefts = (left, *joints)
    rights = (*(joint + stock.end_lap for joint in joints), right)
    cuts = tuple(rounded_up(b - a, stock.step) for a, b in zip(lefts, rights, strict=True))
    return Split(tuple(joints), cuts, 0, 0)
