"""A chain laid first, and all else around it: where what it spares is lost to joints that stand in its way.

The last search finds lengths and joints of all plies together, and where one ply's chain (chains.py) and another
ply's joints want the same places across the roof, neither gives way by small changes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lapwright.layout.chains import all_chains, bands, cost_with, rest_chains, seated
from lapwright.layout.joints import rounded_up
from lapwright.layout.moves import Change, Mover

MOST_TRIED = 3  # chains gone on from, of as many bands
LESS = 1e-6  # what costs less by as little is no cheaper
SPARED = 0.5  # share of a roll's price that a chain has to spare at least, were nothing in its way


@dataclass(frozen=True, slots=True)
class Way:
    """A layout with a chain laid first: its parts, and the splits of all."""

    chain: frozenset[int]
    new: Change


def ways_around(mover: Mover) -> list[Way]:
    """Layouts with a chain that would spare most of its band, were nothing in its way, and all else clear of it.

    Beside a chain other courses of its sheet are left as they are, or lie in one piece where they can.
    Source: method of our own, docs/method/layout.md, the last search
    Checked: tests/layout/test_around.py
    """
    standing = mover.standing
    most = standing.cost() - SPARED * standing.judge.scale
    found: list[tuple[float, Way]] = []
    for band, stock in bands(mover):
        best: tuple[float, Way] | None = None
        wholes = in_one_piece(mover, stock.sheet)
        lengths = {standing.cuts[split][0] for split in wholes.values()}
        for links in (*all_chains(band, stock), *rest_chains(band, stock, lengths)):
            chain = seated(mover, band, links, mover.moves)
            if chain is None:
                continue
            for new in (chain, {**wholes, **chain}):
                cost = cost_with(standing, new)
                whole = cleared(mover, new) if cost < (best[0] if best else most) - LESS else None
                if whole is not None:
                    best = (cost, Way(frozenset(chain), whole))
        if best:
            found.append(best)
    return [way for _, way in sorted(found, key=lambda one: one[0])[:MOST_TRIED]]


def in_one_piece(mover: Mover, sheet: int) -> Change:
    """All parts of a sheet that may be split anew and can lie in one piece, so."""
    standing, new = mover.standing, {}
    for p in mover.movable:
        seat = standing.seats[p]
        stock = standing.stocks[seat.ply]
        whole = rounded_up(seat.right - seat.left, stock.step)
        if stock.sheet == sheet and whole <= stock.longest:
            new[p] = standing.number((), (whole,))
    return new


def cleared(mover: Mover, chain: Change) -> Change | None:
    """A chain, and every other part that may be split anew clear of it and of all else; None where one can't be."""
    new = dict(chain)
    for p in mover.movable:
        if p in new:
            continue
        found = next((split for split in candidates(mover, p) if keeps_clear(mover, p, split, new)), None)
        if found is None:
            return None
        new[p] = found
    return new


def keeps_clear(mover: Mover, p: int, split: int, new: Change) -> bool:
    """A part may be split so beside those that are split anew so far and those that never are."""
    standing = mover.standing
    near = [
        (new.get(q, standing.at[q]), apart) for q, apart in standing.seats[p].near if q in new or q not in mover.moves
    ]
    return standing.allowed(p, standing.joints[split]) and not any(
        standing.clash(split, other, apart) for other, apart in near
    )


def candidates(mover: Mover, p: int) -> Iterator[int]:
    """Splits that a part may have instead: its own, a shortest piece at either end, those in use in its group."""
    standing = mover.standing
    seat = standing.seats[p]
    stock = standing.stocks[seat.ply]
    yield standing.at[p]
    length = seat.right - seat.left
    count = max(2, -(-(length - stock.end_lap) // (stock.longest - stock.end_lap)))
    total = length + (count - 1) * stock.end_lap - (count - 2) * stock.longest
    short = max(stock.shortest, rounded_up(total - stock.longest, stock.step))
    cuts = (short, *(stock.longest,) * (count - 2), rounded_up(total - short, stock.step))
    for way in (cuts, cuts[::-1]):
        laid = mover.laid(p, way)
        if laid is not None:
            yield standing.number(*laid)
    yield from (standing.at[q] for q in standing.groups[seat.group])
