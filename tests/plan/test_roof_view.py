"""What the roof's sheet is told of a piece, by pencil."""

from __future__ import annotations

from lapwright.layout.values import Frame, Piece
from lapwright.packet.sheets.showing import Shown
from lapwright.plan.views.roof import piece_entry

M = 80_000  # ticks


def test_a_piece_is_told_with_what_shows_of_it() -> None:
    """5 m by 1 m, half of it under the next course: id, turn, four corners, the middle of what shows, 5 m by 0.5 m."""
    piece = Piece("Main/base/01/1", "Main", "base", 1, 1, 0, 5 * M, 0, M, 5 * M, "ply-sheet", sequence=7)
    frame = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)
    corners = [0.0, 0.0, 5.0, 0.0, 5.0, 1.0, 0.0, 1.0]
    told = piece_entry(piece, frame, Shown(0, 5 * M, 0, M / 2))
    assert told == ["Main/base/01/1", 7, *corners, 2.5, 0.25, 5.0, 0.5]
