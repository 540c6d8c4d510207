"""Zones drawn on outlines: counted by hand, and the same however the roof is typed or turned."""

from __future__ import annotations

import math
from itertools import pairwise

import pytest

from lapwright.geometry.overlay import common
from lapwright.units.read import quantity_si
from lapwright.wind.zones import bands, zone_areas_m2, zone_shapes

L_SHAPE = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (15.0, 20.0), (15.0, 40.0), (0.0, 40.0)]
LOW_PART = [(0.0, 0.0), (40.0, 0.0), (40.0, 20.0), (0.0, 20.0)]
HIGH_PART = [(0.0, 20.0), (15.0, 20.0), (15.0, 40.0), (0.0, 40.0)]


def areas(*outlines: list[tuple[float, float]], height: float = 5.0, standard: str = "ASCE 7-16") -> dict[str, float]:
    """Zone areas as a plain mapping."""
    return dict(zone_areas_m2(outlines, height=height, standard=standard))


def turned(outline: list[tuple[float, float]], degrees: float) -> list[tuple[float, float]]:
    """The outline turned about the origin and moved."""
    c, s = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return [(c * x - s * y + 7, s * x + c * y - 3) for x, y in outline]


def test_an_l_shape_counted_by_hand() -> None:
    """Five outside corners of 5 m² each; the middle is 28 x 8 + 3 x 20; the rest by bands of 3 m and 6 m."""
    found = areas(L_SHAPE)
    assert found["3"] == pytest.approx(5 * 0.2 * 25)
    assert found["1'"] == pytest.approx(28 * 8 + 3 * 20)
    within_three = 34 * 14 + 9 * 20
    assert found["1"] == pytest.approx(within_three - (28 * 8 + 3 * 20))
    assert found["2"] == pytest.approx(1100 - within_three - 25)


def test_a_ridge_between_two_areas_is_no_edge() -> None:
    """The L typed as two areas has the zones of the L typed as one."""
    assert areas(LOW_PART, HIGH_PART) == pytest.approx(areas(L_SHAPE), abs=1e-3)


@pytest.mark.parametrize("degrees", [17.0, 45.0, 90.0, 213.0])
def test_turning_the_roof_changes_nothing(degrees: float) -> None:
    """Zones depend on the outline alone, not on where north is or which way it was walked."""
    assert areas(turned(L_SHAPE, degrees)[::-1]) == pytest.approx(areas(L_SHAPE), abs=1e-3)


@pytest.mark.parametrize("degrees", [0.0, 31.0])
def test_two_skew_areas_a_tick_apart_are_one_roof(degrees: float) -> None:
    """Corners rounded to 1/80 mm leave slits and jogs, which draw no zones of their own."""
    low, high = turned(LOW_PART, degrees), turned(HIGH_PART, degrees)
    to_tick = [
        [(round(x * 80_000) / 80_000, round(y * 80_000) / 80_000 + 1.3e-5) for x, y in part] for part in (low, high)
    ]
    assert areas(*to_tick) == pytest.approx(areas(L_SHAPE), abs=0.05)


@pytest.mark.parametrize(
    ("outline", "height"),
    [(L_SHAPE, 3.0), (L_SHAPE, 12.0), (L_SHAPE, 30.0), ([(0.0, 0.0), (30.0, 5.0), (18.0, 40.0), (-9.0, 22.0)], 6.0)],
)
def test_zones_cover_the_roof_once(outline: list[tuple[float, float]], height: float) -> None:
    """Zone areas add up to the outline's and no two zones overlap."""
    shapes = zone_shapes([outline], height=height, standard="ASCE 7-16")
    ring = [*outline, outline[0]]
    whole = abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise(ring))) / 2
    assert sum(shape.area for shape in shapes.values()) == pytest.approx(whole, rel=1e-6)
    names = list(shapes)
    for one in range(len(names)):
        for other in range(one):
            assert shapes[names[one]].intersection(shapes[names[other]]).area == pytest.approx(0, abs=1e-6)


def test_a_roof_twice_as_wide_as_high_has_no_middle() -> None:
    """No zone 1' at a width of 2.4 h or less, no zone 1 at 1.2 h or less."""
    square = [(0.0, 0.0), (24.0, 0.0), (24.0, 24.0), (0.0, 24.0)]
    assert areas(square, height=10.0)["1'"] == 0
    assert areas(square, height=9.9)["1'"] == pytest.approx((24 - 23.76) ** 2)
    small = [(0.0, 0.0), (18.0, 0.0), (18.0, 18.0), (0.0, 18.0)]
    assert areas(small, height=15.0)["1"] == 0
    assert areas(small, height=14.0)["1"] == pytest.approx((18 - 16.8) ** 2)


def test_two_buildings_keep_their_own_edges() -> None:
    """Areas that do not touch are drawn apart."""
    far = [(x + 100, y) for x, y in LOW_PART]
    apart, one = areas(LOW_PART, far), areas(LOW_PART)
    assert apart == pytest.approx({zone: 2 * area for zone, area in one.items()})


