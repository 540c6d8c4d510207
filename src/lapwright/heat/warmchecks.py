"""Checks of warm rolls for a job: the trip, the store's heater and its floor (question 6)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.heat.storeplan import HELD
from lapwright.heat.values import StoreSetting, Warmth
from lapwright.verdict import Check, Reading, Step, judged

CARRIED, HEATER, FLOOR = "heat.rolls-carried", "heat.store-heater", "heat.store-floor"
TITLES: Mapping[str, str] = {
    CARRIED: "A warm roll is laid before its outermost wrap is lost",
    HEATER: "The store's heater, on the day that asks most of it",
    FLOOR: "The store's floor, on the day that asks most of it",
}
CONFIRM: Mapping[str, str] = {
    CARRIED: "the superintendent, by a thermometer on the outer wrap at the work",
    HEATER: "whoever supplies the store and its heater",
    FLOOR: "whoever supplies the store and its heater",
}
SOURCE = "roll clock and heat balance, docs/method/warm-rolls.md; carrying and the store are common practice, no source"


def warm_checks(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> tuple[Check, ...]:
    """Trip, heater and floor; none where no day asks for warm rolls.

    needs: job-file keys that hours, crew days and rolls hang on, with their values; where one is None all is unknown.
    Source: docs/method/warm-rolls.md, on `roll_clock`, `plan_trip` and `store_plan`
    Checked: tests/heat/test_warm_checks.py
    """
    is_whole = all(value is not None for _, value in needs)
    if is_whole and warmth is not None and not warmth.days:
        return ()
    return (_carried(setting, warmth, needs), _heater(setting, warmth, needs), _floor(setting, warmth, needs))


def _reading(setting: StoreSetting, needs: Sequence[tuple[str, object]]) -> Reading:
    reading = Reading()
    reading.take("store.temperature", setting.store_c)
    for key, value in needs:
        reading.take(key, value)
    return reading


def _unknown(reading: Reading, id: str) -> Check:
    why = "" if reading.missing else _NOTHING
    return reading.unknown(id, TITLES[id], source=SOURCE, why=why, confirm=CONFIRM[id])


def _carried(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    reading.take("store.distance", setting.distance)
    trips = [] if warmth is None else [(one, one.trip) for one in warmth.sheets if one.trip is not None]
    if reading.missing or not trips:
        return _unknown(reading, CARRIED)
    sheet, trip = min(trips, key=lambda each: math.inf if each[0].short_s is None else each[0].short_s)
    lasts = Step(
        f"Outermost wrap of {sheet.sheet}: a tenth of the {sheet.hours} cold working hours is worse",
        "roll clock",
        {"until [°C]": sheet.until_c},
        "never lost" if sheet.short_s is None else sheet.short_s,
        "" if sheet.short_s is None else "s",
    )
    is_done = sheet.short_s is None or trip.trip_s <= sheet.short_s
    return Check(
        CARRIED,
        TITLES[CARRIED],
        "pass" if is_done else "fail",
        demand=trip.trip_s,
        capacity=sheet.short_s,
        unit="s",
        steps=(lasts, *trip.steps),
        source=SOURCE,
        confirm=CONFIRM[CARRIED],
        uses=tuple(reading.uses),
    )


def _heater(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    heater = reading.take("store.heater", setting.heater_w)
    most = None if warmth is None else warmth.most
    if reading.missing or most is None:
        return _unknown(reading, HEATER)
    return Check(
        HEATER,
        TITLES[HEATER],
        "fail" if most.plan.warm_s is None else judged(most.plan.heater_w, heater),
        demand=most.plan.heater_w,
        capacity=heater,
        unit="W",
        steps=(Step(f"Day {most.number}", "", {"coldest air [°C]": most.air_c}), *most.plan.steps),
        source=SOURCE,
        confirm=CONFIRM[HEATER],
        uses=tuple(reading.uses),
    )


def _floor(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    floor = reading.take("store.floor", setting.floor)
    days = () if warmth is None else warmth.days
    if reading.missing or not days:
        return _unknown(reading, FLOOR)
    most = max(days, key=lambda day: day.plan.floor)
    held = sum(step.formula == HELD for step in most.plan.steps)
    return Check(
        FLOOR,
        TITLES[FLOOR],
        judged(most.plan.floor, floor),
        demand=most.plan.floor,
        capacity=floor,
        unit="m2",
        steps=(Step(f"Day {most.number}"), *most.plan.steps[: held + 1]),
        source=SOURCE,
        confirm=CONFIRM[FLOOR],
        uses=tuple(reading.uses),
    )


_NOTHING = "The job has no sheet that is laid with warm rolls, or no hour that needs them."
