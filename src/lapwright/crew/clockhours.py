"""The clock hours of a date in weather that has its own dates: a forecast, or a past year taken as it was (question 5).

A year is laid on the job's calendar by month and day (`calendar.py`); a forecast by the instants themselves, so that
29 February is 29 February.  Where clocks go forward one hour is missing, where they go back one comes twice.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

from lapwright.crew.calendar import NO_HOUR, Day
from lapwright.weather.values import WeatherYear

HOUR = dt.timedelta(hours=1)


def clock_hours(weather: WeatherYear, zone: ZoneInfo, date: dt.date) -> Day:
    """Index of the clock hours 0..23 of a date; -1 where the clock or the weather has no such hour.

    An hour that comes twice is its first, as on the crew's calendar.
    Source: the time zone's rules, tzdata
    Checked: tests/crew/test_crew_clockhours.py
    """
    return tuple(_place(weather, zone, date, hour) for hour in range(24))


def minutes_at(weather: WeatherYear, zone: ZoneInfo, date: dt.date, hour: int) -> float:
    """Minutes after the date's midnight on the crew's clock at which an hour of the weather begins.

    Of the day before or after they are below 0 or over 1440; of a day with 23 or 25 hours, those of the clock.
    Source: the time zone's rules, tzdata
    """
    instant = _utc(weather, hour).astimezone(zone).replace(tzinfo=None)
    return (instant - dt.datetime.combine(date, dt.time())) / dt.timedelta(minutes=1)


def _place(weather: WeatherYear, zone: ZoneInfo, date: dt.date, hour: int) -> int:
    clock = dt.datetime.combine(date, dt.time(hour), zone)
    instant = clock.astimezone(dt.UTC)
    back = instant.astimezone(zone)
    if (back.date(), back.hour) != (date, hour):
        return NO_HOUR
    first = _utc(weather, 0)
    at = (instant - first) // HOUR
    return at if 0 <= at < len(weather.start) else NO_HOUR


def _utc(weather: WeatherYear, hour: int) -> dt.datetime:
    """The begin of an hour of the weather, UTC."""
    local: dt.datetime = weather.start[hour].astype("datetime64[s]").astype(dt.datetime)
    return local.replace(tzinfo=dt.UTC) - dt.timedelta(hours=weather.offset_h)
