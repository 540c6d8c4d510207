"""The station's wind brought to the height of the roof (question 5)."""

from __future__ import annotations

from lapwright.defaults.table import table
from lapwright.weather.values import Array

_COUNTRY = {"B": "rough", "C": "open", "D": "sea"}


def wind_at_height_m_s(station_m_s: Array, *, station_height: float, height: float, exposure: str | None) -> Array:
    """Wind at a height above the ground [m/s], (hours,).

    Args:
        station_m_s: wind of the weather station, in open country, at `station_height` [m], (hours,).
        height: of the roof [m].
        exposure: of the site, B, C or D; None is read as C.

    Holds for: the free wind; not the gusts at a roof's edge, nor the lee of a parapet.
    Source: power law, EnergyPlus engineering reference, climate calculations
    Checked: tests/published/weather.csv wind-*
    """
    rows = table("heat")
    country = _COUNTRY[exposure or "C"]
    met_power, met_layer = rows["wind_open_power"].number(), rows["wind_open_layer"].number()
    power, layer = rows[f"wind_{country}_power"].number(), rows[f"wind_{country}_layer"].number()
    factor: float = (met_layer / station_height) ** met_power * (min(height, layer) / layer) ** power
    return station_m_s * factor
