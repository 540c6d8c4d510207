"""What all plies of an area can't do without together: end laps, rolls, and what else a layout costs.

Plies are bound to one another by the distances between their side laps and between their end laps, so that together
they need more than each by itself.  Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from lapwright.assembly.values import Assembly, Ply
from lapwright.defaults.values import Rules
from lapwright.layout.cost import Costs
from lapwright.layout.levels import CLOSE, Level, PlyTask, make_ply_task
from lapwright.layout.sweep import Sweep
from lapwright.layout.takes import Apart, Worth
from lapwright.layout.worths import (
    SHARES,
    Money,
    rolls_used,
    weightings,
    worth_of_laps,
    worth_of_money,
    worth_of_rolls,
)

NEVER = float("inf")
ROUNDING = 1e-6  # of a roll, of money
KEPT = 32  # results kept: a job is laid out for several aims
MOST_OF_THREE = 45  # courses of three plies up to which they are looked at together
COUNTED = 3  # courses more than the fewest of all plies up to which their numbers are told apart


@dataclass(frozen=True, slots=True)
class Sums:
    """What all plies of an area take at least.

    laps: end laps.  work: for each of SHARES, money for end laps, T-joints and cuts and that share of what is used of
    rolls.  weighed: rolls used up, with the weight of each sheet's.
    """

    laps: float
    work: tuple[float, ...]
    weighed: tuple[tuple[Mapping[str, float], float], ...]


@dataclass(frozen=True, slots=True)
class Least:
    """What no layout of an area can do without.

    end_laps: of all plies.  use: rolls that each ply uses up, for numbers of courses that go together; one of them it
    is.  work, weighed: as in Sums.
    """

    end_laps: int
    use: tuple[tuple[float, ...], ...]
    work: tuple[float, ...]
    weighed: tuple[tuple[Mapping[str, float], float], ...]


def least_together(
    plies: Sequence[Ply],
    levels: Sequence[tuple[Level, ...]],
    rules: Rules,
    costs: Costs,
    plain: Mapping[str, bool],
) -> Least | None:
    """The least of an area; None where the ground of a ply is no stack of rectangles, or too tall.

    plain: sheets of which no run on any area is shorter than the shortest piece.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_together.py, tests/reference
    """
    if not all(levels):
        return None
    tasks = tuple(
        make_ply_task(ply.sheet, found, rules, is_cap=i == len(plies) - 1, is_plain=plain[ply.sheet.name])
        for i, (ply, found) in enumerate(zip(plies, levels, strict=True))
    )
    apart = make_apart(rules, len(tasks))
    prices = tuple(costs.price(task.sheet) for task in tasks)
    found = sums(tasks, apart, Money(prices, costs.worth("end_lap"), costs.worth("t_joint"), costs.worth("cut")))
    if found is None:
        return None
    return Least(round(found.laps), uses(tasks, apart), found.work, found.weighed)


@lru_cache(maxsize=KEPT)
def sums(tasks: tuple[PlyTask, ...], apart: Apart, money: Money) -> Sums | None:
    """What is summed up over all plies; None where the roof is too tall.

    Source: docs/method/layout.md, bounds
    """
    weights = weightings(tasks)
    worths = [
        worth_of_laps(),
        *(worth_of_money(tasks, money, share) for share in SHARES),
        *(worth_of_rolls(tasks, one, net=net) for one in weights for net in (False, True)),
    ]
    found = swept(tasks, apart, worths)
    if found is None:
        return None
    last = 1 + len(SHARES)
    rolls = [max(pair) for pair in zip(found[last::2], found[last + 1 :: 2], strict=True)]
    return Sums(found[0], tuple(found[1:last]), tuple(zip(weights, rolls, strict=True)))


def swept(tasks: tuple[PlyTask, ...], apart: Apart, worths: Sequence[Worth]) -> list[float] | None:
    """The least of all plies together; of three on a tall roof, of two together and the third by itself.

    So too where three together have too many states.  The first worth is summed up over all three there as well.
    """
    if len(tasks) < 3 or sum(fewest_courses(task) for task in tasks) <= MOST_OF_THREE:
        whole = best_of(tasks, apart, worths, range(len(tasks)))
        if whole is not None or len(tasks) < 3:
            return whole
    found = [[0.0] * len(worths)]
    for k in range(1, len(tasks)):
        parts = [best_of(tasks, apart, worths, part) for part in (range(k), range(k, len(tasks)))]
        if parts[0] is not None and parts[1] is not None:
            found.append([a + b for a, b in zip(*parts, strict=True)])
    first = best_of(tasks, apart, worths[:1], range(len(tasks)))  # one worth by itself is soon looked through
    if first is not None:
        found.append([*first, *[0.0] * (len(worths) - 1)])
    return [max(each) for each in zip(*found, strict=True)]


def best_of(tasks: Sequence[PlyTask], apart: Apart, worths: Sequence[Worth], part: range) -> list[float] | None:
    """The least of some plies that follow one another; None where they are too tall, or no way was found."""
    first = part.start
    moved = [shifted(worth, first) for worth in worths]
    sweep = Sweep(tasks[first : part.stop], apart, moved).run()
    return sweep.bests if sweep.is_done and sweep.bests[0] < NEVER else None


def shifted(worth: Worth, first: int) -> Worth:
    """A worth for the plies from `first` on."""
    return Worth(lambda ply, kind: worth.own(ply + first, kind), worth.beside)


def make_apart(rules: Rules, plies: int) -> Apart:
    """The rules between courses and plies, loosened by what lengths are read to.

    Lines with a course between them keep their distance by what it shows, or the lesser distance is taken for all.
    """
    at_rip, narrowest = rules.ply_offset_at_rip_ticks, rules.narrowest_rip_ticks
    offset = rules.ply_offset_ticks if narrowest + at_rip >= rules.ply_offset_ticks else at_rip
    stagger, between = rules.end_lap_stagger_ticks - CLOSE, rules.end_lap_ply_offset_ticks - CLOSE
    joints = tuple(tuple(stagger if a == b else between for b in range(plies)) for a in range(plies))
    return Apart(offset - CLOSE, min(at_rip, offset) - CLOSE, narrowest - CLOSE, joints)


@lru_cache(maxsize=KEPT)
def uses(tasks: tuple[PlyTask, ...], apart: Apart) -> tuple[tuple[float, ...], ...]:
    """Rolls that each ply uses up at least, for all numbers of courses that go together; one of them must hold."""
    own = [least_uses(task, apart) for task in tasks]
    found: dict[tuple[float, ...], None] = {}
    for numbers in course_counts(tasks, apart):
        found[tuple(at_least(one, number) for one, number in zip(own, numbers, strict=True))] = None
    return tuple(found)


def least_uses(task: PlyTask, apart: Apart) -> tuple[dict[int, float], float]:
    """Rolls that a ply uses up at least, by its number of courses, and for any other number.

    Source: docs/method/layout.md, bounds
    """
    most = max(level.right - level.left for level in task.levels)
    slack = 1.5 * (most + task.longest) / task.roll
    sweeps = [Sweep([task], apart, [worth_of_use(task, net=net)], slack).run() for net in (False, True)]
    done = [sweep for sweep in sweeps if sweep.is_done and sweep.found]
    found: dict[int, float] = {}
    beyond = max((sweep.bests[0] + slack for sweep in done), default=0.0)
    for (count,) in dict.fromkeys(counts for sweep in done for counts in sweep.found):
        found[count] = max(sweep.found.get((count,), sweep.bests[0] + slack) for sweep in done)
    return found, beyond


def worth_of_use(task: PlyTask, *, net: bool) -> Worth:
    """Rolls that the courses of one ply use up."""
    return Worth(lambda _, kind: rolls_used(task, kind, net=net))


def at_least(found: tuple[dict[int, float], float], number: int) -> float:
    """The least of a ply with so many courses or more."""
    by_number, beyond = found
    return min([beyond, *(worth for count, worth in by_number.items() if count >= number)])


def course_counts(tasks: Sequence[PlyTask], apart: Apart) -> list[tuple[int, ...]]:
    """Numbers of courses: every layout has as many as one of these in each ply, or more.

    Of three plies both pairs of neighbours have to have them.
    """
    if len(tasks) < 3:
        return counts_of(tasks, apart)
    lower, upper = course_counts(tasks[:-1], apart), counts_of(tasks[-2:], apart)
    joined = {(*one[:-1], max(one[-1], two[0]), two[1]) for one in lower for two in upper}
    return sorted(joined)


def counts_of(tasks: Sequence[PlyTask], apart: Apart) -> list[tuple[int, ...]]:
    """Numbers of courses of one ply or of two neighbours: those found, and all that have more together."""
    flat = [flattened(task) for task in tasks]
    sweep = Sweep(flat, apart, [Worth(lambda _, __: (1.0, 1.0))], float(COUNTED)).run()
    least = [fewest_courses(task) for task in tasks]
    if not sweep.is_done or not sweep.found:
        return [tuple(least)]
    spare = round(sweep.bests[0]) + COUNTED - sum(least)
    return [*sorted(sweep.found), *shared(least, spare)]


def shared(least: Sequence[int], spare: int) -> Iterator[tuple[int, ...]]:
    """All ways to give so many courses more to the plies."""
    if len(least) == 1:
        yield (least[0] + spare,)
        return
    for first in range(spare + 1):
        for rest in shared(least[1:], spare - first):
            yield (least[0] + first, *rest)


def fewest_courses(task: PlyTask) -> int:
    """Courses over the whole height at least.  Source: arithmetic"""
    return max(1, -(-(task.ends - task.begins - task.side_lap) // (task.width - task.side_lap)))


def flattened(task: PlyTask) -> PlyTask:
    """The ply as one band, for what hangs on the course lines alone."""
    whole = Level(task.begins, task.ends, 0, task.shortest)
    return replace(task, levels=(whole,))


def more_courses(
    heights: Sequence[tuple[int, int]], assembly: Assembly, rules: Rules, laid: Sequence[int] = ()
) -> list[tuple[int, ...]]:
    """Courses over the fewest of each ply, over ground that goes on from low to high edge: one of these, or more.

    heights: low and high edge of each ply [ticks].  laid: courses of a layout that is there; where they are the fewest
    of every ply there is nothing to look for.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_together.py
    """
    last = len(heights) - 1
    tasks = tuple(
        make_ply_task(
            ply.sheet, (Level(*edges, 0, rules.shortest_piece_ticks),), rules, is_cap=i == last, is_plain=False
        )
        for i, (ply, edges) in enumerate(zip(assembly.plies, heights, strict=True))
    )
    least = [fewest_courses(task) for task in tasks]
    if list(laid) == least:
        return [(0,) * len(tasks)]
    counts = course_counts(tasks, make_apart(rules, len(tasks)))
    found = {tuple(max(0, n - few) for n, few in zip(numbers, least, strict=True)): None for numbers in counts}
    return list(found)
