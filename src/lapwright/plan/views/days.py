"""The crew's days: all of them on a calendar, and each one's sheet."""

from __future__ import annotations

from collections.abc import Mapping

from lapwright.crew.values import CrewDay
from lapwright.faults import Fault, Refused
from lapwright.packet.page import day_plan_size
from lapwright.packet.pages.day import day_page
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.words import WEEKDAYS, counted, date_words
from lapwright.packet.sheets.day import day_sheet
from lapwright.packet.svg import svg_text
from lapwright.packet.values import Paper
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.registry import Json, Tell


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """All days in short; with the option `day` the sheet of that one.

    Raises: Refused with every fault, or where there is no such day
    """
    paper, _ = stages.planned(ask, tell)
    asked = options.get("day")
    if asked is None:
        return {"weekdays": list(WEEKDAYS), "days": [short(day) for day in paper.days], "why": why_none(paper)}
    found = next((day for day in paper.days if str(day.number) == asked), None)
    if found is None:
        raise Refused([Fault("", 0, 0, "day", asked, f"a day from 1 to {len(paper.days)}", "1")])
    return sheet(paper, found)


def why_none(paper: Paper) -> str:
    """Why there are no days; empty where there are."""
    if paper.days:
        return ""
    missing = [words for words, is_there in (("weather", paper.hours), ("crew", paper.crew)) if is_there is None]
    return f"there are no days: {' and '.join(missing) or 'what they hang on'} is not given"


def short(day: CrewDay) -> Json:
    """A day on the calendar.  weekday: 0 for Monday; None where days have no dates."""
    return {
        "number": day.number,
        "date": day.date.isoformat() if day.date is not None else "",
        "words": date_words(day.date) or f"day {day.number}",
        "weekday": day.date.weekday() if day.date is not None else None,
        "pieces": counted(len(day.pieces), "piece"),
        "laps": counted(len(day.laps), "lap"),
        "lost": list(day.lost),
    }


def sheet(paper: Paper, day: CrewDay) -> Json:
    """A day's sheet with its plan as SVG; lists that paper has no room for are whole here."""
    width, height = day_plan_size(paper.head.paper)
    plate = day_sheet(paper, day, width=width, height=height)
    page = day_page(open_book(paper), day)
    return {
        "number": day.number,
        "of": len(paper.days),
        **{key: value for key, value in page.items() if key != "whole"},
        **page["whole"],
        "plan": svg_text(plate, named=False),
    }
