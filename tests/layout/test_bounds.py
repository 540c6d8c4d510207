"""Bounds on rolls and end laps, counted by hand."""

from __future__ import annotations

import pytest
from roofs import FOOT, inches
from test_sections import region

from lapwright.assembly.values import Sheet
from lapwright.defaults.rules import make_rules
from lapwright.layout.bounds import disjoint, fewest_laps, fewest_sheets, least_use, ply_bound

RULES = make_rules({})
CAP = Sheet("cap", inches(39.375), 32 * FOOT + inches(10), inches(3), inches(6))


def test_end_laps_of_a_stretch() -> None:
    """From 33 1/2' rolls 100' need three end laps, 99 1/2' two, 33 1/2' none (trade notes, piece formula)."""
    roll, lap = round(33.5 * FOOT), inches(6)
    assert [fewest_laps(round(length * FOOT), roll, lap) for length in (100, 99.5, 33.5, 20)] == [3, 2, 0, 0]


@pytest.mark.parametrize(
    ("heights", "sheets"),
    [
        ([(0, 39)], 1),
        ([(0, 40)], 2),
        ([(0, 75)], 2),  # 39 + 36
        ([(0, 76)], 3),
        ([(0, 20), (30, 39)], 1),  # an opening inside the width
        ([(0, 20), (30, 60)], 2),
        ([(0, 39), (100, 139)], 2),  # an opening that spans the sheet: no lap across it
        ([(0, 37), (38, 76)], 2),  # the upper sheet begins beyond the opening
        ([(0, 37), (37.5, 77)], 3),
    ],
)
def test_sheets_over_stretches_up_the_fall(heights: list[tuple[float, float]], sheets: int) -> None:
    """Sheets 39 wide that lap 3: two reach 75, three 111; beyond an opening a sheet may begin without a lap."""
    assert fewest_sheets(heights, 39, 3) == sheets


def test_pairs_without_a_level_in_common() -> None:
    """Of 0-1, 1-2, 2-3 two have no level in common; of 0-1 and 3-4 both."""
    assert disjoint([0, 1, 2]) == 2
    assert disjoint([0, 3]) == 2


def test_a_rectangle_of_ninety_seven_feet() -> None:
    """97' by 12' 4": four courses; neighbours can't both have three pieces, so 2 + 3 + 2 + 3 end laps.

    97' and two laps are 98', and three rolls leave 6" that is no piece: 3 rolls; with three laps 98' 6", again three
    whole rolls. Four courses are 12 rolls.
    """
    bound = ply_bound(region([(0, 0), (97, 0), (97, 12), (0, 12)]), CAP, RULES)
    assert bound.end_laps == 10
    assert bound.rolls == 12


def test_area_of_sheet_and_of_its_laps() -> None:
    """97' by 12': four sheets over 144", as 3 · 36 3/8" + 3" is less, with 3 laps of 3"; two end laps of 6" over 144".

    All 97' go on from the low edge to the high one.
    """
    bound = ply_bound(region([(0, 0), (97, 0), (97, 12), (0, 12)]), CAP, RULES)
    assert bound.area == (97 * 12 * inches(144 + 9) + 2 * 6 * inches(144)) * inches(1)
    assert bound.solid == 97 * FOOT


def test_an_opening_breaks_the_ground_for_laps_and_what_is_solid() -> None:
    """60' by 12' less 10' by 2' from 40' on, 5' up: 50' are solid. Left of it 40' need a lap, right of it 10' none.

    In the foot-wide bands from 4' (a side lap above meets the opening) to 7' one lap is needed as well.
    """
    bound = ply_bound(region([(0, 0), (60, 0), (60, 12), (0, 12)], [(40, 5), (50, 5), (50, 7), (40, 7)]), CAP, RULES)
    assert bound.solid == 50 * FOOT
    over = 144 + 9  # as above; at the opening 60" and 60" of ground with two sheets each, 3" of lap in either
    assert bound.area == (50 * 12 * inches(over) + 10 * 12 * inches(120 + 6) + 6 * inches(144)) * inches(1)


def test_end_laps_with_side_laps_at_both_ends() -> None:
    """97' by 12': of four levels 36 3/8" apart the second and third are a sheet's width from both edges.

    3' 0 3/8" up is less than 3' 3 3/8" from the low edge, 9' 1 1/8" less than that from the high one; 6' 0 3/4" counts:
    two end laps, four T-joints.
    """
    bound = ply_bound(region([(0, 0), (97, 0), (97, 12), (0, 12)]), CAP, RULES)
    assert bound.t_joints == 4


def test_an_opening_takes_off_what_it_spans() -> None:
    """60' by 30' less a shaft 20' by 30' in its middle: two stretches of 20', no end lap, ten courses of 40'."""
    shape = region([(0, 0), (60, 0), (60, 30), (0, 30)], [(20, 1), (40, 1), (40, 29), (20, 29)])
    bound = ply_bound(shape, CAP, RULES)
    whole = 10  # (360 - 3) / 36.375 = 9.8
    assert bound.length <= whole * 60 * FOOT
    assert bound.rolls >= whole * 40 / 32.84


def test_a_run_whose_rest_is_no_piece_uses_whole_rolls() -> None:
    """31' uses up the whole roll, 32' 10", or 31' 6" in two pieces: 31' 6" at least; 20' uses 20'."""
    roll, lap = CAP.length_ticks, inches(6)
    assert least_use(31 * FOOT, roll, RULES, lap) == 31 * FOOT + inches(6)
    assert least_use(20 * FOOT, roll, RULES, lap) == 20 * FOOT
