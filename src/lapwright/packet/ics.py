"""The dated crew days as a calendar file (RFC 5545).

Written by hand, because a calendar of all-day events needs five rules only: CRLF, folding at 75 octets, escaped
text, a stamp and a lasting identity for each event.  The stamp is the job's date: the day of running never shows.
"""

from __future__ import annotations

import datetime as dt
import hashlib
from collections.abc import Iterable

from lapwright.crew.values import CrewDay
from lapwright.packet.values import Head, Paper

FOLD_AT = 75
NEVER = dt.date(1980, 1, 1)
# RFC 5545 3.6 asks for at least one component; a time zone is one that puts nothing on anybody's calendar.
NO_EVENT = [
    "BEGIN:VTIMEZONE",
    "TZID:UTC",
    "BEGIN:STANDARD",
    "DTSTART:19700101T000000",
    "TZOFFSETFROM:+0000",
    "TZOFFSETTO:+0000",
    "END:STANDARD",
    "END:VTIMEZONE",
]


def days_ics(paper: Paper) -> bytes:
    """One all-day event for each dated crew day; a calendar without events where no day is dated.

    An event keeps its UID (made of job number and day number) when the plan moves it, so that a calendar that took
    it in before moves it too.
    """
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//lapwright//crew days//EN",
        "CALSCALE:GREGORIAN",
        f"NAME:{escape(paper.head.name)}",
    ]
    events = [event(paper.head, day, day.date) for day in paper.days if day.date is not None]
    for part in events or [NO_EVENT]:
        lines += part
    lines.append("END:VCALENDAR")
    return "".join(fold(line) for line in lines).encode()


def event(head: Head, day: CrewDay, date: dt.date) -> list[str]:
    """The lines of one crew day."""
    stamp = (head.date or NEVER).strftime("%Y%m%dT000000Z")
    title = f"{head.name}: day {day.number}"
    return [
        "BEGIN:VEVENT",
        f"UID:{identity(head.number, day.number)}",
        f"DTSTAMP:{stamp}",
        f"DTSTART;VALUE=DATE:{date:%Y%m%d}",
        f"DTEND;VALUE=DATE:{date + dt.timedelta(days=1):%Y%m%d}",
        f"SUMMARY:{escape(title)}",
        f"DESCRIPTION:{escape(description(head, day))}",
        "TRANSP:OPAQUE",
        "END:VEVENT",
    ]


def identity(number: str, day: int) -> str:
    """A UID of safe characters that differs for different job numbers."""
    job = hashlib.sha256(number.encode()).hexdigest()[:16]
    return f"day-{day}-{job}@lapwright"


def description(head: Head, day: CrewDay) -> str:
    """What the day holds, line by line."""
    lines = [f"Job {head.number}, revision {head.revision}"]
    lines += [f"{clock(task.begin_min)}-{clock(task.end_min)} {task.what}" for task in day.tasks]
    lines.append(f"Pieces: {len(day.pieces)}. Laps to probe: {len(day.laps)}.")
    if day.stop_welding_min is not None:
        lines.append(f"Welding stops at {clock(day.stop_welding_min)}.")
    lines += [f"Lost: {text}" for text in day.lost]
    lines.append(f"Worked out on the weather of {day.weather_date.isoformat()}; not a forecast.")
    return "\n".join(lines)


def clock(minutes: int) -> str:
    """Minutes after midnight as a clock time."""
    hours, rest = divmod(minutes, 60)
    return f"{hours:02d}:{rest:02d}"


def escape(text: str) -> str:
    """Text with the characters that RFC 5545 3.3.11 reserves escaped, and control characters dropped."""
    marked = text.replace("\\", "\\\\").replace(";", "\\;").replace(",", "\\,")
    one_line = "\\n".join(marked.splitlines())
    return "".join(c for c in one_line if c.isprintable() or c == "\t")


def fold(line: str) -> str:
    """A content line in pieces of at most 75 octets, never inside a character (RFC 5545 3.1)."""
    return "\r\n ".join(chunks(line)) + "\r\n"


def chunks(line: str) -> Iterable[str]:
    """Parts of a line; the first may hold 75 octets, the others 74 after their leading space."""
    part: list[str] = []
    size, room = 0, FOLD_AT
    for character in line:
        octets = len(character.encode())
        if size + octets > room:
            yield "".join(part)
            part, size, room = [], 0, FOLD_AT - 1
        part.append(character)
        size += octets
    yield "".join(part)
