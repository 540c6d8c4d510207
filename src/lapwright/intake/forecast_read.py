"""A forecast made from a service's replies: the grid's layers first, hourly periods where it says nothing.

The grid is the fuller one: amounts of rain and snow, sky cover and gusts stand there alone.  Where both say something
the grid is taken.  Hours are laid on the site's standard time.  The hours before the first are there without a
reading, so that nobody takes them for dry, and so are some after the last.  As in a year's hours, a reading (air, wind,
cloud) stands at the end of its hour; what falls, and the chance that it does, belongs to the whole hour.
"""

from __future__ import annotations

import datetime as dt
import math
from dataclasses import dataclass
from zoneinfo import ZoneInfo, available_timezones

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.faults import Mended, Refused
from lapwright.intake.forecast_grid import Layers, before, laid, marked, read_layers
from lapwright.intake.forecast_intervals import HOUR, HourGrid, Span, hour_grid
from lapwright.intake.forecast_periods import read_periods
from lapwright.intake.forecast_reply import Replies, Reply, fault, number_of, plain, properties, replies_of, time_of
from lapwright.intake.weather_calendar import Calendar
from lapwright.intake.weather_clean import Station, clean_year
from lapwright.weather.values import Array, Flags, Forecast

NAME = "forecast"
ORIGIN = "US National Weather Service"
QUANTITIES = ("air_c", "dew_point_c", "wind_m_s", "gust_m_s", "rain_mm", "cloud")
FROM_EITHER = ("air_c", "dew_point_c", "humidity", "wind_m_s", "gust_m_s", "rain_chance")
KM_A_DEGREE = 111.2
NO_PLACE = "PLACE NOT TOLD: make sure that it is this roof's"
# what no forecast says, or says of the hours put around it: nothing that was mended
NEVER_SAID = ("hours", "rain", "sun", "snow depth")
_HOUR_STEP = np.timedelta64(60, "m")


@dataclass(frozen=True, slots=True)
class Site:
    """Where the job is, as far as it says: latitude, longitude [°], elevation [m], time zone.

    around: hours to put before the forecast's first and after its last, without a reading.
    """

    latitude: float | None
    longitude: float | None
    elevation: float | None
    time_zone: str | None
    around: int


def read_forecast(content: bytes, *, file: str, site: Site) -> tuple[Forecast, tuple[Mended, ...]]:
    """A forecast from saved replies, and what was found and mended in it.

    Args:
        file: its name for faults and notes.

    Raises: Refused where it holds no hours of air temperature, is for another place than the job's, or is no forecast.
    """
    replies = replies_of(content, file=file)
    _must_be_near(replies, site, file)
    layers = read_layers(replies.grid, file=file)
    periods, thunder, notes = read_periods(replies.hourly, file=file)
    layers = _with_night(layers, replies.before, file)
    timed = [span for span, _ in (*layers.values.get("air_c", ()), *periods.get("air_c", ()))]
    hours = hour_grid(timed)
    if hours is None:
        raise Refused([fault(file, "no hour with an air temperature", "a forecast with hours of air temperature")])
    told = [*layers.notes, *notes]
    readings = _joined(layers, periods, hours, file=file, told=told)
    zone = _zone(replies.points, site, replies.at, file, told)
    offset_h = standard_offset_h(ZoneInfo(zone), hours.begin.year)
    known = np.any([np.isfinite(readings[name]) for name in QUANTITIES], axis=0)
    calendar = _calendar(hours, known, offset_h, site.around)
    padded = {name: calendar.laid(values[known]) for name, values in readings.items()}
    station = _station(replies, site, offset_h)
    year, found = clean_year(station, calendar, _for_year(padded), file=file, trace=None, told=told)
    if not known.all():
        told.append(
            Mended(file, "hours", f"{(~known).sum()} left out by the forecast", "kept as hours without a reading")
        )
    forecast = Forecast(
        hours=year,
        issued=_issued(replies),
        humidity=padded["humidity"],
        rain_chance=padded["rain_chance"],
        snow_new_m=padded["snow_new_mm"] / 1000.0,
        ice_mm=padded["ice_mm"],
        rain_named=_padded_flags(marked(layers.rain, hours), site.around),
        thunder=_padded_flags(marked((*layers.thunder, *thunder), hours), site.around),
        time_zone=zone,
        place=_place(replies),
    )
    return forecast, (*told, *(note for note in found if note not in told and note.place not in NEVER_SAID))


def _with_night(layers: Layers, earlier: Reply, file: str) -> Layers:
    """The layers with the hours before their first from an earlier forecast, where there is one."""
    begins = [span.begin for span, _ in layers.values.get("air_c", ())]
    if not earlier or not begins:
        return layers
    return before(layers, read_layers(earlier, file=file), min(begins))


