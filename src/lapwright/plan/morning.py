"""The morning of a day: weather, hours, roll clock, store, weld speed and crew brought together for one sheet."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import cast
from zoneinfo import ZoneInfo

import numpy as np

from lapwright.assembly.values import Assembly
from lapwright.crew.calendar import weather_date
from lapwright.crew.morning import CLOSES_A_ROOF, DayAsked, crew_hours, operations_today, together
from lapwright.crew.morninghours import HourAsked, hours_today
from lapwright.crew.shift import weld_stop_min
from lapwright.crew.values import CrewSetting, Morning, MorningHour, Opened, OperationToday, WarmRolls
from lapwright.crew.warming import Stand, WarmAsk, is_warm, shortest_lasting, warm_rolls
from lapwright.defaults.si import default_si
from lapwright.faults import Mended
from lapwright.heat.rollclock import RollAsk
from lapwright.heat.store import Stack, Wrapping
from lapwright.heat.storeplan import rolls_come_c
from lapwright.heat.values import StoreSetting
from lapwright.hours.clock import crew_clock
from lapwright.hours.minutes import minutes_of
from lapwright.hours.values import HourTable
from lapwright.hours.windows import SafeWindow, safe_windows
from lapwright.job.models import Job
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.pages.strip import same_day_words
from lapwright.packet.values import Paper
from lapwright.plan.build import make_assembly, make_head
from lapwright.plan.fitness import make_ask, rates_of, standard_zone
from lapwright.plan.hourpart import make_hours
from lapwright.plan.morningcrew import (
    WHOLE_DAY,
    AtWork,
    based_today,
    crew_of,
    crew_span,
    limit_keys,
    opened_today,
    thickness_keys,
    weld_keys,
)
from lapwright.plan.morningweather import DayWeather, Source, day_weather
from lapwright.plan.reading import read_job_file
from lapwright.plan.tools import WELD_KEYS, make_weld_ask, speed_at
from lapwright.plan.warmth import make_setting
from lapwright.roof.values import Area
from lapwright.units.write import Units

NIGHT_H = 8  # a surface forgets an evening's weather by morning, not a night's


@dataclass(frozen=True, slots=True)
class ProvedWeld:
    """A test weld given at the door, before the job file's: speed [m/s], sheet, nozzle [°C]; None: as the job says."""

    speed_m_s: float | None = None
    sheet_c: float | None = None
    nozzle_c: float | None = None


def morning_paper(path: Path, source: Source, weld: ProvedWeld) -> tuple[MorningPaper, tuple[Mended, ...]]:
    """What the sheet of the day asked for is printed from, and what was mended on the way in.

    Raises: Refused with every fault of the job file, or where there is no weather for the day.
    """
    job, roofs = read_job_file(path)
    job = with_weld(job, weld)
    assembly = make_assembly(job)
    ask = make_ask(job, path.parent, roofs.areas, assembly)
    found = day_weather(job, path, ask, source)
    table = make_hours(ask, found.year)
    morning = morning_of(job, roofs.areas, assembly, table, found)
    paper = MorningPaper(make_head(job, path.name), morning, assembly, job.rules, crew_of(job)[0])
    return paper, (*roofs.mended, *found.mended)


def with_weld(job: Job, weld: ProvedWeld) -> Job:
    """The job with the morning's own test weld."""
    given = {"proved_speed": weld.speed_m_s, "proved_sheet": weld.sheet_c, "nozzle": weld.nozzle_c}
    own: dict[str, float | None] = {key: value for key, value in given.items() if value is not None}
    if not own:
        return job
    # the air of another day's test weld says nothing of this one's
    if weld.sheet_c is not None:
        own["proved_air"] = None
    return job.model_copy(update={"weld": job.weld.model_copy(update=own)})


