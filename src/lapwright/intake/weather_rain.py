"""Rain of each hour from depths that files give for the past 1, 3, 6 or 24 hours.

Missing rain is never bridged: an hour is dry only where a depth of nothing, over that hour or a longer period that
holds it, says so.  A depth over several hours tells that it rained, not when: it fills no hour.
"""

from __future__ import annotations

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array, Flags

PERIODS_H = (24, 6, 3, 1)


def rain_by_hour(depth_mm: Array, period_h: Array) -> Array:
    """Rain of each hour [mm], NaN unknown, (hours,).

    Args:
        depth_mm: depth of the period that ends with the hour; NaN not reported; a negative depth (a trace) fills
            nothing here, (hours,).
        period_h: length of that period; other than 1, 3, 6, 24 is not used, (hours,).
    """
    rain_mm = np.full(depth_mm.shape, np.nan)
    for period in PERIODS_H:
        is_dry = (depth_mm == 0) & (period_h == period)
        for back in range(period):
            rain_mm[: len(rain_mm) - back][is_dry[back:]] = 0.0
    measured = (depth_mm > 0) & (period_h == 1)
    rain_mm[measured] = depth_mm[measured]
    return rain_mm


def is_in_tenths(depth_mm: Array) -> bool:
    """Whether hourly depths stated in millimetres really stand in tenths of one.

    True only where both tell so: the year is deeper than any station of the country gets, and the depths stand on
    the 0.01 inch steps of the country's gauges, ten times over.
    """
    rows = table("hours")
    depths = depth_mm[depth_mm > 0]
    if depths.size == 0 or depths.sum() <= rows["rain_year_highest"].number():
        return False
    step = 10 * rows["rain_step"].number()
    on_step = np.abs(depths - np.round(np.round(depths / step) * step)) < 0.5
    return bool(on_step.mean() >= rows["rain_on_steps"].number())


def is_never_wet(depth_mm: Array) -> bool:
    """Whether depths are given but not one of a whole year is over nothing: a column that nobody measured."""
    given = depth_mm[np.isfinite(depth_mm)]
    return given.size > 0 and not bool(np.any(given != 0))


def unmeasured_snow(rain_mm: Array, trace: Flags, air_c: Array) -> Flags:
    """Hours of spells too long without rain, snow or trace, mostly at or below freezing, (hours,).

    Many automatic gauges do not measure snow and report dry hours all winter.
    """
    longest_h = table("hours")["frozen_dry_longest"].number() * 24
    is_quiet = ~((rain_mm > 0) | trace)
    bounds = np.flatnonzero(np.diff(is_quiet.astype(np.int8), prepend=0, append=0))
    unmeasured = np.zeros(rain_mm.shape, dtype=bool)
    for begin, end in zip(bounds[::2].tolist(), bounds[1::2].tolist(), strict=True):
        frozen = np.mean(air_c[begin:end] <= 0)
        unmeasured[begin:end] = end - begin > longest_h and frozen > 1 / 2
    return unmeasured & np.isfinite(rain_mm)
