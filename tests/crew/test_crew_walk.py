"""The walk through the hours, by the pencil."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace

import numpy as np
from crew_jobs import TWO, ZONE, make_hours, make_roof, make_small, plain_crew

from lapwright.crew.values import CrewSetting
from lapwright.crew.walk import Walk, walk
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, SHUT, HourTable

RULES = make_rules({})
OPEN_YEAR = make_hours()


def walked(crew: CrewSetting, table: HourTable = OPEN_YEAR, rules=RULES) -> Walk:  # rules of the job
    """The roof of 20 m by 2.3 m: 10 + 20 + 20 and then 20 + 20 + 10 min of one person."""
    return walk(make_small(), [make_roof()], TWO, table, crew, rules=rules, time_zone=ZONE)


def days(found: Walk) -> list[tuple[str, int, float]]:
    """Date, steps done by its end, and when its work ends [min]."""
    return [(day.date.isoformat(), day.last, day.placings[-1].parts[-1].end) for day in found.days]


def test_roof_is_laid_in_one_long_day() -> None:
    """100 min of one person from 7:00."""
    assert days(walked(plain_crew())) == [("2027-01-11", 6, 520.0)]


def test_two_people_take_half_the_time() -> None:
    """50 min."""
    assert days(walked(plain_crew(2))) == [("2027-01-11", 6, 470.0)]


def test_short_days_end_at_course_edges() -> None:
    """Days of an hour: 50 min of the first cap course and its base, 50 min of the rest."""
    assert days(walked(plain_crew(day=(7, 8)))) == [("2027-01-11", 3, 470.0), ("2027-01-12", 6, 470.0)]


def test_weekends_are_no_working_days() -> None:
    """From Friday 15 January it goes on on Monday the 18th."""
    found = walked(plain_crew(day=(7, 8), start=dt.date(2027, 1, 15)))
    assert [day.date.isoformat() for day in found.days] == ["2027-01-15", "2027-01-18"]


def test_start_on_a_holiday_waits_for_a_working_day() -> None:
    """Saturday 9 January: Monday the 11th."""
    assert days(walked(plain_crew(start=dt.date(2027, 1, 9))))[0][0] == "2027-01-11"


def test_without_a_start_the_walk_begins_with_the_weather() -> None:
    """1 January 2015 is a Thursday."""
    assert days(walked(plain_crew(start=None)))[0][0] == "2015-01-01"


def test_days_of_rain_are_lost_and_named() -> None:
    """Rain all the 11th and 12th of January: the 13th does it, and knows what went before."""

    def rain(table: HourTable, hour: np.ndarray) -> None:
        table.wet[240:288] = True

    found = walked(plain_crew(), make_hours(rain))
    assert days(found) == [("2027-01-13", 6, 520.0)]
    assert found.days[0].lost == (dt.date(2027, 1, 11), dt.date(2027, 1, 12))


def test_wet_nights_ask_for_drying() -> None:
    """Frost till 7 asks for 20 min; rain in the evening before for 60; both within 24 h of the begin at 7:00."""

    def frost(table: HourTable, hour: np.ndarray) -> None:
        table.wet[240:247] = True

    def rain(table: HourTable, hour: np.ndarray) -> None:
        table.wet[236] = True
        table.weather.rain_mm[236] = 1.0

    crew = plain_crew(dry_frost=1200.0, dry_rain=3600.0)
    ends = [days(walked(crew, make_hours(change)))[0][2] for change in (frost, rain)]
    assert ends == [540.0, 580.0]


def test_rain_longer_ago_than_the_rule_asks_for_no_drying() -> None:
    """Rain at 6 the day before: 24 h are over at 7; with 30 h it counts."""

    def rain(table: HourTable, hour: np.ndarray) -> None:
        table.wet[222] = True

    crew, table = plain_crew(dry_frost=1200.0), make_hours(rain)
    ends = [days(walked(crew, table, make_rules({"dry_after_wet": text})))[0][2] for text in ("24 h", "30 h")]
    assert ends == [520.0, 540.0]


def test_rain_within_the_day_closes_the_roof_twice() -> None:
    """Rain from 8 to 9: the first hour ends at a course edge; from 9 the base is dried and the rest is laid."""

    def rain(table: HourTable, hour: np.ndarray) -> None:
        table.wet[248] = True
        table.weather.rain_mm[248] = 2.0

    found = walked(plain_crew(dry_rain=600.0), make_hours(rain))
    dried = [one for one in found.days[0].placings if one.what == "dry and measure"]
    assert days(found) == [("2027-01-11", 6, 600.0)]
    assert [(one.ids, one.parts[0].begin) for one in dried] == [(("Main/base/02/1",), 540.0)]


def cold(table: HourTable, hour: np.ndarray) -> None:
    """Caps only with heat."""
    table.states["cap"][:] = HEAT


def test_heat_takes_a_person_for_the_watch() -> None:
    """Two people, one of whom watches: 100 min of the other (no laps here take welding time)."""
    assert days(walked(plain_crew(2), make_hours(cold))) == [("2027-01-11", 6, 520.0)]


def test_one_alone_cannot_weld_and_never_finishes() -> None:
    """Nothing is opened that can't be capped the same way; bases are laid and tied off, caps wait in vain."""
    found = walked(plain_crew(1), make_hours(cold))
    assert (found.is_finished, [step.work.what for step in found.steps[: found.days[-1].last]]) == (False, ["base"] * 2)


def test_without_a_fire_watch_no_heat_hour_is_used() -> None:
    """The hours that would need it are counted."""
    found = walked(plain_crew(2, fire_watch_s=None), make_hours(cold))
    assert found.is_finished is False
    assert found.heat_hours > 0


def test_a_day_that_gets_as_far_without_hot_work_has_none() -> None:
    """Heat only till 9, open after: the day is planned without welding, with both people."""

    def early(table: HourTable, hour: np.ndarray) -> None:
        table.states["cap"][hour < 9] = HEAT

    found = walked(plain_crew(2), make_hours(early))
    assert all(part.state == 0 and part.hands == 2 for one in found.days[0].placings for part in one.parts)


def test_walk_ends_after_three_repeats() -> None:
    """A cap that is always shut: 3 times 366 days of waiting, then the walk gives up."""

    def shut(table: HourTable, hour: np.ndarray) -> None:
        table.states["base"][:] = SHUT

    found = walked(plain_crew(), make_hours(shut))
    working = sum((dt.date(2027, 1, 11) + dt.timedelta(days=k)).weekday() < 5 for k in range(3 * 366))
    assert (found.is_finished, found.days, len(found.lost)) == (False, (), working)


def test_no_pieces_are_finished_at_once() -> None:
    """A layout without plies takes no day."""
    empty = replace(make_small(), plies=())
    found = walk(empty, [make_roof()], TWO, OPEN_YEAR, plain_crew(), rules=RULES, time_zone=ZONE)
    assert (found.is_finished, found.days) == (True, ())


def test_no_working_day_no_work() -> None:
    """A crew that never comes."""
    found = walked(plain_crew(weekdays=()))
    assert (found.is_finished, found.days, found.lost) == (False, (), ())
