"""The readings of a day by the minute, from those of its hours (question 5).

A reading stands at the end of its hour; between two of them it is taken on a straight line.  What holds for a whole
hour (rain, snow, thunder, no reading) holds for each of its minutes; darkness ends where the sun's height crosses that
of sunrise between the begin, the middle and the end of an hour.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.hours.readings import Readings
from lapwright.hours.values import HourTable
from lapwright.weather.sun import SunHeights
from lapwright.weather.values import Array

MINUTES_AN_HOUR = 60
_ON_A_LINE = (
    "air_c", "surface_c", "surface_low_c", "surface_high_c", "wetting_c", "wind_m_s", "gust_m_s", "film_mm",
    "film_low_mm", "film_high_mm", "chill_c",
)  # fmt: skip
_OF_THE_HOUR = ("absent", "falling", "rain_unknown", "snow_lying", "snow_cleared", "thunder", "work_min")


@dataclass(frozen=True, slots=True)
class Minutes:
    """Readings at the begin of each minute of some hours; start: of each minute, local standard time, (minutes,)."""

    start: NDArray[np.datetime64]
    readings: Readings


def minutes_of(found: HourTable, hours: range, rules: Rules) -> Minutes:
    """Readings at the begin of each minute of the hours `hours` of a table.

    Raises: ValueError where the table was made without its readings (a bug).
    Source: straight lines between readings
    Checked: tests/hours/test_hour_minutes.py
    """
    if found.readings is None or found.sun_heights is None:
        raise ValueError("the hour table holds no readings")
    hourly = found.readings
    minute = np.arange(len(hours) * MINUTES_AN_HOUR)
    hour = hours.start + minute // MINUTES_AN_HOUR
    into_h = minute % MINUTES_AN_HOUR / MINUTES_AN_HOUR
    on_line: dict[str, Any] = {name: _between(getattr(hourly, name), hour, into_h) for name in _ON_A_LINE}
    roll_h = rules.roll_within_s / 3600
    then: dict[str, Any] = {
        f"{name}_then_c": _between(getattr(hourly, f"{name}_c"), hour, into_h + roll_h) for name in ("air", "surface")
    }
    readings = Readings(
        **on_line,
        **then,
        **{name: getattr(hourly, name)[hour] for name in _OF_THE_HOUR},
        daylight=_height_deg(found.sun_heights, hour, into_h) > table("heat")["sunrise_height"].number(),
        since_wet_h=hourly.since_wet_h[hour] + into_h,
        since_unknown_h=hourly.since_unknown_h[hour] + into_h,
        since_thunder_h=hourly.since_thunder_h[hour] + into_h,
        until_falling_h=hourly.until_falling_h[hour] + 1 - into_h,
    )
    start = found.weather.start[hours.start] + minute * np.timedelta64(1, "m")
    return Minutes(start, readings)


def _between(readings: Array, hour: NDArray[np.int64], into_h: Array) -> Array:
    """A reading so far into hours, between the end of the hour before (or its own) and the ends that follow."""
    place = hour + into_h - 1  # the reading of hour 5 stands at 6 on this line of hour ends
    before = np.floor(place).astype(np.intp)
    share = place - before
    last = len(readings) - 1
    early, late = readings[np.clip(before, 0, last)], readings[np.clip(before + 1, 0, last)]
    between: Array = early + np.where(share > 0, share * (late - early), 0.0)
    # an hour after a gap, and the first of a record, know nothing of their begin
    return np.where(np.isnan(between) & (into_h < 1), readings[hour], between)


def _height_deg(heights: SunHeights, hour: NDArray[np.int64], into_h: Array) -> Array:
    """Height of the sun within hours, on lines from begin to middle to end [°]."""
    begin, middle, end = heights.begin_deg[hour], heights.middle_deg[hour], heights.end_deg[hour]
    early = begin + 2 * into_h * (middle - begin)
    late = middle + (2 * into_h - 1) * (end - middle)
    height: Array = np.where(into_h < 1 / 2, early, late)
    return height
