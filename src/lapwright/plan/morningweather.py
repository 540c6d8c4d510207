"""The weather of one day: the service's forecast, a saved one, the last good one, or the job's year."""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit
from zoneinfo import ZoneInfo

from lapwright import __version__
from lapwright.crew.calendar import Day, make_calendar
from lapwright.crew.clockhours import clock_hours
from lapwright.defaults.si import default_si
from lapwright.faults import Fault, Mended, Refused
from lapwright.intake.forecast_ask import SERVICE, Asking, Unanswered, ask_forecast
from lapwright.intake.forecast_keep import forecast_bytes, keep, kept_before, kept_path
from lapwright.intake.forecast_read import Site, read_forecast
from lapwright.job.models import Job
from lapwright.plan.files import read_bytes
from lapwright.plan.fitness import standard_zone
from lapwright.plan.hourpart import HourAsk, read_year
from lapwright.weather.expected import forecast_hours
from lapwright.weather.values import Forecast, WeatherYear

NWS = "nws"
DAY_H = 24


@dataclass(frozen=True, slots=True)
class Source:
    """Where the weather is to come from, as asked at the door.

    forecast: `nws`, a file's path, or None: the job's year.  save: where to put the service's replies as well.
    day: the date asked for.  now: the time, UTC; base: another address of the service; pause: waits, None as usual.
    """

    forecast: str | None = None
    save: Path | None = None
    day: dt.date | None = None
    now: dt.datetime | None = None
    base: str | None = None
    pause: Callable[[float], None] | None = None


@dataclass(frozen=True, slots=True)
class DayWeather:
    """The hours to judge and where the day lies in them.

    zone: of the crew's clock.  forecast: None for a year.  hours: index of the date's clock hours.  told: what the
    reader should know of how it came about.  held: dates of which a forecast knows some hour of the crew's day.
    """

    year: WeatherYear
    zone: ZoneInfo
    date: dt.date
    hours: Day
    forecast: Forecast | None
    told: tuple[str, ...]
    mended: tuple[Mended, ...] = ()
    held: tuple[dt.date, ...] = ()


def day_weather(job: Job, path: Path, ask: HourAsk, source: Source) -> DayWeather:
    """The weather of the day asked for.

    Raises: Refused where there is none, or the day is not in it.
    """
    if source.forecast is None:
        return _of_year(job, ask, source)
    content, name, told = _content(job, path, source)
    around = math.ceil(job.rules.dry_after_wet_s / 3600) + DAY_H
    site = Site(job.site.latitude, job.site.longitude, job.site.elevation, job.site.time_zone, around)
    forecast, mended = read_forecast(content, file=name, site=site)
    zone = ZoneInfo(forecast.time_zone)
    year = forecast_hours(forecast, rain_chance=default_si("forecast", "rain_chance"))
    days, from_begin = _known_days(job, forecast.hours, zone)
    date = source.day or _next_day(job, from_begin or days, zone, source)
    if date not in days:
        held = f"{days[0]} to {days[-1]}" if days else "no whole day"
        raise Refused(
            [
                Fault(
                    name,
                    0,
                    0,
                    "--day",
                    str(date),
                    f"a day that the forecast holds: {held}",
                    f"--day {days[0]}" if days else "",
                )
            ]
        )
    return DayWeather(year, zone, date, clock_hours(year, zone, date), forecast, told, mended, tuple(days))


def _of_year(job: Job, ask: HourAsk, source: Source) -> DayWeather:
    """The job's own weather year, laid on the job's calendar."""
    found = read_year(ask)
    if found is None:
        fault = job.fault(
            "weather", needs="weather, to say anything of a day", write="--forecast nws, or weather: {year: greensboro}"
        )
        raise Refused([fault])
    date = source.day or job.crew.start
    if date is None:
        raise Refused([job.fault("crew.start", needs="the day that is asked for", write="--day 2027-01-11")])
    year, _ = found  # what was mended in a year is told when the job is planned
    zone_name = job.site.time_zone or standard_zone(year.offset_h)
    hours = make_calendar(year, zone_name).hours(date)
    return DayWeather(year, ZoneInfo(zone_name), date, hours, None, ())


