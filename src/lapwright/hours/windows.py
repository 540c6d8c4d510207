"""The longest stretch of each day in which an operation can go on (question 5)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.values import Rules
from lapwright.hours.decide import FALLS, LEAVES_OPEN, RAIN_DUE, Decision, decide
from lapwright.hours.minutes import MINUTES_AN_HOUR, Minutes, minutes_of
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, HourTable
from lapwright.units.write import Units

DAY_BEGINS, DAY_ENDS = "the crew's day begins", "the crew's day ends"
_MINUTE = np.timedelta64(1, "m")


@dataclass(frozen=True, slots=True)
class SafeWindow:
    """The longest stretch of a day in which an operation may go on, by the minute.

    first, last: first and last safe minute in local standard time, rounded inward; minutes: from one to the other.
    worst: OPEN, WARM or HEAT, the worst state within; minutes_by_state: of each of the three.  opens_after,
    shuts_for: what shut the minute before, and shuts the minute after.  measure: some minute within is in doubt.
    closed_by: by then what was opened is closed, or its laps are rolled: the rain itself where rain due shuts, the
    limit itself where falling temperature does, else `last`.  open_until: the last minute at which more may be opened
    and still be closed by then (`last` for what leaves nothing open).
    """

    operation: str
    first: np.datetime64
    last: np.datetime64
    minutes: int
    worst: int
    minutes_by_state: tuple[int, int, int]
    opens_after: str
    shuts_for: str
    measure: bool
    closed_by: np.datetime64
    open_until: np.datetime64


def safe_windows(
    table: HourTable,
    begin: np.datetime64,
    end: np.datetime64,
    *,
    rules: Rules,
    units: Units,
    over_fresh_base: bool = False,
    dried: bool = False,
) -> Mapping[str, SafeWindow | None]:
    """The longest window of each operation between two minutes, to the minute; None where it has none.

    Args:
        begin, end: of the crew's day, in the local standard time of the weather; see `clock.day_span`.
        over_fresh_base: the base was laid the same day, or dried and measured.
        dried: the crew sweeps and blows the surface dry first, so that water left from the night does not shut.

    The same rules that judge an hour judge each minute, on readings between those of the hours; of two equally long
    windows the earlier is taken.
    Raises: ValueError where the table does not hold the whole span, or was made without its readings.
    Source: common practice, no source
    Checked: tests/hours/test_hour_minutes.py
    """
    start = table.weather.start
    first = int(np.searchsorted(start, begin, side="right")) - 1
    past = int(np.searchsorted(start, end, side="left"))
    if first < 0 or end > start[-1] + MINUTES_AN_HOUR * _MINUTE or past <= first:
        raise ValueError(f"the weather does not hold {begin} to {end}")
    found = minutes_of(table, range(first, past), rules)
    decision = decide(found.readings, table.limits, rules, units)
    inside = (found.start >= begin) & (found.start < end)
    windows: dict[str, SafeWindow | None] = {}
    for operation, over_old_base in decision.states.items():
        states = decision.fresh_base.get(operation, over_old_base) if over_fresh_base else over_old_base
        reason = decision.reason[operation]
        if dried:
            states, reason = decision.dried[operation], decision.dried_reason[operation]
        run = longest_run((states < SHUT) & inside)
        windows[operation] = None
        if run is not None:
            windows[operation] = _window(
                operation, run, states, reason, inside, found=found, decision=decision, rules=rules
            )
    return windows


def _window(
    operation: str,
    run: range,
    states: NDArray[np.uint8],
    reason: NDArray[np.uint8],
    inside: NDArray[np.bool_],
    *,
    found: Minutes,
    decision: Decision,
    rules: Rules,
) -> SafeWindow:
    """One window from the minutes in which the operation can go on."""

    def told(minute: int, outside: str) -> str:
        is_inside = 0 <= minute < len(inside) and inside[minute]
        return decision.reasons[int(reason[minute])] if is_inside else outside

    shuts_for = told(run.stop, DAY_ENDS)
    # the end of the day itself is the last minute of a window that only the day's end shuts
    last = found.start[run.stop - 1] + (_minutes(60.0) if shuts_for == DAY_ENDS else _minutes(0.0))
    closed_by = last + _respite(shuts_for, rules)
    within = states[run.start : run.stop]
    must_close = operation in LEAVES_OPEN
    open_until = min(last, closed_by - _minutes(rules.close_within_s)) if must_close else last
    return SafeWindow(
        operation=operation,
        first=found.start[run.start],
        last=last,
        minutes=int((last - found.start[run.start]) / _minutes(60.0)),
        worst=int(within.max()),
        minutes_by_state=(int((within == OPEN).sum()), int((within == WARM).sum()), int((within == HEAT).sum())),
        opens_after=told(run.start - 1, DAY_BEGINS),
        shuts_for=shuts_for,
        measure=bool(decision.measure[run.start : run.stop].any()),
        closed_by=closed_by,
        open_until=max(found.start[run.start], open_until),
    )


def _respite(shuts_for: str, rules: Rules) -> np.timedelta64:
    """Time from the last safe minute to that which it was shut for."""
    if shuts_for.startswith(RAIN_DUE):
        return _minutes(rules.close_within_s)
    if FALLS in shuts_for:
        return _minutes(rules.roll_within_s)
    return _minutes(0.0)


def _minutes(seconds: float) -> np.timedelta64:
    return np.timedelta64(int(seconds // 60), "m")


def latest_primer(windows: Mapping[str, SafeWindow | None], dry_s: float) -> np.datetime64 | None:
    """The last minute for primer that dries [s] before the lowest ply's window ends; None where there is none.

    Source: arithmetic
    """
    primer, base = windows.get("primer"), windows.get("base")
    if primer is None or base is None:
        return None
    latest = min(primer.last, base.last - np.timedelta64(-int(-dry_s // 60), "m"))
    return latest if latest >= primer.first else None


def longest_run(can_go: NDArray[np.bool_]) -> range | None:
    """The longest unbroken run of true values, the earlier of two; None where there is none.

    Source: arithmetic
    """
    edges = np.flatnonzero(np.diff(can_go.astype(np.int8), prepend=0, append=0))
    if not len(edges):
        return None
    begins, ends = edges[::2], edges[1::2]
    best = int(np.argmax(ends - begins))
    return range(int(begins[best]), int(ends[best]))
