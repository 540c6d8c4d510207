"""The store for tomorrow's work."""

from dataclasses import replace

import pytest

from lapwright.heat.store import StoreAsk
from lapwright.heat.storeplan import FUELS, StoreLoad, StorePlanAsk, store_plan

STAND = StoreAsk(-7.0, 21.0, 10.0, 0.004, 10.0, "single")
ASK = StorePlanAsk((StoreLoad(STAND, 10, 8, 1.0),), -10.0, 25200.0, 59400.0)


def test_two_sheets_stand_beside_one_another() -> None:
    """Rolls add up; the store is on for the one that takes longest."""
    thin = StoreLoad(replace(STAND, thickness=0.002), 4, 0, 1.0)
    both, one = store_plan(replace(ASK, loads=(*ASK.loads, thin))), store_plan(ASK)
    assert (both.rolls, one.rolls) == (29, 23)
    assert both.warm_s == one.warm_s
    assert both.floor > one.floor
    assert both.heater_w > one.heater_w


def test_pallets_take_days_of_fuel() -> None:
    """A wrapped pallet is switched on days before, rolls apart on the evening before."""
    pallet = replace(STAND, stack="pallet")
    slow = store_plan(replace(ASK, loads=(StoreLoad(pallet, 10, 8, 1.0),), fuel="kerosene"))
    quick = store_plan(replace(ASK, fuel="kerosene"))
    assert (slow.pallets, quick.pallets) == (1, 0)
    assert slow.switch_on_s is not None
    assert quick.switch_on_s is not None
    assert slow.switch_on_s < -4 * 86400
    assert -12 * 3600 < quick.switch_on_s < 0
    assert slow.fuel_amount is not None
    assert quick.fuel_amount is not None
    assert slow.fuel_amount > 4 * quick.fuel_amount


@pytest.mark.parametrize("fuel", FUELS)
def test_every_fuel_gives_the_same_heat(fuel: str) -> None:
    """Amount in its own unit; the watts do not hang on it."""
    plan = store_plan(replace(ASK, fuel=fuel))
    assert plan.fuel_amount is not None
    assert plan.fuel_unit in ("kg", "L", "kWh")
    assert plan.heater_w == store_plan(ASK).heater_w


def test_a_store_that_is_too_cold_is_never_ready() -> None:
    """No time, no fuel; the steps say never."""
    plan = store_plan(replace(ASK, loads=(StoreLoad(replace(STAND, store_c=8.0), 10, 8, 1.0),), fuel="propane"))
    assert (plan.warm_s, plan.switch_on_s, plan.energy_j, plan.fuel_amount) == (None, None, None, None)
    assert "never" in [step.result for step in plan.steps]


def test_better_walls_need_a_smaller_heater() -> None:
    """U of 1 against the default of 6."""
    assert store_plan(replace(ASK, walls_w_m2k=1.0)).heater_w < store_plan(ASK).heater_w / 1.5
