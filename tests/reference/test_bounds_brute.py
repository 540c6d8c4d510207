"""Bounds for all plies together against every plan of tiny roofs."""

from __future__ import annotations

import math

import pytest
from layout_ask import AIMS, RoofAsk, bands
from layout_brute import best
from layout_small import small_roof

from lapwright.layout.least import Rolls, dearer, whole_cost
from lapwright.layout.levels import Level, PlyTask
from lapwright.layout.takes import Apart
from lapwright.layout.together import sums, uses
from lapwright.layout.worths import Money

UNIT = 100_000  # ticks to a unit of the tiny roofs, so that what is left out as a sliver is far less than one


def tasks_of(roof: RoofAsk) -> tuple[PlyTask, ...]:
    """The plies of a roof given plainly."""
    rules = roof.rules
    grounds = [bands(roof, ply) for ply in roof.plies]
    long = {
        ply.sheet: all(
            band.right - band.left >= rules.shortest
            for other, ground in zip(roof.plies, grounds, strict=True)
            for band in ground
            if other.sheet == ply.sheet
        )
        for ply in roof.plies
    }
    return tuple(
        PlyTask(
            ply.sheet,
            tuple(Level(*(UNIT * at for at in (band.low, band.high, band.left, band.right))) for band in ground),
            *(UNIT * size for size in (ply.width, ply.side_lap, ply.length, ply.end_lap)),
            UNIT * min(rules.longest, ply.length),
            UNIT * rules.shortest,
            ply is roof.plies[-1],
            long[ply.sheet],
        )
        for ply, ground in zip(roof.plies, grounds, strict=True)
    )


def bounds_of(roof: RoofAsk) -> dict[str, float]:
    """Our bounds by the aim."""
    rules, costs, tasks = roof.rules, roof.costs, tasks_of(roof)
    at_rip = UNIT * rules.ply_offset_at_rip
    offset = UNIT * rules.ply_offset if rules.narrowest + rules.ply_offset_at_rip >= rules.ply_offset else at_rip
    count = len(tasks)
    joints = [[UNIT * (rules.stagger if a == b else rules.ply_stagger) for b in range(count)] for a in range(count)]
    apart = Apart(offset, min(at_rip, offset), UNIT * rules.narrowest, tuple(tuple(row) for row in joints))
    prices = {ply.sheet: float(ply.price) for ply in roof.plies}
    money = Money(tuple(float(ply.price) for ply in roof.plies), costs.end_lap, costs.tjoint, costs.cut)
    found = sums(tasks, apart, money)
    if found is None:
        return dict.fromkeys(AIMS, 0.0)
    weighed = Rolls({}, found.weighed)
    counts = [rolls_of(roof, use) for use in uses(tasks, apart)]
    return {
        "fewest_laps": found.laps,
        "fewest_rolls": min(dearer(one, weighed, dict.fromkeys(one, 1.0)) for one in counts),
        "least_cost": whole_cost(min(dearer(one, weighed, prices) for one in counts), [found.work]),
    }


def rolls_of(roof: RoofAsk, use: tuple[float, ...]) -> dict[str, int]:
    """Whole rolls by sheet."""
    total: dict[str, float] = {}
    for ply, used in zip(roof.plies, use, strict=True):
        total[ply.sheet] = total.get(ply.sheet, 0.0) + used
    return {sheet: math.ceil(used - 1e-6) for sheet, used in total.items()}


@pytest.mark.parametrize("seed", range(50))
def test_no_plan_of_a_tiny_roof_is_below_our_bounds(seed: int) -> None:
    """Whatever the course lines, splits and rolls, and however wide the side laps: every plan is tried."""
    roof = small_roof(seed)
    bounds = bounds_of(roof)
    found = {aim: best(roof, aim) for aim in AIMS}
    assert {aim: worth is None or bounds[aim] <= worth + 1e-6 for aim, worth in found.items()} == dict.fromkeys(
        AIMS, True
    )
