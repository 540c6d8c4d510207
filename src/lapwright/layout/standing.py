"""A whole layout that can be changed course by course and judged: what the last search for joints works on.

*Split* here: a number that stands for joints and cut lengths; equal ones have the same number.  *Group*: parts of one
ply with the same ends and the same bars, so that what splits one of them can split any.
"""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import TypeVar

from lapwright.layout.cost import FAR_ABOVE, Costs
from lapwright.layout.joints import Span, come_near, merged_open
from lapwright.layout.packing import pack
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part

Key = TypeVar("Key")
Joints = tuple[int, ...]
Cuts = tuple[int, ...]
EMPTIEST = 0.3  # share of a roll's price by which it is better to have one roll nearly empty, while the search is young
FORM = 0.004  # share of a roll's price that one more arrangement in a ply costs: the crew has to be told of it


@dataclass(frozen=True, slots=True)
class Seat:
    """A part as the last search sees it.

    ply: number of its stock; bars: open spans barred to its joints, merged, rising; near: parts whose joints it keeps
    clear of, with the distance; beside: where runs of the courses below and above lie, rising, which its end laps make
    T-joints with.
    """

    ply: int
    left: int
    right: int
    bars: tuple[Span, ...]
    near: tuple[tuple[int, int], ...]
    beside: tuple[tuple[Span, ...], ...]
    group: int


@dataclass(frozen=True, slots=True)
class Judge:
    """What a layout is judged by: its aim's worth of things, and what details take of each sheet.

    roll: worth of a roll by sheet number; end_lap, t_joint, cut, length: worth of one; scale: money that counts as
    much, about what a roll costs; details: lengths that details take, by sheet number, with how many.
    """

    roll: tuple[float, ...]
    end_lap: float
    t_joint: float
    cut: float
    length: float
    scale: float
    details: tuple[Mapping[int, int], ...]


class Standing:
    """A layout as it stands: the split of each part, and what follows from it."""

    def __init__(
        self, seats: Sequence[Seat], stocks: Sequence[Stock], judge: Judge, splits: Sequence[tuple[Joints, Cuts]]
    ) -> None:
        self.seats, self.stocks, self.judge = seats, stocks, judge
        self.joints: list[Joints] = []
        self.cuts: list[Cuts] = []
        self._tallies: list[Mapping[int, int]] = []  # of each split, its lengths with how many
        self.numbers: dict[tuple[Joints, Cuts], int] = {}
        self.groups: dict[int, list[int]] = {}
        for p, seat in enumerate(seats):
            self.groups.setdefault(seat.group, []).append(p)
        self.emptiest = EMPTIEST
        self._clashes: dict[tuple[int, int, int], bool] = {}
        self._own_costs: dict[tuple[int, int], float] = {}
        self._packed: dict[tuple[int, tuple[tuple[int, int], ...]], tuple[float, float]] = {}
        self._lengths = {stock.sheet: stock.roll for stock in stocks}
        self._counts: list[dict[int, int]] = [dict(one) for one in judge.details]
        self.by_ply: list[dict[int, int]] = [{} for _ in stocks]
        self._forms: dict[tuple[int, int], int] = {}
        self._paid = 0.0
        self.at = [self.number(joints, cuts) for joints, cuts in splits]
        for p, split in enumerate(self.at):
            self._count(p, split, 1)
        self._rolls = [self._roll_cost(sheet) for sheet in range(len(judge.details))]

    def number(self, joints: Joints, cuts: Cuts) -> int:
        """The number of a split."""
        found = self.numbers.get((joints, cuts))
        if found is None:
            found = self.numbers[(joints, cuts)] = len(self.joints)
            self.joints.append(joints)
            self.cuts.append(cuts)
            self._tallies.append(Counter(cuts))
        return found

    def clash(self, one: int, other: int, apart: int) -> bool:
        """Two splits have joints nearer to one another than `apart`."""
        key = (one, other, apart) if one < other else (other, one, apart)
        found = self._clashes.get(key)
        if found is None:
            found = self._clashes[key] = come_near(self.joints[one], self.joints[other], apart)
        return found

    def allowed(self, p: int, joints: Joints) -> bool:
        """No joint lies within a bar of the part."""
        return outside(joints, self.seats[p].bars)

    def is_clear(self, p: int, split: int, new: Mapping[int, int]) -> bool:
        """A part split so keeps clear of all that are near, as they stand or as `new` has them."""
        at = self.at
        return not any(self.clash(split, new.get(q, at[q]), apart) for q, apart in self.seats[p].near)

    def alike(self, p: int) -> list[int]:
        """The parts of a part's group that are split like it."""
        split = self.at[p]
        return [q for q in self.groups[self.seats[p].group] if self.at[q] == split]

    def change(self, new: Mapping[int, int]) -> None:
        """Split parts anew."""
        sheets = set()
        for p, split in new.items():
            self._count(p, self.at[p], -1)
            self.at[p] = split
            self._count(p, split, 1)
            sheets.add(self.stocks[self.seats[p].ply].sheet)
        for sheet in sheets:
            self._rolls[sheet] = self._roll_cost(sheet)

    def cost(self) -> float:
        """What the layout costs under its aim."""
        lengths = sum(len(own) for own in self.by_ply) * self.judge.length
        return sum(one[0] for one in self._rolls) + self._paid + lengths + len(self._forms) * FORM * self.judge.scale

    def energy(self) -> float:
        """The cost and what the emptiest rolls hold: a roll that is nearly empty is nearly saved."""
        return self.cost() + self.emptiest * self.judge.scale * sum(one[1] for one in self._rolls)

    def _count(self, p: int, split: int, by: int) -> None:
        """Put a part's split into the counts, or take it out."""
        seat = self.seats[p]
        stock = self.stocks[seat.ply]
        counts, own = self._counts[stock.sheet], self.by_ply[seat.ply]
        for cut, times in self._tallies[split].items():
            add(counts, cut, by * times)
            if cut < stock.roll:
                add(own, cut, by * times)
        add(self._forms, (seat.group, split), by)
        self._paid += by * self._own_cost(p, split)

    def _own_cost(self, p: int, split: int) -> float:
        """End laps, T-joints and cuts of a part's split."""
        found = self._own_costs.get((p, split))
        if found is None:
            seat, judge = self.seats[p], self.judge
            roll = self.stocks[seat.ply].roll
            joints = self.joints[split]
            tees = sum(bisect_left(joints, b) - bisect_left(joints, a) for runs in seat.beside for a, b in runs)
            cuts = sum(1 for cut in self.cuts[split] if cut < roll)
            found = len(joints) * judge.end_lap + tees * judge.t_joint + cuts * judge.cut
            self._own_costs[(p, split)] = found
        return found

    def _roll_cost(self, sheet: int) -> tuple[float, float]:
        """Worth of a sheet's rolls, and the share of a roll that the emptiest one gives."""
        key = (sheet, tuple(sorted(self._counts[sheet].items())))
        found = self._packed.get(key)
        if found is None:
            roll = self._lengths[sheet]
            fills = pack(self._counts[sheet], roll)
            used = sum(times for _, times in fills)
            least = min((sum(inside) for inside, _ in fills), default=0)
            found = self._packed[key] = (used * self.judge.roll[sheet], least / roll)
        return found


