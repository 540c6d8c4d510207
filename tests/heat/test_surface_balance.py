"""The surface's heat balance, its spread over models, and one surface at one moment."""

import numpy as np
import pytest
from scipy.optimize import brentq

from lapwright.heat.figure import surface_now
from lapwright.heat.film import Film, tarp, watmuff
from lapwright.heat.surface import Conditions, balance_c, default_setting, surface_temperature

SIGMA = 5.670374419e-8


def conditions(**given: float) -> Conditions:
    """One hour of weather."""
    sun = given.get("sun", 0.0)
    values = {
        "air_c": given.get("air", 0.0),
        "dew_point_c": given.get("dew", -3.0),
        "wind_m_s": given.get("wind", 2.0),
        "cloud": given.get("cloud", 0.0),
        "sun_clearest_w_m2": sun,
        "sun_darkest_w_m2": given.get("darkest", sun),
    }
    return Conditions(**{name: np.array([value], dtype=float) for name, value in values.items()})


@pytest.mark.parametrize("air", [-45.0, -5.0, 20.0, 45.0])
@pytest.mark.parametrize("sky", [100.0, 300.0, 450.0])
@pytest.mark.parametrize("sun", [0.0, 300.0, 1100.0])
@pytest.mark.parametrize("wind", [0.0, 0.3, 8.0, 40.0])
@pytest.mark.parametrize("is_sum", [True, False])
def test_balance_closes_in_all_weather(air: float, sky: float, sun: float, wind: float, *, is_sum: bool) -> None:
    """The temperature is the root that bisection finds, within a millionth of a kelvin."""
    setting = default_setting(u_w_m2k=0.3)
    film = tarp(np.array([wind]), area=900, perimeter=120) if is_sum else watmuff(np.array([wind]))

    def left_over(surface: float) -> float:
        over = surface - air
        free = (film.free_warm if over > 0 else film.free_cool) * abs(over) ** (1 / 3)
        taken_in = 0.85 * sun + 0.9 * (sky - SIGMA * (surface + 273.15) ** 4)
        forced = float(film.forced[0])
        return taken_in - (forced + free if is_sum else max(forced, free)) * over - 0.3 * (surface - 20)

    found = balance_c(
        air_c=np.array([air]), sky_w_m2=np.array([sky]), sun_w_m2=np.array([sun]), film=film, setting=setting
    )
    assert found[0] == pytest.approx(brentq(left_over, -150, 250, xtol=1e-10), abs=1e-6)


def test_nothing_to_exchange_leaves_the_air_temperature() -> None:
    """Under a sky as warm as the air, without sun, the surface is as warm as the air."""
    sky = np.array([SIGMA * 283.15**4])
    setting = default_setting(u_w_m2k=0.0)
    found = balance_c(
        air_c=np.array([10.0]), sky_w_m2=sky, sun_w_m2=np.zeros(1), film=Film(np.array([9.0])), setting=setting
    )
    assert found[0] == pytest.approx(10.0, abs=1e-9)


def test_the_middle_lies_in_its_spread() -> None:
    """Low ≤ middle ≤ high over a grid of weather."""
    grid = np.array(np.meshgrid([-30, 0, 30], [0.0, 3, 15], [0.0, 0.5, 1, np.nan], [0.0, 200, 900])).reshape(4, -1)
    air, wind, cloud, sun = grid
    surface = surface_temperature(Conditions(air, air - 4, wind, cloud, sun, sun), default_setting())
    assert np.all(surface.low_c <= surface.middle_c)
    assert np.all(surface.middle_c <= surface.high_c)


def test_unknown_cloud_spans_clear_and_overcast() -> None:
    """Low is the clear night's, high the overcast's, and the middle is half-way."""
    clear, overcast, unknown = (
        surface_temperature(conditions(cloud=cloud), default_setting()) for cloud in (0.0, 1.0, np.nan)
    )
    assert unknown.low_c == clear.low_c
    assert unknown.high_c == overcast.high_c
    assert unknown.middle_c == (clear.middle_c + overcast.middle_c) / 2


def test_unknown_cloud_by_day_spans_the_sun_too() -> None:
    """With the sun unknown, high is the clear noon's and low the dark one's."""
    unknown = surface_temperature(conditions(cloud=np.nan, sun=600.0, darkest=150.0), default_setting())
    bright = surface_temperature(conditions(cloud=0.0, sun=600.0), default_setting())
    dark = surface_temperature(conditions(cloud=1.0, sun=150.0), default_setting())
    assert unknown.high_c == bright.high_c
    assert unknown.low_c == dark.low_c


def test_missing_readings_give_no_temperature() -> None:
    """NaN in gives NaN out, without a warning."""
    for name in ("air", "dew", "wind", "sun"):
        surface = surface_temperature(conditions(**{name: np.nan}), default_setting())
        assert np.isnan(surface.middle_c[0])
        assert np.isnan(surface.low_c[0])


def test_warmth_from_inside_lifts_a_cold_surface() -> None:
    """A bare roof over a heated room is warmer than an insulated one."""
    cold, warm = (
        surface_temperature(conditions(), default_setting(u_w_m2k=u, inside_c=20)).middle_c[0] for u in (0.3, 3.0)
    )
    assert cold < warm


def test_a_clear_calm_night_frosts_the_roof() -> None:
    """At 1 °C with a dew point of -1 °C the roof is white while the air is above freezing; under cloud it is not."""
    clear = surface_now(air_c=1.0, dew_point_c=-1.0, wind_m_s=0.5, cloud=0.0, sun_w_m2=0.0)
    overcast = surface_now(air_c=1.0, dew_point_c=-1.0, wind_m_s=4.0, cloud=1.0, sun_w_m2=0.0)
    assert (clear.frost, clear.dew) == (True, False)
    assert (overcast.frost, overcast.dew) == (False, False)


def test_dew_settles_above_freezing() -> None:
    """On a mild damp night it is dew, not frost."""
    now = surface_now(air_c=15.0, dew_point_c=13.5, wind_m_s=0.5, cloud=0.0, sun_w_m2=0.0)
    assert (now.frost, now.dew) == (False, True)


def test_an_r_value_slows_the_warmth_from_inside() -> None:
    """R 18 makes the surface colder than R 2 does."""
    given = {"air_c": -10.0, "dew_point_c": -14.0, "wind_m_s": 2.0, "cloud": 0.0, "sun_w_m2": 0.0, "inside_c": 20.0}
    assert surface_now(**given, r_value_m2k_w=3.0).surface_c < surface_now(**given, r_value_m2k_w=0.4).surface_c
