"""Temperature of the roof surface that is being covered (questions 5 and 6).

A steady balance: sun taken in, radiation exchanged with the sky, heat carried off by the air, heat from the building.
No single model of sky and air is right, so the *middle* is one pair of models (Clark and Allen's sky, Watmuff's film)
and *low* and *high* are the extremes over all pairs; where the cloud is unknown, over clear and overcast too.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np

from lapwright.defaults.table import table
from lapwright.heat.film import Film, mcadams, tarp, watmuff
from lapwright.heat.sky import ZERO_C_K, berdahl_martin_emissivity, clark_allen_emissivity, sky_radiation_w_m2
from lapwright.weather.values import Array, Flags

_SKIES: tuple[Callable[[Array, Array], Array], ...] = (clark_allen_emissivity, berdahl_martin_emissivity)
_NEWTON_STEPS = 8  # residual under 1e-9 K from the air's temperature over all weather (tests/heat/test_surface.py)


@dataclass(frozen=True, slots=True)
class SurfaceSetting:
    """What the surface is and what lies under it.

    absorptance (sun), emittance (long wave); u_w_m2k: surface to the air inside, 0 where nothing is known;
    inside_c; area [m²] and perimeter [m] of the roof, for the film over its middle.
    """

    absorptance: float
    emittance: float
    u_w_m2k: float
    inside_c: float
    area: float
    perimeter: float


@dataclass(frozen=True, slots=True)
class Conditions:
    """Weather over the roof, (hours,) each.

    wind_m_s: at the roof; cloud: 0..1, NaN unknown; sun_clearest_w_m2, sun_darkest_w_m2: on the roof, the same where
    the sun was reported or the cloud is known.
    """

    air_c: Array
    dew_point_c: Array
    wind_m_s: Array
    cloud: Array
    sun_clearest_w_m2: Array
    sun_darkest_w_m2: Array


@dataclass(frozen=True, slots=True)
class Surface:
    """Temperature of the surface [°C], (hours,): by the middle models, and the spread over all of them."""

    middle_c: Array
    low_c: Array
    high_c: Array


def default_setting(
    *,
    absorptance: float | None = None,
    u_w_m2k: float | None = None,
    inside_c: float | None = None,
    area: float | None = None,
    perimeter: float | None = None,
) -> SurfaceSetting:
    """A setting with the defaults of defaults/heat.csv for whatever is None; no heat from inside where U is None.

    Source: rows absorptance, emittance, inside, roof_side of defaults/heat.csv, each with its own
    """
    rows = table("heat")
    side = rows["roof_side"].number()
    is_sized = area is not None and perimeter is not None
    return SurfaceSetting(
        absorptance=rows["absorptance"].number() if absorptance is None else absorptance,
        emittance=rows["emittance"].number(),
        u_w_m2k=0.0 if u_w_m2k is None else u_w_m2k,
        inside_c=rows["inside"].number() if inside_c is None else inside_c,
        area=area if is_sized and area is not None else side * side,
        perimeter=perimeter if is_sized and perimeter is not None else 4 * side,
    )


def surface_temperature(conditions: Conditions, setting: SurfaceSetting) -> Surface:
    """Middle and spread of the surface's temperature.

    Holds for: a dry surface in steady weather; a membrane on insulation follows within minutes, a bare concrete
        deck lags by hours.  NaN in gives NaN out.
    Source: heat balance, EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/published/heat.csv night-*, day-*, black-*
    """
    is_unknown = np.isnan(conditions.cloud)
    clearest = _by_model(
        replace(conditions, cloud=np.where(is_unknown, 0.0, conditions.cloud)), conditions.sun_clearest_w_m2, setting
    )
    darkest = clearest.copy()
    if is_unknown.any():
        part = _overcast(conditions, is_unknown)
        darkest[:, is_unknown] = _by_model(part, part.sun_darkest_w_m2, setting)
    return Surface(
        (clearest[0] + darkest[0]) / 2,
        np.minimum(clearest.min(axis=0), darkest.min(axis=0)),
        np.maximum(clearest.max(axis=0), darkest.max(axis=0)),
    )


def balance_c(*, air_c: Array, sky_w_m2: Array, sun_w_m2: Array, film: Film, setting: SurfaceSetting) -> Array:
    """Temperature at which as much heat leaves the surface as reaches it [°C], (hours,).

    Newton's steps from the air's temperature, a fixed number of them: the balance falls steeply and steadily.
    Source: α·G + ε·(L - σ·T⁴) = h·(T - air) + U·(T - inside), EnergyPlus engineering reference
    Checked: tests/published/heat.csv black-*
    """
    sigma = table("heat")["stefan_boltzmann"].number()
    taken_in = setting.absorptance * sun_w_m2 + setting.emittance * sky_w_m2
    surface_c = np.array(air_c, dtype=np.float64)
    for _ in range(_NEWTON_STEPS):
        over_air_k = surface_c - air_c
        surface_k = surface_c + ZERO_C_K
        transfer = film.transfer_w_m2k(over_air_k)
        radiated = setting.emittance * sigma * surface_k**4
        left_over = taken_in - radiated - transfer * over_air_k - setting.u_w_m2k * (surface_c - setting.inside_c)
        slope = 4 * radiated / surface_k + film.slope_w_m2k(over_air_k) + setting.u_w_m2k
        surface_c = surface_c + left_over / slope
    return surface_c


@dataclass(frozen=True, slots=True)
class ModelForcing:
    """What drives the surface by each model: (models, hours) each, the film's free parts (models,).

    The models are film by film (Watmuff, McAdams, TARP), within each first the sky of the clearest hours by Clark and
    Allen and by Berdahl and Martin, then, with `cases` 2, of the most overcast hours.  sun_w_m2, sky_w_m2: taken in.
    """

    sun_w_m2: Array
    sky_w_m2: Array
    forced: Array
    free_warm: Array
    free_cool: Array
    is_sum: Flags
    cases: int


def forcing_by_model(conditions: Conditions, setting: SurfaceSetting) -> ModelForcing:
    """What drives the surface by each model; two cases where the cloud is unknown in any hour.

    Source: heat balance, EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/heat/test_surface_year.py
    """
    is_unknown = np.isnan(conditions.cloud)
    cases = [(np.where(is_unknown, 0.0, conditions.cloud), conditions.sun_clearest_w_m2)]
    if is_unknown.any():
        cases.append((np.where(is_unknown, 1.0, conditions.cloud), conditions.sun_darkest_w_m2))
    skies = np.stack(
        [
            sky_radiation_w_m2(conditions.air_c, emissivity(conditions.dew_point_c, cloud))
            for cloud, _ in cases
            for emissivity in _SKIES
        ]
    )
    suns = np.repeat(np.stack([sun for _, sun in cases]), len(_SKIES), axis=0)
    films = _films(conditions.wind_m_s, setting)
    return ModelForcing(
        setting.absorptance * np.tile(suns, (len(films), 1)),
        setting.emittance * np.tile(skies, (len(films), 1)),
        np.repeat(np.stack([film.forced for film in films]), len(skies), axis=0),
        np.repeat([film.free_warm for film in films], len(skies)),
        np.repeat([film.free_cool for film in films], len(skies)),
        np.repeat([film.is_sum for film in films], len(skies)),
        len(cases),
    )


def _films(wind_m_s: Array, setting: SurfaceSetting) -> tuple[Film, ...]:
    """The films that are used, the middle one first."""
    return (
        watmuff(wind_m_s),
        mcadams(wind_m_s),
        tarp(wind_m_s, area=setting.area, perimeter=setting.perimeter),
    )


def _by_model(conditions: Conditions, sun_w_m2: Array, setting: SurfaceSetting) -> Array:
    """Temperatures by every pair of models, the middle pair first, (pairs, hours)."""
    films = _films(conditions.wind_m_s, setting)
    skies = [
        sky_radiation_w_m2(conditions.air_c, emissivity(conditions.dew_point_c, conditions.cloud))
        for emissivity in _SKIES
    ]
    return np.stack(
        [
            balance_c(air_c=conditions.air_c, sky_w_m2=sky, sun_w_m2=sun_w_m2, film=film, setting=setting)
            for sky in skies
            for film in films
        ]
    )


def _overcast(conditions: Conditions, where: Array) -> Conditions:
    """The hours picked, under a full cover of cloud."""
    return Conditions(
        conditions.air_c[where],
        conditions.dew_point_c[where],
        conditions.wind_m_s[where],
        np.ones(int(where.sum())),
        conditions.sun_clearest_w_m2[where],
        conditions.sun_darkest_w_m2[where],
    )
