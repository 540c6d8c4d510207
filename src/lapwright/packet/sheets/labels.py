"""Labels that never lie on one another: each is tried at its spots in turn and left out where none is free.

A *spot* is a place with a turn.  The *field* knows the paper and what is taken on it; boxes may stand at any angle.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from typing import Literal

from lapwright.packet.drawing import Ink, Points, Pt, Stroke, Text
from lapwright.packet.lettering import clean, text_width
from lapwright.packet.sheets.clip import Box

Side = Literal["left", "middle", "right"]
CELL = 12.0
AIR = 0.22  # clear space around a label, in its height
Taken = dict[tuple[int, int], list[tuple[Box, Points]]]  # what stands on the paper, by cell, each with its bounds


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a label may stand [mm]: its anchor, turn and alignment; where a leader to it would start."""

    at: Pt
    turn_deg: float = 0.0
    across: Side = "middle"
    up: Literal["base", "middle", "top"] = "middle"
    leader_from: Pt | None = None


@dataclass(frozen=True, slots=True)
class Lettering:
    """How a label is written: height [mm], layer, cut."""

    height: float
    layer: str
    narrow: bool = False
    backed: bool = False
    ink: Ink = "ink"


def upright(turn_deg: float) -> float:
    """The same slant, turned so that it reads from below or from the right.

    A hair's breadth beyond upright still counts as upright, so that rounding does not turn a label over.
    """
    turn = turn_deg % 180.0
    return turn - 180.0 if turn > 90.0 + 1e-6 else turn


def label_box(text: Text) -> Points:
    """The corners of a label with its air [mm]."""
    width = text_width(clean(text.text), text.height, narrow=text.narrow)
    air = text.height * AIR
    left = {"left": 0.0, "middle": -width / 2, "right": -width}[text.across]
    base = {"base": 0.0, "middle": -text.height / 2, "top": -text.height}[text.up]
    x0, x1, y0, y1 = left - air, left + width + air, base - air, base + text.height + air
    turn = math.radians(text.turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    return tuple(
        (text.at[0] + x * cos - y * sin, text.at[1] + x * sin + y * cos)
        for x, y in ((x0, y0), (x1, y0), (x1, y1), (x0, y1))
    )


def line_box(a: Pt, b: Pt, half: float) -> Points:
    """A strip of `half` width to either side of a line, as a box."""
    length = math.dist(a, b) or 1.0
    nx, ny = -(b[1] - a[1]) / length * half, (b[0] - a[0]) / length * half
    return ((a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny), (b[0] - nx, b[1] - ny), (a[0] - nx, a[1] - ny))


def overlap(one: Points, other: Points) -> bool:
    """Two convex polygons share some inside (a line between them can't be found among their sides)."""
    for ring in (one, other):
        for i, a in enumerate(ring):
            b = ring[(i + 1) % len(ring)]
            nx, ny = b[1] - a[1], a[0] - b[0]
            mine = [x * nx + y * ny for x, y in one]
            theirs = [x * nx + y * ny for x, y in other]
            if max(mine) <= min(theirs) + 1e-9 or max(theirs) <= min(mine) + 1e-9:
                return False
    return True


@dataclass(slots=True)
class Field:
    """The paper that labels share: its bounds [mm] and what is taken.

    Labels keep off everything taken; leaders only off labels.
    """

    left: float
    low: float
    right: float
    high: float
    marks: Taken = field(default_factory=dict)
    labels: Taken = field(default_factory=dict)

    def take(self, ring: Points, *, label: bool = False) -> None:
        """No label may stand on this convex polygon from now on."""
        cells = self.labels if label else self.marks
        bounds = bounds_of(ring)
        for cell in cells_of(bounds):
            cells.setdefault(cell, []).append((bounds, ring))

    def is_free(self, ring: Points) -> bool:
        """The polygon lies on the paper and on nothing taken."""
        if any(not (self.left <= x <= self.right and self.low <= y <= self.high) for x, y in ring):
            return False
        return not (meets(ring, self.labels) or meets(ring, self.marks))

    def write(self, words: str, spots: Iterable[Spot], style: Lettering) -> tuple[Text | Stroke, ...]:
        """The label at its first free spot, with its leader if that spot has one; nothing where none is free."""
        for spot in spots:
            text = lettered(words, spot, style)
            box = label_box(text)
            if not self.is_free(box):
                continue
            if spot.leader_from is None:
                self.take(box, label=True)
                return (text,)
            line = leader(text, spot.leader_from)
            strip = line_box(line.points[0], line.points[1], 0.15)
            if not meets(strip, self.labels):
                self.take(box, label=True)
                self.take(strip, label=True)
                return (line, replace(text, backed=True))
        return ()


def lettered(words: str, spot: Spot, style: Lettering) -> Text:
    """Words at a spot."""
    return Text(
        at=spot.at,
        text=words,
        height=style.height,
        layer=style.layer,
        turn_deg=spot.turn_deg,
        across=spot.across,
        up=spot.up,
        narrow=style.narrow,
        backed=style.backed,
        ink=style.ink,
    )


def bounds_of(ring: Points) -> Box:
    """The upright bounds of a polygon."""
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return (min(xs), min(ys), max(xs), max(ys))


def cells_of(bounds: Box) -> Iterable[tuple[int, int]]:
    """The cells that upright bounds touch."""
    for i in range(math.floor(bounds[0] / CELL), math.floor(bounds[2] / CELL) + 1):
        for j in range(math.floor(bounds[1] / CELL), math.floor(bounds[3] / CELL) + 1):
            yield (i, j)


def meets(ring: Points, cells: Taken) -> bool:
    """The polygon overlaps one of those kept by cell; bounds that are apart save the closer look."""
    left, low, right, high = bounds = bounds_of(ring)
    for cell in cells_of(bounds):
        for (x0, y0, x1, y1), other in cells.get(cell, ()):
            if x0 < right and left < x1 and y0 < high and low < y1 and overlap(ring, other):
                return True
    return False


def leader(text: Text, start: Pt) -> Stroke:
    """A thin line from what is named to the near end of its label."""
    box = label_box(text)
    ends = [
        ((box[0][0] + box[3][0]) / 2, (box[0][1] + box[3][1]) / 2),
        ((box[1][0] + box[2][0]) / 2, (box[1][1] + box[2][1]) / 2),
    ]
    near = min(ends, key=lambda end: math.dist(end, start))
    return Stroke((start, near), text.layer, weight="hair")


def around(at: Pt, gap: float) -> tuple[Spot, ...]:
    """Spots beside a mark: right, left, above, below and at the slants."""
    x, y = at
    return (
        Spot((x + gap, y), across="left"),
        Spot((x - gap, y), across="right"),
        Spot((x, y + gap), up="base"),
        Spot((x, y - gap), up="top"),
        Spot((x + gap, y + gap), across="left", up="base"),
        Spot((x + gap, y - gap), across="left", up="top"),
        Spot((x - gap, y + gap), across="right", up="base"),
        Spot((x - gap, y - gap), across="right", up="top"),
    )


def led(at: Pt, reaches: Iterable[float]) -> tuple[Spot, ...]:
    """Spots further off, reached by a leader, in eight directions."""
    spots = []
    for reach in reaches:
        for dx, dy in ((1, 1), (-1, 1), (1, -1), (-1, -1), (1, 0.4), (-1, 0.4), (1, -0.4), (-1, -0.4)):
            side: Side = "left" if dx > 0 else "right"
            spots.append(Spot((at[0] + dx * reach, at[1] + dy * reach), across=side, leader_from=at))
    return tuple(spots)
