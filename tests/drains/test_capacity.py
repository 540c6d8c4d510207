"""The primary storm against the ways out, and the slope that brings it there."""

from __future__ import annotations

from dataclasses import replace

import pytest
from drainroofs import BOX, ELL, FOOT_TICKS, area

from lapwright.drains.capacity import check_drainage
from lapwright.drains.slope import check_slope
from lapwright.roof.values import Drain, Opening
from lapwright.units.read import quantity_si

RAIN = quantity_si("3.75 in/h")
SOUTH_OPEN = ("metal_edge", "parapet", "parapet", "parapet")
ALL_ROUND = 4 * ("parapet",)
GUTTER = Drain("G-1", "gutter", side=1, width=quantity_si("6 in"), outlets=3)
MIDDLE = Drain("D-1", "drain", at=(0, 0), diameter=quantity_si("4 in"))


def gpm(value: float | None) -> float:
    """A flow in gallons a minute."""
    assert value is not None
    return value / quantity_si("1 gpm")


def test_the_contracts_roof_by_hand() -> None:
    """7,680 sf and half of 248 ft x 30 in of parapet, 3.75 in/h: 311.3 gpm, six half outlets of 51.9 gpm, 62.8 each."""
    (check,) = check_drainage((area(BOX, SOUTH_OPEN, drains=[GUTTER]),), rain_primary=RAIN)
    assert check.id == "drains.capacity-Main"
    assert gpm(check.demand) == pytest.approx((7680 + 310) * 3.75 * 0.0103896 / 6, rel=1e-3)
    assert gpm(check.capacity) == pytest.approx(62.8, abs=0.1)
    assert check.status == "pass"
    assert check.source
    assert check.confirm


@pytest.mark.parametrize(
    ("gutter", "status"),
    [
        (replace(GUTTER, outlets=2), "fail"),
        (replace(GUTTER, width=quantity_si("4 in")), "fail"),
        (replace(GUTTER, width=quantity_si("4 in"), height=quantity_si("5 in"), outlets=4), "pass"),
        (replace(GUTTER, diameter=quantity_si("3 in")), "fail"),
        (replace(GUTTER, diameter=quantity_si("4 in")), "pass"),
        (replace(GUTTER, side=3), "fail"),
    ],
)
def test_a_gutter_is_as_good_as_channel_and_leader(gutter: Drain, status: str) -> None:
    """Fewer outlets, a smaller channel, a 3 in leader (92 of 104 gpm) or the high side fail."""
    (check,) = check_drainage((area(BOX, SOUTH_OPEN, drains=[gutter]),), rain_primary=RAIN)
    assert check.status == status


def test_two_gutters_take_what_runs_to_each() -> None:
    """Water of the longer strip goes to its own gutter: 56 x 45 of 3,600 sf to three outlets, 40 x 27 to two."""
    drains = [replace(GUTTER, name="G-2", side=3, outlets=2), replace(GUTTER, name="G-3", side=5, outlets=3)]
    roof = area(ELL, ["ridge", "metal_edge", "metal_edge", "metal_edge", "metal_edge", "metal_edge"],
                falls=(0.0, 1.0), drains=drains)  # fmt: skip
    (check,) = check_drainage((roof,), rain_primary=RAIN)
    shares = [value for name, value in check.steps[1].values.items() if name.startswith("G-")]
    assert [gpm(share) for share in shares] == pytest.approx(
        [1080 * 3.75 * 0.0103896 / 2, 2520 * 3.75 * 0.0103896 / 3], rel=1e-3
    )


def test_drains_in_the_field_share_alike() -> None:
    """Four 4 in drains of 78 gpm pass their 192; one drain for all does not."""
    four = [replace(MIDDLE, name=f"D-{number}") for number in range(4)]
    roofs = [area(BOX, ALL_ROUND, drains=drains, height=0.3) for drains in (four, four[:1])]
    checks = [check_drainage((roof,), rain_primary=RAIN)[0] for roof in roofs]
    assert [check.status for check in checks] == ["pass", "fail"]
    assert checks[1].demand == pytest.approx(4 * checks[0].demand)


