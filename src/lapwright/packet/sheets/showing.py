"""What of pieces and laps shows from above: within the roof, up to where the next course lies on it.

A number stands in what shows of its piece, and an end lap is drawn up to the next course: a sheet that is lapped by
half its width shows for the other half only.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import pairwise

from lapwright.layout.values import Lap, Layout, Piece
from lapwright.packet.drawing import Points, Pt
from lapwright.packet.sheets.board import Board
from lapwright.packet.sheets.clip import Box, bounds
from lapwright.packet.sheets.model import TICKS
from lapwright.packet.sheets.naming import ALONG
from lapwright.roof.values import Area

ALMOST = 0.99  # of a piece's height: what shows as much of it is looked at no further
CourseKey = tuple[str, str, int]


@dataclass(frozen=True, slots=True)
class Shown:
    """A level stretch in the middle of what shows, and how far up it shows there [ticks]."""

    u0: float
    u1: float
    low: float
    high: float

    @property
    def middle(self) -> float:
        """Half-way up [ticks]."""
        return (self.low + self.high) / 2

    @property
    def height(self) -> float:
        """From its low to its high edge [m]."""
        return (self.high - self.low) / TICKS


@dataclass(slots=True)
class Showing:
    """What the sheets of a layout look up of it, noted once; plies as they are asked for."""

    layout: Layout
    areas: Sequence[Area]
    rings: dict[str, Points] = field(default_factory=dict)
    holes: dict[str, list[tuple[Box, Points]]] = field(default_factory=dict)
    courses: dict[tuple[str, str], dict[int, list[Piece]]] = field(default_factory=dict)
    pieces: dict[str, Piece] = field(default_factory=dict)

    def ring(self, area: str) -> Points:
        """An area's corners as its sheets lie, and its openings' [ticks]."""
        if area not in self.rings:
            frame = self.layout.frames[area]
            found = next(one for one in self.areas if one.name == area)
            self.rings[area] = tuple(frame.slope_uv(*point) for point in found.outline)
            holes = [tuple(frame.slope_uv(*point) for point in opening.outline) for opening in found.openings]
            self.holes[area] = [(bounds(hole), hole) for hole in holes]
        return self.rings[area]

    def over(self, piece: Piece) -> list[Points]:
        """The openings that stand in a piece or reach into it."""
        self.ring(piece.area)
        return [
            hole
            for (left, low, right, high), hole in self.holes[piece.area]
            if left < piece.u1 and right > piece.u0 and low < piece.v1 and high > piece.v0
        ]

    def course(self, key: CourseKey) -> Sequence[Piece]:
        """The pieces of a course."""
        area, ply, index = key
        if (area, ply) not in self.courses:
            rows: dict[int, list[Piece]] = {}
            for layer in self.layout.plies:
                if (layer.area, layer.ply) == (area, ply):
                    for piece in layer.pieces:
                        rows.setdefault(piece.course, []).append(piece)
                        self.pieces[piece.id] = piece
            self.courses[area, ply] = rows
        return self.courses[area, ply].get(index, ())

    def next_low(self, piece: Piece, left: float, right: float) -> float:
        """Where the next course begins from `left` to `right`; the piece's high edge where none lies there [ticks]."""
        above = self.course((piece.area, piece.ply, piece.course + 1))
        return min([piece.v1, *(one.v0 for one in above if one.u0 < right and left < one.u1)])

    def piece(self, piece: Piece) -> Shown:
        """What shows of a piece, where it shows farthest up; all of it where nothing of it is on the roof."""
        holes = self.over(piece)
        upright = self.tallest(piece, holes)
        if upright is None:
            return Shown(piece.u0, piece.u1, piece.v0, piece.v1)
        at, low, high = upright
        level = clear_chords(self.ring(piece.area), holes, 1, (low + high) / 2)
        left, right = next((ends for ends in level if ends[0] <= at <= ends[1]), (piece.u0, piece.u1))
        return Shown(max(left, piece.u0), min(right, piece.u1), low, high)

    def tallest(self, piece: Piece, holes: Sequence[Points]) -> tuple[float, float, float] | None:
        """The first place along a piece at which it shows its whole height, else the most: u, from v to v [ticks]."""
        low, high = float(piece.v0), float(self.next_low(piece, piece.u0, piece.u1))
        ring = self.ring(piece.area)
        best: tuple[float, float, float] | None = None
        for share in ALONG:
            u = piece.u0 + (piece.u1 - piece.u0) * share
            cut = [(u, max(a, low), min(b, high)) for a, b in clear_chords(ring, holes, 0, u)]
            best = max([*([best] if best else []), *(one for one in cut if one[2] > one[1])], key=rise, default=None)
            if best is not None and rise(best) >= (high - low) * ALMOST:
                break
        return best

    def row(self, row: Sequence[Piece]) -> Shown:
        """What shows of pieces of a course: all along them, as far up as the one does that shows most."""
        tallest = max(map(self.piece, row), key=lambda one: one.height)
        return replace(tallest, u0=min(piece.u0 for piece in row), u1=max(piece.u1 for piece in row))

    def laps(self, laps: Iterable[Lap]) -> Iterator[Lap]:
        """Laps, end laps on the roof, up to where the next course lies on them."""
        for lap in laps:
            yield self.end_lap(lap) if lap.kind == "end" else lap

    def end_lap(self, lap: Lap) -> Lap:
        """An end lap's edge as far as it shows; the whole edge where it isn't drawn along its course's width."""
        self.course((lap.area, lap.ply, 0))
        later = self.pieces.get(lap.pieces[1])
        if later is None:
            return lap
        frame = self.layout.frames[lap.area]
        (u, v), (end_u, end_v) = (frame.slope_uv(x * TICKS, y * TICKS) for x, y in lap.line)
        low, high = min(v, end_v), min(max(v, end_v), self.next_low(later, u, u + 1))
        on_roof = [(max(a, low), min(b, high)) for a, b in chords(self.ring(lap.area), 0, u) if a < high and b > low]
        if abs(u - end_u) > 1 or low >= high or not on_roof:
            return lap
        ends = (frame.plan(u, on_roof[0][0]), frame.plan(end_u, on_roof[-1][1]))
        return replace(lap, line=ends if v <= end_v else ends[::-1])


def rise(upright: tuple[float, float, float]) -> float:
    """How far an upright line reaches [ticks]."""
    return upright[2] - upright[1]


def chords(ring: Points, axis: int, at: float) -> list[tuple[float, float]]:
    """The stretches of a level (axis 1) or upright (axis 0) line that lie within a polygon, in order."""
    crossings = sorted(
        a[1 - axis] + (b[1 - axis] - a[1 - axis]) * (at - a[axis]) / (b[axis] - a[axis])
        for a, b in pairwise((*ring, ring[0]))
        if (a[axis] <= at) != (b[axis] <= at)
    )
    return list(zip(crossings[::2], crossings[1::2], strict=True))


def clear_chords(ring: Points, holes: Iterable[Points], axis: int, at: float) -> list[tuple[float, float]]:
    """The same, less what of them lies in holes."""
    clear = chords(ring, axis, at)
    for hole in holes:
        for low, high in chords(hole, axis, at):
            clear = [part for a, b in clear for part in ((a, min(b, low)), (max(a, high), b)) if part[1] > part[0]]
    return clear


def middle_line(board: Board, showing: Showing, area: str, shown: Shown) -> tuple[Pt, Pt] | None:
    """The middle of what shows on the paper, from its left end; None where it is off the sheet."""
    frame = showing.layout.frames[area]
    return board.shown(frame.plan(shown.u0, shown.middle), frame.plan(shown.u1, shown.middle))
