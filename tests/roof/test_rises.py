"""The wall of a higher part of the roof over a lower one."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.drains.capacity import check_drainage
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.rises import with_rises
from lapwright.roof.values import Area, Drain

FOOT = 24_384
FOOT_M = 0.3048


def part(name: str, west: int, east: int, height: float | None) -> Area:
    """A part of a roof from west to east, 60' deep, drained at its south side [ft]."""
    ring = [(west * FOOT, 0), (east * FOOT, 0), (east * FOOT, 60 * FOOT), (west * FOOT, 60 * FOOT)]
    drain = Drain("D", "drain", at=(((west + east) // 2 - west) * FOOT, 2 * FOOT), diameter=0.1)
    rows = [EdgeRow((1, 3), "metal_edge"), EdgeRow((2, 4), "expansion", 0.2)]
    area = make_area(name, ring, falls=(0.0, -1.0), slope=0.02, edges=rows, drains=[drain])
    return replace(area, roof_height=None if height is None else height * FOOT_M)


def walls_sf(areas: tuple[Area, ...]) -> list[list[float | None]]:
    """What rises over each side [sf]."""
    return [
        [None if edge.wall_over_m2 is None else edge.wall_over_m2 / FOOT_M**2 for edge in area.edges] for area in areas
    ]


def test_the_lower_part_has_the_wall_and_the_higher_none() -> None:
    """34' beside the building's 16', over 60': 18 x 60 = 1,080 sf over the lower part's east side."""
    found = walls_sf(with_rises([part("Wing", 0, 96, None), part("Tower", 96, 128, 34)], height=16 * FOOT_M))
    assert found == [[0.0, pytest.approx(1080), 0.0, 0.0], [0.0, 0.0, 0.0, 0.0]]


def test_parts_of_one_height_have_no_wall_between_them() -> None:
    """Neither where both have the building's, nor where both are typed alike."""
    for height in (None, 20.0):
        found = walls_sf(with_rises([part("A", 0, 50, height), part("B", 50, 90, height)], height=None))
        assert found == [[0.0] * 4] * 2


def test_half_of_the_wall_comes_to_the_drain_at_its_foot() -> None:
    """96 x 60 sf of roof and half of 18 x 60 sf of wall at 3 in/h, 1/96.23 gpm per sf and in/h: 196.4 gpm."""
    wing, _ = with_rises([part("Wing", 0, 96, None), part("Tower", 96, 128, 34)], height=16 * FOOT_M)
    check = check_drainage([wing], rain_primary=3 * 0.0254 / 3600)[0]
    assert check.demand is not None
    assert check.demand * 15_850.3 == pytest.approx((5760 + 540) * 3 / 96.23, rel=1e-3)


def test_an_unknown_height_makes_the_check_unknown() -> None:
    """The tower's height is typed, the building's is not: nobody knows the wall, and it is asked for."""
    areas = with_rises([part("Wing", 0, 96, None), part("Tower", 96, 128, 34)], height=None)
    check = check_drainage(areas, rain_primary=3 * 0.0254 / 3600)[0]
    assert (check.status, check.supply) == ("unknown", ("building.height",))
