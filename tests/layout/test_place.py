"""Whole layouts of small roofs, counted by hand."""

from __future__ import annotations

import pytest
from roofs import BASE, BRIEF, CAP, FOOT, GRID, INCH, THREE_PLIES, TWO_PLIES, flat, inches, make_area, rectangle, rules

from lapwright.assembly.values import Assembly
from lapwright.layout.place import make_layout
from lapwright.layout.values import Layout, PlyLayout
from lapwright.roof.values import Opening

METAL = ["metal_edge", "ridge", "ridge", "ridge"]


def ply_of(layout: Layout, name: str) -> PlyLayout:
    """One ply of a layout of one area."""
    return next(ply for ply in layout.plies if ply.ply == name)


def lay(width_ft: float, height_in: float, kinds: list[str], openings: tuple[Opening, ...] = ()) -> Layout:
    """A flat rectangle in two plies."""
    area = flat(rectangle(round(width_ft * FOOT), inches(height_in), kinds, openings))
    return make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)


def test_counted_by_hand_40_by_10_feet() -> None:
    """40' x 10' with metal at the low side, counted by hand.

    Cap from 1/2": lap lines at 36 7/8", 73 1/4", 109 5/8"; the last sheet would show 10 3/8" and is ripped to 12".
    Base from -2": 23 11/16" starter.  40' takes two cap pieces a course (32' 10" + 7' 8") and two base pieces.
    """
    layout = lay(40, 120, METAL)
    cap = ply_of(layout, "cap")
    assert len(cap.courses) == 4
    assert len(cap.pieces) == 8
    assert cap.end_laps == 4
    assert cap.courses[0].high - cap.courses[0].low == CAP.width_ticks
    assert ply_of(layout, "base").courses[0].low == inches(-2)


def test_tjoints_of_two_courses_with_one_end_lap_each() -> None:
    """Two courses, one end lap in each: each meets the one side lap once, so two T-joints (counted by hand)."""
    layout = lay(40, 70, ["ridge"] * 4)
    cap = ply_of(layout, "cap")
    assert len(cap.courses) == 2
    assert cap.end_laps == 2
    assert len([joint for joint in layout.tjoints if joint.ply == "cap"]) == 2


def test_opposing_corners_are_cut_at_a_tjoint() -> None:
    """Each T-joint of the cap takes one corner, 5 1/2" along by the 3" side lap across."""
    layout = lay(40, 70, ["ridge"] * 4)
    cuts = [cut for piece in ply_of(layout, "cap").pieces for cut in piece.corner_cuts]
    assert [(cut.along, cut.across) for cut in cuts] == [(inches(5.5), inches(3))] * 2
    assert all(not piece.corner_cuts for piece in ply_of(layout, "base").pieces)


def test_side_laps_are_as_long_as_the_courses() -> None:
    """One side lap line over a 40' course is 40' long in all, cut at the end laps."""
    layout = lay(40, 70, ["ridge"] * 4)
    sides = [lap for lap in layout.laps if lap.ply == "cap" and lap.kind == "side"]
    assert sum(lap.length for lap in sides) == pytest.approx(40 * 0.3048, abs=1e-9)
    assert {round(lap.width / 0.0254, 6) for lap in sides} == {3.0}


def test_spanning_opening_splits_the_run() -> None:
    """A shaft 8' up the slope and 4' wide splits the courses that it spans into two runs each.

    The cap turns up its cants: 4" · √2 - 4" = 1.657" into the shaft from either side.
    """
    shaft = Opening("S", "shaft", (20 * FOOT, 1 * FOOT), (4 * FOOT, 8 * FOOT), 0.3)
    layout = lay(60, 120, ["ridge"] * 4, (shaft,))
    second = [piece for piece in ply_of(layout, "cap").pieces if piece.course == 2]
    assert (second[0].u0, second[0].u1) == (0, 20 * FOOT + 3367)
    assert second[1].u0 == 24 * FOOT - 3367


def test_opening_inside_the_width_is_passed_by_an_end_lap_between_its_corners() -> None:
    """A 24" skylight inside the first cap course gets one end lap whose 6" lie within its sides."""
    skylight = Opening("SK", "skylight", (10 * FOOT, 6 * INCH), (24 * INCH, 24 * INCH), 0.3)
    layout = lay(20, 36, ["ridge"] * 4, (skylight,))
    left, right = [piece for piece in ply_of(layout, "cap").pieces if piece.course == 1]
    assert 10 * FOOT < right.u0
    assert left.u1 < 12 * FOOT
    assert left.u1 - right.u0 == inches(6)


