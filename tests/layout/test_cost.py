"""What a layout costs, by pencil."""

from __future__ import annotations

from lapwright.layout.cost import Costs, Counts, cost_of, weights_of


def test_money_of_rolls_and_minutes() -> None:
    """10 rolls at 90; at a minute for 1: 6 laps of 4, 12 T-joints of 2, 8 cuts of 1, 3 lengths of 3, 1 rip of 10."""
    counts = Counts({"cap": 10}, 6, 12, 8, 3, 1)
    assert cost_of(counts, Costs({"cap": 90.0})) == 900 + 24 + 24 + 8 + 9 + 10


def test_labour_and_times_of_the_job_come_first() -> None:
    """At 120 an hour and 3 min an end lap, ten laps are 60."""
    costs = Costs({}, labour=120.0, end_lap_s=180.0)
    assert cost_of(Counts({}, 10, 0, 0, 0, 0), costs) == 60


def test_the_aim_weighs_what_it_spares() -> None:
    """A roll is 120, an end lap with two T-joints 8; the aim makes one of them weigh a thousand times that."""
    sheets = {"cap": 0}
    assert weights_of("least_cost", Costs(), sheets).roll["cap"] == 120
    assert weights_of("least_cost", Costs(), sheets).end_lap == 8
    assert weights_of("fewest_rolls", Costs(), sheets).roll["cap"] == 120_000
    assert weights_of("fewest_laps", Costs(), sheets).end_lap == 8_000