def morning_of(job: Job, areas: Sequence[Area], assembly: Assembly, table: HourTable, found: DayWeather) -> Morning:
    """The values of the sheet."""
    crew, crew_keys = crew_of(job)
    supply = ("--forecast nws",) if found.forecast is None else ("a forecast that says it",)
    stop = WHOLE_DAY[1] if crew is None or crew.fire_watch_s is None else int(weld_stop_min(crew))
    dry_s = rates_of(job).get("primer_dry", default_si("rates", "primer_dry"))
    day = DayAsked(found.hours, crew_span(job), limit_keys(job), weld_keys(crew, crew_keys), stop, supply, dry_s)
    operations = operations_today(table, windows_of(job, table, day), day)
    overall = together(operations, CLOSES_A_ROOF, day)
    unknown = [("how much may be opened", crew_keys)] if crew_keys else []
    opened = based = None
    if crew is not None:
        at_work = AtWork(job, areas, assembly, table, day, crew)
        based = based_today(at_work, operations)
        opened, more = opened_today(at_work, operations, overall)
        unknown += more
    setting = None if job.store is None else make_setting(job.store)
    is_kept = setting is not None and setting.store_c is not None
    store_c = (
        setting.store_c if setting is not None and setting.store_c is not None else default_si("heat", "warm_roll")
    )
    chance = None if found.forecast is None else found.forecast.rain_chance
    coldest_ply, roll = roll_asked(assembly, table, day, operations, store_c)
    hours = hours_today(table, day, HourAsked(chance, roll, weld_asked(job)))
    ask = warm_ask(table, day, setting, store_c)
    warm = warm_today(assembly, hours, operations, (opened, based), crew=crew, ask=ask)
    if any(is_warm(one) for one in operations) and not warm:
        unknown.append(("the warm rolls", crew_keys or thickness_keys(job)))
    if warm and not is_kept:
        unknown.append(("the store's own temperature", ("store.temperature",)))
    if make_weld_ask(job) is None:
        unknown.append(("weld speeds", tuple(f"weld.{key}" for key in WELD_KEYS if getattr(job.weld, key) is None)))
    forecast = found.forecast
    return Morning(
        date=found.date,
        weather=found.year.name,
        weather_date=found.date if forecast else weather_date(found.year, found.hours, found.date),
        is_forecast=forecast is not None,
        issued=None if forecast is None or forecast.issued is None else forecast.issued.astimezone(found.zone),
        age_s=age_s(found, day),
        place=forecast.place if forecast else "",
        crew_min=day.crew_min,
        sun=sun_today(job, table, day),
        overall=overall,
        operations=operations,
        hours=hours,
        opened=opened,
        warm=warm,
        unknown=tuple(unknown),
        notes=(*found.told, *notes_of(job, table, day, found)),
        thunder=thunder_hours(day, found),
        proved=proved_of(job),
        based=based,
        roll_ply=coldest_ply,
    )


def with_morning(job: Job, paper: Paper) -> Paper:
    """A paper whose days are planned, with the morning of its first one; none where that has no date."""
    first = paper.days[0] if paper.days else None
    if first is None or first.date is None or paper.hours is None:
        return paper
    year = paper.hours.weather
    zone = ZoneInfo(job.site.time_zone or standard_zone(year.offset_h))
    found = DayWeather(year, zone, first.date, first.hours, None, ())
    return replace(paper, morning=morning_of(job, paper.areas, paper.assembly, paper.hours, found))


def windows_of(job: Job, table: HourTable, day: DayAsked) -> Mapping[str, SafeWindow | None]:
    """The longest window of each operation in the crew's day, on a roof that the crew dries; none without hours."""
    begin, end = day.crew_min
    known = [(hour, day.hours[hour]) for hour in crew_hours(day) if day.hours[hour] >= 0]
    if not known:
        return {}
    start, minute = table.weather.start, np.timedelta64(1, "m")
    first = start[known[0][1]] + max(0, begin - 60 * known[0][0]) * minute
    last = start[known[-1][1]] + min(60, end - 60 * known[-1][0]) * minute
    return safe_windows(table, first, last, rules=job.rules, units=Units(job.units), dried=True)


def roll_asked(
    assembly: Assembly, table: HourTable, day: DayAsked, operations: Sequence[OperationToday], store_c: float
) -> tuple[str, RollAsk | None]:
    """The ply whose warm roll is lost first in the crew's coldest air and strongest wind, and that roll."""
    warm = [one.operation for one in operations if is_warm(one)]
    at = [day.hours[hour] for hour in crew_hours(day) if day.hours[hour] >= 0]
    air_c, wind_m_s = table.weather.air_c[at], table.weather.wind_m_s[at]
    air_c, wind_m_s = air_c[np.isfinite(air_c)], wind_m_s[np.isfinite(wind_m_s)]
    if not len(air_c) or not len(wind_m_s):
        return "", None
    plies = [ply for ply in assembly.plies if ply.ply in warm]
    found = shortest_lasting(plies, store_c, air_c=float(air_c.min()), wind_m_s=float(wind_m_s.max()))
    return ("", None) if found is None else (found[0].ply, found[1])


def weld_asked(job: Job) -> Callable[[float, float], float | None] | None:
    """The speed of a lap on a sheet and in air [°C]; None without a test weld."""
    weld, holds = make_weld_ask(job), job.weld.holds_nozzle
    if weld is None:
        return None
    return lambda sheet_c, air_c: speed_at(weld, sheet_c, air_c, holds_nozzle=holds)


def warm_ask(table: HourTable, day: DayAsked, setting: StoreSetting | None, store_c: float) -> WarmAsk | None:
    """The store, and how cold the rolls are when it goes on; None where no air is known before the crew comes."""
    first = next((day.hours[hour] for hour in crew_hours(day) if day.hours[hour] >= 0), 0)
    cold_c = rolls_come_c(table.weather.air_c, first)
    if cold_c is None or setting is None:
        return None if cold_c is None else WarmAsk(store_c, cold_c)
    stack, wrapping = cast(Stack, setting.stack), cast(Wrapping, setting.wrapping)  # words of the job file's model
    stand = Stand(stack, setting.rows, setting.columns, wrapping, setting.fans)
    name = "single rolls" if setting.stack == "single" else f"{setting.wrapping} pallet"
    own = (f"as they stand ({name}{', fans' if setting.fans else ''})", stand)
    return WarmAsk(store_c, cold_c, setting.distance, setting.cover_w_m2k, setting.speed_m_s, setting.carry, own)


