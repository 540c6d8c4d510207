"""Sheets that show the roof as a whole: plies over each other, and the key to sides, openings and details."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from lapwright.layout.values import PlyLayout
from lapwright.packet.drawing import Item, Line, Plate, Pt, Ring, Stroke, Text, Weight
from lapwright.packet.sheets.board import Board, make_board
from lapwright.packet.sheets.edges import outward, turning
from lapwright.packet.sheets.labels import line_box
from lapwright.packet.sheets.legend import Entry, edge_entry, line_entry, mark_entry
from lapwright.packet.sheets.marks import mark_entries
from lapwright.packet.sheets.model import clear_outside, drain_place, lap_items, metres, roof_items
from lapwright.packet.sheets.naming import (
    block_marks,
    fall_arrows,
    name_areas,
    name_edges,
    name_edges_inside,
    name_openings,
)
from lapwright.packet.sheets.parts import Split, part_boards, part_marks, roof_window, split_roof
from lapwright.packet.sheets.plan import LETTER, PART
from lapwright.packet.sheets.portion import Portion, portions, whole
from lapwright.packet.sheets.showing import Showing
from lapwright.packet.values import Paper
from lapwright.roof.values import Area
from lapwright.units.write import Units

# How the laps of each ply are drawn, from the bottom: the deeper, the more broken; those of the top ply full.
# Dash-dot lines are too long for the end laps of one course.
LOOKS: tuple[tuple[Line, Weight], ...] = (("dotted", "medium"), ("hidden", "thin"))
TOP: tuple[Line, Weight] = ("solid", "medium")
BUBBLE = 2.6


def stacked_sheets(paper: Paper, *, width: float, height: float) -> tuple[Plate, ...]:
    """The laps of all plies over each other, to see how they break joint: the whole roof, then its parts if needed."""
    split = split_roof(paper, width=width, height=height)
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    showing = Showing(paper.layout, paper.areas)
    everything = whole(showing, paper.layout.plies)
    if split is None:
        return (stacked(board, paper, everything),)
    first = stacked(board, paper, everything, split)
    boards = part_boards(paper, split, width=width, height=height, letter=LETTER)
    found = portions(showing, paper.layout.plies, split.tiles, split.windows)
    parts = [stacked(board, paper, portion) for board, portion in zip(boards, found, strict=True)]
    return (first, *parts)


def stacked(board: Board, paper: Paper, portion: Portion, split: Split | None = None) -> Plate:
    """One sheet of all plies; on that of the whole roof `split` says which parts follow."""
    units = Units(paper.head.units)
    looks = ply_looks(paper)
    for ply, (line, weight) in looks.items():
        laps = [lap for lap in portion.laps if lap.ply == ply]
        board.draw(replace(item, line=line, weight=weight) for item in lap_items(laps) if isinstance(item, Stroke))
    low, high = board.model(board.box[:2]), board.model(board.box[2:])
    board.draw([clear_outside(paper.areas, (*low, *high))])
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    block_marks(board, paper.areas)
    if split is not None:
        part_marks(board, split)
    name_roof(board, paper, units)
    entries = [line_entry(f"laps of the {ply}", line=line, weight=weight) for ply, (line, weight) in looks.items()]
    entries += [*([PART] if split else []), *edge_entries(paper.areas), *mark_entries(paper.areas)]
    said = [f"enlarged on {len(split.tiles)} sheets"] if split else []
    return board.plate("All plies", [*offset_words(paper.layout.plies, units), *said], entries)


def name_roof(board: Board, paper: Paper, units: Units) -> None:
    """The labels of the roof itself, clear of its marks."""
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    name_openings(board, paper.areas)
    name_edges_inside(board, name_edges(board, paper.areas, units), units)


def ply_looks(paper: Paper) -> dict[str, tuple[Line, Weight]]:
    """Line type and weight by ply, bottom first."""
    plies = [ply.ply for ply in paper.assembly.plies]
    return {ply: TOP if k == len(plies) - 1 else LOOKS[min(k, len(LOOKS) - 1)] for k, ply in enumerate(plies)}


def offset_words(plies: Sequence[PlyLayout], units: Units) -> list[str]:
    """The least distance between side laps of neighbouring plies, by area."""
    least: dict[str, int] = {}
    for ply in plies:
        if ply.offset_least is not None:
            least[ply.area] = min(least.get(ply.area, ply.offset_least), ply.offset_least)
    return [f"{area}: laps {units.width(ticks)} apart" for area, ticks in least.items()][:3]


def edge_entries(areas: Sequence[Area]) -> list[Entry]:
    """The legend of the edge kinds in use."""
    return [edge_entry(kind) for kind in dict.fromkeys(edge.kind for area in areas for edge in area.edges)]


def key_plan(paper: Paper, *, width: float, height: float, details: Mapping[tuple[str, str], str]) -> Plate:
    """Sides, openings and pipes with the number of the detail that shows each.

    Args:
        details: detail number by (area, of), `of` being "side 2" or an opening's or pipe's name.
    """
    units = Units(paper.head.units)
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    block_marks(board, paper.areas)
    for area in paper.areas:
        mark_details(board, area, details)
    name_roof(board, paper, units)
    entries = [mark_entry("number of the detail that shows it", bubble((0.0, 0.0), "3"))] if details else []
    entries += [*edge_entries(paper.areas), *mark_entries(paper.areas)]
    return board.plate("Key plan", [], entries)


def mark_details(board: Board, area: Area, details: Mapping[tuple[str, str], str]) -> None:
    """A numbered ring inside each side and beside each opening and pipe that has a detail."""
    sense = turning(area)
    for edge in area.edges:
        number = details.get((area.name, f"side {edge.side}"))
        part = board.shown(metres(edge.start), metres(edge.end))
        if number and part and math.dist(*part) > 2 * BUBBLE:
            out = outward(edge.start, edge.end, sense)
            spots = [inside(part, share, out) for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)]
            place_bubble(board, spots, number)
    for opening in area.openings:
        corners = [board.view.point(metres(corner)) for corner in opening.outline]
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        place_bubble(board, beside((min(xs), min(ys)), (max(xs), max(ys))), details.get((area.name, opening.name), ""))
    for drain in area.drains:
        place = drain_place(area, drain)
        if place is not None:
            x, y = board.view.point(place)
            number = details.get((area.name, drain.name), "")
            place_bubble(board, beside((x - 2.0, y - 2.0), (x + 2.0, y + 2.0)), number)
    for pipe in area.pipes:
        x, y = board.view.point(metres(pipe.at))
        place_bubble(board, beside((x - 1.0, y - 1.0), (x + 1.0, y + 1.0)), details.get((area.name, pipe.name), ""))


def inside(part: tuple[Pt, Pt], share: float, out: Pt) -> Pt:
    """A point inside a side, a ring's width from it."""
    (x0, y0), (x1, y1) = part
    gap = BUBBLE + 1.6
    return (x0 + (x1 - x0) * share - out[0] * gap, y0 + (y1 - y0) * share - out[1] * gap)


def beside(low: Pt, high: Pt) -> list[Pt]:
    """Places for a ring about an upright box."""
    x, y = (low[0] + high[0]) / 2, (low[1] + high[1]) / 2
    gap = BUBBLE + 0.8
    return [(x, high[1] + gap), (x, low[1] - gap), (low[0] - gap, y), (high[0] + gap, y)]


def place_bubble(board: Board, spots: Sequence[Pt], number: str) -> None:
    """The ring at its first free place."""
    for at in spots if number else ():
        box = line_box((at[0] - BUBBLE, at[1]), (at[0] + BUBBLE, at[1]), BUBBLE)
        if board.field.is_free(box):
            board.field.take(box, label=True)
            board.marks += bubble(at, number)
            return


def bubble(at: Pt, number: str) -> tuple[Item, ...]:
    """A number in a ring."""
    size = 2.1 if len(number) < 2 else 1.8
    return (
        Ring(at, BUBBLE, "SHEET", weight="medium", filled="paper", ink="accent"),
        Text(at, number, size, "SHEET", across="middle", up="middle"),
    )
