"""What the wind does to the metal at a roof's edge: out on the face, up on the flange (Q3).

The face takes the outward pressure of the wall behind it (zone 4, at corners 5), the flange or coping the uplift of the
roof beside it (zone 2, at corners 3).  The two kinds of corner differ in length.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import shapely
from shapely import LineString

from lapwright.defaults.si import default_si
from lapwright.geometry.overlay import common
from lapwright.roof.values import Edge
from lapwright.wind.coefficients import gcp, wall_gcp
from lapwright.wind.levels import Level, ring_m
from lapwright.wind.pressure import at_least_pa, has_relief, ke, kz, velocity_pressure_pa
from lapwright.wind.values import WindCase
from lapwright.wind.zones import building_parts, least_dimension, wall_zone_lines, wall_zone_m, zone_shapes

NEAR = 0.02


@dataclass(frozen=True, slots=True)
class EdgePressure:
    """Working-level pressure on edge metal [Pa], negative: outward or upward.

    external_pa: with outside air behind the metal; asd_pa: with indoor air or an open wall cavity behind it.
    """

    zone: str
    acts_on: str
    external_pa: float
    asd_pa: float


@dataclass(frozen=True, slots=True)
class EdgeStretches:
    """How much of a side lies in roof zone 3 and in wall zone 5 [m], and how far zone 5 reaches from a corner [m]."""

    roof_corner: float
    wall_corner: float
    wall_reach: float


@dataclass(frozen=True, slots=True)
class ParapetPressure:
    """Working-level pressure on a parapet [Pa]: case A pushed in from the front, case B pulled out at the front.

    qp_pa: velocity pressure at its top, strength level, Kd in it.
    """

    zone: str
    qp_pa: float
    case_a_pa: float
    case_b_pa: float


def edge_pressures(case: WindCase, top: float | None = None) -> tuple[EdgePressure, ...]:
    """Outward on the face in wall zones 4 and 5, upward on the flange in roof zones 2 and 3.

    top: height of a parapet's top above the ground [m], for a coping, which takes the pressure there.  Behind parapets
        all round zone 3 is as zone 2.
    Source: ASCE 7-16 figures 30.3-1, 30.3-2A and 30.5-1, as edge-metal practice takes them [from memory]
    Checked: tests/published/wind.csv edge-*
    """
    q_pa = velocity_at_pa(case, case.height if top is None else top)
    internal = default_si("wind", f"gcpi.{case.enclosure}")
    faces = [("face", zone, wall_gcp(zone, height=case.height, area=case.area)) for zone in ("4", "5")]
    relieved = {"3": "2"} if has_relief(case.parapet) else {}
    flanges = [
        ("flange", zone, gcp(relieved.get(zone, zone), standard=case.standard, height=case.height, area=case.area))
        for zone in ("2", "3")
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


def parapet_pressures(case: WindCase, top: float) -> tuple[ParapetPressure, ...]:
    """Net pressure on a parapet whose top is at a height [m], in its field (wall 4, roof 2) and at corners (5, 3).

    Case A: the wall's pressure on the front and the roof edge's suction on the back, both inward.  Case B: the wall's
    pressure on the back and its suction on the front, both outward.  Inside and outside air are one: no GCpi.
    Source: ASCE 7-16 section 30.9 [from memory]
    Checked: tests/published/wind.csv parapet-load-*
    """
    qp = velocity_at_pa(case, top)
    working = default_si("wind", "working_level")
    push = wall_gcp("positive", height=case.height, area=case.area, is_low_slope=False)
    found = []
    for wall, roof in (("4", "2"), ("5", "3")):
        served = "2" if roof == "3" and has_relief(case.parapet) else roof
        edge = abs(gcp(served, standard=case.standard, height=case.height, area=case.area))
        pull = abs(wall_gcp(wall, height=case.height, area=case.area, is_low_slope=False))
        least = default_si("wind", "least_pressure")
        found.append(
            ParapetPressure(
                zone="field" if wall == "4" else "corner",
                qp_pa=qp,
                case_a_pa=max(qp * (push + edge), least) * working,
                case_b_pa=max(qp * (push + pull), least) * working,
            )
        )
    return tuple(found)


def edge_stretches(edge: Edge, level: Level, *, standard: str) -> EdgeStretches:
    """How much of a side lies in roof zone 3 and how much in wall zone 5, both at outside corners only.

    Source: ASCE 7-16 figures 30.3-1 and 30.3-2A [from memory]
    Checked: tests/wind/test_edges.py
    """
    height = level.height or 0.0
    (start, end) = ring_m((edge.start, edge.end))
    length = math.dist(start, end)
    shapes = zone_shapes(level.outlines, height=height, standard=standard, yards=level.yards)
    off = ((start[1] - end[1]) / length * NEAR, (end[0] - start[0]) / length * NEAR)
    beside = [
        common(LineString([(x + way * off[0], y + way * off[1]) for x, y in (start, end)]), shapes["3"]).length
        for way in (1, -1)
    ]
    side = LineString([start, end])
    parts = building_parts(level.outlines, level.yards)
    part = min(parts, key=lambda each: shapely.distance(each, side.centroid), default=None)
    if part is None:
        return EdgeStretches(min(max(beside), length), 0.0, 0.0)
    along = side.intersection(wall_zone_lines(part, height=height).buffer(NEAR, cap_style="flat"))
    reach = wall_zone_m(least_dimension(part), height=height)
    return EdgeStretches(min(max(beside), length), along.length, reach)


def velocity_at_pa(case: WindCase, height: float) -> float:
    """Velocity pressure at a height [m] with Kd in it, whichever edition [Pa], strength level.

    Source: ASCE 7-16 equation 26.10-1; 0.00256 reproduces 2018 IRC Table R301.2(2)
    Checked: tests/published/wind.csv edge-*, parapet-load-*
    """
    return velocity_pressure_pa(
        case.speed_m_s,
        kz=kz(height, case.exposure, standard=case.standard),
        kzt=case.topographic,
        kd=default_si("wind", "directionality"),
        ke=1.0 if case.standard == "ASCE 7-10" else ke(case.elevation),
    )
