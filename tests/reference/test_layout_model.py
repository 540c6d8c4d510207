"""The solver's model of the layout against every plan of tiny roofs."""

from __future__ import annotations

import pytest
from layout_ask import AIMS, broken
from layout_brute import best, fewest_rolls
from layout_model import Limit, solve
from layout_small import small_roof

EVERY = Limit(deterministic=200.0)


@pytest.mark.parametrize("aim", AIMS)
@pytest.mark.parametrize("seed", range(50))
def test_the_model_equals_brute_force(seed: int, aim: str) -> None:
    """What the solver proves to be the best of a tiny roof is the best of all its plans, and can be laid."""
    roof = small_roof(seed)
    answer = solve(roof, aim, EVERY, extra=9)
    assert (answer.worth, answer.is_proven) == (best(roof, aim), True)
    plans = [] if answer.plan is None else [answer.plan]
    assert [broken(roof, plan) for plan in plans] == [[] for _ in plans]
    assert [AIMS[aim](roof, plan) for plan in plans] == [answer.worth for _ in plans]


def test_most_of_the_tiny_roofs_can_be_laid_and_need_end_laps() -> None:
    """The fifty are not trivial: at least 40 can be laid, at least 25 of them with end laps, some with three plies."""
    roofs = [small_roof(seed) for seed in range(50)]
    laps = [best(roof, "fewest_laps") for roof in roofs]
    assert sum(1 for count in laps if count is not None) >= 40
    assert sum(1 for count in laps if count) >= 25
    assert {len(roof.plies) for roof in roofs} == {1, 2, 3}
    assert {len(roof.slabs) for roof in roofs} == {1, 2}


def test_fewest_rolls_by_hand() -> None:
    """Seven of 3 and two of 2 are 25 long, so two rolls of 9 are too few; 3+3+3, 3+3+3, 3+2+2 are three."""
    assert fewest_rolls((3, 3, 3, 3, 3, 3, 3, 2, 2), 9) == 3


def test_fewest_rolls_where_they_come_out_even() -> None:
    """4+4+2 and 3+3+2+2 fill two rolls of 10 to the end."""
    assert fewest_rolls((4, 4, 3, 3, 2, 2, 2), 10) == 2