def _content(job: Job, path: Path, source: Source) -> tuple[bytes, str, tuple[str, ...]]:
    """The replies, the name of their file, and what to tell of how they came."""
    if source.forecast != NWS:
        file = Path(source.forecast or "")
        return read_bytes(file, needs="a saved forecast, or nws"), file.name, ()
    latitude, longitude = job.site.latitude, job.site.longitude
    missing = [key for key, value in (("latitude", latitude), ("longitude", longitude)) if value is None]
    if latitude is None or longitude is None:
        write = {"latitude": "latitude: 36.10", "longitude": "longitude: -79.95"}
        raise Refused(
            [
                job.fault(f"site.{key}", needs="where the roof is, to ask for its forecast", write=write[key])
                for key in missing
            ]
        )
    kept = kept_path(path)
    try:
        replies = ask_forecast(latitude, longitude, _asking(source), asked=_stamp(source.now))
    except Unanswered as silence:
        return _last_good(kept, str(silence), source)
    content = forecast_bytes({**replies, "before": kept_before(kept, replies["grid"])})
    told: tuple[str, ...] = ()
    if source.save is not None:
        keep(source.save, content)
    try:
        keep(kept, content)
    except Refused as refused:
        told = (f"The forecast could not be kept beside the job ({refused.faults[0].file}: {refused.faults[0].read}).",)
    return content, NWS, told


def _last_good(kept: Path, silence: str, source: Source) -> tuple[bytes, str, tuple[str, ...]]:
    """The last good forecast, named with its age; refused where there is none."""
    if not kept.is_file():
        needs = "an answer of the weather service, or a forecast kept from an earlier one"
        raise Refused(
            [Fault(kept.name, 0, 0, "--forecast nws", silence, needs, "the same again later, or --forecast FILE.json")]
        )
    content = read_bytes(kept, needs="a saved forecast")
    told = f"THE SERVICE DID NOT ANSWER ({silence}). This is the last good forecast, {kept.name}"
    return content, kept.name, (told + ".",)


def _asking(source: Source) -> Asking:
    """How the service is asked.

    Raises: Refused where the address given is none.
    """
    base = source.base or SERVICE
    if urlsplit(base).scheme not in ("http", "https") or not urlsplit(base).netloc:
        raise Refused([Fault("", 0, 0, "LAPWRIGHT_FORECAST_URL", base, "the address of a weather service", SERVICE)])
    agent = f"lapwright/{__version__} (hours for roof work)"
    return Asking(base, agent) if source.pause is None else Asking(base, agent, source.pause)


def _known_days(job: Job, hours: WeatherYear, zone: ZoneInfo) -> tuple[list[dt.date], list[dt.date]]:
    """Dates of which the forecast knows some hour of the crew's day, and those of which it knows the first."""
    begin, end = job.crew.day or (dt.time(0), dt.time(23, 59))
    first: dt.date = hours.start[0].astype("datetime64[D]").astype(dt.date)
    some, from_begin = [], []
    for date in (first + dt.timedelta(days=k) for k in range(len(hours.start) // DAY_H + 2)):
        at = clock_hours(hours, zone, date)[begin.hour : end.hour + 1]
        known = [index >= 0 and not bool(hours.absent[index]) for index in at]
        some += [date] if any(known) else []
        from_begin += [date] if known[0] else []
    return some, from_begin


def _next_day(job: Job, days: list[dt.date], zone: ZoneInfo, source: Source) -> dt.date:
    """Today while the crew's day lasts, else tomorrow; of a saved forecast its first day."""
    if source.forecast == NWS and source.now is not None:
        clock = source.now.astimezone(zone)
        end = job.crew.day[1] if job.crew.day else dt.time(12)
        return clock.date() if clock.time() < end else clock.date() + dt.timedelta(days=1)
    return days[0] if days else dt.date.min  # refused with what the forecast holds


def _stamp(now: dt.datetime | None) -> str:
    return "" if now is None else now.astimezone(dt.UTC).isoformat(timespec="seconds")
