"""Blocked drains and the secondary storm: where the water leaves and how deep it stands."""

from __future__ import annotations

from dataclasses import replace

import pytest
from drainroofs import BOX, ELL, area

from lapwright.defaults.rules import make_rules
from lapwright.drains.overflow import check_overflow
from lapwright.roof.values import Area, Drain
from lapwright.units.read import quantity_si
from lapwright.verdict import Check

RAIN = quantity_si("6.5 in/h")
SOUTH_OPEN = ("metal_edge", "parapet", "parapet", "parapet")
ALL_ROUND = 4 * ("parapet",)
DRAIN = Drain("D-1", "drain", at=(0, 0), diameter=quantity_si("6 in"))
SCUPPER = Drain(
    "OS-1",
    "overflow_scupper",
    side=1,
    from_start=3.0,
    width=quantity_si("24 in"),
    height=quantity_si("6 in"),
    sill=quantity_si("2 in"),
)


def overflow(roof: Area, rain: float | None = RAIN) -> Check:
    """The one check of a roof."""
    (check,) = check_overflow((roof,), make_rules({}), rain_secondary=rain)
    return check


def test_a_free_low_edge_is_overflow_enough() -> None:
    """By hand: 540 gpm over 1,440 in of edge stand (540 / 2.9 / 1440)^(2/3) = 0.256 in deep."""
    check = overflow(area(BOX, SOUTH_OPEN, drains=[DRAIN]))
    assert (check.id, check.status) == ("drains.overflow-Main", "pass")
    assert check.demand == pytest.approx(quantity_si("0.256 in"), rel=5e-3)
    assert "runs over the free low edge" in check.steps[1].text


def test_the_edge_that_takes_most_for_its_length_counts() -> None:
    """By hand: 56 ft of edge under 45 ft of roof take 2,520 sf, 40 ft under 27 ft take 1,080 sf.

    0.01039 x 2,520 x 6.5 = 170.2 gpm over 672 in stand (170.2 / 2.9 / 672)^(2/3) = 0.197 in; the mean of both edges
    together would be 0.174 in.
    """
    check = overflow(area(ELL, ("ridge", *5 * ("metal_edge",)), falls=(0.0, 1.0), height=None))
    assert check.demand == pytest.approx(quantity_si("0.197 in"), rel=5e-3)
    assert "Main side 5" in check.steps[2].text


def test_parapets_all_round_want_an_overflow() -> None:
    """Drains alone fail; a scupper high enough over the roof and wide enough passes."""
    assert overflow(area(BOX, ALL_ROUND, drains=[DRAIN])).status == "fail"
    assert overflow(area(BOX, ALL_ROUND, drains=[DRAIN, SCUPPER])).status == "pass"


def test_heads_and_load_as_the_published_example_has_them() -> None:
    """11,500 sf, 1.5 in/h, 12 in channel, sill 2 in up: Q 179 gpm, dh 3 in, 26 psf (ASCE 7-10 commentary)."""
    twelve = replace(SCUPPER, width=quantity_si("12 in"), height=quantity_si("8 in"))
    roof = area(((0, 0), (115, 0), (115, 100), (0, 100)), ALL_ROUND, drains=[DRAIN, twelve], height=1e-9)
    check = overflow(roof, rain=quantity_si("1.5 in/h"))
    assert check.demand == pytest.approx(quantity_si("5 in"), abs=quantity_si("0.05 in"))
    (load,) = [step for step in check.steps if step.unit == "Pa"]
    assert load.result == pytest.approx(quantity_si("26 psf"), abs=quantity_si("0.5 psf"))
    assert "no verdict on the structure" in load.text


@pytest.mark.parametrize(
    ("changed", "status"),
    [
        ({"sill": quantity_si("5 in")}, "fail"),
        ({"width": quantity_si("8 in")}, "fail"),
        ({"width": quantity_si("48 in"), "sill": quantity_si("4 in")}, "pass"),
    ],
)
def test_water_must_leave_under_the_flashings(changed: dict[str, float], status: str) -> None:
    """Sill and head together stay within the 8 in of the flashings, or it fails."""
    assert overflow(area(BOX, ALL_ROUND, drains=[DRAIN, replace(SCUPPER, **changed)])).status == status


