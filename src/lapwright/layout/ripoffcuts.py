"""Details cut from what is left beside the pieces of a ripped course.

A course that is ripped leaves a strip of sheet as long as each of its pieces and as wide as what was ripped off.
Details of the same sheet are cut from it one after another along it, where width and length suffice; granules or none,
it is of the sheet that the detail asks for.  What goes down under the cap can only come from first courses, or from an
area laid before: later rips are not cut yet.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Sheet
from lapwright.layout.abreast import set_beside
from lapwright.layout.values import Detail, Piece, PlyLayout
from lapwright.units.factors import TICKS_PER_METRE

EARLY = ("strip", "strip_corner", "target")  # lie under the cap
FULL = ("valley",)  # as wide as the sheet, and laid before any course


@dataclass(slots=True)
class Offcut:
    """What is left beside a piece: its width, and how much of its length nothing is cut from yet [ticks]."""

    piece: Piece
    area: int
    width: int
    left: int

    def gives(self, detail: Detail, area: int, width: int) -> bool:
        """A detail can be cut from it, when it is wanted."""
        in_time = self.area < area or (self.area == area and (self.piece.course == 1 or detail.kind not in EARLY))
        return in_time and self.width >= width and self.left >= detail.takes_ticks


def set_beside_rips(details: Sequence[Detail], plies: Sequence[PlyLayout], sheets: Mapping[str, Sheet]) -> list[Detail]:
    """Details, those that an offcut of a ripped course gives set beside its piece; they take no roll.

    Longest first, each from the offcut whose width, then whose length, it leaves least of.
    Source: common practice, no source; best fit
    Checked: tests/layout/test_ripoffcuts.py
    """
    areas = {name: k for k, name in enumerate(dict.fromkeys(ply.area for ply in plies))}
    offcuts: dict[str, list[Offcut]] = {}
    for ply in plies:
        full = sheets[ply.sheet].width_ticks
        offcuts.setdefault(ply.sheet, []).extend(
            Offcut(piece, areas[ply.area], full - (piece.v1 - piece.v0), piece.cut_length)
            for piece in ply.pieces
            if piece.v1 - piece.v0 < full
        )
    beside: dict[str, str] = {}
    takers = [one for one in details if one.sheet and one.takes_ticks and one.kind not in FULL]
    for detail in sorted(takers, key=lambda one: -one.takes_ticks):
        width = round(detail.width * TICKS_PER_METRE)
        fits = [one for one in offcuts.get(detail.sheet, ()) if one.gives(detail, areas[detail.area], width)]
        if fits:
            best = min(fits, key=lambda one: (one.width, one.left))
            best.left -= detail.takes_ticks
            beside[detail.id] = best.piece.id
    return [set_beside(one, beside[one.id]) if one.id in beside else one for one in details]
