"""Primer, mastic and caulk by the pencil."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from order_jobs import (
    BOARDED,
    FOOT,
    INCH,
    Detail,
    details_of,
    end_lap,
    flashing,
    make_area,
    make_layout,
    make_needs,
    metal_details,
    nailed,
    piece,
)

from lapwright.order.wet import want_caulk, want_mastic, want_primer
from lapwright.roof.values import Drain, Opening, Pipe
from lapwright.units.read import coverage_m2_m3

SIDES = ["metal_edge", "ridge", "ridge", "ridge"]
CURB = Opening("RTU-1", "curb", (5 * FOOT, 5 * FOOT), (4 * FOOT, 5 * FOOT))
ROOF = make_area([(0, 0), (40, 0), (40, 25), (0, 25)], SIDES, openings=(CURB,))
METAL = metal_details(ROOF, 1, [10.0] * 4)
STRIP = Detail("Main/side 1/strip 1", "strip", "Main", "side 1", "base-sa", "strip", 12.192, 0.2286)
GALLON_IN3 = 231.0  # by definition


def test_primer_covers_the_board_and_both_faces_of_the_flange() -> None:
    """980 sf of board (1000 less a curb of 20) and 2 × 40 ft × 4" of flange at 200 sf/gal: 5.0333 gal."""
    (want,) = want_primer(make_needs(ROOF, make_layout(pieces=(piece("base", 1),), details=METAL)))
    gallons = 980 / 200 + 2 * 40 * (4 / 12) / 200
    assert want.needed == pytest.approx(gallons / 5, rel=1e-12)
    assert want.ids == ("Main/base/01/1", *(one.id for one in METAL))
    assert (
        want.basis
        == "980 sf board or deck at 200 sf/gal, 26.7 sf metal flange at 200 sf/gal: 5.03 gal in pails of 5 gal"
    )


def test_bare_decks_and_walls_take_more_primer() -> None:
    """980 sf of concrete at 160 sf/gal, and 30 ft of wall with 14" of wall and cant: 35 sf at 160 sf/gal."""
    walls = tuple(flashing("side 2", k, 3 * k, 3 * k + 3) for k in range(10))
    bare = replace(BOARDED, cover_board=None)
    (want,) = want_primer(make_needs(ROOF, make_layout(details=walls), assembly=bare))
    assert want.needed == pytest.approx((980 / 160 + 35 / 160) / 5, rel=1e-12)
    assert (want.rate.origin, want.rate.source[:8]) == ("published", "Canadian") if want.rate else False


def test_a_nailed_base_leaves_the_board_unprimed() -> None:
    """Only the flange: 26.667 sf at 200 sf/gal; without metal, no primer at all."""
    needs = make_needs(ROOF, make_layout(details=METAL), assembly=nailed(BOARDED))
    (want,) = want_primer(needs)
    assert want.needed == pytest.approx(2 * 40 * (4 / 12) / 200 / 5, rel=1e-12)
    assert list(want_primer(make_needs(ROOF, make_layout(), assembly=nailed(BOARDED)))) == []


def test_the_jobs_own_coverage_is_used_and_shown() -> None:
    """160 sf/gal in the job file: 1006.667 sf are 6.2917 gal; the default stands beside it."""
    own = {"primer": coverage_m2_m3("160 sf/gal")}
    (want,) = want_primer(make_needs(ROOF, make_layout(details=METAL), coverage=own))
    assert want.needed == pytest.approx((980 + 2 * 40 * 4 / 12) / 160 / 5, rel=1e-12)
    assert want.rate is not None
    assert (want.rate.key, want.rate.text, want.rate.default, want.rate.origin) == (
        "materials.primer.coverage",
        "160 sf/gal",
        "200 sf/gal",
        "job file",
    )


def test_mastic_beds_the_metal_and_fills_two_joints_in_two_plies() -> None:
    """480" × 4" × 3/16" of bed and 2 × 480" of joint, 1" × 1/4": 360 + 240 in³ are 2.597 gal."""
    (want,) = want_mastic(make_needs(ROOF, make_layout(details=(*METAL, STRIP))))
    assert want.needed == pytest.approx((360 + 240) / GALLON_IN3 / 5, rel=1e-12)


