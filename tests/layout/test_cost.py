"""What a layout is weighed by, by pencil."""

from __future__ import annotations

from lapwright.layout.cost import Costs, weights_of

SHEETS = {"cap": 0}


def test_money_of_rolls_and_minutes() -> None:
    """At a minute for 1: an end lap of 4 and two T-joints of 2 are 8, a cut 1, a new length 3; a roll is 120."""
    weights = weights_of("least_cost", Costs(), SHEETS)
    assert (weights.roll["cap"], weights.end_lap, weights.cut, weights.length) == (120, 8, 1, 3)
    assert weights_of("least_cost", Costs({"cap": 90.0}), SHEETS).roll["cap"] == 90


def test_labour_and_times_of_the_job_come_first() -> None:
    """At 120 an hour an end lap of 3 min is 6, and its T-joints of 2 min are 4 each: 14."""
    assert weights_of("least_cost", Costs({}, labour=120.0, end_lap_s=180.0), SHEETS).end_lap == 14


def test_the_aim_weighs_what_it_spares() -> None:
    """A roll is 120, an end lap with two T-joints 8; the aim makes one of them weigh a thousand times that."""
    assert weights_of("fewest_rolls", Costs(), SHEETS).roll["cap"] == 120_000
    assert weights_of("fewest_laps", Costs(), SHEETS).end_lap == 8_000


def test_what_costs_nothing_is_spared_all_the_same() -> None:
    """With free work fewest_laps still weighs a lap, as by default; with a free sheet fewest_rolls weighs its rolls."""
    assert weights_of("fewest_laps", Costs(labour=0.0), SHEETS).end_lap == 8_000
    assert weights_of("fewest_rolls", Costs({"cap": 0.0}), SHEETS).roll["cap"] == 120_000
    assert weights_of("least_cost", Costs({"cap": 0.0}, labour=0.0), SHEETS).roll["cap"] == 0
