"""Crew days for the day sheets."""

from __future__ import annotations

import itertools

import numpy as np
import pytest
from crew_jobs import JANUARY_11, TWO, ZONE, make_hours, make_roof, make_small, metal, plain_crew, side_lap

from lapwright.crew.days import make_days
from lapwright.crew.values import CrewDay, CrewSetting, Task
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, WARM, HourTable
from lapwright.layout.values import Layout

LAPS = (side_lap("01/1", "02/1", "cap", 20.0, 0.9), side_lap("02/1", "03/1", "cap", 20.0, 1.8))
SMALL = make_small(laps=LAPS)


def made(
    crew: CrewSetting, table: HourTable | None = None, layout: Layout = SMALL, **more: object
) -> tuple[CrewDay, ...]:
    """The days of the roof of 20 m by 2.3 m."""
    hours = make_hours() if table is None else table
    return make_days(layout, [make_roof()], TWO, hours, crew, rules=make_rules({}), time_zone=ZONE, **more)


def cold(table: HourTable, hour: np.ndarray) -> None:
    """Base from warm rolls, cap with heat."""
    table.states["base"][:] = WARM
    table.states["cap"][:] = HEAT


def test_tasks_follow_the_clock() -> None:
    """One person: 10 + 20 min of base, 20 of cap, 20 of base, 20 + 10 of cap; equal pieces are one task."""
    (day,) = made(plain_crew())
    tasks = [
        (task.what, task.begin_min, task.end_min, len(task.ids)) for task in day.tasks if task.end_min > task.begin_min
    ]
    assert tasks == [
        ("base", 420, 450, 2),
        ("cap", 450, 470, 1),
        ("base", 470, 490, 1),
        ("cap", 490, 520, 2),
    ]


def test_day_lists_what_was_put_down_and_closed() -> None:
    """Pieces in laying order, details apart, laps with their later piece, no tie-off on the last day."""
    (day,) = made(plain_crew(), layout=make_small(laps=LAPS, details=(metal(1, 0, 3),)))
    assert [id.removeprefix("Main/") for id in day.pieces] == [
        *("base/01/1", "base/02/1", "cap/01/1", "base/03/1", "cap/02/1", "cap/03/1"),
    ]
    assert (day.details, day.laps, day.tie_off) == (("Main/side 1/metal 1",), tuple(lap.id for lap in LAPS), ())


def test_days_are_numbered_and_dated() -> None:
    """Two days of an hour; the first is closed along 1.4 m."""
    days = made(plain_crew(day=(7, 8)))
    assert [(day.number, str(day.date), str(day.weather_date)) for day in days] == [
        (1, "2027-01-11", "2015-01-11"),
        (2, "2027-01-12", "2015-01-12"),
    ]
    assert days[0].tie_off == (((0.0, 1.4), (20.0, 1.4)),)


def test_without_a_start_days_have_numbers_only() -> None:
    """The date of the weather stays."""
    days = made(plain_crew(start=None))
    assert [(day.number, day.date, str(day.weather_date)) for day in days] == [(1, None, "2015-01-01")]


def test_hours_of_the_day_are_those_of_the_weather() -> None:
    """11 January is hours 240 to 263."""
    assert made(plain_crew())[0].hours == tuple(range(240, 264))


def test_welding_days_carry_watch_and_stop() -> None:
    """Two people, one on watch. Caps of 20, 20, 10 min by one hand; 20 m of lap at 60 m/h are 20 min of tool after it.

    Base 7:00-7:30, cap 7:30-7:50 without a lap, base to 8:10, cap 8:10-8:50, cap 8:50-9:20.
    """
    (day,) = made(plain_crew(2, fire_watch_s=5400.0), make_hours(cold))
    watch = [task for task in day.tasks if task.what == "fire watch"]
    assert (day.stop_welding_min, [(task.begin_min, task.end_min, task.people) for task in watch]) == (
        810,
        [(450, 650, 1)],
    )


def test_time_at_the_tool_stands_beside_the_elapsed_time() -> None:
    """40 m of side lap at 6 in/s are 262.5 s; the tasks they are in last 70 min."""
    (day,) = made(plain_crew(2), make_hours(cold))
    caps = [task for task in day.tasks if task.what == "cap" and task.tool_s > 0.0]
    assert sum(task.tool_s for task in caps) == pytest.approx(40.0 / (6 * 0.0254))
    assert sum(task.end_min - task.begin_min for task in caps) == 70


def test_nobody_welds_in_open_hours() -> None:
    """Laps are rolled: no tool, no watch, no stop."""
    (day,) = made(plain_crew(2))
    assert (day.stop_welding_min, sum(task.tool_s for task in day.tasks)) == (None, 0.0)


def test_contact_is_asked_for_warm_and_heat_hours() -> None:
    """The lowest over the hours in which a ply is laid; base warm at 7 and 8, cap with heat from 7 to 9."""
    (day,) = made(plain_crew(2), make_hours(cold), contact=lambda ply, hour: hour + (100.0 if ply == "cap" else 0.0))
    assert dict(day.contact_c) == {"base": 247.0, "cap": 347.0}


def test_contact_that_is_not_known_stays_so() -> None:
    """One hour without data leaves the ply without a number; open hours are not asked."""
    asked = made(
        plain_crew(2), make_hours(cold), contact=lambda ply, hour: None if (ply, hour) == ("cap", 248) else 1.0
    )
    assert dict(asked[0].contact_c) == {"base": 1.0, "cap": None}
    assert dict(made(plain_crew(2))[0].contact_c) == {}


def test_breaks_and_clean_up_are_tasks() -> None:
    """7 to 15: breaks at 9:00 and 11:00; a slow person (200 min of work) ends at 10:35, cleans up till 10:50."""
    crew = plain_crew(morning_break=900.0, noon_break=1800.0, clean_up=900.0, base=30.0 / 3600.0, cap=30.0 / 3600.0)
    (day,) = made(crew)
    rest = [(task.what, task.begin_min, task.end_min) for task in day.tasks if task.what in ("break", "clean-up")]
    assert rest == [("break", 540, 555), ("clean-up", 635, 650)]


def overlapping(tasks: tuple[Task, ...]) -> list[tuple[Task, Task]]:
    """Pairs of tasks at the same time, but for the watch and the cover beside the clean-up."""
    crew = [task for task in tasks if task.what not in ("fire watch", "cover open base")]
    return [(a, b) for a, b in itertools.pairwise(crew) if b.begin_min < a.end_min]


def test_nobody_is_at_two_places() -> None:
    """Tasks of the whole crew follow each other."""
    crew = plain_crew(3, 2, day=(7, 10), morning_break=900.0, noon_break=900.0, set_up=1200.0, clean_up=600.0)
    assert [pair for day in made(crew, make_hours(cold)) for pair in overlapping(day.tasks)] == []


def test_same_input_same_days() -> None:
    """Twice the same."""
    crew = plain_crew(2, start=JANUARY_11)
    assert made(crew, make_hours(cold)) == made(crew, make_hours(cold))
