"""What the sky radiates down on a roof: the models that are used, the middle one first.

The models agree near 20 °C and differ by 8 to 10 K of sky temperature in frost weather; the first is the warm one.
Their spread is carried to the surface, never averaged away.
"""

from __future__ import annotations

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array

ZERO_C_K = 273.15
_REFERENCE_HPA = 1000.0


def cloud_factor(cloud: Array) -> Array:
    """How much more a sky radiates under a cover of cloud (0..1) than clear; any shape.

    Source: Walton 1983, in EnergyPlus engineering reference, climate calculations (cover in tenths)
    Checked: tests/published/heat.csv walton-*
    """
    rows = table("heat")
    tenths = 10 * np.asarray(cloud, dtype=np.float64)
    first, second, third = (rows[f"walton_{power}"].number() for power in (1, 2, 3))
    factor: Array = 1 + first * tenths + second * tenths**2 + third * tenths**3
    return factor


def clark_allen_emissivity(dew_point_c: Array, cloud: Array) -> Array:
    """Emissivity of the sky from the dew point [°C] and the cover of cloud (0..1); any shape.

    Source: Clark and Allen 1978 with Walton's cloud factor, EnergyPlus engineering reference, climate calculations
    Checked: tests/published/heat.csv clark-allen-*
    """
    rows = table("heat")
    a, b, reference_k = (rows[f"clark_allen_{name}"].number() for name in ("a", "b", "k"))
    clear = a + b * np.log((dew_point_c + ZERO_C_K) / reference_k)
    emissivity: Array = np.clip(clear * cloud_factor(cloud), 0.0, 1.0)
    return emissivity


def berdahl_martin_emissivity(dew_point_c: Array, cloud: Array) -> Array:
    """Emissivity of the sky from the dew point [°C] and the cover of cloud (0..1); any shape.

    The pressure is that of sea level (at 1500 m the sky is 2 K colder by this model); the daily term, 0.013 at most,
    is left out.
    Source: Berdahl and Martin 1984 [from memory]; the cloud's share as in CSE issue 19
    Checked: tests/published/heat.csv berdahl-martin-*
    """
    rows = table("heat")
    a, b, c = (rows[f"berdahl_martin_{name}"].number() for name in ("a", "b", "c"))
    hundreds = dew_point_c / 100
    sea_level = rows["berdahl_martin_pressure"].number() * (rows["sea_level_pressure"].number() - _REFERENCE_HPA)
    clear = a + b * hundreds + c * hundreds**2 + sea_level
    emissivity: Array = np.clip(clear + (1 - clear) * rows["berdahl_martin_cloud"].number() * cloud, 0.0, 1.0)
    return emissivity


def sky_radiation_w_m2(air_c: Array, emissivity: Array) -> Array:
    """Long-wave radiation from the sky on a level surface [W/m²] from the air [°C]; any shape.

    Source: Stefan-Boltzmann law, with the air's temperature as the models define it
    Checked: tests/published/heat.csv sky-*
    """
    radiation: Array = emissivity * table("heat")["stefan_boltzmann"].number() * (air_c + ZERO_C_K) ** 4
    return radiation


def sky_temperature_c(air_c: Array, emissivity: Array) -> Array:
    """Temperature of a black sky that radiates as much [°C]; any shape.

    Source: Stefan-Boltzmann law
    Checked: tests/published/heat.csv depression-*
    """
    temperature: Array = emissivity**0.25 * (air_c + ZERO_C_K) - ZERO_C_K
    return temperature
