"""Values copied with fields changed, beside the standard library's own way."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.layout.copies import changed
from lapwright.layout.values import CornerCut, Detail, Piece

PIECE = Piece("M/cap/01/1", "M", "cap", 1, 1, 0, 800, 0, 3150, 800, "cap sheet")
DETAIL = Detail("M/side 1/cant 1", "cant", "M", "side 1", "", "", 3.0, 0.1, parts={"mitre at end": 0.1})


def test_a_changed_value_is_what_replace_makes() -> None:
    """One field or several, the others as they were; the value copied stays as it was."""
    cuts = (CornerCut((0, 0), 4, 5),)
    before = repr((PIECE, DETAIL))
    assert changed(PIECE, corner_cuts=cuts) == replace(PIECE, corner_cuts=cuts)
    assert changed(PIECE, sequence=7, roll="cap sheet 3") == replace(PIECE, sequence=7, roll="cap sheet 3")
    assert changed(DETAIL, beside="M/O-1 E/cap flashing 1") == replace(DETAIL, beside="M/O-1 E/cap flashing 1")
    assert repr((PIECE, DETAIL)) == before


def test_a_field_that_is_none_is_not_taken() -> None:
    """A wrong name is no new field."""
    with pytest.raises(KeyError, match="rolls"):
        changed(PIECE, rolls="cap sheet 3")
