"""Temperature and wetness of the surface through hours that follow one another (question 5).

The balance of `surface.py` with what the roof holds: sheet, boards and deck store heat from hour to hour, and a film
of water on the surface, from rain, dew or frost, dries off and cools it meanwhile.

Hours are stepped through in quarters, all models side by side.  The year is cut into *stretches* of two days that
are stepped side by side too: each begins with what the one before left, which is reckoned again until no stretch's
begin changes any more.  A roof forgets its warmth within a day or two, so that takes few rounds.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from lapwright.defaults.table import table
from lapwright.heat.buildup import BuildUp, Step, step_of
from lapwright.heat.sky import ZERO_C_K
from lapwright.heat.surface import Conditions, Surface, SurfaceSetting, forcing_by_model
from lapwright.weather.moist import pressure_on_surface_pa, vapour_pressure_pa
from lapwright.weather.values import Array, Flags

STRETCH_H = 48
_STEPS_AN_HOUR = 4  # twice as many move 99 of 100 hours by less than 1 K (docs/method/heat.md)
_ROUNDS = 12  # after two that begin dry and full; 2 or 3 settle all
_SETTLED_K, _SETTLED_MM = 1e-3, 1e-4
_HOUR_S = 3600.0
_NOTHING_MM = 1e-30  # keeps 0 over 0 from being asked


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


@dataclass(frozen=True, slots=True)
class _Forcing:
    """What drives the surface, by hour of a stretch: (stretch hours, models, stretches), air and vapour (…, 1, …).

    gain_w_m2: sun and sky taken in; forced: of the film; free_warm, free_cool, is_sum (models, 1).
    air_before_c: of the hour before the stretch, (1, stretches).
    """

    gain_w_m2: Array
    forced: Array
    free_warm: Array
    free_cool: Array
    is_sum: Flags
    air_c: Array
    air_before_c: Array
    vapour_pa: Array
    rain_mm: Array
    covered: Flags


@dataclass(slots=True)
class _State:
    """Temperatures of the points (points, models, stretches) and the film on the surface [mm] (models, stretches)."""

    points_c: Array
    film_mm: Array


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
    forcing, cases = _forcing(_filled(conditions, is_missing), water, setting)
    step = step_of(built, _HOUR_S / _STEPS_AN_HOUR)
    found_c, film_mm = _settled(forcing, step, setting)
    surface_c, film = (np.where(is_missing, np.nan, _by_hour(one, hours)) for one in (found_c, film_mm))
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


def _forcing(conditions: Conditions, water: Water, setting: SurfaceSetting) -> tuple[_Forcing, int]:
    """What drives each model, cut into stretches, and how many cases of cloud there are (clear and overcast: 2)."""
    covered: Flags = _cut(water.covered[None, :].astype(np.float64)) > 0
    models = forcing_by_model(conditions, setting)
    gain, air_c = _cut(models.sky_w_m2 + models.sun_w_m2), _cut(conditions.air_c[None, :])
    if covered.any():
        bright = table("heat")["snow_absorptance"].number() / setting.absorptance
        gain = np.where(covered, _cut(models.sky_w_m2 + bright * models.sun_w_m2), gain)
    return (
        _Forcing(
            gain,
            _cut(models.forced),
            models.free_warm[:, None],
            models.free_cool[:, None],
            models.is_sum[:, None],
            air_c,
            np.concatenate([air_c[0, :, :1], air_c[-1, :, :-1]], axis=1),
            vapour_pressure_pa(_cut(conditions.dew_point_c[None, :])),
            _cut(water.rain_mm[None, :]),
            covered,
        ),
        models.cases,
    )


def _cut(rows: Array) -> Array:
    """(models, hours) as (stretch hours, models, stretches); the last stretch is filled up with its last hour."""
    models, hours = rows.shape
    length = min(STRETCH_H, hours)
    stretches = -(-hours // length)
    index = np.minimum(np.arange(stretches * length), hours - 1)
    cut: Array = np.ascontiguousarray(rows[:, index].reshape(models, stretches, length).transpose(2, 0, 1))
    return cut


def _by_hour(cut: Array, hours: int) -> Array:
    """(stretch hours, models, stretches) as (models, hours)."""
    rows: Array = cut.transpose(1, 2, 0).reshape(cut.shape[1], -1)[:, :hours]
    return rows


def _settled(forcing: _Forcing, step: Step, setting: SurfaceSetting) -> tuple[Array, Array]:
    """Surface [°C] and film [mm] at the end of each hour, as `forcing.gain_w_m2` is shaped."""
    begin = _at_rest(forcing, step, setting)
    first = _State(begin.points_c[:, :, :1].copy(), begin.film_mm[:, :1].copy())
    _, _, dry = _round(forcing, step, setting, begin)
    full = _after(dry, first)
    full.film_mm[:, 1:] = table("heat")["film_most"].number()
    _, _, wet = _round(forcing, step, setting, full)
    begin = _after(wet, first)
    most_mm = wet.film_mm.copy()
    begin.film_mm = _film_at_begin(full.film_mm, wet.film_mm, dry.film_mm, most_mm)
    surface_c, film_mm = np.empty_like(forcing.gain_w_m2), np.empty_like(forcing.gain_w_m2)
    moving: Flags = np.ones(surface_c.shape[2], dtype=bool)
    for _ in range(_ROUNDS):
        surface_c[:, :, moving], film_mm[:, :, moving], ended = _round(
            _some(forcing, moving), step, setting, _State(begin.points_c[:, :, moving], begin.film_mm[:, moving])
        )
        wet.points_c[:, :, moving], wet.film_mm[:, moving] = ended.points_c, ended.film_mm
        after = _after(wet, first)
        after.film_mm = _film_at_begin(begin.film_mm, wet.film_mm, dry.film_mm, most_mm)
        moving = np.abs(after.points_c - begin.points_c).max(axis=(0, 1)) >= _SETTLED_K
        moving |= np.abs(after.film_mm - begin.film_mm).max(axis=0) >= _SETTLED_MM
        if not moving.any():
            break
        begin.points_c[:, :, moving], begin.film_mm[:, moving] = after.points_c[:, :, moving], after.film_mm[:, moving]
    return surface_c, film_mm


def _some(forcing: _Forcing, some: Flags) -> _Forcing:
    """What drives some of the stretches."""
    if some.all():
        return forcing
    by_hour = ("gain_w_m2", "forced", "air_c", "vapour_pa", "rain_mm", "covered")
    chosen = {name: getattr(forcing, name)[:, :, some] for name in by_hour}
    return replace(forcing, **chosen, air_before_c=forcing.air_before_c[:, some])


def _round(forcing: _Forcing, step: Step, setting: SurfaceSetting, begin: _State) -> tuple[Array, Array, _State]:
    """All stretches stepped through from their begins: surface [°C], film [mm], and where they end."""
    state = _State(begin.points_c.copy(), begin.film_mm.copy())
    surface_c, film_mm = _stretches(forcing, step, setting, state)
    return surface_c, film_mm, state


def _after(state: _State, first: _State) -> _State:
    """Where each stretch begins: where the one before ends; the first as it does."""
    return _State(
        np.concatenate([first.points_c, state.points_c[:, :, :-1]], axis=2),
        np.concatenate([first.film_mm, state.film_mm[:, :-1]], axis=1),
    )


def _film_at_begin(begun_mm: Array, ended_mm: Array, least_mm: Array, most_mm: Array) -> Array:
    """Film at the begin of each stretch [mm], from how stretches ended that began with some film, (models, stretches).

    A stretch begun with more ends with as much more, between how it ends when begun dry and when begun full.  In deep
    frost a film lasts for weeks: handed on from one stretch to the next, it would take as many rounds.
    """
    begin_mm = np.zeros_like(begun_mm)
    for stretch in range(1, begin_mm.shape[1]):
        before = stretch - 1
        ends_mm = ended_mm[:, before] + begin_mm[:, before] - begun_mm[:, before]
        begin_mm[:, stretch] = np.clip(ends_mm, least_mm[:, before], np.maximum(least_mm, most_mm)[:, before])
    return begin_mm


def _at_rest(forcing: _Forcing, step: Step, setting: SurfaceSetting) -> _State:
    """Where each stretch begins before anything is known: the surface as warm as the air, dry."""
    shape = forcing.gain_w_m2.shape[1:]
    air_c = np.broadcast_to(forcing.air_c[0], shape)
    points_c = air_c + step.share[:, None, None] * (setting.inside_c - air_c)
    return _State(points_c, np.zeros(shape))


def _stretches(forcing: _Forcing, step: Step, setting: SurfaceSetting, state: _State) -> tuple[Array, Array]:
    """All stretches stepped through side by side; `state` is left at their ends."""
    most_mm = table("heat")["film_most"].number()
    surface_c = np.empty_like(forcing.gain_w_m2)
    film_mm = np.empty_like(forcing.gain_w_m2)
    before_c = forcing.air_before_c
    for hour in range(len(surface_c)):
        rain, covered = forcing.rain_mm[hour], forcing.covered[hour]
        has_snow = bool(covered.any())
        np.minimum(state.film_mm + rain, most_mm, out=state.film_mm)
        for part in range(1, _STEPS_AN_HOUR + 1):
            share = part / _STEPS_AN_HOUR
            air_c = before_c + share * (forcing.air_c[hour] - before_c)
            _one_step(forcing, step, setting, state, hour=hour, air_c=air_c)
            if has_snow:
                state.points_c[0] = np.where(covered, np.minimum(state.points_c[0], 0.0), state.points_c[0])
                state.film_mm = np.where(covered, most_mm, state.film_mm)
        surface_c[hour] = state.points_c[0]
        film_mm[hour] = state.film_mm
        before_c = forcing.air_c[hour]
    return surface_c, film_mm


def _one_step(
    forcing: _Forcing, step: Step, setting: SurfaceSetting, state: _State, *, hour: int, air_c: Array
) -> None:
    """One step of time: two of Newton's steps on the surface, then the points under it, then the film."""
    gamma, latent, stefan_boltzmann, most_mm = _constants()
    radiating = setting.emittance * stefan_boltzmann
    base = (step.keep @ state.points_c.reshape(len(step.keep), -1)).reshape(state.points_c.shape)
    base += (step.by_inside * setting.inside_c)[:, None, None]
    slowness = step.by_flux[0]
    surface_c = state.points_c[0]
    vapour_pa, gain, forced = forcing.vapour_pa[hour], forcing.gain_w_m2[hour], forcing.forced[hour]
    there_mm = state.film_mm + _NOTHING_MM
    for _ in range(2):
        over_k = surface_c - air_c
        free = np.where(over_k > 0, forcing.free_warm, forcing.free_cool) * np.cbrt(np.abs(over_k))
        carries = np.where(forcing.is_sum, forced + free, np.maximum(forced, free))
        on_surface_pa, rise_pa = pressure_on_surface_pa(surface_c)
        drying = carries / gamma
        excess_pa = on_surface_pa - vapour_pa
        # what can leave in a step is what is there; dew always can come
        could_mm = drying * excess_pa * (step.seconds / latent)
        drying *= there_mm / (np.maximum(could_mm, state.film_mm) + _NOTHING_MM)
        kelvin = surface_c + ZERO_C_K
        squared = kelvin * kelvin  # a power of four by itself takes a fifth of the whole step
        radiated = radiating * squared * squared
        flux = gain - radiated - carries * over_k - drying * excess_pa
        slope = 4 * radiated / kelvin + carries + drying * rise_pa
        surface_c = surface_c - (surface_c - base[0] - slowness * flux) / (1 + slowness * slope)
    into = (surface_c - base[0]) / slowness
    state.points_c = base + step.by_flux[:, None, None] * into
    left_mm = state.film_mm - drying * excess_pa * (step.seconds / latent)
    np.minimum(np.maximum(left_mm, 0.0, out=left_mm), most_mm, out=state.film_mm)


@cache
def _constants() -> tuple[float, float, float, float]:
    """Psychrometric constant [Pa/K], latent heat [J/kg], Stefan-Boltzmann's [W/m²K⁴], the film's most [mm]."""
    rows = table("heat")
    gamma, latent, radiating, most = (
        rows[name].number() for name in ("psychrometric", "latent_heat", "stefan_boltzmann", "film_most")
    )
    return gamma, latent, radiating, most
