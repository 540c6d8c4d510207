"""Ripped courses on the way up: against every way there is on small stacks, and against what a foreman counts."""

from __future__ import annotations

import importlib.util
import random
import sys
from dataclasses import replace
from itertools import accumulate, pairwise
from pathlib import Path
from typing import Any

import pytest
from roofs import FOOT, GRID, inches

from lapwright.layout.courses import Band, Conflict, Lines, Stack, lap_lines, line_options, plan_lines
from lapwright.layout.narrowtop import even_tops
from lapwright.layout.restore import greatest_offset, greatest_rip, restore

_PATH = Path(__file__).parents[1] / "reference" / "course_lines.py"
_spec = importlib.util.spec_from_file_location("course_lines", _PATH)
assert _spec is not None and _spec.loader is not None
reference: Any = importlib.util.module_from_spec(_spec)
sys.modules["course_lines"] = reference  # dataclasses look their module up there
_spec.loader.exec_module(reference)

NAMES = {2: ("base", "cap"), 3: ("base", "interply", "cap")}
TWELVE = Stack(inches(12), inches(12), inches(12), GRID)
WIDTH = inches(39.375)


def small_stack(seed: int, plies: int) -> tuple[list[Any], Stack]:
    """A few courses of sheets 7 to 9 steps wide."""
    pick = random.Random(seed).randint
    rip, grid = pick(3, 4), (1, 1, 1, 2)[pick(0, 3)]
    offset = pick(2, 3) if seed % 4 else pick(1, 4)
    ends = pick(18, 34 if plies == 2 else 26)
    strips = [reference.Strip(pick(7, 9), pick(1, 2), pick(-1, 1), ends, k == plies - 1) for k in range(plies)]
    return strips, Stack(offset, offset, rip, grid)


def bands_of(strips: list[Any]) -> list[Band]:
    """The same plies for the layout."""
    return [
        Band(ply, strip.width, strip.lap, strip.begins, strip.ends)
        for ply, strip in zip(NAMES[len(strips)], strips, strict=True)
    ]


CASES = [(seed, 2) for seed in range(72)] + [(seed, 3) for seed in range(24)]


@pytest.mark.parametrize(("seed", "plies"), CASES)
def test_fewest_rips_and_greatest_offset_are_those_of_every_way_tried(seed: int, plies: int) -> None:
    """No way of laying a small stack has fewer ripped courses, and none a greater offset; both are reached."""
    strips, stack = small_stack(seed, plies)
    found = restore(bands_of(strips), stack)
    rips = None if found is None else found.ripped
    assert (rips, greatest_offset(bands_of(strips), stack)) == reference.answers(
        strips, stack.rip, stack.grid, stack.offset
    )
    assert found is None or (found.is_fewest and broken(found.lines, stack) == [])


def test_the_small_stacks_are_of_every_kind() -> None:
    """Some need no rip, many some, some can't be laid."""
    found = [restore(bands_of(strips), stack) for strips, stack in (small_stack(*case) for case in CASES)]
    kinds = ["none" if each is None else "ripped" if each.ripped else "full" for each in found]
    assert min(kinds.count(kind) for kind in ("none", "ripped", "full")) >= 20


def broken(lines: tuple[Lines, ...] | list[Lines], stack: Stack) -> list[str]:
    """What is wrong with lines, measured one by one; the layout's own measuring is not used."""
    wrong = []
    for one in lines:
        band = one.band
        edges = [band.begins, *one.lines]
        shown = [high - low for low, high in pairwise(edges)]
        wrong += [f"{band.ply}: {each} shown" for each in shown if not stack.rip <= each <= band.pitch]
        wrong += [f"{band.ply}: {each} off the grid" for each in shown if (band.pitch - each) % stack.grid]
        top = band.ends - edges[-1]
        is_held = band.ply == "cap" and len(one.lines) == 1
        wrong += [f"{band.ply}: {top} at the top"] if one.lines and not (is_held or top >= stack.rip) else []
        wrong += [f"{band.ply}: {top} at the top"] if top > band.width else []
    if lines[-1].lines and lines[-1].lines[0] != lines[-1].band.begins + lines[-1].band.pitch:
        wrong.append("the first cap course is ripped")
    for low, high in pairwise(lines):
        near = [abs(a - b) for a in low.lines for b in high.lines]
        wrong += [f"{low.band.ply}, {high.band.ply}: {each} apart" for each in near if each < stack.offset]
    return wrong


def drifting(base_lap: float, cap_lap: float, feet: float, base_width: float = 39.375) -> list[Band]:
    """Base and cap of other laps or widths, both from the edge line."""
    ends = inches(feet * 12)
    return [
        Band("base", inches(base_width), inches(base_lap), 0, ends),
        Band("cap", WIDTH, inches(cap_lap), 0, ends),
    ]


