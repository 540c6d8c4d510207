"""Water on random roofs: what comes to ways out and to none adds up to the roof, and half of its walls with it."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from lapwright.drains.basin import WALL_KINDS, basins_of
from lapwright.drains.catchment import catchment
from lapwright.drains.outlets import PRIMARY_KINDS
from lapwright.drains.paths import plan_area_m2
from lapwright.roof.falls import edge_length_m
from lapwright.roof.values import Area, Drain
from strategies import odd_roof, seeded_roof

SEEDS = range(60)
WALL = 0.7


def drained(area: Area, chance: random.Random) -> Area:
    """The area with walls of one height and up to three drains at its corners, beside what it has."""
    edges = tuple(replace(edge, height=WALL) if edge.kind in WALL_KINDS else edge for edge in area.edges)
    drains = tuple(
        Drain(f"X-{number}", "drain", at=chance.choice(area.outline), diameter=0.1)
        for number in range(chance.randint(0, 3))
    )
    return replace(area, edges=edges, drains=(*area.drains, *drains))


@pytest.mark.parametrize("seed", SEEDS)
def test_no_water_is_lost_or_counted_twice(seed: int) -> None:
    """Plan to within what rounding to ticks leaves; half of the walls to within one of their ends."""
    chance = random.Random(seed)
    roof = odd_roof(seed) if seed % 2 else seeded_roof(seed)
    for basin in basins_of([drained(area, chance) for area in roof.areas]):
        found = catchment(basin, PRIMARY_KINDS)
        parts = (*found.shares, *found.loose)
        whole = sum(plan_area_m2(area) for _, area in basin.areas)
        assert sum(part.plan_m2 for part in parts) == pytest.approx(whole, rel=1e-4, abs=0.01)
        walls = [edge for _, area in basin.areas for edge in area.edges if edge.kind in WALL_KINDS]
        half = sum(edge_length_m(edge) for edge in walls) * WALL / 2
        assert sum(part.half_walls_m2 for part in parts) == pytest.approx(half, rel=0.01, abs=0.05)
