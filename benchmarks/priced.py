"""A proof of what a roof costs at least: lengths get prices at which no roll pays for itself, and courses are priced.

*Prices*: money for each cut length of a sheet.  Where no lengths that fit a roll are worth more than p together, rolls
cost (price − p) each at least and, beside that, each course its cheapest split at those prices with its end laps and
cuts; the sweep of the bounds (layout/sweep.py) adds courses up over all plies, course lines and staggers.
Good prices are the duals of the linear programme of cutting stock (P. C. Gilmore, R. E. Gomory, A linear programming
approach to the cutting-stock problem, 1961), columns made as they are asked for.  Whatever they are, they are measured
by a knapsack over all lengths before they are used, so that the bound holds.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, product
from typing import Any

import numpy as np
from scipy.optimize import linprog
from scipy.sparse import csr_matrix

from lapwright.layout.cost import Costs
from lapwright.layout.levels import Kind, Level, PlyTask, fewest_laps
from lapwright.layout.takes import Apart, Worth
from lapwright.layout.together import swept

Array = np.ndarray[Any, np.dtype[np.float64]]
Split = tuple[int, ...]  # lengths in cutting steps
SHARES = (0.0, 0.3, 1.0, 4.0)  # of a roll's price that lengths are priced by
ROUNDS = 60  # of the linear programme; any of them gives true prices
KEPT_COLUMNS = 80  # columns made in a round for each course, and for rolls
MORE = 12  # pieces more than the fewest that a course is thought to have
TOLERANCE = 1e-7
V=0
CLOSE_ENOUGH, KEEP = 0.0015, 0.7


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
        for k in range(ROUNDS):
            true = self.measured(tried)
            worth = sum(many * self.cheapest(true, net)[0][net] for net, many in self.courses.items())
            if worth > best:
                best, found = worth, true
            self.add(tried)
            own_best = self.duals()
            if V: print('  ',k,round(worth),round(best),round(self.reached),len(self.splits),len(self.fills),flush=True)
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


def proved(tasks: tuple[PlyTask, ...], apart: Apart, costs: Costs, step: int, rolls: Mapping[str, int]) -> float:
    """What rolls, end laps, T-joints and cuts of a roof cost at least.

    step: of cut lengths [ticks].  rolls: of each sheet at least.
    """
    sheets = list(dict.fromkeys(task.sheet for task in tasks))
    tables = {(sheet, share): priced(tasks, sheet, share, costs, step) for sheet in sheets for share in SHARES}
    ways = list(product(SHARES, repeat=len(sheets)))
    worths = [Courses(tasks, {sheet: tables[sheet, share] for sheet, share in zip(sheets, way, strict=True)}) for way in ways]
    found = swept(tasks, apart, [Worth(worth.own) for worth in worths])
    if found is None:
        return 0.0
    sums = [total - worth.missing(costs) for total, worth in zip(found, worths, strict=True)]
    prices = [costs.price(sheet) for sheet in sheets]
    least = math.inf
    for more in product(range(40), repeat=len(sheets)):
        counts = [rolls[sheet] + extra for sheet, extra in zip(sheets, more, strict=True)]
        held = max(
            total + sum(price * (1.0 - share) * count for price, share, count in zip(prices, way, counts, strict=True))
            for total, way in zip(sums, ways, strict=True)
        )
        least = min(least, held)
    return least


def priced(tasks: Sequence[PlyTask], sheet: str, share: float, costs: Costs, step: int) -> tuple[Priced, Array]:
    """The prices of a sheet's lengths, made for about as many courses as the roof has."""
    own = [task for task in tasks if task.sheet == sheet]
    one = own[0]
    cut = Cut(one.shortest // step, min(-(-one.longest // step), one.roll // step), one.roll // step, one.end_lap // step)
    courses: dict[int, float] = {}
    for task in own:
        for level in task.levels:
            net = net_length(level.right - level.left, one.end_lap, step)
            courses[net] = courses.get(net, 0.0) + (level.high - level.low) / (task.width - task.side_lap)
    work = costs.worth("end_lap") + 2.0 * costs.worth("t_joint")
    made = Priced(cut, courses, work, costs.worth("cut"), share * costs.price(sheet), step)
    return made, made.prices() if share else np.zeros(cut.longest + 1)


def net_length(length: int, end_lap: int, step: int) -> int:
    """A course's length less an end lap, in cutting steps, to the looser side."""
    return max(0, -(-(length - end_lap) // step))


@dataclass
class Courses:
    """What courses take at the prices of their lengths, each end lap with two T-joints."""

    tasks: Sequence[PlyTask]
    tables: Mapping[str, tuple[Priced, Array]]
    _known: dict[tuple[str, int, int, float], tuple[float, float]] = field(default_factory=dict)

    def own(self, ply: int, kind: Kind) -> tuple[float, float]:
        """A course with more than the fewest pieces, and with the fewest."""
        return self.taken(ply, kind.left, kind.right, kind.laps, 0.0)

    def taken(self, ply: int, left: int, right: int, laps: int, less: float) -> tuple[float, float]:
        """The same where an end lap costs so much less."""
        task = self.tasks[ply]
        made, prices = self.tables[task.sheet]
        net = net_length(right - left, task.end_lap, made.step)
        key = (task.sheet, net, laps, less)
        if key not in self._known:
            self._known[key] = replace(made, lap=made.lap - less).by_pieces(prices, net, laps + 1)
        return self._known[key]

    def missing(self, costs: Costs) -> float:
        """Money for T-joints that end laps at the edges and at steps of the ground may lack.

        A course lacks those of one side where it is the first or the last, or where it is the wider one of two at a
        step.  The least of sums that rise evenly with the worth of an end lap rises less and less with it, so no side
        takes off more than half of what two do.
        """
        one, total = costs.worth("t_joint"), 0.0
        for ply, task in enumerate(self.tasks):
            spans = {
                (min(level.left for level in some), max(level.right for level in some))
                for k in range(len(task.levels))
                for some in (task.levels[k : k + n] for n in range(1, len(task.levels) - k + 1))
            }
            most = 0.0
            for left, right in spans:
                laps = fewest_laps(right - left, task.longest, task.end_lap)
                both, none = (self.taken(ply, left, right, laps, less) for less in (0.0, 2.0 * one))
                most = max(most, *(a - b for a, b in zip(both, none, strict=True)))
            total += (2 + sum(1 if is_nested(*pair) else 2 for pair in pairwise(task.levels))) * most / 2.0
        return total


def is_nested(one: Level, other: Level) -> bool:
    """One of two bands lies within the other across the fall, so that one course at most is wider than its neighbour."""
    ends = (one.left - other.left, other.right - one.right)
    return min(ends) >= 0 or max(ends) <= 0
