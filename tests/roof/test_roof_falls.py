"""Levels, sizes and lengths of areas, by hand."""

from __future__ import annotations

import math

import pytest
from plans import EAST, ELL, FOOT, RECTANGLE, area, edges, opening, pipe

from lapwright.roof.falls import (
    area_m2,
    edge_length_m,
    level_m,
    level_range,
    low_sides,
    plan_perimeter_by_kind,
    stretch,
)

SQUARE_FOOT = 0.3048**2
QUARTER = 0.25 / 12


def test_levels_of_a_roof_falling_south() -> None:
    """64' at a quarter inch a foot rise 16": none at the south side, half-way up at 32'."""
    made = area(RECTANGLE)
    assert level_range(made) == pytest.approx((0.0, 16 * 0.0254))
    assert level_m(made, (0, 0)) == 0.0
    assert level_m(made, (7 * FOOT, 32 * FOOT)) == pytest.approx(8 * 0.0254)


def test_levels_of_a_roof_falling_by_a_bearing() -> None:
    """Down to the north-east, a 3-4-5: from corner (0, 0) to (30', 40') water runs 50'."""
    made = area([(0, 0), (30, 0), (30, 40), (0, 40)], falls=(0.6, 0.8), slope=0.02)
    assert level_range(made) == pytest.approx((0.0, 50 * 0.3048 * 0.02))
    assert level_m(made, (30 * FOOT, 40 * FOOT)) == 0.0


def test_sizes() -> None:
    """120' by 64' less two curbs of 8' by 6'; pipes are not taken off; up the slope it is longer."""
    made = area(RECTANGLE, openings=[opening("A", 10, 10), opening("B", 40, 10)], pipes=[pipe("V", 80, 10)])
    assert area_m2(made, net=False) == pytest.approx(120 * 64 * SQUARE_FOOT)
    assert area_m2(made) == pytest.approx((120 * 64 - 96) * SQUARE_FOOT)
    assert area_m2(area(RECTANGLE, slope=0.75), on_slope=True) == pytest.approx(120 * 64 * 1.25 * SQUARE_FOOT)
    assert area_m2(area(RECTANGLE[::-1])) == pytest.approx(120 * 64 * SQUARE_FOOT)
    assert stretch(area(RECTANGLE, slope=0.75)) == 1.25


@pytest.mark.parametrize(
    ("corners", "falls", "sides"),
    [
        (RECTANGLE, (0.0, -1.0), (1,)),
        (RECTANGLE, EAST, (2,)),
        (RECTANGLE, (math.sqrt(0.5), -math.sqrt(0.5)), (1, 2)),
        (ELL, EAST, (2, 4)),  # the inner side faces east, too
        (ELL, (0.0, 1.0), (3, 5)),
        ([(0, 0), (0, 64), (120, 64), (120, 0)], (0.0, -1.0), (4,)),  # walked the other way round
    ],
)
def test_low_sides(corners: list[tuple[float, float]], falls: tuple[float, float], sides: tuple[int, ...]) -> None:
    """The sides that water runs over; those along the fall are none."""
    assert low_sides(area(corners, falls=falls)) == sides


def test_length_of_an_edge() -> None:
    """Plan length, also of a skewed one: 30' by 40' is 50'."""
    made = area([(0, 0), (30, 40), (0, 40)])
    assert edge_length_m(made.edges[0]) == pytest.approx(50 * 0.3048)


def test_perimeter_counts_a_shared_edge_once() -> None:
    """Rectangle and wing share 40' of ridge, which only the rectangle names; what no row names is not given."""
    main = area(RECTANGLE, edges=edges(s1="metal_edge", s2="ridge", s3="parapet", s4="parapet"))
    wing = area([(120, 0), (160, 0), (160, 40), (120, 40)], "Wing", edges=edges(s1="metal_edge"))
    lengths = plan_perimeter_by_kind([main, wing])
    assert list(lengths) == ["metal_edge", "ridge", "parapet", "not given"]
    assert [length / 0.3048 for length in lengths.values()] == pytest.approx([160, 64, 184, 80])
