"""One working day as the crew's clock sees it: which minutes are fit for which work, and with how many hands.

*Stretch*: an unbroken run of dry daylight hours of the working day, from the crew's coming until its clean-up.  All
that is opened in a stretch is closed in it.  *Mode*: whether laps are welded this day, in its `heat` hours.  Minutes
are minutes after midnight on the crew's clock.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from lapwright.crew.calendar import Day
from lapwright.crew.rates import rate_of
from lapwright.crew.values import CrewSetting
from lapwright.hours.values import HEAT, SHUT, HourTable

NEVER = math.inf
# What must be fit at once for each kind of work: an operation of the hour table that a roof lacks is left out.
NEEDS: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "primer": ("primer",),
        "base": ("base",),
        "interply": ("interply",),
        "cap": ("cap", "side_lap", "end_lap"),
        "flashing": ("flashing", "mastic"),
        "edge_metal": ("edge_metal", "mastic"),
    }
)


@dataclass(frozen=True, slots=True)
class Part:
    """A part of a piece of work done without a break in one state: from, to [min], state, hands, share of the work."""

    begin: float
    end: float
    state: int
    hands: int
    share: float


@dataclass(frozen=True, slots=True)
class Shift:
    """A working day in one mode.

    begin, end: of the day [min]; end of work leaves time to clean up.  breaks: from, to [min].  hours: index into the
    weather year of each clock hour.  states: kind of work -> state of each clock hour.  hands: people free in each
    clock hour.  stretches: from, to [min].  weld_stop: no lap is welded after it [min].
    """

    begin: float
    end: float
    breaks: tuple[tuple[float, float], ...]
    hours: Day
    states: Mapping[str, tuple[int, ...]]
    hands: tuple[int, ...]
    stretches: tuple[tuple[float, float], ...]
    weld_stop: float


def minutes_of(hour: int, minute: int) -> float:
    """Minutes after midnight.  Source: arithmetic"""
    return 60.0 * hour + minute


def day_span(crew: CrewSetting) -> tuple[float, float]:
    """From and to of the working day [min].  Source: arithmetic"""
    return (
        minutes_of(crew.day_from.hour, crew.day_from.minute),
        minutes_of(crew.day_to.hour, crew.day_to.minute),
    )


def breaks_of(crew: CrewSetting) -> tuple[tuple[float, float], ...]:
    """The day's breaks [min]: a short one a quarter into the day, a longer one in its middle, on the quarter hour.

    Source: common practice, no source
    Checked: tests/crew/test_crew_shift.py
    """
    begin, end = day_span(crew)
    found = []
    for name, share in (("morning_break", 0.25), ("noon_break", 0.5)):
        length = rate_of(crew.rates, name) / 60.0
        at = 15.0 * math.floor((begin + share * (end - begin)) / 15.0)
        if length > 0.0 and at + length < end:
            found.append((at, at + length))
    if len(found) == 2 and found[0][1] > found[1][0]:
        return (found[1],)
    return tuple(found)


def weld_stop_min(crew: CrewSetting) -> float:
    """When welding stops [min], so that the fire watch is kept before the crew leaves; -inf where it is not given.

    Source: common practice, no source
    """
    if crew.fire_watch_s is None:
        return -NEVER
    return math.floor(day_span(crew)[1] - crew.fire_watch_s / 60.0)


def can_weld(crew: CrewSetting) -> bool:
    """Laps can be welded: somebody welds, somebody else watches for fire, and it is known for how long.

    Source: common practice, no source
    """
    return crew.fire_watch_s is not None and crew.welders >= 1 and crew.people >= 2


@dataclass(frozen=True, slots=True)
class Fitness:
    """The hour table as the crew needs it, hour by hour of the weather year.

    fit: light and dry, so that what is opened in it stays dry; an hour without readings is not.  states: kind of work
    -> worst state of the operations that it needs.  heat: some kind asks for welded laps.  wet: 0 dry, 1 dew or frost
    or no reading, 2 rain or snow.
    """

    fit: Sequence[bool]
    states: Mapping[str, Sequence[int]]
    heat: Sequence[bool]
    wet: Sequence[int]


def laying_states(table: HourTable) -> dict[str, NDArray[np.uint8]]:
    """The states of each operation on a base that is dry when the cap comes.

    A base laid the same day was never wetted; what was wetted within `dry_after_wet`, or is wet yet, is dried and
    measured before anything is laid on it, which the crew's day has its time for.
    """
    return dict(table.as_dried().states)


def is_getting_wet(table: HourTable) -> NDArray[np.bool_]:
    """Hours in which the surface is wetted, so that drying it is of no use, (hours,).

    Source: arithmetic
    """
    return table.wet if table.getting_wet is None else table.getting_wet


def make_fitness(table: HourTable) -> Fitness:
    """The hour table, reckoned once for the walk.

    Source: arithmetic
    Checked: tests/crew/test_crew_shift.py
    """
    absent, known = table.weather.absent, laying_states(table)
    fit = table.daylight & ~is_getting_wet(table) & ~absent
    states = {}
    for kind, needs in NEEDS.items():
        arrays = [known[name] for name in needs if name in known]
        worst = np.max(np.stack(arrays), axis=0) if arrays else np.zeros(len(absent), dtype=np.uint8)
        states[kind] = np.where(absent, SHUT, worst)
    heat = np.any(np.stack(list(states.values())) == HEAT, axis=0)
    wet = np.where(table.wet & (table.weather.rain_mm > 0.0), 2, np.where(table.wet | absent, 1, 0))
    lists = {kind: array.tolist() for kind, array in states.items()}
    return Fitness(fit.tolist(), MappingProxyType(lists), heat.tolist(), wet.tolist())


def make_shift(fitness: Fitness, hours: Day, crew: CrewSetting, *, welding: bool) -> Shift:
    """A working day: stretches, and the states of each kind of work.

    welding: laps are welded in `heat` hours; else those hours are shut to sheets whose laps would need it.
    Source: common practice, no source
    Checked: tests/crew/test_crew_shift.py
    """
    begin, end = day_span(crew)
    work_end = max(begin, end - rate_of(crew.rates, "clean_up") / 60.0)
    fit = tuple(hour >= 0 and fitness.fit[hour] for hour in hours)
    states = {kind: hour_states(of_kind, hours, welding=welding) for kind, of_kind in fitness.states.items()}
    stop = weld_stop_min(crew)
    hands = [crew.people] * 24
    if welding:
        hot = [hour >= 0 and good and fitness.heat[hour] for hour, good in zip(hours, fit, strict=True)]
        for hour in watched_hours(hot, crew, stop):
            hands[hour] -= 1
    return Shift(
        begin, work_end, breaks_of(crew), hours, states, tuple(hands), stretches_of(fit, begin, work_end), stop
    )


def hour_states(of_kind: Sequence[int], hours: Day, *, welding: bool) -> tuple[int, ...]:
    """The state of one kind of work in each clock hour."""
    found = [of_kind[hour] if hour >= 0 else SHUT for hour in hours]
    return tuple(found) if welding else tuple(SHUT if state == HEAT else state for state in found)


def heat_hours(fitness: Fitness, hours: Day, crew: CrewSetting) -> int:
    """Clock hours of the working day that are fit for laying only with welded laps.  Source: arithmetic"""
    begin, end = day_span(crew)
    inside = [index for hour, index in enumerate(hours) if 60.0 * hour < end and 60.0 * (hour + 1) > begin]
    return sum(1 for index in inside if index >= 0 and fitness.fit[index] and fitness.heat[index])


def watched_hours(hot: Sequence[bool], crew: CrewSetting, stop: float) -> list[int]:
    """Clock hours in which one person keeps the fire watch: every one fit for welding, and `fire_watch` after it.

    Set aside for whole hours, whether or not a lap is being welded at that minute.
    """
    begin, _ = day_span(crew)
    after = (crew.fire_watch_s or 0.0) / 60.0
    until = -NEVER
    found = []
    for hour in range(24):
        if hot[hour] and 60.0 * (hour + 1) > begin and 60.0 * hour < stop:
            until = 60.0 * (hour + 1) + after
        if 60.0 * hour < until:
            found.append(hour)
    return found


def stretches_of(fit: tuple[bool, ...], begin: float, end: float) -> tuple[tuple[float, float], ...]:
    """Unbroken runs of fit hours within the working day [min]."""
    found: list[tuple[float, float]] = []
    for hour, is_good in enumerate(fit):
        low, high = max(begin, 60.0 * hour), min(end, 60.0 * (hour + 1))
        if not is_good or high <= low:
            continue
        if found and found[-1][1] == low:
            found[-1] = (found[-1][0], high)
        else:
            found.append((low, high))
    return tuple(found)


def after_break(shift: Shift, at: float) -> float:
    """The first minute from `at` on that lies in no break."""
    for low, high in shift.breaks:
        if low <= at < high:
            return high
    return at


def next_stop(shift: Shift, at: float, limit: float) -> float:
    """Where work going on at `at` halts first: a break, the end of the clock hour, or the limit."""
    stop = min(limit, 60.0 * (math.floor(at / 60.0) + 1))
    for low, _ in shift.breaks:
        if at < low < stop:
            stop = low
    return stop
