"""Details cut from what is left beside the pieces of a ripped course.

A course that is ripped leaves a strip of sheet as long as each of its pieces and as wide as what was ripped off.
Details of the same sheet are cut from it one after another along it, where width and length suffice; granules or none,
it is of the sheet that the detail asks for.  What goes down under the cap can only come from first courses, or from an
area laid before: later rips are not cut yet.
"""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from itertools import count
from operator import itemgetter

from lapwright.assembly.values import Sheet
from lapwright.layout.abreast import set_beside
from lapwright.layout.values import Detail, PlyLayout
from lapwright.units.factors import TICKS_PER_METRE

EARLY = ("strip", "strip_corner", "target")  # lie under the cap
FULL = ("valley",)  # as wide as the sheet, and laid before any course


@dataclass(slots=True)
class Strips:
    """What is left beside the pieces of one area that are ripped to one width, of its first course or of the others.

    width: of what is left.  free: how much of the length of each nothing is cut from yet, its turn among all of its
    sheet, and the id of its piece, rising [ticks].
    """

    area: int
    is_first: bool
    width: int
    free: list[tuple[int, int, str]] = field(default_factory=list)

    def suit(self, detail: Detail, area: int, width: int) -> bool:
        """They are wide enough for a detail, and there when it is wanted."""
        in_time = self.area < area or (self.area == area and (self.is_first or detail.kind not in EARLY))
        return in_time and self.width >= width

    def shortest(self, length: int) -> int | None:
        """The place in `free` of the shortest that is long enough."""
        at = bisect_left(self.free, (length, -1))
        return at if at < len(self.free) else None


def set_beside_rips(details: Sequence[Detail], plies: Sequence[PlyLayout], sheets: Mapping[str, Sheet]) -> list[Detail]:
    """Details, those that an offcut of a ripped course gives set beside its piece; they take no roll.

    Longest first, each from the offcut whose width, then whose length, it leaves least of.
    Source: common practice, no source; best fit
    Checked: tests/layout/test_ripoffcuts.py
    """
    areas = {name: k for k, name in enumerate(dict.fromkeys(ply.area for ply in plies))}
    strips = strips_of(plies, areas, sheets)
    beside: dict[str, str] = {}
    takers = [one for one in details if one.sheet and one.takes_ticks and one.kind not in FULL]
    for detail in sorted(takers, key=lambda one: -one.takes_ticks):
        width = round(detail.width * TICKS_PER_METRE)
        fits = [
            (some.width, some.free[at], at, some)
            for some in strips.get(detail.sheet, ())
            if some.suit(detail, areas[detail.area], width) and (at := some.shortest(detail.takes_ticks)) is not None
        ]
        if fits:
            _, (left, turn, piece), at, best = min(fits, key=itemgetter(0, 1))
            del best.free[at]
            insort(best.free, (left - detail.takes_ticks, turn, piece))
            beside[detail.id] = piece
    return [set_beside(one, beside[one.id]) if one.id in beside else one for one in details]


def strips_of(
    plies: Sequence[PlyLayout], areas: Mapping[str, int], sheets: Mapping[str, Sheet]
) -> dict[str, list[Strips]]:
    """What is left beside ripped pieces, by sheet.  areas: their numbers in the order of laying."""
    found: dict[tuple[str, int, bool, int], Strips] = {}
    turns = count()
    for ply in plies:
        full = sheets[ply.sheet].width_ticks
        for piece in ply.pieces:
            width = full - (piece.v1 - piece.v0)
            if width > 0:
                key = (ply.sheet, areas[ply.area], piece.course == 1, width)
                some = found.setdefault(key, Strips(*key[1:]))
                some.free.append((piece.cut_length, next(turns), piece.id))
    by_sheet: dict[str, list[Strips]] = {}
    for (sheet, *_), some in found.items():
        some.free.sort()
        by_sheet.setdefault(sheet, []).append(some)
    return by_sheet
