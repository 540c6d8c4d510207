"""Loose lines joined end to end into outlines.

A *chain* is a run of corners [ticks] that is open at both ends.  Two ends *meet* where they are no farther apart
than the drawing's lines were left open.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from lapwright.geometry.polygon import Point

Chain = list[Point]


@dataclass(slots=True)
class Joined:
    """What joining gave: closed outlines, chains still open, lines that were there twice.

    gaps: how wide each gap closed was [ticks], and the corner that was kept there.
    """

    closed: list[Chain] = field(default_factory=list)
    still_open: list[Chain] = field(default_factory=list)
    gaps: list[tuple[float, Point]] = field(default_factory=list)
    twice: int = 0

    def close(self, end: Point, other: Point) -> None:
        """Notes that two ends became one corner, the first."""
        if end != other:
            self.gaps.append((math.dist(end, other), end))


def join_chains(chains: Sequence[Chain], *, within: int) -> Joined:
    """Chains joined where their ends meet, the nearest end first, in the order given.

    within: how far apart two ends may lie [ticks].  The corner kept is the end of the earlier chain.
    Source: arithmetic
    """
    joined = Joined()
    loose = list(_once(chains, joined))
    ends = _Ends(loose, within)
    for first in range(len(loose)):
        if not ends.take(first):
            continue
        chain = _grown(list(loose[first]), loose, ends, joined)
        if not _is_ring(chain, within):
            chain = _grown(chain[::-1], loose, ends, joined)[::-1]
        if _is_ring(chain, within):
            joined.close(chain[0], chain[-1])
            joined.closed.append(chain[:-1])
        else:
            joined.still_open.append(chain)
    return joined


def _once(chains: Sequence[Chain], joined: Joined) -> Iterator[Chain]:
    """The chains with a length, those drawn twice left out the second time."""
    seen: set[tuple[Point, ...]] = set()
    for chain in chains:
        if len(set(chain)) < 2:
            continue
        key = min(tuple(chain), tuple(reversed(chain)))
        if key in seen:
            joined.twice += 1
            continue
        seen.add(key)
        yield chain


def _grown(chain: Chain, loose: Sequence[Chain], ends: _Ends, joined: Joined) -> Chain:
    """The chain with everything added that meets its last end, until it closes."""
    while not _is_ring(chain, ends.within):
        found = ends.nearest(chain[-1])
        if found is None:
            break
        place, is_last = found
        ends.take(place)
        added = loose[place][::-1] if is_last else loose[place]
        joined.close(chain[-1], added[0])
        chain.extend(added[1:])
    return chain


def _is_ring(chain: Chain, within: int) -> bool:
    return len(chain) > 3 and math.dist(chain[0], chain[-1]) <= within


class _Ends:
    """Ends of chains not yet taken, found by place."""

    def __init__(self, chains: Sequence[Chain], within: int) -> None:
        self.within = within
        self.cell = max(within, 1)
        self.chains = chains
        self.taken = [False] * len(chains)
        self.cells: dict[tuple[int, int], list[tuple[int, bool]]] = {}
        for place, chain in enumerate(chains):
            for is_last, (x, y) in ((False, chain[0]), (True, chain[-1])):
                self.cells.setdefault((x // self.cell, y // self.cell), []).append((place, is_last))

    def take(self, place: int) -> bool:
        """Takes a chain; False where it was taken before."""
        was_free = not self.taken[place]
        self.taken[place] = True
        return was_free

    def nearest(self, point: Point) -> tuple[int, bool] | None:
        """The free chain whose end meets a point, and whether it is its last end; the earliest of the nearest."""
        column, row = point[0] // self.cell, point[1] // self.cell
        best: tuple[float, int, bool] | None = None
        for near in ((column + i, row + j) for i in (-1, 0, 1) for j in (-1, 0, 1)):
            free = [(place, is_last) for place, is_last in self.cells.get(near, ()) if not self.taken[place]]
            if near in self.cells:
                self.cells[near] = free
            for place, is_last in free:
                away = math.dist(point, self.chains[place][-1 if is_last else 0])
                if away <= self.within and (best is None or (away, place, is_last) < best):
                    best = (away, place, is_last)
        return None if best is None else best[1:]
