"""Zones on random outlines: they add up to the roof, and every point's zone is that of the slow reference."""

from __future__ import annotations

import math
import random
import sys
from itertools import combinations
from pathlib import Path

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, affinity

from lapwright.wind.zones import bands, building_parts, least_dimension, zone_shapes

sys.path.insert(0, str(Path(__file__).parents[1] / "reference"))

from zones_slow import Widths, zone_at

STANDARDS = ("ASCE 7-16", "ASCE 7-22", "ASCE 7-10")
TURN = 20.0
NEAR = 0.03
POINTS = 40
MANY = settings(max_examples=max(300, settings().max_examples))


@st.composite
def roofs(draw: st.DrawFn) -> tuple[list[list[tuple[float, float]]], list[list[tuple[float, float]]]]:
    """Outlines of one roof put together from boxes, some with a slanted corner, turned; courtyards inside."""
    chance = random.Random(draw(st.integers(0, 2**32)))
    return made(chance)


def made(
    chance: random.Random,
) -> tuple[list[list[tuple[float, float]]], list[list[tuple[float, float]]]]:
    """A random roof: outlines [m] that touch or lie apart, and courtyards."""
    boxes = [shapely.box(0, 0, chance.randint(6, 60), chance.randint(6, 60))]
    for _ in range(chance.randint(0, 3)):
        x, y = chance.randint(0, 50), chance.randint(0, 50)
        boxes.append(shapely.box(x, y, x + chance.randint(6, 40), y + chance.randint(6, 40)))
    whole = shapely.union_all(boxes)
    yards = []
    for _ in range(chance.randint(0, 2)):
        x, y = chance.randint(2, 50), chance.randint(2, 50)
        yard = shapely.box(x, y, x + chance.randint(2, 15), y + chance.randint(2, 15))
        if any(part.buffer(-1).contains(yard) for part in shapely.get_parts(whole)) and not any(
            yard.buffer(1).intersects(other) for other in yards
        ):
            yards.append(yard)
    if chance.random() < 0.4:
        left, low, right, high = whole.bounds
        cut = chance.uniform(0.1, 0.4) * min(right - left, high - low)
        whole = whole.difference(Polygon([(right + 1, low - 1), (right - cut, low - 1), (right + 1, low + cut)]))
        yards = [yard for yard in yards if any(p.buffer(-1).contains(yard) for p in shapely.get_parts(whole))]
    angle = chance.choice([0.0, 0.0, chance.uniform(0, 360)])
    parts = [affinity.rotate(part, angle, origin=(0, 0)) for part in shapely.get_parts(whole)]
    turned = [affinity.rotate(yard, angle, origin=(0, 0)) for yard in yards]
    holes = [Polygon(hole) for part in parts for hole in part.interiors]
    return (
        [list(part.exterior.coords[:-1]) for part in parts],
        [list(yard.exterior.coords[:-1]) for yard in (*turned, *holes)],
    )


def test_a_corner_square_of_each_of_three_boxes_is_kept() -> None:
    """A roof of boxes that lie apart, found by the random ones: no corner is lost where two shapes only touch."""
    low = [(0.0, 0.0), (30.0, 0.0), (30.0, 23.0), (0.0, 23.0)]
    turned = [[(0.8 * x - 0.6 * y + dx, 0.6 * x + 0.8 * y) for x, y in low] for dx in (0.0, 60.0, 120.0)]
    shapes = zone_shapes(turned, height=3.0, standard="ASCE 7-10")
    assert sum(shape.area for shape in shapes.values()) == pytest.approx(3 * 690, rel=1e-6)


HEIGHTS = st.sampled_from([2.5, 3.0, 4.5, 6.0, 9.0, 14.0, 18.0, 25.0])


@MANY
@given(roof=roofs(), height=HEIGHTS, standard=st.sampled_from(STANDARDS))
def test_zones_add_up_to_the_roof(roof: tuple[list, list], height: float, standard: str) -> None:
    """Every square metre has one zone and one only."""
    outlines, yards = roof
    parts = building_parts(outlines, yards)
    shapes = zone_shapes(outlines, height=height, standard=standard, yards=yards)
    whole = sum(part.area for part in parts)
    assert sum(shape.area for shape in shapes.values()) == pytest.approx(whole, rel=1e-6)
    both = [shapely.intersection(one, other, grid_size=1e-7).area for one, other in combinations(shapes.values(), 2)]
    assert both == pytest.approx([0.0] * len(both), abs=1e-5)


@MANY
@given(roof=roofs(), height=HEIGHTS, standard=st.sampled_from(STANDARDS), seed=st.integers(0, 2**32))
def test_each_point_has_the_zone_of_the_slow_reference(
    roof: tuple[list, list], height: float, standard: str, seed: int
) -> None:
    """Points at random over the roof; those within 3 cm of a boundary are passed over."""
    outlines, yards = roof
    chance = random.Random(seed)
    shapes = zone_shapes(outlines, height=height, standard=standard, yards=yards)
    for part in building_parts(outlines, yards):
        found = bands(least_dimension(part), height=height, standard=standard)
        widths = Widths(found.outer, found.inner, found.leg_length, found.leg_width, TURN)
        rings = [list(ring.coords[:-1]) for ring in (part.exterior, *part.interiors)]
        left, low, right, high = part.bounds
        for _ in range(POINTS):
            point = (chance.uniform(left, right), chance.uniform(low, high))
            zones = {zone_at(near, rings, widths) for near in (point, *around(point))}
            if len(zones) != 1 or None in zones:
                continue
            (expected,) = zones
            ours = [zone for zone, shape in shapes.items() if shape.contains(shapely.Point(point))]
            assert ours == [expected], (point, height, standard, rings)


def around(point: tuple[float, float]) -> list[tuple[float, float]]:
    """Eight points close by."""
    x, y = point
    return [(x + NEAR * math.cos(k * math.pi / 4), y + NEAR * math.sin(k * math.pi / 4)) for k in range(8)]