def warm_today(
    assembly: Assembly,
    hours: Sequence[MorningHour],
    operations: Sequence[OperationToday],
    may_open: tuple[Opened | None, Opened | None],
    *,
    crew: CrewSetting | None,
    ask: WarmAsk | None,
) -> tuple[WarmRolls, ...]:
    """The warm rolls of each ply that asks for them: enough for whichever opens more.

    may_open: with all plies, and with all but the cap.
    """
    if crew is None or ask is None:
        return ()
    said = {one.operation: one for one in operations}
    top = assembly.plies[-1].ply
    made = [
        warm_rolls(ply, said[ply.ply], hours, more_of(ply.ply, may_open), crew=crew, is_top=ply.ply == top, ask=ask)
        for ply in assembly.plies
        if ply.ply in said
    ]
    return tuple(one for one in made if one is not None)


def more_of(ply: str, may_open: tuple[Opened | None, Opened | None]) -> Opened | None:
    """Of two ways to open the one that takes more of a ply; None where neither takes any."""
    taking = [one for one in may_open if one is not None and ply in one.rolls]
    return max(taking, key=lambda one: one.rolls[ply], default=None)


def age_s(found: DayWeather, day: DayAsked) -> float | None:
    """From the forecast's issue to the begin of the crew's day [s]."""
    if found.forecast is None or found.forecast.issued is None:
        return None
    hour, minute = divmod(day.crew_min[0], 60)
    begins = dt.datetime.combine(found.date, dt.time(hour, minute), found.zone)
    return (begins - found.forecast.issued).total_seconds()


def sun_today(job: Job, table: HourTable, day: DayAsked) -> tuple[int, int] | None:
    """First and last minute of the day's clock with the sun up; None where there is none."""
    up = [
        60 * hour + int(minute)
        for hour, index in enumerate(day.hours)
        if index >= 0
        for minute in np.flatnonzero(minutes_of(table, range(index, index + 1), job.rules).readings.daylight)
    ]
    return (up[0], up[-1]) if up else None


def thunder_hours(day: DayAsked, found: DayWeather) -> tuple[int, ...]:
    """Crew hours in which thunderstorms are named at all."""
    flags = found.year.thunder if found.forecast is None else found.forecast.thunder
    return tuple(
        hour for hour in crew_hours(day) if flags is not None and day.hours[hour] >= 0 and bool(flags[day.hours[hour]])
    )


def notes_of(job: Job, table: HourTable, day: DayAsked, found: DayWeather) -> list[str]:
    """What the reader should know of the weather: where it comes from, what it lacks."""
    told = []
    missing = [hour for hour in crew_hours(day) if day.hours[hour] < 0 or bool(table.weather.absent[day.hours[hour]])]
    if missing:
        told.append(f"No reading for {len(missing)} of the crew's hours, from {missing[0]:02d}:00: they are shut.")
    if job.crew.day is None:
        told.append("The crew's day is not given (crew.day): the whole day is looked at.")
    elif job.crew.days is not None and found.date.weekday() not in job.crew.days:
        told.append("This is not one of the crew's days (crew.days).")
    late = late_begin(day, found)
    if late:
        told.append(
            f"The forecast begins at {late}: dew, frost or rain of the night is not in it. Feel and measure first."
        )
    told += filter(None, [same_day_words(table, day.hours, crew_hours(day))])
    if found.forecast is not None and bool(np.isnan(found.forecast.hours.cloud).all()):
        told.append("The forecast has no sky cover: the surface is reckoned from clear to overcast.")
    return told


def late_begin(day: DayAsked, found: DayWeather) -> str:
    """When a forecast begins that does not know the night before the crew's day; empty where it does."""
    first = next((day.hours[hour] for hour in crew_hours(day) if day.hours[hour] >= 0), None)
    if found.forecast is None or first is None:
        return ""
    known = np.flatnonzero(~found.forecast.hours.absent)
    if not len(known) or int(known[0]) <= first - NIGHT_H:
        return ""
    begins = found.year.start[known[0]] + np.timedelta64(60, "m")  # its reading stands at its end
    clock = crew_clock(begins, offset_h=found.year.offset_h, zone=found.zone)
    return f"{clock:%H:%M}"


def proved_of(job: Job) -> tuple[float, float, float] | None:
    """Speed, sheet and nozzle of the test weld."""
    weld = make_weld_ask(job)
    return None if weld is None else (weld.proved_speed_m_s, weld.proved_sheet_c, weld.nozzle_c)
