"""The next day in words: go, wait or stop for each operation, by the job's weather year or a forecast kept beside it.

The forecast is the one that the morning sheet asked the service for last; none is asked for here.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path

from lapwright.crew.calendar import make_calendar
from lapwright.faults import Fault, Refused
from lapwright.hours.values import HourTable
from lapwright.intake.forecast_keep import kept_path
from lapwright.job.models import Job
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.pages.morning import morning_page
from lapwright.packet.pages.words import MONTHS
from lapwright.plan.build import make_assembly, make_head
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.files import beside
from lapwright.plan.fitness import make_ask
from lapwright.plan.hourpart import make_hours
from lapwright.plan.morning import morning_of
from lapwright.plan.morningcrew import crew_of
from lapwright.plan.morningweather import DayWeather, Source, day_weather
from lapwright.plan.views.hourswhat import Looked, look
from lapwright.plan.views.registry import Json, Tell
from lapwright.units import read
from lapwright.units.unread import Unread

FORECAST = "forecast"
IS_KEPT = False  # the forecast beside the job may be another by now


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The morning sheet of the option `date`, or of the crew's first day; `why` where there is none.

    With the option `from` as `forecast` by the forecast kept beside the job, its first day where none is asked for.
    Raises: Refused with every fault, or where the date or the forecast can't be read
    """
    looked = look(stages, ask, options)
    kept = kept_beside(ask.path)
    head = {"kept": "" if kept is None else kept.name, "from": options.get("from", ""), "held": []}
    if options.get("from") == FORECAST:
        place = beside(ask.path.parent, kept_path(ask.path).name, key="forecast")
        return {**head, **of_forecast(looked, place, date_of(options.get("date", "")))}
    day = date_of(options.get("date", "")) or first_day(looked.job)
    missing = [words for words, is_there in (("weather is", looked.whole), ("crew.start is", day)) if is_there is None]
    if looked.whole is None or day is None:
        return {**head, "date": "", "label": "", "why": f"There is no morning: {' and '.join(missing)} not given"}
    return {
        **head,
        "date": day.isoformat(),
        "label": f"{day.day} {MONTHS[day.month - 1]}",
        "why": "",
        "page": page_of(looked, looked.whole, weather_of(looked, day)),
    }


def kept_beside(path: Path) -> Path | None:
    """The forecast kept beside a job; None where there is none in its own folder."""
    kept = kept_path(path)
    try:
        return kept if beside(path.parent, kept.name, key="forecast").is_file() else None
    except Refused:
        return None


def of_forecast(looked: Looked, kept: Path, day: date | None) -> Json:
    """The sheet of a day by a kept forecast, and the first and last day that it holds.

    Raises: Refused where it can't be read, or does not hold the day
    """
    job = looked.job
    assembly = make_assembly(job)
    asked = make_ask(job, looked.ask.path.parent, looked.roofs.areas, assembly)
    try:
        found = day_weather(job, looked.ask.path, asked, Source(forecast=str(kept), day=day))
    except Refused as refused:
        raise Refused([on_a_page(fault) for fault in refused.faults]) from None
    page = page_of(looked, make_hours(asked, found.year), found)
    held = [found.held[0].isoformat(), found.held[-1].isoformat()]
    return {"date": found.date.isoformat(), "label": "", "why": "", "held": held, "page": page}


def on_a_page(fault: Fault) -> Fault:
    """A fault of the command line's option in words of a page, where the day is a field."""
    return replace(fault, key="", write=fault.write.removeprefix("--day ")) if fault.key == "--day" else fault


def date_of(text: str) -> date | None:
    """The date asked for; None where none is.

    Raises: Refused
    """
    if not text:
        return None
    try:
        return read.date(text)
    except Unread as unread:
        raise Refused([Fault("", 0, 0, "date", text, unread.needs, unread.write)]) from None


def first_day(job: Job) -> date | None:
    """The first of the crew's working days from its start on; None where that is not given."""
    start, weekdays = job.crew.start, job.crew.days
    if start is None or not weekdays:
        return start
    return next(day for day in (start + timedelta(days=k) for k in range(7)) if day.weekday() in weekdays)


def weather_of(looked: Looked, day: date) -> DayWeather:
    """The job's own year on a day."""
    table = looked.whole
    if table is None:
        raise AssertionError("told before")
    hours = make_calendar(table.weather, str(looked.zone)).hours(day)
    return DayWeather(table.weather, looked.zone, day, hours, None, ())


def page_of(looked: Looked, table: HourTable, found: DayWeather) -> Json:
    """Everything that the sheet of a day says."""
    job, assembly = looked.job, make_assembly(looked.job)
    morning = morning_of(job, looked.roofs.areas, assembly, table, found)
    return morning_page(
        MorningPaper(make_head(job, looked.ask.path.name), morning, assembly, job.rules, crew_of(job)[0])
    )
