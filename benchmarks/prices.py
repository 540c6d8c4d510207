"""Prices for the cut lengths of a sheet, at which no roll comes to more than a price and courses to as much as can be.

They are the duals of the linear programme of cutting stock (P. C. Gilmore, R. E. Gomory, A linear programming approach
to the cutting-stock problem, 1961), whose columns are made as they are asked for: splits of courses and fills of rolls.
Whatever they are, a knapsack over all lengths measures them before they are used, so that no roll comes to more.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_matrix

Array = np.ndarray[Any, np.dtype[np.float64]]
Split = tuple[int, ...]  # lengths in cutting steps
ROUNDS = 60  # of the linear programme; any of them gives true prices
KEPT_COLUMNS = 80  # columns made in a round for each course, and for rolls
MORE = 12  # pieces more than the fewest that a course is thought to have one by one
TOLERANCE = 1e-7
CLOSE_ENOUGH = 0.0015  # share by which what the programme reaches may be over what is held
KEEP = 0.7  # share of the prices held that the next ones keep


@dataclass(frozen=True)
class Cut:
    """How a sheet is cut, in cutting steps: shortest and longest piece, roll, end lap, each to the looser side."""

    shortest: int
    longest: int
    roll: int
    lap: int


@dataclass
class Priced:
    """The linear programme of a sheet: courses to be split, with how many; work: of an end lap and of a cut."""

    cut: Cut
    courses: Mapping[int, float]  # net length, an end lap left out -> how many
    lap: float
    each: float
    price: float
    step: int
    splits: dict[tuple[int, Split], None] = field(default_factory=dict)
    fills: dict[Split, None] = field(default_factory=dict)
    reached: float = math.inf

    def prices(self) -> Array:
        """The best prices of all rounds, by length; no roll comes to more than `price`."""
        own = self.cut
        best, found = -math.inf, np.zeros(own.longest + 1)
        tried = np.arange(own.longest + 1) * self.price / own.roll
        self.fills[(own.longest,) * (own.roll // own.longest)] = None  # so that there is a way at all
        for _ in range(ROUNDS):
            true = self.measured(tried)
            worth = sum(many * self.cheapest(true, net)[0][net] for net, many in self.courses.items())
            if worth > best:
                best, found = worth, true
            self.add(tried)
            own_best = self.duals()
            if self.reached < best * (1.0 + CLOSE_ENOUGH):
                break
            self.add(own_best)
            tried = (1.0 - KEEP) * own_best + KEEP * found
        return found

    def measured(self, tried: Array) -> Array:
        """Prices brought down to what a roll may come to."""
        most = float(self.fullest(tried)[self.cut.roll])
        return tried * min(1.0, self.price * (1.0 - TOLERANCE) / most) if most > 0 else tried

    def fullest(self, prices: Array) -> Array:
        """The most that lengths come to within each length up to the roll."""
        own = self.cut
        found = np.zeros(own.roll + 1)
        for t in range(own.shortest, own.roll + 1):
            top = min(own.longest, t)
            with_one = found[t - top : t - own.shortest + 1][::-1] + prices[own.shortest : top + 1]
            found[t] = max(found[t - 1], float(with_one.max()))
        return found

    def paid(self, prices: Array) -> Array:
        """Money for a piece of each length: its price, its end lap, its cut."""
        paid = prices + self.lap + self.each
        if self.cut.longest == self.cut.roll:
            paid[-1] -= self.each
        return paid

    def cheapest(self, prices: Array, net: int) -> tuple[Array, Array]:
        """The least for each net length up to `net`, an end lap counted for every piece but one; and its last piece."""
        own, paid = self.cut, self.paid(prices)
        low, high = own.shortest - own.lap, own.longest - own.lap
        least, last = np.full(net + 1, np.inf), np.zeros(net + 1, dtype=int)
        least[0] = -self.lap
        for t in range(1, net + 1):
            top = min(high, t)
            if t < low:  # a piece of the shortest length reaches farther
                least[t], last[t] = paid[own.shortest] - self.lap, own.shortest
                continue
            ways = least[t - top : t - low + 1][::-1] + paid[own.shortest : top + own.lap + 1]
            k = int(ways.argmin())
            least[t], last[t] = ways[k], own.shortest + k
        return least, last

    def add(self, prices: Array) -> None:
        """Columns that pay at these prices: of each length the best split and the best roll with it, a few."""
        own, paid = self.cut, self.paid(prices)
        for net in self.courses:
            least, last = self.cheapest(prices, net)
            firsts = np.arange(own.shortest, min(own.longest, net + own.lap) + 1)
            worths = least[net - firsts + own.lap] + paid[firsts]
            for k in np.argsort(worths, kind="stable")[:KEPT_COLUMNS]:
                first = int(firsts[k])
                rest, split = net - first + own.lap, [first]
                while rest > 0:
                    split.append(int(last[rest]))
                    rest -= split[-1] - own.lap
                self.splits[(net, tuple(sorted(split)))] = None
        full = self.fullest(prices)
        firsts = np.arange(own.shortest, own.longest + 1)
        worths = full[own.roll - firsts] + prices[firsts]
        for k in np.argsort(-worths, kind="stable")[:KEPT_COLUMNS]:
            self.fills[tuple(sorted(self.filled(prices, full, int(firsts[k]))))] = None

    def filled(self, prices: Array, full: Array, first: int) -> Iterator[int]:
        """A roll with a first length and what is worth most beside it."""
        own = self.cut
        yield first
        t = own.roll - first
        while t >= own.shortest:
            if full[t] <= full[t - 1]:
                t -= 1
                continue
            top = min(own.longest, t)
            ways = full[t - top : t - own.shortest + 1][::-1] + prices[own.shortest : top + 1]
            one = own.shortest + int(ways.argmax())
            yield one
            t -= one

    def duals(self) -> Array:
        """Prices from the linear programme of the columns so far; a length may be cut down to a shorter one."""
        own, nets = self.cut, list(self.courses)
        size = own.longest - own.shortest + 1
        rows: list[int] = []
        columns: list[int] = []
        values: list[float] = []
        money: list[float] = []

        def put(entries: Iterable[tuple[int, float]], worth: float) -> None:
            for row, value in entries:
                rows.append(row)
                columns.append(len(money))
                values.append(value)
            money.append(worth)

        for net, split in self.splits:
            uncut = sum(1 for length in split if length == own.roll)
            paid = (len(split) - 1) * self.lap + (len(split) - uncut) * self.each
            put([*((length - own.shortest, 1.0) for length in split), (size + nets.index(net), 1.0)], paid)
        for fill in self.fills:
            put([(length - own.shortest, -1.0) for length in fill], self.price)
        for k in range(1, size):
            put([(k, 1.0), (k - 1, -1.0)], 0.0)
        table = csr_matrix((values, (rows, columns)), shape=(size + len(nets), len(money)))
        answer = linprog(
            money,
            A_ub=table[:size],
            b_ub=np.zeros(size),
            A_eq=table[size:],
            b_eq=list(self.courses.values()),
            method="highs",
        )
        self.reached = float(answer.fun)
        found = np.zeros(own.longest + 1)
        found[own.shortest :] = np.maximum.accumulate(np.maximum(0.0, -answer.ineqlin.marginals))
        return found

    def by_pieces(self, prices: Array, net: int, fewest: int) -> tuple[float, float]:
        """The least of a course with the fewest pieces and with more."""
        own, paid = self.cut, self.paid(prices)
        size = own.longest - own.shortest + 1
        now = np.full(net + 1, np.inf)
        now[0] = -self.lap
        found = []
        for _ in range(fewest + MORE):
            after = np.full(net + 1, np.inf)
            for k in range(size):
                step = max(0, own.shortest + k - own.lap)
                moved = now[: max(0, net + 1 - step)] + paid[own.shortest + k]
                np.minimum(after[min(step, net + 1) :], moved, out=after[min(step, net + 1) :])
                over = now[max(0, net + 1 - step) :]
                if len(over):
                    after[net] = min(after[net], float(over.min()) + paid[own.shortest + k])
            now = after
            found.append(float(now[net]))
        # so many end laps or more, and the least that any lengths come to
        free = float(replace(self, lap=0.0, each=0.0).cheapest(prices, net)[0][net])
        many = free + (fewest + MORE) * self.lap + (fewest + MORE + 1) * self.each
        return min(many, *found[fewest:]), found[fewest - 1]
