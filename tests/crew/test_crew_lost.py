"""Why days are lost, in words."""

from __future__ import annotations

import datetime as dt

import numpy as np
from crew_jobs import TWO, ZONE, make_hours, make_roof, make_small, plain_crew

from lapwright.crew.days import make_days
from lapwright.crew.lost import TOO_SHORT, day_reason, hour_reason, tally
from lapwright.crew.values import CrewDay, CrewSetting
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, SHUT, HourTable

DAY = tuple(range(24))


def made(crew: CrewSetting, table: HourTable) -> tuple[CrewDay, ...]:
    """The days of the roof of 20 m by 2.3 m."""
    return make_days(make_small(), [make_roof()], TWO, table, crew, rules=make_rules({}), time_zone=ZONE)


def two_bad_days(table: HourTable, hour: np.ndarray) -> None:
    """11 January too cold all day, 12 January rain all day, 13 January too cold till 9."""
    for k, (first, last) in enumerate(((240, 264), (264, 288), (288, 297))):
        table.states["base"][first:last] = SHUT
        table.reason["base"][first:last] = 2 if k == 1 else 1


def test_lost_days_are_counted_with_their_reasons() -> None:
    """Two days lost, and two of the eight hours of the third."""
    assert made(plain_crew(), make_hours(two_bad_days))[0].lost == (
        "2 working days lost: too cold 1, rain falling 1",
        "2 of 8 hours not fit for laying: too cold 2",
    )


def test_one_lost_day_is_a_day() -> None:
    """Grammar."""
    found = made(plain_crew(start=dt.date(2027, 1, 12)), make_hours(two_bad_days))
    assert found[0].lost[0] == "1 working day lost: rain falling 1"


def test_a_good_day_says_nothing() -> None:
    """Nothing lost, nothing said."""
    assert made(plain_crew(), make_hours())[0].lost == ()


def test_reasons_of_an_hour() -> None:
    """No reading, dark, shut with its reason, wet, welding that can't be done, nothing."""

    def change(table: HourTable, hour: np.ndarray) -> None:
        table.weather.absent[1] = True
        table.daylight[2] = False
        table.states["cap"][3], table.reason["cap"][3] = SHUT, 1
        table.wet[4] = True
        table.states["cap"][5:7] = HEAT

    table = make_hours(change)
    found = [hour_reason(index, table, plain_crew(2)) for index in (-1, 1, 2, 3, 4, 5, 0)]
    assert found == ["no reading", "no reading", "dark", "too cold", "surface wet", "", ""]
    assert hour_reason(5, table, plain_crew(2, fire_watch_s=None)) == "laps need welding: crew.fire_watch is not given"
    assert hour_reason(5, table, plain_crew(1)) == "laps need welding"


def test_a_day_that_is_only_too_short_says_so() -> None:
    """Every hour fit, and still nothing could be closed."""
    assert day_reason(DAY, make_hours(), plain_crew()) == TOO_SHORT


def test_darkness_is_a_reason_only_where_nothing_else_is() -> None:
    """Five dark hours and one of rain: rain; dark all day: dark."""

    def change(table: HourTable, hour: np.ndarray) -> None:
        table.daylight[7:12] = False
        table.wet[12] = True
        table.daylight[24:48] = False

    table = make_hours(change)
    found = [day_reason(day, table, plain_crew()) for day in (DAY, tuple(range(24, 48)))]
    assert found == ["surface wet", "dark"]


def test_reasons_are_told_by_their_weight() -> None:
    """The most frequent first; equal ones as they came."""
    assert tally(["rain", "dark", "cold", "dark", "cold"]) == "dark 2, cold 2, rain 1"
