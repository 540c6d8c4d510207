"""Where water stands for want of a way out, by pencil."""

from __future__ import annotations

from dataclasses import replace

import pytest
from drainroofs import BOX, FOOT_TICKS, area

from lapwright.drains.places import check_places, water_maps
from lapwright.roof.values import Drain, Opening
from lapwright.units.read import quantity_si

ALL_ROUND = 4 * ("parapet",)
FOOT = quantity_si("1 ft")


def drain(x: float, y: float, name: str = "D-1") -> Drain:
    """A 4 in drain at a place [ft]."""
    return Drain(name, "drain", at=(round(x * FOOT_TICKS), round(y * FOOT_TICKS)), diameter=quantity_si("4 in"))


@pytest.mark.parametrize(("up", "status", "deep_in"), [(1.0, "pass", 0.0), (2.0, "pass", 0.0), (20.0, "fail", 5.0)])
def test_a_drain_up_the_slope_leaves_water_at_the_parapet(up: float, status: str, deep_in: float) -> None:
    """At 1/4 in 12 a drain 20 ft up the fall leaves 5 in at the low side; one within two feet of it a hair."""
    (check,) = check_places((area(BOX, ALL_ROUND, drains=[drain(60, up)]),))
    assert (check.id, check.status) == ("drains.places-Main", status)
    assert check.demand == pytest.approx(quantity_si(f"{deep_in} in"), abs=1e-6)


def test_a_low_side_without_any_way_out_fails() -> None:
    """Parapets all round and nothing but an overflow: the low side is told and drawn."""
    over = Drain("O-1", "overflow_scupper", side=1, width=0.5, height=0.1, sill=0.05)
    (check,) = check_places((area(BOX, ALL_ROUND, drains=[over]),))
    assert check.status == "fail"
    (place,) = water_maps((area(BOX, ALL_ROUND, drains=[over]),), rain_primary=None)[0].dead
    assert place.line == ((0.0, 0.0), (pytest.approx(120 * FOOT), 0.0))
    assert place.depth is None


def test_water_that_runs_to_a_corner_wants_its_drain_there() -> None:
    """Falling south-east, the low corner is 30 ft along each side from a drain in the south: 0.6 x 30 x 1/4 in."""
    falls = (0.6, -0.8)
    kinds = ALL_ROUND
    away = area(BOX, kinds, falls=falls, drains=[drain(90, 0)])
    (check,) = check_places((away,))
    assert check.status == "fail"
    assert check.demand == pytest.approx(quantity_si("4.5 in"), rel=1e-6)
    (there,) = check_places((area(BOX, kinds, falls=falls, drains=[drain(120, 0)]),))
    assert there.status == "pass"


def test_a_free_low_side_holds_nothing() -> None:
    """Water runs over the edge; no drains are asked for."""
    (check,) = check_places((area(BOX, ("metal_edge", *ALL_ROUND[1:])),))
    assert check.status == "pass"


def test_a_side_of_no_known_kind_leaves_it_unknown() -> None:
    """It may hold water or not."""
    (check,) = check_places((area(BOX, (None, *ALL_ROUND[1:]), drains=[drain(60, 1)]),))
    assert (check.status, check.supply) == ("unknown", ("roof[0].edges[0].kind",))


def test_a_wide_curb_across_the_fall_wants_a_cricket() -> None:
    """An 8 ft curb with its face up the fall is told, a 1 ft one is not, nor one turned by 45 degrees."""
    foot = FOOT_TICKS
    wide = Opening("RTU-1", "curb", (40 * foot, 20 * foot), (8 * foot, 6 * foot))
    small = Opening("V-1", "curb", (70 * foot, 20 * foot), (foot, foot))
    turned = Opening(
        "RTU-2",
        "curb",
        (90 * foot, 20 * foot),
        (8 * foot, 8 * foot),
        ring=((4 * foot, 0), (8 * foot, 4 * foot), (4 * foot, 8 * foot), (0, 4 * foot)),
    )
    roof = replace(area(BOX, ALL_ROUND, drains=[drain(60, 1)]), openings=(wide, small, turned))
    (found,) = water_maps((roof,), rain_primary=None)[0].dammed
    assert (found.name, found.width) == ("RTU-1", pytest.approx(8 * FOOT))
    assert found.line[0][1] == pytest.approx(26 * FOOT)
