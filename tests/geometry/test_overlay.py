"""Overlays on a fine grid: what random roofs found the library without one to get wrong."""

from __future__ import annotations

import pytest
from shapely import LineString, Polygon, affinity, box

from lapwright.geometry.overlay import common, less, lines_within, surfaces, united


def test_surfaces_that_only_touch_have_no_part_in_common() -> None:
    """Nine squares of a turned board: those of one colour meet the others in lines and corners alone."""
    board = [[box(x, y, x + 8.14, y + 8.14) for y in (0, 8.14, 16.28)] for x in (0, 8.14, 16.28)]
    turned = [[affinity.rotate(one, 44.9, origin=(3, 7)) for one in row] for row in board]
    black = united(one for x, row in enumerate(turned) for y, one in enumerate(row) if (x + y) % 2 == 0)
    white = united(one for x, row in enumerate(turned) for y, one in enumerate(row) if (x + y) % 2)
    assert common(black, white).area == pytest.approx(0, abs=1e-5)
    assert less(black, white).area == pytest.approx(5 * 8.14**2, rel=1e-6)
    assert united([black, white]).area == pytest.approx(9 * 8.14**2, rel=1e-6)


def test_lines_and_points_are_no_surfaces() -> None:
    """Two squares that touch along a side have nothing left but the side, which is no surface."""
    touching = common(box(0, 0, 1, 1), box(1, 0, 2, 1))
    assert surfaces([touching]).is_empty
    assert less(box(0, 0, 1, 1), box(1, 0, 2, 1)).area == pytest.approx(1)


def test_lines_are_cut_by_a_shape_in_order() -> None:
    """Each line keeps what lies in the shape."""
    lines = [LineString([(-1, y), (5, y)]) for y in (0.5, 1.5, 9.0)]
    found = lines_within(lines, Polygon([(0, 0), (4, 0), (4, 1), (2, 1), (2, 2), (0, 2)]))
    assert [part.length for part in found] == pytest.approx([4, 2, 0])
