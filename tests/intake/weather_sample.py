"""Small makers of weather files for tests: a plain year in each format, changed where a test says."""

import datetime as dt
import io
from collections.abc import Callable, Mapping

Change = Callable[[list[str]], None]
NAMES = (
    "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),OpqCld (tenths),Dry-bulb (C),Dew-point (C),Wspd (m/s),"
    "Lprecip depth (mm),Lprecip quantity (hr),PresWth (METAR code)"
)
TMY3_CELL = {"ghi": 2, "cloud": 3, "air": 4, "dew": 5, "wind": 6, "depth": 7, "period": 8, "code": 9}
EPW_CELL = {"air": 6, "dew": 7, "ghi": 13, "wind": 21, "cloud": 23, "observed": 26, "code": 27, "snow": 30,
            "depth": 33, "period": 34}  # fmt: skip


def days(year: int) -> list[dt.date]:
    """Every day of a year."""
    first = dt.date(year, 1, 1)
    return [first + dt.timedelta(days=count) for count in range((dt.date(year + 1, 1, 1) - first).days)]


def tmy3(
    cells: Mapping[int, Mapping[str, object]] | None = None, change: Change | None = None, year: int = 1999
) -> io.BytesIO:
    """A TMY3 file: air 10, dew 5, wind 2, half clouded, no sun, one wet hour; `cells` are by hour and name."""
    lines = ['700000,"TESTFIELD",AK,-9.0,60.000,-150.000,50', NAMES]
    for day in days(year):
        lines += [f"{day:%m/%d/%Y},{hour:02d}:00,0,5,10.0,5.0,2.0,0,1,0" for hour in range(1, 25)]
    for hour, values in ({4000: {"depth": 2}} | dict(cells or {})).items():
        row = lines[2 + hour].split(",")
        for name, value in values.items():
            row[TMY3_CELL[name]] = str(value)
        lines[2 + hour] = ",".join(row)
    if change:
        change(lines)
    return io.BytesIO("\n".join(lines).encode() + b"\n")


def epw(
    cells: Mapping[int, Mapping[str, object]] | None = None, change: Change | None = None, year: int = 2017
) -> io.BytesIO:
    """An EPW file: air 10, dew 5, wind 2, half clouded, no sun, no observer, one wet hour."""
    lines = ["LOCATION,Testfield,AK,USA,TMY3,700000,60.0,-150.0,-9.0,50.0"]
    lines += ["DESIGN CONDITIONS,0", "TYPICAL/EXTREME PERIODS,0", "GROUND TEMPERATURES,0"]
    lines += [
        "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0",
        "COMMENTS 1,",
        "COMMENTS 2,",
        "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31",
    ]
    row = ["0"] * 35
    row[5] = "?9?9"
    for name, value in {"air": 10.0, "dew": 5.0, "wind": 2.0, "cloud": 5, "observed": 9, "code": 999999999,
                        "period": 1}.items():  # fmt: skip
        row[EPW_CELL[name]] = str(value)
    for day in days(year):
        for hour in range(1, 25):
            lines.append(",".join([str(day.year), str(day.month), str(day.day), str(hour), "60", *row[5:]]))
    for hour, values in ({4000: {"depth": 2}} | dict(cells or {})).items():
        changed = lines[8 + hour].split(",")
        for name, value in values.items():
            changed[EPW_CELL[name]] = str(value)
        lines[8 + hour] = ",".join(changed)
    if change:
        change(lines)
    return io.BytesIO("\n".join(lines).encode() + b"\n")


def isd_line(
    stamp: dt.datetime, *, air: int = 100, dew: int = 50, wind: int = 20, sky: int = 4, rain: int = 0, six: int = -9999
) -> str:
    """One line at fixed width, readings in tenths."""
    numbers = (air, dew, 10130, 180, wind, sky, rain, six)
    return f"{stamp:%Y %m %d %H}" + "".join(f"{number:6d}" for number in numbers)


def isdlite(
    cells: Mapping[int, Mapping[str, int]] | None = None, change: Change | None = None, year: int = 2017
) -> io.BytesIO:
    """An ISD-Lite file: air 10, dew 5, wind 2, half clouded, one wet hour; `cells` are by UTC hour of the year."""
    first = dt.datetime(year, 1, 1)
    every = {4000: {"rain": 20}} | dict(cells or {})
    lines = [isd_line(first + dt.timedelta(hours=hour), **every.get(hour, {})) for hour in range(24 * len(days(year)))]
    if change:
        change(lines)
    return io.BytesIO("\n".join(lines).encode() + b"\n")
