"""Where ground ends up the fall, by hand."""

from __future__ import annotations

import numpy as np
import pytest
from roofs import FOOT
from test_sections import CURB, SQUARE, region

from lapwright.layout.groundends import ends_of
from lapwright.layout.sections import edges_of


def test_a_triangle_ends_along_its_sides() -> None:
    """20' wide and 10' high: under 5' up the ground ends over 5' on either side, half a square of 5' each."""
    tops, bottoms = ends_of(edges_of(region([(0, 0), (20, 0), (10, 10)])))
    assert tops.at(np.float64(5 * FOOT))[0] / FOOT == pytest.approx(10)
    assert tops.between(np.float64(0), np.float64(5 * FOOT)) / FOOT**2 == pytest.approx(2 * 12.5)
    assert tops.between(np.float64(5 * FOOT), np.float64(10 * FOOT)) / FOOT**2 == pytest.approx(
        2 * 12.5
    )  # those that end over 5'
    assert bottoms.at(np.float64(-1))[0] == 0.0
    assert bottoms.at(np.float64(0.5))[0] / FOOT == pytest.approx(20)


def test_openings_are_no_ends() -> None:
    """A square with a curb ends 10' up all over, and at 0'."""
    tops, bottoms = ends_of(edges_of(region(SQUARE, CURB)))
    assert tops.at(np.float64(9.99 * FOOT))[0] == 0.0
    assert tops.at(np.float64(10.01 * FOOT))[0] / FOOT == pytest.approx(20)
    assert bottoms.between(np.float64(-6 * FOOT), np.float64(1 * FOOT)) / FOOT**2 == pytest.approx(20)
    assert tops.between(np.float64(10 * FOOT), np.float64(5 * FOOT)) == 0.0
