"""The labels of the roof itself: edges, openings, drains, areas and the way water runs."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from lapwright.geometry.polygon import place_of
from lapwright.geometry.room import holds, roomiest
from lapwright.packet.drawing import Fill, Pt, Stroke, Text
from lapwright.packet.lettering import text_width
from lapwright.packet.sheets.board import Board
from lapwright.packet.sheets.clip import clip_ring
from lapwright.packet.sheets.edges import WORDS, outward, turning
from lapwright.packet.sheets.labels import Lettering, Spot, around, label_box, led, lettered, line_box, upright
from lapwright.packet.sheets.model import TICKS, drain_place, metres
from lapwright.roof.values import Area, Drain, Edge, Opening
from lapwright.units.write import Units

ARROW = 15.0
EDGE_GAPS = (3.4, 5.4, 7.6, 9.6, 11.6)  # beyond the edge's own lines; the further ones clear course numbers [mm]
INSIDE_GAPS = (-2.4, -4.5)
SHORT_SIDE = 5.0  # a shorter side gets no words [mm]
ALONG = (0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86, 0.68, 0.32, 0.8, 0.2)
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
        for edge in area.edges:
            part = board.shown(metres(edge.start), metres(edge.end))
            if part:
                board.field.take(line_box(*part, 0.4))


def block_gutter(board: Board, area: Area, drain: Drain) -> None:
    """A gutter's lines keep free of labels."""
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if drain.kind != "gutter" or edge is None:
        return
    start, end = board.view.point(metres(edge.start)), board.view.point(metres(edge.end))
    out = outward(start, end, turning(area))
    far = [(x + out[0] * 1.8, y + out[1] * 1.8) for x, y in (start, end)]
    board.field.take(line_box(far[0], far[1], 0.8))


def name_openings(board: Board, areas: Sequence[Area]) -> None:
    """Names inside openings where they fit, else beside them; then pipes and drains."""
    style = Lettering(board.letter, "TEXT", backed=True)
    for area in areas:
        for opening in area.openings:
            name_opening(board, opening, style)
        for pipe in filter(lambda one: board.shows(metres(one.at)), area.pipes):
            at = board.view.point(metres(pipe.at))
            board.name(pipe.name, (*around(at, 2.6), *led(at, (5, 9))), style)
        for drain in area.drains:
            name_drain(board, area, drain, style)


def name_opening(board: Board, opening: Opening, style: Lettering) -> None:
    """An opening's name, within what of it is on the sheet if it fits there, else beside it or led to it."""
    corners = clip_ring(tuple(board.view.point(metres(corner)) for corner in opening.outline), board.box)
    if not corners:
        return
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    wide, tall = max(xs) - min(xs), max(ys) - min(ys)
    middle = (min(xs) + wide / 2, min(ys) + tall / 2)
    inner = roomiest(corners)
    half = (text_width(opening.name, style.height) + style.height) / 2
    for x, y in (middle, inner):
        if holds(corners, (x - half, y - style.height, x + half, y + style.height)):
            board.marks.append(lettered(opening.name, Spot((x, y)), style))
            return
    reach = max(wide, tall) / 2
    from_inside = middle if holds(corners, (*middle, *middle)) else inner
    board.name(opening.name, (*around(middle, reach + 1.2), *led(from_inside, (reach + 3, reach + 7))), style)


def name_drain(board: Board, area: Area, drain: Drain, style: Lettering) -> None:
    """A drain's name; a gutter's with its outlets."""
    place = drain_place(area, drain)
    if place is None or not (drain.kind == "gutter" or board.shows(place)):
        return
    at = board.view.point(place)
    if drain.kind != "gutter":
        board.name(drain.name, (*around(at, 3.0), *led(at, (5.5, 9))), style)
        return
    edge = next(edge for edge in area.edges if edge.side == drain.side)
    outlets = f", {drain.outlets} outlets" if drain.outlets else ""
    spots = edge_spots(board, area, edge, (3.9, 5.6, 7.6, 9.6))
    if spots:
        board.name(f"{drain.name} gutter{outlets}", spots, style)


