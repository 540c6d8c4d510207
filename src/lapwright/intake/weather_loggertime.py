"""Times of a logger's rows: the clock of a zone, a fixed offset from UTC, or an offset in each stamp.

Where clocks go back, an hour comes twice: a row that would stand before the one above it is of its second time.  Where
clocks go forward, an hour is skipped, and a logger that shows it does not keep that clock.
"""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from lapwright.faults import Fault
from lapwright.intake.weather_text import Lines

_STAMP = re.compile(r"(\d{4})-(\d\d)-(\d\d)[ T](\d\d):(\d\d)(?::(\d\d)(?:\.0+)?)?\s*(Z|[+-]\d\d:?\d\d)?", re.ASCII)
_FIXED = re.compile(r"UTC(?:([+-])(\d{1,2})(?::?([0-5]\d))?)?", re.ASCII)
_MOST_OFFSET_H = 14
NEEDS_STAMP = "a date and time like 2026-01-15 07:00, of the calendar and the clock"
NEEDS_ZONE = "a time zone by name, or the hours that the logger's clock is before or behind UTC"
WRITE_ZONE = "time [America/New_York], time [UTC-5] or time [UTC]"
_EPOCH = dt.datetime(1970, 1, 1, tzinfo=dt.UTC)


@dataclass(frozen=True, slots=True)
class Clock:
    """What the logger's clock keeps: a zone by name, a fixed offset [min], or neither (each stamp has its own)."""

    zone: ZoneInfo | None
    fixed_min: int | None


def clock_of(text: str | None) -> Clock | None:
    """The clock that the head of the time column names; None where it can't be read."""
    if text is None:
        return Clock(None, None)
    fixed = _FIXED.fullmatch(text.strip())
    if fixed:
        minutes = int(fixed[2] or 0) * 60 + int(fixed[3] or 0)
        return Clock(None, -minutes if fixed[1] == "-" else minutes) if minutes <= _MOST_OFFSET_H * 60 else None
    try:
        return Clock(ZoneInfo(text.strip()), None)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def utc_minutes(lines: Lines, stamps: list[str], clock: Clock, first: int) -> tuple[list[float], list[Fault]]:
    """Minutes since 1970 in UTC of each row (row 0 on line `first`), and the faults of those that can't be told."""
    found: list[float] = []
    faults: list[Fault] = []
    before: dt.datetime | None = None
    for row, text in enumerate(stamps):
        moment, needs, write = _moment(text, clock, before)
        if moment is not None and before is not None and moment <= before:
            moment, needs, write = None, "a time after that of the line before it", ""
        if moment is None:
            faults.append(lines.fault(first + row, "time", needs, read=text, write=write))
            continue
        before = moment
        found.append((moment - _EPOCH).total_seconds() / 60)
    return found, faults


def standard_offset_min(clock: Clock, utc_minute: float) -> int | None:
    """Minutes that local standard time is east of UTC; None where the clock does not tell (UTC, offsets in stamps)."""
    if clock.zone is None:
        return clock.fixed_min or None
    year = (_EPOCH + dt.timedelta(minutes=utc_minute)).year
    offsets = [dt.datetime(year, month, 1, 12, tzinfo=clock.zone).utcoffset() for month in (1, 7)]
    return min(round(offset.total_seconds() / 60) for offset in offsets if offset is not None)


def _moment(text: str, clock: Clock, before: dt.datetime | None) -> tuple[dt.datetime | None, str, str]:
    """The moment of a stamp in UTC; or None, what is needed, and what to write."""
    read = _STAMP.fullmatch(text.strip())
    if read is None:
        return None, NEEDS_STAMP, ""
    try:
        year, month, day, hour, minute, second = (int(part or 0) for part in read.groups()[:6])
        shown = dt.datetime(year, month, day, hour, minute, second)
    except ValueError:
        return None, NEEDS_STAMP, ""
    own = _offset_min(read[7])
    if clock.zone is None and clock.fixed_min is None:
        if own is None:
            return None, f"an offset in the stamp, or {NEEDS_ZONE} in the first line", WRITE_ZONE
        return (shown - dt.timedelta(minutes=own)).replace(tzinfo=dt.UTC), "", ""
    if own is not None:
        return None, "a time without an offset, for the first line names the clock", text.strip()[: -len(read[7])]
    if clock.zone is None:
        return (shown - dt.timedelta(minutes=clock.fixed_min or 0)).replace(tzinfo=dt.UTC), "", ""
    return _by_zone(shown, clock.zone, before)


def _by_zone(shown: dt.datetime, zone: ZoneInfo, before: dt.datetime | None) -> tuple[dt.datetime | None, str, str]:
    """The moment at which a zone's clock shows a time: of two, the one after the row before."""
    first, second = (shown.replace(tzinfo=zone, fold=fold).astimezone(dt.UTC) for fold in (0, 1))
    if first.astimezone(zone).replace(tzinfo=None) != shown:
        needs = f"a time that the clock of {zone.key} shows: here it went forward over it"
        return None, needs, "time [UTC-5] in the first line, if the logger keeps standard time all year"
    return (second if before is not None and first <= before else first), "", ""


def _offset_min(text: str | None) -> int | None:
    if text is None:
        return None
    if text == "Z":
        return 0
    digits = text[1:].replace(":", "")
    minutes = int(digits[:2]) * 60 + int(digits[2:])
    return -minutes if text[0] == "-" else minutes
