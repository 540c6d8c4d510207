"""Where a year of weather comes from: a bundled year by name, or a file whose format is told by its first bytes."""

from __future__ import annotations

import csv
import io
from importlib import resources, util
from pathlib import Path
from typing import BinaryIO

from lapwright.faults import Fault, Mended, Refused
from lapwright.intake import weather_epw, weather_isdlite, weather_logger, weather_tmy3
from lapwright.intake.weather_clean import Station
from lapwright.intake.weather_logger import DewPoint
from lapwright.weather.values import WeatherYear

EPW, TMY3, ISD_LITE, LOGGER = "epw", "tmy3", "isd-lite", "logger"
HEAD_BYTES = 4096
_FORMATS = "an EPW, TMY3 CSV or ISD-Lite file, or a logger's CSV whose first line names its columns"


def bundled_names() -> tuple[str, ...]:
    """Names of the years that come with the program, in the order in which they are offered."""
    return tuple(row["name"] for row in _bundled())


def read_bundled(name: str) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A bundled year by name.

    Raises: Refused where there is no such year, or its file is not there.
    """
    rows = {row["name"]: row for row in _bundled()}
    if name not in rows:
        choices = ", ".join(rows)
        raise Refused([Fault("", 0, 0, "weather.year", name, f"one of {choices}", f"year: {next(iter(rows))}")])
    row = rows[name]
    with _open(row) as stream:
        if row["format"] == TMY3:
            return weather_tmy3.read(stream, file=name, name=name)
        station = Station(
            name=name,
            origin=row["origin"],
            latitude=float(row["latitude"]),
            longitude=float(row["longitude"]),
            elevation=float(row["elevation"]),
            offset_h=float(row["offset_h"]),
        )
        return weather_isdlite.read(stream, file=name, station=station)


def detect_format(head: bytes) -> str | None:
    """The format of a file by its first bytes (gzip undone): epw, tmy3, isd-lite or logger; None: none of them."""
    text = head.decode("utf-8-sig", errors="replace").replace("\r\n", "\n").replace("\r", "\n")
    if weather_epw.looks_like(text):
        return EPW
    if weather_isdlite.looks_like(text):
        return ISD_LITE
    if weather_logger.looks_like(text):
        return LOGGER
    second = text.split("\n", 2)[1:2]
    return TMY3 if second and second[0].startswith("Date (MM/DD/YYYY),Time (HH:MM),") else None


def read_weather(
    stream: BinaryIO, *, file: str, station: Station, dew_point: DewPoint
) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A year of weather from a file of any format that is read.

    Args:
        file: its name for faults and notes.
        station: taken for an ISD-Lite file or a log, which do not say where they were taken: the job's site; see
            `weather_isdlite.standard_offset_h` for its `offset_h`.
        dew_point: from air [°C] and relative humidity over water (0..1), for a logger that measures that.

    Raises: Refused where it is none of the formats, or its form is broken.
    """
    from lapwright.intake.weather_text import joined, lines_of

    lines = lines_of(stream, file=file)
    text = joined(lines).getvalue().encode()
    found = detect_format(text[:HEAD_BYTES])
    if found == EPW:
        return weather_epw.read(io.BytesIO(text), file=file)
    if found == TMY3:
        return weather_tmy3.read(io.BytesIO(text), file=file)
    if found == ISD_LITE:
        return weather_isdlite.read(io.BytesIO(text), file=file, station=station)
    if found == LOGGER:
        return weather_logger.read(io.BytesIO(text), file=file, station=station, dew_point=dew_point)
    if all(name in lines.text[0].lower() for name in ("time", "air")):
        needs = "a logger's CSV with commas between its cells, points in its numbers and no quotes"
        raise Refused(
            [lines.fault(1, "weather", needs, write="time [America/New_York], air [F], humidity [%], wind [mph]")]
        )
    raise Refused([lines.fault(1, "weather", _FORMATS)])


def _bundled() -> list[dict[str, str]]:
    """The list of bundled years."""
    text = (resources.files("lapwright.intake") / "years" / "years.csv").read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines(), strict=True))


def _open(row: dict[str, str]) -> BinaryIO:
    """The file of a bundled year: ours beside the list, or one that comes with pvlib."""
    if row["format"] != TMY3:
        packed = (resources.files("lapwright.intake") / "years" / row["file"]).read_bytes()
        return io.BytesIO(packed)
    library = util.find_spec("pvlib")  # finds it without the second that importing takes
    folders = list(library.submodule_search_locations or []) if library else []
    for folder in folders:
        path = Path(folder) / "data" / row["file"]
        if path.is_file():
            return path.open("rb")
    needs = f"the file {row['file']} that comes with pvlib"
    raise Refused([Fault("", 0, 0, "weather.year", row["name"], needs, "year: chicago-2015")])
