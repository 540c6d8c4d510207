"""How long a base lies open, and temporary covers."""

from __future__ import annotations

import datetime as dt

import numpy as np
from crew_jobs import TWO, ZONE, make_hours, make_roof, make_small, plain_crew

from lapwright.crew.cover import Exposure, exposures
from lapwright.crew.days import make_days
from lapwright.crew.values import CrewSetting
from lapwright.crew.walk import walk
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HourTable

RULES = make_rules({})
DAY_S = 86_400.0


def seen(crew: CrewSetting, table: HourTable, days: float) -> tuple[Exposure, ...]:
    """Exposures on the roof of 20 m by 2.3 m where a base may lie open for so many days."""
    found = walk(make_small(), [make_roof()], TWO, table, crew, rules=RULES, time_zone=ZONE)
    return exposures(found, make_small(), within_s=days * DAY_S)


def test_time_from_laid_to_covered() -> None:
    """One long day: base 2 is down at 7:30 and covered with cap 2 at 8:30; base 3 from 8:10 to 8:40."""
    found = {one.id: one.lies_s / 60.0 for one in seen(plain_crew(), make_hours(), 3.0)}
    assert found == {"Main/base/01/1": 40.0, "Main/base/02/1": 60.0, "Main/base/03/1": 30.0}


def test_a_night_counts_in_full() -> None:
    """Days of an hour: base 2 down on the 11th at 7:30, cap 2 on the 12th at 7:40."""
    found = {one.id: one.lies_s / 60.0 for one in seen(plain_crew(day=(7, 8)), make_hours(), 3.0)}
    assert found["Main/base/02/1"] == 1440.0 + 10.0


def week_of_rain(table: HourTable, hour: np.ndarray) -> None:
    """Rain from the 12th to the 15th of January."""
    table.wet[264:360] = True


def test_a_long_gap_is_spent_under_a_cover() -> None:
    """From Monday 7:50 to the next Monday 7:00 the second base course is covered: it lay open 20 + 40 min in all."""
    found = {one.id: one for one in seen(plain_crew(day=(7, 8)), make_hours(week_of_rain), 3.0)}
    two = found["Main/base/02/1"]
    assert (two.nights, two.lies_s, two.open_s) == ((0,), 7 * DAY_S + 600.0, (20 + 40) * 60.0)
    assert found["Main/base/03/1"].nights == ()


def test_the_cover_is_a_task_of_the_day_before_the_gap() -> None:
    """Two base courses by 8:30; the cap (30 min) would run into the clean-up at 8:50: both are covered at 8:30."""
    crew = plain_crew(day=(7, 9), cap=40.0 / 3600.0, base=20.0 / 3600.0, clean_up=600.0)
    days = make_days(make_small(), [make_roof()], TWO, make_hours(week_of_rain), crew, rules=RULES, time_zone=ZONE)
    covers = [
        (day.number, task.ids, task.begin_min) for day in days for task in day.tasks if task.what == "cover open base"
    ]
    assert covers == [(1, ("Main/base/01/1", "Main/base/02/1"), 510)]


def test_a_piece_never_covered_lies_open_to_the_end() -> None:
    """A walk that gives up leaves it open to its last day."""

    def cap_shut(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][:] = 3

    found = seen(plain_crew(), make_hours(cap_shut), 3.0)
    last = dt.date(2027, 1, 11) + dt.timedelta(days=3 * 366 - 1)
    longest = max(one.lies_s for one in found)
    assert (last - dt.date(2027, 1, 11)).days * DAY_S < longest + 4 * DAY_S
    assert max(one.open_s for one in found) <= 3 * DAY_S
