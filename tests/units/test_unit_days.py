"""Clock, weekdays, dates and sides."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.units.days import clock, date, sides, weekdays
from lapwright.units.unread import Unread


@settings(deadline=None, max_examples=300)
@given(st.dates())
def test_dates_come_back(day: dt.date) -> None:
    """Every date of the calendar survives writing and reading."""
    assert date(day.isoformat()) == day


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("Mon-Fri", (0, 1, 2, 3, 4)),
        ("Mon, Wed, Fri", (0, 2, 4)),
        ("daily", (0, 1, 2, 3, 4, 5, 6)),
        ("Sat-Mon", (0, 5, 6)),
        ("tuesday", (1,)),
        ("Thurs, Mon-Tue", (0, 1, 3)),
    ],
)
def test_weekdays(text: str, expected: tuple[int, ...]) -> None:
    """Ranges may run over the end of the week; days come out in the week's order."""
    assert weekdays(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"), [("1", (1,)), ("2-4", (2, 3, 4)), ("1, 3-4", (1, 3, 4)), ("3, 3", (3,)), ("2 – 3", (2, 3))]
)
def test_sides(text: str, expected: tuple[int, ...]) -> None:
    """A number, a range, or a list of them."""
    assert sides(text) == expected


def test_clock() -> None:
    """From and to, with either dash."""
    assert clock("07:00-16:30") == clock("7:00 – 16:30") == (dt.time(7, 0), dt.time(16, 30))


CLOCK = ("two clock times, the later second", "07:00-16:30")
DAYS = ("days of the week", "Mon-Fri, or Mon, Wed, Sat, or daily")
SIDES = ("a side, or a range of sides from low to high", "1, 2-4, or [1, 3]")
DATE = ("a date as year-month-day", "2027-01-11")


@pytest.mark.parametrize(
    ("reader", "text", "said"),
    [
        (clock, "07:00", CLOCK),
        (clock, "16:30-07:00", CLOCK),
        (clock, "07:00-24:00", CLOCK),
        (clock, "07:60-08:00", CLOCK),
        (weekdays, "", DAYS),
        (weekdays, "Mo", DAYS),
        (weekdays, "Monkey", DAYS),
        (weekdays, "Mon-", DAYS),
        (sides, "0", SIDES),
        (sides, "4-2", SIDES),
        (sides, "1,,2", SIDES),
        (sides, "all", SIDES),
        (date, "11 Jan 2027", DATE),
        (date, "2027-1-11", DATE),
        (date, "1/18/2027", (DATE[0], "2027-01-18")),
        (date, "18.1.2027", (DATE[0], "2027-01-18")),
        (date, "4/4/2027", (DATE[0], "2027-04-04")),
        (date, "4/5/2027", DATE),
        (date, "2/30/2027", DATE),
        (date, "2027-02-29", ("a date that the calendar has", "2027-01-11")),
    ],
)
def test_what_a_refused_text_says(reader: Callable[[str], object], text: str, said: tuple[str, str]) -> None:
    """The whole of what is said."""
    with pytest.raises(Unread) as found:
        reader(text)
    assert (found.value.needs, found.value.write) == said


@pytest.mark.parametrize("reader", [clock, weekdays, sides, date])
@settings(deadline=None, max_examples=300)
@given(text=st.text(max_size=80) | st.text(alphabet="0123456789-:, MonFri", max_size=40))
def test_any_text_is_read_or_refused(reader: Callable[[str], object], text: str) -> None:
    """Nothing but a value or a refusal comes of any text."""
    try:
        assert reader(text)
    except Unread as found:
        assert found.needs and found.write
