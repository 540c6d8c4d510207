"""The user's own logger: comma-separated rows with the units in the first line.

    time [America/New_York], air [F], humidity [%], wind [mph], gust [mph], rain [in]
    2026-01-15 07:00, 24.3, 81, 6, 11, 0

Columns stand in any order; `time`, `air`, `wind` and `dew point` or `humidity` must be there.  Rows may come at any
interval and are laid on hours of local standard time: of air, dew point, cloud and snow the last reading of an hour
counts, of wind and sun the mean, of gusts the greatest, of rain the sum.  A row's rain is that since the row before.
"""

from __future__ import annotations

import difflib
import math
import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray

from lapwright.faults import Fault, Mended
from lapwright.intake.weather_calendar import LEAP_YEAR, Calendar
from lapwright.intake.weather_clean import Station, clean_year
from lapwright.intake.weather_loggertime import NEEDS_ZONE, WRITE_ZONE, clock_of, standard_offset_min, utc_minutes
from lapwright.intake.weather_text import Lines, is_number, lines_of, must
from lapwright.units.anything import si_scale
from lapwright.weather.values import Array, Flags, WeatherYear

DewPoint = Callable[[Array, Array], Array]
_HEAD = re.compile(r"\s*([A-Za-z_ ]+?)\s*(?:\[([^\]]*)\])?\s*")
_TEMPERATURES = MappingProxyType({"F": "degF", "C": "degC", "K": "degK"})
_SPEEDS = MappingProxyType({"mph": "mph", "m/s": "m/s", "km/h": "km/h", "kn": "kn"})
_DEPTHS = MappingProxyType({"in": "in", "mm": "mm", "cm": "cm"})
# name -> units that are read, each as `units` knows it; "" where the factor stands in _SHARES
UNITS: Mapping[str, Mapping[str, str]] = MappingProxyType(
    {
        "air": _TEMPERATURES,
        "dew point": _TEMPERATURES,
        "humidity": {"%": ""},
        "wind": _SPEEDS,
        "gust": _SPEEDS,
        "rain": _DEPTHS,
        "cloud": {"%": "", "tenths": "", "eighths": ""},
        "sun": {"W/m2": "W/m2"},
        "snow": _DEPTHS,
        "thunder": {"": ""},
    }
)
_SHARES = MappingProxyType({"%": 1 / 100, "tenths": 1 / 10, "eighths": 1 / 8, "": 1.0})
_NOTHING = ("", "-", "--", "---", "na", "n/a", "nan", "null", "none")
_YES_NO = MappingProxyType({"yes": "1", "no": "0", "true": "1", "false": "0"})
_MILLIMETRES = 1000.0
FIRST_ROW = 2


@dataclass(frozen=True, slots=True)
class _Rows:
    """Readings of the rows in SI by name, (rows,), and the hour of each row, counted from the first, (rows,)."""

    columns: Mapping[str, Array]
    hour: NDArray[np.int64]
    start: NDArray[np.datetime64]

    def last(self, name: str) -> Array:
        """The last reading of each hour, (hours,)."""
        hours = np.full(len(self.start), np.nan)
        values = self.columns.get(name)
        if values is not None:
            is_known = np.isfinite(values)
            hours[self.hour[is_known]] = values[is_known]
        return hours

    def total(self, name: str) -> Array:
        """The sum of each hour, NaN where one of its rows is missing, (hours,)."""
        values = self.columns.get(name)
        if values is None:
            return np.full(len(self.start), np.nan)
        found = np.bincount(self.hour, weights=values, minlength=len(self.start)).astype(np.float64)
        return np.where(self.counts() > 0, found, np.nan)

    def mean(self, name: str) -> Array:
        """The mean of what is known of each hour, (hours,)."""
        values = self.columns.get(name)
        if values is None:
            return np.full(len(self.start), np.nan)
        is_known = np.isfinite(values)
        count = np.bincount(self.hour[is_known], minlength=len(self.start))
        total = np.bincount(self.hour[is_known], weights=values[is_known], minlength=len(self.start))
        return np.where(count > 0, total / np.maximum(count, 1), np.nan)

    def greatest(self, name: str) -> Array:
        """The greatest of each hour, (hours,)."""
        hours = np.full(len(self.start), -np.inf)
        values = self.columns.get(name)
        if values is not None:
            np.fmax.at(hours, self.hour, values)
        return np.where(np.isfinite(hours), hours, np.nan)

    def counts(self) -> NDArray[np.int64]:
        """Rows of each hour, (hours,)."""
        return np.bincount(self.hour, minlength=len(self.start))


