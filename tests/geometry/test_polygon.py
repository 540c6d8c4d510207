"""Areas and places of whole-number polygons, by hand and against shapely."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lattice import rectangles, simple
from shapely import LineString, Polygon
from shapely import Point as ShapelyPoint

from lapwright.geometry.polygon import (
    contains,
    counter_clockwise,
    is_clear_of,
    place_of,
    sides_of,
    signed_area2,
    turn,
)

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]
ELL = [(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)]
MANY = settings(deadline=None, max_examples=300)


def test_areas_by_hand() -> None:
    """A 10 square has 100, an L of it less a 6 square 64; clockwise is negative; no corners have none."""
    assert signed_area2(SQUARE) == 200
    assert signed_area2(ELL) == 128
    assert signed_area2(SQUARE[::-1]) == -200
    assert signed_area2([]) == 0


@MANY
@given(simple(size=50))
def test_area_is_shapelys(ring: list[tuple[int, int]]) -> None:
    """The shoelace sum is twice shapely's area, its sign shapely's sense."""
    assert abs(signed_area2(ring)) == 2 * Polygon(ring).area
    assert (signed_area2(ring) > 0) == Polygon(ring).exterior.is_ccw


def test_turn_is_left_right_or_straight() -> None:
    """Left of east is north."""
    assert turn((0, 0), (2, 0), (1, 3)) == 6
    assert turn((0, 0), (2, 0), (1, -3)) == -6
    assert turn((0, 0), (2, 0), (9, 0)) == 0


def test_counter_clockwise_keeps_the_first_corner() -> None:
    """A clockwise square is turned round about its first corner; a counter-clockwise one stays."""
    assert counter_clockwise(SQUARE) == tuple(SQUARE)
    assert counter_clockwise([(0, 0), (0, 10), (10, 10), (10, 0)]) == tuple(SQUARE)


def test_sides_run_back_to_the_first_corner() -> None:
    """As many sides as corners."""
    assert sides_of([(0, 0), (1, 0), (0, 1)]) == (((0, 0), (1, 0)), ((1, 0), (0, 1)), ((0, 1), (0, 0)))


@pytest.mark.parametrize(
    ("point", "where"),
    [((2, 2), 1), ((6, 6), -1), ((4, 6), 0), ((4, 4), 0), ((0, 0), 0), ((5, 4), 0), ((10, 5), -1), ((-1, 4), -1)],
)
def test_places_in_an_ell(point: tuple[int, int], where: int) -> None:
    """Inside, in the notch, on a side, on the inner corner, on an outer one, beside the notch, right and left of it."""
    assert place_of(ELL, point) == where


@MANY
@given(simple(), st.tuples(st.integers(-1, 7), st.integers(-1, 7)))
def test_place_is_shapelys(ring: list[tuple[int, int]], point: tuple[int, int]) -> None:
    """Inside, on and outside are shapely's contains, touches and disjoint."""
    shape, place = Polygon(ring), ShapelyPoint(point)
    where = {1: shape.contains(place), 0: shape.touches(place), -1: shape.disjoint(place)}
    assert where[place_of(ring, point)]


@pytest.mark.parametrize(
    ("rect", "is_in"),
    [
        ([(1, 1), (3, 3)], True),
        ([(0, 0), (4, 10)], True),  # the whole leg, touching on three sides and at the inner corner
        ([(3, 3), (5, 5)], False),  # over the inner corner
        ([(5, 5), (7, 7)], False),  # in the notch
        ([(4, 4), (10, 10)], False),  # the notch itself
        ([(8, 1), (11, 3)], False),
        ([(-5, -5), (20, 20)], False),  # round the whole
    ],
)
def test_rectangles_in_an_ell(rect: list[tuple[int, int]], is_in: bool) -> None:
    """Touching from within is in; over a corner, in the notch and outside are not."""
    assert contains(ELL, rect) == is_in


@MANY
@given(simple(), rectangles())
def test_contains_is_shapelys(ring: list[tuple[int, int]], rect: list[tuple[int, int]]) -> None:
    """The answer is shapely's `covers`."""
    assert contains(ring, rect) == Polygon(ring).covers(Polygon(rect))


def test_circles_beside_a_side() -> None:
    """From a side along y = 0, a circle of 6 across is clear at 3 and not at 2; past its end at 3, 4 off (3-4-5)."""
    side = ((0, 0), (10, 0))
    assert is_clear_of(side, (5, 3), 6)
    assert not is_clear_of(side, (5, 2), 6)
    assert is_clear_of(side, (13, 4), 10)
    assert not is_clear_of(side, (13, 4), 11)


@MANY
@given(
    st.tuples(st.integers(-9, 9), st.integers(-9, 9)),
    st.tuples(st.integers(-9, 9), st.integers(-9, 9)),
    st.tuples(st.integers(-9, 9), st.integers(-9, 9)),
    st.integers(0, 12),
)
def test_clear_is_shapelys_distance(
    start: tuple[int, int], end: tuple[int, int], centre: tuple[int, int], diameter: int
) -> None:
    """Clear is: shapely's distance is no less than the radius, leaving out what lies within its own rounding."""
    away = (
        LineString([start, end]).distance(ShapelyPoint(centre))
        if start != end
        else ShapelyPoint(start).distance(ShapelyPoint(centre))
    )
    assert abs(away - diameter / 2) < 1e-9 or is_clear_of((start, end), centre, diameter) == (away > diameter / 2)
