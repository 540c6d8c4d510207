"""Two polygons: overlap and shared sides, by hand and against shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from lattice import simple
from shapely import LinearRing, Polygon

from lapwright.geometry.meets import coincident_sides, is_well_inside, overlap
from lapwright.geometry.polygon import Point
from lapwright.geometry.thin import overlap_is_thin

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]
MANY = settings(deadline=None, max_examples=600)


def moved(ring: list[Point], x: int, y: int) -> list[Point]:
    """The ring somewhere else."""
    return [(px + x, py + y) for px, py in ring]


@pytest.mark.parametrize(
    ("other", "is_over"),
    [
        (moved(SQUARE, 10, 0), False),  # side to side
        (moved(SQUARE, 10, 10), False),  # corner to corner
        (moved(SQUARE, 10, 5), False),
        (moved(SQUARE, 9, 0), True),
        (SQUARE, True),  # the same
        (SQUARE[::-1], True),  # the same, the other way round
        ([(2, 2), (4, 2), (4, 4), (2, 4)], True),  # inside
        ([(0, 0), (5, 0), (5, 5), (0, 5)], True),  # inside, in the corner
        ([(0, 0), (10, 10), (0, 10)], True),  # half of it, cut corner to corner
        ([(0, 0), (0, 10), (-5, 5)], False),  # outside, along a whole side
        ([(20, 20), (21, 20), (20, 21)], False),
    ],
)
def test_overlap_by_hand(other: list[Point], is_over: bool) -> None:
    """Touching is not overlap; a shared inside is, however it comes about."""
    assert overlap(SQUARE, other) == is_over
    assert overlap(other, SQUARE) == is_over


@MANY
@given(simple(), simple())
def test_overlap_is_shapelys(one: list[Point], two: list[Point]) -> None:
    """Two polygons overlap where shapely's intersection has an area."""
    assert overlap(one, two) == (Polygon(one).intersection(Polygon(two)).area > 1e-9)


def test_shared_side_by_hand() -> None:
    """A square beside another 4 higher up shares 6 of side 1 with side 3."""
    found = coincident_sides(SQUARE, moved(SQUARE, 10, 4))
    assert [(each.first, each.second, each.length) for each in found] == [(1, 3, 6.0)]


def test_one_corner_is_no_shared_side() -> None:
    """Corner to corner nothing is shared."""
    assert coincident_sides(SQUARE, moved(SQUARE, 10, 10)) == ()


def test_a_side_along_two() -> None:
    """A long side along two short ones shares a stretch with each, whichever way they run."""
    wide = [(0, 10), (10, 10), (10, 12), (0, 12)]
    split = [(0, 0), (10, 0), (10, 10), (3, 10), (0, 10)]
    assert [(each.first, each.second, each.length) for each in coincident_sides(split, wide)] == [
        (2, 0, 7.0),
        (3, 0, 3.0),
    ]
    assert len(coincident_sides(split, wide[::-1])) == 2


def test_slack_takes_a_skewed_side() -> None:
    """Sides 1 apart at one end are one edge with a slack of 1, and none without."""
    skewed = [(10, 0), (20, 0), (20, 10), (11, 10)]
    assert coincident_sides(SQUARE, skewed) == ()
    assert [(each.first, each.second) for each in coincident_sides(SQUARE, skewed, slack=1)] == [(1, 3)]
    assert coincident_sides(SQUARE, [(12, 0), (20, 0), (20, 10), (12, 10)], slack=1) == ()


@MANY
@given(simple(), simple())
def test_shared_length_is_shapelys(one: list[Point], two: list[Point]) -> None:
    """Shared stretches add up to the length of shapely's intersection of the two outlines."""
    length = sum(each.length for each in coincident_sides(one, two))
    assert math.isclose(length, LinearRing(one).intersection(LinearRing(two)).length, abs_tol=1e-9)


def test_what_lies_well_inside() -> None:
    """Not what touches a side or a corner from within, crosses it, or lies outside."""
    assert is_well_inside(SQUARE, [(1, 1), (9, 1), (5, 9)])
    assert not is_well_inside(SQUARE, [(1, 1), (9, 1), (5, 10)])
    assert not is_well_inside(SQUARE, [(1, 1), (12, 5), (1, 9)])
    assert not is_well_inside(SQUARE, [(21, 1), (29, 1), (25, 9)])


def test_how_thin_an_overlap_is() -> None:
    """A strip 1 wide is thin at a width of 1 and not at half of that."""
    other = moved(SQUARE, 9, 0)
    assert overlap_is_thin(SQUARE, other, width=1.0)
    assert not overlap_is_thin(SQUARE, other, width=0.5)