def test_mastic_in_three_plies_has_no_strip_to_meet() -> None:
    """Without strips only the metal's own joint: 360 + 120 in³."""
    (want,) = want_mastic(make_needs(ROOF, make_layout(details=METAL)))
    assert want.needed == pytest.approx((360 + 120) / GALLON_IN3 / 5, rel=1e-12)


def test_five_gallons_cover_about_sixty_square_feet_at_an_eighth() -> None:
    """Common practice, no source: 1/8" thick, 5 gal for about 60 sf. 144 × 60 in² × 1/8" are 1080 in³, 4.68 gal."""
    long = metal_details(ROOF, 1, [10.0] * 18)  # 180 ft × 4" are 60 sf
    own = {"mastic": coverage_m2_m3("12.834 sf/gal")}  # a bed of 1/8": 231 in³ over 1848 in²
    (want,) = want_mastic(make_needs(ROOF, make_layout(details=long), coverage=own))
    joint = 180 * 12 * 0.25 / GALLON_IN3
    assert want.needed * 5 - joint == pytest.approx(4.68, abs=0.01)


def test_drains_are_set_in_mastic() -> None:
    """One lead of 30" by 30" in 3/16": 168.75 in³; a gutter takes none."""
    roof = make_area(
        [(0, 0), (10, 0), (10, 10), (0, 10)],
        ["ridge"] * 4,
        drains=(Drain("D-1", "drain", at=(1, 1)), Drain("G-1", "gutter")),
    )
    (want,) = want_mastic(make_needs(roof, make_layout(details=details_of(roof, "drain_metal"))))
    assert want.needed == pytest.approx(168.75 / GALLON_IN3 / 5, rel=1e-12)
    assert want.ids == ("Main/D-1/drain metal",)


def test_caulk_runs_along_metal_and_every_cut_edge() -> None:
    """480" of 1/2" × 1/4" at the metal; 1/4" beads on 2 end laps of 36", 4 corners of 5", 36" of foot, a 4" pipe."""
    roof = make_area([(0, 0), (40, 0), (40, 25), (0, 25)], SIDES, pipes=(Pipe("V-1", (FOOT, FOOT), 4 * INCH),))
    foot = flashing("side 2", 1, 0, 3, ply="cap", sheet="cap-sa")
    backer = flashing("side 2", 1, 0, 3)
    layout = make_layout(
        pieces=(piece("cap", 1, cuts=1), piece("cap", 2, cuts=3)),
        details=(*METAL, foot, backer, *details_of(roof, "pipe_flashing")),
        laps=(end_lap(1), end_lap(2)),
    )
    (want,) = want_caulk(make_needs(roof, layout))
    cubic_inches = 480 * 0.5 * 0.25 + (2 * 36 + 4 * 5 + 36 + math.pi * 4) * 0.25 * 0.25
    assert want.needed == pytest.approx(cubic_inches * 16.387064e-6 / 300e-6, rel=1e-9)


def test_a_job_with_nothing_to_seal_orders_no_caulk() -> None:
    """No metal, no cut edge, no drain."""
    roof = make_area([(0, 0), (10, 0), (10, 10), (0, 10)], ["ridge"] * 4)
    assert (list(want_caulk(make_needs(roof, make_layout()))), list(want_mastic(make_needs(roof, make_layout())))) == (
        [],
        [],
    )


def test_each_drain_takes_a_tube() -> None:
    """Common practice, no source."""
    roof = make_area([(0, 0), (10, 0), (10, 10), (0, 10)], ["ridge"] * 4, drains=(Drain("D-1", "drain", at=(1, 1)),))
    layout = make_layout(details=details_of(roof, "drain_metal"))
    assert [want.needed for want in want_caulk(make_needs(roof, layout))] == [1.0]
