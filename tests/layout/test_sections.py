"""Sections of a ply's ground, counted by hand."""

from __future__ import annotations

from collections.abc import Sequence

from roofs import FOOT
from shapely import Polygon

from lapwright.layout.region import Region
from lapwright.layout.sections import Ground, edges_of, level_stretches, upright_strips


def region(corners: Sequence[tuple[float, float]], *holes: Sequence[tuple[float, float]]) -> Region:
    """Ground with corners in feet."""
    rings = [[(round(x * FOOT), round(y * FOOT)) for x, y in ring] for ring in (corners, *holes)]
    shape = Polygon(rings[0], rings[1:])
    left, low, right, high = (round(each) for each in shape.bounds)
    return Region(tuple(rings[0]), tuple(tuple(ring) for ring in rings[1:]), shape, low, high, left, right)


SQUARE = [(0, 0), (20, 0), (20, 10), (0, 10)]
CURB = [(8, 4), (12, 4), (12, 6), (8, 6)]


def test_a_level_through_a_curb_has_two_stretches() -> None:
    """At 5' up, a curb from 8' to 12' leaves 0'-8' and 12'-20'; at 2' up nothing breaks the 20'."""
    edges = edges_of(region(SQUARE, CURB))
    assert level_stretches(edges, 5 * FOOT, 5.5 * FOOT) == [(0, 8 * FOOT), (12 * FOOT, 20 * FOOT)]
    assert level_stretches(edges, 2 * FOOT, 2.25 * FOOT) == [(0, 20 * FOOT)]


def test_a_band_that_meets_a_curb_goes_on_beside_it_only() -> None:
    """From 3' to 5' up the ground goes on without a break only beside the curb that begins at 4'."""
    edges = edges_of(region(SQUARE, CURB))
    assert level_stretches(edges, 3 * FOOT, 5 * FOOT) == [(0, 8 * FOOT), (12 * FOOT, 20 * FOOT)]


def test_a_slanted_side_counts_where_it_is_ground_all_the_way() -> None:
    """A triangle 20' wide and 10' high: between 0' and 5' up, the ground goes on from 5' to 15' only."""
    edges = edges_of(region([(0, 0), (20, 0), (10, 10)]))
    assert level_stretches(edges, 0, 5 * FOOT) == [(5 * FOOT, 15 * FOOT)]


def test_upright_strips_add_up_to_the_ground() -> None:
    """Three strips of 8', 4' and 8': whole height, under and over the curb, whole height; 192 sq ft."""
    strips = upright_strips(edges_of(region(SQUARE, CURB)), FOOT)
    assert [(width / FOOT, [(a / FOOT, b / FOOT) for a, b in heights]) for width, heights in strips] == [
        (8, [(0, 10)]),
        (4, [(0, 4), (6, 10)]),
        (8, [(0, 10)]),
    ]


def test_strips_of_slanted_ground_stay_inside_it() -> None:
    """Strips of the triangle, a foot wide, hold less than its 100 sq ft, but not much less."""
    strips = upright_strips(edges_of(region([(0, 0), (20, 0), (10, 10)])), FOOT)
    area = sum(width * (b - a) for width, heights in strips for a, b in heights) / FOOT**2
    assert 89.9 < area < 90.1


def test_sections_that_are_alike_are_made_once() -> None:
    """Below the curb all levels have the whole 20'; from 3 1/2' to 5' a curb is met; one that ends at 4' meets none."""
    ground = Ground(edges_of(region(SQUARE, CURB)))
    whole, beside = [(0, 20 * FOOT)], [(0, 8 * FOOT), (12 * FOOT, 20 * FOOT)]
    asked = [(1.0, 2.0), (2.0, 3.0), (3.5, 5.0), (3.0, 4.5), (3.0, 4.0), (4.5, 5.0), (6.0, 7.0), (8.0, 9.0)]
    found = [ground.stretches(low * FOOT, high * FOOT) for low, high in asked]
    assert found == [whole, whole, beside, beside, whole, beside, whole, whole]


def test_sections_of_slanted_ground_differ_at_every_level() -> None:
    """A triangle 20' wide and 10' high: 15' at 2 1/2' up, 10' at 5' up."""
    ground = Ground(edges_of(region([(0, 0), (20, 0), (10, 10)])))
    assert ground.stretches(2 * FOOT, 2.5 * FOOT) == [(round(2.5 * FOOT), round(17.5 * FOOT))]
    assert ground.stretches(4 * FOOT, 5 * FOOT) == [(5 * FOOT, 15 * FOOT)]
