"""What is cut or set and comes from no roll: sizes in words, places with the same cut in one row."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from papers import shed, shed_layout

from lapwright.layout.values import Detail
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.setlist import set_page

IN = 0.0254


def one(kind: str, of: str, length: float, width: float, **more: Any) -> Detail:
    """A detail of no sheet, sizes in inches."""
    return Detail(f"A/{of}/{kind}", kind, "A", of, "", "", length * IN, width * IN, **more)


def told(*details: Detail) -> list[list[str]]:
    """The rows of the list."""
    book = open_book(shed(layout=replace(shed_layout(), details=details)))
    rows: list[list[str]] = set_page(book)["rows"]
    return rows


LINE = ((0.0, 0.0), (1.0, 0.0))


def test_lengths_are_counted_by_place() -> None:
    """Two of 10' and one of 6' on side 1."""
    metal = [one("metal", "side 1", long, 4, line=LINE) for long in (120, 120, 72)]
    assert told(*metal) == [["edge metal", "2 of 10' 0\"; 6' 0\"", "A: side 1"]]


def test_places_with_the_same_cut_share_a_row() -> None:
    """Cant of 3' with two mitres on two faces, of 4' without on a third, of 3' again in another area."""
    mitred = {"mitre at start": 4 * IN, "mitre at end": 4 * IN}
    faces = [one("cant", of, 36, 4, line=LINE, parts=mitred) for of in ("C S", "C N")]
    plain = one("cant", "side 2", 48, 4, line=LINE)
    assert told(faces[0], plain, faces[1], replace(faces[0], area="B")) == [
        ["cant", "3' 0\" mitred at both ends", "A: C S, C N; B: C S"],
        ["cant", "4' 0\"", "A: side 2"],
    ]


def test_what_has_no_length_is_counted() -> None:
    """Covers by their length, a corner by form and sides, a sump by its sides, what is set on a pipe by it, a row by
    its height.
    """
    covers = [one("joint_cover", "side 1", 6, 0, at=(0.0, 0.0), form="outside") for _ in range(4)]
    corner = one("metal_corner", "corner of sides 1 and 2", 12, 4, at=(0.0, 0.0), form="outside")
    sump = one("sump", "D-1", 48, 36, at=(0.0, 0.0))
    pipe = one("pipe_flashing", "V-1", 4, 4, at=(0.0, 0.0))
    row = one("fixing", "side 3", 60, 0, line=LINE, parts={"height": 15 * IN})
    assert [words[:2] for words in told(*covers, corner, sump, pipe, row)] == [
        ["joint cover", '4 of 6"'],
        ["metal corner", 'outside, legs of 12" × 4"'],
        ["sump", '48" × 36"'],
        ["pipe flashing", 'for a pipe of 4"'],
        ["row of fasteners", "5' 0\", 1' 3\" above the roof"],
    ]
