"""Lap lines drawn down to where the ground gets wider, so that no course runs the wider way for the sake of a hand.

*Step*: a level up the fall where the ground gets wider.  A course whose next lap line lies a little above a step has to
run as wide as the ground above it; where courses below have the play to give that little, they are ripped.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from itertools import pairwise

from lapwright.layout.laplines import Lines, Stack
from lapwright.layout.narrowtop import lowest_movable, with_play
from lapwright.layout.region import Region

MOST = 6 * 2032  # how far down a line is drawn at most [ticks]: 6"
SLANT = 20  # a side across the fall rises less than this [ticks]: 1/4 mm


def steps_of(region: Region) -> list[int]:
    """Levels where a ply's ground gets wider, rising.

    Source: where an outline runs counter-clockwise ground lies to the left of each side, so over a side that runs to
    the right ground begins
    """
    ring = region.outline
    if sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise((*ring, ring[0]))) < 0:
        ring = ring[::-1]
    found = {
        a[1] for a, b in pairwise((*ring, ring[0])) if abs(a[1] - b[1]) < SLANT and a[0] < b[0] and a[1] > region.begins
    }
    return sorted(found)


def snapped(planned: Sequence[Lines], stack: Stack, steps: Sequence[Sequence[int]]) -> list[Lines] | None:
    """The lines with those a little above a step drawn down to it, every rule kept; None where none can be.

    planned: lines without exceptions; steps: by ply.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_snapping.py
    """
    most: list[tuple[int, int, int]] = []
    for p, (one, levels) in enumerate(zip(planned, steps, strict=True)):
        for level in levels:
            k = bisect_right(one.lines, level)
            if lowest_movable(one) - 1 <= k < len(one.lines) and one.lines[k] - level <= MOST:
                most.append((p, k, level))
    if not most or any(one.exceptions for one in planned):
        return None
    return with_play(planned, stack, most)
