"""Why a day does less than it could, in words for its sheet."""

from __future__ import annotations

import datetime as dt
from collections.abc import Sequence

from lapwright.crew.calendar import Day
from lapwright.crew.shift import can_weld, day_span, is_getting_wet
from lapwright.crew.values import CrewSetting
from lapwright.crew.walk import Walk, WorkedDay
from lapwright.hours.values import HEAT, SHUT, HourTable

LAYING = ("primer", "base", "interply", "cap", "side_lap", "end_lap")
TOO_SHORT = "no stretch long enough to open, base and close"


def lost_words(day: WorkedDay, found: Walk, hours: HourTable, crew: CrewSetting) -> tuple[str, ...]:
    """Working days lost before a day, and hours lost of it, each with their reasons.

    Source: arithmetic
    Checked: tests/crew/test_crew_lost.py
    """
    words = []
    if day.lost:
        words.append(days_lost(day.lost, found, hours, crew))
    reasons = [reason for reason in hour_reasons(day.shift.hours, hours, crew) if reason]
    if reasons:
        count = len(hour_reasons(day.shift.hours, hours, crew))
        words.append(f"{len(reasons)} of {count} hours not fit for laying: {tally(reasons)}")
    return tuple(words)


def days_lost(dates: Sequence[dt.date], found: Walk, hours: HourTable, crew: CrewSetting) -> str:
    """`2 working days lost: air below the limit 1, rain 1`.  Source: arithmetic"""
    reasons = [day_reason(found.calendar.hours(date), hours, crew) for date in dates]
    noun = "day" if len(dates) == 1 else "days"
    return f"{len(dates)} working {noun} lost: {tally(reasons)}"


def day_reason(day: Day, hours: HourTable, crew: CrewSetting) -> str:
    """The reason that takes most hours of a lost day; darkness counts only where nothing else does."""
    reasons = [reason for reason in hour_reasons(day, hours, crew) if reason]
    by_weight = [reason for reason in reasons if reason != "dark"] or reasons
    return max(dict.fromkeys(by_weight), key=by_weight.count) if by_weight else TOO_SHORT


def hour_reasons(day: Day, hours: HourTable, crew: CrewSetting) -> list[str]:
    """What bars laying in each clock hour of the working day; empty where nothing does."""
    begin, end = day_span(crew)
    inside = [index for hour, index in enumerate(day) if 60.0 * hour < end and 60.0 * (hour + 1) > begin]
    return [hour_reason(index, hours, crew) for index in inside]


def hour_reason(index: int, hours: HourTable, crew: CrewSetting) -> str:
    """What bars laying in one hour; empty where nothing does."""
    if index < 0 or hours.weather.absent[index]:
        return "no reading"
    if not hours.daylight[index]:
        return "dark"
    dried = hours.as_dried()
    states = dried.states
    for name in LAYING:
        if name in states and states[name][index] == SHUT:
            return dried.reasons[int(dried.reason[name][index])] or "shut"
    if is_getting_wet(hours)[index]:
        return "surface wet"
    if not can_weld(crew) and any(name in states and states[name][index] == HEAT for name in LAYING):
        return "laps need welding: crew.fire_watch is not given" if crew.fire_watch_s is None else "laps need welding"
    return ""


def tally(reasons: Sequence[str]) -> str:
    """Reasons with their counts, the most frequent first.  Source: arithmetic"""
    ranked = sorted(dict.fromkeys(reasons), key=lambda reason: -reasons.count(reason))
    return ", ".join(f"{reason} {reasons.count(reason)}" for reason in ranked)
