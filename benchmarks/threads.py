"""What courses and rolls that hang together ask for: rolls at least, and end laps beyond the fewest to have so few.

A *thread* is what hangs together of the courses of a sheet and the rolls that they are cut from: a course hangs on each
roll that it has a piece of.  As many pieces as courses and rolls together, but one, are the fewest that tie a thread;
so it has no more rolls than its courses have end laps, and one.  And its rolls are as long as what is cut from them.
Derivation: docs/method/layout.md, threads.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lapwright.layout.cost import Costs
from lapwright.layout.levels import SLIVER, PlyTask, fewest_laps
from lapwright.layout.takes import Apart
from lapwright.layout.together import fewest_courses, swept
from lapwright.layout.worths import Money, worth_of_money

MOST_COURSES = 60  # of a sheet; on more nothing is said


@dataclass(frozen=True)
class Sort:
    """Courses of a sheet as long as one another: length, fewest end laps."""

    length: int
    laps: int


@dataclass(frozen=True)
class Cutting:
    """A sheet's roll and end lap, the price of a roll, what an end lap beyond the fewest costs at least."""

    roll: int
    end_lap: int
    price: float
    lap: float


def thread(cutting: Cutting, sorts: Sequence[Sort], counts: Sequence[int]) -> float:
    """What the rolls of one thread of so many courses of each sort and its end laps beyond the fewest cost at least."""
    laps = sum(count * sort.laps for count, sort in zip(counts, sorts, strict=True))
    length = sum(count * sort.length for count, sort in zip(counts, sorts, strict=True))
    more = 0
    while True:
        rolls = -(-(length + (laps + more) * cutting.end_lap) // cutting.roll)
        if rolls <= laps + more + 1:
            return rolls * cutting.price + more * cutting.lap
        more += 1


def threads(cutting: Cutting, sorts: tuple[Sort, Sort], counts: tuple[int, int]) -> float:
    """The same of so many courses of two sorts, in as many threads as are cheapest."""
    size = [count + 1 for count in counts]
    one = [[thread(cutting, sorts, (a, b)) if a + b else 0.0 for b in range(size[1])] for a in range(size[0])]
    best = [[math.inf] * size[1] for _ in range(size[0])]
    best[0][0] = 0.0
    for a in range(size[0]):
        for b in range(size[1]):
            if a or b:
                # the thread that holds the last course of the first sort there is
                best[a][b] = min(
                    one[c][d] + best[a - c][b - d] for c in range(min(a, 1), a + 1) for d in range(0 if a else 1, b + 1)
                )
    return best[counts[0]][counts[1]]


def sorts_of(task: PlyTask) -> tuple[tuple[Sort, Sort], list[tuple[int, int]]] | None:
    """The sorts of a ply's courses, narrow and wide, and how many of each there are at least, one of these.

    None where the ground is neither a rectangle nor two bands of which one lies within the other across the fall.
    """
    ends = sorted((level.right - level.left, level.left, level.right) for level in task.levels)
    narrow, wide = ends[0], ends[-1]
    if len(ends) > 2 or wide[1] > narrow[1] or narrow[2] > wide[2]:
        return None
    lengths = (narrow[0], wide[0])
    sorts = [Sort(length, fewest_laps(length, task.longest, task.end_lap)) for length in lengths]
    few = fewest_courses(task)
    level = max(task.levels, key=lambda one: one.right - one.left)
    # what lies within a side lap of the last sheet's edge asks for no other course of the sort
    high = level.high - level.low - task.side_lap - 2 * SLIVER
    least = few if len(ends) == 1 else min(few, max(1, -(-high // (task.width - task.side_lap))))
    return (sorts[0], sorts[1]), [(few - count, count) for count in range(least, few + 1)]


def least_of(task: PlyTask, price: float, lap: float) -> float:
    """What a ply's rolls and end laps beyond the fewest cost at least; 0 where nothing is said."""
    found = sorts_of(task)
    if found is None or fewest_courses(task) > MOST_COURSES:
        return 0.0
    sorts, counts = found
    return min(threads(Cutting(task.roll, task.end_lap, price, lap), sorts, one) for one in counts)


def lap_worth(task: PlyTask, costs: Costs) -> float:
    """What an end lap beyond the fewest costs at least: it meets one side lap and adds a cut, or spares one.

    Where whole rolls are laid uncut a piece more may spare a cut; else it is one.  A course has a neighbour that
    reaches as far as it does where there are two of its sort.
    """
    cut = costs.worth("cut")
    return costs.worth("end_lap") + costs.worth("t_joint") + (cut if task.longest < task.roll else -cut)


def alone(tasks: Sequence[PlyTask]) -> Iterator[PlyTask]:
    """Plies whose sheet is no other ply's, with two courses of each sort at least."""
    for task in tasks:
        found = sorts_of(task)
        is_one = sum(other.sheet == task.sheet for other in tasks) == 1
        if found and is_one and min(count[1] for count in found[1]) > 1:
            yield task


def rolls_by_threads(tasks: Sequence[PlyTask]) -> dict[str, int]:
    """Rolls at least of sheets that serve one ply, however many end laps there are."""
    return {task.sheet: round(least_of(task, 1.0, 0.0)) for task in alone(tasks)}


def cost_by_threads(tasks: tuple[PlyTask, ...], apart: Apart, costs: Costs, rolls: dict[str, int]) -> float:
    """What rolls, end laps, T-joints and cuts cost at least.

    rolls: of each sheet at least.  The work of the fewest end laps on any lines, joints as near as may be, and of each
    sheet what its threads ask for beyond it.
    """
    money = Money((0.0,) * len(tasks), costs.worth("end_lap"), costs.worth("t_joint"), costs.worth("cut"))
    free = replace(apart, joints=tuple((0,) * len(tasks) for _ in tasks))
    found = swept(tasks, free, [worth_of_money(tasks, money, 0.0)])
    if found is None:
        return 0.0
    total = {sheet: costs.price(sheet) * count for sheet, count in rolls.items()}
    for task in alone(tasks):
        total[task.sheet] = max(total[task.sheet], least_of(task, costs.price(task.sheet), lap_worth(task, costs)))
    return found[0] + sum(total.values())
