"""The longest stretch of each day in which an operation can go on (question 5)."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass

import numpy as np

from lapwright.hours.values import SHUT, HourTable

HOURS_A_DAY = 24


@dataclass(frozen=True, slots=True)
class Window:
    """A stretch of hours that are not shut: index of its first hour in the table, and how many."""

    operation: str
    date: dt.date
    begin: int
    hours: int


def longest_windows(table: HourTable, *, from_hour: int = 0, to_hour: int = HOURS_A_DAY) -> tuple[Window, ...]:
    """The longest window of each operation on each day that has one, by operation, then date.

    Args:
        from_hour, to_hour: the crew's day by the clock; hours outside it do not count.

    Of two equally long the earlier is taken.
    Source: arithmetic
    """
    days = table.weather.start.astype("datetime64[D]")
    clock = (table.weather.start - days).astype("timedelta64[h]").astype(int)
    at_work = (clock >= from_hour) & (clock < to_hour)
    found: list[Window] = []
    for operation, states in table.states.items():
        can_go = (states < SHUT) & at_work
        # a run ends where the work stops and at midnight; cumulative counts restart there
        edges = np.flatnonzero(
            np.diff(can_go.astype(np.int8), prepend=0) | (np.diff(days.astype(int), prepend=-1) != 0)
        )
        best: dict[dt.date, Window] = {}
        for begin, end in zip(edges.tolist(), [*edges[1:].tolist(), len(states)], strict=True):
            day = days[begin].item()
            if can_go[begin] and (day not in best or end - begin > best[day].hours):
                best[day] = Window(operation, day, begin, end - begin)
        found.extend(best.values())
    return tuple(found)
