"""The morning of a day: go, wait or stop for each operation, and by when (question 5).

*Go*: it can begin with the crew's day.  *Wait*: it can begin later in it.  *Stop*: at no time of it.  *Unknown*: an
input is missing; that is never a go.  The hours decide by the rules of docs/method/hours.md; here they are only told.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np

from lapwright.crew.calendar import NO_HOUR, Day
from lapwright.crew.values import OperationToday
from lapwright.hours.decide import DARK, LIMIT_NOT_GIVEN, NO_READING
from lapwright.hours.values import HEAT, MISSING, OPERATIONS, SHUT, STATE_WORDS, HourTable
from lapwright.hours.windows import SafeWindow, latest_primer

GO, WAIT, STOP, UNKNOWN = "go", "wait", "stop", "unknown"
# what has to be fit for a roof to be opened, covered and closed
CLOSES_A_ROOF = ("base", "interply", "cap", "side_lap", "end_lap")
TOGETHER = "all plies"
WATCH = "welding ends for the fire watch"
PRIMED = "primer would not dry in time for the base"


@dataclass(frozen=True, slots=True)
class DayAsked:
    """A day of the crew.

    hours: index into the table of each clock hour 0..23, -1: none.  crew_min: from, to, minutes after midnight.
    keys: what to supply where an operation's limit is not given, by operation.  weld_keys: what to supply before laps
    can be welded, empty where they can.  weld_stop_min: no lap is welded after it.
    silent_supply: what to supply where the weather says nothing.  primer_dry_s: from primer on to its base [s].
    """

    hours: Day
    crew_min: tuple[int, int]
    keys: Mapping[str, tuple[str, ...]]
    weld_keys: tuple[str, ...] = ()
    weld_stop_min: int = 1440
    silent_supply: tuple[str, ...] = ()
    primer_dry_s: float = 0.0


def operations_today(
    table: HourTable, windows: Mapping[str, SafeWindow | None], day: DayAsked
) -> tuple[OperationToday, ...]:
    """What is said of each operation that the roof has, in the order of OPERATIONS.

    Source: method of our own, docs/method/morning.md
    Checked: tests/crew/test_crew_morning.py
    """
    dried = table.as_dried()
    found = (_today(dried, name, windows.get(name), day) for name in OPERATIONS if name in dried.states)
    return tuple(_dry_for_the_base(one, table, windows, day) if one.operation == "primer" else one for one in found)


def together(operations: Sequence[OperationToday], names: Iterable[str], day: DayAsked) -> OperationToday:
    """Several operations at once: from the latest first to the earliest last safe minute.

    Unknown where one is; stop where one is, or where their times do not meet.
    Source: arithmetic
    Checked: tests/crew/test_crew_morning.py
    """
    own = [one for one in operations if one.operation in tuple(names)]
    shared = OperationToday(TOGETHER, UNKNOWN, states=_worst_states(own), measure=any(one.measure for one in own))
    unknown = [one for one in own if one.verdict == UNKNOWN]
    if unknown or not own:
        supply = tuple(dict.fromkeys(key for one in unknown for key in one.supply))
        return replace(shared, why=unknown[0].why if unknown else "no ply is given", supply=supply)
    stopped = [one for one in own if one.verdict == STOP]
    if stopped:
        return replace(shared, verdict=STOP, why=stopped[0].why)
    first = max(own, key=lambda one: _known(one.first_min))
    last = min(own, key=lambda one: _known(one.last_min))
    begin, end = _known(first.first_min), _known(last.last_min)
    if begin > end:
        words = (first.operation, last.operation)
        return replace(shared, verdict=STOP, why=f"{words[0]} and {words[1]} are not fit at one time".replace("_", " "))
    return replace(
        shared,
        verdict=verdict_of(begin, day),
        first_min=begin,
        last_min=end,
        closed_min=max(_known(one.closed_min) for one in own),
        state=max((one.state for one in own), key=STATE_WORDS.index),
        before=first.before,
        after=last.after,
    )


def verdict_of(first_min: int, day: DayAsked) -> str:
    """Go where the window has begun when the crew comes, else wait.

    Source: arithmetic
    """
    return GO if first_min <= day.crew_min[0] else WAIT


def minute_of(table: HourTable, day: DayAsked, instant: np.datetime64) -> int | None:
    """Minutes after midnight on the crew's clock of a moment of standard time; None where it is not on the day.

    Source: arithmetic
    """
    minutes = int((instant - table.weather.start[0]) / np.timedelta64(1, "m"))
    hour, minute = divmod(minutes, 60)
    if hour in day.hours:
        return 60 * day.hours.index(hour) + minute
    return 1440 + minute if minute == 0 and hour - 1 == day.hours[23] else None


def crew_hours(day: DayAsked) -> range:
    """Clock hours that the crew's day touches.

    Source: arithmetic
    """
    begin, end = day.crew_min
    return range(begin // 60, min(24, -(-end // 60)))


def _today(table: HourTable, name: str, window: SafeWindow | None, day: DayAsked) -> OperationToday:
    """One operation."""
    states = _words(table, name, day.hours)
    said = OperationToday(name, UNKNOWN, states=states)
    limits = table.limits[name]
    if limits.apply_c is None:
        return replace(said, why=LIMIT_NOT_GIVEN, supply=day.keys.get(name, ()))
    at_work = [day.hours[hour] for hour in crew_hours(day)]
    if window is None:
        why, is_silent = _why_shut(table, name, at_work)
        if is_silent:
            return replace(said, why=why, supply=day.silent_supply)
        return replace(said, verdict=STOP, why=why)
    first, last = minute_of(table, day, window.first), minute_of(table, day, window.last)
    closed = minute_of(table, day, window.closed_by)
    if first is None or last is None:
        return replace(said, why=NO_READING)
    found = replace(
        said,
        verdict=verdict_of(first, day),
        first_min=first,
        last_min=last,
        closed_min=last if closed is None else closed,
        state=STATE_WORDS[window.worst],
        before=window.opens_after,
        after=window.shuts_for,
        measure=window.measure,
    )
    if window.worst == HEAT and day.weld_keys:
        return replace(found, verdict=UNKNOWN, why="laps must be welded", supply=day.weld_keys)
    return _before_the_watch(found, day)


def _before_the_watch(found: OperationToday, day: DayAsked) -> OperationToday:
    """Welding ends in time for the fire watch to be kept before the crew leaves."""
    stop = day.weld_stop_min
    last = _known(found.last_min)
    if found.state != STATE_WORDS[HEAT] or last <= stop or HEAT not in _states_from(found, stop):
        return found
    if stop <= _known(found.first_min):
        return replace(found, verdict=STOP, first_min=None, last_min=None, closed_min=None, why=WATCH)
    shut = STATE_WORDS[SHUT]
    states = tuple(shut if 60 * hour >= stop and state else state for hour, state in enumerate(found.states))
    return replace(found, last_min=stop, closed_min=stop, after=WATCH, states=states)


def _dry_for_the_base(
    found: OperationToday, table: HourTable, windows: Mapping[str, SafeWindow | None], day: DayAsked
) -> OperationToday:
    """Primer ends in time to dry before the base's window does; where the base has none it is told as it is."""
    if found.last_min is None or windows.get("base") is None:
        return found
    latest = latest_primer(windows, day.primer_dry_s)
    stop = None if latest is None else minute_of(table, day, latest)
    if stop is None:
        return replace(found, verdict=STOP, first_min=None, last_min=None, closed_min=None, why=PRIMED)
    if stop >= found.last_min:
        return found
    shut = STATE_WORDS[SHUT]
    states = tuple(shut if 60 * hour >= stop and state else state for hour, state in enumerate(found.states))
    return replace(found, last_min=stop, closed_min=stop, after=PRIMED, states=states)


