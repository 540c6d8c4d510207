"""What the sweep over all plies sums up: end laps, the rolls of all sheets weighed against one another, and money.

Derivation: docs/method/layout.md, bounds.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

from lapwright.layout.levels import MOST_MORE, Kind, PlyTask, least_rolls, least_split, most_of_roll
from lapwright.layout.takes import Worth

NEVER = float("inf")
SHARES = (0.0, 0.05, 0.25, 1.0)  # of a roll's price that goes by what is used of it; any of them gives a true bound
WEIGHTS = (1.0, 2.0)  # of the rolls of a sheet against another's; any of them gives a true bound


@dataclass(frozen=True, slots=True)
class Money:
    """Money for a roll of each ply's sheet, an end lap, a T-joint and a cut."""

    rolls: tuple[float, ...]
    lap: float
    t_joint: float
    cut: float


def worth_of_laps() -> Worth:
    """End laps.  Source: docs/method/layout.md, bounds"""
    return Worth(lambda _, kind: (kind.laps + 1.0, float(kind.laps)))


def worth_of_rolls(tasks: Sequence[PlyTask], weights: Mapping[str, float], *, net: bool = False) -> Worth:
    """Rolls used up, those of each sheet by its weight.  net: see rolls_used.  Source: docs/method/layout.md, bounds"""

    def own(ply: int, kind: Kind) -> tuple[float, float]:
        weight = weights[tasks[ply].sheet]
        loose, tight = rolls_used(tasks[ply], kind, net=net)
        return (weight * loose, weight * tight)

    return Worth(own)


def rolls_used(task: PlyTask, kind: Kind, *, net: bool = False) -> tuple[float, float]:
    """Rolls that a course uses up at least, loose and tight.

    net: what pieces cover without their end laps is counted, not their lengths; either is a true bound.
    Source: docs/method/layout.md, bounds
    """
    length, fewest = kind.right - kind.left, kind.laps + 1
    aside = task.end_lap if net else 0
    used = [least_rolls(task, length, fewest + more, aside) for more in range(MOST_MORE + 1)]
    many = fewest + MOST_MORE + 1  # so many pieces or more: their length alone
    rest = length + (many - 1) * task.end_lap - many * aside
    used.append(max(0, rest) / most_of_roll(task.roll, task.longest, aside))
    return (min(used[1:]), used[0])


def worth_of_money(tasks: Sequence[PlyTask], money: Money, share: float) -> Worth:
    """Money for end laps, T-joints, cuts, and a share of what is used of rolls.

    Pieces that are whole rolls are not cut.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_worths.py
    """

    def own(ply: int, kind: Kind) -> tuple[float, float]:
        task, price = tasks[ply], share * money.rolls[ply]
        length, fewest = kind.right - kind.left, kind.laps + 1

        def paid(pieces: int) -> float:
            return least_split(task, length, pieces, (price, money.cut)) + (pieces - 1) * money.lap

        last = fewest + MOST_MORE + 1  # so many pieces or more: their length, laps and cuts alone
        cuts = money.cut if task.longest < task.roll else 0.0
        rest = price * (length + (last - 1) * task.end_lap) / task.roll + (last - 1) * money.lap + last * cuts
        return (min(rest, *(paid(fewest + more) for more in range(1, MOST_MORE + 1))), paid(fewest))

    return Worth(own, money.t_joint)


def weightings(tasks: Sequence[PlyTask]) -> list[dict[str, float]]:
    """Weights of the rolls of the sheets, none twice over: where courses cover more than one band.

    First each sheet by itself, the lines of all plies kept, which its own courses by their number do not know of.

    Source: docs/method/layout.md, bounds
    """
    sheets = list(dict.fromkeys(task.sheet for task in tasks))
    if len(sheets) < 2 or all(len(task.levels) == 1 for task in tasks):
        return []
    found = [chosen for chosen in product(WEIGHTS, repeat=len(sheets)) if min(chosen) == WEIGHTS[0]]
    alone = [{other: float(other == sheet) for other in sheets} for sheet in sheets]
    return [*alone, *(dict(zip(sheets, chosen, strict=True)) for chosen in found)]
