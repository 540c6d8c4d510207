"""TMY3 files: a typical year as comma-separated text, a heading, column names, then 8760 rows.

A row stamped 01:00 holds the readings at 01:00 and the sun and rain of the hour that ends then: its hour begins at
00:00.  The months come from several years (a February of a leap year has 28 days here); date and hour are therefore
taken from the text, not from the dates that pvlib makes of them.
"""

from __future__ import annotations

import re
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
from lapwright.intake.weather_rain import is_in_tenths, is_never_wet, rain_by_hour
from lapwright.intake.weather_text import Lines, cell_faults, column_faults, joined, lines_of, must, number_faults
from lapwright.weather.values import Array, WeatherYear

if TYPE_CHECKING:
    import pandas as pd

FIRST_ROW = 3
_STAMP = re.compile(r"(\d\d)/(\d\d)/(\d{4}),(\d\d):00,")
_HEADING = ("station", "name", "state", "time zone", "latitude", "longitude", "elevation")
_COLUMNS = {
    "air_c": "Dry-bulb (C)",
    "dew_point_c": "Dew-point (C)",
    "wind_m_s": "Wspd (m/s)",
    "ghi_w_m2": "GHI (W/m^2)",
    "cloud": "OpqCld (tenths)",
    "depth_mm": "Lprecip depth (mm)",
    "period_h": "Lprecip quantity (hr)",
}
_WEATHER_CODE = "PresWth (METAR code)"
_FALLING_CODES = (50, 99)  # present weather, WMO code table 4677: drizzle, rain, snow, showers, thunderstorms [memory]
# lightning seen, thunder heard, thunderstorm in the past hour, then all thunderstorms [memory]
_THUNDER_CODES = (13, 17, 29, *range(91, 100))
_SENTINEL = -9900.0


