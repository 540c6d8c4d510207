"""Rolls come from the cut list alone."""

from __future__ import annotations

import pytest
from order_jobs import by_item, flashing, make_area, make_layout, make_needs, piece

from lapwright.layout.values import Roll
from lapwright.order.rolls import want_rolls

SQUARE = make_area([(0, 0), (10, 0), (10, 10), (0, 10)], ["ridge"] * 4)
LAYOUT = make_layout(
    pieces=(piece("base", 1), piece("base", 2), piece("cap", 1)),
    details=(flashing("side 2", 1, 0, 3),),
    rolls=(
        Roll("base-sa 1", "base-sa", ("Main/base/01/1", "Main/base/01/2"), 1, 1),
        Roll("base-sa 2", "base-sa", ("Main/side 2/base flashing 1",), 1, 1),
        Roll("cap-sa 1", "cap-sa", ("Main/cap/01/1",), 1, 1),
    ),
)


def test_rolls_are_counted_and_traced() -> None:
    """Two rolls of base for two pieces and a flashing, one of cap for a piece."""
    wants = by_item(list(want_rolls(make_needs(SQUARE, LAYOUT, spare_rolls="0"))))
    assert {item: (want.needed, want.unit, want.ids) for item, want in wants.items()} == {
        "base-sa": (2.0, "roll", ("Main/base/01/1", "Main/base/01/2", "Main/side 2/base flashing 1")),
        "cap-sa": (1.0, "roll", ("Main/cap/01/1",)),
    }
    assert wants["base-sa"].basis == "2 rolls opened by the cut list: 2 field pieces, 1 flashing piece"


def test_spare_rolls_are_a_line_of_their_own_with_their_origin() -> None:
    """Two spare rolls of each sheet, as the job file says."""
    wants = by_item(list(want_rolls(make_needs(SQUARE, LAYOUT, spare_rolls="2"))))
    spare = wants["cap-sa, spare"]
    assert (spare.needed, spare.rate.origin if spare.rate else "", spare.ids) == (2.0, "job file", ())
    assert list(wants) == ["base-sa", "base-sa, spare", "cap-sa", "cap-sa, spare"]


def test_the_cold_asks_for_its_allowance() -> None:
    """3 % of two rolls of base and of one of cap, only in the cold."""
    wants = by_item(list(want_rolls(make_needs(SQUARE, LAYOUT, cold=True))))
    found = {item: want.needed for item, want in wants.items() if item.endswith("allowance")}
    assert found == pytest.approx({"base-sa, cold-weather allowance": 0.06, "cap-sa, cold-weather allowance": 0.03})
    assert [item for item in by_item(list(want_rolls(make_needs(SQUARE, LAYOUT)))) if "cold" in item] == []
