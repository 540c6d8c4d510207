"""The roll clock over a job's winter: month by month, by wind and air, and for a roll left out (question 6)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from lapwright.heat.contact import material
from lapwright.heat.radial import rings, step_rings
from lapwright.heat.rollclock import RollAsk, Wound, left_at_limit, roll_film, wound_radius, wound_roll
from lapwright.heat.values import LeftOut, MonthClock
from lapwright.weather.values import Array

SHORT, MIDDLE, LONG = 0.1, 0.5, 0.9  # shares of the hours that are worse
_FILMS, _LEFTS = 12, 40
_SOONEST, _TIMES = 1e-7, 320  # Fourier numbers that a clock is read off
_STEP_S = 20.0


def outer_wraps_s(ask: RollAsk, air_c: Array, wind_m_s: Array) -> Array:
    """What the outermost wrap lasts in each hour's weather [s], (hours,); infinite where it is not lost.

    Read off a grid of exact clocks over film and limit, within a hundredth.
    Source: as `roll_clock`
    Checked: tests/heat/test_winter.py
    """
    if not len(air_c):
        return np.zeros(0)
    films = np.array(
        [
            roll_film(replace(ask, air_c=float(air), wind_m_s=float(wind)))
            for air, wind in zip(air_c, wind_m_s, strict=True)
        ]
    )
    lefts = np.array([left_at_limit(ask.stored_c, float(air), ask.until_c) for air in air_c])
    found = np.where(lefts >= 1, 0.0, np.inf)
    is_lost = (lefts < 1) & (lefts > 1e-3)
    if not is_lost.any():
        return found
    # times run straight over the logarithms of film and of -ln(left), so a coarse grid does
    across, up = np.log(films[is_lost]), np.log(-np.log(lefts[is_lost]))
    film_nodes = np.linspace(across.min() - 1e-9, across.max() + 1e-9, _FILMS)
    left_nodes = np.linspace(up.min() - 1e-9, up.max() + 1e-9, _LEFTS)
    grid = np.empty((_FILMS, _LEFTS))
    for index, film in enumerate(np.exp(film_nodes)):
        roll = wound_roll(ask.thickness, ask.length, ask.core, film_w_m2k=float(film))
        grid[index] = np.log(roll.seconds(1.0)) + _log_fourier(roll, ask.thickness, np.exp(left_nodes))
    found[is_lost] = np.exp(_between(grid, film_nodes, left_nodes, across, up))
    return found


def month_clocks(lasts_s: Array, month: NDArray[np.int64]) -> tuple[MonthClock, ...]:
    """The outer wrap's times month by month, from August on so that a winter stands together.

    Args:
        lasts_s: of each cold working hour, (hours,); month: 1 to 12, (hours,).

    Source: arithmetic: quantiles that are values of the sample
    """
    order = [*range(8, 13), *range(1, 8)]
    return tuple(
        MonthClock(
            one, int((month == one).sum()), *(quantile_s(lasts_s[month == one], q) for q in (SHORT, MIDDLE, LONG))
        )
        for one in order
        if (month == one).any()
    )


def quantile_s(lasts_s: Array, share: float) -> float | None:
    """The time that a share of the hours does not reach [s]; None: not lost, or no hours.

    Source: arithmetic
    """
    if not len(lasts_s):
        return None
    found = float(np.sort(lasts_s)[int(share * (len(lasts_s) - 1))])
    return found if np.isfinite(found) else None


def wind_table(
    ask: RollAsk, winds_m_s: Sequence[float], airs_c: Sequence[float]
) -> tuple[tuple[float | None, ...], ...]:
    """What the outermost wrap lasts [s] by air (rows) and wind (columns), None: it is not lost.

    Source: as `roll_clock`
    Checked: tests/heat/test_winter.py
    """
    airs, winds = np.meshgrid(np.asarray(airs_c, dtype=float), np.asarray(winds_m_s, dtype=float), indexing="ij")
    lasts = outer_wraps_s(ask, airs.ravel(), winds.ravel()).reshape(airs.shape)
    return tuple(tuple(float(one) if np.isfinite(one) else None for one in row) for row in lasts)


def roll_left_out(ask: RollAsk, air_c: Array, wind_m_s: Array) -> LeftOut:
    """A roll through the hours of a day, each with its own air and wind, (hours,).

    Source: Fourier's law between rings, implicit Euler steps; films as `roll_film`
    Checked: tests/heat/test_winter.py
    """
    sheet = material("sheet")
    if sheet is None:
        raise LookupError("defaults/heat.csv has no sheet")
    per_hour = int(3600 / _STEP_S)
    films = [
        roll_film(replace(ask, air_c=float(air), wind_m_s=float(wind)))
        for air, wind in zip(air_c, wind_m_s, strict=True)
    ]
    roll = rings(wound_radius(ask.thickness, ask.length, ask.core), ask.core / 2, sheet)
    cells_c = step_rings(
        roll,
        np.full(len(roll.areas), ask.stored_c),
        air_c=np.repeat(air_c, per_hour),
        film_w_m2k=np.repeat(films, per_hour),
        step_s=_STEP_S,
    )
    share = roll.share_above(cells_c, ask.until_c)
    wrap = roll.mean_of_outer(cells_c, ask.thickness) > ask.until_c
    return LeftOut(
        _first_s(~wrap),
        _first_s(share < 0.5),
        _first_s(share <= 0),
        tuple(float(x) for x in share[per_hour - 1 :: per_hour]),
    )


def _log_fourier(roll: Wound, wrap: float, lost: Array) -> Array:
    """Logarithm of the Fourier number at which the outer wrap has so much lost, -ln(left), (limits,)."""
    slowest = float(roll.series.roots[0] ** 2)
    times = np.geomspace(_SOONEST, (lost.max() + 3.0) / slowest, _TIMES)
    left = np.exp(-np.minimum(np.outer(times, roll.series.roots**2), 700.0)) @ roll.wrap_weights(wrap)
    gone = -np.log(np.clip(left, 1e-300, 1 - 1e-12))
    read: Array = np.interp(np.log(lost), np.log(np.maximum.accumulate(gone)), np.log(times))
    return read


def _first_s(is_lost: NDArray[np.bool_]) -> float | None:
    where = np.flatnonzero(is_lost)
    return float((where[0] + 1) * _STEP_S) if len(where) else None


def _between(grid: Array, across_nodes: Array, up_nodes: Array, across: Array, up: Array) -> Array:
    """Values of a grid of even nodes read in straight lines both ways."""
    x = (across - across_nodes[0]) / (across_nodes[1] - across_nodes[0])
    y = (up - up_nodes[0]) / (up_nodes[1] - up_nodes[0])
    i = np.clip(x.astype(int), 0, len(across_nodes) - 2)
    j = np.clip(y.astype(int), 0, len(up_nodes) - 2)
    dx, dy = x - i, y - j
    low = grid[i, j] * (1 - dy) + grid[i, j + 1] * dy
    high = grid[i + 1, j] * (1 - dy) + grid[i + 1, j + 1] * dy
    between: Array = low * (1 - dx) + high * dx
    return between
