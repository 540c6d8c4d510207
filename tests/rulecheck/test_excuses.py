"""What the rules let be: excused cases pass, and the same a little beyond the excuse does not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from handplan import (
    BASE_END,
    BASE_ROWS,
    CAP_END,
    CAP_ROWS,
    CURB,
    TICKS,
    UP,
    WIDTH,
    Drawing,
    Json,
    Row,
    broken_rules,
    holed,
    joint_at,
    judge,
    metres,
    write,
)
from test_broken import ripped

from lapwright.defaults.rules import make_rules
from lapwright.roof.values import Opening


def curb(name: str, left: float, low: float, width: float, height: float) -> Opening:
    """A curb by the hole that it makes in the cap: low left corner and size [in]."""
    return holed(name, "curb", left, low, width, height)


def test_lengths_within_a_tenth_of_a_millimetre_are_equal() -> None:
    """A side lap short by 0.09 mm passes, one short by 0.11 mm does not."""
    for short_mm, rules in ((0.09, []), (0.11, ["side_lap"])):
        by = short_mm / 25.4
        row = replace(CAP_ROWS[1], low=36.875 + by, high=76.25 + by)
        plan = replace(Drawing(), cap=(CAP_ROWS[0], row, CAP_ROWS[2]))
        assert broken_rules(plan) == rules


def test_gaps_within_a_millimetre_are_none() -> None:
    """A base that ends 0.9 mm short of its place on the metal passes, one 1.1 mm short does not."""
    for short_mm, rules in ((0.9, []), (1.1, ["base_over_edge"])):
        row = replace(BASE_ROWS[0], low=-2 + short_mm / 25.4)
        assert broken_rules(replace(Drawing(), base=(row, *BASE_ROWS[1:]))) == rules


def test_a_narrow_second_course_of_the_cap_is_excused() -> None:
    """Two courses: the cap shows 8" at the top, since its first course stays full; the base shows 26 1/4"."""
    depth = 44.875
    base = (BASE_ROWS[0], replace(BASE_ROWS[1], high=depth))
    cap = (CAP_ROWS[0], Row(36.875, depth, ((0, 315), (309, CAP_END))))
    assert broken_rules(Drawing(base=base, cap=cap, depth=depth, openings=())) == []


def test_a_cap_that_is_shallower_than_a_sheet_is_one_course() -> None:
    """30" of roof take one ripped course, which counts as a full first one; 8" of it are not under the least rip."""
    for depth in (30.0, 8.0):
        base = (replace(BASE_ROWS[0], high=depth),)
        cap = (replace(CAP_ROWS[0], high=depth),)
        drawing = Drawing(base=base, cap=cap, depth=depth, openings=())
        assert broken_rules(drawing) == []


def over_the_top(left: float) -> Opening:
    """A shaft over the top of a roof 60" deep: so much of the cap's ground is left, 2" more of the base's [in]."""
    low = round((left - UP) * TICKS)
    return Opening("S", "shaft", (0, low), (round(WIDTH * TICKS), 60 * TICKS - low))


def test_a_cap_begins_with_all_that_openings_leave_of_its_ground() -> None:
    """30" in front of a shaft take one ripped course; of 44 7/8" a first one of 39" is no full sheet."""
    base = (replace(BASE_ROWS[0], high=32.0),)
    drawing = Drawing(base=base, cap=(replace(CAP_ROWS[0], high=30.0),), depth=60.0, openings=(over_the_top(30.0),))
    assert broken_rules(drawing) == []
    base = (replace(BASE_ROWS[0], high=21.0), replace(BASE_ROWS[1], low=18.0, high=46.875))
    cap = (replace(CAP_ROWS[0], high=39.5), Row(36.5, 44.875, CAP_ROWS[1].pieces))
    drawing = Drawing(base=base, cap=cap, depth=60.0, openings=(over_the_top(44.875),))
    assert broken_rules(drawing) == ["first_course"]


def test_beside_a_rip_the_lesser_offset_holds() -> None:
    """12 7/16" beside a ripped top course passes with 12" asked there, fails where 18" is asked."""
    drawing = ripped(67.5)
    assert broken_rules(drawing) == []
    strict = make_rules({"ply_offset_at_rip": '18"'})
    assert [each.rule for each in judge(write(drawing), drawing, rules=strict)] == ["ply_offset_at_rip"]


