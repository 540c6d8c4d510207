"""Nails that hold steep sheets back."""

from __future__ import annotations

from dataclasses import replace

import pytest
from order_jobs import make_area, make_layout, make_needs, piece

from lapwright.layout.values import Frame
from lapwright.order.strapping import want_back_nails

AREA = make_area([(0, 0), (40, 0), (40, 20), (0, 20)], ["metal_edge"] * 4)
PIECES = (piece("base", 1), piece("cap", 1), piece("cap", 2))


def test_three_sheets_39_inches_wide_take_eight_nails_each() -> None:
    """39" at 6" are seven spaces, so eight nails across the end of each: 24 of a box of 1000."""
    layout = make_layout(pieces=PIECES)
    steep = replace(layout, frames={"Main": Frame((0.0, 0.0), (0.0, 1.0), (-1.0, 0.0), 1.02, is_strapped=True)})
    (want,) = want_back_nails(make_needs(AREA, steep))
    assert want.needed == pytest.approx(0.024)
    assert want.basis == '24 nails: 3 sheets laid with the fall, at 6" across the upper end; boxes of 1000'
    assert len(want.ids) == 3


def test_sheets_across_the_fall_take_none() -> None:
    """Nothing is back-fastened on a low slope."""
    assert list(want_back_nails(make_needs(AREA, make_layout(pieces=PIECES)))) == []
