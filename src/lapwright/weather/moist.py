"""Water in the air: what a dew point means for a roof surface (question 5, when can it be laid).

A weather station's *dew point* is taken over liquid water, below 0 °C too.  On a surface below 0 °C water settles as
frost, and it does so already at the *frost point*, which is warmer than that dew point.  The *wetting point* is the
surface temperature at and below which dew or frost settles: the dew point above 0 °C, the frost point below.
"""

from __future__ import annotations

import math

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array


def vapour_pressure_pa(dew_point_c: Array) -> Array:
    """Pressure of the water vapour in the air [Pa] from its dew point over water [°C]; any shape.

    Holds for: -45 to 60 °C.
    Source: Magnus form over water, WMO guide to instruments, annex 4.B [from memory]
    Checked: tests/published/weather.csv vapour-*
    """
    rows = table("heat")
    a, b = rows["magnus_water_a"].number(), rows["magnus_water_b"].number()
    pressure: Array = rows["magnus_pressure"].number() * np.exp(a * dew_point_c / (b + dew_point_c))
    return pressure


def pressure_on_surface_pa(surface_c: Array) -> tuple[Array, Array]:
    """Pressure of water vapour at a wet or frosted surface [Pa], and its rise with temperature [Pa/K]; any shape.

    Over water at 0 °C and above, over ice below.
    Source: Magnus forms, WMO guide to instruments, annex 4.B [from memory]
    Checked: tests/published/live_moist.py
    """
    vapour = SurfaceVapour(surface_c.shape)
    vapour.put(surface_c)
    return vapour.pressure, vapour.rise


class SurfaceVapour:
    """Vapour at surfaces, put into the same rows again and again.

    pressure, rise: as of `pressure_on_surface_pa`, over `a_unit_pa`; any shape.
    """

    def __init__(self, shape: tuple[int, ...], a_unit_pa: float = 1.0) -> None:
        self.pressure, self.rise, self._over_water, self._over_ice = (np.empty(shape) for _ in range(4))
        self._is_thawed = np.empty(shape, dtype=bool)
        self._water, self._ice = _phase("water", a_unit_pa), _phase("ice", a_unit_pa)

    def put(self, surface_c: Array) -> None:
        """Write both anew, for these temperatures [°C].

        With d = ab / (b + t) Magnus's form is exp(a - d), and its rise the same times d² / ab.  Of ice and water the
        lesser pressure is the one that holds: ice below 0 °C, water above.
        """
        pressure, rise, over_water, over_ice = self.pressure, self.rise, self._over_water, self._over_ice
        (water_a, water_ab, water_b), (ice_a, ice_ab, ice_b) = self._water, self._ice
        np.add(surface_c, water_b, over_water)
        np.divide(water_ab, over_water, over_water)
        np.subtract(water_a, over_water, pressure)
        np.add(surface_c, ice_b, rise)
        np.divide(ice_ab, rise, rise)
        np.subtract(ice_a, rise, over_ice)
        np.minimum(pressure, over_ice, out=pressure)
        np.exp(pressure, pressure)
        rise *= rise
        rise *= 1 / ice_ab
        over_water *= over_water
        over_water *= 1 / water_ab
        np.greater_equal(surface_c, 0.0, self._is_thawed)
        np.copyto(rise, over_water, where=self._is_thawed)
        rise *= pressure


def _phase(name: str, a_unit_pa: float) -> tuple[float, float, float]:
    """Magnus's a, with the pressure at 0 °C in it, a·b and b, over water or ice."""
    rows = table("heat")
    a, b = rows[f"magnus_{name}_a"].number(), rows[f"magnus_{name}_b"].number()
    return a + math.log(rows["magnus_pressure"].number() / a_unit_pa), a * b, b


def dew_point_c(air_c: Array, humidity: Array) -> Array:
    """Dew point over water [°C] from air [°C] and relative humidity over water (0..1); any shape.

    Returns: NaN where the humidity is 0 or less.
    Source: Magnus form over water, WMO guide to instruments, annex 4.B [from memory]
    Checked: tests/published/weather.csv dew-*
    """
    rows = table("heat")
    a, b = rows["magnus_water_a"].number(), rows["magnus_water_b"].number()
    share = np.where(np.asarray(humidity) > 0, humidity, np.nan)
    exponent = np.log(share) + a * air_c / (b + air_c)
    dew: Array = b * exponent / (a - exponent)
    return dew


def wetting_point_c(dew_point_c: Array) -> Array:
    """Surface temperature at and below which dew or frost settles [°C], from the dew point over water [°C]; any shape.

    Returns: the dew point itself at 0 °C and above; below, the warmer frost point.
    Holds for: dew points taken over water, as stations report them.  A file whose dew points are already frost
        points below 0 °C is read up to 1 K too warm at -10 °C, 3 K at -30 °C: more frost than there is, never less.
    Source: equal vapour pressures over water and over ice, Magnus forms, WMO guide, annex 4.B [from memory]
    Checked: tests/published/weather.csv frost-*
    """
    rows = table("heat")
    a, b = rows["magnus_ice_a"].number(), rows["magnus_ice_b"].number()
    exponent = np.log(vapour_pressure_pa(dew_point_c) / rows["magnus_pressure"].number())
    frost_point_c = b * exponent / (a - exponent)
    point: Array = np.where(dew_point_c < 0, frost_point_c, dew_point_c)
    return point