def read(stream: BinaryIO, *, file: str, name: str | None = None) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A year of weather from a TMY3 file, and what was found and mended in it.

    Args:
        file: its name for faults and notes.
        name: of the year; the station's own where None.

    Raises: Refused where the file's form is broken.
    """
    lines = lines_of(stream, file=file)
    must(_heading_faults(lines))
    must(cell_faults(lines, FIRST_ROW - 1, least=_cells(lines), most=_cells(lines), needs=f"{_cells(lines)} cells"))
    stamps = _stamps(lines)
    must(count_faults(lines, len(lines.text) - FIRST_ROW + 1) or order_faults(lines, stamps))
    year = typical_year_of(stamps)
    calendar = calendar_of(stamps, year)
    columns, station = _columns(lines, name)
    told = _calendar_note(file, stamps, year)
    readings, trace = _readings(columns, calendar, file=file, told=told)
    thunder = np.isin(calendar.laid(columns["code"]), _THUNDER_CODES) if "code" in columns else None
    return clean_year(station, calendar, readings, file=file, trace=trace > 0, told=told, thunder=thunder)


def _cells(lines: Lines) -> int:
    return lines.text[1].count(",") + 1


def _heading_faults(lines: Lines) -> list[Fault]:
    """The first two lines: station, column names."""
    heading = lines.text[0].split(",")
    if len(heading) != len(_HEADING) or len(lines.text) < FIRST_ROW:
        return [lines.fault(1, "heading", "station, name, state, time zone, latitude, longitude, elevation")]
    numbers = {key: cell for key, cell in zip(_HEADING, heading, strict=True) if key not in ("name", "state")}
    faults = number_faults(lines, 1, numbers)
    if not faults and not heading[0].isdecimal():
        faults = [lines.fault(1, "station", "a whole number", read=heading[0])]
    if not faults and abs(float(heading[3])) > 14:
        faults = [lines.fault(1, "time zone", "hours east of UTC, -12 to 14", read=heading[3])]
    names = lines.text[1].split(",")
    wanted = ("Date (MM/DD/YYYY)", "Time (HH:MM)", *_COLUMNS.values())
    missing = [column for column in wanted if names.count(column) != 1]
    if names[:2] != list(wanted[:2]):
        missing = list(wanted[:2])
    return faults + [lines.fault(2, column, "this column, once", read="no such column") for column in missing]


def _stamps(lines: Lines) -> Stamps:
    """Begin of the hour of each row."""
    found = [_STAMP.match(line) for line in lines.text[FIRST_ROW - 1 :]]
    must(
        [
            lines.fault(FIRST_ROW + row, "date", "MM/DD/YYYY,HH:00, hours 01 to 24")
            for row, stamp in enumerate(found)
            if stamp is None
        ]
    )
    month, day, year, hour = np.array([stamp.groups() for stamp in found if stamp], dtype=np.int64).T
    stamps = Stamps(year, month, day, hour - 1, FIRST_ROW)
    must(date_faults(lines, stamps))
    return stamps


def _columns(lines: Lines, name: str | None) -> tuple[dict[str, Array], Station]:
    """The columns that are used, one value a row, and the station."""
    from pvlib.iotools import read_tmy3  # over a second to import, and only a TMY3 file needs it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # a column of mixed types is found below, by line
        frame, station = read_tmy3(joined(lines), map_variables=False)
    wanted = dict(_COLUMNS)
    if _WEATHER_CODE in frame.columns:
        wanted["code"] = _WEATHER_CODE
    columns = {key: _numbers(lines, frame, column) for key, column in wanted.items()}
    place = str(station["Name"]).strip('"').strip()
    where = f"{place}, {station['State']}, station {station['USAF']}"
    return columns, Station(
        name=name or place,
        origin=f"typical meteorological year TMY3, {where}",
        latitude=station["latitude"],
        longitude=station["longitude"],
        elevation=station["altitude"],
        offset_h=station["TZ"],
    )


def _numbers(lines: Lines, frame: pd.DataFrame, column: str) -> Array:
    """A column as numbers; an empty cell is NaN, another text a fault."""
    from pandas import to_numeric

    values: Array = to_numeric(frame[column], errors="coerce").to_numpy(dtype=np.float64)
    index = lines.text[1].split(",").index(column)
    bad = np.flatnonzero(np.isnan(values) & frame[column].notna().to_numpy())
    must(column_faults(lines, FIRST_ROW, lambda line: line.split(",")[index], column, bad.tolist()))
    return values


def _readings(
    columns: dict[str, Array], calendar: Calendar, *, file: str, told: list[Mended]
) -> tuple[dict[str, Array], Array]:
    """Readings on the hours of the year, and where rain or snow was seen without a depth."""
    laid = {name: calendar.laid(np.where(values == _SENTINEL, np.nan, values)) for name, values in columns.items()}
    depth_mm = laid["depth_mm"]
    told += _sentinel_note(file, columns)
    if is_in_tenths(np.where(laid["period_h"] == 1, depth_mm, np.nan)):
        depth_mm = depth_mm / 10
        found = "depths of a year deeper than any, on the 0.01 inch steps of gauges ten times over"
        told.append(Mended(file, "rain", found, "read as tenths of a millimetre"))
    if is_never_wet(depth_mm):
        told.append(Mended(file, "rain", "not a drop in the whole year", "taken as not reported"))
        depth_mm = np.full(depth_mm.shape, np.nan)
    nothing = np.full(len(calendar.start), np.nan)
    code = laid.get("code", nothing)
    falling = (code >= _FALLING_CODES[0]) & (code <= _FALLING_CODES[1])
    rain_mm = rain_by_hour(depth_mm, laid["period_h"])
    readings = {
        "air_c": laid["air_c"],
        "dew_point_c": laid["dew_point_c"],
        "wind_m_s": laid["wind_m_s"],
        "gust_m_s": nothing,
        "rain_mm": rain_mm,
        "cloud": laid["cloud"] / 10,
        "ghi_w_m2": laid["ghi_w_m2"],
        "snow_depth_m": nothing,
    }
    return readings, (falling & ~(rain_mm > 0)).astype(np.float64)


def _sentinel_note(file: str, columns: dict[str, Array]) -> list[Mended]:
    """Cells that hold the format's word for nothing."""
    return [
        Mended(file, _COLUMNS.get(name, _WEATHER_CODE), f"{hits} cells of {_SENTINEL:.0f}", "read as not reported")
        for name, values in columns.items()
        if (hits := int(np.sum(values == _SENTINEL)))
    ]


def _calendar_note(file: str, stamps: Stamps, year: int) -> list[Mended]:
    """Which years the months come from."""
    years = np.unique(stamps.year).tolist()
    if len(years) == 1:
        return []
    found = "months of " + ", ".join(str(which) for which in years)
    return [Mended(file, "calendar", found, f"laid on one year, written {year}")]
