"""What a layout costs part by part, and what each aim comes to, so that a person can choose."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from lapwright.assembly.values import Sheet
from lapwright.defaults.si import default_number, default_si
from lapwright.layout.bill import Bill, make_bill
from lapwright.layout.cost import AIMS, Costs
from lapwright.layout.values import Choice, CostPart, Layout, Weighed

COUNTED = (
    ("end_lap", "end_laps"),
    ("t_joint", "t_joints"),
    ("cut", "cuts"),
    ("new_length", "lengths"),
    ("new_rip", "rips"),
)


def weigh(layout: Layout, aim: str, costs: Costs, sheets: Mapping[str, Sheet]) -> Weighed:
    """What a layout was weighed by, with the only choice known so far.

    Source: arithmetic
    Checked: tests/layout/test_choices.py
    """
    bill = bill_of(layout, sheets)
    labour = default_number("layout", "labour") if costs.labour is None else costs.labour
    parts = tuple(cost_parts(bill, costs))
    return Weighed(aim, labour, costs.labour is not None, parts, (as_choice(aim, layout, bill),))


def choice_of(layout: Layout, aim: str, sheets: Mapping[str, Sheet]) -> Choice:
    """What the layout under an aim counts and costs.

    Source: arithmetic
    """
    return as_choice(aim, layout, bill_of(layout, sheets))


def in_order(choices: Iterable[Choice]) -> tuple[Choice, ...]:
    """Choices in the order of the aims.

    Source: arithmetic
    """
    return tuple(sorted(choices, key=lambda choice: AIMS.index(choice.aim)))


def bill_of(layout: Layout, sheets: Mapping[str, Sheet]) -> Bill:
    """The bill of a layout.  Source: arithmetic"""
    sizes = {name: (sheet.width_ticks, sheet.length_ticks) for name, sheet in sheets.items()}
    return make_bill(layout.plies, layout.rolls, layout.tjoints, sizes)


def as_choice(aim: str, layout: Layout, bill: Bill) -> Choice:
    """A bill as a choice."""
    counts = (bill.end_laps, bill.t_joints, bill.cuts, bill.lengths, bill.rips)
    return Choice(aim, dict(bill.rolls), *counts, cost=layout.cost)


def cost_parts(bill: Bill, costs: Costs) -> Iterator[CostPart]:
    """The cost of a bill, part by part; together they are `bill.money`."""
    for sheet, count in bill.rolls.items():
        yield CostPart("roll", sheet, count, costs.price(sheet), None, sheet in costs.roll_price)
    for what, counted in COUNTED:
        given: float | None = getattr(costs, f"{what}_s")
        seconds = default_si("layout", what) if given is None else given
        yield CostPart(what, "", getattr(bill, counted), costs.worth(what), seconds, given is not None)
