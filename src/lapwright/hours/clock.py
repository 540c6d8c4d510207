"""The crew's clock beside the weather's standard time (question 5): summer time, hours lost and hours doubled.

Weather stands in local standard time all year; the crew goes by the clock of the site's zone.
"""

from __future__ import annotations

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np


def crew_clock(standard: np.datetime64, *, offset_h: float, zone: ZoneInfo) -> dt.datetime:
    """A moment of local standard time by the crew's clock, with its offset.

    Args:
        standard: datetime64[m]; offset_h: of the standard time, hours east of UTC.

    Source: the time zone's rules, tzdata
    Checked: tests/hours/test_crew_clock.py
    """
    moment: dt.datetime = standard.astype("datetime64[s]").item()
    utc = (moment - dt.timedelta(hours=offset_h)).replace(tzinfo=dt.UTC)
    return utc.astimezone(zone)


def day_span(
    date: dt.date, begin: dt.time, end: dt.time, *, offset_h: float, zone: ZoneInfo
) -> tuple[np.datetime64, np.datetime64]:
    """The crew's day in local standard time, datetime64[m]: from and to by the clock.

    A day whose end is not after its begin ends on the next date.  Of a clock time that comes twice (clocks go back)
    the begin is the first, the end the second; one that is skipped (clocks go forward) is the moment of the change.
    Source: the time zone's rules, tzdata
    Checked: tests/hours/test_crew_clock.py
    """
    last = date if end > begin else date + dt.timedelta(days=1)
    return (
        _standard(dt.datetime.combine(date, begin), 0, offset_h, zone),
        _standard(dt.datetime.combine(last, end), 1, offset_h, zone),
    )


def _standard(clock: dt.datetime, fold: int, offset_h: float, zone: ZoneInfo) -> np.datetime64:
    """Local standard time of a clock time."""
    utc = clock.replace(tzinfo=zone, fold=fold).astimezone(dt.UTC)
    if utc.astimezone(zone).replace(tzinfo=None) != clock:
        # skipped: read by the offset from before and by that from after, it lies on either side of the change
        early, late = (clock.replace(tzinfo=zone, fold=which).astimezone(dt.UTC) for which in (1, 0))
        utc = _change_between(early, late, zone)
    standard = utc.replace(tzinfo=None) + dt.timedelta(hours=offset_h)
    return np.datetime64(standard, "m")


def _change_between(early: dt.datetime, late: dt.datetime, zone: ZoneInfo) -> dt.datetime:
    """The minute at which the clocks change between two moments of UTC."""
    before = early.astimezone(zone).utcoffset()
    while late - early > dt.timedelta(minutes=1):
        middle = early + (late - early) / 2
        early, late = (middle, late) if middle.astimezone(zone).utcoffset() == before else (early, middle)
    return late.replace(second=0, microsecond=0) if late.second or late.microsecond else late
