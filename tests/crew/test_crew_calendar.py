"""The weather year on the job's calendar: by month, day and hour of standard time."""

from __future__ import annotations

import datetime as dt

from crew_jobs import make_hours

from lapwright.crew.calendar import NO_HOUR, make_calendar, weather_date

YEAR = make_hours().weather
LEAP = make_hours(start="2016-01-01T00:00", hours=8784).weather


def day_of_year(month: int, day: int) -> int:
    """Days before a date in a common year, by the standard library."""
    return dt.date(2015, month, day).timetuple().tm_yday - 1


def test_winter_clock_is_the_weathers_clock() -> None:
    """12 January of any year is hours 264 to 287 of the weather year (11 days of 24 hours before it)."""
    assert make_calendar(YEAR, "America/New_York").hours(dt.date(2027, 1, 12)) == tuple(range(264, 288))


def test_summer_clock_is_an_hour_ahead() -> None:
    """At 7 in July the sun's clock says 6, and midnight is 23 of the day before."""
    hours = make_calendar(YEAR, "America/New_York").hours(dt.date(2027, 7, 1))
    first = 24 * day_of_year(7, 1)
    assert (hours[0], hours[7]) == (first - 1, first + 6)


def test_skipped_hour_is_absent() -> None:
    """On 14 March 2027 New York has no hour 2; from 3 on the clock is an hour ahead."""
    hours = make_calendar(YEAR, "America/New_York").hours(dt.date(2027, 3, 14))
    first = 24 * day_of_year(3, 14)
    assert hours[:5] == (first, first + 1, NO_HOUR, first + 2, first + 3)


def test_doubled_hour_is_its_first() -> None:
    """On 7 November 2027 New York has hour 1 twice: its first is in summer time, hour 0 of standard time."""
    hours = make_calendar(YEAR, "America/New_York").hours(dt.date(2027, 11, 7))
    first = 24 * day_of_year(11, 7)
    assert hours[:4] == (first - 1, first, first + 2, first + 3)


def test_summer_of_the_southern_half() -> None:
    """Sydney's January is in summer time."""
    hours = make_calendar(YEAR, "Australia/Sydney").hours(dt.date(2027, 1, 12))
    assert hours == tuple(range(263, 287))


def test_zone_whose_winter_is_the_exception() -> None:
    """Dublin's law calls winter time the exception; its standard clock here is still that of winter."""
    assert make_calendar(YEAR, "Europe/Dublin").hours(dt.date(2027, 1, 12)) == tuple(range(264, 288))


def test_zone_of_a_half_hour() -> None:
    """Lord Howe moves by half an hour: a clock hour lies where its beginning lies."""
    hours = make_calendar(YEAR, "Australia/Lord_Howe").hours(dt.date(2027, 1, 12))
    assert hours == tuple(range(263, 287))


def test_leap_day_takes_the_28th() -> None:
    """29 February takes the 28th, also from a year that has one."""
    date = dt.date(2028, 2, 29)
    found = [make_calendar(year, "UTC").hours(date)[0] for year in (YEAR, LEAP)]
    assert found == [24 * day_of_year(2, 28)] * 2


def test_year_is_repeated() -> None:
    """The same day of another year has the same hours."""
    calendar = make_calendar(YEAR, "UTC")
    assert calendar.hours(dt.date(2027, 5, 5)) == calendar.hours(dt.date(2029, 5, 5))


def test_year_that_begins_in_summer_is_found_by_month_and_day() -> None:
    """A weather year from July to June serves January from its second half."""
    calendar = make_calendar(make_hours(start="2015-07-01T00:00").weather, "UTC")
    assert (calendar.hours(dt.date(2027, 1, 1))[0], calendar.first_date) == (24 * 184, dt.date(2015, 7, 1))


def test_date_of_the_weather_is_told() -> None:
    """The day's weather was taken from the same day of the weather's own year."""
    calendar = make_calendar(YEAR, "America/New_York")
    date = dt.date(2028, 2, 29)
    assert weather_date(YEAR, calendar.hours(date), date) == dt.date(2015, 2, 28)


def test_a_short_year_leaves_hours_absent() -> None:
    """Weather of one week has no hours for the rest of the year."""
    calendar = make_calendar(make_hours(hours=168).weather, "UTC")
    date = dt.date(2027, 6, 1)
    assert calendar.hours(date) == (NO_HOUR,) * 24
    assert weather_date(YEAR, calendar.hours(date), date) == date
