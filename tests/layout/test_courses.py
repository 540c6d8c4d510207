"""Course lines and starters, against what a foreman works out on a board."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import FOOT, GRID, inches

from lapwright.layout.courses import Band, Conflict, Stack, lap_lines, least_offset, plan_lines

STACK = Stack(inches(18), inches(12), inches(12), GRID)
WIDTH, LAP = inches(39.375), inches(3)


def bands(base_begins: float, cap_begins: float, ends: float) -> list[Band]:
    """Two plies of the default sheet [in]."""
    return [
        Band("base", WIDTH, LAP, inches(base_begins), inches(ends)),
        Band("cap", WIDTH, LAP, inches(cap_begins), inches(ends)),
    ]


def test_pitch_of_a_full_sheet() -> None:
    """A 39 3/8" sheet with a 3" lap advances 36 3/8" a course (common practice, no source)."""
    first, second, *_ = lap_lines(bands(0, 0, 200)[1], WIDTH)
    assert second - first == inches(36.375)


def test_starter_with_both_plies_at_the_edge_line() -> None:
    """Both plies at the edge line: 21" to 21 3/8" keeps 18"; the middle, 21 3/16", leaves 3/16" (counted by hand)."""
    base, cap = plan_lines(bands(0, 0, 360), STACK)
    assert base.starter == inches(21 + 3 / 16)
    assert least_offset(base.lines, cap.lines) == inches(18 + 3 / 16)


def test_starter_with_base_past_and_cap_held_back() -> None:
    """Base 2" past, cap 1/2" back: 23 1/2" to 23 7/8" keeps 18"; the middle is 23 11/16" (counted by hand)."""
    base, _ = plan_lines(bands(-2, 0.5, 360), STACK)
    assert base.starter == inches(23 + 11 / 16)


@pytest.mark.parametrize("width", [23.5, 23.875])
def test_ends_of_the_starter_range_just_keep_the_offset(width: float) -> None:
    """At both ends of the range the side laps are exactly 18" apart somewhere, and 1/16" further out they are not."""
    base, cap = bands(-2, 0.5, 360)
    lines = lap_lines(cap, WIDTH)
    outward = -1 if width == 23.5 else 1
    assert least_offset(lap_lines(base, inches(width)), lines) == inches(18)
    assert least_offset(lap_lines(base, inches(width) + outward * GRID), lines) == inches(18) - GRID


def test_half_width_start_fails() -> None:
    """A half-width start, 19 11/16" with both plies at the edge, stays 16 11/16" apart, under 18"."""
    base, cap = bands(0, 0, 360)
    assert least_offset(lap_lines(base, inches(19.6875)), lap_lines(cap, WIDTH)) == inches(16.6875)


def test_first_cap_course_is_a_full_sheet() -> None:
    """The cap's first lap line lies one pitch above where the cap begins."""
    _, cap = plan_lines(bands(-2, 0.5, 360), STACK)
    assert cap.lines[0] == inches(0.5 + 36.375)
    assert cap.courses()[0].high - cap.courses()[0].low == WIDTH


def test_courses_of_a_slope() -> None:
    """n = ceil((S - lap)/(W - lap)): 64' less 1/2" of cap takes 22 courses (767.5 - 3)/36.375 = 21.02."""
    assert len(plan_lines(bands(-2, 0.5, 64 * 12), STACK)[1].courses()) == 22


def test_narrow_top_course_is_widened_within_the_play() -> None:
    """64' of slope leaves the cap 3 5/8" at the top; 20 courses can give 20 x 3/8" = 7 1/2", not the 8 3/8" needed.

    With 70' the top is 2 5/8"... the play of a long slope suffices: every offset stays 18" and the top is 12" or more.
    """
    long_slope = 0.5 + 36.375 * 40 + 4.0
    base, cap = plan_lines(bands(-2, 0.5, long_slope), STACK)
    assert cap.top_exposed >= inches(12)
    assert base.top_exposed >= inches(12)
    assert least_offset(base.lines, cap.lines) == inches(18)
    assert cap.exceptions == ()


