"""How long ago something last happened: rain since, frost since (question 5)."""

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