def add(counts: dict[Key, int], key: Key, by: int) -> None:
    """Count a thing up or down; what is at nothing is not kept."""
    now = counts.get(key, 0) + by
    if now:
        counts[key] = now
    else:
        del counts[key]


def outside(joints: Sequence[int], bars: Sequence[Span]) -> bool:
    """No joint lies within an open span; spans rise and do not overlap.  Source: arithmetic"""
    for joint in joints:
        k = bisect_left(bars, (joint,))
        if k and bars[k - 1][1] > joint:
            return False
    return True


def make_judge(aim: str, costs: Costs, names: Sequence[str], details: Sequence[Mapping[int, int]]) -> Judge:
    """What an aim judges by.  names: of the sheets.  Source: the aim's own meaning; cost.py"""
    prices = [costs.price(name) for name in names]
    lap, tee = costs.worth("end_lap"), costs.worth("t_joint")
    scale = max(*prices, 15.0 * lap, 1e-6)
    return Judge(
        tuple(price * (FAR_ABOVE if aim == "fewest_rolls" else 1.0) for price in prices),
        lap * (FAR_ABOVE if aim == "fewest_laps" else 1.0),
        tee,
        costs.worth("cut"),
        costs.worth("new_length"),
        scale,
        tuple(details),
    )


def make_seats(parts: Sequence[Part], joints: Sequence[Sequence[int]]) -> list[Seat]:
    """The seats of an area's parts: each keeps to the strictest bars that its joints keep to now."""
    groups: dict[object, int] = {}
    rows: dict[tuple[int, int], list[int]] = {}
    for p, part in enumerate(parts):
        rows.setdefault(part.row, []).append(p)
    near: list[dict[int, int]] = [{} for _ in parts]
    for p, part in enumerate(parts):
        for row, apart in part.near:
            for q in rows.get(row, ()):
                if parts[q].left < part.right + apart and part.left < parts[q].right + apart:
                    near[p][q] = near[q][p] = apart
    found = []
    for p, part in enumerate(parts):
        bars = next((tier for tier in part.tiers if outside(joints[p], tier)), part.tiers[-1])
        ply, course = part.row
        beside = tuple(
            tuple(merged_open([(parts[q].left, parts[q].right) for q in rows.get((ply, course + by), ())]))
            for by in (-1, 1)
        )
        group = groups.setdefault((ply, part.left, part.right, bars), len(groups))
        seat = Seat(ply, part.left, part.right, bars, tuple(near[p].items()), beside, group)
        found.append(seat)
    return found
