"""The pieces of one ply in laying order, found by place."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.layout.values import Layout, Piece

Box = tuple[int, int, int, int]
"""u0, u1, v0, v1 in the slope frame [ticks]."""


@dataclass(frozen=True, slots=True)
class PlyRows:
    """Pieces in laying order; places in that order by row of the roof, with the low edge of each row, rising."""

    pieces: tuple[Piece, ...]
    lows: tuple[int, ...]
    rows: tuple[tuple[int, ...], ...]
    tallest: int

    def meeting(self, box: Box) -> list[int]:
        """Places in the laying order of the pieces that overlap a box.  Source: geometry"""
        u0, u1, v0, v1 = box
        found = []
        for row in self.rows[bisect_left(self.lows, v0 - self.tallest) : bisect_left(self.lows, v1)]:
            for k in row:
                piece = self.pieces[k]
                if piece.u0 < u1 and piece.u1 > u0 and piece.v1 > v0:
                    found.append(k)
        return found

    def upto(self, boxes: Sequence[Box]) -> int:
        """How many pieces must be laid for every box to be covered.  Source: geometry"""
        return max((k for box in boxes for k in self.meeting(box)), default=-1) + 1


def make_rows(pieces: Sequence[Piece]) -> PlyRows:
    """The pieces of one ply on one area, put in laying order.  Source: arithmetic"""
    ordered = tuple(sorted(pieces, key=lambda piece: piece.sequence))
    by_low: dict[int, list[int]] = {}
    for k, piece in enumerate(ordered):
        by_low.setdefault(piece.v0, []).append(k)
    lows = sorted(by_low)
    tallest = max((piece.v1 - piece.v0 for piece in ordered), default=0)
    return PlyRows(ordered, tuple(lows), tuple(tuple(by_low[low]) for low in lows), tallest)


def area_rows(layout: Layout, area: str) -> list[PlyRows]:
    """The plies of an area from the bottom.  Source: arithmetic"""
    plies = sorted((ply for ply in layout.plies if ply.area == area), key=lambda ply: ply.position)
    return [make_rows(ply.pieces) for ply in plies]


def box_of(piece: Piece) -> Box:
    """A piece's rectangle.  Source: arithmetic"""
    return (piece.u0, piece.u1, piece.v0, piece.v1)


def covers(rows: Sequence[PlyRows]) -> dict[str, tuple[str, ...]]:
    """For each piece under the top ply, the pieces of the ply above that lie on it.

    Source: geometry
    Checked: tests/crew/test_crew_rows.py
    """
    return {
        piece.id: tuple(upper.pieces[k].id for k in upper.meeting(box_of(piece)))
        for lower, upper in pairwise(rows)
        for piece in lower.pieces
    }
