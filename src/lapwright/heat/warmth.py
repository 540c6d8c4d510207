"""Warm rolls for a job: the clock over its winter, the trips, the store day by day, and their checks (question 6)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.heat.storeplan import StorePlan
from lapwright.heat.trip import Trip
from lapwright.heat.winter import LeftOut, MonthClock
from lapwright.verdict import Check, Reading, Step, judged

CARRIED, HEATER, FLOOR = "heat.rolls-carried", "heat.store-heater", "heat.store-floor"
TITLES: Mapping[str, str] = {
    CARRIED: "A warm roll is laid before its outermost wrap is lost",
    HEATER: "The store's heater, on the day that asks most of it",
    FLOOR: "The store's floor, on the day that asks most of it",
}
SOURCE = (
    "roll clock and heat balance of the store, docs/method/heat.md; carrying and store are common practice, no source"
)


@dataclass(frozen=True, slots=True)
class SheetWarmth:
    """One sheet's rolls in the cold.

    until_c: below it a warm roll is lost [°C]; pace_s: the crew needs a roll so often.  months: over the cold working
    hours; short_s: a tenth of all those hours is worse.  winds_m_s, airs_c: of the columns and rows of lasts_s [s].
    trip: with what it lasts in the tenth.
    """

    sheet: str
    until_c: float
    radius: float
    pace_s: float
    hours: int
    months: tuple[MonthClock, ...]
    short_s: float | None
    winds_m_s: tuple[float, ...]
    airs_c: tuple[float, ...]
    lasts_s: tuple[tuple[float | None, ...], ...]
    trip: Trip | None


@dataclass(frozen=True, slots=True)
class StoreDay:
    """A day that needs warm rolls: its number, rolls laid by sheet, how cold they come [°C], the coldest air [°C]."""

    number: int
    rolls: Mapping[str, int]
    cold_c: float
    air_c: float
    plan: StorePlan


@dataclass(frozen=True, slots=True)
class DayLeftOut:
    """A roll of a sheet set out when a day's work begins (minutes after midnight) and left."""

    number: int
    sheet: str
    begin_min: int
    found: LeftOut


@dataclass(frozen=True, slots=True)
class StoreSetting:
    """The store as typed, defaults in place: temperature [°C], distance [m], heater [W], floor [m²]; None not given."""

    store_c: float | None
    distance: float | None
    heater_w: float | None
    floor: float | None
    fuel: str | None = None
    walls_w_m2k: float | None = None
    cover_w_m2k: float | None = None
    carry: int | None = None
    speed_m_s: float | None = None
    stack: str = "single"
    rows: int = 5
    columns: int = 5
    wrapping: str = "wrapped"
    fans: bool = False


@dataclass(frozen=True, slots=True)
class Warmth:
    """What the packet tells of warm rolls.

    store_c [°C]; stand: how they stand in the store, in words; cover_w_m2k: over rolls outside, None bare; fuel of the
    heater, None not given; distance from the store's door to the work [m], None not given.
    """

    store_c: float
    stand: str
    sheets: tuple[SheetWarmth, ...]
    days: tuple[StoreDay, ...]
    left_out: DayLeftOut | None
    distance: float | None
    cover_w_m2k: float | None = None
    fuel: str | None = None

    @property
    def most(self) -> StoreDay | None:
        """The day that needs the greatest heater, the first of equals."""
        return max(self.days, key=lambda day: day.plan.heater_w, default=None)


def warm_checks(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> tuple[Check, ...]:
    """Trip, heater and floor; none where no day asks for warm rolls.

    needs: job-file keys that hours, crew days and rolls hang on, with their values; where one is None all is unknown.
    Source: docs/method/heat.md, on `roll_clock`, `plan_trip` and `store_plan`
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


def _carried(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    reading.take("store.distance", setting.distance)
    trips = [] if warmth is None else [(one, one.trip) for one in warmth.sheets if one.trip is not None]
    if reading.missing or not trips:
        return reading.unknown(CARRIED, TITLES[CARRIED], source=SOURCE, why="" if reading.missing else _NOTHING)
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
        uses=tuple(reading.uses),
    )


def _heater(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    heater = reading.take("store.heater", setting.heater_w)
    most = None if warmth is None else warmth.most
    if reading.missing or most is None:
        return reading.unknown(HEATER, TITLES[HEATER], source=SOURCE, why="" if reading.missing else _NOTHING)
    return Check(
        HEATER,
        TITLES[HEATER],
        "fail" if most.plan.warm_s is None else judged(most.plan.heater_w, heater),
        demand=most.plan.heater_w,
        capacity=heater,
        unit="W",
        steps=(Step(f"Day {most.number}", "", {"coldest air [°C]": most.air_c}), *most.plan.steps),
        source=SOURCE,
        uses=tuple(reading.uses),
    )


def _floor(setting: StoreSetting, warmth: Warmth | None, needs: Sequence[tuple[str, object]]) -> Check:
    reading = _reading(setting, needs)
    floor = reading.take("store.floor", setting.floor)
    days = () if warmth is None else warmth.days
    if reading.missing or not days:
        return reading.unknown(FLOOR, TITLES[FLOOR], source=SOURCE, why="" if reading.missing else _NOTHING)
    most = max(days, key=lambda day: day.plan.floor)
    held = sum(load.startswith("Rolls held") for load in (step.text for step in most.plan.steps))
    return Check(
        FLOOR,
        TITLES[FLOOR],
        judged(most.plan.floor, floor),
        demand=most.plan.floor,
        capacity=floor,
        unit="m2",
        steps=(Step(f"Day {most.number}"), *most.plan.steps[: held + 1]),
        source=SOURCE,
        uses=tuple(reading.uses),
    )


_NOTHING = "The job has no sheet that is laid with warm rolls, or no hour that needs them."