def _states_from(found: OperationToday, minute: int) -> set[int]:
    """States of the clock hours from a minute on to the last safe one."""
    hours = range(minute // 60, min(23, _known(found.last_min) // 60) + 1)
    return {STATE_WORDS.index(found.states[hour]) for hour in hours if found.states[hour]}


def _words(table: HourTable, name: str, hours: Sequence[int]) -> tuple[str, ...]:
    """The state of each clock hour in a word; "" where there is no such hour or it is not known."""
    silent, states = table.is_unknown(name), table.states[name]
    return tuple("" if at == NO_HOUR or silent[at] else STATE_WORDS[int(states[at])] for at in hours)


def _why_shut(table: HourTable, name: str, at_work: Sequence[int]) -> tuple[str, bool]:
    """What shuts an operation in most of the crew's hours, darkness last; and whether no hour has readings."""
    told = [
        NO_READING if index == NO_HOUR else table.reasons[int(table.reason[name][index])] or DARK for index in at_work
    ]
    light = [word for word in told if word != DARK] or told
    ordered = sorted(dict.fromkeys(light), key=lambda word: -light.count(word))
    is_silent = bool(light) and all(any(part in word for part in MISSING) for word in light)
    return (ordered[0] if ordered else NO_READING), is_silent


def _worst_states(own: Sequence[OperationToday]) -> tuple[str, ...]:
    """Hour by hour the worst state of several operations; unknown where one is."""
    if not own:
        return ()
    return tuple(
        "" if "" in words else max(words, key=STATE_WORDS.index)
        for words in zip(*(one.states for one in own), strict=True)
    )


def _known(minute: int | None) -> int:
    return 0 if minute is None else minute
