"""Parts of a roof too large for one sheet: the tiles it is cut into, and the small key that shows which is which."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.packet.drawing import Fill, Item, Pt, Stroke, Text, rectangle
from lapwright.packet.sheets.board import COLUMN, SMALLEST, Board, Window, make_board, places, room, windows_of
from lapwright.packet.sheets.clip import clip_ring, ring_area
from lapwright.packet.sheets.labels import Lettering, Spot, label_box, line_box
from lapwright.packet.sheets.model import TICKS, outline
from lapwright.packet.sheets.scales import LAYER, Scale, plan_scales
from lapwright.packet.values import Paper
from lapwright.roof.values import Area

READABLE = 3.0  # a course this high on the paper takes its numbers [mm]
MOST_PARTS = 120
SHARES = (0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9)
CLEAR = 0.6  # paper kept clear to either side of the boxes of parts [mm]
KEY, PART_LETTER = 30.0, 3.0  # height of the small key of a part; of a part's number on the whole roof [mm]
BESIDE = 3.0  # paper shown beyond a part's own share of the roof, at least [mm]
LEAST_SHARE = 0.002  # a tile with less roof than this share of itself is left out


def needed_scale(units: str, pitch: float) -> Scale:
    """The smallest scale at which courses of `pitch` [m] can be read; the largest of all where none is enough."""
    scales = plan_scales(units)
    enough = [scale for scale in scales if pitch * scale.per_metre >= READABLE]
    return enough[-1] if enough else scales[0]


@dataclass(frozen=True, slots=True)
class Split:
    """A roof cut into parts: their scale, the share [m] that each has of the roof, the window [m] that it shows."""

    scale: Scale
    tiles: tuple[Window, ...]
    windows: tuple[Window, ...]


def split_roof(paper: Paper, *, width: float, height: float) -> Split | None:
    """The parts that all plans of a job share, on sheets of `width` by `height` [mm]; None where one sheet is enough.

    One sheet is enough where lettering of 1.8 mm fits into the courses of every ply.
    """
    pitch = min((paper.sheets[layer.sheet].pitch_ticks for layer in paper.layout.plies), default=0) / TICKS
    window = roof_window(paper.areas)
    scale = make_board(window, paper.head.units, width=width, height=height).scale
    if not pitch or pitch * scale.per_metre >= SMALLEST * 1.25:
        return None
    scale = needed_scale(paper.head.units, pitch)
    over = beyond(scale, pitch)
    found = tiles(paper.areas, window, scale, width=width, height=height, over=over)
    return Split(scale, found, tuple(grown(tile, over) for tile in found)) if found else None


def roof_window(areas: Sequence[Area]) -> Window:
    """The bounds of all areas [m]."""
    return windows_of(point for area in areas for point in outline(area))


def part_boards(paper: Paper, split: Split, *, width: float, height: float, letter: float) -> list[Board]:
    """A board for each part, its match lines and its small key drawn."""
    boards = []
    for k, window in enumerate(split.windows):
        board = make_board(window, paper.head.units, width=width, height=height, letter=letter, cropped_at=split.scale)
        for item in match_lines(board, split.tiles, k):
            board.marks.append(item)
            if isinstance(item, Text):
                board.field.take(label_box(item), label=True)
        board.foot, board.part, board.parts = KEY + 3.0, k + 1, len(split.windows)
        board.marks += small_key(paper.areas, split.tiles, k, (width - COLUMN, 0.0), (COLUMN, KEY))
        boards.append(board)
    return boards


def part_marks(board: Board, split: Split) -> None:
    """The parts on the sheet of the whole roof: dash-dot-dot boxes on clear paper, each with its number inside."""
    style = Lettering(PART_LETTER, LAYER, backed=True)
    boxes = []
    for x0, y0, x1, y1 in split.tiles:
        (left, low), (right, high) = board.view.point((x0, y0)), board.view.point((x1, y1))
        boxes.append(rectangle(left, low, right - left, high - low))
    for box in boxes:
        for side in zip(box, (*box[1:], box[0]), strict=True):
            board.marks.append(Fill((line_box(*side, CLEAR),), LAYER, ink="paper"))
    for number, box in enumerate(boxes, start=1):
        board.marks.append(Stroke(box, LAYER, line="phantom", weight="heavy", closed=True))
        (left, low), (right, high) = box[0], box[2]
        shares = ((0.5, 0.5), *((across, up) for up in SHARES for across in SHARES))
        spots = (Spot((left + (right - left) * across, low + (high - low) * up)) for across, up in shares)
        board.label(f"part {number}", spots, style)


def beyond(scale: Scale, pitch: float) -> float:
    """How far a part shows the roof beyond its own share [m]: half a course, so that each course is whole on one."""
    return max(pitch / 2, BESIDE / scale.per_metre)


def grown(tile: Window, by: float) -> Window:
    """A window that reaches farther on every side."""
    return (tile[0] - by, tile[1] - by, tile[2] + by, tile[3] + by)


def tiles(
    areas: Sequence[Area], window: Window, scale: Scale, *, width: float, height: float, over: float
) -> tuple[Window, ...]:
    """The shares [m] of the parts, row by row from the upper left; those without roof are left out.

    Each leaves `over` [m] of its paper on every side for what lies beyond it.  Empty where there would be more than
    120: such a roof is read from the DXF.
    """
    beside, _ = places(width, height)
    size = tuple(length / scale.per_metre - 2 * over for length in room(beside))
    columns = math.ceil((window[2] - window[0]) / size[0])
    rows = math.ceil((window[3] - window[1]) / size[1])
    if columns * rows > 4 * MOST_PARTS:
        return ()
    step = ((window[2] - window[0]) / columns, (window[3] - window[1]) / rows)
    found = []
    for row in reversed(range(rows)):
        for column in range(columns):
            left, low = window[0] + column * step[0], window[1] + row * step[1]
            tile = (left, low, left + step[0], low + step[1])
            if any(ring_area(clip_ring(outline(area), tile)) > LEAST_SHARE * step[0] * step[1] for area in areas):
                found.append(tile)
    return tuple(found) if len(found) <= MOST_PARTS else ()


def small_key(areas: Sequence[Area], parts: Sequence[Window], this: int, at: Pt, size: Pt) -> tuple[Item, ...]:
    """The roof's outline with the parts numbered, this one hatched; `at` is its lower left [mm]."""
    left, low = min(part[0] for part in parts), min(part[1] for part in parts)
    right, high = max(part[2] for part in parts), max(part[3] for part in parts)
    per_metre = min(size[0] / (right - left), size[1] / (high - low))

    def place(point: Pt) -> Pt:
        return (at[0] + (point[0] - left) * per_metre, at[1] + (point[1] - low) * per_metre)

    items: list[Item] = []
    boxes = [
        rectangle(*place(part[:2]), (part[2] - part[0]) * per_metre, (part[3] - part[1]) * per_metre) for part in parts
    ]
    items.append(Fill((boxes[this],), LAYER, pattern="diagonal"))
    items += [Stroke(tuple(map(place, outline(area))), LAYER, weight="medium", closed=True) for area in areas]
    items += [Stroke(box, LAYER, line="phantom", weight="hair", closed=True) for box in boxes]
    for number, box in enumerate(boxes, start=1):
        middle = ((box[0][0] + box[2][0]) / 2, (box[0][1] + box[2][1]) / 2)
        items.append(Text(middle, str(number), 2.0, LAYER, across="middle", up="middle", backed=True))
    return tuple(items)


