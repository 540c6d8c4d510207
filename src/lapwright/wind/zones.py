"""Where the wind's zones lie on an outline: bands along every edge, legs at every outside corner (Q3).

Zone 1' is the middle, 1 the band inside the edge band, 2 the edge band, 3 the outside corners.  Of areas that touch,
the outer outline counts: a ridge or valley between two is no edge.  An edge against a wall or an older roof counts as
an edge, and so does the rim of a courtyard: the safe side where the figure is silent.  A corner's leg runs straight on
past the end of a side that is shorter than the leg, as far as there is roof.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

import shapely
from shapely import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from lapwright.defaults.si import default_number, default_si
from lapwright.geometry.overlay import common, less, surfaces, united
from lapwright.wind.coefficients import ZONES, figure_of

Outline = Sequence[Sequence[float]]
XY = tuple[float, float]
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
    width = wall_zone_m(least_dimension, height=height)
    if figure == "high":
        return Bands(width, width, default_number("wind", "high_corner_legs") * width, width)
    return Bands(width, width, width, width)


def zone_shapes(
    outlines: Iterable[Outline], *, height: float, standard: str, yards: Iterable[Outline] = ()
) -> Mapping[str, BaseGeometry]:
    """The shape of every zone of the figure that serves, empty where there is none; coordinates in m.

    yards: courtyards and shafts open to the sky, taken out of the roof; their rims are edges, which asks for more than
        the figure, silent about them, would.  Their corners are inside corners.
    Holds for: one roof level; bands drawn parallel to the edges, mitred at inside corners.
    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    figure = figure_of(standard, height)
    found: dict[str, list[BaseGeometry]] = {zone: [] for zone in ZONES[figure]}
    for part in building_parts(outlines, yards):
        for zone, shape in _zones_of(part, bands(least_dimension(part), height=height, standard=standard)).items():
            if zone in found:
                found[zone].append(shape)
    return {zone: surfaces(shapes) for zone, shapes in found.items()}


