"""A proof of what a roof costs at least, and of its rolls: lengths get prices (prices.py), and courses are priced.

Where no lengths that fit a roll are worth more than p together, rolls cost (price − p) each at least and, beside that,
each course its cheapest split at those prices with its end laps and cuts; the sweep of the bounds (layout/sweep.py)
adds courses up over all plies, course lines and staggers.  Derivation: docs/method/layout.md, prices of lengths.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import combinations, pairwise, product

import numpy as np
from layout_ours import Case

from lapwright.assembly.values import Assembly
from lapwright.layout.cost import Costs
from lapwright.layout.frame import make_frame
from lapwright.layout.least import AreaNeed, rips
from lapwright.layout.leastlengths import Lengths, least_lengths
from lapwright.layout.levels import Kind, Level, PlyTask, are_long, fewest_laps, make_levels, make_ply_task
from lapwright.layout.region import make_region
from lapwright.layout.takes import Apart, Worth
from lapwright.layout.together import make_apart, swept
from lapwright.layout.values import Layout
from prices import Array, Cut, Priced
from threads import cost_by_threads, rolls_by_threads

SHARES = (0.0, 0.2, 0.3, 0.6, 1.0, 1.4, 2.0, 4.0)  # of a roll's price that lengths are priced by
MANY_LENGTHS = 3  # of a ply; of fewer it is asked what it takes to do with them
MORE_ROLLS = 25  # rolls of each sheet more than the fewest that are looked at


@dataclass(frozen=True)
class Proof:
    """What a roof can't do without: rolls of all sheets, and money."""

    rolls: int
    cost: float


def prove(case: Case, layout: Layout) -> Proof | None:
    """The proof for a roof; None where its ground is no stack of rectangles or runs may be shorter than a piece."""
    assembly, rules, costs = Assembly(case.plies), case.rules, Costs()
    frame, last = make_frame(case.area, rules), len(case.plies) - 1
    regions = [make_region(case.area, frame, rules, under_cap=k == last - 1) for k in range(last + 1)]
    levels = [make_levels(region) for region in regions]
    if not all(levels) or not all(are_long(found, rules.shortest_piece_ticks) for found in levels):
        return None
    tasks = tuple(
        make_ply_task(ply.sheet, found, rules, is_cap=k == last, is_plain=True)
        for k, (ply, found) in enumerate(zip(case.plies, levels, strict=True))
    )
    apart, area = make_apart(rules, len(tasks)), AreaNeed("", regions, ())
    threaded = rolls_by_threads(tasks)
    known = {sheet: max(least, threaded.get(sheet, 0)) for sheet, least in layout.sheet_rolls_at_least.items()}
    rolls = rolls_proved(tasks, apart, rules.cut_step_ticks, known)
    lengths = [least_lengths(region, ply.sheet, rules) for region, ply in zip(regions, case.plies, strict=True)]
    held = cost_proved(tasks, apart, costs, rules.cut_step_ticks, rolls, lengths)
    held = max(held, cost_by_threads(tasks, apart, costs, rolls))
    held += sum(one.sure for one in lengths) * costs.worth("new_length") + rips(area, assembly, rules, costs)
    return Proof(max(layout.rolls_at_least, sum(rolls.values())), max(layout.cost_at_least, held))


def rolls_proved(tasks: tuple[PlyTask, ...], apart: Apart, step: int, rolls: Mapping[str, int]) -> dict[str, int]:
    """Rolls of each sheet at least, by prices alone.  rolls: those known of before."""
    free = Costs(roll_price=dict.fromkeys(rolls, 1.0), labour=0.0)
    tables = {sheet: priced(tasks, sheet, 1.0, free, step) for sheet in rolls}
    none = {sheet: priced(tasks, sheet, 0.0, free, step) for sheet in rolls}
    worths = [Courses(tasks, {**none, sheet: tables[sheet]}) for sheet in rolls]
    found = swept(tasks, apart, [Worth(worth.own) for worth in worths])
    if found is None:
        return dict(rolls)
    return {sheet: max(rolls[sheet], math.ceil(one - 1e-4)) for sheet, one in zip(rolls, found, strict=True)}


def cost_proved(
    tasks: tuple[PlyTask, ...],
    apart: Apart,
    costs: Costs,
    step: int,
    rolls: Mapping[str, int],
    lengths: Sequence[Lengths] = (),
) -> float:
    """What rolls, end laps, T-joints and cuts of a roof cost at least.

    step: of cut lengths [ticks].  rolls: of each sheet at least.  lengths: of each ply at least; beyond the sure ones
    they are counted, or what it takes at the prices to do without.
    """
    sheets = list(rolls)
    tables = {(sheet, share): priced(tasks, sheet, share, costs, step) for sheet in sheets for share in SHARES}
    ways = list(product(SHARES, repeat=len(sheets)))
    worths = [
        Courses(tasks, {sheet: tables[sheet, share] for sheet, share in zip(sheets, way, strict=True)}) for way in ways
    ]
    found = swept(tasks, apart, [Worth(worth.own) for worth in worths])
    if found is None:
        return 0.0
    held_by = [total - worth.missing(costs) for total, worth in zip(found, worths, strict=True)]
    few = np.array([[sum(money) for money in product(*worth.lengths(lengths, costs))] for worth in worths])
    sums = np.array(held_by)[:, None] + few
    a_roll = np.array(
        [[costs.price(sheet) * (1.0 - share) for sheet, share in zip(sheets, w, strict=True)] for w in ways]
    )
    least = math.inf
    for more in product(range(MORE_ROLLS), repeat=len(sheets)):
        counts = [rolls[sheet] + extra for sheet, extra in zip(sheets, more, strict=True)]
        held = float((sums + (a_roll @ counts)[:, None]).max(axis=0).min())
        if MORE_ROLLS - 1 in more and held <= least:
            return 0.0  # more rolls still might cost less: nothing is proved
        least = min(least, held)
    return least


