"""Crew days as plain values."""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.layout.values import XY


@dataclass(frozen=True, slots=True)
class CrewSetting:
    """The crew as typed: people in all, welders among them, hours of the day, working weekdays (0 = Monday).

    start: first working date, None: days are numbered only.  fire_watch_s: None where not given.
    rates: elapsed rates by name in SI (m²/s, m/s, s), defaults overridden.
    """

    people: int
    welders: int
    day_from: dt.time
    day_to: dt.time
    weekdays: tuple[int, ...]
    start: dt.date | None
    fire_watch_s: float | None
    rates: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Task:
    """One stretch of work on a day: what, on which pieces or details, from when to when (minutes after midnight)."""

    what: str
    ids: tuple[str, ...]
    begin_min: int
    end_min: int
    state: str
    people: int
    tool_s: float = 0.0


@dataclass(frozen=True, slots=True)
class CrewDay:
    """One crew-day.

    date: on the job's calendar (None: numbered only).  weather_date: the date the weather was taken from.
    hours: index into the weather year for each clock hour 0..23 of the day (-1: none).
    tie_off: lines in plan [m] closed at day's end; empty if none is needed.  laps: ids closed today.
    stop_welding_min: no lap is welded after it; None where none is welded.  lost: why the day does less than it could.
    contact_c: contact temperature at first touch by ply for `warm` and `heat` hours (None: data missing).
    """

    number: int
    date: dt.date | None
    weather_date: dt.date
    hours: tuple[int, ...]
    tasks: tuple[Task, ...]
    pieces: tuple[str, ...]
    details: tuple[str, ...]
    laps: tuple[str, ...]
    tie_off: tuple[tuple[XY, XY], ...]
    stop_welding_min: int | None
    lost: tuple[str, ...]
    contact_c: Mapping[str, float | None]
