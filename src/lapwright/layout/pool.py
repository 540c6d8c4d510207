"""Offcuts while a layout is searched: which lengths are left over from opened rolls, and what drawing a length does.

*Pool*: the lengths left of opened rolls that still give the shortest piece, rising [ticks].
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Sequence
from dataclasses import dataclass

MOST_OFFCUTS = 24  # a longer pool is cut short: nobody keeps more lying about


@dataclass(frozen=True, slots=True)
class Stock:
    """A ply's sheet as it is cut [ticks]: roll, longest and shortest piece, end lap, cutting step.

    ply: its number from the bottom; sheet: its number among the sheets.  units: lengths that the middle pieces of a
    course may have.
    """

    ply: int
    sheet: int
    roll: int
    longest: int
    shortest: int
    end_lap: int
    step: int
    units: tuple[int, ...]


def units_of(roll: int, longest: int, step: int) -> tuple[int, ...]:
    """Lengths that the middle pieces of a course may have: even shares of the roll, and the longest piece.

    Source: docs/method/layout.md, units
    Checked: tests/layout/test_pool.py
    """
    most = min(longest, roll) // step * step
    shares = -(-roll // most)
    even = roll // shares // step * step
    if even * 20 > most * 19:
        return (even,)
    return (even, most)


def draw_middles(pool: Sequence[int], stock: Stock, unit: int, middles: int) -> tuple[int, Sequence[int]]:
    """Rolls opened, and the pool left, when the middle pieces of one run are cut.

    Source: best fit
    Checked: tests/layout/test_pool.py
    """
    if not middles:
        return 0, pool
    left = list(pool)
    return draw_units(left, stock, unit, middles), left


def draw_ends(pool: Sequence[int], stock: Stock, ends: Sequence[int]) -> tuple[int, tuple[int, ...]]:
    """Rolls opened, and the pool left, when the first and the last piece of one run are cut, the longer one first.

    Source: best fit decreasing
    Checked: tests/layout/test_pool.py
    """
    left, opened = list(pool), 0
    for length in sorted(ends, reverse=True):
        at = bisect_left(left, length)
        if at < len(left):
            rest = left.pop(at) - length
        else:
            rest = stock.roll - length
            opened += 1
        if rest >= stock.shortest:
            insort(left, rest)
    return opened, tuple(left[-MOST_OFFCUTS:])


def draw_units(left: list[int], stock: Stock, unit: int, count: int) -> int:
    """Rolls opened for `count` pieces of one length; `left` is changed."""
    while count and left and left[-1] >= unit:
        rest = left.pop(bisect_left(left, unit)) - unit
        count -= 1
        if rest >= stock.shortest:
            insort(left, rest)
    share = stock.roll // unit
    rolls, over = divmod(count, share)
    rest = stock.roll - share * unit
    if rest >= stock.shortest:
        for _ in range(min(rolls, MOST_OFFCUTS)):
            insort(left, rest)
    if over:
        insort(left, stock.roll - over * unit)
    return rolls + (1 if over else 0)
