"""Lap lines of a few courses by trying them all: slow, plain, and without a line of the layout's own code.

Lengths are whole numbers of any unit.  A ply is given by width, lap, where it begins and ends, and whether its first
course is a full sheet.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np


@dataclass(frozen=True)
class Strip:
    """One ply."""

    width: int
    lap: int
    begins: int
    ends: int
    full_start: bool


@dataclass(frozen=True)
class Chain:
    """Lap lines of a ply, and how many of its courses are ripped, the first and the top one not counted."""

    lines: tuple[int, ...]
    rips: int


def chains(strip: Strip, rip: int, grid: int) -> list[Chain]:
    """Every way to lay a ply: each course shows `rip` at least and a full sheet less whole steps of the grid."""
    if strip.ends - strip.begins <= strip.width:
        return [Chain((), 0)]
    return list(_from(strip, rip, grid, (), 0))


def _from(strip: Strip, rip: int, grid: int, lines: tuple[int, ...], rips: int) -> Iterator[Chain]:
    last = lines[-1] if lines else strip.begins
    left = strip.ends - last
    is_held = strip.full_start and len(lines) == 1
    if lines and left <= strip.width and (left >= rip or is_held):
        yield Chain(lines, rips)
    full = strip.width - strip.lap
    shown = full
    while shown >= rip:
        may_be = not (strip.full_start and not lines and shown < full)
        if may_be and left - shown >= (0 if strip.full_start and not lines else rip):
            yield from _from(strip, rip, grid, (*lines, last + shown), rips + (1 if lines and shown < full else 0))
        shown -= grid


def bits(chain: Chain, reach: int) -> int:
    """The places nearer than `reach` to a line, a bit each; places from -16 to 47."""
    found = 0
    for line in chain.lines:
        for place in range(line - reach + 1, line + reach):
            found |= 1 << (place + 16)
    return found & (2**64 - 1)


def apart(one: Sequence[Chain], two: Sequence[Chain], offset: int) -> np.ndarray:
    """Does each chain keep the offset from each other."""
    near = np.array([bits(chain, offset) for chain in one], dtype=np.uint64)
    lines = np.array([bits(chain, 1) for chain in two], dtype=np.uint64)
    return (near[:, None] & lines[None, :]) == 0


def fewest_rips(ways: Sequence[Sequence[Chain]], offset: int) -> int | None:
    """The fewest ripped courses at which neighbours keep the offset; None where no chains do."""
    fewest = np.array([chain.rips for chain in ways[0]], dtype=float)
    for low, high in pairwise(ways):
        reached = np.where(apart(low, high, offset), fewest[:, None], np.inf).min(axis=0)
        fewest = reached + np.array([chain.rips for chain in high])
    return None if np.isinf(fewest.min()) else int(fewest.min())


def answers(strips: Sequence[Strip], rip: int, grid: int, offset: int) -> tuple[int | None, int]:
    """The fewest ripped courses at the offset (None: none), and the greatest offset of all, a full course at most."""
    ways = [chains(strip, rip, grid) for strip in strips]
    if not all(ways):
        return None, 0
    most = max(strip.width - strip.lap for strip in strips)
    greatest = bisect_left(range(most), True, key=lambda each: fewest_rips(ways, each + 1) is None)
    return fewest_rips(ways, offset), greatest


def loose(chain: Chain, other: Chain, strip: Strip, is_rip: bool) -> tuple[set[int], set[int]]:
    """Lines at a ripped top course, of the ply itself and of the other one: all of those that lie nearest to it."""
    if not is_rip:
        return set(), set()
    top = chain.lines[-1]
    nearest = min((abs(line - top) for line in other.lines), default=0)
    return {top}, {line for line in other.lines if abs(line - top) == nearest}


def least_at_rip(pair: Sequence[Chain], strips: Sequence[Strip], rips: Sequence[bool], offset: int) -> int | None:
    """The least distance of two lines of which one is at a rip; None where two others are nearer than the offset."""
    low, high = pair
    own, beside = loose(low, high, strips[0], rips[0])
    over, under = loose(high, low, strips[1], rips[1])
    least = offset
    for one in low.lines:
        for two in high.lines:
            if one in own | under or two in over | beside:
                least = min(least, abs(one - two))
            elif abs(one - two) < offset:
                return None
    return least


def is_ripped(chain: Chain, strip: Strip) -> bool:
    """The top course stands on one that is narrower than the sheet and not the first."""
    return len(chain.lines) > 1 and chain.lines[-1] - chain.lines[-2] < strip.width - strip.lap


def closer(strips: Sequence[Strip], rip: int, grid: int, offset: int, at_rip: int) -> tuple[int, int, int, int] | None:
    """Plies that come closer beside a ripped top, ripped courses, lap lines, less the least offset there: the least.

    None where no lines do even so; plies that need not come closer are not counted.
    """
    reached: dict[tuple[Chain, bool], tuple[int, int, int, int]] = {}
    for p, strip in enumerate(strips):
        here = [(chain, is_rip) for chain in chains(strip, rip, grid) for is_rip in (False, True)]
        here = [(chain, is_rip) for chain, is_rip in here if not is_rip or is_ripped(chain, strip)]
        cost = {one: (int(one[1]), one[0].rips, len(one[0].lines)) for one in here}
        if p == 0:
            reached = {one: (*cost[one], -offset) for one in here}
            continue
        after: dict[tuple[Chain, bool], tuple[int, int, int, int]] = {}
        for one, before in reached.items():
            for two in here:
                near = least_at_rip((one[0], two[0]), strips[p - 1 : p + 1], (one[1], two[1]), offset)
                if near is not None and near >= at_rip:
                    sums = (before[0] + cost[two][0], before[1] + cost[two][1], before[2] + cost[two][2])
                    found = (*sums, max(before[3], -near))
                    after[two] = min(found, after.get(two, found))
        reached = after
    return min(reached.values(), default=None)
