"""Where the rolls of a pallet may be spread on the deck, and how large that must be."""

from __future__ import annotations

from lapwright.packet.drawing import Fill, Plate, Stroke
from lapwright.packet.sheets.board import make_board
from lapwright.packet.sheets.labels import Lettering, Spot
from lapwright.packet.sheets.legend import fill_entry, list_entry
from lapwright.packet.sheets.model import roof_items
from lapwright.packet.sheets.naming import block_marks, name_areas, name_openings
from lapwright.packet.sheets.overview import edge_entries
from lapwright.packet.sheets.parts import roof_window
from lapwright.packet.sheets.plan import LETTER
from lapwright.packet.values import Paper
from lapwright.units.write import Units

TOLD = (
    "A whole pallet is never set down. Its rolls stand on end on plywood, four to a sheet, within the square, and are "
    "walked out one at a time.",
    "No roof plan shows beams and bearing walls: the structure's designer moves each spot over them, never mid-bay, "
    "never two in one bay.",
    "Snow on the deck takes its part of the live load: clear it first.",
)


def staging_sheet(paper: Paper, *, width: float, height: float) -> Plate | None:
    """Squares for spread pallets; None without the live load of the deck."""
    staging = paper.engineered.staging
    if staging is None or not staging.spots:
        return None
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    units = Units(paper.head.units)
    for spot in staging.spots:
        board.draw(
            [
                Fill((spot.ring,), "STAGING", pattern="diagonal", ink="grey"),
                Stroke(spot.ring, "STAGING", weight="medium", closed=True, name=f"spot {spot.number}"),
            ]
        )
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    block_marks(board, paper.areas)
    style = Lettering(board.letter, "TEXT", backed=True)
    for spot in staging.spots:
        xs, ys = [x for x, _ in spot.ring], [y for _, y in spot.ring]
        board.label(str(spot.number), [Spot(board.view.point((sum(xs) / len(xs), sum(ys) / len(ys))))], style)
        board.field.take(tuple(board.view.point(corner) for corner in spot.ring))
    name_areas(board, paper.areas)
    name_openings(board, paper.areas)
    side = units.length(staging.spots[0].side)
    left = units.pressure(staging.live_load_pa - staging.snow_pa)
    words = f"spot for one pallet's rolls, {units.mass(staging.pallet_kg)}, spread over {side} square at {left}"
    entries = [fill_entry(words, "diagonal", ink="grey"), *map(list_entry, TOLD)]
    if staging.without_room:
        entries.append(list_entry(no_room_words(staging.without_room)))
    return board.plate("Material on the roof", [], [*entries, *edge_entries(paper.areas)])


def no_room_words(pallets: int) -> str:
    """What is said of pallets for which the roof has no room at once."""
    if pallets == 1:
        return "1 more pallet finds no room at once: it waits below."
    return f"{pallets} more pallets find no room at once: they wait below."
