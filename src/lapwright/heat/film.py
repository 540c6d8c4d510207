"""What the air carries off a level roof: the models that are used, the middle one first."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array


@dataclass(frozen=True, slots=True)
class Film:
    """Heat flow to the air is Δ·(forced + free·|Δ|^⅓), or the greater of the two, Δ the surface less the air.

    forced [W/m²·K], (hours,); free_warm, free_cool [W/m²·K^(4/3)]: where the surface is the warmer, the cooler.
    is_sum: both together, as the model says; else a film of the wind alone, below which warm air does not fall.
    """

    forced: Array
    free_warm: float = 0.0
    free_cool: float = 0.0
    is_sum: bool = True

    def transfer_w_m2k(self, over_air_k: Array) -> Array:
        """Coefficient of heat transfer [W/m²·K] at a surface so far over the air [K]."""
        free = self._free_w_m2k(over_air_k)
        coefficient: Array = self.forced + free if self.is_sum else np.maximum(self.forced, free)
        return coefficient

    def slope_w_m2k(self, over_air_k: Array) -> Array:
        """Change of the heat flow with the surface's temperature [W/m²·K]; d(Δ^(4/3))/dΔ is 4/3 Δ^⅓."""
        free = self._free_w_m2k(over_air_k)
        if self.is_sum:
            return self.forced + 4 / 3 * free
        return np.where(free > self.forced, 4 / 3 * free, self.forced)

    def _free_w_m2k(self, over_air_k: Array) -> Array:
        free: Array = np.where(over_air_k > 0, self.free_warm, self.free_cool) * np.cbrt(np.abs(over_air_k))
        return free


def watmuff(wind_m_s: Array) -> Film:
    """Convection alone, from the wind at the roof [m/s], any shape; never less than warm air that rises by itself.

    Source: Watmuff, Charters and Proctor 1977 [from memory]; free convection as in `tarp`
    Checked: tests/published/heat.csv film-watmuff
    """
    rows = table("heat")
    return Film(rows["watmuff_calm"].number() + rows["watmuff_wind"].number() * wind_m_s, *free_parts(), is_sum=False)


def mcadams(wind_m_s: Array) -> Film:
    """Convection, widely held to contain some radiation, from the wind at the roof [m/s], any shape.

    Source: McAdams 1954, short form [from memory]; free convection as in `tarp`
    Checked: tests/published/heat.csv film-mcadams
    """
    rows = table("heat")
    return Film(rows["mcadams_calm"].number() + rows["mcadams_wind"].number() * wind_m_s, *free_parts(), is_sum=False)


def tarp(wind_m_s: Array, *, area: float, perimeter: float) -> Film:
    """Convection over the middle of a roof of some area [m²] and perimeter [m], from the wind at the roof [m/s].

    Source: TARP (Walton 1983), EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/published/heat.csv film-tarp-*
    """
    rows = table("heat")
    rough = rows["tarp_forced"].number() * rows["tarp_rough"].number()
    return Film(rough * np.sqrt(perimeter * wind_m_s / area), *free_parts())


def free_parts() -> tuple[float, float]:
    """What free convection over a level surface carries [W/m²·K^(4/3)]: where it is the warmer, the cooler.

    Source: TARP (Walton 1983), EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/published/heat.csv film-tarp-warm, film-tarp-cool
    """
    rows = table("heat")
    return (
        rows["tarp_up_warm"].number() / (rows["tarp_up_warm_less"].number() - 1),
        rows["tarp_up_cool"].number() / (rows["tarp_up_cool_more"].number() + 1),
    )
