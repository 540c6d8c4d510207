"""The whole layout as one model drawing [m], for DXF: every ply on layers of its own, with its numbers.

Lettering and marks are sized for the scale of `PLOT`; all else is to scale.
"""

from __future__ import annotations

from collections.abc import Sequence
from textwrap import wrap

from lapwright.layout.values import PlyLayout
from lapwright.packet.drawing import Item, Stroke, Text, View, rectangle
from lapwright.packet.sheets.board import MARGIN, Board, Place
from lapwright.packet.sheets.labels import label_box
from lapwright.packet.sheets.model import TICKS, blank_items, joint_items, lap_items, ply_prefix, roof_items
from lapwright.packet.sheets.naming import (
    block_marks,
    fall_arrows,
    name_areas,
    name_edges,
    name_edges_inside,
    name_openings,
)
from lapwright.packet.sheets.numbering import Numbers, block_laps, lead, name_courses, name_pieces
from lapwright.packet.sheets.parts import needed_scale, roof_window
from lapwright.packet.sheets.plan import LETTER
from lapwright.packet.sheets.scales import Scale
from lapwright.packet.sheets.showing import Showing
from lapwright.packet.values import Paper
from lapwright.units.write import Units

# A drawing on a screen can be enlarged: better small numbers than none [mm].
SMALLEST = 1.1
# The list of what found no room: how far under the roof it begins [mm], its rows in heights of a letter, its letters.
LIST_BELOW, LIST_ROW, LIST_LETTERS = 22.0, 1.7, 110


def plot_scale(paper: Paper) -> Scale:
    """The scale at which every course can be read."""
    pitch = min((ply.sheet.pitch_ticks for ply in paper.assembly.plies), default=TICKS) / TICKS
    return needed_scale(paper.head.units, pitch)


def layout_drawing(paper: Paper) -> tuple[Item, ...]:
    """Roof, openings, plies, laps, details and days, in metres of the job's plan coordinates."""
    mm = plot_scale(paper).ratio / 1000
    items: list[Item] = []
    for area in paper.areas:
        items += roof_items(area, mm)
    roof, showing = lettered_roof(paper), Showing(paper.layout, paper.areas)
    items += to_model(roof)
    left_out = [("Roof", "TEXT", roof.unplaced)]
    for ply in paper.assembly.plies:
        layers = [layer for layer in paper.layout.plies if layer.ply == ply.ply]
        for layer in layers:
            items += blank_items(paper.layout, layer)
            items += ply_items(showing, layer, mm)
        lettered = lettered_ply(paper, ply.ply, roof, showing)
        items += to_model(lettered)
        left_out.append((f"{ply.ply} ply", f"{ply_prefix(ply.ply)}-TEXT", lettered.unplaced))
    items += unplaced_items(paper, left_out, mm)
    items += detail_items(paper)
    for day in paper.days:
        items += [
            Stroke(line, "DAY-TIE-OFF", line="phantom", weight="heavy", name=f"day {day.number}")
            for line in day.tie_off
        ]
    return tuple(items)


def ply_items(showing: Showing, ply: PlyLayout, mm: float) -> list[Item]:
    """What shows of a ply of one area from above: laps, corner cuts and T-joints."""
    key = (ply.area, ply.ply)
    layout = showing.layout
    joints = [joint for joint in layout.tjoints if (joint.area, joint.ply) == key]
    items = lap_items(showing.laps(lap for lap in layout.laps if (lap.area, lap.ply) == key))
    return [*items, *joint_items(layout.frames, ply.pieces, joints, mm)]


def unplaced_items(paper: Paper, left_out: Sequence[tuple[str, str, Sequence[str]]], mm: float) -> list[Item]:
    """What found no room on the drawing, listed under the roof on the layer that it belongs to.

    left_out: what it belongs to, the layer, the words.  mm: a millimetre of paper in metres.
    """
    left, low, _, _ = roof_window(paper.areas)
    items: list[Item] = []
    row = low - LIST_BELOW * mm
    for what, layer, words in left_out:
        if not words:
            continue
        for line in wrap(f"{what}, without room on the drawing: {', '.join(dict.fromkeys(words))}.", LIST_LETTERS):
            items.append(Text((left, row), line, LETTER * mm, layer))
            row -= LIST_ROW * LETTER * mm
    return items


def detail_items(paper: Paper) -> list[Item]:
    """Where details stand: along their lines, or as squares about their places."""
    items: list[Item] = []
    for detail in paper.layout.details:
        layer = f"DETAILS-{detail.kind}"
        if detail.line is not None:
            items.append(Stroke(detail.line, layer, line="hidden", weight="thin", name=detail.id))
        elif detail.at is not None and detail.length * detail.width > 0.0:
            (x, y), w, h = detail.at, detail.width, detail.length
            items.append(
                Stroke(rectangle(x - w / 2, y - h / 2, w, h), layer, line="hidden", closed=True, name=detail.id)
            )
    return items


def lettering_board(paper: Paper) -> Board:
    """A sheet large enough for the whole roof at the plot scale."""
    scale, window = plot_scale(paper), roof_window(paper.areas)
    width = (window[2] - window[0]) * scale.per_metre + 4 * MARGIN
    height = (window[3] - window[1]) * scale.per_metre + 4 * MARGIN
    return Board(width, height, Place(0.0, 0.0, width, height, False), window, scale, paper.head.units, LETTER)


def to_model(board: Board) -> list[Item]:
    """The labels written so far, taken back to the model."""
    back = View(board.mm, board.view.at, board.view.origin)
    return list(back.items(board.marks))


def lettered_roof(paper: Paper) -> Board:
    """A sheet with the names of edges, openings and areas, and the falls."""
    board, units = lettering_board(paper), Units(paper.head.units)
    block_marks(board, paper.areas)
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    name_openings(board, paper.areas)
    name_edges_inside(board, name_edges(board, paper.areas, units), units)
    return board


def lettered_ply(paper: Paper, ply: str, roof: Board, showing: Showing) -> Board:
    """Numbers of the courses and pieces of one ply, clear of the names of the roof."""
    board, layout = lettering_board(paper), paper.layout
    board.smallest = SMALLEST
    numbers = Numbers(layer=f"{ply_prefix(ply)}-TEXT")
    for item in roof.marks:
        if isinstance(item, Text):
            board.field.take(label_box(item), label=True)
    block_marks(board, paper.areas)
    block_laps(board, [lap for lap in layout.laps if lap.ply == ply], [one for one in layout.tjoints if one.ply == ply])
    for one in layout.plies:
        if one.ply == ply:
            name_courses(board, showing, one.pieces, layer=numbers.layer)
            left_out = name_pieces(board, showing, one.pieces, numbers=numbers)
            lead(board, showing, one.pieces, left_out, numbers)
    return board
