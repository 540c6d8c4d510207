"""Bands of ground and what courses over them take, by pencil."""

from __future__ import annotations

from itertools import product

import pytest
from roofs import BASE, CAP, FOOT, inches
from test_sections import region

from lapwright.assembly.values import Sheet
from lapwright.defaults.rules import make_rules
from lapwright.layout.levels import (
    Level,
    PlyTask,
    can_meet,
    have_room,
    least_rolls,
    make_kind,
    make_levels,
    make_ply_task,
    most_of_roll,
)

RULES = make_rules({})
S = 36  # distance that joints keep in the small cases


def task(sheet: Sheet, *levels: Level, is_plain: bool = True) -> PlyTask:
    """A ply of a sheet over bands."""
    return make_ply_task(sheet, levels, RULES, is_cap=sheet is CAP, is_plain=is_plain)


def feet(low: float, high: float, left: float, right: float) -> Level:
    """A band in feet."""
    return Level(*(round(value * FOOT) for value in (low, high, left, right)))


def test_an_l_has_two_bands() -> None:
    """60' across up to 10', 40' across above: two bands; a roof with a curb or a slanted side is no stack."""
    ell = region([(0, 0), (60, 0), (60, 10), (40, 10), (40, 20), (0, 20)])
    assert make_levels(ell) == (feet(0, 10, 0, 60), feet(10, 20, 0, 40))
    assert make_levels(region([(0, 0), (60, 0), (60, 20), (0, 20)], [(20, 5), (30, 5), (30, 10), (20, 10)])) == ()
    assert make_levels(region([(0, 0), (60, 0), (50, 20), (0, 20)])) == ()


def test_a_notch_from_above_leaves_two_stretches_and_no_stack() -> None:
    """A U open at the top has two stretches at one level."""
    shape = region([(0, 0), (60, 0), (60, 20), (40, 20), (40, 10), (20, 10), (20, 20), (0, 20)])
    assert make_levels(shape) == ()


def test_the_joints_of_a_tight_course_lie_within_its_play() -> None:
    """97' from 32' 10": three pieces reach 97' 6", so joints lie from 31' 10" to 32' 4" and 32' 4" farther on."""
    kind = make_kind(task(CAP, feet(0, 10, 0, 97)), 0, 0, is_sure=True)
    assert kind.laps == 2
    assert kind.joints == (
        (inches(382), inches(388)),
        (inches(382 + 388), inches(776)),
    )


def test_a_course_over_both_bands_takes_their_whole_width() -> None:
    """Bands from 0' to 60' and from 20' to 90': a course that only it can cover in both runs from 0' to 90'."""
    ply = task(CAP, feet(0, 10, 0, 60), feet(10, 20, 20, 90))
    both = make_kind(ply, 0, 1, is_sure=True)
    assert (both.left, both.right, both.laps) == (0, 90 * FOOT, 2)
    either = make_kind(ply, 1, 0, is_sure=False)
    assert (either.laps, either.joints) == (1, ())


def test_three_tight_courses_need_twice_the_stagger() -> None:
    """Spans 36 long hold two joints 36 apart, of three courses that lie on one another only where 72 long."""
    apart = ((S, S), (S, S))

    def courses(*lengths: int) -> list[tuple[tuple[tuple[int, int], ...], int]]:
        return [(((100, 100 + length),), k % 2) for k, length in enumerate(lengths)]

    assert can_meet(courses(36, 36), apart)
    assert not can_meet(courses(35, 35), apart)
    assert not can_meet(courses(71, 71, 71), apart)
    assert can_meet(courses(72, 72, 72), apart)
    assert can_meet(courses(0, 72, 40), apart)


def brute_room(spans: tuple[tuple[int, int], ...], apart: int) -> bool:
    """The same by trying every whole place."""
    places = product(*(range(low, high + 1) for low, high in spans))
    return any(all(abs(a - b) >= apart for i, a in enumerate(at) for b in at[:i]) for at in places)


@pytest.mark.parametrize("first", [(0, 0), (0, 3), (2, 5)])
@pytest.mark.parametrize("second", [(0, 2), (1, 6), (4, 4)])
@pytest.mark.parametrize("third", [(0, 4), (3, 3), (2, 8)])
def test_room_is_what_trying_every_place_finds(
    first: tuple[int, int], second: tuple[int, int], third: tuple[int, int]
) -> None:
    """Three places 3 apart, each in its span."""
    spans = [(first, 0), (second, 0), (third, 0)]
    assert have_room(spans, ((3,),)) == brute_room((first, second, third), 3)


@pytest.mark.parametrize(
    ("length", "pieces", "inches_used"),
    [
        (31, 1, 394),  # leaves 1' 10", no piece: the whole roll of 32' 10"
        (31, 2, 378),  # 31' 6" in two, both leave enough for others
        (20, 1, 240),
        (97, 3, 3 * 394),  # 98' of 98' 6": 6" are no piece
        (97, 4, 1182),  # 98' 6" to the inch
        (97, 5, 1188),  # 99'
    ],
)
def test_rolls_that_a_run_uses_up(length: int, pieces: int, inches_used: int) -> None:
    """Of the cap's 32' 10" = 394"."""
    found = least_rolls(task(CAP, feet(0, 10, 0, length)), length * FOOT, pieces)
    assert found * 394 == pytest.approx(inches_used)


def test_a_roll_of_two_pieces_is_used_by_length() -> None:
    """65' 7" = 787" gives pieces of 33' that leave more than a piece: 98' are 1176"; where runs may be short, too."""
    assert least_rolls(task(BASE, feet(0, 10, 0, 97)), 97 * FOOT, 3) * 787 == pytest.approx(1176)
    short = task(CAP, feet(0, 10, 0, 31), is_plain=False)
    assert least_rolls(short, 31 * FOOT, 1) * 394 == pytest.approx(372)


def test_what_pieces_cover_without_their_end_laps() -> None:
    """A roll of 67' = 804" gives two pieces of 33' that cover 390" each, or three that cover 804" less 3 * 6".

    31' in one piece of a 32' 10" roll, 388" net, covers 372" less 6".
    """
    assert most_of_roll(804, 396, 6) == 786
    assert most_of_roll(402, 396, 6) == 390
    assert most_of_roll(402, 402, 0) == 402
    short = task(CAP, feet(0, 10, 0, 31), is_plain=False)
    assert least_rolls(short, 31 * FOOT, 1, CAP.end_lap_ticks) * 388 == pytest.approx(366)


def test_too_few_pieces_do_not_reach() -> None:
    """Two pieces of 32' 10" reach 65' 2"."""
    assert least_rolls(task(CAP, feet(0, 10, 0, 66)), 66 * FOOT, 2) == float("inf")
