"""Lines of the order for what was counted zone by zone."""

from __future__ import annotations

import pytest

from lapwright.fasten.values import FastenerNeed
from lapwright.order.fastened import fastened_lines
from lapwright.units.read import quantity_si
from lapwright.units.write import Units


@pytest.mark.parametrize(
    ("need", "ordered", "unit", "cost"),
    [
        (FastenerNeed("nails", "cap nails, base sheet, zone 2", "2", 2400.0, "zone 2", ("a",)), 3, "box", 120.0),
        (FastenerNeed("screws", "fasteners, insulation, zone 3", "3", 500.0, "zone 3"), 1, "box", 40.0),
        (FastenerNeed("ribbon", "adhesive ribbons", "1", quantity_si("600 ft"), "zone 1"), 3, "tube", None),
    ],
)
def test_rounded_up_to_what_is_sold(need: FastenerNeed, ordered: int, unit: str, cost: float | None) -> None:
    """Boxes of 1,000 nails and 500 screws, tubes for 250 ft of ribbon; only fasteners have that price."""
    (line,) = fastened_lines([need], {"fasteners": 40.0}, Units("us"))
    assert (line.ordered, line.unit, line.cost, line.from_ids) == (ordered, unit, cost, need.ids)
    assert line.rate is not None
