"""Where on a side the corners' pressures hold, and copings."""

from __future__ import annotations

import pytest

from lapwright.roof.values import Area, Edge
from lapwright.units.read import length_ticks, quantity_si
from lapwright.wind.edges import edge_pressures, edge_stretches
from lapwright.wind.levels import levels
from lapwright.wind.values import Building, WindCase

FOOT = length_ticks("1'")
BUILDING = Building(height=quantity_si("20 ft"), standard="ASCE 7-16")
CASE = WindCase("ASCE 7-16", quantity_si("20 ft"), "C", quantity_si("115 mph"), quantity_si("10 sf"))


def area(*corners: tuple[int, int]) -> Area:
    """An area by its corners [ft]."""
    points = tuple((x * FOOT, y * FOOT) for x, y in corners)
    sides = range(len(points))
    edges = tuple(Edge(k + 1, "metal_edge", points[k], points[(k + 1) % len(points)]) for k in sides)
    return Area("Main", points, edges, (0.0, -1.0), 1 / 48)


BOX = ((0, 0), (200, 0), (200, 100), (0, 100))
ELL = ((0, 0), (200, 0), (200, 60), (100, 60), (100, 100), (0, 100))
# A bay 4 ft deep before the south side: its short sides are all corner, and no corner's wall zone goes round it.
BAY = ((0, 0), (80, 0), (80, -4), (120, -4), (120, 0), (200, 0), (200, 100), (0, 100))


@pytest.mark.parametrize(
    ("corners", "side", "roof_ft", "wall_ft"),
    [
        (BOX, 1, 24, 16),  # two outside corners
        (ELL, 3, 12, 8),  # an outside and an inside one
        (ELL, 4, 12, 8),
        (BAY, 1, 12, 8),
        (BAY, 2, 4, 4),  # shorter than the zone
        (BAY, 3, 24, 16),
    ],
)
def test_the_corner_of_the_roof_is_longer_than_that_of_the_wall(
    corners: tuple[tuple[int, int], ...], side: int, roof_ft: float, wall_ft: float
) -> None:
    """h 20 ft, 100 ft wide: 12 ft of zone 3 from each outside corner, 8 ft of wall zone 5 (0.4 h); inside ones none."""
    roof = area(*corners)
    (level,) = levels([roof], BUILDING)
    found = edge_stretches(roof.edges[side - 1], level, standard="ASCE 7-16")
    assert found.roof_corner == pytest.approx(quantity_si(f"{roof_ft} ft"), abs=0.05)
    assert found.wall_corner == pytest.approx(quantity_si(f"{wall_ft} ft"), abs=0.05)
    assert found.wall_reach == pytest.approx(quantity_si("8 ft"), abs=1e-6)


def test_a_wall_zone_goes_on_over_the_line_between_two_areas() -> None:
    """Two areas side by side under one height: their common line is no corner; 5 ft of side are all corner, then 3."""
    parts = [area(*BOX[:1], (5, 0), (5, 100), (0, 100)), area((5, 0), (200, 0), (200, 100), (5, 100))]
    (level,) = levels(parts, BUILDING)
    found = [edge_stretches(part.edges[0], level, standard="ASCE 7-16").wall_corner for part in parts]
    assert found == pytest.approx([quantity_si("5 ft"), quantity_si("11 ft")], abs=0.05)


def test_a_coping_takes_the_pressure_at_its_top() -> None:
    """Kz at 24 and 20 ft in exposure C: (24/20)^(2/9.5) = 1.0391."""
    at_roof, at_top = edge_pressures(CASE), edge_pressures(CASE, quantity_si("24 ft"))
    ratios = [high.asd_pa / low.asd_pa for high, low in zip(at_top, at_roof, strict=True)]
    assert ratios == pytest.approx([1.0391] * 4, abs=1e-4)
