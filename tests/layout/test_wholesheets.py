"""Course lines on which the plies under the cap are laid of whole sheets, each lapped wider than asked instead of
ripped; by pencil.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import inches

from lapwright.layout.laplines import Band, Lines, Stack, lap_lines
from lapwright.layout.sharedrips import widths
from lapwright.layout.wholesheets import all_whole, lowest_lines, unripped, whole_sheets, with_whole

STACK = Stack(inches(18), inches(12), inches(12), 127)
WIDE, LAP = inches(39.375), inches(3)


def full(ply: str, ends: float, starter: float) -> Lines:
    """Full courses over a starter [inches]."""
    band = Band(ply, WIDE, LAP, 0, inches(ends))
    return Lines(band, inches(starter), lap_lines(band, inches(starter)))


def edges(one: Lines) -> list[tuple[float, float]]:
    """Low and high edge of each course [inches]."""
    return [(course.low / inches(1), course.high / inches(1)) for course in one.courses()]


def test_whole_sheets_lap_wider_where_a_starter_would_be_ripped() -> None:
    """105" up; the cap's lines at 36 3/8 and 72 3/4.  A top sheet from 105 - 39 3/8 = 65 5/8 lies 7 1/8 from 72 3/4.

    So the top line goes to 72 3/4 + 18 = 90 3/4 and shows 14 1/4"; a pitch below each: 54 3/8 and 18, both just 18" or
    18 3/8" from the cap's.  The first sheet is lapped by 39 3/8 - 18 = 21 3/8".
    """
    cap = full("cap", 105, 39.375)
    assert lowest_lines(full("base", 105, 21).band, cap, STACK, full=True) is None
    base = lowest_lines(full("base", 105, 21).band, cap, STACK, full=False)
    assert base is not None
    assert edges(base) == [(0, 39.375), (18, 57.375), (54.375, 93.75), (90.75, 105)]
    assert (widths(base), base.starter) == (1, WIDE)


def test_no_sheet_is_ripped_where_a_whole_one_ends_at_the_top() -> None:
    """130 1/4" up: a top sheet from 90 7/8 is 18 1/8" and 18 1/4" from the cap's lines at 72 3/4 and 109 1/8.

    A pitch below it 54 1/2, then 18 1/8.
    """
    cap = full("cap", 130.25, 39.375)
    base = lowest_lines(full("base", 130.25, 21).band, cap, STACK, full=True)
    assert base is not None
    assert edges(base) == [(0, 39.375), (18.125, 57.5), (54.5, 93.875), (90.875, 130.25)]
    assert widths(base) == 0


def test_lines_of_the_fewest_widths_come_first() -> None:
    """On 130 1/4" the cap's top sheet is 21 1/8" wide, nothing else is ripped; a starter of 21 3/16" was, and a top."""
    own = [full("base", 130.25, 21.1875), full("cap", 130.25, 39.375)]
    assert [widths(one) for one in own] == [2, 1]
    first = whole_sheets(own, (), STACK)[0]
    assert [widths(one) for one in first] == [0, 1]
    assert first[0].lines == (inches(18.125), inches(54.5), inches(90.875))


def test_a_line_beside_the_rip_of_the_cap_may_come_closer() -> None:
    """119" up: the cap's top line is lowered from 109 1/8 to 107, over a course that shows 34 1/4".

    Of the base 119 - 39 3/8 = 79 5/8 lies too near to 72 3/4. From 90 3/4 it is 18" from it and 16 1/4" from the rip at
    107; next to the rip 12" do from 72 3/4 too, so 84 3/4. Neither does where 18" hold beside a rip as well.
    """
    cap = replace(full("cap", 119, 39.375), lines=(inches(36.375), inches(72.75), inches(107)))
    band = full("base", 119, 21).band
    ways = [lowest_lines(band, cap, STACK, full=False, closer=closer) for closer in (None, 0)]
    assert [edges(one)[-1] for one in ways if one is not None] == [(90.75, 119), (84.75, 119)]
    strict = replace(STACK, offset_at_rip=STACK.offset)
    assert [lowest_lines(band, cap, strict, full=False, closer=closer) for closer in (None, 0)] == [None, None]


def test_the_second_line_from_the_top_may_be_the_one_beside_the_rip() -> None:
    """131" up: two cap courses of 30 5/8" on top, lines at 36 3/8, 72 3/4 and, the rip, 100 3/8.

    84 3/4 is 12" from 72 3/4 and 15 5/8" from the rip; a base line above the rip has to be farther from it: 116 1/16.
    """
    cap = replace(full("cap", 131, 39.375), lines=(inches(36.375), inches(72.75), inches(100.375)))
    base = lowest_lines(full("base", 131, 21).band, cap, STACK, full=False, closer=1)
    assert base is not None
    assert [line / inches(1) for line in base.lines[-2:]] == [84.75, 116.0625]


def test_a_sheet_that_would_reach_under_the_next_but_one_stays_ripped() -> None:
    """Lines at 15" and 30": a whole first sheet would reach to 39 3/8", over the third course's low edge."""
    band = Band("base", WIDE, LAP, 0, inches(66))
    one = all_whole(Lines(band, inches(18), (inches(15), inches(30))))
    assert edges(one) == [(0, 18), (15, 54.375), (30, 66)]


@pytest.mark.parametrize(("joint", "is_whole"), [(100.0, False), (135.9375, False), (136.0, True), (200.0, True)])
def test_a_starter_is_whole_where_its_end_laps_keep_clear(joint: float, is_whole: bool) -> None:
    """A starter of 21" lies on the cap's first course alone, a whole one reaches 3" under its second, from 36 3/8".

    36" are to be kept from the end lap there, at 100".
    """
    lines = (full("base", 105, 21), full("cap", 105, 39.375))
    joints = ({1: (inches(joint),)}, {1: (), 2: (inches(100),)})
    found = unripped(lines, joints, STACK, inches(36))
    assert (1 in found[0].whole) is is_whole
    assert found[0].lines == lines[0].lines
    assert found[1] == lines[1]


def test_a_width_that_another_course_keeps_is_not_spared() -> None:
    """105 3/4" up: a starter of 18" and two full courses leave 18" for the top one, which stays ripped anyway."""
    base = full("base", 105.75, 18)
    assert ([course.high - course.low for course in base.courses()][::3], widths(base)) == ([inches(18)] * 2, 1)
    assert widths(with_whole(base, [1])) == 1
    assert unripped((base, full("cap", 105.75, 39.375)), ({}, {}), STACK, inches(36))[0].whole == frozenset()
