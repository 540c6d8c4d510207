"""Rows of a weather file laid on the hours of one calendar year, in local standard time."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.faults import Fault
from lapwright.intake.weather_text import Lines
from lapwright.weather.values import Array, Flags

Whole = NDArray[np.int64]
COMMON_YEAR, LEAP_YEAR = 8760, 8784
_ROWS = f"{COMMON_YEAR} hourly rows of one year ({LEAP_YEAR} with 29 February)"


@dataclass(frozen=True, slots=True)
class Stamps:
    """Begin of each row's hour: year, month, day, hour 0..23, (rows,); row 0 stands on line `first`."""

    year: Whole
    month: Whole
    day: Whole
    hour: Whole
    first: int


@dataclass(frozen=True, slots=True)
class Calendar:
    """The hours of a year and where each row of the file goes.

    start: begin of each hour, datetime64[m], (hours,); place: index of the hour of each row, (rows,).
    """

    start: NDArray[np.datetime64]
    place: Whole

    @property
    def absent(self) -> Flags:
        """Hours that no row of the file fills, (hours,)."""
        absent = np.ones(len(self.start), dtype=bool)
        absent[self.place] = False
        return absent

    def laid(self, rows: Array) -> Array:
        """Readings of the rows on the hours, (hours,); NaN where absent."""
        hours = np.full(len(self.start), np.nan)
        hours[self.place] = rows
        return hours


def hours_of_year(year: int) -> NDArray[np.datetime64]:
    """Begin of every hour of a calendar year, datetime64[m]."""
    begin, end = (np.datetime64(f"{which:04d}-01-01T00:00", "m") for which in (year, year + 1))
    return np.arange(begin, end, np.timedelta64(60, "m"))


def typical_year_of(stamps: Stamps) -> int:
    """The year on whose calendar the rows are laid: their own where they share one, else a fixed one."""
    years = np.unique(stamps.year)
    if len(years) == 1:
        return int(years[0])
    has_leap_day = bool(np.any((stamps.month == 2) & (stamps.day == 29)))
    return int(table("hours")["typical_leap_year" if has_leap_day else "typical_year"].number())


def count_faults(lines: Lines, rows: int) -> list[Fault]:
    """A file of whole years has neither an hour too few nor one too many."""
    if rows in (COMMON_YEAR, LEAP_YEAR):
        return []
    return [lines.fault(0, "rows", _ROWS, read=f"{rows} hourly rows")]


def date_faults(lines: Lines, stamps: Stamps) -> list[Fault]:
    """Rows whose date or hour does not exist."""
    in_range = (
        (stamps.year >= 1800) & (stamps.year <= 2200)
        & (stamps.month >= 1) & (stamps.month <= 12)
        & (stamps.day >= 1) & (stamps.day <= 31)
        & (stamps.hour >= 0) & (stamps.hour <= 23)
    )  # fmt: skip
    months = (stamps.year - 1970) * 12 + np.clip(stamps.month, 1, 12) - 1
    days = months.astype("datetime64[M]").astype("datetime64[D]") + (np.clip(stamps.day, 1, 31) - 1)
    exists = in_range & (days.astype("datetime64[M]").astype(np.int64) == months)
    return [
        lines.fault(stamps.first + int(row), "date", "a date and hour of the calendar")
        for row in np.flatnonzero(~exists)
    ]


def order_faults(lines: Lines, stamps: Stamps) -> list[Fault]:
    """Rows that do not follow the row before them in the year (years of a typical year are mixed)."""
    minutes = (stamps.month * 31 + stamps.day) * 24 + stamps.hour
    late = np.flatnonzero(np.diff(minutes) <= 0) + 1
    return [
        lines.fault(stamps.first + int(row), "date", "the hour after the line before it, each hour once")
        for row in late
    ]


def calendar_of(stamps: Stamps, year: int) -> Calendar:
    """The rows laid on a year; rows of 29 February need a leap year."""
    start = hours_of_year(year)
    months = np.full(len(stamps.month), (year - 1970) * 12) + stamps.month - 1
    hours = months.astype("datetime64[M]").astype("datetime64[h]") + (stamps.day - 1) * 24 + stamps.hour
    place = (hours - start[0].astype("datetime64[h]")).astype(np.int64)
    return Calendar(start, place)
