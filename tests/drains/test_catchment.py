"""Which part of the roof each way out takes, by pencil, and nothing lost."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
import shapely
from drainroofs import BOX, ELL, FOOT_TICKS, area

from lapwright.drains.basin import basins_of
from lapwright.drains.catchment import catchment
from lapwright.drains.outlets import PRIMARY_KINDS
from lapwright.drains.paths import plan_area_m2
from lapwright.drains.places import water_maps
from lapwright.roof.values import Area, Drain
from lapwright.units.read import quantity_si

ALL_ROUND = 4 * ("parapet",)
SF = quantity_si("1 sf")
HALF_WALL = 2.5 / 2  # of a parapet of 2 ft 6 in, to each foot of length [sf]


def drain(x: float, y: float, name: str) -> Drain:
    """A 4 in drain at a place [ft]."""
    return Drain(name, "drain", at=(round(x * FOOT_TICKS), round(y * FOOT_TICKS)), diameter=quantity_si("4 in"))


def shares(*areas: Area) -> dict[str, tuple[float, float]]:
    """Plan and half walls of each way out [sf]."""
    (basin,) = basins_of(areas)
    return {
        share.name: (share.plan_m2 / SF, share.half_walls_m2 / SF) for share in catchment(basin, PRIMARY_KINDS).shares
    }


@pytest.mark.parametrize("turned_deg", [0.0, 30.0, 135.0])
def test_two_drains_part_the_low_side_at_the_middle_between_them(turned_deg: float) -> None:
    """120 x 64 ft, drains at 20 and 80 ft along the south: the cut is at 50; walls go with it."""
    found = shares(area(BOX, ALL_ROUND, drains=turned_drains([(20, 0), (80, 0)], turned_deg), turned_deg=turned_deg))
    assert found["D-1"] == pytest.approx((50 * 64, HALF_WALL * (50 + 50 + 64)), rel=1e-4)
    assert found["D-2"] == pytest.approx((70 * 64, HALF_WALL * (70 + 70 + 64)), rel=1e-4)


def turned_drains(places: list[tuple[float, float]], turned_deg: float) -> list[Drain]:
    """Drains at places [ft] of a roof that is turned about the origin."""
    c, s = math.cos(math.radians(turned_deg)), math.sin(math.radians(turned_deg))
    return [drain(c * x - s * y, s * x + c * y, f"D-{n}") for n, (x, y) in enumerate(places, start=1)]


def test_both_planes_of_a_valley_feed_the_drain_nearest_along_it() -> None:
    """A valley of 96 ft between planes of 30 ft, drains at 24 and 60 ft: 42 and 54 ft of both planes."""
    south = area(((0, 0), (96, 0), (96, 30), (0, 30)), ["metal_edge", "metal_edge", "valley", "metal_edge"],
                 falls=(0.0, 1.0), name="South", drains=[drain(24, 30, "D-1"), drain(60, 30, "D-2")])  # fmt: skip
    north = area(((0, 30), (96, 30), (96, 60), (0, 60)), ["valley", "metal_edge", "metal_edge", "metal_edge"],
                 falls=(0.0, -1.0), name="North")  # fmt: skip
    assert shares(south, north) == {
        "D-1": (pytest.approx(42 * 60), 0.0),
        "D-2": (pytest.approx(54 * 60), 0.0),
    }


def test_water_over_a_step_runs_on_to_the_lower_roof_s_drains() -> None:
    """The upper plane's water lands on the lower one and goes with its strips."""
    low = area(((0, 0), (96, 0), (96, 30), (0, 30)), ["parapet", "metal_edge", "step", "metal_edge"],
               name="Low", drains=[drain(20, 0, "D-1"), drain(90, 0, "D-2")], height=1e-9)  # fmt: skip
    high = area(((0, 30), (40, 30), (40, 60), (0, 60)), ["step", "metal_edge", "metal_edge", "metal_edge"], name="High")
    found = shares(low, high)
    assert found["D-1"][0] == pytest.approx(55 * 30 + 40 * 30, rel=1e-3)
    assert found["D-2"][0] == pytest.approx(41 * 30, rel=1e-3)


def test_a_slanting_fall_sends_water_down_the_sides() -> None:
    """64 ft square falling to the south-east corner with a drain there and one in the south-west: all to the corner."""
    half = 0.5**0.5
    box = ((0, 0), (64, 0), (64, 64), (0, 64))
    found = shares(area(box, ALL_ROUND, falls=(half, -half), drains=[drain(64, 0, "D-1"), drain(0, 0, "D-2")]))
    assert found["D-1"][0] == pytest.approx(64 * 64)
    assert found["D-2"][0] == 0.0


