"""Air and films against open libraries."""

import CoolProp.CoolProp as coolprop  # noqa: N813
import fluids
import ht
import pytest

from lapwright.heat.rollfilm import (
    air_at,
    nusselt_cylinder,
    nusselt_flat,
    nusselt_upright,
    roll_film_w_m2k,
    sheet_film_w_m2k,
)


@pytest.mark.parametrize("air_c", [-30, -20, -10, 0, 10, 20, 30])
def test_air_is_within_a_fiftieth_of_a_library_of_fluids(air_c: float) -> None:
    """Conductivity, viscosity and Prandtl number against CoolProp, within 2 %."""
    air, at = air_at(air_c), ("T", air_c + 273.15, "P", 101325, "Air")
    viscosity = coolprop.PropsSI("V", *at) / coolprop.PropsSI("D", *at)
    assert air.conductivity == pytest.approx(coolprop.PropsSI("L", *at), rel=0.02)
    assert air.viscosity_m2_s == pytest.approx(viscosity, rel=0.01)
    assert air.prandtl == pytest.approx(coolprop.PropsSI("PRANDTL", *at), rel=0.015)


def test_air_is_the_standard_atmosphere() -> None:
    """At 15 °C and sea level: conductivity, viscosity and density of the standard atmosphere."""
    standard, air = fluids.ATMOSPHERE_1976(0), air_at(15.0)
    assert air.conductivity == pytest.approx(standard.k, rel=1e-3)
    assert air.viscosity_m2_s == pytest.approx(standard.mu / standard.rho, rel=1e-3)


@pytest.mark.parametrize("reynolds", [100, 6071, 5e4, 3e5])
def test_cylinder_in_the_wind(reynolds: float) -> None:
    """Against ht's Churchill and Bernstein."""
    assert nusselt_cylinder(reynolds, 0.71) == pytest.approx(ht.Nu_cylinder_Churchill_Bernstein(reynolds, 0.71))


@pytest.mark.parametrize("rayleigh", [1e5, 1e8, 1e10])
def test_upright_face_in_still_air(rayleigh: float) -> None:
    """Against ht's Churchill plate."""
    library = ht.Nu_vertical_plate_Churchill(0.71, rayleigh / 0.71)
    assert nusselt_upright(rayleigh, 0.71) == pytest.approx(library)


@pytest.mark.parametrize("reynolds", [1e5, 3e5, 1e6])
def test_flat_sheet_in_the_wind(reynolds: float) -> None:
    """Between ht's two turbulent plates, or within 3 % of one of them."""
    library = ht.Nu_horizontal_plate_turbulent_Kreith(reynolds, 0.71)
    assert nusselt_flat(reynolds, 0.71) == pytest.approx(library, rel=0.03)


def test_in_still_air_warmth_itself_moves_the_air() -> None:
    """Without wind the film is that of still air, never nothing."""
    assert roll_film_w_m2k(10.0, -4.0, wind_m_s=0.0, diameter=0.226) > 6
    assert sheet_film_w_m2k(10.0, -4.0, wind_m_s=0.0) > 6


def test_a_body_as_warm_as_the_air_only_radiates() -> None:
    """No difference, no rising air: the film of still air is small, radiation stays."""
    assert roll_film_w_m2k(10.0, 10.0, wind_m_s=0.0, diameter=0.226) == pytest.approx(
        4 * 0.9 * 5.67e-8 * 283.15**3, rel=0.01
    )