def test_of_two_lines_equally_near_to_a_rip_both_lie_next_to_it() -> None:
    """A ripped top at 72 1/2" midway between base lines at 54 1/2" and 90 1/2": the lower may be 17 5/8" from the cap's
    next line, whichever of the two comes out nearer in the last place.  With 90 7/16" for the upper one it may not.
    """
    for upper, rules in ((90.5, []), (90.5 + 0.002, []), (90.5 - 0.002, []), (90.4375, ["ply_offset"])):
        second = replace(BASE_ROWS[1], high=57.5)
        third = replace(BASE_ROWS[2], low=54.5, high=upper + 3)
        base = (BASE_ROWS[0], second, third, replace(BASE_ROWS[3], low=upper))
        assert broken_rules(replace(ripped(72.5), base=base, openings=())) == rules


def test_beside_a_rip_lower_down_the_whole_offset_holds() -> None:
    """The base's second course ripped by 1 1/16": its third and fourth begin 17 1/8" from the cap's, under 18"."""
    third = replace(BASE_ROWS[2], low=54, high=93.375)
    base = (BASE_ROWS[0], replace(BASE_ROWS[1], high=57), third, replace(BASE_ROWS[3], low=90.375))
    drawing = Drawing(base=base, openings=())
    found = [each for each in judge(write(drawing), drawing) if each.rule.startswith("ply_offset")]
    assert [each.rule for each in found] == ["ply_offset", "ply_offset"]
    lesser = make_rules({"ply_offset": '17"', "ply_offset_at_rip": '12"'})
    assert judge(write(drawing), drawing, rules=lesser) == ()


def test_two_held_end_laps_may_be_near_one_another() -> None:
    """Curbs hold end laps of courses 1 and 2 of the cap 4" apart; without the lower curb that is too near."""
    lower = curb("O-2", 304, 10, 24, 12)
    cap = (joint_at(CAP_ROWS[0], 313), *CAP_ROWS[1:])
    both = replace(Drawing(), cap=cap, openings=(CURB, lower), base=with_base_past(lower))
    assert broken_rules(both) == []
    assert broken_rules(replace(both, openings=(CURB,))) == ["end_lap_stagger"]


@pytest.mark.parametrize(
    ("past_mm", "joint", "rules"),
    [
        (-0.11, 313, ["end_lap_stagger"]),
        (-0.09, 313, []),
        (-0.09, 325, ["end_lap_stagger"]),
        (0.09, 325, ["end_lap_stagger"]),
        (0.09, 313, []),
        (-0.09, 354, []),
        (0.09, 354, []),
        (0.11, 354, ["opening_lap"]),
    ],
)
def test_what_is_nearly_a_notch_may_hold_an_end_lap_and_needs_none(
    past_mm: float, joint: float, rules: list[str]
) -> None:
    """A curb of the third course leaves 3" of the sheet below it, within 0.1 mm; its joint at 313", or none at it.

    One at 325" is over the corner of the hole that is left, at 326.3": it does not pass the curb, so nothing holds it.
    """
    upper = curb("O-2", 304, CAP_ROWS[2].low + 3 + past_mm / 25.4, 24, 12)
    drawing = replace(Drawing(), cap=(*CAP_ROWS[:2], joint_at(CAP_ROWS[2], joint)), openings=(CURB, upper))
    found = judge(write(drawing), drawing)
    assert [each.rule for each in found if each.ids[0].startswith("Main/cap")] == rules


def with_base_past(lower: Opening) -> tuple[Row, ...]:
    """The base's courses: the curb from 10" to 22" reaches beyond its first course and is a notch of the second."""
    assert lower.corner[1] / TICKS + lower.size[1] / TICKS > BASE_ROWS[0].high
    return BASE_ROWS


def test_a_piece_between_a_held_lap_and_its_runs_end_may_be_short() -> None:
    """A curb 40" from the left holds an end lap at 43"; the first piece is 49" long, under the 5' otherwise asked."""
    left = curb("O-2", 40, 10, 24, 12)
    first = replace(CAP_ROWS[0], pieces=((0, 49), (43, 400), (394, CAP_END)))
    drawing = replace(Drawing(), cap=(first, *CAP_ROWS[1:]), openings=(CURB, left))
    assert broken_rules(drawing) == []
    assert broken_rules(replace(drawing, openings=(CURB,))) == ["shortest_piece"]


def test_a_short_run_may_be_a_short_piece() -> None:
    """A shaft that spans a course 40" from its right end leaves a run shorter than 5'."""
    shaft = curb("O-2", 540, 36, 24, 41)
    row = replace(CAP_ROWS[1], pieces=((0, 315), (309, 540), (564, CAP_END)))
    assert broken_rules(replace(Drawing(), cap=(CAP_ROWS[0], row, CAP_ROWS[2]), openings=(CURB, shaft))) == []