@pytest.mark.parametrize("falls", [(0.0, -1.0), (0.6, -0.8), (-0.28, 0.96)])
def test_what_is_shared_and_loose_adds_up_to_the_roof(falls: tuple[float, float]) -> None:
    """Plan and half walls, on an L with four drains anywhere."""
    places = [(10, 5), (90, 20), (50, 40), (30, 2)]
    roof = area(ELL, 6 * ["parapet"], falls=falls, drains=[drain(x, y, f"D-{x}") for x, y in places])
    found = shares(roof)
    assert sum(plan for plan, _ in found.values()) == pytest.approx(plan_area_m2(roof) / SF, rel=1e-6)
    assert sum(half for _, half in found.values()) == pytest.approx(HALF_WALL * 2 * (96 + 45), rel=1e-4)


def test_parts_as_drawn_have_the_areas_reckoned() -> None:
    """The outlines of the parts enclose what each way out takes."""
    roof = area(ELL, 6 * ["parapet"], falls=(0.6, -0.8), drains=[drain(10, 5, "D-1"), drain(90, 20, "D-2")])
    (water,) = water_maps((roof,), rain_primary=quantity_si("4 in/h"))
    for share in water.shares:
        drawn = sum(shapely.Polygon(rings[0], rings[1:]).area for rings in share.rings)
        assert drawn == pytest.approx(share.plan_m2, rel=2e-3)
    assert sum(water.flows.values()) > 0


def test_a_gutter_goes_before_drains_on_its_own_side() -> None:
    """A gutter along the open low side takes that; a drain in the field then gets nothing."""
    gutter = Drain("G-1", "gutter", side=1, width=0.15, outlets=3)
    roof = area(BOX, ("metal_edge", *ALL_ROUND[1:]), drains=[gutter, drain(60, 30, "D-1")])
    assert shares(roof)["D-1"] == (0.0, 0.0)
    assert shares(replace(roof, drains=(gutter,)))["G-1"][0] == pytest.approx(120 * 64)


def test_water_does_not_run_back_up_a_side_to_a_nearer_drain() -> None:
    """64 ft square falling to the south-east, drains half-way along the south and in the corner.

    The half-way one has what comes down to the first 32 ft, half of 32 x 32 ft; all the rest runs on to the corner.
    """
    half = 0.5**0.5
    box = ((0, 0), (64, 0), (64, 64), (0, 64))
    found = shares(area(box, ALL_ROUND, falls=(half, -half), drains=[drain(32, 0, "D-1"), drain(64, 0, "D-2")]))
    assert found["D-1"][0] == pytest.approx(32 * 32 / 2, rel=1e-3)
    assert found["D-2"][0] == pytest.approx(64 * 64 - 32 * 32 / 2, rel=1e-3)


def test_a_drain_a_little_off_a_falling_side_is_passed_where_it_stands() -> None:
    """The same, the half-way drain two feet up from the side: what comes down to the side beyond it runs on."""
    half = 0.5**0.5
    box = ((0, 0), (64, 0), (64, 64), (0, 64))
    found = shares(area(box, ALL_ROUND, falls=(half, -half), drains=[drain(32, 2, "D-1"), drain(64, 0, "D-2")]))
    assert found["D-1"][0] == pytest.approx(32 * 32 / 2, rel=1e-3)
    assert found["D-2"][0] == pytest.approx(64 * 64 - 32 * 32 / 2, rel=1e-3)


def test_along_a_valley_that_falls_water_runs_on_from_both_planes() -> None:
    """Planes falling east and south to a valley from the north-west to the south-east corner of a 64 ft square.

    Drains in the valley's middle and at its foot: the upper one has what comes to the upper half of the valley, half of
    32 x 32 ft from each plane.
    """
    east = area(((0, 0), (64, 0), (0, 64)), ["metal_edge", "valley", "metal_edge"], falls=(1.0, 0.0), name="East",
                drains=[drain(32, 32, "D-1"), drain(64, 0, "D-2")])  # fmt: skip
    south = area(((64, 0), (64, 64), (0, 64)), ["metal_edge", "metal_edge", "valley"], falls=(0.0, -1.0), name="South")
    found = shares(east, south)
    assert found["D-1"][0] == pytest.approx(32 * 32, rel=1e-3)
    assert found["D-2"][0] == pytest.approx(64 * 64 - 32 * 32, rel=1e-3)
