"""What details take of the rolls before the field is laid, beside all details of the same roof."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import FOOT, INCH, THREE_PLIES, TWO_PLIES, rectangle, rules

from lapwright.assembly.values import Assembly
from lapwright.layout.details.fieldlaps import FieldLaps
from lapwright.layout.details.make import cut_details, flash_area, make_details
from lapwright.layout.values import Detail, Frame
from lapwright.roof.values import Drain, Opening, Pipe

CURB = Opening("O-1", "curb", (10 * FOOT, 10 * FOOT), (7 * FOOT, 4 * FOOT), 12 * 0.0254)
# metal on two sides that meet, so that there is a corner strip; a wall, a tie-in; a curb, a drain, a scupper, a pipe
ROOF = replace(
    rectangle(60 * FOOT, 40 * FOOT, ["metal_edge", "metal_edge", "wall", "tie_in"], (CURB,)),
    drains=(Drain("D-1", "drain", at=(40 * FOOT, 20 * FOOT)), Drain("S-1", "scupper", side=3, width=0.3, height=0.2)),
    pipes=(Pipe("P-1", (30 * FOOT, 30 * FOOT), 3 * INCH),),
)


def cut(assembly: Assembly) -> list[Detail]:
    """What is cut of the roof's details."""
    flashed = flash_area(ROOF, (assembly.plies[0], assembly.plies[-1]), rules())
    return cut_details(ROOF, assembly, rules(), flashed)


@pytest.mark.parametrize("assembly", (TWO_PLIES, THREE_PLIES))
def test_what_is_cut_is_what_all_details_hold_of_sheets(assembly: Assembly) -> None:
    """The same pieces in the same order, which decides what is cut beside what."""
    every = make_details(ROOF, assembly, rules()).details
    assert cut(assembly) == [one for one in every if one.sheet]


def test_every_kind_that_is_cut_from_sheets_is_among_them() -> None:
    """Nothing that takes roll length is forgotten."""
    kinds = {one.kind for one in cut(TWO_PLIES)}
    assert {"strip", "strip_corner", "tie_in", "flashing", "gusset", "target", "pipe_strip", "scupper_strip"} == kinds


def test_flashings_made_before_are_made_anew_where_laps_meet_them() -> None:
    """A side lap 12' up, across the curb from 10' to 14': its two faces up the fall are made for it, all else stays."""
    slope = (1 + ROOF.slope**2) ** 0.5
    laps = FieldLaps(
        Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), slope),
        {12 * FOOT: [(0.0, 60.0 * FOOT)]},
        [12 * FOOT],
    )
    before = flash_area(ROOF, TWO_PLIES.plies, rules())
    with_it = make_details(ROOF, TWO_PLIES, rules(), laps, flashed=before)
    assert with_it == make_details(ROOF, TWO_PLIES, rules(), laps)
    kept = {id(piece) for face in before.faces for piece in face.pieces}
    made = {one.of for one in with_it.details if one.kind == "flashing" and id(one) not in kept}
    assert {of for of in made if of.startswith("O-1")} == {"O-1 E", "O-1 W"}
