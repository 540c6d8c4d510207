"""The checks of warm rolls, on hand-made days."""

from dataclasses import replace

from lapwright.heat.store import StoreAsk
from lapwright.heat.storeplan import StoreLoad, StorePlanAsk, store_plan
from lapwright.heat.trip import TripAsk, plan_trip
from lapwright.heat.values import SheetWarmth, StoreDay, StoreSetting, Warmth
from lapwright.heat.warmchecks import CARRIED, FLOOR, HEATER, warm_checks

SETTING = StoreSetting(21.0, 50.0, 20_000.0, 40.0)
NEEDS = (("crew.people", 6), ("sheets.cap-sa.thickness", 0.004))
LOAD = StoreLoad(StoreAsk(-5.0, 21.0, 10.0, 0.004, 10.0, "single"), 6, 5, 1.0)
PLAN = store_plan(StorePlanAsk((LOAD,), -10.0, 25200.0, 59400.0))


def warmth(short_s: float | None, trip_lasts_s: float | None) -> Warmth:
    """One sheet and one day."""
    trip = plan_trip(TripAsk(trip_lasts_s, 1500.0, 50.0, 1.0, 60.0, 4))
    sheet = SheetWarmth("cap-sa", 10.0, 0.113, 1500.0, 100, (), short_s, (), (), (), trip)
    return Warmth(21.0, "each roll by itself", (sheet,), (StoreDay(3, {"cap-sa": 6}, -5.0, -10.0, PLAN),), None, 50.0)


def statuses(setting: StoreSetting, found: Warmth | None, needs: tuple = NEEDS) -> dict[str, str]:
    """Status of each check by its id."""
    return {check.id: check.status for check in warm_checks(setting, found, needs)}


def test_a_trip_shorter_than_the_clock_passes_a_longer_one_fails() -> None:
    """The trip takes 110 s: the wrap lasts 300 s, or 100 s, or for ever."""
    assert statuses(SETTING, warmth(300.0, 300.0))[CARRIED] == "pass"
    assert statuses(SETTING, warmth(100.0, 100.0))[CARRIED] == "fail"
    assert statuses(SETTING, warmth(None, None))[CARRIED] == "pass"


def test_heater_and_floor_are_judged_on_the_day_that_asks_most() -> None:
    """Too small by a watt, too small by a square metre."""
    found = warmth(300.0, 300.0)
    small = replace(SETTING, heater_w=PLAN.heater_w - 1, floor=PLAN.floor - 1)
    enough = replace(SETTING, heater_w=PLAN.heater_w, floor=PLAN.floor)
    assert statuses(small, found) == {CARRIED: "pass", HEATER: "fail", FLOOR: "fail"}
    assert statuses(enough, found) == {CARRIED: "pass", HEATER: "pass", FLOOR: "pass"}


def test_a_store_that_never_warms_them_fails_however_large_its_heater() -> None:
    """A store colder than the limit."""
    cold = store_plan(StorePlanAsk((replace(LOAD, stand=replace(LOAD.stand, store_c=9.0)),), -10.0, 25200.0, 59400.0))
    found = replace(warmth(300.0, 300.0), days=(StoreDay(3, {"cap-sa": 6}, -5.0, -10.0, cold),))
    assert statuses(SETTING, found)[HEATER] == "fail"


def test_what_is_not_given_is_unknown_and_named() -> None:
    """Distance, heater, floor each by its check; the temperature and the crew by all."""
    found = warmth(300.0, 300.0)
    bare = warm_checks(StoreSetting(None, None, None, None), None, (("crew.people", None),))
    assert [check.status for check in bare] == ["unknown"] * 3
    assert [check.supply for check in bare] == [
        ("store.temperature", "crew.people", "store.distance"),
        ("store.temperature", "crew.people", "store.heater"),
        ("store.temperature", "crew.people", "store.floor"),
    ]
    assert statuses(replace(SETTING, heater_w=None), found) == {CARRIED: "pass", HEATER: "unknown", FLOOR: "pass"}


def test_a_job_without_a_sheet_for_warm_rolls_is_told_so() -> None:
    """Everything is given and yet there is nothing to judge: unknown, with the reason."""
    (check, *_) = warm_checks(SETTING, None, NEEDS)
    assert check.status == "unknown"
    assert check.steps[0].text == "The job has no sheet that is laid with warm rolls, or no hour that needs them."


def test_without_cold_days_there_is_nothing_to_check() -> None:
    """A summer's job with a store has no checks of it."""
    assert warm_checks(SETTING, replace(warmth(300.0, 300.0), days=()), NEEDS) == ()


def test_rolls_held_are_told_sheet_by_sheet() -> None:
    """The floor's sheet names the sheet of each load, and stops before the heat; every check names who confirms it."""
    loads = (replace(LOAD, sheet="base-sa"), replace(LOAD, sheet="cap-sa"))
    both = store_plan(StorePlanAsk(loads, -10.0, 25200.0, 59400.0))
    found = replace(warmth(300.0, 300.0), days=(StoreDay(3, {"cap-sa": 6}, -5.0, -10.0, both),))
    made = {check.id: check for check in warm_checks(SETTING, found, NEEDS)}
    assert [step.text.partition(":")[0] for step in made[FLOOR].steps] == [
        "Day 3",
        "Rolls of base-sa held",
        "Rolls of cap-sa held",
        "Floor, the way between them in it",
    ]
    assert all(check.confirm for check in made.values())
    assert all(check.confirm for check in warm_checks(StoreSetting(None, None, None, None), None, NEEDS))
