"""The weather year laid on the job's calendar.

By month, day and hour of standard time, repeated as needed; 29 February takes the 28th.  The crew's clock follows the
site's zone, so that in summer its hours lie one hour earlier on the weather's own clock.
"""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass
from zoneinfo import ZoneInfo

import numpy as np
from numpy.typing import NDArray

from lapwright.weather.values import WeatherYear

NO_HOUR = -1
Day = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class JobCalendar:
    """Where each hour of the job's clock lies in the weather year.

    place: (13, 32, 24) index by month, day and hour of standard time; -1 where the year has no such hour.
    """

    place: NDArray[np.int32]
    zone: ZoneInfo
    first_date: dt.date

    def hours(self, date: dt.date) -> Day:
        """Index into the weather year of the clock hours 0..23 of a date; -1: no such hour.

        Where clocks go forward the hour that is skipped is -1; where they go back the hour that comes twice is its
        first.
        Source: the time zone's rules, tzdata
        Checked: tests/crew/test_crew_calendar.py
        """
        standard = self.standard_s(date.year)
        early, late = self.offset_s(date, 0), self.offset_s(date, 23)
        if early == late == standard:
            return self.row(date)
        if early == late and (early - standard) == 3600:
            return (self.row(date - dt.timedelta(days=1))[23], *self.row(date)[:23])
        return tuple(self.hour(date, hour, standard) for hour in range(24))

    def row(self, date: dt.date) -> Day:
        """Index of the hours 0..23 of standard time of a date."""
        day = 28 if (date.month, date.day) == (2, 29) else date.day
        return tuple(self.place[date.month, day].tolist())

    def hour(self, date: dt.date, hour: int, standard_s: int) -> int:
        """Index of one clock hour, by its own offset."""
        clock = dt.datetime.combine(date, dt.time(hour), self.zone)
        back = clock.astimezone(dt.UTC).astimezone(self.zone)
        if (back.date(), back.hour) != (date, hour):
            return NO_HOUR
        instant = clock.replace(tzinfo=None) - dt.timedelta(seconds=self.offset_s(date, hour) - standard_s)
        return self.row(instant.date())[instant.hour]

    def offset_s(self, date: dt.date, hour: int) -> int:
        """Offset of the clock from UTC [s]."""
        offset = dt.datetime.combine(date, dt.time(hour), self.zone).utcoffset()
        return 0 if offset is None else round(offset.total_seconds())

    def standard_s(self, year: int) -> int:
        """Offset of standard time [s]: the smaller of January's and July's, on either half of the earth."""
        return min(self.offset_s(dt.date(year, 1, 1), 12), self.offset_s(dt.date(year, 7, 1), 12))


def make_calendar(weather: WeatherYear, time_zone: str) -> JobCalendar:
    """The calendar of a job under a weather year.

    Raises: zoneinfo.ZoneInfoNotFoundError for a zone that the tables lack (the job file's reader has refused it).
    Source: arithmetic
    """
    start = weather.start.astype("datetime64[h]")
    months = start.astype("datetime64[M]")
    days = start.astype("datetime64[D]")
    place = np.full((13, 32, 24), NO_HOUR, dtype=np.int32)
    month = months.astype(np.int64) % 12 + 1
    day = (days - months).astype(np.int64) + 1
    hour = (start - days).astype(np.int64)
    order = np.arange(len(start), dtype=np.int32)[::-1]  # written backwards, the first of equal places stays
    place[month[::-1], day[::-1], hour[::-1]] = order
    first: dt.date = days[0].astype(dt.date)
    return JobCalendar(place, ZoneInfo(time_zone), first)


def weather_date(weather: WeatherYear, hours: Day, date: dt.date) -> dt.date:
    """The date that a day's weather was taken from: that of its noon, else of its first hour, else the date itself.

    Source: arithmetic
    """
    for index in (hours[12], *hours):
        if index >= 0:
            found: dt.date = weather.start[index].astype("datetime64[D]").astype(dt.date)
            return found
    return date
