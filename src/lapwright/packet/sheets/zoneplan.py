"""The wind's zones on the roof, and the nails of a nailed sheet in them."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from lapwright.fasten.values import FastenMap, Pattern
from lapwright.packet.drawing import Fill, Item, Plate, Pt, Ring, Stroke, Text, rectangle
from lapwright.packet.drawing import Pattern as Hatch
from lapwright.packet.sheets.board import Board, make_board
from lapwright.packet.sheets.labels import Lettering, Spot
from lapwright.packet.sheets.legend import Entry, clear_entry, fill_entry, line_entry, list_entry
from lapwright.packet.sheets.model import lap_items, roof_items
from lapwright.packet.sheets.naming import block_marks, name_areas
from lapwright.packet.sheets.overview import edge_entries
from lapwright.packet.sheets.parts import roof_window
from lapwright.packet.sheets.plan import LETTER
from lapwright.packet.sheets.showing import Showing
from lapwright.packet.values import Paper
from lapwright.units.write import Units
from lapwright.wind.values import ZoneMap

HATCHES: Mapping[str, Hatch] = {"1": "dots", "2": "diagonal", "3": "heat"}
PLACES = {"1'": "middle", "1": "inner band", "2": "edge band", "3": "outside corners"}
MOST_ROWS = 3000
GRID = 12  # points to a side on which a label may stand
PATCH = 2.4  # length of a pattern's patch along the sheet [m]
MEMORY = "Coefficients from memory until read against the book: see the checks."


def zone_sheet(paper: Paper, *, width: float, height: float) -> Plate | None:
    """Zones by hatch with their areas, pressures and classes; None where they can't be drawn."""
    maps = paper.engineered.zones
    if not maps:
        return None
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    units = Units(paper.head.units)
    for one in maps:
        board.draw(zone_items(one, hatched=True))
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    block_marks(board, paper.areas)
    for one in maps:
        name_zones(board, one)
    name_areas(board, paper.areas)
    entries = [entry for one in maps for entry in zone_entries(one, units, several=len(maps) > 1)]
    notes = dict.fromkeys(first_words(note) for one in maps for note in one.notes)
    return board.plate(
        "Wind zones", [], [*entries, list_entry(MEMORY), *map(list_entry, notes), *edge_entries(paper.areas)]
    )


def first_words(note: str) -> str:
    """What was assumed, without its reason, which stands on the calculation sheets."""
    return re.split(r"[;.] ", note, maxsplit=1)[0] + "."


def zone_items(one: ZoneMap, *, hatched: bool) -> Iterator[Item]:
    """Every zone with its hatch and its boundary, the edge bands last."""
    for zone, polygons in one.shapes.items():
        for rings in polygons:
            hatch = HATCHES.get(zone)
            if hatched and hatch is not None:
                yield Fill(rings, "WIND-ZONES", pattern=hatch, ink="grey" if zone != "3" else "ink")
            for ring in rings:
                name = f"zone {zone}"
                if hatched:
                    yield Stroke(ring, "WIND-ZONES", line="phantom", weight="thin", closed=True, name=name)
                else:
                    yield Stroke(
                        ring, "WIND-ZONES", line="centre", weight="medium", ink="accent", closed=True, name=name
                    )


def name_zones(board: Board, one: ZoneMap) -> None:
    """The number of each zone in each of its pieces, where it finds room."""
    style = Lettering(board.letter * 1.2, "TEXT", backed=True)
    for zone, polygons in one.shapes.items():
        for rings in polygons:
            spots = [Spot(board.view.point(point)) for point in inner_points(rings)]
            board.label(zone, spots, style)


def inner_points(rings: Sequence[Sequence[Pt]]) -> list[Pt]:
    """Points inside a polygon, the one farthest from its edges first, then others nearest to that one."""
    from shapely import Polygon, contains_xy, maximum_inscribed_circle

    shape = Polygon(rings[0], rings[1:])
    circle = maximum_inscribed_circle(shape, tolerance=0.1)
    inside = shape.representative_point()
    best = (float(circle.coords[0][0]), float(circle.coords[0][1]))
    left, low, right, high = shape.bounds
    grid = [
        (left + (right - left) * (i + 0.5) / GRID, low + (high - low) * (j + 0.5) / GRID)
        for i in range(GRID)
        for j in range(GRID)
    ]
    within = [point for point in grid if contains_xy(shape, *point)]
    return [best, (inside.x, inside.y), *sorted(within, key=lambda point: (math.dist(point, best), point))]


def zone_entries(one: ZoneMap, units: Units, *, several: bool) -> Iterator[Entry]:
    """A line of the legend for each zone: area, uplift at working level, class."""
    lead = f"{', '.join(one.names)}, " if several else ""
    for zone, m2 in one.areas_m2.items():
        if m2 <= 0 or not one.shapes[zone]:
            continue
        words = f"{lead}zone {zone}, {PLACES[zone]}: {units.area(m2)}"
        pressure = one.pressures.get(zone)
        if pressure is not None:
            words += f", {units.pressure(pressure.asd_pa)} (ASD)"
            words += f", class {pressure.class_psf}" if pressure.class_psf is not None else ""
        hatch = HATCHES.get(zone)
        yield clear_entry(words) if hatch is None else fill_entry(words, hatch, ink="grey" if zone != "3" else "ink")
    bands = f"{lead}h {units.length(one.height)}: edge band {units.length(one.outer)}"
    bands += f", inner band to {units.length(one.inner)}" if one.inner > one.outer else ""
    yield list_entry(f"{bands}; corner legs {units.length(one.leg_length)} by {units.length(one.leg_width)}.")


