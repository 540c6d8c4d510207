"""Temperature and wetness of the surface through hours that follow one another (question 5).

The balance of `surface.py` with what the roof holds: sheet, boards and deck store heat from hour to hour, and a film
of water on the surface, from rain, dew or frost, dries off and cools it meanwhile.

Hours are stepped through in quarters (`stepping.py`), all models and all stretches of two days side by side
(`stretches.py`).
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from lapwright.defaults.table import table
from lapwright.heat.buildup import BuildUp, step_of
from lapwright.heat.stepping import STEPS_AN_HOUR, Drive, vapour_k
from lapwright.heat.stretches import by_hour, cut, settled
from lapwright.heat.surface import Conditions, Surface, SurfaceSetting, forcing_by_model
from lapwright.weather.values import Array, Flags

_HOUR_S = 3600.0


@dataclass(frozen=True, slots=True)
class Water:
    """What wets the surface, (hours,): rain_mm that falls in the hour, never NaN; covered: snow lies over the hour."""

    rain_mm: Array
    covered: Flags


@dataclass(frozen=True, slots=True)
class SurfaceYear:
    """Surface at the end of each hour.

    surface: temperature with its spread [°C].  film_mm: water or ice left on it by the middle models, film_low_mm and
    film_high_mm over all of them, (hours,).  NaN where a reading is missing.
    """

    surface: Surface
    film_mm: Array
    film_low_mm: Array
    film_high_mm: Array


def surface_year(conditions: Conditions, water: Water, setting: SurfaceSetting, built: BuildUp) -> SurfaceYear:
    """Temperature and wetness of the surface at the end of each hour, by the middle models and over all of them.

    Args:
        conditions: hours that follow one another without a gap; a missing reading is passed over on a straight line
            and its hour is NaN.
        setting: of the surface; its `u_w_m2k` is not used, the build-up tells.

    Source: heat balance with storage, EnergyPlus engineering reference, outside surface heat balance; water carried
        off by the air as heat is (FAO Irrigation and drainage paper 56, psychrometric constant [from memory])
    Checked: tests/heat/test_surface_year.py
    """
    is_missing = np.isnan(conditions.air_c + conditions.dew_point_c + conditions.wind_m_s)
    is_missing |= np.isnan(conditions.sun_clearest_w_m2 + conditions.sun_darkest_w_m2)
    hours = len(is_missing)
    if is_missing.all():
        nothing = np.full(hours, np.nan)
        return SurfaceYear(Surface(nothing, nothing, nothing), nothing, nothing, nothing)
    drive, models, cases = _drive(_filled(conditions, is_missing), water, setting)
    step = step_of(built, _HOUR_S / STEPS_AN_HOUR)
    found = settled(drive, step, setting, models)
    surface_c, film = (np.where(is_missing, np.nan, by_hour(one, hours)) for one in (found.surface_c, found.film_mm))
    middle = [case * len(surface_c) // (3 * cases) for case in range(cases)]
    return SurfaceYear(
        Surface(surface_c[middle].mean(axis=0), surface_c.min(axis=0), surface_c.max(axis=0)),
        film[middle].max(axis=0),
        film.min(axis=0),
        film.max(axis=0),
    )


def _filled(conditions: Conditions, is_missing: Flags) -> Conditions:
    """The conditions with missing hours filled along a straight line, so that they do not spoil those after them."""
    if not is_missing.any():
        return conditions
    index = np.arange(len(is_missing))
    known = index[~is_missing]
    names = ("air_c", "dew_point_c", "wind_m_s", "sun_clearest_w_m2", "sun_darkest_w_m2")
    return replace(conditions, **{name: np.interp(index, known, getattr(conditions, name)[known]) for name in names})


def _drive(conditions: Conditions, water: Water, setting: SurfaceSetting) -> tuple[Drive, int, int]:
    """What drives each column, how many models there are, and how many cases of cloud (clear and overcast: 2)."""
    forcing = forcing_by_model(conditions, setting)
    models = len(forcing.forced)
    sun = forcing.sun_w_m2
    if water.covered.any():
        bright = table("heat")["snow_absorptance"].number() / setting.absorptance
        sun = np.where(water.covered, bright * sun, sun)
    air_c = cut(conditions.air_c)
    before_c = np.concatenate([air_c[:1, :1], air_c[-1:, :-1]], axis=1)
    stretches = air_c.shape[1]

    def by_model(free: Array) -> Array:
        return np.repeat(free, stretches)

    return (
        Drive(
            gain_w_m2=cut(forcing.sky_w_m2 + sun),
            forced=cut(forcing.forced),
            added=cut(np.where(forcing.is_sum[:, None], forcing.forced, 0.0)),
            warm=by_model(forcing.free_warm**3),
            cool=by_model(-(forcing.free_cool**3)),
            air_c=np.tile(np.concatenate([before_c, air_c]), models),
            vapour_k=np.tile(cut(vapour_k(conditions.dew_point_c)), models),
            rain_mm=np.tile(cut(water.rain_mm), models),
            covered=np.tile(cut(water.covered.astype(np.float64)) > 0, models),
        ),
        models,
        forcing.cases,
    )
