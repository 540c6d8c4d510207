"""Where water runs: to which side, whether it can leave, which areas share it."""

from __future__ import annotations

import pytest
from drainroofs import BOX, ELL, area

from lapwright.drains.paths import basins, free_length_m, holding_sides, low_sides, plan_area_m2, tributary_m2
from lapwright.units.read import quantity_si

SF = quantity_si("1 sf")


@pytest.mark.parametrize("turned_deg", [0.0, 37.0, 90.0, 200.0])
def test_each_low_side_of_an_ell_takes_its_own_strip(turned_deg: float) -> None:
    """By hand: 40 x 27 sf to the near side, 56 x 45 sf to the far one, however the roof lies."""
    ell = area(ELL, 6 * ["metal_edge"], falls=(0.0, 1.0), turned_deg=turned_deg)
    found = {side: part / SF for side, part in tributary_m2(ell).items() if part > 0.01}
    assert found == pytest.approx({3: 40 * 27, 5: 56 * 45}, rel=1e-4)
    assert [edge.side for edge in low_sides(ell)] == [3, 5]


def test_a_slanting_fall_shares_a_box_by_its_diagonal() -> None:
    """64 ft square, water running to the south-east corner: half to each of two sides, and all of it somewhere."""
    square = area(((0, 0), (64, 0), (64, 64), (0, 64)), 4 * ["metal_edge"], falls=(0.5**0.5, -(0.5**0.5)))
    assert dict(tributary_m2(square)) == pytest.approx({1: 32 * 64 * SF, 2: 32 * 64 * SF})
    assert sum(tributary_m2(square).values()) == pytest.approx(plan_area_m2(square))


@pytest.mark.parametrize(
    ("kinds", "falls", "held"),
    [
        (["metal_edge", "parapet", "parapet", "parapet"], (0.0, -1.0), []),
        (["parapet", "metal_edge", "metal_edge", "metal_edge"], (0.0, -1.0), [1]),
        (["wall", "parapet", "parapet", "parapet"], (0.0, -1.0), [1]),
        (["valley", "metal_edge", "metal_edge", "metal_edge"], (0.0, -1.0), [1]),
        (["expansion", "metal_edge", "metal_edge", "metal_edge"], (0.0, -1.0), [1]),
        (["step", "wall", "wall", "wall"], (0.0, -1.0), []),
        ([None, "metal_edge", "metal_edge", "metal_edge"], (0.0, -1.0), [1]),
        # To the south-east corner: the parapet in the east leads water down to the open south.
        (["metal_edge", "parapet", "parapet", "parapet"], (0.6, -0.8), []),
        (["parapet", "parapet", "metal_edge", "metal_edge"], (0.6, -0.8), [1, 2]),
    ],
)
def test_water_is_held_where_no_way_leads_out(kinds: list[str], falls: tuple[float, float], held: list[int]) -> None:
    """A closed low side holds water unless its lower end reaches a free one."""
    assert [edge.side for edge in holding_sides(area(BOX, kinds, falls=falls))] == held


def test_a_closed_side_beside_an_open_one_at_the_same_level_holds_none() -> None:
    """A low side in two stretches, parapet and metal: water backs up a hair and leaves by the metal."""
    corners = ((0, 0), (60, 0), (120, 0), (120, 64), (0, 64))
    roof = area(corners, ["parapet", "metal_edge", "parapet", "parapet", "parapet"])
    assert holding_sides(roof) == ()
    assert free_length_m(roof) == pytest.approx(quantity_si("60 ft"))


def test_areas_that_meet_in_a_valley_are_one_basin() -> None:
    """Two planes falling to a common line share its drains; two that part at a ridge do not."""
    low = ((0, 0), (96, 0), (96, 30), (0, 30))
    high = ((0, 30), (96, 30), (96, 60), (0, 60))
    edge, parapet = "metal_edge", "parapet"
    valley = (
        area(low, [edge, parapet, "valley", parapet], falls=(0.0, 1.0), name="South"),
        area(high, ["valley", parapet, edge, parapet], falls=(0.0, -1.0), name="North"),
    )
    ridge = (
        area(low, [edge, parapet, "ridge", parapet], falls=(0.0, -1.0), name="South"),
        area(high, ["ridge", parapet, edge, parapet], falls=(0.0, 1.0), name="North"),
    )
    step = (
        area(low, [edge, parapet, "step", parapet], falls=(0.0, -1.0), name="South"),
        area(high, ["step", parapet, parapet, parapet], falls=(0.0, -1.0), name="North"),
    )
    assert basins(valley) == ((0, 1),)
    assert basins(ridge) == ((0,), (1,))
    assert basins(step) == ((0, 1),)
