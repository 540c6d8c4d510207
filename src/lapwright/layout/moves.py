"""Changes to a layout that are worth trying, drawn by chance: the moves of the last search for joints.

Another split for one part, or for all that are split alike; the same lengths in another order; the split of another
part; two lengths of a ply, one longer and the other shorter.  Parts that a move comes too near to are split anew from
what is in use about them; where that fails, the move is none.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.layout.chance import Chance
from lapwright.layout.joints import rounded_up
from lapwright.layout.pool import Stock
from lapwright.layout.standing import Cuts, Joints, Standing

Change = dict[int, int]  # part -> split
# cumulated shares of the moves: a new split for all alike, for one; another order for all alike, for one; a copy
NEW_ALL, NEW_ONE, ORDER_ALL, ORDER_ONE, COPY = 0.35, 0.62, 0.70, 0.78, 0.90
ORDERS = 10  # orders of a part's lengths tried when a neighbour comes too near
ONE_MORE = 0.25  # share of new splits that have a piece more than the fewest
FREE_ONE, FREE_TWO = 0.15, 0.85  # cumulated shares of new splits with one and two lengths free, others have three
# cumulated shares of lengths: one in use, what it leaves of a roll, what two leave, a part of a roll, half the rest
IN_USE, ONE_LEAVES, TWO_LEAVE, PART, HALF = 0.35, 0.45, 0.55, 0.65, 0.75
COARSE = 24  # cutting steps that half of the other lengths are rounded to


@dataclass(frozen=True, slots=True)
class Mover:
    """Draws moves for a layout as it stands.  movable: parts that may be split anew, rising; moves: the same."""

    standing: Standing
    chance: Chance
    movable: Sequence[int]
    moves: frozenset[int]

    def move(self) -> Change | None:
        """A change that keeps every rule, or None where the one drawn does not."""
        standing, r = self.standing, self.chance.random()
        p = self.pick(self.movable)
        seat, split = standing.seats[p], standing.at[p]
        if r < NEW_ONE:
            return self.set_all(self.alike(p) if r < NEW_ALL else [p], self.new_split(p))
        if r < ORDER_ONE:
            return self.set_all(self.alike(p) if r < ORDER_ALL else [p], self.ordered(p, standing.cuts[split]))
        if r < COPY:
            cuts = standing.cuts[standing.at[self.pick(standing.groups[seat.group])]]
            if self.chance.random() < 0.5:
                cuts = cuts[::-1]
            members = self.alike(p) if self.chance.random() < 0.5 else [p]
            return self.set_all(members, self.laid(p, cuts))
        return self.shifted(seat.ply, standing.cuts[split])

    def alike(self, p: int) -> list[int]:
        """The parts that are split like a part and may be split anew."""
        return [q for q in self.standing.alike(p) if q in self.moves]

    def new_split(self, p: int) -> tuple[Joints, Cuts] | None:
        """A split of a part into the fewest pieces or one more: units, and a few lengths drawn; the last one closes."""
        seat, chance = self.standing.seats[p], self.chance
        stock = self.standing.stocks[seat.ply]
        length = seat.right - seat.left
        whole = rounded_up(length, stock.step)
        if whole <= stock.longest and chance.random() < 0.5:
            return (), (whole,)
        count = max(2, -(-(length - stock.end_lap) // (stock.longest - stock.end_lap)))
        count += chance.random() < ONE_MORE
        drawn = chance.random()
        free = min(count, 1 if drawn < FREE_ONE else 2 if drawn < FREE_TWO else 3)
        total = length + (count - 1) * stock.end_lap
        cuts = [self.pick(stock.units)] * (count - free)
        for _ in range(free - 1):
            cuts.append(self.some_length(seat.ply, stock, total - sum(cuts)))
        cuts.append(rounded_up(total - sum(cuts), stock.step))
        return self.ordered(p, cuts) if stock.shortest <= cuts[-1] <= stock.longest else None

    def some_length(self, ply: int, stock: Stock, room: int) -> int:
        """A length worth trying; room: what it and one other make together."""
        in_use, chance = list(self.standing.by_ply[ply]), self.chance
        r = chance.random()
        if r < TWO_LEAVE and in_use:
            found = self.pick(in_use)
            if r >= IN_USE:
                found = stock.roll - found
            if r >= ONE_LEAVES:
                found -= self.pick(in_use)
        elif r < PART:
            parts = 2 + int(chance.random() * 4)
            found = stock.roll * (1 + int(chance.random() * (parts - 1))) // parts
        elif r < HALF:
            found = room // 2
        else:
            found = stock.shortest + int(chance.random() * (stock.longest - stock.shortest))
            if chance.random() < 0.5:
                found = found // (COARSE * stock.step) * COARSE * stock.step
        return min(stock.longest, max(stock.shortest, found)) // stock.step * stock.step

    def pick(self, items: Sequence[int]) -> int:
        """One of some numbers."""
        return items[int(self.chance.random() * len(items))]

    def ordered(self, p: int, cuts: Sequence[int]) -> tuple[Joints, Cuts] | None:
        """Lengths in an order drawn by chance."""
        order = list(cuts)
        for i in range(len(order) - 1, 0, -1):
            j = int(self.chance.random() * (i + 1))
            order[i], order[j] = order[j], order[i]
        return self.laid(p, order)

    def laid(self, p: int, cuts: Sequence[int]) -> tuple[Joints, Cuts] | None:
        """Lengths laid in a part from the left; None where they do not fill it to the cutting step.

        The last piece is laid as long as the part asks, so that it may be less than its cut length.
        """
        seat = self.standing.seats[p]
        stock = self.standing.stocks[seat.ply]
        over = sum(cuts) - (len(cuts) - 1) * stock.end_lap - (seat.right - seat.left)
        if not 0 <= over < stock.step or (len(cuts) > 1 and cuts[-1] - over < stock.shortest):
            return None
        return joints_of(seat.left, cuts, stock.end_lap), tuple(cuts)

    def shifted(self, ply: int, cuts: Cuts) -> Change | None:
        """Two lengths of a ply: one becomes longer, the other shorter, wherever a part has as many of each."""
        standing = self.standing
        stock = standing.stocks[ply]
        kinds = sorted(set(cuts))
        one, other = self.pick(kinds), self.pick(kinds)
        target = self.some_length(ply, stock, one)
        by = target - one
        if one == other or not by or not stock.shortest <= other - by <= stock.longest:
            return None
        turned = {one: target, other: other - by}
        new: Change = {}
        for p, split in enumerate(standing.at):
            row = standing.cuts[split]
            if standing.seats[p].ply != ply or one not in row or row.count(one) != row.count(other):
                continue
            laid = self.laid(p, [turned.get(cut, cut) for cut in row]) if p in self.moves else None
            if laid is None or not standing.allowed(p, laid[0]):
                return None
            new[p] = standing.number(*laid)
        return self.mended(new)

    def set_all(self, members: Sequence[int], split: tuple[Joints, Cuts] | None) -> Change | None:
        """One split for all of some parts of a group."""
        standing = self.standing
        if split is None or not standing.allowed(members[0], split[0]):
            return None
        number = standing.number(*split)
        return None if number == standing.at[members[0]] else self.mended(dict.fromkeys(members, number))

    def mended(self, new: Change) -> Change | None:
        """The change, and with it new splits for those that it comes too near to; None where one finds none."""
        standing = self.standing
        hurt: dict[int, None] = {}
        for p, split in new.items():
            for q, apart in standing.seats[p].near:
                if standing.clash(split, new.get(q, standing.at[q]), apart):
                    if q in new or q not in self.moves:
                        return None
                    hurt[q] = None
        if len(hurt) > 2 * len(new) + 2:
            return None
        for q in hurt:
            found = next((split for split in self.others(q) if self.fits(q, split, new)), None)
            if found is None:
                return None
            new[q] = found
        return new

    def fits(self, p: int, split: int, new: Mapping[int, int]) -> bool:
        """A part may be split so."""
        return self.standing.allowed(p, self.standing.joints[split]) and self.standing.is_clear(p, split, new)

    def others(self, p: int) -> Iterator[int]:
        """Splits that a part might have instead: those in use in its group, then its own lengths in other orders."""
        standing = self.standing
        seen = {standing.at[p]}
        for q in standing.groups[standing.seats[p].group]:
            split = standing.at[q]
            if split not in seen:
                seen.add(split)
                yield split
        cuts = standing.cuts[standing.at[p]]
        for _ in range(ORDERS if len(cuts) > 1 else 0):
            laid = self.ordered(p, cuts)
            if laid is not None:
                yield standing.number(*laid)


def joints_of(left: int, cuts: Sequence[int], end_lap: int) -> Joints:
    """Joints of pieces laid one after another from `left`.  Source: arithmetic"""
    found, at = [], left
    for cut in cuts[:-1]:
        at += cut - end_lap
        found.append(at)
    return tuple(found)
