"""What we say a layout costs, beside the same layout counted as the reference counts."""

from __future__ import annotations

import pytest
from layout_ask import cost
from layout_ours import CENTS, ask, lay, plan_of, seeded_case


@pytest.mark.parametrize("seed", range(0, 24, 2))
def test_the_cost_is_that_of_the_reference(seed: int) -> None:
    """Without details both count the same rolls, laps, T-joints, cuts, lengths and rips."""
    case = seeded_case(seed)
    roof, unit = ask(case)
    layout = lay(case, patience=0.05)
    assert round(layout.cost * CENTS) == cost(roof, plan_of(layout, unit))
