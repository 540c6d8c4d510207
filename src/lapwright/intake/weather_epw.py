"""EPW files: eight heading lines, then an hourly row of 35 cells.

Hour 1 is 00:01 to 01:00 of local standard time: it begins at 00:00.  (pvlib stamps it so; others stamp its end.)
Rain is a depth over a period, often never measured; where an observer's weather code stands beside it, that tells
whether anything fell.
"""

from __future__ import annotations

import warnings
from typing import TYPE_CHECKING, BinaryIO

import numpy as np

from lapwright.faults import Fault, Mended
from lapwright.intake.weather_calendar import (
    Calendar,
    Stamps,
    calendar_of,
    count_faults,
    date_faults,
    order_faults,
    typical_year_of,
)
from lapwright.intake.weather_clean import Station, clean_year
from lapwright.intake.weather_rain import is_never_wet, rain_by_hour
from lapwright.intake.weather_text import (
    Lines,
    cell_faults,
    column_faults,
    is_number,
    joined,
    lines_of,
    must,
    number_faults,
)
from lapwright.weather.values import Array, Flags, WeatherYear

if TYPE_CHECKING:
    import pandas as pd

FIRST_ROW = 9
_LEAST_CELLS, _MOST_CELLS = 32, 35
_CELLS = f"{_LEAST_CELLS} to {_MOST_CELLS} cells"
_HEADING = {"latitude": 6, "longitude": 7, "time zone": 8, "elevation": 9}
# pvlib's name, place in the row, and the reading from which on a cell means "missing"
_COLUMNS: dict[str, tuple[str, int, float]] = {
    "air_c": ("temp_air", 6, 99.9),
    "dew_point_c": ("temp_dew", 7, 99.9),
    "ghi_w_m2": ("ghi", 13, 9999.0),
    "wind_m_s": ("wind_speed", 21, 999.0),
    "cloud": ("opaque_sky_cover", 23, 99.0),
    "observed": ("present_weather_observation", 26, 9.0),
    "code": ("present_weather_codes", 27, np.inf),
    "snow_depth_m": ("snow_depth", 30, 999.0),
    "depth_mm": ("liquid_precipitation_depth", 33, 999.0),
    "period_h": ("liquid_precipitation_quantity", 34, 99.0),
}
_THUNDER_DIGITS = (1,)
_FALLING_DIGITS = (2, 3, 4, 5, 6, 9)  # rain, drizzle, snow, snow showers, sleet, ice pellets; 9 is none
_NOTHING = 999_999_999
_CENTIMETRES = 100.0


