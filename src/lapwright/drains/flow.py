"""How much water a storm brings, and what it weighs where it stands (Q4)."""

from __future__ import annotations

from lapwright.defaults.si import default_number
from lapwright.units.factors import INCH, PSF


def flow_m3_s(area_m2: float, rain_m_s: float, *, wall_m2: float = 0.0) -> float:
    """Flow off a roof [m³/s]: plan area [m²] and half of the walls that shed onto it [m²], by the rate of rain [m/s].

    The printed 0.0104 gpm per sf and in/h is this product, rounded.
    Source: IPC 1106.4 for the walls; National Standard Plumbing Code, appendix D, for the flow
    Checked: tests/published/drains.csv flow-*
    """
    return (area_m2 + default_number("drains", "wall_share") * wall_m2) * rain_m_s


def rain_load_pa(static_head: float, hydraulic_head: float) -> float:
    """Load of rain water [Pa] under the two heads [m]: up to the overflow's inlet, and over it at the design flow.

    Holds for: an undeflected roof; ponding is the engineer's question.
    Source: ASCE 7-10 equation 8.3-1, R = 5.2 (ds + dh) psf and in
    Checked: tests/published/drains.csv load-*
    """
    return default_number("drains", "water_load") * float(PSF / INCH) * (static_head + hydraulic_head)