@pytest.mark.parametrize(
    ("least", "height", "width"),
    [
        ("100 ft", "30 ft", "10 ft"),
        ("60 ft", "12 ft", "4.8 ft"),
        ("20 ft", "12 ft", "3 ft"),
        ("300 ft", "20 ft", "12 ft"),
    ],
)
def test_the_old_band_by_its_four_limits(least: str, height: str, width: str) -> None:
    """7-10: the smaller of a tenth of the least dimension and 0.4 h, but not under 4 % of it nor 3 ft."""
    found = bands(quantity_si(least), height=quantity_si(height), standard="ASCE 7-10")
    assert found.outer == pytest.approx(quantity_si(width))
    assert (found.leg_length, found.leg_width) == (found.outer, found.outer)


def test_the_old_corners_are_squares() -> None:
    """7-10 on 30 x 20 m, 10 m high: band 2 m, four corners of 2 x 2 m."""
    found = areas([(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)], height=10.0, standard="ASCE 7-10")
    assert found == pytest.approx({"1": 26 * 16, "2": 600 - 26 * 16 - 16, "3": 16})


def test_over_sixty_feet_a_corner_has_legs_of_two_widths() -> None:
    """30 x 20 m, 25 m high: band 2 m, each corner an L of 4 m legs, 2 m wide: 12 m²."""
    found = areas([(0.0, 0.0), (30.0, 0.0), (30.0, 20.0), (0.0, 20.0)], height=25.0)
    assert found == pytest.approx({"1": 26 * 16, "2": 600 - 26 * 16 - 48, "3": 48})


def test_a_turned_roof_with_two_yards_keeps_its_corners_apart() -> None:
    """Found by random roofs: the library, without a grid, took a corner for a part of the field."""
    outline = [(-33.18069691938062, -33.287255097772864), (5.772473939715276, -72.115730216197),
               (38.9531708590959, -38.82847511842413), (0.0, 0.0)]  # fmt: skip
    yards = [
        [(-22.58657840560416, -25.492086535383798), (-14.79594423378498, -33.257781559068626),
         (-11.266082859382784, -29.716584208241727), (-19.056717031201966, -21.9508891845569)],
        [(7.120937021497802, -31.101322414583308), (9.245655431993942, -33.21923923922462),
         (12.069544531515698, -30.386281358563103), (9.944826121019558, -28.268364533921787)],
    ]  # fmt: skip
    found = zone_shapes([outline], height=25.0, standard="ASCE 7-10", yards=yards)
    assert sum(shape.area for shape in found.values()) == pytest.approx(2518, rel=1e-6)
    assert found["3"].area == pytest.approx(265.08, rel=1e-6)
    assert common(found["1"], found["3"]).area == pytest.approx(0, abs=1e-6)


SQUARE_FOOT = 0.3048**2


def in_feet(*corners: tuple[float, float]) -> list[tuple[float, float]]:
    """Corners typed in feet [m]."""
    return [(x * 0.3048, y * 0.3048) for x, y in corners]


def test_a_courtyard_counted_by_hand() -> None:
    """96' x 60', a courtyard of 24' x 20' at 36', 24'; h 16 ft: bands of 9.6 ft and 19.2 ft.

    Zone 3: four corners of 2 x 3.2 x 9.6 - 3.2 x 3.2 = 51.2, 204.8 sf.  Edge band 96 x 60 - 76.8 x 40.8 = 2,626.56;
    band round the courtyard, its corners mitred, 43.2 x 39.2 - 480 = 1,213.44, of which 43.2 x 3.2 = 138.24 lies in the
    edge band.  Zone 2: 2,626.56 + 1,213.44 - 138.24 - 204.8 = 3,496.96.  Zone 1: 5,280 - 3,496.96 - 204.8 = 1,578.24:
    no place is 19.2 ft from both.
    """
    wing = in_feet((0, 0), (96, 0), (96, 60), (0, 60))
    court = in_feet((36, 24), (60, 24), (60, 44), (36, 44))
    found = zone_areas_m2([wing], height=16 * 0.3048, standard="ASCE 7-16", yards=[court])
    by_feet = {zone: area / SQUARE_FOOT for zone, area in found.items() if area > 1e-6}
    assert by_feet == pytest.approx({"1": 1578.24, "2": 3496.96, "3": 204.8}, abs=0.01)


def test_a_narrow_wing_with_a_corner_cut_off_counted_by_hand() -> None:
    """32' x 60' with 12' x 12' cut off, h 34 ft: nothing is 20.4 ft from all sides, so all is zone 2 or 3.

    Zone 3 reaches 6.8 ft in from each side, 20.4 ft from each corner: sides of 20, 17 and 32 ft wholly.
    Left for zone 2: beyond 6.8 ft 18.4 x 46.4 less a corner of 8.0167^2 / 2 (18.4 - (20 - 6.8 x 1.41421) = 8.0167):
    821.63; the west side's middle 6.8 x 19.2 = 130.56; the east side's 6.8 x 7.2 = 48.96.  1,001.15 of 1,848 sf.
    """
    tower = in_feet((0, 0), (20, 0), (32, 12), (32, 60), (0, 60))
    found = zone_areas_m2([tower], height=34 * 0.3048, standard="ASCE 7-16")
    by_feet = {zone: area / SQUARE_FOOT for zone, area in found.items() if area > 1e-6}
    assert by_feet == pytest.approx({"2": 1001.15, "3": 846.85}, abs=0.01)
