"""How long ago something last happened, and how soon it comes: rain since, frost since, rain due (question 5)."""

from __future__ import annotations

import numpy as np

from lapwright.weather.values import Array, Flags

WHOLE_YEAR_H = 8760


def hours_since(happened: Flags) -> Array:
    """Whole hours from the end of the last hour in which something happened to the begin of each hour, (hours,).

    Returns: 0 for the hour that follows at once, and for an hour in which it happens; infinite where it never did.
    A whole year is laid end to end, so that its first hours look back on its last.
    Source: arithmetic
    """
    hours = len(happened)
    turns = 2 if hours >= WHOLE_YEAR_H else 1
    index = np.arange(hours * turns, dtype=np.float64)
    last = np.maximum.accumulate(np.where(np.tile(happened, turns), index, -np.inf))
    since: Array = np.maximum(index - last - 1, 0.0)
    return since[-hours:]


def hours_until(happens: Flags) -> Array:
    """Whole hours from the end of each hour to the begin of the next one in which something happens, (hours,).

    Returns: 0 for the hour just before, and for an hour in which it happens; infinite where it never does again.  A
    whole year is laid end to end.
    Source: arithmetic
    """
    return hours_since(happens[::-1])[::-1]


def reading_after(readings: Array, hours: float) -> Array:
    """A reading so many hours after each, on the straight line between its neighbours, (hours,).

    Returns: NaN where a neighbour is missing; the last reading itself where the record ends first.
    Source: arithmetic
    """
    index = np.arange(len(readings)) + hours
    before = np.minimum(np.floor(index).astype(np.intp), len(readings) - 1)
    after = np.minimum(before + 1, len(readings) - 1)
    share = np.minimum(index, len(readings) - 1.0) - before
    between: Array = readings[before] + np.where(share > 0, share * (readings[after] - readings[before]), 0.0)
    return between
