"""Clock times, weekdays, dates, and numbers of sides as people list them."""

from __future__ import annotations

import datetime as dt
import re

from lapwright.units.unread import Unread, tidy

WEEKDAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")
_CLOCK = re.compile(r"([0-9]{1,2}):([0-9]{2}) ?- ?([0-9]{1,2}):([0-9]{2})")
_DATE = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})")
_SLASHED = re.compile(r"([0-9]{1,2})[/.-]([0-9]{1,2})[/.-]([0-9]{4})")
_SIDES = re.compile(r"([0-9]{1,4})(?: ?- ?([0-9]{1,4}))?")


def clock(text: str) -> tuple[dt.time, dt.time]:
    """From and to on one day: `07:00-16:30`.

    Raises: Unread where the second is not later than the first.
    """
    needs, write = "two clock times, the later second", "07:00-16:30"
    found = _CLOCK.fullmatch(tidy(text, needs, write))
    if found is None:
        raise Unread(needs, write)
    hour, minute, last_hour, last_minute = (int(part) for part in found.groups())
    if max(hour, last_hour) > 23 or max(minute, last_minute) > 59 or (hour, minute) >= (last_hour, last_minute):
        raise Unread(needs, write)
    return (dt.time(hour, minute), dt.time(last_hour, last_minute))


def weekdays(text: str) -> tuple[int, ...]:
    """Days of the week, 0 = Monday, in order: `Mon-Fri`, `Mon, Wed, Fri`, `daily`."""
    needs, write = "days of the week", "Mon-Fri, or Mon, Wed, Sat, or daily"
    plain = tidy(text, needs, write, is_list=True).lower()
    if plain == "daily":
        return tuple(range(7))
    found: set[int] = set()
    for part in plain.split(","):
        first, dash, last = (word.strip() for word in part.partition("-"))
        begin = _weekday(first, needs, write)
        end = _weekday(last, needs, write) if dash else begin
        found.update((begin + step) % 7 for step in range((end - begin) % 7 + 1))
    return tuple(sorted(found))


def date(text: str) -> dt.date:
    """A date of the calendar: `2027-01-11`.

    Raises: Unread, with the date itself to write where it was typed in another order that leaves no doubt
    """
    needs, write = "a date as year-month-day", "2027-01-11"
    plain = tidy(text, needs, write)
    found = _DATE.fullmatch(plain)
    if found is None:
        raise Unread(needs, _turned(plain) or write)
    try:
        return dt.date(int(found[1]), int(found[2]), int(found[3]))
    except ValueError:
        raise Unread("a date that the calendar has", write) from None


def _turned(text: str) -> str:
    """`1/18/2027` or `18.1.2027` as year-month-day; empty where month and day can be taken for each other."""
    found = _SLASHED.fullmatch(text)
    if found is None:
        return ""
    first, second, year = (int(part) for part in found.groups())
    if first != second and max(first, second) <= 12:
        return ""
    try:
        return dt.date(year, min(first, second), max(first, second)).isoformat()
    except ValueError:
        return ""


def sides(text: str) -> tuple[int, ...]:
    """Numbers of sides, in order: `1`, `2-4`, `1, 3-4`."""
    needs, write = "a side, or a range of sides from low to high", "1, 2-4, or [1, 3]"
    found: list[int] = []
    for part in tidy(text, needs, write, is_list=True).split(","):
        ends = _SIDES.fullmatch(part.strip())
        if ends is None:
            raise Unread(needs, write)
        first, last = int(ends[1]), int(ends[2] or ends[1])
        if first < 1 or last < first:
            raise Unread(needs, write)
        found.extend(range(first, last + 1))
    return tuple(dict.fromkeys(found))


def _weekday(word: str, needs: str, write: str) -> int:
    for index, name in enumerate(WEEKDAYS):
        if len(word) >= 3 and word[:3] == name and f"{_FULL[index]}s".startswith(word):
            return index
    raise Unread(needs, write)


_FULL = ("monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday")
