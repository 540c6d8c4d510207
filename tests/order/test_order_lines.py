"""Lines of the order: rounding and prices."""

from __future__ import annotations

import pytest
from order_jobs import feet, make_area, metal_details

from lapwright.order.lines import Want, flange, make_line


@pytest.mark.parametrize(("needed", "ordered"), [(9.92, 10), (10.0, 10), (10.0 + 1e-12, 10), (10.01, 11), (0.0, 0)])
def test_needs_are_rounded_up_to_whole_things(needed: float, ordered: int) -> None:
    """A hair over a whole is rounding, not need."""
    assert make_line(Want("primer", "primer", needed, "pail", ""), {}).ordered == ordered


def test_cost_is_price_times_what_is_ordered() -> None:
    """34 tubes at 9.80 are 333.20; a line without a price has no cost."""
    want = Want("caulk", "caulk", 33.1, "tube", "", price_key="caulk")
    priced, bare = make_line(want, {"caulk": 9.80}), make_line(want, {})
    assert [(line.price, line.cost) for line in (priced, bare)] == [(9.80, 333.20), (None, None)]


def test_order_may_exceed_the_rounded_need() -> None:
    """Two sides of 14 ft want 2.8 lengths of 10 ft, and four whole ones."""
    line = make_line(Want("edge metal", "edge_metal", 2.8, "length", "", ordered=4), {})
    assert (line.needed, line.ordered) == (2.8, 4)


def test_a_flange_that_is_not_given_is_taken_as_usual() -> None:
    """4" where the job says nothing (a width of 0), else its own."""
    area = make_area([(0, 0), (10, 0), (10, 10), (0, 10)], ["metal_edge"] * 4)
    found = [flange(metal_details(area, 1, [10.0], width)[0]) for width in (0.0, 5.0)]
    assert found == pytest.approx([feet(4 / 12), feet(5 / 12)])