@pytest.mark.parametrize(
    ("opening", "rules"),
    [
        (curb("O-2", 100, 50, 7.5, 8), []),
        (curb("O-2", 100, 50, 9, 8), ["opening_lap"]),
        (curb("O-2", 100, 39.75, 24, 12), []),
        (curb("O-2", 100, 40.25, 24, 12), ["opening_lap"]),
        (curb("O-2", 100, 61.5, 24, 12), []),
        (curb("O-2", 100, 60.5, 24, 12), ["opening_lap"]),
    ],
    ids=["slit", "not slit", "low notch", "not a low notch", "high notch", "not a high notch"],
)
def test_openings_that_need_no_end_lap(opening: Opening, rules: list[str]) -> None:
    """In the cap's second course, 36 7/8" to 76 1/4": slit under 8", a notch where 3" or less is left of the sheet."""
    drawing = replace(Drawing(), openings=(CURB, opening))
    found = [each for each in judge(write(drawing), drawing) if each.ids[0].startswith("Main/cap")]
    assert [each.rule for each in found] == rules


def test_an_end_lap_over_a_corner_is_told_as_such() -> None:
    """A strip from 297" to 303" lies over the curb's corner at 298"."""
    drawing = replace(Drawing(), cap=(CAP_ROWS[0], joint_at(CAP_ROWS[1], 297), CAP_ROWS[2]))
    (found,) = judge(write(drawing), drawing)
    assert (found.rule, found.read) == ("opening_lap", "an end lap over a corner")


def test_abutting_pieces_are_no_end_lap() -> None:
    """Pieces that just touch cover the ground but lie on nothing."""
    row = replace(CAP_ROWS[0], pieces=((0, 354), (354, CAP_END)))
    drawing = replace(Drawing(), cap=(row, *CAP_ROWS[1:]))
    (found,) = judge(write(drawing), drawing)
    assert (found.rule, found.read) == ("end_lap", 0.0)


def test_the_cap_past_the_metals_held_back_line() -> None:
    """All lap lines 1/2" lower, so that the cap begins at the metal's edge: that alone is told."""
    cap = [replace(row, low=row.low - 0.5, high=row.high - 0.5) for row in CAP_ROWS]
    cap[-1] = replace(cap[-1], high=CAP_ROWS[-1].high)
    base = [replace(row, low=row.low - 0.5, high=row.high - 0.5) for row in BASE_ROWS]
    base[0], base[-1] = replace(base[0], low=-2), replace(base[-1], high=BASE_ROWS[-1].high)
    drawing = replace(Drawing(), cap=tuple(cap), base=tuple(base))
    assert [(each.rule, round(float(each.read or 0) / metres(1), 3)) for each in judge(write(drawing), drawing)] == [
        ("overhang", 0.5)
    ]


def test_a_piece_off_the_roof() -> None:
    """A piece beside the roof is told, and its end lap is none."""
    row = replace(CAP_ROWS[0], pieces=(*CAP_ROWS[0].pieces, (700, 800)))
    assert broken_rules(replace(Drawing(), cap=(row, *CAP_ROWS[1:]))) == ["overhang"]


def strip(plan: Json, *keys: str) -> None:
    """Take keys of pieces out."""
    for ply in plan["plies"]:
        for piece in ply["pieces"]:
            for key in keys:
                del piece[key]


def without(plan: Json) -> Any:
    """Only the keys of the file format's first description, and more than asked elsewhere."""
    strip(plan, "place", "cut_length")
    plan["details"].append({"id": "Main/side 1/metal 1", "sheet": None, "roll": None, "kind": "metal"})
    plan["remarks"] = "drawn by hand"


def test_a_plan_with_the_bare_keys_is_judged() -> None:
    """A plan without cut lengths and places is judged by the lengths of its blanks."""
    assert broken_rules(Drawing(), without) == []


def test_details_count_in_their_roll() -> None:
    """A strip of 100" from the first base roll of 787" is right when it is counted, wrong when it is not."""
    strip_one = {
        "id": "Main/side 1/strip 1",
        "sheet": "base-sa",
        "roll": "roll of Main/base/01/1",
        "takes": metres(100),
    }

    def counted(plan: Json) -> None:
        roll = plan["rolls"][0]
        plan["details"].append(strip_one)
        roll["pieces"].append(strip_one["id"])
        roll["used"] += metres(100)
        roll["left"] -= metres(100)

    def uncounted(plan: Json) -> None:
        plan["details"].append(strip_one)
        plan["rolls"][0]["pieces"].append(strip_one["id"])

    def unlisted(plan: Json) -> None:
        plan["details"].append(strip_one)

    assert broken_rules(Drawing(), counted) == []
    assert broken_rules(Drawing(), uncounted) == ["roll_count"]
    assert broken_rules(Drawing(), unlisted) == ["roll"]


def test_the_base_end_is_where_the_drawing_says() -> None:
    """Guard of the drawing itself: base 2" beyond the top of the cant, the cap at its top."""
    assert BASE_END - CAP_END == 2
