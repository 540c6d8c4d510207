"""Sides moved by distances of their own: by hand, against shapely's mitred buffer, and against half planes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lattice import convex, simple
from shapely import Polygon, symmetric_difference

from lapwright.geometry.offset import offset_sides
from lapwright.geometry.polygon import Point

SQUARE = [(0, 0), (10, 0), (10, 10), (0, 10)]
MANY = settings(deadline=None, max_examples=300)


def area(ring: object) -> float:
    """Area by shapely; nothing has none."""
    return Polygon(ring).area if ring else 0.0


@pytest.mark.parametrize(
    ("ring", "distances", "expected"),
    [
        # each side by its own distance, outwards and inwards
        (SQUARE, [1, 2, 0, -1], [(1, -1), (12, -1), (12, 10), (1, 10)]),
        # a clockwise square keeps its sense and first corner
        ([(0, 0), (0, 10), (10, 10), (10, 0)], [1, 1, 1, 1], [(-1, -1), (-1, 11), (11, 11), (11, -1)]),
        # an inner corner
        (
            [(0, 0), (10, 0), (10, 4), (4, 4), (4, 10), (0, 10)],
            [0, 0, 1, 2, 0, 0],
            [(0, 0), (10, 0), (10, 5), (6, 5), (6, 10), (0, 10)],
        ),
        # neighbours on one line with different distances: a step
        (
            [(0, 0), (5, 0), (10, 0), (10, 10), (0, 10)],
            [1, -0.5, 0, 0, 0],
            [(0, -1), (5, -1), (5, 0.5), (10, 0.5), (10, 10), (0, 10)],
        ),
        # the same with equal distances: no step
        (
            [(0, 0), (5, 0), (10, 0), (10, 10), (0, 10)],
            [1, 1, 0, 0, 0],
            [(0, -1), (5, -1), (10, -1), (10, 10), (0, 10)],
        ),
        # nothing is left, however far the sides go on through one another
        (SQUARE, [-5, -5, -5, -5], []),
        (SQUARE, [-8, -8, -8, -8], []),
        (SQUARE, [-8, 0, -3, 0], []),
        # no distance at all
        (SQUARE, [0, 0, 0, 0], SQUARE),
    ],
)
def test_by_hand(ring: list[Point], distances: list[float], expected: list[tuple[float, float]]) -> None:
    """Counted on squared paper; whole numbers along the axes stay exact."""
    assert list(offset_sides(ring, distances)) == expected


def test_a_side_shorter_than_the_distance_gives_way() -> None:
    """A square of 10 with a corner 0.1 off, moved in by 2, is the square of 6."""
    cut = [(0, 0), (10, 0), (10, 9.9), (9.9, 10), (0, 10)]
    moved = Polygon(offset_sides(cut, [-2] * 5))
    assert (
        moved.equals_exact(Polygon([(2, 2), (8, 2), (8, 8), (2, 8)]), 1e-9)
        or moved.symmetric_difference(Polygon([(2, 2), (8, 2), (8, 8), (2, 8)])).area < 1e-9
    )


def test_the_largest_part_is_kept() -> None:
    """A T whose stem is narrower than twice the distance loses it: 15 by 1 is left of its bar."""
    tee = [(0, 0), (2, 0), (2, 10), (10, 10), (10, 14), (-8, 14), (-8, 10), (0, 10)]
    moved = Polygon(offset_sides(tee, [-1.5] * 8))
    assert moved.bounds == pytest.approx((-6.5, 11.5, 8.5, 12.5))
    assert moved.area == pytest.approx(15.0)


def test_a_slot_that_closes_is_filled() -> None:
    """A U whose slot is 2 wide, moved out by 1.5, is a square of 13."""
    you = [(0, 0), (10, 0), (10, 10), (6, 10), (6, 4), (4, 4), (4, 10), (0, 10)]
    assert area(offset_sides(you, [1.5] * 8)) == pytest.approx(169.0)


def test_a_nearly_straight_corner_makes_a_step_not_a_spike() -> None:
    """Sides that bend by a thousandth, one out 2 and the other in 1, part at their corner."""
    bent = [(0, 0), (1000, 1), (2000, 0), (2000, 500), (0, 500)]
    moved = offset_sides(bent, [2, -1, 0, 0, 0])
    assert max(abs(y) for x, y in moved if 900 < x < 1100) == pytest.approx(2, abs=0.01)
    assert len(moved) == 6


def test_as_many_distances_as_sides() -> None:
    """Anything else is a bug of the caller's."""
    with pytest.raises(ValueError, match="4 sides, 3 distances"):
        offset_sides(SQUARE, [1, 1, 1])


