"""The zones of a roof as they are drawn: shapes, widths, pressures, and what was assumed (Q3)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

import shapely
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from lapwright.defaults.si import default_number
from lapwright.geometry.overlay import common
from lapwright.roof.values import Area
from lapwright.verdict import Reading, Step
from lapwright.wind.case import lowest_parapet, read_case
from lapwright.wind.coefficients import figure_of
from lapwright.wind.levels import Level, levels
from lapwright.wind.pressure import roof_pressures
from lapwright.wind.values import STANDARDS, Building, Pressures, Ring, WindCase, ZoneMap
from lapwright.wind.zones import LEAST_ZONE_M2, bands, building_parts, least_dimension, zone_shapes

RIGHT, SQUARE = 90.0, 2.0


def zone_maps(areas: Sequence[Area], building: Building) -> tuple[ZoneMap, ...]:
    """A map for each level; none where its height or the edition is not given.

    Pressures are left out where an input of theirs is missing.
    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    if building.standard not in STANDARDS:
        return ()
    found = levels(areas, building)
    return tuple(level_map(level, building, several=len(found) > 1) for level in found if level.height is not None)


def level_map(level: Level, building: Building, *, several: bool) -> ZoneMap:
    """The map of one level whose height and edition are given.

    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    height, standard = level.height or 0.0, building.standard or ""
    shapes = zone_shapes(level.outlines, height=height, standard=standard, yards=level.yards)
    parts = building_parts(level.outlines, level.yards)
    widths = bands(min(map(least_dimension, parts), default=0.0), height=height, standard=standard)
    pressures = level_pressures(level, building, several=several)
    return ZoneMap(
        names=tuple(area.name for area in level.areas),
        height=height,
        shapes={zone: rings_of(shape) for zone, shape in shapes.items()},
        areas_m2={zone: float(shape.area) for zone, shape in shapes.items()},
        pressures=pressures.zones if pressures is not None else {},
        outer=widths.outer,
        inner=widths.inner,
        leg_length=widths.leg_length,
        leg_width=widths.leg_width,
        notes=tuple(step.text for step in assumed_steps(level, shapes, standard=standard, several=several)),
    )


def level_case(level: Level, building: Building, reading: Reading, *, several: bool) -> WindCase | None:
    """The case of a level with the parapets round it; None where an input is missing.

    Source: arithmetic
    """
    case = read_case(reading, building, level)
    parapet = lowest_parapet(reading, level, several=several)
    return None if case is None or reading.missing else replace(case, parapet=parapet)


def level_pressures(level: Level, building: Building, *, several: bool) -> Pressures | None:
    """The pressures of a level; where only the parapets are not known, without their relief.

    Source: ASCE 7-16 equation 30.3-1 [from memory]
    Checked: tests/published/wind.csv irc-*, form-*
    """
    case = level_case(level, building, Reading(), several=several) or read_case(Reading(), building, level)
    return None if case is None else roof_pressures(case)


def assumed_steps(
    level: Level, shapes: Mapping[str, BaseGeometry], *, standard: str, several: bool
) -> tuple[Step, ...]:
    """What was assumed where the standard's figures, which show a rectangle of one height, are silent.

    Source: common practice, no source: the safe side of each question
    """
    said = []
    parts = building_parts(level.outlines, level.yards)
    if any(part.interiors for part in parts):
        said.append(
            "Assumed: the rim of a courtyard or shaft open to the sky is an edge, with its band; its corners are "
            "inside corners. The standard shows none; this asks for more than leaving it out"
        )
    inner = "1'" if figure_of(standard, level.height or 0.0) == "low" else "1"
    if any(common(part, shapes[inner]).area <= LEAST_ZONE_M2 for part in parts):
        said.append(
            f"Assumed: a wing too narrow for the bands has no zone {inner}; its bands run into one another and the "
            "higher zone counts. The standard shows no narrow wing"
        )
    if several:
        said.append(
            "Assumed: each height has its own pressures and zones; a side against a higher or lower roof is an edge"
        )
    if any(_is_odd(part) for part in parts):
        least = default_number("wind", "corner_turn")
        said.append(
            f"Assumed: an outline's corner that turns outward by at least {least:g} deg is an outside corner with its "
            "legs; bands are mitred at inside corners. The standard draws right angles only"
        )
    return tuple(Step(text=text) for text in said)


def rings_of(shape: BaseGeometry) -> tuple[tuple[Ring, ...], ...]:
    """The polygons of a shape as rings, the outer one first; crumbs are left out.

    Source: arithmetic
    """
    polygons = [part for part in shapely.get_parts(shape) if isinstance(part, Polygon) and part.area > LEAST_ZONE_M2]
    return tuple(
        tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (part.exterior, *part.interiors))
        for part in polygons
    )


def _is_odd(part: Polygon) -> bool:
    """A corner of the outline that is not a right angle."""
    for ring in (part.exterior, *part.interiors):
        points = list(ring.coords[:-1])
        for index, corner in enumerate(points):
            before, after = points[index - 1], points[(index + 1) % len(points)]
            arrive = math.atan2(corner[1] - before[1], corner[0] - before[0])
            leave = math.atan2(after[1] - corner[1], after[0] - corner[0])
            turn = abs(math.degrees(math.remainder(leave - arrive, math.tau)))
            if SQUARE < turn and abs(turn - RIGHT) > SQUARE:
                return True
    return False
