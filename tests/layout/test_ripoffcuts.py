"""Details from the offcuts of ripped courses, by pencil in inches."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from roofs import BRIEF, CAP, FOOT, GRID, INCH, TWO_PLIES, flat, inches, rectangle, rules

from lapwright.layout.place import make_layout
from lapwright.layout.ripoffcuts import set_beside_rips
from lapwright.layout.values import Detail, Piece, PlyLayout
from lapwright.roof.values import Opening

SHEETS = {"cap-sa": CAP}


def ply(*pieces: tuple[int, int, float, float], area: str = "Main") -> PlyLayout:
    """A ply of the cap.  pieces: course, place, width and length cut."""
    made = tuple(
        Piece(f"{area}/cap/{course:02d}/{place}", area, "cap", course, place, 0, inches(long), 0, inches(wide),
              inches(long), "cap-sa")
        for course, place, wide, long in pieces
    )  # fmt: skip
    return PlyLayout(area, "cap", 2, "cap-sa", (), made, 0, 0, None, None)


def detail(name: str, kind: str, long: float, wide: float, area: str = "Main", sheet: str = "cap-sa") -> Detail:
    """A detail that takes its length of roll."""
    inch = 0.0254
    return Detail(f"{area}/x/{name}", kind, area, "x", sheet, "cap", long * inch, wide * inch, takes_ticks=inches(long))


def beside(*details: Detail, plies: tuple[PlyLayout, ...]) -> dict[str, str]:
    """What each is cut beside."""
    found = set_beside_rips(details, plies, SHEETS)
    assert [one.takes_ticks == 0 for one in found if one.beside] == [True] * len([one for one in found if one.beside])
    return {one.id.rpartition("/")[2]: one.beside for one in found}


def test_width_and_length_have_to_suffice() -> None:
    """A course ripped to 25 leaves 14 3/8 by 100: two gussets of 12 by 48, not a third, nor one of 15."""
    ripped = (ply((3, 1, 25, 100)),)
    gussets = [detail(str(k), "gusset", 48, 12) for k in range(3)]
    assert beside(*gussets, plies=ripped) == {"0": "Main/cap/03/1", "1": "Main/cap/03/1", "2": ""}
    assert beside(detail("wide", "gusset", 48, 15), plies=ripped) == {"wide": ""}
    assert beside(detail("full", "gusset", 48, 12), plies=(ply((3, 1, 39.375, 100)),)) == {"full": ""}


def test_another_sheet_gives_nothing() -> None:
    """A base gusset is not cut from the cap."""
    assert beside(detail("base", "gusset", 20, 12, sheet="base-sa"), plies=(ply((3, 1, 20, 100)),)) == {"base": ""}


def test_what_lies_under_the_cap_comes_from_rips_cut_before_it() -> None:
    """A strip from the first course or from an area before, not from the top course of its own or of a later area."""
    strip = detail("strip", "strip", 50, 9)
    later = replace(strip, id="Second/x/strip", area="Second")
    assert beside(strip, plies=(ply((5, 1, 20, 100)),)) == {"strip": ""}
    assert beside(strip, plies=(ply((1, 1, 20, 100)),)) == {"strip": "Main/cap/01/1"}
    both = (ply((5, 1, 20, 100)), ply((1, 1, 39.375, 100), area="Second"))
    assert beside(later, plies=both) == {"strip": "Main/cap/05/1"}
    last = (ply((1, 1, 39.375, 100)), ply((1, 1, 20, 100), area="Second"))
    assert beside(strip, plies=last) == {"strip": ""}


def test_a_valley_sheet_is_never_an_offcut() -> None:
    """It is as wide as the sheet."""
    assert beside(detail("valley", "valley", 50, 10), plies=(ply((1, 1, 20, 100)),)) == {"valley": ""}


def test_the_roof_orders_no_roll_for_what_its_rips_give() -> None:
    """30' by 96 3/4" between ridges of its own, a curb of 4' by 3'.

    The cap's third course begins at 2 x 36 3/8 = 72 3/4 and is 24 wide: 15 3/8 by 360 are ripped off, which holds the
    curb's eight cap gussets, 12 wide and 15 3/4 or 12 long, and its narrow flashing pieces if they are no wider.
    """
    height = 2 * 36.375 + 24
    curb = Opening("RTU-1", "curb", (150 * INCH, 30 * INCH), (48 * INCH, 36 * INCH), 0.2)
    area = flat(rectangle(30 * FOOT, inches(height), ["ridge"] * 4, openings=(curb,)))
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    gussets = [one for one in layout.details if one.kind == "gusset" and one.ply == "cap"]
    assert len(gussets) == 8
    assert Counter(one.beside.split("/")[2] for one in gussets) == {"03": 8}
    rolls = {id: roll for roll in layout.rolls for id in roll.pieces}
    assert {one.roll == rolls[one.beside].id == rolls[one.id].id for one in gussets} == {True}
