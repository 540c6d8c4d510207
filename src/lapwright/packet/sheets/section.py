"""Sections and details on their paper: components with leaders to their names, dimension lines.

A section is drawn in metres and laid on the paper at the largest scale that leaves room for its names, which stand in a
column at its right and one at its left.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from lapwright.packet.drawing import (
    Fill,
    Ink,
    Item,
    Pattern,
    Plate,
    Points,
    Pt,
    Ring,
    Stroke,
    Text,
    View,
    Weight,
    extent,
)
from lapwright.packet.lettering import clean, fitted, text_width, wrapped
from lapwright.packet.sheets.clip import Box
from lapwright.packet.sheets.dims import LAYER, LETTER, Dim, dim_items
from lapwright.packet.sheets.scales import Scale, bar_scale, detail_scales, fitting

STEP, NOTE_GAP = 3.2, 2.0
HEAD, TOP = 3.2, 11.0
NOTES_LEAST, NOTES_MOST, NOTES_SHARE = 40.0, 58.0, 0.24  # width of a column of names [mm], and its share of the paper
APART = 6.0
DIM_ROOM = 10.0  # paper about a section for its dimension lines [mm]


@dataclass(frozen=True, slots=True)
class Note:
    """What a component is called: the point of it that is named [m], the words, the column."""

    at: Pt
    words: str
    side: str = "right"


@dataclass(slots=True)
class Section:
    """A section being drawn [m]."""

    title: str
    items: list[Item] = field(default_factory=list)
    notes: list[Note] = field(default_factory=list)
    dims: list[Dim] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)

    def part(self, ring: Points, pattern: Pattern, *, ink: Ink = "ink", weight: Weight = "thin") -> None:
        """A component: filled by its hatch, outlined."""
        self.items += [
            Fill((ring,), LAYER, ink="paper"),
            Fill((ring,), LAYER, pattern=pattern, ink=ink),
            Stroke(ring, LAYER, weight=weight, closed=True),
        ]

    def line(self, points: Points, *, weight: Weight = "heavy", ink: Ink = "ink", hidden: bool = False) -> None:
        """A component thin enough to be a line."""
        self.items.append(Stroke(points, LAYER, line="hidden" if hidden else "solid", weight=weight, ink=ink))

    def note(self, at: Pt, words: str, side: str = "right") -> None:
        """Name a component."""
        self.notes.append(Note(at, words, side))

    def dim(self, a: Pt, b: Pt, off: float, words: str) -> None:
        """Dimension a distance, level or upright."""
        self.dims.append(Dim(a, b, off, words))


def section_plate(section: Section, units: str, *, width: float, height: float, places: str = "") -> Plate:
    """The section on paper of `width` by `height` [mm]; `places` says where on the roof it holds."""
    sides = {note.side for note in section.notes}
    column = min(max(width * NOTES_SHARE, NOTES_LEAST), NOTES_MOST)
    columns = {side: column if side in sides else 4.0 for side in ("left", "right")}
    left, low, right, high = extent(section.items)
    across = width - columns["left"] - columns["right"] - 2 * APART - 2 * DIM_ROOM
    foot = 8.0 + STEP * len(remark_lines(section, width))
    tall = height - TOP - foot - 2 * DIM_ROOM
    scale = fitting(detail_scales(units), (right - left, high - low), (across, tall))
    centre = (columns["left"] + APART + DIM_ROOM + across / 2, foot + DIM_ROOM + tall / 2)
    view = View(scale.per_metre, ((left + right) / 2, (low + high) / 2), centre)
    items = list(view.items(section.items))
    box = (0.0, foot, width, height - TOP)
    named = note_items([note for note in section.notes if note.side == "left"], view, (0.0, column), box)
    named += note_items([note for note in section.notes if note.side == "right"], view, (width - column, column), box)
    leaders = [item.points for item in named if isinstance(item, Stroke)]
    items += named
    for dim in section.dims:
        items += dim_items(dim, view, leaders)
    items += frame_items(section, scale, units, places, (width, height))
    return Plate(width, height, tuple(items), section.title, scale.text)


def frame_items(section: Section, scale: Scale, units: str, places: str, size: Pt) -> list[Item]:
    """Title, places, remarks and bar scale."""
    width, height = size
    items: list[Item] = [Text((0.0, height - HEAD), fitted(section.title, HEAD, width - 90.0), HEAD, LAYER)]
    if places:
        items.append(Text((0.0, height - HEAD - 4.6), fitted(places, LETTER, width), LETTER, LAYER))
    lines = remark_lines(section, width)
    for k, line in enumerate(lines):
        items.append(Text((0.0, STEP * (len(lines) - 1 - k) + 0.6), line, LETTER, LAYER))
    words = f"Scale {scale.text}"
    start = width - text_width(words, LETTER)
    items.append(Text((start, height - HEAD), words, LETTER, LAYER))
    items += bar_scale(scale, units, (start - 52.0, height - 4.4), 40.0)
    return items


def remark_lines(section: Section, width: float) -> list[str]:
    """The remarks under a section, broken to the paper."""
    return [line for remark in section.remarks for line in wrapped(clean(remark), LETTER, width)]


def note_items(notes: Sequence[Note], view: View, column: Pt, box: Box) -> list[Item]:
    """A column of names, each with its leader; the order from the top is such that no leaders cross."""
    placed = [(view.point(note.at), wrapped(clean(note.words), LETTER, column[1] - 2.0)) for note in notes]
    placed.sort(key=lambda pair: (-pair[0][1], pair[0][0]))
    for _ in placed:
        leaders = [leader_of(point, lines, middle, column) for point, lines, middle in stacked(placed, box)]
        swap = next((k for k in range(len(leaders) - 1) if cross(leaders[k], leaders[k + 1])), None)
        if swap is None:
            break
        placed[swap], placed[swap + 1] = placed[swap + 1], placed[swap]
    items: list[Item] = []
    for point, lines, middle in stacked(placed, box):
        items.append(Stroke(leader_of(point, lines, middle, column), LAYER, weight="hair"))
        items.append(Ring(point, 0.45, LAYER, weight="hair", filled="ink"))
        top = middle + len(lines) * STEP / 2
        for k, line in enumerate(lines):
            items.append(Text((column[0], top - k * STEP - STEP * 0.82), line, LETTER, LAYER))
    return items


def stacked(placed: Sequence[tuple[Pt, list[str]]], box: Box) -> list[tuple[Pt, list[str], float]]:
    """Each name with the height of its middle."""
    heights = [len(lines) * STEP for _, lines in placed]
    wanted = [point[1] + tall / 2 for (point, _), tall in zip(placed, heights, strict=True)]
    tops = spread(wanted, heights, box[1], box[3])
    return [(point, lines, top - tall / 2) for (point, lines), top, tall in zip(placed, tops, heights, strict=True)]


def leader_of(point: Pt, lines: Sequence[str], middle: float, column: Pt) -> tuple[Pt, Pt, Pt]:
    """From a name, level at first, to what it names; names at the paper's left end have leaders at their right."""
    x, width = column
    is_left = x < 1.0
    widest = max((text_width(line, LETTER) for line in lines), default=0.0)
    edge = x + widest + 1.2 if is_left else x - 1.2
    elbow = x + width - 1.0 if is_left else edge - 3.0
    return ((edge, middle), (elbow, middle), point)