def test_overflow_drains_stand_by_their_table() -> None:
    """Three 6 in overflow drains of 187 gpm stand 2 in deep over sills of 2 in; one of 561 gpm is past the table."""
    one = Drain("OD-1", "overflow_drain", at=(0, 0), diameter=quantity_si("6 in"), sill=quantity_si("2 in"))
    three = [replace(one, name=f"OD-{number}") for number in range(3)]
    passed = overflow(area(BOX, ALL_ROUND, drains=[DRAIN, *three]))
    assert passed.status == "pass"
    assert passed.demand == pytest.approx(quantity_si("4 in"), abs=quantity_si("0.1 in"))
    failed = overflow(area(BOX, ALL_ROUND, drains=[DRAIN, one]))
    assert (failed.status, failed.demand) == ("fail", None)


@pytest.mark.parametrize(
    ("kinds", "drains", "rain", "height", "supply"),
    [
        (SOUTH_OPEN, [], None, 0.762, ("site.rain_secondary",)),
        (SOUTH_OPEN, [], RAIN, None, tuple(f"roof[0].edges[{index}].height" for index in (1, 2, 3))),
        ((None, *SOUTH_OPEN[1:]), [], RAIN, 0.762, ("roof[0].edges[0].kind",)),
        (ALL_ROUND, [], RAIN, 0.762, ("roof[0].drains",)),
        (ALL_ROUND, [replace(SCUPPER, sill=None)], RAIN, 0.762, ("roof[0].drains[0].sill",)),
        (ALL_ROUND, [replace(SCUPPER, width=None)], RAIN, 0.762, ("roof[0].drains[0].width",)),
        (ALL_ROUND, [replace(SCUPPER, height=None)], RAIN, 0.762, ("roof[0].drains[0].height",)),
    ],
)
def test_what_is_missing_is_asked_for(
    kinds: tuple[str, ...], drains: list[Drain], rain: float | None, height: float | None, supply: tuple[str, ...]
) -> None:
    """Each missing value alone leaves the check unknown; drains are not asked for where the edge is free."""
    check = overflow(area(BOX, kinds, drains=drains, height=height), rain)
    assert (check.status, check.supply) == ("unknown", supply)


def test_more_rain_never_stands_lower() -> None:
    """Depth grows with the storm."""
    roof = area(BOX, ALL_ROUND, drains=[DRAIN, SCUPPER])
    depths = [overflow(roof, quantity_si(f"{rate} in/h")).demand for rate in (1, 3, 6, 9)]
    assert depths == sorted(depths)
    assert len(set(depths)) == 4


METRE = 1 / 0.3048
OBLIQUE = area(
    ((0, 0), (24.6 * METRE, 0), (24.6 * METRE, 13.2 * METRE), (0, 13.2 * METRE)),
    ("metal_edge", "metal_edge", "parapet", "parapet"),
    falls=(0.173648, -0.984808),
    height=0.5,
)


def test_a_fall_that_follows_no_side_by_hand() -> None:
    """24.6 m x 13.2 m falling 10 degrees off the square, parapets of 500 mm on the high sides, 70 mm/h.

    Over the end runs the triangle 13.2 x 13.2 tan 10 = 2.3275 wide: 15.36 m2.  The long side takes 324.72 - 15.36 =
    309.36 m2 and half of 0.5 x (24.6 + 13.2 - 2.3275) = 8.868 m2: 318.23 m2 x 70 mm/h = 6.188 L/s = 98.08 gpm over
    968.5 in.  (98.08 / 2.9 / 968.5)^(2/3) = 0.1068 in = 2.71 mm.
    """
    check = overflow(OBLIQUE, rain=quantity_si("70 mm/h"))
    assert check.demand == pytest.approx(0.00271, abs=0.00001)


def test_what_can_not_be_checked_names_who_confirms_it_all_the_same() -> None:
    """Without the storm no verdict, but the engineer is named."""
    check = overflow(OBLIQUE, rain=None)
    assert check.status == "unknown"
    assert "engineer of record" in check.confirm


def test_the_sheet_says_what_the_depth_is_measured_against() -> None:
    """The rule for flashings, 8 in, stands in a step with the depth."""
    step = next(step for step in overflow(OBLIQUE).steps if "flashings" in step.text)
    assert step.values == {"flashing_height [m]": pytest.approx(0.2032)}
