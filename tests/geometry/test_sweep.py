"""Crossings of an outline with itself: by hand, against every pair looked at, and against shapely."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lattice import points
from shapely import Polygon

from lapwright.geometry.polygon import Point, sides_of
from lapwright.geometry.sweep import MOST_TOLD, crossings, meet, meeting_place

MANY = settings(deadline=None, max_examples=600)


@pytest.mark.parametrize(
    ("ring", "pairs"),
    [
        ([(0, 0), (4, 0), (4, 4), (0, 4)], ()),
        ([(0, 0), (4, 4), (4, 0), (0, 4)], ((0, 2),)),  # a bow tie
        ([(0, 0), (2, 2), (4, 0), (4, 4), (2, 2), (0, 4)], ((1, 4),)),  # a corner passed twice
        ([(0, 0), (6, 0), (3, 0), (3, 3)], ((0, 1),)),  # a side that runs back
        ([(0, 0), (4, 0), (4, 0), (4, 4), (0, 4)], ()),  # a side without a length is not a crossing
        ([(0, 0), (2, 0), (4, 0), (4, 4), (0, 4)], ()),  # nor is a corner on a straight line
        ([(0, 0), (4, 0), (2, 0)], ((0, 1), (0, 2))),  # nothing but a line, there and back
        ([], ()),
    ],
)
def test_by_hand(ring: list[Point], pairs: tuple[tuple[int, int], ...]) -> None:
    """Each kind of crossing and touching is found, and nothing else."""
    assert crossings(ring) == pairs


def test_a_corner_on_a_side_is_told_once() -> None:
    """Sides 2 and 3 both touch side 0 where they meet; one of them is told."""
    assert crossings([(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)]) in (((0, 2),), ((0, 3),))


def test_two_crossings_far_apart_are_both_told() -> None:
    """A band twisted at both ends crosses itself twice."""
    band = [(2, 0), (8, 0), (10, 2), (10, 0), (8, 2), (2, 2), (0, 0), (0, 2)]
    assert crossings(band) == ((1, 3), (5, 7))


def every_pair(ring: list[Point]) -> list[tuple[int, int]]:
    """Pairs of sides that are not neighbours and share a point: each pair looked at."""
    sides = [(index, side) for index, side in enumerate(sides_of(ring)) if side[0] != side[1]]
    count = len(sides)
    return [
        (sides[i][0], sides[j][0])
        for j in range(count)
        for i in range(j)
        if (j - i) % count not in (1, count - 1) and meet(sides[i][1], sides[j][1])
    ]


@MANY
@given(points().filter(lambda ring: len(set(ring)) > 2))
def test_none_found_is_shapelys_valid(ring: list[Point]) -> None:
    """An outline without crossings is one that shapely calls valid, and the other way round."""
    assert (crossings(ring) == ()) == Polygon(ring).is_valid


@MANY
@given(points(size=40, most=30))
def test_what_is_told_is_so(ring: list[Point]) -> None:
    """Every pair told is, looked at alone, a pair that meets, or two neighbours that lie on one another."""
    known = set(every_pair(ring))
    sides = sides_of(ring)
    told = [pair for pair in crossings(ring) if pair not in known]
    assert all(len({*sides[i], *sides[j]}) < 4 and meet(sides[i], sides[j]) for i, j in told)


@MANY
@given(points(size=40, most=20), st.integers(0, 19))
def test_turning_and_mirroring_change_nothing(ring: list[Point], first: int) -> None:
    """Whether an outline crosses itself does not depend on the first corner, the sense, or how it lies."""
    crosses = crossings(ring) != ()
    turned = ring[first % len(ring) :] + ring[: first % len(ring)]
    assert (crossings(turned) != ()) == crosses
    assert (crossings(ring[::-1]) != ()) == crosses
    assert (crossings([(-y, x) for x, y in ring]) != ()) == crosses
    assert (crossings([(-x, y) for x, y in ring]) != ()) == crosses


def test_thousands_of_sides() -> None:
    """A gear of 5,000 corners is sound; with two corners far apart exchanged it is not."""
    turn = 2 * math.pi / 5_000
    gear = [
        (round(1e7 * (1 + 0.2 * (i % 2)) * math.cos(i * turn)), round(1e7 * (1 + 0.2 * (i % 2)) * math.sin(i * turn)))
        for i in range(5_000)
    ]
    assert crossings(gear) == ()
    gear[10], gear[2_000] = gear[2_000], gear[10]
    assert 0 < len(crossings(gear)) <= MOST_TOLD


def test_where_two_sides_meet() -> None:
    """Crossing at (2, 1); touching at an end; lying on one another at the first end found."""
    assert meeting_place(((0, 0), (4, 2)), ((2, 0), (2, 5))) == (2, 1)
    assert meeting_place(((0, 0), (4, 0)), ((3, 0), (3, 5))) == (3, 0)
    assert meeting_place(((0, 0), (4, 0)), ((3, 0), (9, 0))) == (4, 0)
