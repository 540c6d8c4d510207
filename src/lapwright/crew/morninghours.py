"""The crew's full hours of a day: weather, surface, how long a roll lasts, how fast a lap is welded (questions 5-7).

A reading of the table stands at the end of its hour, so what holds at a full hour of the clock is that of the hour
before it; the chance of rain is that of the hour that begins.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from lapwright.crew.calendar import NO_HOUR
from lapwright.crew.morning import DayAsked, crew_hours
from lapwright.crew.values import MorningHour
from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.hours.values import HourTable
from lapwright.weather.chill import frostbite_min, warm_up_work_min, wind_chill_c
from lapwright.weather.values import Array

NAN = math.nan


@dataclass(frozen=True, slots=True)
class HourAsked:
    """What is asked of each hour besides the weather.

    rain_chance: (hours,) of the table, None: the weather has none.  roll: a warm roll of the sheet most at risk, its
    air and wind to be filled in; None: not known.  weld: speed [m/s] for a sheet and an air [°C], None where there is
    none; None: no test weld is given.
    """

    rain_chance: Array | None
    roll: RollAsk | None
    weld: Callable[[float, float], float | None] | None = None


def hours_today(table: HourTable, day: DayAsked, asked: HourAsked) -> tuple[MorningHour, ...]:
    """Each full hour of the crew's day, its end included.

    Source: method of our own, docs/method/morning.md
    Checked: tests/doors/test_morning_by_hand.py
    """
    whole = crew_hours(day)
    return tuple(_at(table, day, hour, asked) for hour in range(whole.start, whole.stop + 1) if hour < 24)


def coldest(hours: Sequence[MorningHour], first_min: int, last_min: int) -> tuple[float, float] | None:
    """Lowest air [°C] and highest wind [m/s] of the full hours about a window; None where none has both readings.

    Source: arithmetic
    """
    about = [
        one
        for one in hours
        if 60 * one.hour > first_min - 60 and 60 * one.hour < last_min + 60 and math.isfinite(one.air_c + one.wind_m_s)
    ]
    if not about:
        return None
    return min(one.air_c for one in about), max(one.wind_m_s for one in about)


def roll_lasts_s(roll: RollAsk, *, air_c: float, wind_m_s: float) -> float | None:
    """How long the outer wrap of a roll lasts [s]; None for ever, NaN where a reading is missing.

    Source: as `roll_clock`
    """
    if not math.isfinite(air_c + wind_m_s):
        return NAN
    return roll_clock(replace(roll, air_c=air_c, wind_m_s=wind_m_s)).outer_wrap_s


def _at(table: HourTable, day: DayAsked, hour: int, asked: HourAsked) -> MorningHour:
    """One full hour."""
    begins = day.hours[hour]
    at = day.hours[hour - 1] if hour else NO_HOUR
    if at == NO_HOUR and begins > 0:
        at = begins - 1
    reading = _reading(at)
    air_c, wind_m_s = reading(table.weather.air_c), reading(table.weather.wind_m_s)
    roof_m_s = wind_m_s if table.roof_wind_m_s is None else max(wind_m_s, reading(table.roof_wind_m_s))
    surface_c = reading(table.surface_c)
    chance = NAN if asked.rain_chance is None else _reading(begins)(asked.rain_chance)
    roll = asked.roll
    return MorningHour(
        hour=hour,
        air_c=air_c,
        surface_c=surface_c,
        surface_low_c=reading(table.surface_low_c),
        surface_high_c=reading(table.surface_high_c),
        over_wetting_k=surface_c - reading(table.frost_point_c),
        wind_m_s=roof_m_s,
        gust_m_s=reading(table.weather.gust_m_s),
        rain_chance=chance,
        chill_c=float(wind_chill_c(air_c, wind_m_s)),
        frostbite_min=frostbite_min(air_c, wind_m_s),
        work_min=float(warm_up_work_min(air_c, wind_m_s)),
        roll_s=NAN if roll is None else roll_lasts_s(roll, air_c=air_c, wind_m_s=roof_m_s),
        weld_m_s=_weld_m_s(asked, surface_c, air_c),
        measure=at != NO_HOUR and bool(table.measure[at]),
    )


def _reading(index: int) -> Callable[[Array], float]:
    """The reading of an hour; NaN where there is no such hour."""
    return lambda array: NAN if index == NO_HOUR or index >= len(array) else float(np.asarray(array)[index])


def _weld_m_s(asked: HourAsked, sheet_c: float, air_c: float) -> float | None:
    """The speed on a sheet as warm as the surface; None without readings, a test weld, or a speed that welds."""
    return asked.weld(sheet_c, air_c) if asked.weld is not None and math.isfinite(sheet_c + air_c) else None
