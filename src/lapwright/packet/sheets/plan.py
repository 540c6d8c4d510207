"""Plan sheets: one ply a sheet, with its courses, numbered pieces, end laps and T-joints.

Where lettering of 1.8 mm no longer fits a course, the sheet is followed by enlarged parts of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from lapwright.layout.values import PlyLayout
from lapwright.packet.drawing import Plate, Stroke, moved
from lapwright.packet.sheets.board import Board, Window, make_board, windows_of
from lapwright.packet.sheets.legend import Entry, edge_entry, line_entry, mark_entry, ring_entry, text_entry
from lapwright.packet.sheets.model import TICKS, TJOINT, drain_items, opening_items, outline, ply_items, roof_items
from lapwright.packet.sheets.naming import (
    DRAIN_WORDS,
    block_laps,
    block_marks,
    fall_arrows,
    name_areas,
    name_courses,
    name_edges,
    name_openings,
    name_pieces,
)
from lapwright.packet.values import Paper
from lapwright.roof.values import Area, Drain, Opening
from lapwright.units.write import Units

LETTER = 2.1
MOST_COUNTS = 3


def roof_window(areas: Sequence[Area]) -> Window:
    """The bounds of all areas [m]."""
    return windows_of(point for area in areas for point in outline(area))


def plan_sheet(paper: Paper, ply: str | None, *, width: float, height: float) -> Plate:
    """The roof with one ply, or with none: everything on one sheet of `width` by `height` [mm]."""
    units = Units(paper.head.units)
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    shown = [layer for layer in paper.layout.plies if layer.ply == ply]
    for area in paper.areas:
        if not shown:
            board.draw(roof_items(area, board.mm))
    for layer in shown:
        board.draw(ply_items(paper.layout, layer, board.mm))
    if shown:
        for area in paper.areas:
            board.draw(roof_items(area, board.mm))
    missing = write_labels(board, paper, shown, units)
    words = head_words(ply, shown)
    return board.plate(words[0], words, entries_of(paper, shown, numbers_missing=missing > 0))


def write_labels(board: Board, paper: Paper, shown: Sequence[PlyLayout], units: Units) -> int:
    """All labels, the most needed first; returns how many pieces are left without a number."""
    keys = {(layer.area, layer.ply) for layer in shown}
    block_marks(board, paper.areas)
    block_laps(
        board,
        [lap for lap in paper.layout.laps if (lap.area, lap.ply) in keys],
        [joint for joint in paper.layout.tjoints if (joint.area, joint.ply) in keys],
    )
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    for layer in shown:
        name_courses(board, paper.layout, layer)
    name_openings(board, paper.areas, units)
    name_edges(board, paper.areas, units)
    return sum(name_pieces(board, paper.layout, paper.areas, layer.pieces) for layer in shown)


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


def entries_of(paper: Paper, shown: Sequence[PlyLayout], *, numbers_missing: bool) -> list[Entry]:
    """The legend: only what is on the sheet."""
    entries: list[Entry] = []
    if shown:
        entries += ply_entries(shown, numbers_missing=numbers_missing)
    kinds = dict.fromkeys(edge.kind for area in paper.areas for edge in area.edges)
    entries += [edge_entry(kind) for kind in kinds]
    entries += mark_entries(paper.areas)
    return entries


def ply_entries(shown: Sequence[PlyLayout], *, numbers_missing: bool) -> list[Entry]:
    """What is drawn of a ply."""
    entries = [
        text_entry("piece, numbered in laying order" + (" where it fits" if numbers_missing else ""), "12"),
        text_entry("course, counted from the low edge", "C5"),
        line_entry("side lap: low edge of the upper sheet"),
        line_entry("end lap: where the later piece begins", weight="heavy"),
        ring_entry("T-joint", TJOINT),
    ]
    if any(piece.corner_cuts for layer in shown for piece in layer.pieces):
        corner = (
            Stroke(((-3.5, -1.4), (3.5, -1.4), (3.5, 0.2)), "SHEET"),
            Stroke(((1.2, 1.4), (-3.5, 1.4)), "SHEET"),
            Stroke(((1.2, 1.4), (3.5, 0.2)), "SHEET", weight="medium"),
        )
        entries.append(mark_entry("corner cut at 45°, drawn to scale", corner))
    return entries


def mark_entries(areas: Iterable[Area]) -> list[Entry]:
    """Openings, pipes and drains by kind."""
    entries: list[Entry] = []
    openings: dict[str, Opening] = {}
    drains: dict[str, tuple[Area, Drain]] = {}
    pipes = False
    for area in areas:
        pipes = pipes or bool(area.pipes)
        for opening in area.openings:
            openings.setdefault(opening.kind, opening)
        for drain in area.drains:
            drains.setdefault(drain.kind, (area, drain))
    for kinds in (("curb", "hatch"), ("skylight",), ("shaft",)):
        used = [kind for kind in kinds if kind in openings]
        if used:
            size = (round(7.0 * TICKS), round(3.2 * TICKS))
            sample = Opening("", used[0], (-size[0] // 2, -size[1] // 2), size)
            entries.append(mark_entry(" or ".join(used), opening_items(sample)))
    if pipes:
        from lapwright.packet.sheets.model import pipe_items
        from lapwright.roof.values import Pipe

        entries.append(mark_entry("pipe", pipe_items(Pipe("", (0, 0), 1), 1.0)))
    return [*entries, *map(drain_entry, drains)]


def drain_entry(kind: str) -> Entry:
    """The mark of a drain beside its word."""
    from lapwright.roof.values import Edge

    edge = Edge(1, None, (-4 * TICKS, 0), (4 * TICKS, 0))
    corners = ((-4 * TICKS, 0), (4 * TICKS, 0), (0, 4 * TICKS))
    sample = Area("", corners, (edge,), (0.0, -1.0), 0.0)
    at = None if kind in ("scupper", "overflow_scupper", "gutter") else (0, 0)
    drain = Drain("", kind, at=at, side=1, from_start=4.0)
    items = moved(drain_items(sample, drain, 1.0), 0.0, 1.8 if kind == "gutter" else 0.0)
    return mark_entry(DRAIN_WORDS.get(kind, kind), items)
