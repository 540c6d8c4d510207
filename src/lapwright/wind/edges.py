"""What the wind does to the metal at a roof's edge: out on the face, up on the flange (Q3).

The face takes the outward pressure of the wall behind it (zone 4, at corners 5), the flange or coping the uplift of the
roof beside it (zone 2, at corners 3).  The two kinds of corner differ in length.
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.defaults.si import default_si
from lapwright.wind.coefficients import gcp, wall_gcp
from lapwright.wind.pressure import at_least_pa, roof_pressures
from lapwright.wind.values import WindCase


@dataclass(frozen=True, slots=True)
class EdgePressure:
    """Working-level pressure on edge metal [Pa], negative: outward or upward.

    external_pa: with outside air behind the metal; asd_pa: with indoor air or an open wall cavity behind it.
    """

    zone: str
    acts_on: str
    external_pa: float
    asd_pa: float


def edge_pressures(case: WindCase) -> tuple[EdgePressure, ...]:
    """Outward on the face in wall zones 4 and 5, upward on the flange in roof zones 2 and 3.

    Holds for: metal at the roof's own level, not a coping on a parapet, which takes the pressure at its top.
    Source: ASCE 7-16 figures 30.3-1, 30.3-2A and 30.5-1, as edge-metal practice takes them [from memory]
    Checked: tests/published/wind.csv edge-*
    """
    q_pa = _velocity_pressure(case)
    internal = default_si("wind", f"gcpi.{case.enclosure}")
    faces = [("face", zone, wall_gcp(zone, height=case.height, area=case.area)) for zone in ("4", "5")]
    flanges = [
        ("flange", zone, gcp(zone, standard=case.standard, height=case.height, area=case.area)) for zone in ("2", "3")
    ]
    working = default_si("wind", "working_level")
    return tuple(
        EdgePressure(
            zone=zone,
            acts_on=part,
            external_pa=at_least_pa(q_pa * external, upward=True) * working,
            asd_pa=at_least_pa(q_pa * (external - internal), upward=True) * working,
        )
        for part, zone, external in (*faces, *flanges)
    )


def _velocity_pressure(case: WindCase) -> float:
    """Velocity pressure with Kd in it, whichever edition [Pa], strength level."""
    qh = roof_pressures(case).qh_pa
    return qh * default_si("wind", "directionality") if case.standard == "ASCE 7-22" else qh
