"""Plan sheets: one ply a sheet, with its courses, numbered pieces, end laps and T-joints.

Where lettering of 1.8 mm no longer fits a course, the sheet is followed by enlarged parts of it.
"""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.layout.values import PlyLayout
from lapwright.packet.drawing import Plate, Stroke, Text
from lapwright.packet.sheets.board import COLUMN, SMALLEST, Board, Window, make_board, windows_of
from lapwright.packet.sheets.labels import label_box
from lapwright.packet.sheets.legend import Entry, edge_entry, line_entry, mark_entry, ring_entry, text_entry
from lapwright.packet.sheets.marks import mark_entries
from lapwright.packet.sheets.model import TICKS, TJOINT, outline, ply_items, roof_items
from lapwright.packet.sheets.naming import (
    block_marks,
    fall_arrows,
    name_areas,
    name_edges,
    name_edges_inside,
    name_openings,
)
from lapwright.packet.sheets.numbering import PLAIN, block_laps, lead, name_courses, name_pieces
from lapwright.packet.sheets.parts import match_lines, needed_scale, small_key, tiles
from lapwright.packet.values import Paper
from lapwright.roof.values import Area
from lapwright.units.write import Units

LETTER = 2.1
MOST_COUNTS = 3
KEY = 30.0  # height of the small key of an enlarged part [mm]
CROWDED = 2.5  # T-joints and corner cuts are left out where a course is lower than this [mm]


def roof_window(areas: Sequence[Area]) -> Window:
    """The bounds of all areas [m]."""
    return windows_of(point for area in areas for point in outline(area))


def plan_sheets(paper: Paper, ply: str, *, width: float, height: float) -> tuple[Plate, ...]:
    """One ply on as many sheets as it takes to read every course: the whole roof, then enlarged parts if needed."""
    whole = plan_sheet(paper, ply, width=width, height=height)
    shown = [layer for layer in paper.layout.plies if layer.ply == ply]
    window = roof_window(paper.areas)
    pitch = min((paper.sheets[layer.sheet].pitch_ticks for layer in shown), default=0) / TICKS
    board = make_board(window, paper.head.units, width=width, height=height, letter=LETTER)
    if not shown or pitch * board.scale.per_metre >= SMALLEST * 1.25:
        return (whole,)
    scale = needed_scale(paper.head.units, pitch)
    windows = tiles(paper.areas, window, scale, width=width, height=height)
    parts = [
        part_sheet(
            paper,
            shown,
            make_board(tile, paper.head.units, width=width, height=height, letter=LETTER, cropped_at=scale),
            (windows, k),
        )
        for k, tile in enumerate(windows)
    ]
    return (whole, *parts)


def plan_sheet(paper: Paper, ply: str | None, *, width: float, height: float) -> Plate:
    """The roof with one ply, or with none: everything on one sheet of `width` by `height` [mm]."""
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    shown = [layer for layer in paper.layout.plies if layer.ply == ply]
    missing = draw_plan(board, paper, shown)
    words = head_words(ply, shown)
    return board.plate(words[0], words, entries_of(paper, shown, board.scale.per_metre, numbers_missing=missing > 0))


def part_sheet(paper: Paper, shown: Sequence[PlyLayout], board: Board, part: tuple[Sequence[Window], int]) -> Plate:
    """One enlarged part, with match lines and a key."""
    windows, this = part
    for item in match_lines(board, windows, this):
        board.marks.append(item)
        if isinstance(item, Text):
            board.field.take(label_box(item), label=True)
    missing = draw_plan(board, paper, shown)
    board.foot = KEY + 3.0
    board.marks += small_key(paper.areas, windows, this, (board.width - COLUMN, 0.0), (COLUMN, KEY))
    words = head_words(shown[0].ply, shown)
    words[0] = f"{words[0]}, part {this + 1} of {len(windows)}"
    return board.plate(words[0], words, entries_of(paper, shown, board.scale.per_metre, numbers_missing=missing > 0))


