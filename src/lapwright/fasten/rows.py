"""Where the rows of nails lie on the roof, zone by zone, and how many nails that is (Q2, Q3).

A piece has a row along its lap and its rows between, evenly spread over the exposed width.  Where a zone's boundary
crosses a piece, each side of it has its own zone's rows and spacing.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString
from shapely.geometry.base import BaseGeometry

from lapwright.assembly.values import Nailing, Ply
from lapwright.fasten.basesheet import sheet_pattern, zone_nailing
from lapwright.fasten.nails import HAIR
from lapwright.fasten.values import FastenerNeed, FastenMap, Pattern, RowLine
from lapwright.geometry.overlay import common, less, lines_within, surfaces, united
from lapwright.layout.values import Frame, Layout, Piece
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units
from lapwright.wind.levels import levels, ring_m
from lapwright.wind.values import STANDARDS, Building
from lapwright.wind.zones import zone_shapes

SHORTEST = 0.01


@dataclass(frozen=True, slots=True)
class _Ground:
    """What the rows of one area are cut by: the roof less its openings, and its zones."""

    roof: BaseGeometry
    zones: Mapping[str, BaseGeometry]


def fasten_maps(
    areas: Sequence[Area], building: Building, plies: Sequence[Ply], layout: Layout
) -> tuple[FastenMap, ...]:
    """A map of each nailed ply whose patterns are given; one zone, `all`, where the zones can't be drawn.

    Source: arithmetic: rows evenly spread, cut at the zones' boundaries
    Checked: tests/fasten/test_fastener_rows.py
    """
    nailed = [ply for ply in plies if ply.attachment == "mechanically_fastened" and ply.nailing is not None]
    if not nailed:
        return ()
    grounds = dict(_grounds(areas, building))
    return tuple(_map(ply, layout, grounds) for ply in nailed)


def nail_needs(maps: Iterable[FastenMap], layout: Layout, units: Units) -> tuple[FastenerNeed, ...]:
    """Nails to order for each nailed ply, zone by zone: every stretch of a row rounded up.

    Source: arithmetic
    Checked: tests/fasten/test_fastener_rows.py
    """
    needs = []
    for one in maps:
        ids = tuple(piece.id for ply in layout.plies if ply.ply == one.ply for piece in ply.pieces)
        for zone, pattern in one.patterns.items():
            rows = [row for row in one.rows if row.zone == zone]
            count = sum(math.ceil(math.dist(*row.line) / row.spacing - HAIR) for row in rows)
            laps, field = units.length(pattern.lap_spacing), units.length(pattern.field_spacing)
            basis = f"zone {zone}: laps at {laps}, {pattern.field_rows} rows at {field}"
            needs.append(FastenerNeed("nails", f"cap nails, {one.ply} sheet, zone {zone}", zone, count, basis, ids))
    return tuple(need for need in needs if need.amount > 0)


def _grounds(areas: Sequence[Area], building: Building) -> Iterator[tuple[str, _Ground]]:
    for level in levels(areas, building):
        zones: Mapping[str, BaseGeometry] = {"all": united(shapely.Polygon(one) for one in level.outlines)}
        if level.height is not None and building.standard in STANDARDS:
            zones = zone_shapes(level.outlines, height=level.height, standard=building.standard, yards=level.yards)
        for area in level.areas:
            roof = shapely.Polygon(ring_m(area.outline))
            holes = [shapely.Polygon(ring_m(one.outline)) for one in (*area.openings, *area.beside)]
            yield area.name, _Ground(less(roof, united(holes)) if holes else roof, zones)


def _map(ply: Ply, layout: Layout, grounds: Mapping[str, _Ground]) -> FastenMap:
    nailing = ply.nailing or Nailing()
    zones = dict.fromkeys(zone for ground in grounds.values() for zone in ground.zones)
    patterns = {}
    for zone in zones:
        own = zone_nailing(nailing, zone)
        figures = sheet_pattern(ply, own)
        if figures is not None and own.lap_spacing is not None:
            width = ply.sheet.width_ticks / TICKS_PER_METRE
            patterns[zone] = Pattern(
                zone,
                own.lap_spacing,
                own.field_spacing or own.lap_spacing,
                own.field_rows or 0,
                figures.exposure,
                width,
            )
    laid = [layer for layer in layout.plies if layer.ply == ply.ply]
    rows = tuple(
        row
        for layer in laid
        if layer.area in grounds
        for row in _rows_of(layout.frames[layer.area], layer.pieces, ply, grounds[layer.area], patterns)
    )
    seen = {row.zone for row in rows}
    return FastenMap(ply.ply, {zone: pattern for zone, pattern in patterns.items() if zone in seen}, rows)


def _rows_of(
    frame: Frame, pieces: Sequence[Piece], ply: Ply, ground: _Ground, patterns: Mapping[str, Pattern]
) -> Iterator[RowLine]:
    """The rows of one ply on one area: lines at every place, all cut by a zone at once."""
    for zone, pattern in patterns.items():
        lines = [line for piece in pieces for line in _piece_rows(frame, piece, ply, pattern)]
        shape = surfaces([common(ground.roof, ground.zones[zone])])
        if not lines or shape.is_empty:
            continue
        cut = lines_within([LineString(line) for line, _ in lines], shape)
        for (_, is_lap), found in zip(lines, cut, strict=True):
            spacing = pattern.lap_spacing if is_lap else pattern.field_spacing
            for part in shapely.get_parts(found):
                if part.length > SHORTEST:
                    (ax, ay), (bx, by) = part.coords[0], part.coords[-1]
                    yield RowLine(((ax, ay), (bx, by)), zone, spacing, is_lap)


def _piece_rows(
    frame: Frame, piece: Piece, ply: Ply, pattern: Pattern
) -> Iterator[tuple[tuple[tuple[float, float], ...], bool]]:
    """A piece's rows as lines [m]: the lap's along its low edge, the others above it."""
    exposed = piece.v1 - piece.v0 - ply.sheet.side_lap_ticks
    lap = ply.sheet.side_lap_ticks / 2
    places = [(piece.v0 + lap, True)]
    step = exposed / (pattern.field_rows + 1)
    places += [(piece.v0 + lap + step * row, False) for row in range(1, pattern.field_rows + 1)]
    for v, is_lap in places:
        yield (frame.plan(piece.u0, v), frame.plan(piece.u1, v)), is_lap