def priced(tasks: Sequence[PlyTask], sheet: str, share: float, costs: Costs, step: int) -> tuple[Priced, Array]:
    """The prices of a sheet's lengths, made for about as many courses as the roof has."""
    own = [task for task in tasks if task.sheet == sheet]
    one = own[0]
    cut = Cut(
        one.shortest // step, min(-(-one.longest // step), one.roll // step), one.roll // step, one.end_lap // step
    )
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
    _few: dict[tuple[int, int], tuple[float, float]] = field(default_factory=dict)

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
        step; those that both courses share at the step it has.
        """
        one, total = costs.worth("t_joint"), 0.0
        for ply, task in enumerate(self.tasks):
            levels = task.levels
            total += self.lacking(ply, levels[:1], one) + self.lacking(ply, levels[-1:], one)
            for low, high in pairwise(levels):
                both = min(low.right, high.right) - max(low.left, high.left)
                shared = one * fewest_laps(both, task.longest, task.end_lap)
                sides = 1 if is_nested(low, high) else 2
                total += sides * max(0.0, self.lacking(ply, (low, high), one) - shared)
        return total

    def lengths(self, lengths: Sequence[Lengths], costs: Costs) -> list[list[float]]:
        """Money for each ply's lengths beyond the sure ones, or for what it takes to do without.

        The first is for no more than those, each next one for one more; the last for three lengths or more.
        Courses in one piece may have more instead, whose end laps have no T-joints here.
        """
        each, joints, found = costs.worth("new_length"), 2.0 * costs.worth("t_joint"), []
        for ply, one in enumerate(lengths):
            both = [self.taken(ply, level.left, level.right, 0, joints) for level in one.bands]
            instead = min((max(0.0, loose - tight) for loose, tight in both), default=0.0) * one.more
            if one.sure:
                few = [(k - one.sure) * each + self.of_few(ply)[k - 1] for k in range(one.sure, MANY_LENGTHS)]
                found.append([max(few[0], instead), *few[1:], (MANY_LENGTHS - one.sure) * each])
            else:
                found.append([min(one.more * each, instead)])
        return found

    def of_few(self, ply: int) -> tuple[float, float]:
        """Money more for courses of a ply, were all its pieces of one length, or of two, whichever they are.

        Counted are courses that lie on one band alone and at no edge.  Pieces may lap more than they must, and whole
        rolls lie among them.
        """
        task = self.tasks[ply]
        made, prices = self.tables[task.sheet]
        key = (ply, id(prices))
        if key in self._few:
            return self._few[key]
        cut, paid = made.cut, made.paid(prices)
        size = cut.longest - cut.shortest + 1
        one, two = np.zeros(size), np.zeros((size, size))
        for level in task.levels:
            many = (level.high - level.low - task.width) // (task.width - task.side_lap) - 2
            if many > 0:
                net = net_length(level.right - level.left, task.end_lap, made.step)
                least = min(self.taken(ply, level.left, level.right, 0, 0.0))
                alike, mixed = of_lengths(cut, paid, net)
                one += many * np.maximum(0.0, alike - made.lap - least)
                two += many * np.maximum(0.0, mixed - made.lap - least)
        self._few[key] = (float(one.min()), float(two.min()))
        return self._few[key]

    def lacking(self, ply: int, edge: Sequence[Level], one: float) -> float:
        """What a course at an edge takes less where its end laps lack a T-joint of so much.

        edge: bands that lie at it.  Where some band is so low that a course may lie at two edges it is half of what
        two less make: the least of sums that rise evenly with the worth of an end lap rises less and less with it.
        """
        task = self.tasks[ply]
        is_high = all(level.high - level.low >= 2 * task.width - task.side_lap for level in task.levels)
        near, less = (edge, one) if is_high else (task.levels, 2.0 * one)
        most = 0.0
        for low, high in combinations(range(len(near) + 1), 2):
            some = near[low:high]
            left, right = min(level.left for level in some), max(level.right for level in some)
            laps = fewest_laps(right - left, task.longest, task.end_lap)
            with_both, without = (self.taken(ply, left, right, laps, each) for each in (0.0, less))
            most = max(most, *(a - b for a, b in zip(with_both, without, strict=True)))
        return most if is_high else most / 2.0


def of_lengths(cut: Cut, paid: Array, net: int) -> tuple[Array, Array]:
    """What a course of a net length takes in pieces of each length, and of each two; an end lap counted for every one.

    Whole rolls lie among them where they are no longer than a piece may be.
    """
    lengths = np.arange(cut.shortest, cut.longest + 1)
    reach, money = lengths - cut.lap, paid[cut.shortest :]
    one = np.full(len(lengths), np.inf)
    two = np.full((len(lengths), len(lengths)), np.inf)
    for rolls in range(-(-net // (cut.roll - cut.lap)) + 1 if cut.longest == cut.roll else 1):
        rest = max(0, net - rolls * (cut.roll - cut.lap))
        one = np.minimum(one, rolls * paid[-1] - (-rest // reach) * money)
        for many in range(-(-rest // int(reach[0])) + 1):
            over = np.maximum(0, rest - many * reach)[:, None]
            two = np.minimum(two, rolls * paid[-1] + many * money[:, None] - (-over // reach[None, :]) * money[None, :])
    return one, two


def is_nested(one: Level, other: Level) -> bool:
    """One of two bands lies within the other across the fall: at most one course is wider than its neighbour there."""
    ends = (one.left - other.left, other.right - one.right)
    return min(ends) >= 0 or max(ends) <= 0