def zone_areas_m2(
    outlines: Iterable[Outline], *, height: float, standard: str, yards: Iterable[Outline] = ()
) -> Mapping[str, float]:
    """The area of every zone [m²]; the zones of an outline add up to it, yards left out.

    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    shapes = zone_shapes(outlines, height=height, standard=standard, yards=yards)
    return {zone: float(shape.area) for zone, shape in shapes.items()}


def building_parts(outlines: Iterable[Outline], yards: Iterable[Outline] = ()) -> tuple[Polygon, ...]:
    """Outlines that touch, joined, slits closed, yards taken out; interior on the left of every ring.

    Source: arithmetic
    """
    joined = united(Polygon(outline) for outline in outlines)
    open_sky = [Polygon(yard) for yard in yards]
    if open_sky:
        joined = less(joined, united(open_sky))
    closed = joined.buffer(SLIT, join_style="mitre").buffer(-SLIT, join_style="mitre").simplify(JOG)
    parts = [part for part in shapely.get_parts(closed) if isinstance(part, Polygon)]
    return tuple(shapely.orient_polygons(part) for part in parts)


def wall_zone_m(least: float, *, height: float) -> float:
    """How far wall zone 5 reaches from a corner of the building [m]: the old width, not the roof's 0.6 h.

    Source: ASCE 7-16 figures 30.3-1 and 30.5-1, note [from memory]
    Checked: tests/published/wind.csv wallzone-*
    """
    floor = default_si("wind", "old_band_floor")
    of_least = default_number("wind", "old_band_of_least") * least
    if height > default_si("wind", "low_rise_height"):
        return max(of_least, floor)
    of_height = default_number("wind", "old_band_of_height") * height
    return max(min(of_least, of_height), default_number("wind", "old_band_floor_of_least") * least, floor)


def least_dimension(part: Polygon) -> float:
    """The shorter side of the smallest rectangle round a plan [m].

    Source: arithmetic
    """
    corners = shapely.get_coordinates(part.minimum_rotated_rectangle)
    return min(math.dist(corners[0], corners[1]), math.dist(corners[1], corners[2]))


def _zones_of(part: Polygon, widths: Bands) -> dict[str, BaseGeometry]:
    within_outer = _inset(part, widths.outer)
    within_inner = _inset(part, widths.inner)
    legs = [leg for ring in _rings(part) for leg in _corner_legs(ring, widths)]
    three = surfaces([common(united(legs), part)])
    zones = {
        "1": less(less(within_outer, within_inner), three),
        "2": less(less(part, within_outer), three),
        "3": three,
    }
    if widths.inner > widths.outer:
        return {"1'": less(within_inner, three)} | zones
    return zones | {"1": less(within_outer, three)}


def _inset(part: Polygon, distance: float) -> BaseGeometry:
    # An inside corner is mitred, not rounded: the figure's bands run parallel to the edges.
    return part.buffer(-distance, join_style="mitre", mitre_limit=10.0)


def _rings(part: Polygon) -> list[list[XY]]:
    rings = [part.exterior, *part.interiors]
    return [[(float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1]] for ring in rings]


def wall_zone_lines(part: Polygon, *, height: float) -> BaseGeometry:
    """Where along a plan's sides wall zone 5 lies: from every outside corner along both of its walls.

    Holds for: the corners that zone 3 of the roof has its legs at; at an inside corner walls shelter one another, and
        the figure, which draws a plain box, shows none there.
    Source: ASCE 7-16 figure 30.3-1 [from memory]
    Checked: tests/wind/test_edges.py
    """
    reach = wall_zone_m(least_dimension(part), height=height)
    lines = []
    for ring in _rings(part):
        for before, corner, after in _outside_corners(ring):
            for neighbour in (before, after):
                share = min(1.0, reach / math.dist(corner, neighbour))
                end = tuple(a + (b - a) * share for a, b in zip(corner, neighbour, strict=True))
                lines.append(LineString([corner, end]))
    return shapely.union_all(lines)


def _outside_corners(ring: list[XY]) -> Iterator[tuple[XY, XY, XY]]:
    """The corners that turn outward enough, each between the one before and the one after it."""
    least_turn = math.radians(default_number("wind", "corner_turn"))
    for index, corner in enumerate(ring):
        before, after = ring[index - 1], ring[(index + 1) % len(ring)]
        arrive, leave = _unit(before, corner), _unit(corner, after)
        turn = math.atan2(arrive[0] * leave[1] - arrive[1] * leave[0], arrive[0] * leave[0] + arrive[1] * leave[1])
        if turn >= least_turn:
            yield before, corner, after


def _corner_legs(ring: list[XY], widths: Bands) -> list[Polygon]:
    """The two legs at each outside corner, and the wedge between them where the corner is blunt."""
    legs = []
    for before, corner, after in _outside_corners(ring):
        arrive, leave = _unit(before, corner), _unit(corner, after)
        backward = (-arrive[0], -arrive[1])
        legs.append(_leg(corner, backward, _left(arrive), widths))
        legs.append(_leg(corner, leave, _left(leave), widths))
        legs.append(_wedge(corner, _left(arrive), _left(leave), widths.leg_width))
    return legs


def _leg(corner: XY, along: XY, inward: XY, widths: Bands) -> Polygon:
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


def _wedge(corner: XY, first: XY, second: XY, width: float) -> Polygon:
    (x, y), share = corner, width / (1 + first[0] * second[0] + first[1] * second[1])
    return Polygon(
        [
            corner,
            (x + first[0] * width, y + first[1] * width),
            (x + (first[0] + second[0]) * share, y + (first[1] + second[1]) * share),
            (x + second[0] * width, y + second[1] * width),
        ]
    )


def _unit(start: XY, end: XY) -> XY:
    length = math.dist(start, end)
    return ((end[0] - start[0]) / length, (end[1] - start[1]) / length)


def _left(direction: XY) -> XY:
    return (-direction[1], direction[0])
