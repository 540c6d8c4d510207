"""What a layout costs part by part, by pencil."""

from __future__ import annotations

from lapwright.layout.bill import Bill
from lapwright.layout.choices import cost_parts, in_order
from lapwright.layout.cost import Costs
from lapwright.layout.values import Choice, CostPart


def test_parts_with_where_they_come_from() -> None:
    """A roll of the job at 90, one at the default of 120; an end lap of the job's 6 min at 30 an hour is 3."""
    costs = Costs({"cap": 90.0}, labour=30.0, end_lap_s=360.0)
    parts = list(cost_parts(Bill({"base": 1, "cap": 2}, 4, 6, 3, 2, 1), costs))
    assert parts == [
        CostPart("roll", "base", 1, 120.0, None, is_given=False),
        CostPart("roll", "cap", 2, 90.0, None, is_given=True),
        CostPart("end_lap", "", 4, 3.0, 360.0, is_given=True),
        CostPart("t_joint", "", 6, 1.0, 120.0, is_given=False),
        CostPart("cut", "", 3, 0.5, 60.0, is_given=False),
        CostPart("new_length", "", 2, 1.5, 180.0, is_given=False),
        CostPart("new_rip", "", 1, 5.0, 600.0, is_given=False),
    ]


def test_choices_stand_in_the_order_of_the_aims() -> None:
    """Cost, rolls, laps, in whatever order they came."""
    found = in_order([Choice("fewest_laps"), Choice("least_cost"), Choice("fewest_rolls")])
    assert [choice.aim for choice in found] == ["least_cost", "fewest_rolls", "fewest_laps"]