def looks_like(head: str) -> bool:
    """Whether the begin of a file is that of a logger's rows."""
    found = _HEAD.fullmatch(head.split("\n", 1)[0].split(",", 1)[0])
    return found is not None and found[1].lower() == "time"


def read(
    stream: BinaryIO, *, file: str, station: Station, dew_point: DewPoint
) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """Hours of weather from a logger's rows, and what was found and mended in them.

    Args:
        file: its name for faults and notes.
        station: the place, and hours east of UTC where the first line names no clock of the place.
        dew_point: dew point [°C] from air [°C] and relative humidity over water (0..1).

    Raises: Refused where the file's form is broken.
    """
    lines = lines_of(stream, file=file)
    heads = _heads(lines)
    rows = [line.split(",") for line in lines.text[FIRST_ROW - 1 :]]
    must(_row_faults(lines, rows, len(heads)))
    place = {name: column for column, (name, _) in enumerate(heads)}
    clock = clock_of(dict(heads)["time"])
    if clock is None:
        must([lines.fault(1, "time", NEEDS_ZONE, read=str(dict(heads)["time"]), write=WRITE_ZONE)])
        raise AssertionError("refused above")
    minutes, faults = utc_minutes(lines, [cells[place["time"]] for cells in rows], clock, FIRST_ROW)
    must(faults)
    offset_min = standard_offset_min(clock, minutes[0])
    offset_min = round(station.offset_h * 60) if offset_min is None else offset_min
    columns = {name: _column(lines, rows, place[name], name, unit) for name, unit in heads if name != "time"}
    if "dew point" not in columns:
        columns["dew point"] = dew_point(columns["air"], columns["humidity"])
    found = _laid(lines, np.array(minutes) + offset_min, columns)
    return clean_year(
        replace(station, offset_h=offset_min / 60),
        Calendar(found.start, np.unique(found.hour)),
        _readings(found),
        file=file,
        trace=np.zeros(len(found.start), dtype=bool),
        told=_span_note(file, found),
        thunder=_thunder(found),
    )


def _heads(lines: Lines) -> list[tuple[str, str | None]]:
    """Name and unit of each column.

    Raises: Refused where one can't be read, is there twice, or one that must be there is not.
    """
    heads: list[tuple[str, str | None]] = []
    faults: list[Fault] = []
    for cell in lines.text[0].split(","):
        read_head = _HEAD.fullmatch(cell)
        name = " ".join(read_head[1].lower().replace("_", " ").split()) if read_head else ""
        heads.append((name, read_head[2] if read_head else None))
        faults += _head_faults(lines, cell, heads)
    names = [name for name, _ in heads]
    needed = [name for name in ("time", "air", "wind") if name not in names]
    if "dew point" not in names and "humidity" not in names:
        needed.append("dew point")
    if not faults:
        faults = [lines.fault(1, name, "this column", read="no such column", write=_example(name)) for name in needed]
    if not faults and len(lines.text) < FIRST_ROW:
        faults = [lines.fault(1, "rows", "a row for each reading", read="no row")]
    must(faults)
    return heads


