"""The last search for joints: a layout changed a little at a time, rolls packed anew for every change.

Simulated annealing (S. Kirkpatrick, C. D. Gelatt, M. P. Vecchi, Optimization by simulated annealing, 1983): a change
that costs more is kept now and then, less often as the search goes on; the cheapest layout met is the answer, so that
it is never dearer than the one given.  The chances come from a generator with a fixed beginning: same input, same
layout.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product

from lapwright.layout.around import Way, ways_around
from lapwright.layout.chains import MOST_PARTS, link_up
from lapwright.layout.chance import make_chance
from lapwright.layout.moves import Mover
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part
from lapwright.layout.splits import split_at
from lapwright.layout.standing import EMPTIEST, Joints, Judge, Seat, Standing, make_seats

WARM, COLD = 0.05, 0.004  # heat at the beginning and at the end, as shares of the price of a roll
TEPID = 0.01  # heat at the beginning where the cheapest layout met is searched about once more
# changes tried: on a roof of few parts, for each part of one of more, up to so many pieces, on a large one at least
TRIES, TRIES_PER_PART, MANY_PIECES, FEWEST_TRIES = 24_000, 300, 350, 600
MOST_ROUNDS = 3  # of chains laid first, and searches around one


@dataclass(frozen=True, slots=True)
class Polished:
    """Joints of each part, and what the layout costs under the aim."""

    joints: tuple[Joints, ...]
    cost: float


def polish(
    parts: Sequence[Part],
    joints: Sequence[Sequence[int]],
    stocks: Sequence[Stock],
    judge: Judge,
    tries: int,
    movable: Sequence[int] | None = None,
    *,
    is_whole: bool = True,
) -> Polished:
    """The cheapest layout met in so many tries, never dearer than the one given.

    movable: parts that may be split anew; None: all.  is_whole: all that details take is known, so that a roll spared
    here is not opened for them after all.
    Source: method of our own, docs/method/layout.md, polish
    Checked: tests/layout/test_polish.py, tests/reference
    """
    standing = stand(parts, joints, stocks, judge)
    free = tuple(range(len(parts))) if movable is None else tuple(movable)
    if free:
        mover = Mover(standing, make_chance(), free, frozenset(free))
        anneal(standing, mover, tries)
        if link_up(mover):
            anneal(standing, mover, tries // 2)
        if is_whole and len(parts) <= MOST_PARTS and go_around(mover, tries // 2):
            anneal(standing, mover, tries // 2)
    return Polished(tuple(standing.joints[split] for split in standing.at), standing.cost())


def polish_again(parts: Sequence[Part], found: Polished, stocks: Sequence[Stock], judge: Judge, tries: int) -> Polished:
    """The cheapest layout met about one that is good already: little heat, so that the search stays near it.

    Source: method of our own, docs/method/layout.md, polish
    Checked: tests/layout/test_polish.py
    """
    standing = stand(parts, found.joints, stocks, judge)
    free = tuple(range(len(parts)))
    anneal(standing, Mover(standing, make_chance(), free, frozenset(free)), tries, TEPID)
    return Polished(tuple(standing.joints[split] for split in standing.at), standing.cost())


def go_around(mover: Mover, tries: int) -> bool:
    """Go on from chains laid first with all else around them, as often as one is cheaper; whether one was.

    All is sought anew at once, and what lies around a chain before all.
    """
    standing = mover.standing
    first = best = standing.cost()
    best_at = list(standing.at)
    for _ in range(MOST_ROUNDS):
        before = best
        for way, is_settled in product(ways_around(mover), (False, True)):
            standing.change(way.new)
            standing.emptiest = EMPTIEST
            if is_settled:
                settle(mover, way, tries // 2)
            anneal(standing, mover, tries)
            cost = standing.cost()
            if cost < best - 1e-9:
                best, best_at = cost, list(standing.at)
        standing.change({p: split for p, split in enumerate(best_at) if split != standing.at[p]})
        if best == before:
            break
    return best < first


def settle(mover: Mover, way: Way, tries: int) -> None:
    """Lay a chain and seek anew what lies around it: several times over, since one search may miss a roll."""
    standing, found = mover.standing, []
    others = tuple(p for p in mover.movable if p not in way.chain)
    for _ in range(MOST_ROUNDS if others else 1):
        standing.change(way.new)
        standing.emptiest = EMPTIEST
        if others:
            anneal(standing, Mover(standing, mover.chance, others, frozenset(others)), tries)
        found.append((standing.cost(), list(standing.at)))
    standing.change(dict(enumerate(min(found)[1])))


def stand(
    parts: Sequence[Part],
    joints: Sequence[Sequence[int]],
    stocks: Sequence[Stock],
    judge: Judge,
    seats: Sequence[Seat] | None = None,
) -> Standing:
    """A layout as it stands, from its joints.  seats: those of the parts, where they are known and need no bars."""
    splits = [
        (tuple(own), split_at(part.left, part.right, own, stocks[part.row[0]]).ends)
        for part, own in zip(parts, joints, strict=True)
    ]
    return Standing(seats or make_seats(parts, joints), stocks, judge, splits)


def tries_for(parts: Sequence[Part], stocks: Sequence[Stock], patience: float) -> int:
    """How many changes to try: more on a roof of more parts, few on one of many pieces, where each matters less.

    patience: share of the usual number.
    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_polish.py
    """
    usual, pieces = max(TRIES, TRIES_PER_PART * len(parts)), pieces_of(parts, stocks)
    if pieces > MANY_PIECES:
        usual = usual * MANY_PIECES**3 // pieces**3
    return round(max(FEWEST_TRIES, usual) * patience)


def pieces_of(parts: Sequence[Part], stocks: Sequence[Stock]) -> int:
    """Pieces that parts take at least.  Source: arithmetic"""
    return sum(
        max(1, -(-(part.right - part.left - stock.end_lap) // (stock.longest - stock.end_lap)))
        for part, stock in ((part, stocks[part.row[0]]) for part in parts)
    )


def anneal(standing: Standing, mover: Mover, tries: int, warm: float = WARM) -> None:
    """Try changes; the layout ends as the cheapest that was met.  warm: heat at the beginning."""
    best, best_at = standing.cost(), list(standing.at)
    energy = standing.energy()
    cooling = (COLD / warm) ** (1.0 / max(1, tries))
    heat = warm * standing.judge.scale
    for done in range(tries):
        heat *= cooling
        if done == tries // 2:  # from here on what counts is the cost, and a nearly empty roll only breaks ties
            standing.emptiest /= 10.0
            energy = standing.energy()
        new = mover.move()
        if not new:
            continue
        old = {p: standing.at[p] for p in new}
        standing.change(new)
        after = standing.energy()
        if after <= energy or mover.chance.random() < math.exp((energy - after) / heat):
            energy = after
            cost = standing.cost()
            if cost < best - 1e-9:
                best, best_at = cost, list(standing.at)
        else:
            standing.change(old)
    standing.change({p: split for p, split in enumerate(best_at) if split != standing.at[p]})
