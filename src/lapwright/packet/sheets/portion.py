"""What of a ply each sheet shows, where a roof is cut into parts, so that a sheet looks only at what is on it.

A piece is *numbered* on one part, the one that its middle lies in; it is drawn on every part that it reaches into.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from lapwright.layout.values import Lap, Piece, PlyLayout, TJoint
from lapwright.packet.drawing import Points, Pt
from lapwright.packet.sheets.board import Window
from lapwright.packet.sheets.clip import Box, bounds
from lapwright.packet.sheets.model import piece_ring
from lapwright.packet.sheets.showing import Showing


@dataclass(slots=True)
class Portion:
    """Plies with the pieces that reach onto a sheet; laps there, as they show, and T-joints; pieces numbered there."""

    showing: Showing
    pieces: list[Piece] = field(default_factory=list)
    laps: list[Lap] = field(default_factory=list)
    joints: list[TJoint] = field(default_factory=list)
    numbered: list[Piece] = field(default_factory=list)


def whole(showing: Showing, shown: Sequence[PlyLayout]) -> Portion:
    """All of the plies shown."""
    layout = showing.layout
    keys = {(layer.area, layer.ply) for layer in shown}
    pieces = [piece for layer in shown for piece in layer.pieces]
    laps = (lap for lap in layout.laps if (lap.area, lap.ply) in keys and lap.kind in ("side", "end"))
    return Portion(
        showing,
        pieces,
        list(showing.laps(laps)),
        [joint for joint in layout.tjoints if (joint.area, joint.ply) in keys],
        pieces,
    )


def portions(
    showing: Showing, shown: Sequence[PlyLayout], tiles: Sequence[Window], windows: Sequence[Window]
) -> tuple[Portion, ...]:
    """What each part shows: tiles [m] share the roof out, windows [m] reach a little beyond them."""
    everything = whole(showing, shown)
    found = tuple(Portion(showing) for _ in windows)
    for piece in everything.pieces:
        ring = piece_ring(showing.layout.frames[piece.area], piece)
        for k in reaching(bounds(ring), windows):
            found[k].pieces.append(piece)
        found[nearest(middle(ring), tiles)].numbered.append(piece)
    for lap in everything.laps:
        for k in reaching(bounds(lap.line), windows):
            found[k].laps.append(lap)
    for joint in everything.joints:
        for k in reaching((*joint.at, *joint.at), windows):
            found[k].joints.append(joint)
    return found


def middle(ring: Points) -> Pt:
    """The mean of the corners."""
    return (sum(x for x, _ in ring) / len(ring), sum(y for _, y in ring) / len(ring))


def reaching(box: Box, windows: Sequence[Window]) -> Iterable[int]:
    """The windows that a box reaches into."""
    left, low, right, high = box
    return (k for k, (x0, y0, x1, y1) in enumerate(windows) if left <= x1 and x0 <= right and low <= y1 and y0 <= high)


def nearest(point: Pt, tiles: Sequence[Window]) -> int:
    """The tile that a point lies in, or the nearest one."""

    def off(k: int) -> float:
        x0, y0, x1, y1 = tiles[k]
        return max(x0 - point[0], point[0] - x1, 0.0) + max(y0 - point[1], point[1] - y1, 0.0)

    return min(range(len(tiles)), key=off)
