"""No layout of ours is below a bound of ours, whatever the roof: openings, skew, several planes, sheets that drift."""

from __future__ import annotations

from typing import Any

import pytest
from test_layout import Roof, layout_of, strategies

ROOFS = [
    *(pytest.param(strategies.seeded_roof, seed, id=f"seeded-{seed}") for seed in range(20)),
    *(pytest.param(strategies.odd_roof, seed, id=f"odd-{seed}") for seed in range(10)),
    *(pytest.param(strategies.unequal_roof, seed, id=f"unequal-{seed}") for seed in range(4)),
]


def short_of(roof: Roof) -> list[str]:
    """What our layout has less of than its bound says."""
    layout = layout_of(roof)
    pairs = {
        "rolls": (len(layout.rolls), layout.rolls_at_least),
        "end laps": (sum(ply.end_laps for ply in layout.plies), layout.end_laps_at_least),
        "cost": (layout.cost, layout.cost_at_least),
    }
    for sheet, least in layout.sheet_rolls_at_least.items():
        pairs[f"rolls of {sheet}"] = (sum(roll.sheet == sheet for roll in layout.rolls), least)
    for ply in layout.plies:
        pairs[f"rolls of {ply.area} {ply.ply}"] = (ply.rolls, ply.rolls_at_least)
        pairs[f"end laps of {ply.area} {ply.ply}"] = (ply.end_laps, ply.end_laps_at_least)
    return [f"{name}: {counted}, at least {least}" for name, (counted, least) in pairs.items() if counted < least]


@pytest.mark.parametrize(("made", "seed"), ROOFS)
def test_no_layout_is_below_its_bounds(made: Any, seed: int) -> None:
    """A roof that is laid with less than a bound makes the bound wrong."""
    assert short_of(made(seed)) == []
