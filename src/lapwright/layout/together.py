"""What all plies of an area can't do without together: end laps, rolls, and what else a layout costs.

Plies are bound to one another by the distances between their side laps and between their end laps, so that together
they need more than each by itself.  Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Ply
from lapwright.defaults.values import Rules
from lapwright.layout.cost import Costs
from lapwright.layout.levels import CLOSE, MOST_MORE, Kind, Level, PlyTask, least_rolls, make_ply_task
from lapwright.layout.sweep import Apart, Sweep, Worth

NEVER = float("inf")
ROUNDING = 1e-6  # of a roll, of money
COUNTED = 3  # courses more than the fewest of all plies up to which their numbers are told apart


@dataclass(frozen=True, slots=True)
class Least:
    """What no layout of an area can do without.

    end_laps: of all plies.  use: rolls that each ply uses up, for numbers of courses that go together; one of them it
    is.  work: money for end laps, T-joints and cuts.
    """

    end_laps: int
    use: tuple[tuple[float, ...], ...]
    work: float


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
    tasks = [
        make_ply_task(ply.sheet, found, rules, is_cap=i == len(plies) - 1, is_plain=plain[ply.sheet.name])
        for i, (ply, found) in enumerate(zip(plies, levels, strict=True))
    ]
    apart = make_apart(rules, len(tasks))
    laps = Sweep(tasks, apart, Worth(lambda _, kind: (kind.laps + 1.0, float(kind.laps)))).run()
    work = Sweep(tasks, apart, worth_of_work(tasks, costs)).run()
    if not (laps.is_done and work.is_done and laps.found and work.found):
        return None
    return Least(round(laps.best), tuple(uses(tasks, apart)), work.best)


def make_apart(rules: Rules, plies: int) -> Apart:
    """The rules between courses and plies, loosened by what lengths are read to.

    Lines with a course between them keep their distance by what it shows, or the lesser distance is taken for all.
    """
    at_rip, narrowest = rules.ply_offset_at_rip_ticks, rules.narrowest_rip_ticks
    offset = rules.ply_offset_ticks if narrowest + at_rip >= rules.ply_offset_ticks else at_rip
    stagger, between = rules.end_lap_stagger_ticks - CLOSE, rules.end_lap_ply_offset_ticks - CLOSE
    joints = tuple(tuple(stagger if a == b else between for b in range(plies)) for a in range(plies))
    return Apart(offset - CLOSE, min(at_rip, offset) - CLOSE, narrowest - CLOSE, joints)


def worth_of_work(tasks: Sequence[PlyTask], costs: Costs) -> Worth:
    """What end laps, their T-joints and cuts cost; the whole rolls among the pieces are not cut."""
    lap, cut = costs.worth("end_lap"), costs.worth("cut")

    def of(ply: int, pieces: int) -> float:
        most = whole_pieces(tasks[ply], pieces)
        return (pieces - 1) * lap + (pieces - most) * cut

    def own(ply: int, kind: Kind) -> tuple[float, float]:
        fewest = kind.laps + 1
        return (of(ply, fewest + 1), of(ply, fewest))

    return Worth(own, costs.worth("t_joint"))


def whole_pieces(task: PlyTask, pieces: int) -> int:
    """The most pieces of a course that may be whole rolls."""
    return pieces if task.longest == task.roll else 0


def uses(tasks: Sequence[PlyTask], apart: Apart) -> Iterator[tuple[float, ...]]:
    """Rolls that each ply uses up at least, for all numbers of courses that go together; one of them must hold."""
    own = [least_uses(task, apart) for task in tasks]
    counts = course_counts(tasks, apart)
    seen = set()
    for numbers in counts:
        use = tuple(at_least(found, number) for found, number in zip(own, numbers, strict=True))
        if use not in seen:
            seen.add(use)
            yield use


def least_uses(task: PlyTask, apart: Apart) -> tuple[dict[int, float], float]:
    """Rolls that a ply uses up at least, by its number of courses, and for any other number.

    Source: docs/method/layout.md, bounds
    """

    def own(_: int, kind: Kind) -> tuple[float, float]:
        length, fewest = kind.right - kind.left, kind.laps + 1
        used = [least_rolls(task, length, fewest + more) for more in range(MOST_MORE + 1)]
        used.append((length + (fewest + MOST_MORE) * task.end_lap) / task.roll)  # still more pieces: their length alone
        return (min(used[1:]), used[0])

    most = max(level.right - level.left for level in task.levels)
    slack = 1.5 * (most + task.longest) / task.roll
    joints = (apart.joints[0][:1],)
    sweep = Sweep([task], Apart(apart.offset, apart.offset_at_rip, apart.narrowest, joints), Worth(own), slack).run()
    return {counts[0]: worth for counts, worth in sweep.found.items()}, sweep.best + slack


def at_least(found: tuple[dict[int, float], float], number: int) -> float:
    """The least of a ply with so many courses or more."""
    by_number, beyond = found
    return min([beyond, *(worth for count, worth in by_number.items() if count >= number)])


def course_counts(tasks: Sequence[PlyTask], apart: Apart) -> list[tuple[int, ...]]:
    """Numbers of courses, of which one at least is reached by the plies of every layout."""
    flat = [flattened(task) for task in tasks]
    sweep = Sweep(flat, apart, Worth(lambda _, __: (1.0, 1.0)), float(COUNTED)).run()
    least = [fewest_courses(task) for task in tasks]
    if not sweep.is_done or not sweep.found:
        return [tuple(least)]
    spare = round(sweep.best) + COUNTED - sum(least)
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


def rounded_rolls(use: Sequence[float], sheets: Sequence[str]) -> dict[str, int]:
    """Rolls by sheet, each rounded up.  Source: arithmetic"""
    total: dict[str, float] = {}
    for sheet, used in zip(sheets, use, strict=True):
        total[sheet] = total.get(sheet, 0.0) + used
    return {sheet: math.ceil(used - ROUNDING) for sheet, used in total.items()}