def test_short_slope_comes_closer_beside_the_ripped_top_course() -> None:
    """0.5 + 5 x 36.375 + 4: the top needs 8" more, four courses can give 1 1/2": the lap goes half-way, (36 3/8 - 8)/2.

    Half-way between lines 28 3/8" apart is 14 3/16" (counted by hand), over the 12" allowed there.
    """
    base, cap = plan_lines(bands(-2, 0.5, 0.5 + 36.375 * 5 + 4), STACK)
    assert cap.top_exposed == inches(12)
    assert least_offset(base.lines, cap.lines) == inches(14 + 3 / 16)
    assert cap.exceptions == ("offset_at_rip",)


def test_offset_at_rip_as_strict_as_the_rule_is_refused() -> None:
    """Where `ply_offset_at_rip` asks for 18" as well, no layout keeps both rules and the greatest offset is told.

    With the cap alone coming closer, three courses give 3/8" each to the one below the top, which then shows 29 1/2":
    half of it is 14 3/4".  With both plies ripped at the top more can be had, and what is told can be had.
    """
    strict = Stack(inches(18), inches(18), inches(12), GRID)
    slope = bands(-2, 0.5, 0.5 + 36.375 * 5 + 4)
    with pytest.raises(Conflict) as told:
        plan_lines(slope, strict)
    assert told.value.rule == "ply_offset"
    most = dict(told.value.others)["ply_offset_at_rip"]
    assert most >= inches(14.75)
    base, cap = plan_lines(slope, replace(strict, offset_at_rip=most))
    gap = least_offset(base.lines, cap.lines)
    assert gap is not None
    assert gap >= most


def test_different_pitches_drift_and_are_refused() -> None:
    """Base lap 3" under cap lap 4": 1" of drift a course, so 18" can't be kept up 60' of slope."""
    base = Band("base", WIDTH, inches(3), 0, 60 * FOOT)
    cap = Band("cap", WIDTH, inches(4), 0, 60 * FOOT)
    with pytest.raises(Conflict) as told:
        plan_lines([base, cap], STACK)
    assert told.value.rule == "ply_offset"
    assert told.value.greatest < inches(18)


def test_half_roll_start_under_a_wider_cap_lap_drifts_below_twelve_inches() -> None:
    """Base 3" laps under cap 4" laps from a half-roll start fall below 12" at the 8th cap side lap, 23.6 ft up.

    Source: trade notes, layout trap 2, computed there by another hand.
    """
    base = lap_lines(Band("base", WIDTH, inches(3), 0, inches(700)), inches(19.6875))
    cap = lap_lines(Band("cap", WIDTH, inches(4), 0, inches(700)), WIDTH)
    gaps = [least_offset([line], base) for line in cap]
    assert [gap is not None and gap < inches(12) for gap in gaps[:8]] == [False] * 7 + [True]
    assert cap[7] / FOOT == pytest.approx(23.6, abs=0.05)


def test_three_plies_alternate() -> None:
    """Base, interply and cap: each keeps 18" from its neighbour; base and cap may lie in line."""
    stack = [
        Band("base", WIDTH, LAP, inches(0.5), inches(360)),
        Band("interply", WIDTH, LAP, inches(-2), inches(360)),
        Band("cap", WIDTH, LAP, inches(0.5), inches(360)),
    ]
    base, interply, cap = plan_lines(stack, STACK)
    assert least_offset(base.lines, interply.lines) == inches(18 + 3 / 16)
    assert least_offset(interply.lines, cap.lines) == inches(18 + 3 / 16)


def test_thirds_of_the_pitch_keep_twelve_inches_between_all_three_plies() -> None:
    """With a 12" rule three plies reach 12.1" between every pair: W - 2p/3, W - p/3, W (trade notes, trap 1)."""
    stack = Stack(inches(12), inches(12), inches(12), GRID)
    three = [Band(ply, WIDTH, LAP, 0, inches(376.75)) for ply in ("base", "interply", "cap")]
    base, interply, cap = plan_lines(three, stack)
    pairs = [(base, interply), (interply, cap), (base, cap)]
    assert min(least_offset(a.lines, b.lines) or 0 for a, b in pairs) >= inches(12)


def test_one_course_needs_no_lap_line() -> None:
    """A strip no deeper than the sheet is one course in each ply."""
    base, cap = plan_lines(bands(-2, 0.5, 36), STACK)
    assert (base.lines, cap.lines) == ((), ())