def angles(ring: list[Point]) -> list[float]:
    """Angle between the two sides at each corner, 0 to 180 degrees, inner or outer."""
    found = []
    for before, here, after in zip([ring[-1], *ring[:-1]], ring, [*ring[1:], ring[0]], strict=True):
        to_before, to_after = (before[0] - here[0], before[1] - here[1]), (after[0] - here[0], after[1] - here[1])
        cross = to_before[0] * to_after[1] - to_before[1] * to_after[0]
        dot = to_before[0] * to_after[0] + to_before[1] * to_after[1]
        found.append(abs(math.degrees(math.atan2(cross, dot))))
    return found


def corners_are_blunt(ring: list[Point]) -> bool:
    """No corner is sharper than 30 degrees, where a mitre may be cut off."""
    return min(angles(ring)) > 30


def corners_are_plain(ring: list[Point]) -> bool:
    """Nor flatter than 150, where sides with distances of their own part in a step."""
    return corners_are_blunt(ring) and max(angles(ring)) < 150


@MANY
@given(simple(size=100, most=7).filter(corners_are_blunt), st.sampled_from([-3.0, -1.0, -0.25, 0.25, 1.0, 3.0]))
def test_equal_distances_are_shapelys_mitred_buffer(ring: list[Point], distance: float) -> None:
    """All sides by one distance: shapely's buffer with mitred corners, its largest part, its outer ring.

    Up to 2 % of the moved strip is allowed for: where a short side gives way among inner corners the two part.
    """
    buffer = Polygon(ring).buffer(distance, join_style="mitre", mitre_limit=50)
    largest = max(getattr(buffer, "geoms", [buffer]), key=lambda part: part.area)
    expected = Polygon(largest.exterior)
    moved = offset_sides(ring, [distance] * len(ring))
    mine = Polygon(moved) if moved else Polygon()
    strip = abs(distance) * Polygon(ring).length
    assert mine.is_valid
    assert symmetric_difference(mine, expected, grid_size=1e-6).area <= 0.02 * strip


def half_planes(ring: list[Point], distances: list[float]) -> Polygon:
    """A convex polygon with moved sides as what is left of a large square, cut at each side's line in turn."""
    left = Polygon([(-9e3, -9e3), (9e3, -9e3), (9e3, 9e3), (-9e3, 9e3)])
    for (ax, ay), (bx, by), distance in zip(ring, ring[1:] + ring[:1], distances, strict=True):
        length = math.hypot(bx - ax, by - ay)
        ux, uy = (bx - ax) / length, (by - ay) / length
        x, y = ax + distance * uy, ay - distance * ux
        far = 5e4
        begin, end = (x - far * ux, y - far * uy), (x + far * ux, y + far * uy)
        left &= Polygon(
            [begin, end, (end[0] - far * uy, end[1] + far * ux), (begin[0] - far * uy, begin[1] + far * ux)]
        )
    return left


@MANY
@given(convex(most=6).filter(corners_are_plain), st.lists(st.floats(-20, 20), min_size=6, max_size=6))
def test_a_convex_polygon_moved_in_is_an_intersection_of_half_planes(ring: list[Point], distances: list[float]) -> None:
    """Sides of a convex polygon moved in by distances of their own: what all the moved lines leave."""
    inward = [-abs(distance) for distance in distances[: len(ring)]]
    expected = half_planes(ring, inward)
    assert area(offset_sides(ring, inward)) == pytest.approx(expected.area, abs=1e-6 * Polygon(ring).area)


@MANY
@given(convex().filter(corners_are_blunt), st.floats(0, 20), st.integers(0, 11))
def test_moving_one_side_out_only_adds(ring: list[Point], distance: float, place: int) -> None:
    """One side of a convex polygon moved out: what comes out holds what was there."""
    side = place % len(ring)
    distances = [distance if index == side else 0.0 for index in range(len(ring))]
    moved = offset_sides(ring, distances)
    assert Polygon(moved).is_valid
    assert area(moved) >= area(ring) * (1 - 1e-12)
    assert Polygon(moved).buffer(1e-6).covers(Polygon(ring))