def read(stream: BinaryIO, *, file: str, name: str | None = None) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A year of weather from an EPW file, and what was found and mended in it.

    Args:
        file: its name for faults and notes.
        name: of the year; the city of the heading where None.

    Raises: Refused where the file's form is broken.
    """
    lines = lines_of(stream, file=file)
    must(_heading_faults(lines))
    must(cell_faults(lines, FIRST_ROW, least=_LEAST_CELLS, most=_MOST_CELLS, needs=_CELLS))
    cells = lines.text[FIRST_ROW - 1].count(",") + 1
    must(cell_faults(lines, FIRST_ROW, least=cells, most=cells, needs=f"{cells} cells as in the line before"))
    must(count_faults(lines, len(lines.text) - FIRST_ROW + 1))
    stamps = _stamps(lines)
    must(date_faults(lines, stamps))
    must(order_faults(lines, stamps))
    year = typical_year_of(stamps)
    calendar = calendar_of(stamps, year)
    columns, station = _columns(lines, name)
    told: list[Mended] = []
    if len(np.unique(stamps.year)) > 1:
        told.append(Mended(file, "calendar", "months of several years", f"laid on one year, written {year}"))
    readings, trace = _readings(columns, calendar, file=file, told=told)
    thunder = calendar.laid(columns["observed"]) == 0
    thunder &= has_digit(calendar.laid(columns["code"]), _THUNDER_DIGITS)
    return clean_year(station, calendar, readings, file=file, trace=trace, told=told, thunder=thunder)


def _heading_faults(lines: Lines) -> list[Fault]:
    """The first line, which says where the station is."""
    cells = lines.text[0].split(",")
    if cells[0] != "LOCATION" or len(cells) < len(_HEADING) + 6 or len(lines.text) < FIRST_ROW:
        return [lines.fault(1, "heading", "LOCATION with ten cells, seven more heading lines, then hourly rows")]
    faults = number_faults(lines, 1, {key: cells[place] for key, place in _HEADING.items()})
    if not faults and abs(float(cells[_HEADING["time zone"]])) > 14:
        faults = [lines.fault(1, "time zone", "hours east of UTC, -12 to 14", read=cells[_HEADING["time zone"]])]
    return faults


def _stamps(lines: Lines) -> Stamps:
    """Begin of the hour of each row."""
    heads = [line.split(",", 4)[:4] for line in lines.text[FIRST_ROW - 1 :]]
    must(
        [
            lines.fault(FIRST_ROW + row, "date", "year, month, day, hour (1 to 24) in whole numbers")
            for row, head in enumerate(heads)
            if not all(cell.strip().isdecimal() and len(cell.strip()) <= 4 and cell.isascii() for cell in head)
        ]
    )
    year, month, day, hour = np.array(heads, dtype=np.int64).T
    return Stamps(year, month, day, hour - 1, FIRST_ROW)


def _columns(lines: Lines, name: str | None) -> tuple[dict[str, Array], Station]:
    """The columns that are used, one value a row, NaN where the format says missing, and the station."""
    from pvlib.iotools import read_epw  # over a second to import, and only an EPW file needs it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a column of mixed types is found below, by line
        frame, station = read_epw(joined(_without_remarks(lines)))
    columns = {key: _numbers(lines, frame, key) for key in _COLUMNS}
    where = ", ".join(str(station[key]) for key in ("city", "state-prov", "country") if station[key] not in ("", "-"))
    return columns, Station(
        name=name or str(station["city"]),
        origin=f"EPW weather file, {where}, station {station['WMO_code']}, {station['data_type']}",
        latitude=station["latitude"],
        longitude=station["longitude"],
        elevation=station["altitude"],
        offset_h=station["TZ"],
    )


def _without_remarks(lines: Lines) -> Lines:
    """The file with the heading lines emptied that are not used: a stray quote there would swallow the rows."""
    return Lines(lines.file, (lines.text[0], *[""] * (FIRST_ROW - 3), "DATA PERIODS", *lines.text[FIRST_ROW - 1 :]))


def _numbers(lines: Lines, frame: pd.DataFrame, key: str) -> Array:
    """A column as numbers; empty and missing cells are NaN, another text a fault."""
    from pandas import to_numeric

    column, place, missing = _COLUMNS[key]
    values: Array = to_numeric(frame[column], errors="coerce").to_numpy(dtype=np.float64)
    bad = np.flatnonzero(np.isnan(values) & frame[column].notna().to_numpy())
    must(column_faults(lines, FIRST_ROW, lambda line: line.split(",")[place], column, bad.tolist()))
    return np.where(values >= missing, np.nan, values)


def _readings(
    columns: dict[str, Array], calendar: Calendar, *, file: str, told: list[Mended]
) -> tuple[dict[str, Array], Flags]:
    """Readings on the hours of the year, and where rain or snow was seen without a depth."""
    laid = {name: calendar.laid(values) for name, values in columns.items()}
    depth_mm = laid["depth_mm"]
    if is_never_wet(depth_mm):
        told.append(Mended(file, "rain", "not a drop in the whole year", "taken as not reported"))
        depth_mm = np.full(depth_mm.shape, np.nan)
    no_period = np.isfinite(depth_mm) & ~(laid["period_h"] > 0)
    if no_period.any():
        told.append(Mended(file, "rain", f"{no_period.sum()} depths without their period", "taken as of one hour"))
    observed = laid["observed"] == 0
    falling = observed & is_falling(laid["code"])
    rain_mm = rain_by_hour(depth_mm, np.where(no_period, 1.0, laid["period_h"]))
    seen_dry = observed & ~falling & np.isnan(rain_mm) & np.isfinite(laid["code"])
    if seen_dry.any():
        told.append(Mended(file, "rain", f"{seen_dry.sum()} hours without a depth", "dry by the observer's code"))
    readings = {
        "air_c": laid["air_c"],
        "dew_point_c": laid["dew_point_c"],
        "wind_m_s": laid["wind_m_s"],
        "gust_m_s": np.full(len(calendar.start), np.nan),
        "rain_mm": np.where(seen_dry, 0.0, rain_mm),
        "cloud": laid["cloud"] / 10,
        "ghi_w_m2": laid["ghi_w_m2"],
        "snow_depth_m": laid["snow_depth_m"] / _CENTIMETRES,
    }
    return readings, falling & ~(rain_mm > 0)


def has_digit(code: Array, digits: tuple[int, ...]) -> Flags:
    """Whether a nine-digit weather code tells of one of its kinds, (hours,); digits from the left, 9 is none."""
    told = np.zeros(code.shape, dtype=bool)
    whole = np.clip(np.nan_to_num(code, nan=_NOTHING), 0, _NOTHING).astype(np.int64)
    for digit in digits:
        told |= whole // 10 ** (9 - digit) % 10 != 9
    return told


def is_falling(code: Array) -> Flags:
    """Whether a weather code tells of rain or snow, (hours,)."""
    return has_digit(code, _FALLING_DIGITS)


def looks_like(head: str) -> bool:
    """Whether the begin of a file is that of an EPW file."""
    cells = head.split("\n", 1)[0].split(",")
    return cells[0] == "LOCATION" and len(cells) >= 10 and is_number(cells[6])
