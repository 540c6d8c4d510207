"""Dew and frost points; values of sources stand in tests/published: weather.csv and live_moist.py."""

import numpy as np
import pytest

from lapwright.weather.moist import dew_point_c, vapour_pressure_pa, wetting_point_c


def test_frost_settles_before_the_dew_point_of_the_station_is_reached() -> None:
    """Below 0 °C the frost point is warmer than the dew point over water; above it there is only the dew point."""
    dew = np.array([-30.0, -10.0, -0.1, 0.0, 0.1, 12.0])
    point = wetting_point_c(dew)
    assert np.all(point[:3] > dew[:3])
    assert point[3:].tolist() == dew[3:].tolist()


def test_the_two_points_meet_at_freezing() -> None:
    """There is no jump at 0 °C."""
    assert wetting_point_c(np.array([-1e-6]))[0] == pytest.approx(0.0, abs=1e-6)


def test_dew_point_below_freezing_is_over_water_not_over_ice() -> None:
    """At -10 °C and 80 % a station reports -12.8 °C, and frost settles at -11.4 °C: Goff and Gratch [from memory]."""
    dew = dew_point_c(np.array([-10.0]), np.array([0.8]))
    assert dew[0] == pytest.approx(-12.8, abs=0.05)
    assert wetting_point_c(dew)[0] == pytest.approx(-11.4, abs=0.05)


def test_dry_air_has_no_dew_point() -> None:
    """A humidity of nothing gives no number, and no warning."""
    assert np.isnan(dew_point_c(np.array([5.0]), np.array([0.0]))[0])


def test_what_is_not_reported_stays_unknown() -> None:
    """NaN in gives NaN out."""
    assert np.isnan(wetting_point_c(np.array([np.nan]))[0])
    assert np.isnan(vapour_pressure_pa(np.array([np.nan]))[0])
