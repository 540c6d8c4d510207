"""Where the wind's zones lie on an outline: bands along every edge, legs at every outside corner (Q3).

Zone 1' is the middle, 1 the band inside the edge band, 2 the edge band, 3 the outside corners.  Of areas that touch,
the outer outline counts: a ridge or valley between two is no edge.  An edge against a wall or an older roof counts as
an edge, which is the safe side.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from lapwright.defaults.si import default_number, default_si
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.wind.coefficients import ZONES, figure_of

Outline = Sequence[Sequence[float]]
# Areas that touch along a skew side may gape by a tick; a slit would be taken for an edge.
SLIT = 0.001
JOG = 0.005
LEAST_ZONE_M2 = 0.01


@dataclass(frozen=True, slots=True)
class Bands:
    """Distances [m]: zone 2 reaches `outer` inward, zone 1 `inner` (equal where there is no 1'); a corner's legs."""

    outer: float
    inner: float
    leg_length: float
    leg_width: float


def bands(least_dimension: float, *, height: float, standard: str) -> Bands:
    """Widths of the zones for a plan's least dimension [m] and a mean roof height [m].

    Source: ASCE 7-16 figures 30.3-2A (0.2h, 0.6h, 1.2h) and 30.5-1, ASCE 7-10 figure 30.4-1 [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    figure = figure_of(standard, height)
    if figure == "low":
        outer = default_number("wind", "band_outer") * height
        return Bands(
            outer, default_number("wind", "band_inner") * height, outer, default_number("wind", "corner_width") * height
        )
    floor = default_si("wind", "old_band_floor")
    of_least = default_number("wind", "old_band_of_least") * least_dimension
    if figure == "high":
        width = max(of_least, floor)
        return Bands(width, width, default_number("wind", "high_corner_legs") * width, width)
    of_height = default_number("wind", "old_band_of_height") * height
    width = max(min(of_least, of_height), default_number("wind", "old_band_floor_of_least") * least_dimension, floor)
    return Bands(width, width, width, width)


def zone_shapes(outlines: Iterable[Outline], *, height: float, standard: str) -> Mapping[str, BaseGeometry]:
    """The shape of every zone of the figure that serves, empty where there is none; coordinates in m.

    Holds for: one roof level; bands drawn parallel to the edges, mitred at inside corners.
    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    figure = figure_of(standard, height)
    found: dict[str, list[BaseGeometry]] = {zone: [] for zone in ZONES[figure]}
    for part in building_parts(outlines):
        for zone, shape in _zones_of(part, bands(least_dimension(part), height=height, standard=standard)).items():
            if zone in found:
                found[zone].append(shape)
    return {zone: shapely.union_all(shapes) for zone, shapes in found.items()}


def zone_areas_m2(outlines: Iterable[Outline], *, height: float, standard: str) -> Mapping[str, float]:
    """The area of every zone [m²]; the zones of an outline add up to it.

    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    shapes = zone_shapes(outlines, height=height, standard=standard)
    return {zone: float(shape.area) for zone, shape in shapes.items()}


def outlines_m(areas: Iterable[Area]) -> tuple[tuple[tuple[float, float], ...], ...]:
    """The areas' outlines in metres.

    Source: arithmetic
    """
    return tuple(tuple((x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in area.outline) for area in areas)


def building_parts(outlines: Iterable[Outline]) -> tuple[Polygon, ...]:
    """Outlines that touch, joined, slits closed; interior on the left of every ring.

    Source: arithmetic
    """
    joined = shapely.union_all([Polygon(outline) for outline in outlines])
    closed = joined.buffer(SLIT, join_style="mitre").buffer(-SLIT, join_style="mitre").simplify(JOG)
    parts = [part for part in shapely.get_parts(closed) if isinstance(part, Polygon)]
    return tuple(shapely.orient_polygons(part) for part in parts)


def least_dimension(part: Polygon) -> float:
    """The shorter side of the smallest rectangle round a plan [m].

    Source: arithmetic
    """
    corners = shapely.get_coordinates(part.minimum_rotated_rectangle)
    return min(math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2]))


def _zones_of(part: Polygon, widths: Bands) -> dict[str, BaseGeometry]:
    within_outer = _inset(part, widths.outer)
    within_inner = _inset(part, widths.inner)
    corners = shapely.union_all([leg for ring in _rings(part) for leg in _corner_legs(ring, widths)])
    three = corners.intersection(part)
    zones = {
        "1": within_outer.difference(within_inner).difference(three),
        "2": part.difference(within_outer).difference(three),
        "3": three,
    }
    if widths.inner > widths.outer:
        return {"1'": within_inner.difference(three)} | zones
    return zones | {"1": within_outer.difference(three)}


def _inset(part: Polygon, distance: float) -> BaseGeometry:
    # An inside corner is mitred, not rounded: the figure's bands run parallel to the edges.
    return part.buffer(-distance, join_style="mitre", mitre_limit=10.0)


def _rings(part: Polygon) -> list[list[tuple[float, float]]]:
    rings = [part.exterior, *part.interiors]
    return [[(float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1]] for ring in rings]


def _corner_legs(ring: list[tuple[float, float]], widths: Bands) -> list[Polygon]:
    """The two legs at each outside corner, and the wedge between them where the corner is blunt."""
    least_turn = math.radians(default_number("wind", "corner_turn"))
    legs = []
    for index, corner in enumerate(ring):
        before, after = ring[index - 1], ring[(index + 1) % len(ring)]
        arrive, leave = _unit(before, corner), _unit(corner, after)
        turn = math.atan2(arrive[0] * leave[1] - arrive[1] * leave[0], arrive[0] * leave[0] + arrive[1] * leave[1])
        if turn < least_turn:
            continue
        backward = (-arrive[0], -arrive[1])
        legs.append(_leg(corner, backward, _left(arrive), widths))
        legs.append(_leg(corner, leave, _left(leave), widths))
        legs.append(_wedge(corner, _left(arrive), _left(leave), widths.leg_width))
    return legs


def _leg(
    corner: tuple[float, float], along: tuple[float, float], inward: tuple[float, float], widths: Bands
) -> Polygon:
    (x, y), length, width = corner, widths.leg_length, widths.leg_width
    far = (x + along[0] * length, y + along[1] * length)
    return Polygon(
        [
            corner,
            far,
            (far[0] + inward[0] * width, far[1] + inward[1] * width),
            (x + inward[0] * width, y + inward[1] * width),
        ]
    )


def _wedge(
    corner: tuple[float, float], first: tuple[float, float], second: tuple[float, float], width: float
) -> Polygon:
    (x, y), share = corner, width / (1 + first[0] * second[0] + first[1] * second[1])
    return Polygon(
        [
            corner,
            (x + first[0] * width, y + first[1] * width),
            (x + (first[0] + second[0]) * share, y + (first[1] + second[1]) * share),
            (x + second[0] * width, y + second[1] * width),
        ]
    )


def _unit(start: tuple[float, float], end: tuple[float, float]) -> tuple[float, float]:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _left(direction: tuple[float, float]) -> tuple[float, float]:
    return (-direction[1], direction[0])