def test_a_drift_of_an_inch_takes_one_rip_in_eleven_courses() -> None:
    """3" under 4" laps, 12 1/2" rule: a base line lies 12 1/2" to 22 7/8" above the cap line below it.

    Counted by hand: 35 3/8" - 12 1/2" = 22 7/8"; from 12 1/2" it rises 10 times by 1", so 11 base lines in a row, and a
    rip begins the next 11.  The slope is n cap courses and 35" more, so that the last base line may lie 22 1/2" over
    the n-th cap line: n + 1 base lines.
    """
    stack = Stack(inches(12.5), inches(12), inches(12.5), GRID)
    found = [ripped(drifting(3, 4, (35.375 * n + 35) / 12), stack) for n in (10, 11, 21, 22)]
    assert found == [(0, 0), (1, 0), (1, 0), (2, 0)]


def ripped(bands: list[Band], stack: Stack) -> tuple[int, ...]:
    """Ripped courses of each ply; what the rules ask is measured on the way."""
    lines = plan_lines(bands, stack)
    assert broken(lines, stack) == []
    return tuple(one.ripped for one in lines)


def test_a_cap_that_runs_ahead_is_ripped_itself() -> None:
    """36" base under 39 3/8" cap, 16" rule: the base gains 33" a course, so the cap can't show more and rips each."""
    lines = plan_lines(drifting(3, 3, 20, base_width=36), Stack(inches(16), inches(12), inches(12), GRID))
    shown = [high - low for low, high in pairwise(lines[1].lines)]
    assert shown and max(shown) <= inches(33 + 1)
    assert lines[1].lines[0] == inches(36.375)


@pytest.mark.parametrize("feet", [15, 23.6, 36.5, 64, 90, 250])
@pytest.mark.parametrize(("base_lap", "cap_lap", "base_width"), [(3, 4, 39.375), (4, 3, 39.375), (3, 3, 36)])
def test_drifting_sheets_keep_every_rule(feet: float, base_lap: float, cap_lap: float, base_width: float) -> None:
    """Whatever the slope's length, measured line by line."""
    bands = drifting(base_lap, cap_lap, feet, base_width)
    assert broken(plan_lines(bands, TWELVE), TWELVE) == []


def test_three_plies_of_two_pitches_keep_every_rule() -> None:
    """36" base and interply under a 39 3/8" cap up 64'."""
    ends = 64 * FOOT
    three = [Band(ply, inches(36), inches(3), 0, ends) for ply in ("base", "interply")]
    assert broken(plan_lines([*three, Band("cap", WIDTH, inches(3), 0, ends)], TWELVE), TWELVE) == []


def test_two_plies_of_one_pitch_are_ripped_together_under_a_wider_lap() -> None:
    """3" laps under a cap with 4", up 1,000': interply and base drift alike, so the base is ripped as the interply is.

    A rip in 11 or 12 courses: 339 interply courses take 28 (339 / 12, counted by hand), and the base some more at most.
    """
    ends = inches(12_005)
    lower = [Band("base", WIDTH, inches(3), 1_016, ends), Band("interply", WIDTH, inches(3), inches(-2), ends)]
    lines = plan_lines([*lower, Band("cap", WIDTH, inches(4), 1_016, ends)], TWELVE)
    assert broken(lines, TWELVE) == []
    assert max(one.ripped for one in lines) <= 31


def test_thirds_of_the_roll_as_starters_leave_plies_1_and_3_too_near() -> None:
    """13 1/8", 26 1/4", 39 3/8": base and cap 10.1" apart; W-2p/3, W-p/3, W: 12.1" (common practice, no source)."""
    band = Band("any", WIDTH, inches(3), 0, 80 * FOOT)
    assert nearest(band, 39.375 / 3, 39.375) == pytest.approx(inches(10.125), abs=1)
    third = 36.375 / 3
    starts = (39.375 - 2 * third, 39.375 - third, 39.375)
    assert [
        nearest(band, a, b) for a, b in ((starts[0], starts[1]), (starts[1], starts[2]), (starts[0], starts[2]))
    ] == ([pytest.approx(inches(12.125), abs=2)] * 3)


def nearest(band: Band, one: float, two: float) -> int:
    """Least distance of the lap lines of two starters [in], away from the ends of the slope."""
    lines = [[line for line in lap_lines(band, inches(start)) if line > 5 * FOOT] for start in (one, two)]
    return min(abs(a - b) for a in lines[0][:-2] for b in lines[1])


def test_what_can_not_be_met_is_refused_with_what_can() -> None:
    """3" under 4" laps can't keep 18": 4" of lap leave a pitch of 35 3/8", half of it is 17 11/16" (counted by hand).

    Up 60' the base line has to stay midway between the cap's, so no more than that; and no narrower rip helps.
    """
    with pytest.raises(Conflict) as told:
        plan_lines(drifting(3, 4, 60), Stack(inches(18), inches(12), inches(12), GRID))
    assert (told.value.rule, told.value.plies) == ("ply_offset", ("base", "cap"))
    assert inches(17.5) < told.value.greatest <= inches(17.6875)
    kept = Stack(told.value.greatest, inches(12), inches(12), GRID)
    assert broken(plan_lines(drifting(3, 4, 60), kept), kept) == []