def match_lines(board: Board, parts: Sequence[Window], this: int) -> tuple[Item, ...]:
    """The sides at which the roof goes on, dash-dot-dot, each with the number of the part beyond.

    Labels keep off the lines.
    """
    left, low, right, high = board.box
    window = parts[this]
    items: list[Item] = []
    sides = (
        (((left, low), (left, high)), (-1, 0), 90.0, (left - 2.4, (low + high) / 2)),
        (((right, low), (right, high)), (1, 0), 90.0, (right + 2.4, (low + high) / 2)),
        (((left, low), (right, low)), (0, -1), 0.0, ((left + right) / 2, low - 2.4)),
        (((left, high), (right, high)), (0, 1), 0.0, ((left + right) / 2, high + 2.4)),
    )
    for line, step, turn, at in sides:
        beyond = neighbour(parts, window, step)
        if beyond is not None:
            board.field.take(line_box(*line, 0.3))
            items.append(Stroke(line, LAYER, line="phantom", weight="medium"))
            items.append(Text(at, f"goes on in part {beyond + 1}", 2.0, LAYER, turn, "middle", "middle", backed=True))
    return tuple(items)


def neighbour(parts: Sequence[Window], window: Window, step: tuple[int, int]) -> int | None:
    """The part that lies beside a window in a direction."""
    wide, tall = window[2] - window[0], window[3] - window[1]
    x, y = (window[0] + window[2]) / 2 + step[0] * wide, (window[1] + window[3]) / 2 + step[1] * tall
    return next((k for k, part in enumerate(parts) if part[0] < x < part[2] and part[1] < y < part[3]), None)
