"""Where the water goes: the part of the roof of each way out, and the places without one."""

from __future__ import annotations

from collections.abc import Iterator

from lapwright.drains.values import DeadPlace, Share, WaterMap
from lapwright.packet.drawing import Fill, Item, Plate, Ring, Stroke
from lapwright.packet.sheets.board import Board, make_board
from lapwright.packet.sheets.labels import Lettering, Spot
from lapwright.packet.sheets.legend import Entry, line_entry, list_entry
from lapwright.packet.sheets.marks import mark_entries
from lapwright.packet.sheets.model import roof_items
from lapwright.packet.sheets.naming import block_marks, fall_arrows, name_areas
from lapwright.packet.sheets.overview import edge_entries
from lapwright.packet.sheets.parts import roof_window
from lapwright.packet.sheets.plan import LETTER
from lapwright.packet.sheets.zoneplan import inner_points
from lapwright.packet.values import Paper
from lapwright.units.write import Units

DEAD = "water stands along this side: no way out"
CRICKET = "upper face of an opening that wants a cricket"
PART = "boundary between the parts of two ways out"
HOURS = "Water must be gone within 48 hours: look after the first rain, and mark what stands."


def water_sheet(paper: Paper, *, width: float, height: float) -> Plate | None:
    """The roof by what drains where; None where it has no way out and holds no water."""
    maps = paper.engineered.water
    if not any(one.shares or one.dead or one.dammed for one in maps):
        return None
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    units = Units(paper.head.units)
    for one in maps:
        board.draw(part_items(one))
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    for one in maps:
        board.draw(standing_items(one, board.mm))
    block_marks(board, paper.areas)
    for one in maps:
        for share in one.shares:
            name_share(board, share, one, units)
    fall_arrows(board, paper.areas, units)
    name_areas(board, paper.areas)
    return board.plate("Drainage", [], [*entries(maps, units), *edge_entries(paper.areas), *mark_entries(paper.areas)])


def part_items(one: WaterMap) -> Iterator[Item]:
    """The boundary of each part, every other one with a faint hatch."""
    for number, share in enumerate(one.shares):
        for rings in share.rings:
            if number % 2:
                yield Fill(rings, "DRAINAGE", pattern="faint", ink="grey")
            for ring in rings:
                yield Stroke(ring, "DRAINAGE", line="phantom", weight="thin", closed=True, name=share.name)


def standing_items(one: WaterMap, mm: float) -> Iterator[Item]:
    """Heavy lines where water stands, and the faces that want a cricket."""
    for place in one.dead:
        yield Stroke(place.line, "DRAINAGE-DEAD", weight="outline", ink="accent", name=place.why)
        for end in place.line:
            yield Ring(end, 1.2 * mm, "DRAINAGE-DEAD", weight="heavy", ink="accent", filled="paper")
    for dam in one.dammed:
        yield Stroke(dam.line, "DRAINAGE-DEAD", line="hidden", weight="heavy", name=dam.name)


def name_share(board: Board, share: Share, one: WaterMap, units: Units) -> None:
    """Name, area and flow of a part, within it."""
    if not share.rings:
        return
    words = f"{share.name}: {units.area(share.plan_m2 + share.half_walls_m2)}"
    flow = one.flows.get(share.key)
    words += f", {units.flow(flow)}" if flow is not None else ""
    largest = max(share.rings, key=lambda rings: len(rings[0]))
    spots = [Spot(board.view.point(point)) for point in inner_points(largest)]
    board.name(words, spots, Lettering(board.letter, "TEXT", backed=True))


def entries(maps: tuple[WaterMap, ...], units: Units) -> list[Entry]:
    """The legend: what is drawn, and each place where water stands in words."""
    found = [
        line_entry(PART, line="phantom"),
        list_entry("Areas are plan with half of the walls; flow is that of the primary storm."),
    ]
    dead = [place for one in maps for place in one.dead]
    if dead:
        found.append(line_entry(DEAD, weight="outline", ink="accent"))
        found += [list_entry(dead_words(place, units)) for place in dead]
    if any(one.dammed for one in maps):
        found.append(line_entry(CRICKET, line="hidden", weight="heavy"))
    return [*found, list_entry(HOURS)]


def dead_words(place: DeadPlace, units: Units) -> str:
    """`Main: side 1 lies lower than the way out nearest to it, 5" deep.`"""
    deep = "" if place.depth is None else f", {units.length(place.depth)} deep"
    return f"{place.area}: {place.why}{deep}."