def edge_spots(board: Board, area: Area, edge: Edge, gaps: Iterable[float]) -> list[Spot]:
    """Spots along the part of a side that is on the sheet, outside it; none where nothing of it is."""
    part = board.shown(metres(edge.start), metres(edge.end))
    if part is None:
        return []
    start, end = part
    out = outward(start, end, turning(area))
    turn = upright(math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])))
    spots = []
    for gap in gaps:
        for share in ALONG:
            x = start[0] + (end[0] - start[0]) * share + out[0] * gap
            y = start[1] + (end[1] - start[1]) * share + out[1] * gap
            spots.append(Spot((x, y), turn))
    return spots


def name_edges(board: Board, areas: Sequence[Area], units: Units) -> list[tuple[Area, Edge]]:
    """Each side's number, kind and length, outside it and not on another area; returns the sides left without words."""
    left_out: list[tuple[Area, Edge]] = []
    for area in areas:
        for edge in area.edges:
            phrases = edge_phrases(board, edge, units)
            spots = [
                spot
                for spot in (edge_spots(board, area, edge, EDGE_GAPS) if phrases else ())
                if not is_inside(areas, board.model(spot.at))
            ]
            style = Lettering(board.letter, "TEXT")
            if not phrases:
                list_short(board, area, edge, units)
            elif not any(board.label(words, spots, style) for words in phrases[:-1] or phrases):
                left_out.append((area, edge))
    return left_out


def list_short(board: Board, area: Area, edge: Edge, units: Units) -> None:
    """A side too short for words goes to the list, on the sheet that shows it whole."""
    if board.shows(metres(edge.start)) and board.shows(metres(edge.end)):
        board.unplaced.append(f"{area.name} side {edge_words(edge, units)[1]}")


def name_edges_inside(board: Board, left_out: Sequence[tuple[Area, Edge]], units: Units) -> None:
    """Words inside the sides that have none outside, on clear paper."""
    style = Lettering(board.letter, "TEXT", backed=True)
    for area, edge in left_out:
        spots = edge_spots(board, area, edge, INSIDE_GAPS)
        spots += edge_spots(board, area, edge, EDGE_GAPS)
        if not any(board.label(words, spots, style) for words in edge_phrases(board, edge, units)):
            board.unplaced.append(f"{area.name} side {edge_words(edge, units)[1]}")


def edge_phrases(board: Board, edge: Edge, units: Units) -> list[str]:
    """What may be written along what of a side is on the sheet, the fullest first; nothing along a short one."""
    part = board.shown(metres(edge.start), metres(edge.end))
    length = math.dist(*part) if part else 0.0
    if length < SHORT_SIDE:
        return []
    return [words for words in edge_words(edge, units) if text_width(words, board.letter) <= max(length, 8.0)]


def edge_words(edge: Edge, units: Units) -> tuple[str, ...]:
    """What is written along a side, the fullest first."""
    ticks = math.dist(edge.start, edge.end)
    length = units.tape(round(ticks)).removesuffix(' 0"') if units.is_us else units.length(ticks / TICKS)
    kind = WORDS.get(edge.kind, WORDS[None])
    tall = f", {units.length(edge.height)} high" if edge.height is not None else ""
    return (
        f"side {edge.side}: {kind}{tall}, {length}",
        f"{edge.side}: {kind}, {length}",
        f"{edge.side}: {kind}",
        f"side {edge.side}",
    )


def fall_arrows(board: Board, areas: Sequence[Area], units: Units) -> None:
    """One arrow an area, tail high and head low, with its slope; where there is room for it."""
    for area in areas:
        out = area.falls
        words = f"falls {units.slope(area.slope)}"
        for centre in filter(board.shows, inner_points(area)):
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
            ends = all(is_inside((area,), board.model(end)) for end in (tail, head))
            if ends and board.field.is_free(shaft) and board.field.is_free(label_box(text)):
                board.field.take(shaft, label=True)
                board.field.take(label_box(text), label=True)
                board.marks += [*arrow(tail, head), text]
                break
        else:
            if not board.cropped:
                board.unplaced.append(f"{area.name} {words} to the {compass(out)}")


def compass(way: Pt) -> str:
    """The nearest of the eight winds."""
    return ("E", "NE", "N", "NW", "W", "SW", "S", "SE")[round(math.degrees(math.atan2(way[1], way[0])) / 45) % 8]


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
            spots = [Spot(board.view.point(point)) for point in inner_points(area) if board.shows(point)]
            if spots or not board.cropped:
                board.name(area.name, spots, style)