def _head_faults(lines: Lines, cell: str, heads: list[tuple[str, str | None]]) -> list[Fault]:
    """Faults of the last of the heads: a name or a unit that is not known, a column that is there already."""
    name, unit = heads[-1]
    if name == "time":
        wrong = [one for one, _ in heads].count(name) > 1
        return [lines.fault(1, name, "this column once", read=cell)] if wrong else []
    if name not in UNITS:
        near = difflib.get_close_matches(name[:40], UNITS, n=1, cutoff=0.0)[0]
        needs = f"one of time, {', '.join(UNITS)}"
        return [lines.fault(1, "heading", needs, read=cell.strip(), write=_example(near))]
    if [one for one, _ in heads].count(name) > 1:
        return [lines.fault(1, name, "this column once", read=cell.strip())]
    if (unit or "").strip() not in UNITS[name]:
        needs = f"its unit, one of {', '.join(UNITS[name])}" if any(UNITS[name]) else "no unit"
        return [lines.fault(1, name, needs, read=cell.strip(), write=_example(name))]
    return []


def _example(name: str) -> str:
    unit = next(iter(UNITS[name])) if name in UNITS else "UTC-5"
    return f"{name} [{unit}]" if unit else name


def _row_faults(lines: Lines, rows: list[list[str]], cells: int) -> list[Fault]:
    """Rows with a cell too many or too few, or a quote."""
    return [
        lines.fault(FIRST_ROW + row, "cells", f"{cells} cells without quotes, as the first line has")
        for row, found in enumerate(rows)
        if len(found) != cells or '"' in lines.text[FIRST_ROW - 1 + row]
    ]


def _column(lines: Lines, rows: list[list[str]], column: int, name: str, unit: str | None) -> Array:
    """Readings of a column in SI (rain in mm); NaN where a cell says nothing.

    Raises: Refused where a cell holds something else than a number.
    """
    cells = [_YES_NO.get(cells[column].strip().lower(), cells[column].strip().lower()) for cells in rows]
    wanted = "yes or no" if name == "thunder" else "a number without its unit, or nothing"
    must(
        [
            lines.fault(FIRST_ROW + row, name, wanted, read=rows[row][column].strip())
            for row, cell in enumerate(cells)
            if cell not in _NOTHING and not is_number(cell)
        ]
    )
    values = np.array([math.nan if cell in _NOTHING else float(cell) for cell in cells])
    known_as = UNITS[name][(unit or "").strip()]
    if not known_as:
        return values * _SHARES[(unit or "").strip()]
    scale, offset = si_scale(known_as)
    return (values * scale + offset) * (_MILLIMETRES if name == "rain" else 1.0)


def _laid(lines: Lines, minutes: Array, columns: Mapping[str, Array]) -> _Rows:
    """The rows on hours of local standard time: one stamped 8:00 ends the hour that begins at 7:00.

    Raises: Refused where they span more than a year.
    """
    hour = np.ceil(minutes / 60).astype(np.int64) - 1
    count = int(hour[-1] - hour[0]) + 1
    if count > LEAP_YEAR:
        must([lines.fault(0, "rows", "the hours of one year at most", read=f"{count} hours from first to last")])
    begin = np.datetime64(int(hour[0]) * 60, "m")
    return _Rows(columns, hour - hour[0], begin + np.arange(count) * np.timedelta64(60, "m"))


def _readings(found: _Rows) -> dict[str, Array]:
    """The readings of the hours, NaN where not reported."""
    return {
        "air_c": found.last("air"),
        "dew_point_c": found.last("dew point"),
        "wind_m_s": found.mean("wind"),
        "gust_m_s": found.greatest("gust"),
        "rain_mm": found.total("rain"),
        "cloud": found.last("cloud"),
        "ghi_w_m2": found.mean("sun"),
        "snow_depth_m": found.last("snow"),
    }


def _thunder(found: _Rows) -> Flags | None:
    """Hours with thunder in any row; None where there is no such column."""
    return None if "thunder" not in found.columns else np.nan_to_num(found.greatest("thunder")) > 0


def _span_note(file: str, found: _Rows) -> list[Mended]:
    """How long the log is, where it is less than a year."""
    if len(found.start) >= LEAP_YEAR - 24:
        return []
    first, last = (str(moment).replace("T", " ") for moment in (found.start[0], found.start[-1]))
    return [Mended(file, "hours", f"a log from {first} to {last}", "other hours of the year have no reading")]
