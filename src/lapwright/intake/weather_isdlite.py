"""ISD-Lite files: one station's year, an observation a line at fixed width, in UTC, hours left out where none was made.

An observation stamped HH was made in the ten minutes up to HH:00 and its rain fell in the hour before, so that its
hour *begins* at HH-1 (ISD-Lite technical document of NOAA, "observation selection").  The year is laid on the local
standard time of the station: the first hours in UTC belong to the local year before and are left out, the last local
hours are in the next year's file and are absent.
"""

from __future__ import annotations

import re
from typing import BinaryIO

import numpy as np

from lapwright.faults import Fault, Mended
from lapwright.intake.weather_calendar import Calendar, Whole, hours_of_year
from lapwright.intake.weather_clean import Station, clean_year
from lapwright.intake.weather_rain import is_never_wet, rain_by_hour
from lapwright.intake.weather_text import Lines, lines_of, must
from lapwright.weather.values import Array, WeatherYear

_LINE = re.compile(r"\d{4} \d\d \d\d \d\d(?: {1,5}-?\d{1,5}){8} *", re.ASCII)
_WIDTH = 61
_MISSING, _TRACE = -9999, -1
_AIR, _DEW, _WIND, _SKY, _RAIN_1H, _RAIN_6H = 4, 5, 8, 9, 10, 11
_OBSCURED, _OKTAS = 9, 8
_TENTHS = 10.0


def read(stream: BinaryIO, *, file: str, station: Station) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A year of weather from an ISD-Lite file, and what was found and mended in it.

    Args:
        file: its name for faults and notes.
        station: where it was taken, which the file does not say; `offset_h` in whole hours, see `standard_offset_h`.

    Raises: Refused where the file's form is broken.
    """
    lines = lines_of(stream, file=file)
    must(_form_faults(lines))
    cells = np.array([line.split() for line in lines.text], dtype=np.int64)
    utc = _utc(lines, cells)
    year = int(np.bincount(cells[:, 0]).argmax())
    must(_order_faults(lines, utc, year))
    start = hours_of_year(year)
    begin = utc + (round(station.offset_h) - 1) * np.timedelta64(1, "h")
    place = (begin - start[0].astype("datetime64[h]")).astype(np.int64)
    is_local = (place >= 0) & (place < len(start))
    calendar = Calendar(start, place[is_local])
    told = _edge_note(file, is_local, round(station.offset_h))
    readings, trace = _readings(cells[is_local], calendar, file=file, told=told)
    return clean_year(station, calendar, readings, file=file, trace=trace > 0, told=told)


def standard_offset_h(longitude: float) -> int:
    """Hours of local standard time east of UTC by the sun: a whole hour for each 15° of longitude."""
    return round(longitude / 15)


def looks_like(head: str) -> bool:
    """Whether the begin of a file is that of an ISD-Lite file."""
    return _LINE.fullmatch(head.split("\n", 1)[0].rstrip("\r")) is not None


def _form_faults(lines: Lines) -> list[Fault]:
    needs = f"year, month, day, hour and eight whole numbers at fixed width, {_WIDTH} characters"
    return [
        lines.fault(number, "line", needs)
        for number, line in enumerate(lines.text, start=1)
        if len(line.rstrip()) > _WIDTH or _LINE.fullmatch(line) is None
    ]


def _utc(lines: Lines, cells: Whole) -> np.ndarray[tuple[int], np.dtype[np.datetime64]]:
    """Time stamp of each line, datetime64[h]."""
    year, month, day, hour = cells[:, :4].T
    months = (year - 1970) * 12 + np.clip(month, 1, 12) - 1
    days = months.astype("datetime64[M]").astype("datetime64[D]") + (np.clip(day, 1, 31) - 1)
    exists = (month >= 1) & (month <= 12) & (day >= 1) & (day <= 31) & (hour <= 23) & (year >= 1800) & (year <= 2200)
    exists &= days.astype("datetime64[M]").astype(np.int64) == months
    must([lines.fault(int(row) + 1, "date", "a date and hour of the calendar") for row in np.flatnonzero(~exists)])
    stamps: np.ndarray[tuple[int], np.dtype[np.datetime64]] = days.astype("datetime64[h]") + hour
    return stamps


def _order_faults(lines: Lines, utc: np.ndarray[tuple[int], np.dtype[np.datetime64]], year: int) -> list[Fault]:
    """Lines of another year, and lines that do not follow the line before."""
    of_year = utc.astype("datetime64[Y]").astype(np.int64) + 1970
    other = np.flatnonzero(of_year != year)
    late = np.flatnonzero(np.diff(utc).astype(np.int64) <= 0) + 1
    faults = [lines.fault(int(row) + 1, "date", f"the year {year} alone, a file for each year") for row in other]
    return faults + [lines.fault(int(row) + 1, "date", "an hour after the line before it") for row in late]


def _readings(cells: Whole, calendar: Calendar, *, file: str, told: list[Mended]) -> tuple[dict[str, Array], Array]:
    """Readings on the hours of the year, and where rain or snow was seen without a depth."""
    reported = np.where(cells == _MISSING, np.nan, cells.astype(np.float64))
    air, dew, wind, sky, rain_1h, rain_6h = (
        calendar.laid(reported[:, column]) for column in (_AIR, _DEW, _WIND, _SKY, _RAIN_1H, _RAIN_6H)
    )
    trace = rain_1h == _TRACE
    rain_mm = _rain_mm(rain_1h, rain_6h, file=file, told=told)
    nothing = np.full(len(calendar.start), np.nan)
    readings = {
        "air_c": air / _TENTHS,
        "dew_point_c": dew / _TENTHS,
        "wind_m_s": wind / _TENTHS,
        "gust_m_s": nothing,
        "rain_mm": rain_mm,
        "cloud": _cloud(sky),
        "ghi_w_m2": nothing,
        "snow_depth_m": nothing,
    }
    return readings, trace.astype(np.float64)


def _rain_mm(rain_1h: Array, rain_6h: Array, *, file: str, told: list[Mended]) -> Array:
    """Rain of each hour [mm]: of the hour where reported (a trace is 0), else 0 in six hours known to be dry."""
    if is_never_wet(rain_1h):
        told.append(Mended(file, "rain", "not a drop in the whole year", "taken as not reported"))
        return np.full(rain_1h.shape, np.nan)
    of_hour = np.where(rain_1h == _TRACE, 0.0, rain_1h)
    dry_by_six = rain_by_hour(rain_6h, np.full(rain_6h.shape, 6.0))
    filled = np.isnan(of_hour) & (dry_by_six == 0)
    if filled.any():
        told.append(Mended(file, "rain", f"{filled.sum()} hours not reported in six dry hours", "taken as dry"))
    return np.where(filled, 0.0, of_hour) / _TENTHS


def _cloud(sky: Array) -> Array:
    """Cover 0..1 from the sky code: eighths, or 9 for a sky that can't be seen; other codes tell no cover."""
    eighths = np.where((sky >= 0) & (sky <= _OKTAS), sky / _OKTAS, np.nan)
    return np.where(sky == _OBSCURED, 1.0, eighths)


def _edge_note(file: str, is_local: np.ndarray[tuple[int], np.dtype[np.bool_]], offset_h: int) -> list[Mended]:
    outside = int((~is_local).sum())
    if not outside:
        return []
    found = f"{outside} hours belong to another year in local standard time (UTC{offset_h:+d})"
    return [Mended(file, "calendar", found, "left out")]
