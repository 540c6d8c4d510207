"""What air and surroundings carry off a standing roll or a sheet laid out: the films of questions 6 and 7.

A film is W/m²·K over the difference to the air: convection, by wind or by the body's own warmth, and radiation to
surroundings as warm as the air.  No sun, no sky.
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table

ZERO_C_K = 273.15
_AIR = (
    "gas_constant",
    "air_heat",
    "viscosity_factor",
    "viscosity_k",
    "conduction_factor",
    "conduction_k",
    "conduction_power",
)


@dataclass(frozen=True, slots=True)
class Air:
    """Dry air: conductivity [W/m·K], viscosity, diffusivity [m²/s], expansion [1/K]."""

    conductivity: float
    viscosity_m2_s: float
    diffusivity_m2_s: float
    expansion_1_k: float

    @property
    def prandtl(self) -> float:
        """Viscosity over diffusivity."""
        return self.viscosity_m2_s / self.diffusivity_m2_s

    def rayleigh(self, over_air_k: float, length: float) -> float:
        """How strongly it rises along a body so much warmer, over a length [m]."""
        rows = table("rolls")
        lift = rows["gravity"].number() * self.expansion_1_k * abs(over_air_k) * length**3
        return lift / (self.viscosity_m2_s * self.diffusivity_m2_s)


def air_at(air_c: float) -> Air:
    """Dry air at sea level's pressure.

    Source: US Standard Atmosphere 1976, viscosity and conductivity; ideal gas [from memory]
    Checked: tests/published/rolls.csv air-*
    """
    rows = {name: table("rolls")[name].number() for name in _AIR}
    air_k = air_c + ZERO_C_K
    density = default_si("heat", "sea_level_pressure") / (rows["gas_constant"] * air_k)
    dynamic = rows["viscosity_factor"] * air_k**1.5 / (air_k + rows["viscosity_k"])
    slowed = rows["conduction_k"] * 10 ** (-rows["conduction_power"] / air_k)
    conductivity = rows["conduction_factor"] * air_k**1.5 / (air_k + slowed)
    return Air(conductivity, dynamic / density, conductivity / (density * rows["air_heat"]), 1 / air_k)


def nusselt_cylinder(reynolds: float, prandtl: float) -> float:
    """Film of a cylinder across the wind, times diameter over conductivity [1].

    Source: Churchill and Bernstein 1977
    Checked: tests/published/rolls.csv nusselt-cylinder-*
    """
    rows = table("rolls")
    by_prandtl = (1 + (rows["cylinder_prandtl"].number() / prandtl) ** (2 / 3)) ** 0.25
    by_reynolds = (1 + (reynolds / rows["cylinder_reynolds"].number()) ** (5 / 8)) ** 0.8
    forced = rows["cylinder_wind"].number() * reynolds**0.5 * prandtl ** (1 / 3) / by_prandtl * by_reynolds
    return float(rows["cylinder_still"].number() + forced)


def nusselt_upright(rayleigh: float, prandtl: float) -> float:
    """Film of an upright face in still air, times height over conductivity [1].

    Source: Churchill and Chu 1975
    Checked: tests/published/rolls.csv nusselt-upright-*
    """
    rows = table("rolls")
    by_prandtl = (1 + (rows["plate_prandtl"].number() / prandtl) ** (9 / 16)) ** (8 / 27)
    rising = rows["plate_rising"].number() * rayleigh ** (1 / 6) / by_prandtl
    return float((rows["plate_still"].number() + rising) ** 2)


def nusselt_flat(reynolds: float, prandtl: float) -> float:
    """Film of a flat sheet along the wind, rough from its edge on, times its width over conductivity [1].

    Source: Incropera et al., ch. 7, turbulent flow over a flat plate [from memory]
    Checked: tests/published/rolls.csv nusselt-flat-*
    """
    return float(table("rolls")["flat_wind"].number() * reynolds**0.8 * prandtl ** (1 / 3))


def radiation_w_m2k(surface_c: float, air_c: float) -> float:
    """Radiation to surroundings as warm as the air, over the difference [W/m²·K].

    Source: Stefan-Boltzmann law, ε·σ·(T⁴ - S⁴)/(T - S), Incropera et al., ch. 1 [from memory]
    Checked: tests/published/rolls.csv radiation-*
    """
    sigma, emittance = table("heat")["stefan_boltzmann"].number(), table("heat")["emittance"].number()
    surface_k, air_k = surface_c + ZERO_C_K, air_c + ZERO_C_K
    return emittance * sigma * (surface_k**2 + air_k**2) * (surface_k + air_k)


def roll_film_w_m2k(surface_c: float, air_c: float, *, wind_m_s: float, diameter: float) -> float:
    """Film of a standing roll: the greater of wind and still air, and radiation [W/m²·K].

    Source: Churchill and Bernstein 1977; Churchill and Chu 1975; properties at the mean of surface and air
    Checked: tests/published/rolls.csv film-roll-*
    """
    air = air_at((surface_c + air_c) / 2)
    height = table("rolls")["roll_height"].number()
    wind = nusselt_cylinder(wind_m_s * diameter / air.viscosity_m2_s, air.prandtl) / diameter
    still = nusselt_upright(air.rayleigh(surface_c - air_c, height), air.prandtl) / height
    return max(wind, still) * air.conductivity + radiation_w_m2k(surface_c, air_c)


def sheet_film_w_m2k(surface_c: float, air_c: float, *, wind_m_s: float) -> float:
    """Film of a sheet laid out flat: the greater of wind and still air, and radiation [W/m²·K].

    Source: Incropera et al., ch. 7 and 9: flat plate in the wind, warm plate facing up (McAdams) [from memory]
    Checked: tests/published/rolls.csv film-sheet-*
    """
    rows = table("rolls")
    air = air_at((surface_c + air_c) / 2)
    strip = rows["sheet_strip"].number()
    wind = nusselt_flat(wind_m_s * strip / air.viscosity_m2_s, air.prandtl) / strip
    difference_k = max(abs(surface_c - air_c), rows["still_least"].number())
    still = float(rows["flat_rising"].number() * air.rayleigh(difference_k, 1.0) ** (1 / 3))
    return max(wind, still) * air.conductivity + radiation_w_m2k(surface_c, air_c)