def cross(one: tuple[Pt, Pt, Pt], other: tuple[Pt, Pt, Pt]) -> bool:
    """The slanting parts of two leaders cross."""

    def side(a: Pt, b: Pt, c: Pt) -> float:
        return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])

    a, b, c, d = one[1], one[2], other[1], other[2]
    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0


def spread(wanted: Sequence[float], heights: Sequence[float], low: float, high: float) -> list[float]:
    """Tops of labels near to the wanted ones without touching, from the top down, within bounds.

    Halfway between pushing every label down and pushing every label up: both keep them apart, so their mean does.
    """
    down, limit = [], high
    for want, tall in zip(wanted, heights, strict=True):
        down.append(min(want, limit))
        limit = down[-1] - tall - NOTE_GAP
    up, floor = [], low
    for want, tall in zip(reversed(wanted), reversed(heights), strict=True):
        up.append(max(want, floor + tall))
        floor = up[-1] + NOTE_GAP
    down, up = lifted(down, heights, low), lowered(up[::-1], heights, high)
    return [(one + other) / 2 for one, other in zip(down, up, strict=True)]


def lifted(tops: Sequence[float], heights: Sequence[float], low: float) -> list[float]:
    """The same labels, lifted where they reach under the lower bound."""
    found, floor = [], low
    for top, tall in zip(reversed(tops), reversed(heights), strict=True):
        found.append(max(top, floor + tall))
        floor = found[-1] + NOTE_GAP
    return found[::-1]


def lowered(tops: Sequence[float], heights: Sequence[float], high: float) -> list[float]:
    """The same labels, lowered where they reach over the upper bound."""
    found, limit = [], high
    for top, tall in zip(tops, heights, strict=True):
        found.append(min(top, limit))
        limit = found[-1] - tall - NOTE_GAP
    return found


def break_line(a: Pt, b: Pt, size: float) -> Points:
    """A line with a zigzag in its middle: what is drawn goes on beyond it."""
    ux, uy = (b[0] - a[0]) / math.dist(a, b), (b[1] - a[1]) / math.dist(a, b)
    mx, my = (a[0] + b[0]) / 2, (a[1] + b[1]) / 2

    def off(along: float, out: float) -> Pt:
        return (mx + ux * along * size - uy * out * size, my + uy * along * size + ux * out * size)

    return (a, off(-0.6, 0.0), off(-0.25, 1.0), off(0.25, -1.0), off(0.6, 0.0), b)