def _joined(
    layers: Layers,
    periods: dict[str, list[tuple[Span, float]]],
    hours: HourGrid,
    *,
    file: str,
    told: list[Mended],
) -> dict[str, Array]:
    """Every quantity on the hours: of the grid, and where it says nothing of the hourly periods."""
    found, by_hour = laid(layers.values, hours), laid(periods, hours)
    nothing = np.full(hours.hours, np.nan)
    for name in FROM_EITHER:
        first, second = found.get(name, nothing), by_hour.get(name, nothing)
        filled = np.isnan(first) & np.isfinite(second)
        if layers.values and filled.any():
            words = name.rpartition("_")[0].replace("_", " ") if name.endswith("_c") else name.replace("_m_s", "")
            told.append(Mended(file, words, f"{filled.sum()} hours not in the grid", "taken from the hourly forecast"))
        found[name] = np.where(np.isnan(first), second, first)
    for name in ("rain_mm", "cloud", "snow_new_mm", "ice_mm"):
        found.setdefault(name, nothing)
    return found


def _for_year(readings: dict[str, Array]) -> dict[str, Array]:
    """The quantities of a year; a forecast says nothing of the sun itself, nor of snow that lies already."""
    nothing = np.full(len(readings["air_c"]), np.nan)
    return {**{name: readings[name] for name in QUANTITIES}, "ghi_w_m2": nothing, "snow_depth_m": nothing}


def _calendar(hours: HourGrid, known: Flags, offset_h: float, around: int) -> Calendar:
    """The hours on local standard time, more put before and after; hours that are not known are absent."""
    first = hours.begin.replace(tzinfo=None) + dt.timedelta(hours=offset_h) - around * HOUR
    start: NDArray[np.datetime64] = np.datetime64(first, "m") + np.arange(hours.hours + 2 * around) * _HOUR_STEP
    return Calendar(start, np.flatnonzero(known) + around)


def standard_offset_h(zone: ZoneInfo, year: int) -> float:
    """Hours of a zone's standard time east of UTC: the smaller of January's and July's."""
    offsets = [dt.datetime(year, month, 1, 12, tzinfo=zone).utcoffset() for month in (1, 7)]
    return min(offset / HOUR for offset in offsets if offset is not None)


def _zone(points: Reply, site: Site, at: tuple[float, float] | None, file: str, told: list[Mended]) -> str:
    """The zone of the crew's clock: the job's, else the one that the service names, else by the longitude."""
    if site.time_zone:
        return site.time_zone
    named = points.get("timeZone")
    if isinstance(named, str) and named in available_timezones():
        told.append(Mended(file, "time zone", "not in the job file", f"{named}, as the service says"))
        return named
    longitude = site.longitude if site.longitude is not None else at[0] if at else 0.0
    offset = round(longitude / 15)
    zone = "Etc/GMT" if offset == 0 else f"Etc/GMT{-offset:+d}"
    told.append(Mended(file, "time zone", "not in the job file", "standard time by the longitude"))
    return zone


def _must_be_near(replies: Replies, site: Site, file: str) -> None:
    """A forecast for another place is refused: it would be read as this one's."""
    if replies.at is None or site.latitude is None or site.longitude is None:
        return
    east = (replies.at[0] - site.longitude + 180) % 360 - 180
    away = math.hypot(replies.at[1] - site.latitude, east * math.cos(math.radians(site.latitude))) * KM_A_DEGREE
    if away > table("forecast")["farthest"].number():
        read = f"a forecast for {replies.at[1]:.2f}, {replies.at[0]:.2f}, {away:.0f} km from the site"
        raise Refused([fault(file, read, f"a forecast for the job's site, {site.latitude:g}, {site.longitude:g}")])


def _station(replies: Replies, site: Site, offset_h: float) -> Station:
    height = replies.grid.get("elevation", replies.hourly.get("elevation"))
    elevation = number_of(height) if math.isfinite(number_of(height)) else site.elevation or 0.0
    at = replies.at or (site.longitude or 0.0, site.latitude or 0.0)
    latitude = at[1] if site.latitude is None else site.latitude
    longitude = at[0] if site.longitude is None else site.longitude
    return Station(NAME, ORIGIN, latitude, longitude, elevation, offset_h)


def _issued(replies: Replies) -> dt.datetime | None:
    """When the forecaster last changed it: the older of the replies, since hours are taken from both."""
    times = [time_of(part.get("updateTime", part.get("generatedAt"))) for part in (replies.grid, replies.hourly)]
    return min((time for time in times if time is not None), default=None)


def _place(replies: Replies) -> str:
    """The grid square, and the town nearby where the service names one."""
    points = replies.points
    grid = [points.get(key, replies.grid.get(key)) for key in ("gridId", "gridX", "gridY")]
    words = [f"grid {grid[0]} {grid[1]},{grid[2]}"] if all(isinstance(one, str | int) for one in grid) else []
    near = properties(points.get("relativeLocation") or {}) if isinstance(points.get("relativeLocation"), dict) else {}
    town = [str(near[key]) for key in ("city", "state") if isinstance(near.get(key), str)]
    told = plain(", ".join([*words, *(["near " + " ".join(town)] if town else [])]))[:80]
    return told if replies.at is not None else ", ".join(filter(None, [told, NO_PLACE]))


def _padded_flags(flags: Flags, around: int) -> Flags:
    return np.pad(flags, around)
