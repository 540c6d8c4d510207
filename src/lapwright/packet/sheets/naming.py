"""The labels of a plan: edges, openings, drains, courses, pieces and the way water runs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from lapwright.geometry.polygon import place_of
from lapwright.layout.values import Lap, Layout, Piece, PlyLayout, TJoint
from lapwright.packet.drawing import Fill, Pt, Stroke, Text
from lapwright.packet.lettering import text_width
from lapwright.packet.sheets.board import Board
from lapwright.packet.sheets.edges import WORDS, outward, turning
from lapwright.packet.sheets.labels import Lettering, Side, Spot, around, label_box, led, line_box, upright
from lapwright.packet.sheets.model import TICKS, TJOINT, drain_place, metres
from lapwright.roof.values import Area, Drain, Edge
from lapwright.units.write import Units

ARROW = 15.0
EDGE_GAPS = (3.4, 5.4, 7.6, 9.6, 11.6)  # beyond the edge's own lines; the further ones clear course numbers [mm]
ALONG = (0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86)
MOST_LEADERS = 12
DRAIN_WORDS = {
    "drain": "drain",
    "scupper": "scupper",
    "overflow_drain": "overflow drain",
    "overflow_scupper": "overflow scupper",
    "gutter": "gutter",
}


def is_inside(areas: Iterable[Area], point: Pt) -> bool:
    """A plan point [m] lies within one of the areas."""
    ticks = (round(point[0] * TICKS), round(point[1] * TICKS))
    return any(place_of(area.outline, ticks) > 0 for area in areas)


def block_marks(board: Board, areas: Sequence[Area]) -> None:
    """Openings, pipes and drains keep their paper free of labels."""
    for area in areas:
        for opening in area.openings:
            board.field.take(tuple(board.view.point(metres(corner)) for corner in opening.outline))
        places = [(metres(pipe.at), 1.7) for pipe in area.pipes]
        for drain in area.drains:
            place = drain_place(area, drain)
            if place and drain.kind != "gutter":
                places.append((place, 2.7 if "scupper" in drain.kind else 2.0))
        for place, size in places:
            x, y = board.view.point(place)
            board.field.take(line_box((x - size, y), (x + size, y), size))
        for drain in area.drains:
            block_gutter(board, area, drain)


def block_gutter(board: Board, area: Area, drain: Drain) -> None:
    """A gutter's lines keep free of labels."""
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if drain.kind != "gutter" or edge is None:
        return
    start, end = board.view.point(metres(edge.start)), board.view.point(metres(edge.end))
    out = outward(start, end, turning(area))
    far = [(x + out[0] * 1.8, y + out[1] * 1.8) for x, y in (start, end)]
    board.field.take(line_box(far[0], far[1], 0.8))


def block_laps(board: Board, laps: Iterable[Lap], joints: Iterable[TJoint]) -> None:
    """Labels keep off end laps and T-joints."""
    for lap in laps:
        if lap.kind == "end":
            a, b = (board.view.point(point) for point in lap.line)
            board.field.take(line_box(a, b, 0.4))
    for joint in joints:
        x, y = board.view.point(joint.at)
        board.field.take(line_box((x - TJOINT, y), (x + TJOINT, y), TJOINT * 0.6))


def name_openings(board: Board, areas: Sequence[Area], units: Units) -> None:
    """Names inside openings where they fit, else beside them; then pipes and drains."""
    style = Lettering(board.letter, "TEXT", backed=True)
    for area in areas:
        for opening in area.openings:
            corners = [board.view.point(metres(corner)) for corner in opening.outline]
            middle = ((corners[0][0] + corners[2][0]) / 2, (corners[0][1] + corners[2][1]) / 2)
            if text_width(opening.name, board.letter) + board.letter < corners[2][0] - corners[0][0] and (
                board.letter * 2 < corners[2][1] - corners[0][1]
            ):
                board.marks.append(
                    Text(middle, opening.name, board.letter, "TEXT", 0.0, "middle", "middle", backed=True)
                )
                continue
            reach = max(corners[2][0] - corners[0][0], corners[2][1] - corners[0][1]) / 2
            board.label(opening.name, (*around(middle, reach + 1.2), *led(middle, (reach + 3, reach + 7))), style)
        for pipe in area.pipes:
            at = board.view.point(metres(pipe.at))
            board.label(pipe.name, (*around(at, 2.6), *led(at, (5, 9))), style)
        for drain in area.drains:
            name_drain(board, area, drain, style)


