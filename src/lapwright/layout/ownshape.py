"""What of its run a piece is: where the run's sheets lie, from one end of the piece to the other, without scraps.

A cut across a run beside an opening that stands askew leaves a scrap that hangs on nothing: the sheet is cut round the
opening, and the scrap falls off.  What lies there is the other piece of the end lap, or the neighbouring course.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from lapwright.layout.rows import LEAST, parts_of
from lapwright.layout.runs import Run
from lapwright.layout.values import Piece

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def own_shape(piece: Piece, run: Run) -> BaseGeometry:
    """The part of a piece's blank that it is, notched and trimmed, in its area's frame [ticks].

    Source: common practice, no source
    Checked: tests/layout/test_lying.py
    """
    lies = blank_of(piece, run)
    return main_part(lies, piece, run) or lies


def less_scraps(piece: Piece, run: Run) -> BaseGeometry | None:
    """The same, where its end cuts a scrap off it; None where it is all that lies of its blank.

    Source: common practice, no source
    Checked: tests/layout/test_lying.py
    """
    return main_part(blank_of(piece, run), piece, run)


def blank_of(piece: Piece, run: Run) -> BaseGeometry:
    """What lies of a run between the ends of a piece."""
    from shapely import box

    return run.lies.intersection(box(piece.u0, piece.v0, piece.u1, piece.v1))


def main_part(lies: BaseGeometry, piece: Piece, run: Run) -> BaseGeometry | None:
    """Of several parts that which covers most of what its run has to, where it reaches from end to end.

    None where there is one part, or where none of them is more the piece than the others.
    """
    if lies.geom_type == "Polygon":
        return None
    parts = parts_of(lies)
    if len(parts) < 2:
        return None
    main = max(parts, key=lambda part: part.intersection(run.shape).area)
    left, _, right, _ = main.bounds
    return main if left - piece.u0 <= LEAST and piece.u1 - right <= LEAST else None