def nail_sheets(paper: Paper, *, width: float, height: float) -> tuple[Plate, ...]:
    """For each nailed ply the roof with its rows by zone, then the patterns enlarged."""
    plates = []
    for one in paper.engineered.nails:
        if one.patterns and paper.engineered.zones:
            plates.append(nail_plan(paper, one, width=width, height=height))
            plates.append(pattern_plate(paper, one, width=width, height=height))
    return tuple(plates)


def nail_plan(paper: Paper, one: FastenMap, *, width: float, height: float) -> Plate:
    """Zone boundaries over the laps of the ply, with the rows of nails where they are few enough to draw."""
    board = make_board(roof_window(paper.areas), paper.head.units, width=width, height=height, letter=LETTER)
    units = Units(paper.head.units)
    laps = [lap for lap in paper.layout.laps if lap.ply == one.ply]
    board.draw(lap_items(Showing(paper.layout, paper.areas).laps(laps)))
    are_drawn = len(one.rows) <= MOST_ROWS
    if are_drawn:
        board.draw(
            Stroke(row.line, f"{one.ply.upper()}-NAILS", line="hidden" if row.is_lap else "dotted", weight="thin")
            for row in one.rows
        )
    for zones in paper.engineered.zones:
        board.draw(zone_items(zones, hatched=False))
    for area in paper.areas:
        board.draw(roof_items(area, board.mm))
    block_marks(board, paper.areas)
    for zones in paper.engineered.zones:
        name_zones(board, zones)
    name_areas(board, paper.areas)
    entries = [line_entry("boundary of a zone", line="centre", weight="medium", ink="accent"), line_entry("side lap")]
    if are_drawn:
        entries += [line_entry("nails along a lap", line="hidden"), line_entry("nails between laps", line="dotted")]
    entries += [list_entry(pattern_words(pattern, units)) for pattern in one.patterns.values()]
    entries.append(list_entry("Where a sheet crosses a boundary, each side of it has its own zone's pattern."))
    return board.plate(f"Nails of the {one.ply} sheet", [], [*entries, *edge_entries(paper.areas)])


def pattern_words(pattern: Pattern, units: Units) -> str:
    """`Zone 2: laps at 9", 2 rows at 12" between`."""
    rows = f"{pattern.field_rows} row{'s' * (pattern.field_rows != 1)} at {units.length(pattern.field_spacing)} between"
    return f"Zone {pattern.zone}: laps at {units.length(pattern.lap_spacing)}, {rows}."


def pattern_plate(paper: Paper, one: FastenMap, *, width: float, height: float) -> Plate:
    """Each pattern to scale on two courses of the sheet, with the zones that it holds in."""
    units = Units(paper.head.units)
    groups: dict[Pattern, list[str]] = {}
    for zone, pattern in one.patterns.items():
        groups.setdefault(replace(pattern, zone=""), []).append(zone)
    columns = 2 if width > height else 1
    rows = -(-len(groups) // columns)
    across, cell = width / columns, height / max(2, rows)
    tall = max(each.exposure + each.width for each in groups)
    per_metre = min((cell - 16.0) / tall, (across - 52.0) / PATCH)
    items: list[Item] = []
    for number, (pattern, zones) in enumerate(groups.items()):
        x, low = (number % columns) * across + 2.0, height - (number // columns + 1) * cell + 6.0
        items += patch_items(pattern, (x, low), per_metre)
        at = (x + PATCH * per_metre + 4.0, low + tall * per_metre - 4.0)
        for line, words in enumerate(patch_words(pattern, zones, units)):
            items.append(Text((at[0], at[1] - 4.6 * line), words, 2.4, "TEXT"))
    return Plate(width, height, tuple(items), f"Nails of the {one.ply} sheet: patterns", f"1 : {1000 / per_metre:.0f}")


def patch_words(pattern: Pattern, zones: Sequence[str], units: Units) -> list[str]:
    """What stands beside a pattern."""
    row = pattern.exposure / (pattern.field_rows + 1)
    return [
        f"Zone{'s' * (len(zones) > 1)} {', '.join(zones)}",
        f"laps at {units.length(pattern.lap_spacing)}",
        f"{pattern.field_rows} between at {units.length(pattern.field_spacing)}",
        f"rows {units.length(row)} apart",
        f"exposed {units.length(pattern.exposure)}",
    ]


def patch_items(pattern: Pattern, at: Pt, per_metre: float) -> Iterator[Item]:
    """Two courses with their nails, staggered from row to row [mm]."""
    x, y = at
    lap = pattern.width - pattern.exposure
    long = PATCH * per_metre
    for course in range(2):
        low = y + course * pattern.exposure * per_metre
        yield Stroke(rectangle(x, low, long, pattern.width * per_metre), "SHEET", weight="medium", closed=True)
        places = [(lap / 2, pattern.lap_spacing)]
        step = pattern.exposure / (pattern.field_rows + 1)
        places += [(lap / 2 + step * row, pattern.field_spacing) for row in range(1, pattern.field_rows + 1)]
        for row, (up, spacing) in enumerate(places):
            along = spacing / 2 if row % 2 else spacing / 4
            while along < PATCH:
                yield Ring((x + along * per_metre, low + up * per_metre), 0.5, "NAILS", filled="ink")
                along += spacing
