"""A proof of what a roof costs at least, and of its rolls: lengths get prices (prices.py), and courses are priced.

Where no lengths that fit a roll are worth more than p together, rolls cost (price − p) each at least and, beside that,
each course its cheapest split at those prices with its end laps and cuts; the sweep of the bounds (layout/sweep.py)
adds courses up over all plies, course lines and staggers.  Derivation: docs/method/layout.md, prices of lengths.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise, product

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

SHARES = (0.0, 0.3, 1.0, 1.5, 4.0)  # of a roll's price that lengths are priced by
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

    step: of cut lengths [ticks].  rolls: of each sheet at least.  lengths: of each ply, of which those that an end lap
    might spare are counted, or what the end lap costs at the prices.
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
    sums = [
        total - worth.missing(costs) + worth.lengths(lengths, costs) for total, worth in zip(found, worths, strict=True)
    ]
    prices = [costs.price(sheet) for sheet in sheets]
    least = math.inf
    for more in product(range(MORE_ROLLS), repeat=len(sheets)):
        counts = [rolls[sheet] + extra for sheet, extra in zip(sheets, more, strict=True)]
        held = max(
            total + sum(price * (1.0 - share) * count for price, share, count in zip(prices, way, counts, strict=True))
            for total, way in zip(sums, ways, strict=True)
        )
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
        step; those that both courses share at the step it has.  The least of sums that rise evenly with the worth of
        an end lap rises less and less with it, so no side takes off more than half of what two do.
        """
        one, total = costs.worth("t_joint"), 0.0
        for ply, task in enumerate(self.tasks):
            last = len(task.levels) - 1
            total += self.half(ply, 0, one) + self.half(ply, last, one)
            for k, (low, high) in enumerate(pairwise(task.levels)):
                both = min(low.right, high.right) - max(low.left, high.left)
                shared = one * fewest_laps(both, task.longest, task.end_lap)
                sides = 1 if is_nested(low, high) else 2
                total += sides * max(0.0, max(self.half(ply, k, one), self.half(ply, k + 1, one)) - shared)
        return total

    def lengths(self, lengths: Sequence[Lengths], costs: Costs) -> float:
        """Money for lengths of courses in one piece, or for more pieces instead, whose end laps have no T-joints."""
        each, joints, total = costs.worth("new_length"), 2.0 * costs.worth("t_joint"), 0.0
        for ply, one in enumerate(lengths):
            both = [self.taken(ply, level.left, level.right, 0, joints) for level in one.bands]
            total += one.more * min([each, *(max(0.0, loose - tight) for loose, tight in both)])
        return total

    def half(self, ply: int, band: int, one: float) -> float:
        """Half of what a course that covers a band takes less where its end laps have no T-joints of so much."""
        task, most = self.tasks[ply], 0.0
        spans = {
            (min(level.left for level in some), max(level.right for level in some))
            for low in range(band + 1)
            for some in (task.levels[low:high] for high in range(band + 1, len(task.levels) + 1))
        }
        for left, right in spans:
            laps = fewest_laps(right - left, task.longest, task.end_lap)
            both, none = (self.taken(ply, left, right, laps, less) for less in (0.0, 2.0 * one))
            most = max(most, *(a - b for a, b in zip(both, none, strict=True)))
        return most / 2.0


def is_nested(one: Level, other: Level) -> bool:
    """One of two bands lies within the other across the fall: at most one course is wider than its neighbour there."""
    ends = (one.left - other.left, other.right - one.right)
    return min(ends) >= 0 or max(ends) <= 0
