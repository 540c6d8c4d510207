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


@dataclass(frozen=True, slots=True)
class Opened:
    """How much may be opened in a day and still be closed in it; minutes after midnight on the crew's clock.

    area: covered and closed [m²].  rolls: by ply, as parts of a roll.  begin_min: the deck is accepted from then on;
    last_base_min: the last base is down, nothing is opened after it; closing_min: probing and tie-off begin;
    closed_min: all is closed.  welds: laps are welded.  tie_off: line to close [m].
    """

    area: float
    rolls: Mapping[str, float]
    begin_min: int
    last_base_min: int
    closing_min: int
    closed_min: int
    welds: bool
    tie_off: float


@dataclass(frozen=True, slots=True)
class OperationToday:
    """What is said of one operation on the morning of a day.

    verdict: go, wait, stop or unknown.  first_min, last_min: first and last safe minute (None: none); closed_min: by
    then what was opened is closed.  states: word of each clock hour 0..23, "" unknown.  state: the worst within the
    window.  before, after: what shuts the minute before and the minute after; why: what shuts it all day.
    supply: keys to give where it is unknown.
    """

    operation: str
    verdict: str
    first_min: int | None = None
    last_min: int | None = None
    closed_min: int | None = None
    state: str = ""
    states: tuple[str, ...] = ()
    before: str = ""
    after: str = ""
    why: str = ""
    measure: bool = False
    supply: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class MorningHour:
    """What is to be expected at a full hour of the crew's clock; NaN: no reading.

    wind_m_s: at the roof, the station's where it is stronger; gust_m_s.  over_wetting_k: surface over dew or frost.
    rain_chance: of the hour that begins.
    roll_s: a bare warm roll's outer wrap lasts so long (None: for ever, NaN: not known) for the sheet asked about.
    weld_m_s: None where there is no speed.  work_min: between warm-up breaks, infinite: none asked.
    """

    hour: int
    air_c: float
    surface_c: float
    surface_low_c: float
    surface_high_c: float
    over_wetting_k: float
    wind_m_s: float
    gust_m_s: float
    rain_chance: float
    chill_c: float
    frostbite_min: float | None
    work_min: float
    roll_s: float | None
    weld_m_s: float | None
    measure: bool


@dataclass(frozen=True, slots=True)
class WarmRolls:
    """Rolls of one sheet that have to be warm today.

    rolls: for what may be opened, whole.  until_c: to be warm through to; store_c: the store; cold_c: from how cold.
    needed_min: minute of the day at which they go up; stands: how they may stand, with the time until they are warm
    through [s] (None: never) and when the store goes on, minutes after midnight (negative: the day before).
    lasts_s: the outer wrap, in the coldest and windiest hour of the window; None: for ever.  is_covered: under a cover.
    trip: rolls a trip with the distance to which that holds [m].  most: rolls a trip at the distance given, None: not
    given.
    """

    ply: str
    sheet: str
    rolls: int
    until_c: float
    store_c: float
    cold_c: float
    needed_min: int
    stands: tuple[tuple[str, float | None, float | None], ...]
    lasts_s: float | None
    pace_s: float
    trip: tuple[tuple[int, float], ...]
    distance: float | None = None
    most: int | None = None
    is_covered: bool = False


@dataclass(frozen=True, slots=True)
class Morning:
    """The morning of one day: what the sheet says.

    date: on the crew's clock.  weather: name and origin of the weather, weather_date: the date that it was taken from;
    is_forecast; issued, age_s: when it was issued and how long before the crew's day begins, place in words.
    sun: up from, to [min], None: not.  crew_min: the crew's day.  overall: all that closes a roof, taken together.
    hours: the crew's full hours.  opened: with all plies, based: with all but the cap, which follows another day; None
    where nothing can be, or is not known (see `unknown`).
    unknown: what can't be said, and keys to supply.  proved: the test weld is given.  roll_ply: whose roll the hours
    tell of, the one that is lost first; empty: none.
    """

    date: dt.date
    weather: str
    weather_date: dt.date
    is_forecast: bool
    issued: dt.datetime | None
    age_s: float | None
    place: str
    crew_min: tuple[int, int]
    sun: tuple[int, int] | None
    overall: OperationToday
    operations: tuple[OperationToday, ...]
    hours: tuple[MorningHour, ...]
    opened: Opened | None
    warm: tuple[WarmRolls, ...]
    unknown: tuple[tuple[str, tuple[str, ...]], ...]
    notes: tuple[str, ...]
    thunder: tuple[int, ...] = ()
    proved: tuple[float, float, float] | None = None
    based: Opened | None = None
    roll_ply: str = ""
