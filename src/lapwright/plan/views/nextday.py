"""The next day in words: go, wait or stop for each operation, by the job's own weather year; not a forecast."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta

from lapwright.crew.calendar import make_calendar
from lapwright.faults import Fault, Refused
from lapwright.job.models import Job
from lapwright.packet.morningvalues import MorningPaper
from lapwright.packet.pages.morning import morning_page
from lapwright.packet.pages.words import MONTHS
from lapwright.plan.build import make_assembly, make_head
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.morning import morning_of
from lapwright.plan.morningcrew import crew_of
from lapwright.plan.morningweather import DayWeather
from lapwright.plan.views.hourswhat import Looked, look
from lapwright.plan.views.registry import Json, Tell
from lapwright.units import read
from lapwright.units.unread import Unread


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The morning sheet of the option `date`, or of the crew's first day; `why` where there is none.

    Raises: Refused with every fault, or where the date can't be read
    """
    looked = look(stages, ask, options)
    day = date_of(options.get("date", "")) or first_day(looked.job)
    missing = [words for words, is_there in (("weather is", looked.whole), ("crew.start is", day)) if is_there is None]
    if looked.whole is None or day is None:
        return {"date": "", "label": "", "why": f"There is no morning: {' and '.join(missing)} not given"}
    return {
        "date": day.isoformat(),
        "label": f"{day.day} {MONTHS[day.month - 1]}",
        "why": "",
        "page": page_of(looked, day),
    }


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


def page_of(looked: Looked, day: date) -> Json:
    """Everything that the sheet of a day says."""
    job, table = looked.job, looked.whole
    if table is None:
        raise AssertionError("told before")
    assembly = make_assembly(job)
    hours = make_calendar(table.weather, str(looked.zone)).hours(day)
    found = DayWeather(table.weather, looked.zone, day, hours, None, ())
    morning = morning_of(job, looked.roofs.areas, assembly, table, found)
    return morning_page(
        MorningPaper(make_head(job, looked.ask.path.name), morning, assembly, job.rules, crew_of(job)[0])
    )