def name_drain(board: Board, area: Area, drain: Drain, style: Lettering) -> None:
    """A drain's name; a gutter's with its outlets."""
    place = drain_place(area, drain)
    if place is None:
        return
    at = board.view.point(place)
    if drain.kind != "gutter":
        board.label(drain.name, (*around(at, 3.0), *led(at, (5.5, 9))), style)
        return
    edge = next(edge for edge in area.edges if edge.side == drain.side)
    outlets = f", {drain.outlets} outlets" if drain.outlets else ""
    board.label(f"{drain.name} gutter{outlets}", edge_spots(board, area, edge, (3.9, 5.6)), style)


def edge_spots(board: Board, area: Area, edge: Edge, gaps: Iterable[float]) -> list[Spot]:
    """Spots along a side, outside it."""
    start, end = board.view.point(metres(edge.start)), board.view.point(metres(edge.end))
    out = outward(start, end, turning(area))
    turn = upright(math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])))
    spots = []
    for gap in gaps:
        for share in ALONG:
            x = start[0] + (end[0] - start[0]) * share + out[0] * gap
            y = start[1] + (end[1] - start[1]) * share + out[1] * gap
            spots.append(Spot((x, y), turn))
    return spots


def name_edges(board: Board, areas: Sequence[Area], units: Units) -> None:
    """Each side's number, kind and length, outside it and not on another area."""
    style = Lettering(board.letter, "TEXT")
    for area in areas:
        for edge in area.edges:
            length = math.dist(metres(edge.start), metres(edge.end)) * board.scale.per_metre
            if length < 5.0:
                continue
            spots = [
                spot
                for spot in edge_spots(board, area, edge, EDGE_GAPS)
                if not is_inside(areas, model_point(board, spot.at))
            ] or edge_spots(board, area, edge, (-2.4, -4.5))
            for words in edge_words(edge, units):
                if text_width(words, board.letter) <= max(length, 8.0) and board.label(words, spots, style):
                    break


def model_point(board: Board, at: Pt) -> Pt:
    """The roof's point [m] under a paper point [mm]."""
    view = board.view
    return (
        view.origin[0] + (at[0] - view.at[0]) / view.per_metre,
        view.origin[1] + (at[1] - view.at[1]) / view.per_metre,
    )


def edge_words(edge: Edge, units: Units) -> tuple[str, ...]:
    """What is written along a side, the fullest first."""
    length = units.tape(round(math.dist(edge.start, edge.end))).removesuffix(' 0"')
    kind = WORDS.get(edge.kind, WORDS[None])
    tall = f", {units.length(edge.height)} high" if edge.height is not None else ""
    return (
        f"side {edge.side}: {kind}{tall}, {length}",
        f"{edge.side}: {kind}, {length}",
        f"{edge.side}: {kind}",
        str(edge.side),
    )


def fall_arrows(board: Board, areas: Sequence[Area], units: Units) -> None:
    """One arrow an area, tail high and head low, with its slope; where there is room for it."""
    for area in areas:
        out = area.falls
        words = f"falls {units.slope(area.slope)}"
        for centre in inner_points(area):
            x, y = board.view.point(centre)
            tail, head = (
                (x - out[0] * ARROW / 2, y - out[1] * ARROW / 2),
                (x + out[0] * ARROW / 2, y + out[1] * ARROW / 2),
            )
            across = (-out[1], out[0])
            at = (x + across[0] * 2.4, y + across[1] * 2.4)
            turn = upright(math.degrees(math.atan2(out[1], out[0])))
            text = Text(at, words, board.letter, "FALLS", turn, "middle", "middle", backed=True)
            shaft = line_box(tail, head, 1.5)
            ends = all(is_inside((area,), model_point(board, end)) for end in (tail, head))
            if ends and board.field.is_free(shaft) and board.field.is_free(label_box(text)):
                board.field.take(shaft, label=True)
                board.field.take(label_box(text), label=True)
                board.marks += [*arrow(tail, head), text]
                break


def arrow(tail: Pt, head: Pt) -> list[Stroke | Fill]:
    """A shaft on clear paper with a slender head."""
    length = math.dist(tail, head)
    ux, uy = (head[0] - tail[0]) / length, (head[1] - tail[1]) / length
    neck = (head[0] - ux * 3.2, head[1] - uy * 3.2)
    barbs = tuple((neck[0] + side * -uy * 1.0, neck[1] + side * ux * 1.0) for side in (1, -1))
    return [
        Fill((line_box(tail, head, 0.8),), "FALLS", ink="paper"),
        Stroke((tail, neck), "FALLS", weight="medium"),
        Fill(((head, *barbs),), "FALLS"),
    ]


