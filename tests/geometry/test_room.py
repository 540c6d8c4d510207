"""Room within polygons, by hand."""

from __future__ import annotations

import pytest

from lapwright.geometry.room import holds, roomiest, stretches_inside

SQUARE = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]
ELL = [(0.0, 0.0), (6.0, 0.0), (6.0, 2.0), (2.0, 2.0), (2.0, 6.0), (0.0, 6.0)]
DIAMOND = [(2.0, 0.0), (4.0, 2.0), (2.0, 4.0), (0.0, 2.0)]


def test_a_box_fits_where_all_of_it_lies_inside() -> None:
    """A box over the L's turned-in corner does not fit, one in its leg does; one that fills a square does."""
    assert holds(ELL, (0.5, 0.5, 5.5, 1.5))
    assert not holds(ELL, (1.0, 1.0, 3.0, 3.0))
    assert holds(SQUARE, (0.0, 0.0, 4.0, 4.0))
    assert holds(DIAMOND, (1.0, 1.0, 3.0, 3.0))
    assert not holds(DIAMOND, (0.5, 1.0, 3.5, 3.0))


def test_the_roomiest_place_is_where_the_largest_circle_fits() -> None:
    """A square's middle; in the L the place of the circle that its turned-in corner touches.

    The circle touches both outer sides (its middle at r, r) and the turned-in corner (2, 2): (2 - r) √2 = r, so that
    r = 2 √2 / (1 + √2) = 1.1716.
    """
    assert roomiest(SQUARE) == pytest.approx((2.0, 2.0), abs=0.01)
    assert roomiest(ELL) == pytest.approx((1.1716, 1.1716), abs=0.02)


def test_of_a_line_only_what_lies_inside_is_left() -> None:
    """The L's box is crossed from (0, 0) to (6, 6) as far as (2, 2), from (6, 0) to (0, 6) in two stretches."""
    assert stretches_inside(ELL, (0.0, 0.0), (6.0, 6.0)) == (((0.0, 0.0), (2.0, 2.0)),)
    assert stretches_inside(ELL, (6.0, 0.0), (0.0, 6.0)) == (((6.0, 0.0), (4.0, 2.0)), ((2.0, 4.0), (0.0, 6.0)))
    assert stretches_inside(SQUARE, (5.0, 0.0), (5.0, 4.0)) == ()


def test_a_ring_that_touches_itself_counts_by_its_largest_part() -> None:
    """Cut off at a sheet's edge a U is two legs joined by a line: the broader leg counts."""
    legs = [(0.0, 0.0), (3.0, 0.0), (3.0, 4.0), (0.0, 4.0), (0.0, 0.0), (5.0, 0.0), (6.0, 0.0), (6.0, 4.0), (5.0, 4.0)]
    ring = [*legs, (5.0, 0.0)]
    assert roomiest(ring) == pytest.approx((1.5, 2.0), abs=0.6)
    assert not holds(ring, (5.1, 1.0, 5.9, 2.0))
