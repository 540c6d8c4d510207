"""The hours to look at: the state of every hour and operation, what shuts it, and what the months come to.

States and reasons are texts of one letter an hour, so that a year of nine operations stays small.  A state is the
first letter of `open`, `warm`, `heat`, `shut` or `unknown`; a reason is the letter as many places after "0" as it
stands in `reasons`.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from numpy.typing import NDArray

from lapwright.hours.values import HourTable, Limits
from lapwright.job.models import YEARS
from lapwright.packet.pages.words import MONTHS
from lapwright.packet.pages.words import table as make_table
from lapwright.packet.sheets.hourspicture import MEANING, WORDS, codes, operation_words
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.hoursliders import sliders
from lapwright.plan.views.hourswhat import Looked, as_json, clock_minutes, crew_minutes, look
from lapwright.plan.views.registry import Json, Tell
from lapwright.units.write import Units, decimals

LETTERS = np.array([word[0] for word in WORDS])
FIRST = ord("0")


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """Every hour under the options `year`, `start`, `wind`, `margin` and `dried` (see `hourswhat`).

    Raises: Refused with every fault
    """
    looked = look(stages, ask, options)
    head = {
        "years": list(YEARS),
        "own": own_weather(looked),
        "edits": as_json(looked.edits),
        "sliders": sliders(looked),
        "why": "" if looked.table else "There are no hours: weather is not given",
    }
    return head if looked.table is None else {**head, **hours_of(looked, looked.table)}


def own_weather(looked: Looked) -> str:
    """The weather that the job file names; empty where it names none."""
    typed = looked.own.weather
    return "" if typed is None else typed.year or typed.file or ""


def hours_of(looked: Looked, table: HourTable) -> Json:
    """The hours and their counts."""
    clock = clock_minutes(looked, table)
    at_work = crew_minutes(clock, looked.job.crew.day)
    units = looked.units
    state_of = {name: codes(table, name) for name in table.states}
    return {
        "weather": table.weather.name,
        "hours": len(table.weather.start),
        "first": int(hour_of_day(table)[0]),
        "days": days_of(table),
        "months": months_of(table),
        "words": list(WORDS),
        "meaning": dict(MEANING),
        "operations": [
            {"key": name, "words": operation_words(name), "limits": limit_words(table.limits[name], units)}
            for name in table.states
        ],
        "states": {name: "".join(LETTERS[found]) for name, found in state_of.items()},
        "reasons": list(table.reasons),
        "reason": {
            name: letters_of(np.where(state_of[name] < WORDS.index("shut"), 0, table.reason[name]))
            for name in table.states
        },
        "measure": "".join(np.where(table.measure, "m", "-")),
        "clock": letters_of(clock // 60),
        "crew": "".join(np.where(at_work > 0, "c", "-")),
        "counts": counts_of(table, state_of, at_work),
    }


def letters_of(places: NDArray[np.int64]) -> str:
    """Whole numbers 0 … 255 as letters."""
    return "".join(chr(FIRST + int(place)) for place in places)


def hour_of_day(table: HourTable) -> NDArray[np.int64]:
    """The hour of standard time at which each hour begins, (hours,)."""
    start = table.weather.start
    found: NDArray[np.int64] = (start - start.astype("datetime64[D]")).astype("timedelta64[h]").astype(np.int64)
    return found


def days_of(table: HourTable) -> list[str]:
    """Each day in words: `5 Jan`."""
    days = np.unique(table.weather.start.astype("datetime64[D]"))
    return [f"{day.day} {MONTHS[day.month - 1]}" for day in days.tolist()]


def months_of(table: HourTable) -> list[Json]:
    """Each month: its name, its first day's place in `days`, the day of the month that this is, how many days."""
    days = np.unique(table.weather.start.astype("datetime64[D]")).tolist()
    found: list[Json] = []
    for place, day in enumerate(days):
        if not found or day.day == 1:
            found.append({"name": MONTHS[day.month - 1], "first": place, "date": day.day, "days": 0})
        found[-1]["days"] += 1
    return found


def limit_words(limits: Limits, units: Units) -> str:
    """An operation's limits in words."""
    if limits.apply_c is None:
        return "limit not given"
    said = [f"open from {units.temperature(limits.apply_c)}"]
    for words, limit_c in (("warm rolls", limits.warm_c), ("warm rolls, laps welded", limits.heat_c)):
        if limit_c is not None:
            said.append(f"{words} from {units.temperature(limit_c)}")
    return ", ".join(said)


def counts_of(table: HourTable, state_of: Mapping[str, NDArray[np.int64]], at_work: NDArray[np.int64]) -> Json:
    """Hours in each state, in all hours and in the crew's day: by month of each operation, and by operation."""
    month = table.weather.start.astype("datetime64[M]").astype(np.int64)
    minutes = {"all": np.full(month.shape, 60), "crew": at_work}
    rows = {
        which: [[operation_words(name), *summed(found, each)] for name, found in state_of.items()]
        for which, each in minutes.items()
    }
    return {
        "by_month": {
            name: {which: month_table(found, month, each) for which, each in minutes.items()}
            for name, found in state_of.items()
        },
        "by_operation": {which: count_table("Operation", found) for which, found in rows.items()},
    }


def month_table(state: NDArray[np.int64], month: NDArray[np.int64], minutes: NDArray[np.int64]) -> Json:
    """Hours of an operation by month, all of them under it.  minutes: of each hour that are counted."""
    rows = [
        [MONTHS[int(first) % 12], *summed(state[month == first], minutes[month == first])] for first in np.unique(month)
    ]
    return count_table("Month", [*rows, ["all", *summed(state, minutes)]], bold=(len(rows),))


def count_table(first: str, rows: list[list[str]], bold: tuple[int, ...] = ()) -> Json:
    """A table of hours in each state."""
    head = (first, *WORDS)
    return make_table(head, rows, ["auto"] * len(head), right=range(1, len(head)), bold=bold)


def summed(state: NDArray[np.int64], minutes: NDArray[np.int64]) -> list[str]:
    """Hours in each state; an hour of which the crew works a part counts as that part."""
    found = np.bincount(state, weights=minutes, minlength=len(WORDS))
    return [decimals(float(total) / 60, 1) for total in found]
