"""The hours of a job from plain values: what the second process works on, with nothing of the job file's models."""

from __future__ import annotations

import io
from collections.abc import Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from zoneinfo import ZoneInfo

import numpy as np

from lapwright.assembly.values import Ply
from lapwright.crew.calendar import make_calendar
from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.faults import Fault, Mended, Refused
from lapwright.heat.buildup import BuildUp
from lapwright.heat.surface import default_setting
from lapwright.hours.limits import limits_by_operation
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import HourTable
from lapwright.plan.files import beside, read_bytes
from lapwright.units.write import Units
from lapwright.weather.moist import dew_point_c
from lapwright.weather.places import km_between
from lapwright.weather.values import WeatherYear

KM_A_MILE = 1.609344
DEGREES_AN_HOUR = 15  # that the sun goes
FAR_H = 2
CLOCK_YEAR = 2001  # standard times of zones have hardly been moved since


@dataclass(frozen=True, slots=True)
class HourAsk:
    """What the hours of a job hang on.

    year, file: a bundled year or a file in `folder`.  latitude, longitude [°], elevation, height [m], exposure: None
    where not given.  primer_c, mastic_c [°C]; built: what the surface lies on; area [m²], perimeter [m] of the roof.
    time_zone: of the site's clock.  no_longitude: the fault to tell where a file needs the site's longitude.
    """

    folder: Path
    year: str | None
    file: str | None
    latitude: float | None
    longitude: float | None
    elevation: float | None
    height: float | None
    exposure: str | None
    plies: tuple[Ply, ...]
    primer_c: float | None
    mastic_c: float | None
    has_metal: bool
    built: BuildUp
    area: float
    perimeter: float
    rules: Rules
    units: str
    time_zone: str | None
    no_longitude: Fault


def judged(ask: HourAsk) -> tuple[HourTable, tuple[Mended, ...]] | None:
    """The weather read and judged, with what was mended in it; None where the job names none.

    Raises: Refused where the weather can't be read.
    """
    found = read_year(ask)
    if found is None:
        return None
    year, mended = found
    return make_hours(ask, year), (*mended, *from_afar(year, ask))


def from_afar(year: WeatherYear, ask: HourAsk) -> tuple[Mended, ...]:
    """A note where the readings were taken so far from the site that its days are others."""
    if ask.latitude is None or ask.longitude is None or year.origin == ask.file:
        return ()
    away_km = km_between((ask.latitude, ask.longitude), (year.latitude, year.longitude))
    if away_km <= table("hours")["far_weather"].number():
        return ()
    away = f"{away_km:.0f} km" if ask.units == "metric" else f"{away_km / KM_A_MILE:.0f} miles"
    found = f"readings taken at {year.latitude:.2f}, {year.longitude:.2f}, {away} from the site"
    return (Mended(ask.file or ask.year or "", "place", found, "used as they are; the site's own days will be others"),)


def read_year(ask: HourAsk) -> tuple[WeatherYear, Sequence[Mended]] | None:
    """The job's weather; None where the job names none.

    Raises: Refused
    """
    from lapwright.intake.weather_clean import Station  # the weather libraries take a second to load
    from lapwright.intake.weather_isdlite import standard_offset_h
    from lapwright.intake.weather_source import read_bundled, read_weather

    if ask.year:
        year, mended = read_bundled(ask.year)
        return on_the_sites_clock(year, ask), mended
    if not ask.file:
        return None
    content = read_bytes(beside(ask.folder, ask.file, key="weather.file"), needs="a weather file")
    longitude = ask.longitude or 0.0
    by_zone_h = zone_standard_h(ask)
    offset_h = standard_offset_h(longitude) if by_zone_h is None else by_zone_h
    station = Station(ask.file, ask.file, ask.latitude or 0.0, longitude, ask.elevation or 0.0, offset_h)
    year, mended = read_weather(io.BytesIO(content), file=ask.file, station=station, dew_point=dew_point_c)
    if ask.longitude is None and year.origin == ask.file:
        raise Refused([ask.no_longitude])
    return (at_the_sites_hours(year, by_zone_h) if year.origin == ask.file else on_the_sites_clock(year, ask)), mended


def zone_standard_h(ask: HourAsk) -> float | None:
    """Hours of the standard time of the site's zone east of UTC; None where no zone is given."""
    from lapwright.intake.forecast_read import standard_offset_h

    return None if ask.time_zone is None else standard_offset_h(ZoneInfo(ask.time_zone), CLOCK_YEAR)


def at_the_sites_hours(year: WeatherYear, standard_h: float | None) -> WeatherYear:
    """Hours that were taken at the site, by another clock than its zone's: the same instants on the site's clock."""
    if standard_h is None or standard_h == year.offset_h:
        return year
    later = round(standard_h - year.offset_h)
    return replace(year, start=year.start + later * np.timedelta64(60, "m"), offset_h=year.offset_h + later)


def on_the_sites_clock(year: WeatherYear, ask: HourAsk) -> WeatherYear:
    """A year of a station laid on the site's standard time hour by hour, so that its noon is the site's noon.

    Where the site's longitude is not given the sun is the station's, and so is the clock; without a time zone the
    station's clock holds as far as two hours of the sun's way.
    """
    from lapwright.intake.weather_isdlite import standard_offset_h

    if ask.longitude is None:
        return year
    if ask.time_zone is not None:
        on = int(year.start[0].astype("datetime64[Y]").astype(int)) + 1970
        return replace(year, offset_h=make_calendar(year, ask.time_zone).standard_s(on) / 3600)
    of_sun_h = ask.longitude / DEGREES_AN_HOUR
    return year if abs(of_sun_h - year.offset_h) <= FAR_H else replace(year, offset_h=standard_offset_h(ask.longitude))


def make_hours(ask: HourAsk, year: WeatherYear) -> HourTable:
    """The hour table.  Where the site is not given, the sun is reckoned for the weather station."""
    return make_hour_table(
        year,
        place=RoofPlace(
            year.latitude if ask.latitude is None else ask.latitude,
            year.longitude if ask.longitude is None else ask.longitude,
            ask.height,
            ask.exposure,
        ),
        limits=limits_by_operation(ask.plies, primer_c=ask.primer_c, mastic_c=ask.mastic_c, has_metal=ask.has_metal),
        rules=ask.rules,
        setting=default_setting(area=ask.area, perimeter=ask.perimeter),
        units=Units(ask.units),
        built=ask.built,
    )
