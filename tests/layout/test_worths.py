"""What a course takes in money and in rolls, by pencil."""

from __future__ import annotations

import pytest
from roofs import BASE, CAP, FOOT
from test_levels import feet, task

from lapwright.layout.levels import least_split, make_kind
from lapwright.layout.worths import Money, weightings, worth_of_money, worth_of_rolls

COURSE = feet(0, 10, 0, 100)
ALL = Money((100.0, 100.0), 4.0, 2.0, 1.0)


def test_a_piece_as_long_as_a_roll_is_not_cut() -> None:
    """66' in three pieces are 67': two whole ones leave 16", too short; one leaves 34' 2" to two.

    That is 1 + 410/394 rolls and two cuts; or three whole ones with wide laps, three rolls and no cut.
    """
    cap = task(CAP, COURSE)
    assert least_split(cap, 66 * FOOT, 2, (100.0, 1.0)) == float("inf")
    assert least_split(cap, 66 * FOOT, 3, (100.0, 1.0)) == pytest.approx(100 * (1 + 410 / 394) + 2)
    assert least_split(cap, 66 * FOOT, 3, (0.0, 1.0)) == 0


def test_pieces_of_a_roll_longer_than_the_longest_are_all_cut() -> None:
    """100' of base from 65' 7" with pieces up to 33': none is a whole roll: four cuts, 101' 6" of 65' 7"."""
    base = task(BASE, COURSE)
    assert base.longest < base.roll
    assert least_split(base, 100 * FOOT, 4, (100.0, 1.0)) == pytest.approx(100 * 1218 / 787 + 4)


def test_what_a_course_takes_is_rolls_laps_and_cuts() -> None:
    """100' of cap in four pieces: three laps at 4, and 101' 6" of rolls at a quarter of 100.

    Three whole ones leave 3', which is no piece: two are whole, two are cut.
    """
    cap = task(CAP, COURSE)
    kind = make_kind(cap, 0, 0, is_sure=True)
    worth = worth_of_money([cap], ALL, 0.25)
    rolls = 101.5 * 12 / 394
    assert worth.own(0, kind)[1] == pytest.approx(12 + 25 * rolls + 2)
    assert worth.beside == 2.0


def test_rolls_are_weighed_by_sheet() -> None:
    """A weight of 2 counts double."""
    tasks = [task(BASE, COURSE), task(CAP, COURSE)]
    kind = make_kind(tasks[1], 0, 0, is_sure=True)
    one, two = (worth_of_rolls(tasks, {"base-sa": 1.0, "cap-sa": weight}).own(1, kind) for weight in (1.0, 2.0))
    assert two == (2 * one[0], 2 * one[1])


def test_sheets_are_weighed_where_courses_cover_several_bands() -> None:
    """1 to 1, 1 to 2 and 2 to 1; on a rectangle and of one sheet there is nothing to weigh."""
    bands = (feet(0, 10, 0, 100), feet(10, 20, 0, 50))
    found = weightings([task(BASE, *bands), task(CAP, *bands)])
    assert [tuple(one.values()) for one in found] == [
        (1.0, 0.0),
        (0.0, 1.0),
        (1.0, 1.0),
        (1.0, 2.0),
        (2.0, 1.0),
    ]
    assert weightings([task(BASE, COURSE), task(CAP, COURSE)]) == []
    assert weightings([task(CAP, *bands)]) == []
