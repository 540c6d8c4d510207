"""Chains of cut lengths that fill rolls to the last: a change to many courses at once, where no smaller one pays.

Where each course of a band takes two free lengths that come to the same sum, what one length leaves of a roll is the
length of another course, what that course's rest leaves is the length of the next, and so on.  A chain of so many
links, each of them several courses that are split alike, wastes nothing between its ends; a link alone saves no roll.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.layout.joints import rounded_up
from lapwright.layout.moves import Change, Mover
from lapwright.layout.pool import Stock
from lapwright.layout.standing import Cuts, Standing

MOST_ALIKE = 4  # courses split alike in a link, and lengths that fill a roll at either end of a chain
MANY_ALIKE = (1, 2, 3, 4, 6, 8, 12, 16)  # the same in what courses in one piece leave of rolls
MOST_PARTS = 200  # on a larger roof the ends of a chain weigh little


@dataclass(frozen=True, slots=True)
class Band:
    """Parts that may be split alike: what two free lengths of them come to, and the lengths between the two."""

    members: Sequence[int]
    total: int
    between: Cuts


def link_up(mover: Mover) -> bool:
    """Split a layout by the chain that makes it cheapest, as often as one does; whether one did.

    Source: method of our own, docs/method/layout.md, the last search
    Checked: tests/layout/test_chains.py
    """
    standing = mover.standing
    if len(standing.seats) > MOST_PARTS:
        return False
    is_better = False
    for band, stock in bands(mover):
        best, found = standing.cost() - 1e-9, None
        for links in all_chains(band, stock):
            new = seated(mover, band, links)
            if new is None:
                continue
            cost = cost_with(standing, new)
            if cost < best:
                best, found = cost, new
        if found is not None:
            standing.change(found)
            is_better = True
    return is_better


def cost_with(standing: Standing, new: Change) -> float:
    """What a layout would cost with a change; it stays as it is."""
    old = {p: standing.at[p] for p in new}
    standing.change(new)
    cost = standing.cost()
    standing.change(old)
    return cost


def bands(mover: Mover) -> Iterator[tuple[Band, Stock]]:
    """The groups of parts of which two lengths are free, with the fewest pieces and one more."""
    standing = mover.standing
    for group in standing.groups.values():
        members = [p for p in group if p in mover.moves]
        if len(members) < 2:
            continue
        seat = standing.seats[members[0]]
        stock = standing.stocks[seat.ply]
        length, longest = seat.right - seat.left, stock.longest
        fewest = max(2, -(-(length - stock.end_lap) // (longest - stock.end_lap)))
        for count in (fewest, fewest + 1):
            for unit in stock.units if count > 2 else (longest,):
                total = length + (count - 1) * stock.end_lap - (count - 2) * unit
                if 2 * stock.shortest <= total <= 2 * longest:
                    yield Band(members, total, (unit,) * (count - 2)), stock


def all_chains(band: Band, stock: Stock) -> Iterator[list[tuple[Cuts, int]]]:
    """Chains that begin with a roll, then those that begin with courses of a piece more."""
    yield from chains(band, stock)
    yield from parted_chains(band, stock)


def chains(band: Band, stock: Stock) -> Iterator[list[tuple[Cuts, int]]]:
    """Chains of a band: the cuts of each link, and how many courses are split so.

    A chain begins with so many equal lengths as fill a roll.  It may end anywhere, or with rests that fill a roll.
    """
    for alike in range(1, MOST_ALIKE + 1):
        first = min(stock.longest, stock.roll // alike // stock.step * stock.step)
        links: list[tuple[Cuts, int]] = []
        seen: set[int] = set()
        while (len(links) + 1) * alike <= len(band.members) and first not in seen:
            for times in range(2, MOST_ALIKE + 1):
                end = link(band, stock, rounded_up(band.total - stock.roll // times, stock.step))
                if end is not None and end[0] < first:
                    yield [*links, (end, alike)]
            made = link(band, stock, first)
            if made is None:
                break
            seen.add(first)
            links.append((made, alike))
            yield list(links)
            first = min(stock.longest, (stock.roll - made[-1]) // stock.step * stock.step)


def parted_chains(band: Band, stock: Stock) -> Iterator[list[tuple[Cuts, int]]]:
    """Chains that begin with courses of a piece more, three free lengths alike: no roll is begun for them alone.

    Each of the three goes on by itself, alike: what it leaves of a roll, what that leaves of a course.  It may end
    anywhere, or with as many courses of that sort again, where the last rests are no shorter than their lengths; then
    some of the three may go on by a link more than the others, so that no course is left over.
    """
    alike = rounded_up(-(-(band.total + stock.end_lap) // 3), stock.step)
    last = rounded_up(band.total + stock.end_lap - 2 * alike, stock.step)
    if last < stock.shortest or alike > stock.longest:
        return
    for many in range(1, MOST_ALIKE + 1):
        parted = (alike, *band.between, alike, last)
        links: list[tuple[Cuts, int]] = []
        free, rest = len(band.members) - many, stock.roll - alike
        while free > 0:
            made = link(band, stock, min(stock.longest, rest // stock.step * stock.step))
            if made is None or any(made == cuts for cuts, _ in links):
                break
            if many < free < 4 * many and stock.roll - made[-1] >= alike:
                yield [(parted, 2 * many), *links, (made, free - many)]
            links.append((made, min(3 * many, free)))
            free -= links[-1][1]
            rest = stock.roll - made[-1]
            yield [(parted, many), *links]
            if rest >= alike and free >= many:
                yield [(parted, 2 * many), *links]


def rest_chains(band: Band, stock: Stock, wholes: Iterable[int]) -> Iterator[list[tuple[Cuts, int]]]:
    """Chains that go on in what courses in one piece leave of rolls, or begin there and go on from whole rolls.

    wholes: lengths of courses in one piece.
    """
    rests = {stock.roll - many * whole for whole in wholes for many in range(1, stock.roll // whole + 1)}
    for rest in sorted(rests):
        begun = [(rest, many) for many in MANY_ALIKE]
        filled = [(stock.roll // many, times * many) for many in range(2, MOST_ALIKE + 1) for times in (1, 2)]
        for room, beginnings in ((rest, begun + filled), (stock.roll, begun)):
            for first, alike in beginnings:
                yield from threaded(band, stock, min(first, band.total - stock.shortest), room, alike)


def threaded(band: Band, stock: Stock, first: int, room: int, alike: int) -> Iterator[list[tuple[Cuts, int]]]:
    """A chain from a first length on, each next one what the last rest leaves of so much room; it may end anywhere."""
    links: list[tuple[Cuts, int]] = []
    left = len(band.members)
    while left:
        made = link(band, stock, min(stock.longest, first) // stock.step * stock.step)
        if made is None or any(made == cuts for cuts, _ in links):
            return
        links.append((made, min(alike, left)))
        left -= links[-1][1]
        yield list(links)
        first = room - made[-1]


def link(band: Band, stock: Stock, first: int) -> Cuts | None:
    """The cuts of a course that begins with a length; None where that or the rest is none."""
    rest = rounded_up(band.total - first, stock.step)
    if not (stock.shortest <= first <= stock.longest and stock.shortest <= rest <= stock.longest):
        return None
    return (first, *band.between, rest)


def seated(
    mover: Mover, band: Band, links: Sequence[tuple[Cuts, int]], aside: frozenset[int] | None = None
) -> Change | None:
    """Courses of a band for every link, clear of one another and of all others; None where one finds no link.

    Every other course is taken first: those between keep the joints that they have, or none.
    aside: parts that will be split anew around them.
    """
    left = dict(links)
    chosen = (*band.members[::2], *band.members[1::2])[: sum(left.values())]
    if len(chosen) < sum(left.values()):
        return None
    new: Change = {}
    for p in sorted(chosen):
        found = next(found_for(mover, p, left, new, frozenset(chosen) | (aside or frozenset())), None)
        if found is None:
            return None
        cuts, new[p] = found
        left[cuts] -= 1
    return new


def found_for(
    mover: Mover, p: int, left: Mapping[Cuts, int], new: Change, aside: frozenset[int]
) -> Iterator[tuple[Cuts, int]]:
    """The links, those of which most are left first, and the ways round, in which a course keeps every rule."""
    standing = mover.standing
    near = [(new.get(q, standing.at[q]), apart) for q, apart in standing.seats[p].near if q in new or q not in aside]
    for cuts in sorted((cuts for cuts, many in left.items() if many), key=lambda cuts: -left[cuts]):
        for way in (cuts, cuts[::-1]):
            laid = mover.laid(p, way)
            if laid is not None and standing.allowed(p, laid[0]):
                split = standing.number(*laid)
                if not any(standing.clash(split, other, apart) for other, apart in near):
                    yield cuts, split