def draw_plan(board: Board, paper: Paper, shown: Sequence[PlyLayout]) -> int:
    """Plies, then the roof over them, then labels; returns how many pieces are left without a number."""
    for layer in shown:
        is_small = paper.sheets[layer.sheet].pitch_ticks / TICKS * board.scale.per_metre < CROWDED
        board.draw(ply_items(paper.layout, layer, board.mm, joints=not is_small))
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    return write_labels(board, paper, shown, Units(paper.head.units))


def write_labels(board: Board, paper: Paper, shown: Sequence[PlyLayout], units: Units) -> int:
    """All labels, the most needed first; returns how many pieces are left without a number."""
    keys = {(layer.area, layer.ply) for layer in shown}
    layout, areas = paper.layout, {area.name: area for area in paper.areas}
    block_marks(board, paper.areas)
    block_laps(
        board,
        [lap for lap in layout.laps if (lap.area, lap.ply) in keys],
        [joint for joint in layout.tjoints if (joint.area, joint.ply) in keys],
    )
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    for layer in shown:
        name_courses(board, layout, areas[layer.area], layer)
    name_openings(board, paper.areas)
    unnamed = name_edges(board, paper.areas, units)
    pieces = [piece for layer in shown for piece in layer.pieces]
    left_out = name_pieces(board, layout, paper.areas, pieces)
    missing = lead(board, layout, paper.areas, pieces, left_out, PLAIN)
    name_edges_inside(board, unnamed, units)
    return missing


def head_words(ply: str | None, shown: Sequence[PlyLayout]) -> list[str]:
    """The head of a sheet: the ply, its sheet and the counts by area."""
    if ply is None or not shown:
        return ["Roof plan"]
    sheets = list(dict.fromkeys(layer.sheet for layer in shown))
    counts = [f"{layer.area}: {len(layer.courses)} courses, {len(layer.pieces)} pieces" for layer in shown]
    if len(counts) > MOST_COUNTS:
        pieces = sum(len(layer.pieces) for layer in shown)
        counts = [f"{len(counts)} areas, {pieces} pieces"]
    return [f"{ply[:1].upper()}{ply[1:]} ply", f"sheet {', '.join(sheets)}", *counts]


def entries_of(paper: Paper, shown: Sequence[PlyLayout], per_metre: float, *, numbers_missing: bool) -> list[Entry]:
    """The legend: only what is on the sheet."""
    entries: list[Entry] = []
    if shown:
        pitch = min(paper.sheets[layer.sheet].pitch_ticks for layer in shown) / TICKS
        joints = pitch * per_metre >= CROWDED
        entries += ply_entries(shown, numbers_missing=numbers_missing, joints=joints)
    kinds = dict.fromkeys(edge.kind for area in paper.areas for edge in area.edges)
    entries += [edge_entry(kind) for kind in kinds]
    entries += mark_entries(paper.areas)
    return entries


def ply_entries(shown: Sequence[PlyLayout], *, numbers_missing: bool, joints: bool) -> list[Entry]:
    """What is drawn of a ply."""
    entries = [
        text_entry("piece, numbered in laying order" + (" where it fits" if numbers_missing else ""), "12"),
        text_entry("course, counted from the low edge", "C5"),
        line_entry("side lap: low edge of the upper sheet"),
        line_entry("end lap: where the later piece begins", weight="heavy"),
    ]
    if not joints:
        return entries
    entries.append(ring_entry("T-joint", TJOINT))
    if any(piece.corner_cuts for layer in shown for piece in layer.pieces):
        corner = (
            Stroke(((-3.5, -1.4), (3.5, -1.4), (3.5, 0.2)), "SHEET"),
            Stroke(((1.2, 1.4), (-3.5, 1.4)), "SHEET"),
            Stroke(((1.2, 1.4), (3.5, 0.2)), "SHEET", weight="medium"),
        )
        entries.append(mark_entry("corner cut, drawn to scale", corner))
    return entries
