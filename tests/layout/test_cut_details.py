"""What details take of the rolls before the field is laid, beside all details of the same roof."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import FOOT, INCH, THREE_PLIES, TWO_PLIES, rectangle, rules

from lapwright.assembly.values import Assembly
from lapwright.layout.details.make import cut_details, make_details
from lapwright.roof.values import Drain, Opening, Pipe

CURB = Opening("O-1", "curb", (10 * FOOT, 10 * FOOT), (7 * FOOT, 4 * FOOT), 12 * 0.0254)
# metal on two sides that meet, so that there is a corner strip; a wall, a tie-in; a curb, a drain, a scupper, a pipe
ROOF = replace(
    rectangle(60 * FOOT, 40 * FOOT, ["metal_edge", "metal_edge", "wall", "tie_in"], (CURB,)),
    drains=(Drain("D-1", "drain", at=(40 * FOOT, 20 * FOOT)), Drain("S-1", "scupper", side=3, width=0.3, height=0.2)),
    pipes=(Pipe("P-1", (30 * FOOT, 30 * FOOT), 3 * INCH),),
)


@pytest.mark.parametrize("assembly", (TWO_PLIES, THREE_PLIES))
def test_what_is_cut_is_what_all_details_hold_of_sheets(assembly: Assembly) -> None:
    """The same pieces in the same order, which decides what is cut beside what."""
    every = make_details(ROOF, assembly, rules()).details
    assert cut_details(ROOF, assembly, rules()) == [one for one in every if one.sheet]


def test_every_kind_that_is_cut_from_sheets_is_among_them() -> None:
    """Nothing that takes roll length is forgotten."""
    kinds = {one.kind for one in cut_details(ROOF, TWO_PLIES, rules())}
    assert {"strip", "strip_corner", "tie_in", "flashing", "gusset", "target", "pipe_strip", "scupper_strip"} == kinds
