"""Putting one piece of work into a day: as early as it fits, never left half done over a shut hour.

Since a piece of work starts as early as it can and never ends later for starting earlier, nor for having more hands,
a crew that has more people or more welders is never behind a smaller one (docs/method/crew.md).
"""

from __future__ import annotations

import math
from collections.abc import Callable

from lapwright.crew.shift import Part, Shift, after_break, next_stop
from lapwright.hours.values import HEAT, SHUT

Lasts = Callable[[int, int], float]
"""Minutes that a whole piece of work takes in a state with so many hands; inf where it can't be done so."""
SLACK = 1e-9


def whole_minutes(minute: float) -> float:
    """A minute of the day rounded up to a whole one: nobody works by the second.  Source: arithmetic"""
    return float(math.ceil(minute - SLACK))


def done(shift: Shift, kind: str, at: float, limit: float, lasts: Lasts) -> tuple[Part, ...] | None:
    """Where a piece of work goes, from `at` on and before `limit` [min]; None where it does not fit.

    It pauses for breaks; where an hour shuts before it is done it is not begun, but put after that hour.
    Source: arithmetic
    Checked: tests/crew/test_crew_doing.py
    """
    states, hands = shift.states[kind], shift.hands
    parts: list[Part] = []
    left = 1.0
    while True:
        at = after_break(shift, at)
        if at >= limit:
            return None
        hour = int(at // 60.0)
        state, end = states[hour], next_stop(shift, at, limit)
        if state == HEAT and end > shift.weld_stop:
            end = max(at, shift.weld_stop)
        whole = math.inf if state == SHUT else lasts(state, hands[hour])
        if whole == math.inf or end <= at:
            at, left, parts = 60.0 * (hour + 1), 1.0, []
            continue
        needs = left * whole
        if needs <= end - at + SLACK:
            parts.append(Part(at, min(end, whole_minutes(at + needs)), state, hands[hour], left))
            return tuple(parts)
        share = (end - at) / whole
        parts.append(Part(at, end, state, hands[hour], share))
        left -= share
        at = end


def passed(shift: Shift, at: float, limit: float, person_min: float) -> tuple[Part, ...] | None:
    """Work that any dry minute is fit for (tie-off, probing), by all hands free; None where it does not fit.

    person_min: one person's minutes.
    Source: arithmetic
    """
    parts: list[Part] = []
    left = person_min
    while left > SLACK:
        at = after_break(shift, at)
        if at >= limit:
            return None
        hands = shift.hands[int(at // 60.0)]
        end = min(whole_minutes(at + left / hands), next_stop(shift, at, limit))
        parts.append(Part(at, end, 0, hands, 0.0))
        left -= hands * (end - at)
        at = end
    return tuple(parts)


def lasting(shift: Shift, at: float, limit: float, minutes: float) -> tuple[Part, ...] | None:
    """Work of a fixed length by the whole crew; it pauses for breaks.

    Source: arithmetic
    """
    parts: list[Part] = []
    left = minutes
    while left > SLACK:
        at = after_break(shift, at)
        if at >= limit:
            return None
        end = min(whole_minutes(at + left), next_stop(shift, at, limit))
        parts.append(Part(at, end, 0, shift.hands[int(at // 60.0)], 0.0))
        left -= end - at
        at = end
    return tuple(parts)
