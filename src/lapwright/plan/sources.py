"""Drawings and weather files beside a job file, opened and handed to their readers."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from lapwright.faults import Fault, Mended, Refused
from lapwright.job.models import Job
from lapwright.job.outline_models import DxfOutline, GeoJsonOutline
from lapwright.plan.files import read_bytes
from lapwright.roof.values import Point
from lapwright.weather.values import WeatherYear


def beside(folder: Path, name: str, *, key: str) -> Path:
    """A file named in a job file, which must stand in its folder or below it.

    Raises: Refused where a link leads out of the folder.
    """
    path = folder / name
    try:
        inside = path.resolve().is_relative_to(folder.resolve())
    except OSError:
        inside = False
    if not inside:
        raise Refused(
            [Fault(name, 0, 0, key, name, "a file in the job's folder", "the file's name, with the file there")]
        )
    return path


def read_dxf(folder: Path, outline: DxfOutline) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline in a DXF drawing.

    Raises: Refused
    """
    from lapwright.intake import plan_dxf

    content = read_bytes(beside(folder, outline.dxf, key="dxf"), needs="a DXF drawing")
    return plan_dxf.read_outline(content, file=outline.dxf, layer=outline.layer, units=outline.units)


def read_geojson(folder: Path, outline: GeoJsonOutline) -> tuple[Sequence[Point], Sequence[Mended]]:
    """The corners of an outline in a GeoJSON file.

    Raises: Refused
    """
    from lapwright.intake import plan_geojson

    content = read_bytes(beside(folder, outline.geojson, key="geojson"), needs="a GeoJSON file")
    return plan_geojson.read_outline(content, file=outline.geojson, feature=outline.feature, units=outline.units)


def read_year(job: Job, folder: Path) -> tuple[WeatherYear, Sequence[Mended]] | None:
    """The job's weather; None where the job names none.

    Raises: Refused
    """
    from lapwright.intake.weather_clean import Station
    from lapwright.intake.weather_isdlite import standard_offset_h
    from lapwright.intake.weather_source import read_bundled, read_weather

    if job.weather is None or not (job.weather.year or job.weather.file):
        return None
    if job.weather.year:
        return read_bundled(job.weather.year)
    name = job.weather.file or ""
    content = read_bytes(beside(folder, name, key="weather.file"), needs="a weather file")
    latitude, longitude = job.site.latitude, job.site.longitude
    station = Station(
        name, name, latitude or 0.0, longitude or 0.0, job.site.elevation or 0.0, standard_offset_h(longitude or 0.0)
    )
    year, mended = read_weather(io.BytesIO(content), file=name, station=station)
    if longitude is None and year.origin == name:
        fault = job.fault(
            "site.longitude",
            needs="the site's longitude: an ISD-Lite file does not say where it was taken",
            write="longitude: -79.95",
        )
        raise Refused([fault])
    return replace(year), mended
