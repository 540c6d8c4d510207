"""days.ics is read by another calendar library as what the days say."""

import dataclasses
import datetime as dt

import icalendar
from papers import HEAD, days, shed

from lapwright.packet.ics import days_ics
from lapwright.packet.values import Paper


def events(paper: Paper) -> list[icalendar.Event]:
    """The events as icalendar reads them."""
    return list(icalendar.Calendar.from_ical(days_ics(paper)).walk("VEVENT"))


def test_one_all_day_event_for_each_dated_day() -> None:
    """Start and end are dates, one day apart; the stamp is the job's date, not today."""
    first, second = events(shed())
    assert (first["DTSTART"].dt, first["DTEND"].dt) == (dt.date(2027, 1, 11), dt.date(2027, 1, 12))
    assert second["DTSTART"].dt == dt.date(2027, 1, 12)
    assert first["DTSTAMP"].dt == dt.datetime(2026, 12, 1, tzinfo=dt.UTC)
    assert first["SUMMARY"] == "Shed: day 1"


def test_description_tells_the_day() -> None:
    """Tasks with their clock times, counts, the end of welding and what was lost are told."""
    assert str(events(shed())[0]["DESCRIPTION"]).split("\n") == [
        "Job 7-001, revision A",
        "07:30-08:40 base",
        "09:00-11:40 cap",
        "Pieces: 4. Laps to probe: 2.",
        "Welding stops at 15:30.",
        "Lost: frost until 09:00; thawed",
        "Worked out on the weather of 1998-01-11; not a forecast.",
    ]


def test_uid_lasts_when_the_day_moves_and_differs_between_jobs() -> None:
    """The identity follows job number and day number, never the date."""
    moved = shed(days=tuple(dataclasses.replace(day, date=dt.date(2027, 2, 1)) for day in days()))
    other = shed(head=dataclasses.replace(HEAD, number="7-002"))
    assert [e["UID"] for e in events(moved)] == [e["UID"] for e in events(shed())]
    assert len({e["UID"] for e in events(shed()) + events(other)}) == 4


def test_without_dates_a_calendar_without_events() -> None:
    """Numbered days make no event, yet the file is a calendar with a component in it, as RFC 5545 3.6 asks."""
    calendar = icalendar.Calendar.from_ical(days_ics(shed(days=(dataclasses.replace(days()[0], date=None),))))
    assert calendar.walk("VEVENT") == []
    assert len(calendar.subcomponents) == 1


def test_text_that_tries_to_break_out_stays_text() -> None:
    """Reserved characters, line ends and long names with wide letters survive a reading unchanged."""
    name = 'A; B, C\\n "D": ' + "Dachstraße 屋根 🏠 " * 12
    head = dataclasses.replace(HEAD, name=name + "\r\nBEGIN:VEVENT")
    first, _ = events(shed(head=head))
    assert first["SUMMARY"] == name + "\nBEGIN:VEVENT: day 1"


def test_lines_hold_at_most_75_octets_and_end_with_crlf() -> None:
    """RFC 5545 3.1, counted in octets, with letters of two to four octets in the text."""
    data = days_ics(shed(head=dataclasses.replace(HEAD, name="é屋🏠" * 60)))
    lines = data.split(b"\r\n")
    assert lines.pop() == b""
    assert max(len(line) for line in lines) <= 75
    assert all(b"\n" not in line for line in lines)
    assert all(line.decode() for line in lines)
