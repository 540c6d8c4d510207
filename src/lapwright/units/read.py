"""Every reader in one place: a text as a person types it in, SI or whole ticks out.

Lengths in lengths.py, directions and walks in walks.py, other quantities in quantities.py, clock and calendar in
days.py, bare numbers in amounts.py.  What can't be read raises Unread, which says what is needed and what to write.
"""

from __future__ import annotations

from lapwright.units.amounts import currency, integer, number, price
from lapwright.units.anything import quantity_si, si_scale
from lapwright.units.days import clock, date, sides, weekdays
from lapwright.units.lengths import length_exact, length_m, length_ticks
from lapwright.units.quantities import (
    area_m2,
    coverage_m2_m3,
    duration_s,
    expansion_per_k,
    force_n,
    irradiance_w_m2,
    line_load_n_m,
    mass_kg,
    percent,
    power_w,
    pressure_pa,
    rain_m_s,
    resistance_m2k_w,
    slope,
    speed_m_s,
    temperature_c,
    temperature_difference_k,
    transmittance_w_m2k,
    voltage_v,
    volume_m3,
)
from lapwright.units.unread import Unread
from lapwright.units.walks import Leg, direction, position, size, walk

__all__ = [
    "Leg",
    "Unread",
    "area_m2",
    "clock",
    "coverage_m2_m3",
    "currency",
    "date",
    "direction",
    "duration_s",
    "expansion_per_k",
    "force_n",
    "integer",
    "irradiance_w_m2",
    "length_exact",
    "length_m",
    "length_ticks",
    "line_load_n_m",
    "mass_kg",
    "number",
    "percent",
    "position",
    "power_w",
    "pressure_pa",
    "price",
    "quantity_si",
    "rain_m_s",
    "resistance_m2k_w",
    "si_scale",
    "sides",
    "size",
    "slope",
    "speed_m_s",
    "temperature_c",
    "temperature_difference_k",
    "transmittance_w_m2k",
    "voltage_v",
    "volume_m3",
    "walk",
    "weekdays",
]