def test_a_scupper_is_full_when_its_top_is_reached() -> None:
    """12 x 6 in carries 2.9 x 12 x 6^1.5 = 511 gpm; 4 in high 278 gpm, under the 311 that come."""
    scupper = Drain("S-1", "scupper", side=1, from_start=3.0, width=quantity_si("12 in"), height=quantity_si("6 in"))
    (check,) = check_drainage((area(BOX, ALL_ROUND, drains=[scupper], height=0.1),), rain_primary=RAIN)
    assert (check.status, round(gpm(check.capacity))) == ("pass", 511)
    low = replace(scupper, height=quantity_si("4 in"))
    (check,) = check_drainage((area(BOX, ALL_ROUND, drains=[low], height=0.1),), rain_primary=RAIN)
    assert (check.status, round(gpm(check.capacity))) == ("fail", 278)


def test_water_held_where_no_gutter_is_finds_no_outlet() -> None:
    """A gutter in the south-east's open side takes nothing of what a parapet holds elsewhere."""
    roof = area(ELL, ["ridge", "metal_edge", "parapet", "metal_edge", "metal_edge", "metal_edge"],
                falls=(0.0, 1.0), drains=[replace(GUTTER, side=5, outlets=9)])  # fmt: skip
    (check,) = check_drainage((roof,), rain_primary=RAIN)
    assert check.status == "fail"
    assert "Water that runs to Main side 3 is held there and finds no outlet" in [step.text for step in check.steps]


def test_overflows_alone_do_not_drain() -> None:
    """A roof with nothing but overflows fails."""
    overflow = Drain("O-1", "overflow_drain", at=(0, 0), diameter=0.1, sill=0.05)
    (check,) = check_drainage((area(BOX, ALL_ROUND, drains=[overflow]),), rain_primary=RAIN)
    assert check.status == "fail"


@pytest.mark.parametrize(
    ("drains", "rain", "height", "supply"),
    [
        ([], RAIN, 0.762, ("roof[0].drains",)),
        ([GUTTER], None, 0.762, ("site.rain_primary",)),
        ([replace(GUTTER, width=None)], RAIN, 0.762, ("roof[0].drains[0].width",)),
        ([replace(GUTTER, outlets=None)], RAIN, 0.762, ("roof[0].drains[0].outlets",)),
        ([replace(GUTTER, side=None)], RAIN, 0.762, ("roof[0].drains[0].side",)),
        ([MIDDLE, replace(MIDDLE, diameter=None)], RAIN, 0.762, ("roof[0].drains[1].diameter",)),
        ([Drain("S", "scupper", side=1, from_start=3.0, width=0.3)], RAIN, 0.762, ("roof[0].drains[0].height",)),
        ([MIDDLE, replace(MIDDLE, at=None)], RAIN, 0.762, ("roof[0].drains[1].at",)),
        (
            [Drain("S", "scupper", width=0.3, height=0.1)],
            RAIN,
            0.762,
            ("roof[0].drains[0].side", "roof[0].drains[0].from_start"),
        ),
        ([GUTTER], RAIN, None, tuple(f"roof[0].edges[{index}].height" for index in (1, 2, 3))),
    ],
)
def test_without_a_size_it_is_unknown(
    drains: list[Drain], rain: float | None, height: float | None, supply: tuple[str, ...]
) -> None:
    """Each missing value alone leaves the check unknown and names its key."""
    (check,) = check_drainage((area(BOX, SOUTH_OPEN, drains=drains, height=height),), rain_primary=rain)
    assert (check.status, check.supply) == ("unknown", supply)


def test_areas_round_a_valley_share_its_drains() -> None:
    """Drains typed with one area serve both; the check is one, named for both."""
    south = area(((0, 0), (96, 0), (96, 30), (0, 30)), ["metal_edge", "parapet", "valley", "parapet"],
                 falls=(0.0, 1.0), name="South", drains=[MIDDLE, replace(MIDDLE, name="D-2")])  # fmt: skip
    north = area(((0, 30), (96, 30), (96, 60), (0, 60)), ["valley", "parapet", "metal_edge", "parapet"],
                 falls=(0.0, -1.0), name="North")  # fmt: skip
    (check,) = check_drainage((south, north), rain_primary=RAIN)
    assert (check.id, check.status) == ("drains.capacity-South + North", "pass")
    assert gpm(check.demand) == pytest.approx((5760 + 120 * 2.5 / 2) * 3.75 * 0.0103896 / 2, rel=1e-3)


