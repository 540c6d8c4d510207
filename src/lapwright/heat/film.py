"""What the air carries off a level roof: the models that are used, the middle one first."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array


@dataclass(frozen=True, slots=True)
class Film:
    """Heat flow to the air is Δ·(forced + free·|Δ|^⅓), Δ the surface less the air.

    forced [W/m²·K], (hours,); free_warm, free_cool [W/m²·K^(4/3)]: where the surface is the warmer, the cooler.
    """

    forced: Array
    free_warm: float = 0.0
    free_cool: float = 0.0

    def transfer_w_m2k(self, over_air_k: Array) -> Array:
        """Coefficient of heat transfer [W/m²·K] at a surface so far over the air [K]."""
        free = np.where(over_air_k > 0, self.free_warm, self.free_cool)
        coefficient: Array = self.forced + free * np.cbrt(np.abs(over_air_k))
        return coefficient


def watmuff(wind_m_s: Array) -> Film:
    """Convection alone, from the wind at the roof [m/s], any shape.

    Source: Watmuff, Charters and Proctor 1977 [from memory]
    Checked: tests/published/heat.csv film-watmuff
    """
    rows = table("heat")
    return Film(rows["watmuff_calm"].number() + rows["watmuff_wind"].number() * wind_m_s)


def mcadams(wind_m_s: Array) -> Film:
    """Convection, widely held to contain some radiation, from the wind at the roof [m/s], any shape.

    Source: McAdams 1954, short form [from memory]
    Checked: tests/published/heat.csv film-mcadams
    """
    rows = table("heat")
    return Film(rows["mcadams_calm"].number() + rows["mcadams_wind"].number() * wind_m_s)


def tarp(wind_m_s: Array, *, area: float, perimeter: float) -> Film:
    """Convection over the middle of a roof of some area [m²] and perimeter [m], from the wind at the roof [m/s].

    Source: TARP (Walton 1983), EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/published/heat.csv film-tarp-*
    """
    rows = table("heat")
    rough = rows["tarp_forced"].number() * rows["tarp_rough"].number()
    return Film(
        rough * np.sqrt(perimeter * wind_m_s / area),
        free_warm=rows["tarp_up_warm"].number() / (rows["tarp_up_warm_less"].number() - 1),
        free_cool=rows["tarp_up_cool"].number() / (rows["tarp_up_cool_more"].number() + 1),
    )