def test_a_narrower_rip_is_told_where_it_helps() -> None:
    """A base 43" deep, its only lap line at 12" to 31": a cap line at 36 3/8" leaves it 5 3/8" to 24 3/8" below."""
    bands = [Band("base", WIDTH, inches(3), 0, inches(43)), Band("cap", WIDTH, inches(3), 0, inches(43))]
    stack = Stack(inches(25), inches(25), inches(12), GRID)
    assert greatest_offset(bands, stack) == inches(24.375)
    assert greatest_rip(bands, stack) == inches(11.375)
    with pytest.raises(Conflict) as told:
        plan_lines(bands, stack)
    assert (told.value.rule, told.value.greatest) == ("ply_offset", inches(24.375))
    assert dict(told.value.others)["narrowest_rip"] == inches(11.375)
    # a second base line, 24" up, lies 12 3/8" below the cap's
    assert dict(told.value.others)["ply_offset_at_rip"] == inches(12.375)


def test_options_are_distinct_sound_and_led_by_the_plan() -> None:
    """Four choices of starters, the plan first, none twice, every one within the rules."""
    stack = Stack(inches(12), inches(12), inches(12), GRID)
    bands = drifting(3, 3, 66)
    options = line_options(bands, stack)
    assert options[0] == plan_lines(bands, stack)
    assert len({tuple(one.lines for one in lines) for lines in options}) == len(options) == 4
    assert [broken(lines, stack) for lines in options] == [[]] * 4


def test_options_of_drifting_sheets_are_sound_too() -> None:
    """Where courses are ripped there is one choice at least."""
    options = line_options(drifting(3, 4, 64), TWELVE)
    assert options and [broken(lines, TWELVE) for lines in options] == [[]] * len(options)


def test_an_even_top_takes_all_the_play_of_each_course() -> None:
    """39 3/8" sheets at 3" laps with 18" have 3/8" of play: 23 courses that give it and one that gives 1/8" lack 1/4".

    A top of 12" becomes one of 12 1/4"; where all give 3/8" already, or none is ripped, nothing is asked for.
    """
    pitch, play = inches(36.375), inches(0.375)
    stack = Stack(inches(18), inches(12), inches(12), inches(1 / 16))

    def cap(given: list[int]) -> Lines:
        lines = tuple(accumulate([pitch] * 10 + [pitch - each for each in given]))
        return Lines(Band("cap", inches(39.375), inches(3), 0, lines[-1] + inches(12)), inches(39.375), lines)

    assert even_tops([cap([inches(0.125), *[play] * 23])], stack) == [inches(12.25)]
    assert even_tops([cap([play] * 23)], stack) == []
    assert even_tops([cap([])], stack) == []


def test_courses_ripped_for_a_narrow_top_share_a_width() -> None:
    """34.1 courses of 36 3/8", 1,240": lines with a top of 12 1/4" have one ripped width below the cap's top."""
    bands = [Band(ply, inches(39.375), inches(3), 0, inches(1240)) for ply in ("base", "cap")]
    stack = Stack(inches(18), inches(12), inches(12), inches(1 / 16))
    lines = plan_lines(bands, stack)
    tops = even_tops(lines, stack)
    assert all(inches(12) < top < inches(12.375) for top in tops)
    found = [one for top in tops for one in line_options(bands, replace(stack, rip=top), 5)]
    assert not [fault for one in found for fault in broken(one, stack)]
    widths = [{course.high - course.low for course in one[-1].courses()[:-1]} for one in found]
    assert {inches(39), inches(39.375)} in widths


def test_each_ply_has_a_top_of_its_own_at_which_it_gives_up_evenly() -> None:
    """33.1 courses of 36 3/8" in three plies, 1,204": after 33 full ones the cap's top shows 3 5/8", 8 3/8" too little.

    22 courses give up 3/8" each and one 1/8", so the cap lacks 1/4", the plies under it less.  At 12 1/4" each ply has
    one ripped width besides its starter and its top.
    """
    bands = [Band(ply, inches(39.375), inches(3), 0, inches(1204)) for ply in ("base", "interply", "cap")]
    stack = Stack(inches(18), inches(12), inches(12), inches(1 / 16))
    tops = even_tops(plan_lines(bands, stack), stack)
    assert inches(12.25) in tops
    found = line_options(bands, replace(stack, rip=inches(12.25)), 5)
    assert not [fault for one in found for fault in broken(one, stack)]
    widths = [[{course.high - course.low for course in ply.courses()[1:-1]} for ply in one] for one in found]
    assert [{inches(39), inches(39.375)}] * 3 in widths