@pytest.mark.parametrize(
    ("slope", "work", "status"),
    [
        ("1/4 in 12", "new", "pass"),
        ("2 %", "new", "fail"),
        ("1/2 in 12", "recover", "pass"),
        ("1/8 in 12", "tear_off", "unknown"),
        ("1/4 in 12", None, "unknown"),
    ],
)
def test_a_quarter_in_twelve_is_more_than_two_percent(slope: str, work: str | None, status: str) -> None:
    """New work fails at 2 %; an existing slope under 1/4 in 12 is for the engineer to let stand."""
    roof = replace(area(BOX, SOUTH_OPEN), slope=quantity_si(slope))
    (check,) = check_slope((roof,), work=work)
    assert (check.id, check.status) == ("drains.slope-Main", status)
    assert (check.status == "unknown") == bool(check.supply)


def test_a_gutter_under_a_fall_that_follows_no_side_by_hand() -> None:
    """24.6 m x 13.2 m falling 10 degrees off the square, half walls and all 318.23 m2 to the gutter, 40 mm/h.

    3.536 L/s to three outlets, half of each from either side: 0.589 L/s.  A level channel 150 mm wide, 75 mm deep:
    0.9 x 0.15 x 3.1316 x (0.075 / 1.73205)^1.5 = 0.135 x 3.1316 x 0.0090107 = 3.809 L/s.
    """
    metre = 1 / 0.3048
    roof = area(
        ((0, 0), (24.6 * metre, 0), (24.6 * metre, 13.2 * metre), (0, 13.2 * metre)),
        ("metal_edge", "metal_edge", "parapet", "parapet"),
        falls=(0.173648, -0.984808),
        height=0.5,
        drains=[Drain("G", "gutter", side=1, width=0.15, outlets=3)],
    )
    (check,) = check_drainage((roof,), rain_primary=quantity_si("40 mm/h"))
    assert check.demand == pytest.approx(0.000589, abs=1e-6)
    assert check.capacity == pytest.approx(0.003809, abs=1e-6)


def test_a_drains_sheet_shows_the_rows_of_the_tables_it_goes_by() -> None:
    """A 4 in leader: 18,400 sf at 1 in/h; over a 4 in drain 1 in stands at 80 gpm, 2 in at 170 [from memory]."""
    (check,) = check_drainage((area(BOX, ALL_ROUND, drains=[MIDDLE]),), rain_primary=quantity_si("0.1 in/h"))
    put_in = {
        name: value for step in check.steps if step.text.startswith("D-1: ") for name, value in step.values.items()
    }
    assert put_in["A at 1 in/h [m2]"] == pytest.approx(18_400 * 0.3048**2)
    assert put_in["at 80 gpm [m]"] == pytest.approx(0.0254)
    assert put_in["at 170 gpm [m]"] == pytest.approx(0.0508)


def test_openings_counted_as_roof_are_told() -> None:
    """A court of 24 ft by 22 ft in 7,680 sf: the flow counts all of it, and the sheet says that 528 sf are no roof."""
    hole = Opening("COURT", "shaft", (10 * FOOT_TICKS, 10 * FOOT_TICKS), (24 * FOOT_TICKS, 22 * FOOT_TICKS))
    roof = replace(area(BOX, SOUTH_OPEN, drains=[GUTTER]), openings=(hole,))
    (check,) = check_drainage((roof,), rain_primary=RAIN)
    told = {step.text.partition(",")[0]: step for step in check.steps}
    assert told["Openings and courtyards in A"].result == pytest.approx(528 * 0.3048**2)
    assert gpm(check.demand) == pytest.approx((7680 + 310) * 3.75 * 0.0103896 / 6, rel=1e-3)
