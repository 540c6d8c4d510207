"""The crew's clock on the days on which clocks change, and on others."""

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np
import pytest

from lapwright.hours.clock import crew_clock, day_span

NEW_YORK, PHOENIX, LORD_HOWE = (
    ZoneInfo("America/New_York"),
    ZoneInfo("America/Phoenix"),
    ZoneInfo("Australia/Lord_Howe"),
)


@pytest.mark.parametrize(
    ("standard", "clock"),
    [
        ("2026-01-15T07:00", "2026-01-15T07:00:00-05:00"),
        ("2026-07-15T07:00", "2026-07-15T08:00:00-04:00"),
        ("2026-03-08T01:59", "2026-03-08T01:59:00-05:00"),
        ("2026-03-08T02:00", "2026-03-08T03:00:00-04:00"),
        ("2026-11-01T00:30", "2026-11-01T01:30:00-04:00"),
        ("2026-11-01T01:30", "2026-11-01T01:30:00-05:00"),
    ],
)
def test_standard_time_by_the_clock_of_new_york(standard: str, clock: str) -> None:
    """In March the clock skips from 2 to 3; in November half past one comes twice, an hour apart."""
    found = crew_clock(np.datetime64(standard, "m"), offset_h=-5, zone=NEW_YORK)
    assert found.isoformat() == clock


def span(date: str, begin: str, end: str, zone: ZoneInfo = NEW_YORK, offset_h: float = -5) -> tuple[str, str]:
    """The crew's day in standard time, as text."""
    times = (dt.time.fromisoformat(begin), dt.time.fromisoformat(end))
    first, last = day_span(dt.date.fromisoformat(date), *times, offset_h=offset_h, zone=zone)
    return str(first), str(last)


def test_a_winter_day_is_its_own_and_a_summer_day_an_hour_earlier() -> None:
    """7:00 to 16:30 by the clock."""
    assert span("2026-01-15", "07:00", "16:30") == ("2026-01-15T07:00", "2026-01-15T16:30")
    assert span("2026-07-15", "07:00", "16:30") == ("2026-07-15T06:00", "2026-07-15T15:30")


def test_a_zone_without_summer_time() -> None:
    """Phoenix keeps standard time."""
    assert span("2026-07-15", "05:00", "13:30", PHOENIX, -7) == ("2026-07-15T05:00", "2026-07-15T13:30")


def test_the_day_on_which_an_hour_is_lost() -> None:
    """On 8 March 0:00 to 4:00 by the clock are three hours; a shift from 2:30 on begins with the change."""
    assert span("2026-03-08", "00:00", "04:00") == ("2026-03-08T00:00", "2026-03-08T03:00")
    assert span("2026-03-08", "02:30", "04:00") == ("2026-03-08T02:00", "2026-03-08T03:00")
    assert span("2026-03-08", "07:00", "16:30") == ("2026-03-08T06:00", "2026-03-08T15:30")


def test_the_day_on_which_an_hour_comes_twice() -> None:
    """On 1 November a shift from 0:00 to 4:00 is five hours; of half past one the first begins, the second ends."""
    assert span("2026-11-01", "00:00", "04:00") == ("2026-10-31T23:00", "2026-11-01T04:00")
    assert span("2026-11-01", "01:30", "07:00")[0] == "2026-11-01T00:30"
    assert span("2026-11-01", "00:00", "01:30")[1] == "2026-11-01T01:30"


def test_a_night_shift_ends_on_the_next_date() -> None:
    """22:00 to 6:00."""
    assert span("2026-01-15", "22:00", "06:00") == ("2026-01-15T22:00", "2026-01-16T06:00")


def test_a_change_of_half_an_hour() -> None:
    """Lord Howe Island skips from 2:00 to 2:30 on 4 October 2026; 2:15 is the moment of the change."""
    assert span("2026-10-04", "02:15", "06:00", LORD_HOWE, 10.5) == ("2026-10-04T02:00", "2026-10-04T05:30")
