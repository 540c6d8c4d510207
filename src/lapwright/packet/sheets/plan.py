"""Plan sheets: one ply a sheet, with its courses, numbered pieces, end laps and T-joints.

Where lettering of 1.8 mm no longer fits a course, the sheet only shows the whole and is followed by enlarged parts.
"""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.layout.values import PlyLayout
from lapwright.packet.drawing import Plate, Stroke
from lapwright.packet.sheets.board import Board, make_board
from lapwright.packet.sheets.legend import Entry, edge_entry, line_entry, mark_entry, ring_entry, text_entry
from lapwright.packet.sheets.marks import mark_entries
from lapwright.packet.sheets.model import TICKS, TJOINT, clear_outside, joint_items, lap_items, roof_items
from lapwright.packet.sheets.naming import (
    block_marks,
    fall_arrows,
    name_areas,
    name_edges,
    name_edges_inside,
    name_openings,
)
from lapwright.packet.sheets.numbering import PLAIN, block_laps, lead, name_courses, name_pieces
from lapwright.packet.sheets.parts import Split, part_boards, part_marks, roof_window, split_roof
from lapwright.packet.sheets.portion import Portion, portions, whole
from lapwright.packet.sheets.showing import Showing
from lapwright.packet.values import Paper
from lapwright.units.write import Units

LETTER = 2.1
MOST_COUNTS = 3
CROWDED = 2.5  # T-joints and corner cuts are left out where a course is lower than this [mm]
LAPS = (
    line_entry("side lap: low edge of the upper sheet"),
    line_entry("end lap: where the later piece begins", weight="heavy"),
)
PART = line_entry("part, enlarged on a sheet of its own", line="phantom", weight="heavy")
EVERY = 10  # of the courses of a roof in parts, the sheet of the whole names one in so many


def plan_sheets(paper: Paper, ply: str, *, width: float, height: float) -> tuple[Plate, ...]:
    """One ply on as many sheets as it takes to read every course: the whole roof, then enlarged parts if needed."""
    shown = [layer for layer in paper.layout.plies if layer.ply == ply]
    split = split_roof(paper, width=width, height=height)
    if split is None or not shown:
        return (plan_sheet(paper, ply, width=width, height=height),)
    showing = Showing(paper.layout, paper.areas)
    boards = part_boards(paper, split, width=width, height=height, letter=LETTER)
    found = portions(showing, shown, split.tiles, split.windows)
    parts = [finished(board, paper, shown, portion) for board, portion in zip(boards, found, strict=True)]
    return (overview(paper, shown, split, width=width, height=height), *parts)


def plan_sheet(paper: Paper, ply: str | None, *, width: float, height: float) -> Plate:
    """The roof with one ply, or with none: everything on one sheet of `width` by `height` [mm]."""
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    shown = [layer for layer in paper.layout.plies if layer.ply == ply]
    return finished(board, paper, shown, whole(Showing(paper.layout, paper.areas), shown))


def finished(board: Board, paper: Paper, shown: Sequence[PlyLayout], portion: Portion) -> Plate:
    """A sheet with everything on it."""
    draw_plan(board, paper, shown, portion)
    missing = write_labels(board, paper, shown, portion)
    joints = not is_crowded(paper, shown, board.scale.per_metre)
    entries = numbered_entries(shown, numbers_missing=missing > 0, joints=joints)
    return board.plate(*head_words(shown), entries_of(paper, entries))


def overview(paper: Paper, shown: Sequence[PlyLayout], split: Split, *, width: float, height: float) -> Plate:
    """The whole of a roof that is shown in parts: laps, every tenth course, and where each part lies."""
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    portion, units = whole(Showing(paper.layout, paper.areas), shown), Units(paper.head.units)
    draw_plan(board, paper, shown, portion)
    block_marks(board, paper.areas)
    part_marks(board, split)
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    unnamed = name_edges(board, paper.areas, units)
    write_courses(board, shown, portion, every=EVERY)
    name_openings(board, paper.areas)
    name_edges_inside(board, unnamed, units)
    title, words = head_words(shown)
    words.append(f"enlarged on {len(split.tiles)} sheets")
    course = text_entry(f"course, counted from the low edge; one in {EVERY}", f"C{EVERY}")
    return board.plate(title, words, entries_of(paper, [course, *LAPS, PART]))


def draw_plan(board: Board, paper: Paper, shown: Sequence[PlyLayout], portion: Portion) -> None:
    """Plies, then the roof over them."""
    board.draw(lap_items(portion.laps))
    if not is_crowded(paper, shown, board.scale.per_metre):
        board.draw(joint_items(paper.layout.frames, portion.pieces, portion.joints, board.mm))
    low, high = board.model(board.box[:2]), board.model(board.box[2:])
    board.draw([clear_outside(paper.areas, (*low, *high))])
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))


def is_crowded(paper: Paper, shown: Sequence[PlyLayout], per_metre: float) -> bool:
    """Courses are too low on the paper for T-joints and corner cuts."""
    pitch = min((paper.sheets[layer.sheet].pitch_ticks for layer in shown), default=0) / TICKS
    return pitch * per_metre < CROWDED


def write_labels(board: Board, paper: Paper, shown: Sequence[PlyLayout], portion: Portion) -> int:
    """All labels, the most needed first; returns how many pieces are left without a number."""
    units = Units(paper.head.units)
    block_marks(board, paper.areas)
    block_laps(board, portion.laps, portion.joints)
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    write_courses(board, shown, portion)
    name_openings(board, paper.areas)
    unnamed = name_edges(board, paper.areas, units)
    left_out = name_pieces(board, portion.showing, portion.numbered)
    missing = lead(board, portion.showing, portion.numbered, left_out, PLAIN)
    name_edges_inside(board, unnamed, units)
    return missing


def write_courses(board: Board, shown: Sequence[PlyLayout], portion: Portion, *, every: int = 1) -> None:
    """The courses' names, area by area."""
    for layer in shown:
        pieces = [piece for piece in portion.pieces if (piece.area, piece.ply) == (layer.area, layer.ply)]
        name_courses(board, portion.showing, pieces, every=every)


def head_words(shown: Sequence[PlyLayout]) -> tuple[str, list[str]]:
    """The title of a sheet and the lines under it: the ply, its sheet and the counts by area."""
    if not shown:
        return ("Roof plan", [])
    ply = shown[0].ply
    sheets = list(dict.fromkeys(layer.sheet for layer in shown))
    counts = [f"{layer.area}: {len(layer.courses)} courses, {len(layer.pieces)} pieces" for layer in shown]
    if len(counts) > MOST_COUNTS:
        pieces = sum(len(layer.pieces) for layer in shown)
        counts = [f"{len(counts)} areas, {pieces} pieces"]
    return (f"{ply[:1].upper()}{ply[1:]} ply", [f"sheet {', '.join(sheets)}", *counts])


def entries_of(paper: Paper, first: Sequence[Entry]) -> list[Entry]:
    """The legend: only what is on the sheet, the plies first."""
    kinds = dict.fromkeys(edge.kind for area in paper.areas for edge in area.edges)
    return [*first, *map(edge_entry, kinds), *mark_entries(paper.areas)]


def numbered_entries(shown: Sequence[PlyLayout], *, numbers_missing: bool, joints: bool) -> list[Entry]:
    """What is drawn of a ply whose pieces are numbered."""
    if not shown:
        return []
    entries = [
        text_entry("piece, numbered in laying order" + (" where it fits" if numbers_missing else ""), "12"),
        text_entry("course, counted from the low edge", "C5"),
        *LAPS,
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
