"""The 24 hours of a day, operation by operation: states to be drawn as hatches, and the same in words."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from lapwright.crew.values import CrewDay
from lapwright.hours.values import OPERATIONS, SHUT, STATE_WORDS, HourTable
from lapwright.packet.pages.fit import text_width
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, spans

DAY = range(24)
UNKNOWN = "none"
WORDS_WIDE = 52.0  # beside the strip, on one line [mm]


def day_strip(book: Book, day: CrewDay) -> Json | None:
    """Rows of the strip: operation, runs of hours in one state, its windows in words; None without an hour table.

    from, to: the crew's hours; why: what shuts which operation in them; measure: when only an instrument can tell.
    """
    hours, crew = book.paper.hours, book.paper.crew
    if hours is None:
        return None
    table = hours.as_dried()
    first, last = (crew.day_from.hour, last_hour(crew.day_to.hour, crew.day_to.minute)) if crew else (0, 24)
    operations = [name for name in OPERATIONS if name in table.states]
    rows = [strip_row(table, day.hours, operation) for operation in operations]
    clocks = range(first, last)
    return {
        "rows": rows,
        "from": first,
        "to": last,
        "has-unknown": any(word == UNKNOWN for row in rows for word, _ in row["runs"]),
        "why": reasons(table, day.hours, clocks),
        "measure": " ".join(
            filter(None, [measure_words(table, day.hours, clocks), same_day_words(hours, day.hours, clocks)])
        ),
    }


def same_day_words(hours: HourTable, of_day: Sequence[int], clocks: range) -> str:
    """That hours hold over a base laid today, or a roof swept and blown dry, where the table alone has them shut."""
    at = [of_day[clock] for clock in clocks if of_day[clock] >= 0]
    fresh, dried = hours.same_day().states, hours.as_dried().states

    def opens(after: Mapping[str, NDArray[np.uint8]], before: Mapping[str, NDArray[np.uint8]]) -> bool:
        return any(
            int(before[name][index]) == SHUT and int(after[name][index]) != SHUT for name in before for index in at
        )

    base = "Cap hours are those over a base laid today; an older base is dried and measured first."
    roof = "Hours after dew, frost or rain are those of a roof swept and blown dry first."
    words = [base if opens(fresh, hours.states) else "", roof if opens(dried, fresh) else ""]
    return " ".join(filter(None, words))


def last_hour(hour: int, minute: int) -> int:
    """The clock hour that a working day reaches into, counted from its end."""
    return hour + (1 if minute else 0)


def measure_words(table: HourTable, hours: Sequence[int], clocks: range) -> str:
    """The crew's hours in which the models of the surface differ across a limit: only an instrument can tell."""
    at = [clock for clock in clocks if hours[clock] >= 0 and bool(table.measure[hours[clock]])]
    runs = ", ".join(f"{first}-{last + 1}" for first, last in spans(at))
    return f"Measure first at {runs}: the models of the surface differ across a limit." if runs else ""


def strip_row(table: HourTable, hours: Sequence[int], operation: str) -> Json:
    """One operation over the day."""
    silent, states = table.is_unknown(operation), table.states[operation]
    cells = [
        UNKNOWN if at < 0 or silent[at] else STATE_WORDS[int(states[at])] for at in (hours[clock] for clock in DAY)
    ]
    runs = [[state, len(list(same))] for state, same in groupby(cells)]
    return {"name": operation.replace("_", " "), "runs": runs, "words": windows(cells)}


def windows(cells: Sequence[str]) -> str:
    """The hours that are not shut, with their states: `8-9 heat, 10-17 heat, open`; the strip shows which is when."""
    fit = [clock for clock, cell in enumerate(cells) if cell not in ("shut", UNKNOWN)]
    if not fit:
        return (
            "unknown all day" if "shut" not in cells else "shut all day" if UNKNOWN not in cells else "shut or unknown"
        )
    runs = spans(fit)
    said = [f"{first}-{last + 1} " + ", ".join(dict.fromkeys(cells[first : last + 1])) for first, last in runs]
    whole = "; ".join(said)
    return whole if text_width(whole) < WORDS_WIDE else f"{fit[0]}-{fit[-1] + 1}, with gaps"


def reasons(table: HourTable, hours: Sequence[int], clocks: range) -> list[str]:
    """What shuts the operations in the crew's hours: `7-9 dark: base, cap`, in the order of the hours."""
    found: dict[tuple[str, tuple[tuple[int, int], ...]], list[str]] = {}
    for operation in (name for name in OPERATIONS if name in table.states):
        for text, at in shut_hours(table, hours, clocks, operation).items():
            found.setdefault((text, tuple(spans(at))), []).append(operation.replace("_", " "))
    told = sorted(found.items(), key=lambda item: (item[0][1], item[0][0]))
    every = len(table.states)
    return [
        f"{', '.join(f'{a}-{b + 1}' for a, b in runs)} {text}: "
        + ("all work" if len(names) == every else ", ".join(names))
        for (text, runs), names in told
    ]


def shut_hours(table: HourTable, hours: Sequence[int], clocks: range, operation: str) -> dict[str, list[int]]:
    """The clock hours that each reason shuts."""
    found: dict[str, list[int]] = {}
    for clock in clocks:
        hour = hours[clock]
        if hour < 0 or bool(table.weather.absent[hour]):
            found.setdefault("no reading", []).append(clock)
        elif table.states[operation][hour] == SHUT:
            text = table.reasons[int(table.reason[operation][hour])]
            found.setdefault(text or "shut", []).append(clock)
    return found
