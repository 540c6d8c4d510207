"""Run-length times of a forecast's layers, laid on whole hours: `2027-01-11T06:00:00+00:00/PT3H`."""

from __future__ import annotations

import datetime as dt
import re
from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np

from lapwright.intake.forecast_reply import time_of
from lapwright.weather.values import Array

HOUR = dt.timedelta(hours=1)
LONGEST = dt.timedelta(days=16)
_DURATION = re.compile(
    r"P(?:(?P<weeks>\d{1,2})W)?(?:(?P<days>\d{1,3})D)?(?:T(?:(?P<hours>\d{1,4})H)?(?:(?P<minutes>\d{1,5})M)?(?:(?P<seconds>\d{1,6})S)?)?",
    re.ASCII,
)


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of time, UTC."""

    begin: dt.datetime
    end: dt.datetime

    @property
    def hours(self) -> float:
        """How long it is [h]."""
        return (self.end - self.begin) / HOUR

    def part(self, other: Span) -> Span | None:
        """The part of another stretch that lies in this one; None where there is none."""
        begin, end = max(self.begin, other.begin), min(self.end, other.end)
        return Span(begin, end) if begin < end else None


@dataclass(frozen=True, slots=True)
class HourGrid:
    """Whole hours from `begin` on, UTC."""

    begin: dt.datetime
    hours: int


def duration(text: str) -> dt.timedelta | None:
    """A length of time in the ISO form: `PT1H`, `P1DT6H`; None for none, for nothing, and over 16 days."""
    found = _DURATION.fullmatch(text)
    if found is None or text.endswith("T"):
        return None
    parts = {name: int(count) for name, count in found.groupdict().items() if count}
    length = dt.timedelta(**parts)
    return length if dt.timedelta(0) < length <= LONGEST else None


def span_of(text: object) -> Span | None:
    """A begin and how long; None where the text is not of that form."""
    if not isinstance(text, str):
        return None
    first, slash, rest = text.partition("/")
    begin, length = time_of(first), duration(rest) if slash else None
    if begin is None or length is None or not 1900 < begin.year < 2200:
        return None
    return Span(begin, begin + length)


def hour_grid(spans: Iterable[Span]) -> HourGrid | None:
    """The hours that spans lie in and the one before, at most 16 days of them; None where there are none.

    A reading stands at the end of its hour, so that the first value of a layer is the reading of the hour before it.
    """
    found = list(spans)
    if not found:
        return None
    begin = min(span.begin for span in found).replace(minute=0, second=0, microsecond=0) - HOUR
    end = min(max(span.end for span in found), begin + LONGEST)
    return HourGrid(begin, -(-(end - begin) // HOUR))


def at_ends(values: Iterable[tuple[Span, float]], grid: HourGrid) -> Array:
    """Values of spans at the end of each hour of a grid, NaN where none lies or the value is unknown, (hours,).

    At an instant at which one span ends and no other begins the ending one still holds.
    """
    found = np.full(grid.hours, np.nan)
    begun = np.zeros(grid.hours, dtype=bool)
    for span, value in values:
        first = (span.begin - grid.begin) / HOUR - 1.0
        last = (span.end - grid.begin) / HOUR - 1.0
        low, high = max(0, int(np.ceil(first))), min(grid.hours, int(np.ceil(last)))
        if low < high:
            found[low:high] = value
            begun[low:high] = True
        if last == high and 0 <= high < grid.hours and not begun[high]:
            found[high] = value
    return found


def on_hours(values: Iterable[tuple[Span, float]], grid: HourGrid, *, is_amount: bool = False) -> Array:
    """Values of spans on the hours of a grid, NaN where none lies or the value is unknown, (hours,).

    is_amount: each value is the total over its span, and each hour takes its share; else every hour takes the value.
    Where several spans touch an hour, each counts by the time that it has of it.
    """
    weighed, time_h, unknown = np.zeros(grid.hours), np.zeros(grid.hours), np.zeros(grid.hours, dtype=bool)
    for span, value in values:
        first = (span.begin - grid.begin) / HOUR
        last = (span.end - grid.begin) / HOUR
        low, high = max(0, int(np.floor(first))), min(grid.hours, int(np.ceil(last)))
        if low >= high:
            continue
        edges = np.arange(low, high)
        share = np.minimum(edges + 1.0, last) - np.maximum(edges, first)
        if np.isfinite(value):
            weighed[low:high] += share * (value / span.hours if is_amount else value)
            time_h[low:high] += share
        else:
            unknown[low:high] |= True
    has_any = (time_h > 0) & ~unknown
    return np.where(has_any, weighed / np.where(has_any, time_h, 1.0), np.nan)