def test_opening_that_reaches_in_is_a_notch() -> None:
    """A curb that reaches 20" into the first course from above is cut out of a piece that passes under it."""
    curb = Opening("C", "curb", (5 * FOOT, 19 * INCH), (4 * FOOT, 4 * FOOT), 0.3)
    layout = lay(20, 100, ["ridge"] * 4, (curb,))
    first = [piece for piece in ply_of(layout, "cap").pieces if piece.course == 1]
    assert [piece for piece in first if piece.u0 < 5 * FOOT and piece.u1 > 9 * FOOT] == first[:1]


def test_moving_a_curb_changes_ids_only_where_it_was_and_is() -> None:
    """Piece ids of courses that the curb touches neither before nor after stay the same."""
    ids = []
    for east in (10 * FOOT, 50 * FOOT):
        curb = Opening("C", "curb", (east, 10 * FOOT), (4 * FOOT, 5 * FOOT), 0.3)
        layout = lay(97, 480, METAL, (curb,))
        ids.append({piece.id for piece in layout.pieces if not 9 * FOOT - CAP.width_ticks < piece.v0 < 15 * FOOT})
    assert {id for id in ids[0] ^ ids[1] if id.endswith(("/1", "/2", "/3"))} == set()


def test_no_roll_is_overdrawn_and_every_piece_has_one() -> None:
    """The lengths cut from a roll add up to what is used, no more than the roll, and every piece is in one."""
    layout = lay(97, 480, METAL)
    cut = {piece.id: piece.cut_length for piece in layout.pieces}
    takes = cut | {detail.id: detail.takes_ticks for detail in layout.details}
    length = {"base-sa": BASE.length_ticks, "cap-sa": CAP.length_ticks}
    for roll in layout.rolls:
        assert sum(takes[id] for id in roll.pieces) == roll.used
        assert roll.used + roll.left == length[roll.sheet]
        assert roll.left >= 0
    assert sorted(id for roll in layout.rolls for id in roll.pieces if id in cut) == sorted(cut)


def test_lower_bounds_are_not_passed() -> None:
    """A layout of our own is never below the bounds that are stated for any layout."""
    for ply in lay(97, 480, METAL).plies:
        assert ply.rolls >= ply.rolls_at_least
        assert ply.end_laps >= ply.end_laps_at_least > 0


def test_wall_of_120_feet_at_20_inch_girth() -> None:
    """120' of wall takes 40 flashing pieces across a 39 3/8" roll with 3" laps: (1440 - 3)/36.375 = 39.5."""
    layout = lay(120, 200, ["ridge", "ridge", "parapet", "ridge"])
    pieces = [detail for detail in layout.details if detail.kind == "flashing" and detail.ply == "cap"]
    assert len(pieces) == 40


def test_edge_metal_comes_in_ten_foot_lengths_per_straight_run() -> None:
    """97' of metal edge is ten lengths, the last 7'."""
    metal = [detail for detail in lay(97, 200, METAL).details if detail.kind == "metal"]
    assert len(metal) == 10
    assert metal[-1].length == pytest.approx(7 * 0.3048)


def test_strips_come_four_abreast_in_two_plies_only() -> None:
    """9" strips lie four abreast in a 39 3/8" roll: 97' takes 3 or 4 strips from one length; three plies take none."""
    layout = lay(97, 200, METAL)
    field = {piece.id for piece in layout.pieces}  # what the starter's rip gives is not asked of another length
    strips = [detail for detail in layout.details if detail.kind == "strip" and detail.beside not in field]
    assert sum(1 for strip in strips if strip.takes_ticks) == 1
    assert {strip.roll for strip in strips} == {strips[0].roll}
    area = flat(rectangle(97 * FOOT, inches(200), METAL))
    three = make_layout([area], THREE_PLIES, rules(), grid=GRID, patience=BRIEF)
    assert [detail for detail in three.details if detail.kind == "strip"] == []


def test_same_roof_turned_gives_the_same_counts() -> None:
    """Turning the roof a quarter turn changes no count."""
    kinds = ["metal_edge", "parapet", "ridge", "wall"]
    south = rectangle(97 * FOOT, inches(480), kinds)
    w, h = 97 * FOOT, inches(480)
    east = make_area([(0, 0), (0, w), (-h, w), (-h, 0)], kinds, falls=(1.0, 0.0))
    counts = []
    for area in (south, east):
        layout = make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
        counts.append((len(layout.pieces), len(layout.laps), len(layout.tjoints), len(layout.rolls)))
    assert counts[0] == counts[1]


def test_slope_lengthens_the_courses_side_only() -> None:
    """Laid across at 12 in 12, a 10' plan depth is 14.14' of slope: 169.7" of cap from 1/2" back takes five courses."""
    from dataclasses import replace

    steep = replace(rectangle(20 * FOOT, inches(120), METAL), slope=1.0)
    layout = make_layout([steep], Assembly(TWO_PLIES.plies), rules(strap_at="13 in 12"), grid=GRID, patience=BRIEF)
    assert len(ply_of(layout, "cap").courses) == 5