def inner_points(area: Area) -> list[Pt]:
    """Points inside an area [m], those near its middle first."""
    xs, ys = [x for x, _ in area.outline], [y for _, y in area.outline]
    left, low, right, high = min(xs) / TICKS, min(ys) / TICKS, max(xs) / TICKS, max(ys) / TICKS
    middle = ((left + right) / 2, (low + high) / 2)
    grid = [
        (left + (right - left) * (i + 0.5) / 12, low + (high - low) * (j + 0.5) / 12)
        for i in range(12)
        for j in range(12)
    ]
    return sorted((point for point in grid if is_inside((area,), point)), key=lambda p: (math.dist(p, middle), p))


def name_areas(board: Board, areas: Sequence[Area]) -> None:
    """Each area's name, somewhere in its middle; a single area needs none."""
    style = Lettering(board.letter * 1.35, "TEXT", backed=True)
    if len(areas) > 1:
        for area in areas:
            board.label(area.name, (Spot(board.view.point(point)) for point in inner_points(area)), style)


def name_courses(board: Board, layout: Layout, ply: PlyLayout) -> None:
    """C1, C2, … beside the left end of each course; just inside it where that is taken and the course tall enough."""
    frame = layout.frames[ply.area]
    ux, uy = frame.across
    turn = math.degrees(math.atan2(uy, ux))
    is_turned = abs(upright(turn) - turn) > 1
    outer: Side = "left" if is_turned else "right"
    inner: Side = "right" if is_turned else "left"
    style = Lettering(board.letter, "TEXT", backed=True)
    for course in ply.courses:
        row = [piece for piece in ply.pieces if piece.course == course.index]
        if not row:
            continue
        first = min(row, key=lambda piece: piece.u0)
        x, y = board.view.point(frame.plan(first.u0, (first.v0 + first.v1) / 2))
        spots = [Spot((x - ux * 2.6, y - uy * 2.6), upright(turn), across=outer)]
        if (first.v1 - first.v0) * board.scale.per_metre / TICKS >= board.letter * 1.7:
            spots.append(Spot((x + ux * 1.6, y + uy * 1.6), upright(turn), across=inner))
        for up in (2.6, -2.6, 0.0):
            far = (x - ux * 10.5 - uy * up, y - uy * 10.5 + ux * up)
            spots.append(Spot(far, upright(turn), across=outer, leader_from=(x, y)))
        board.label(f"C{course.index}", spots, style)


def name_pieces(board: Board, layout: Layout, areas: Sequence[Area], pieces: Sequence[Piece]) -> int:
    """The laying number of each piece, inside it; a piece too small gets a leader from outside while there are few.

    Returns: how many pieces are without a number.
    """
    left_out: list[tuple[Piece, Pt]] = []
    style = Lettering(board.letter, "TEXT")
    for piece in pieces:
        spots = piece_spots(board, layout, piece)
        sizes = [size for size in (board.letter, board.smallest) if fits(board, piece, size)]
        if not any(board.label(str(piece.sequence), spots, Lettering(size, "TEXT")) for size in sizes):
            left_out.append((piece, spots[0].at))
    if len(left_out) > MOST_LEADERS:
        return len(left_out)
    missing = 0
    for piece, at in left_out:
        spots = list(led(at, (5.0, 7.0, 9.0, 12.0, 15.0, 19.0)))
        outside = [spot for spot in spots if not is_inside(areas, model_point(board, spot.at))]
        missing += not board.label(str(piece.sequence), outside or spots, style)
    return missing


def piece_spots(board: Board, layout: Layout, piece: Piece) -> list[Spot]:
    """Spots along the middle of a piece."""
    frame = layout.frames[piece.area]
    turn = upright(math.degrees(math.atan2(frame.across[1], frame.across[0])))
    middle = (piece.v0 + piece.v1) / 2
    return [
        Spot(board.view.point(frame.plan(piece.u0 + (piece.u1 - piece.u0) * share, middle)), turn) for share in ALONG
    ]


def fits(board: Board, piece: Piece, letter: float) -> bool:
    """The number of a piece fits inside it, capitals `letter` high."""
    per_tick = board.scale.per_metre / TICKS
    wide = text_width(str(piece.sequence), letter) + letter * 0.5 <= (piece.u1 - piece.u0) * per_tick
    return wide and letter * 1.3 <= (piece.v1 - piece.v0) * per_tick
