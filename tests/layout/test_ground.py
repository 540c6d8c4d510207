"""Wider top courses, for where end laps find no place: their widths by hand, and the lines that they make."""

from __future__ import annotations

from dataclasses import replace

from roofs import FOOT, GRID, TWO_PLIES, rectangle, rules

from lapwright.layout.ground import make_area_ground, wider_tops
from lapwright.roof.values import Opening

INCH = FOOT // 12
# 10' up the fall with a curb from 96" to 106", which turns no ply up
RULES = rules(cant='0"', base_up_wall='0"')
ROOF = replace(
    rectangle(60 * FOOT, 10 * FOOT, ["ridge"] * 4),
    openings=(Opening("C", "curb", (20 * FOOT, 8 * FOOT), (4 * FOOT, 10 * INCH), 0.2),),
)


def test_a_top_course_may_begin_at_an_openings_far_side_or_a_lap_below_its_near_side() -> None:
    """120" less 106" is 14"; 96" less the lap of 3" is 93", and 120" less that is 27".

    1/4 in 12 makes lengths up the fall longer by 1/4608, so both come a little longer and are rounded up to 1/16".
    """
    ground = make_area_ground(ROOF, TWO_PLIES, RULES, grid=GRID)
    assert wider_tops(ground, RULES, GRID) == [14 * INCH + GRID, 27 * INCH + GRID]


def test_openings_that_leave_less_than_a_rip_or_more_than_a_sheet_make_no_width() -> None:
    """A far side at 109" leaves 11", less than `narrowest_rip`; a near side at 84" leaves 39", over the pitch."""
    curb = Opening("C", "curb", (20 * FOOT, 7 * FOOT), (4 * FOOT, 25 * INCH), 0.2)
    ground = make_area_ground(replace(ROOF, openings=(curb,)), TWO_PLIES, RULES, grid=GRID)
    assert wider_tops(ground, RULES, GRID) == []


def test_lines_with_a_wider_top_say_what_they_come_closer_for() -> None:
    """A cap's full courses begin at 36 3/8", 72 3/4", 109 1/8"; the last goes down to 106" for 14"."""
    ground = make_area_ground(ROOF, TWO_PLIES, RULES, grid=GRID, top=14 * INCH)
    cap = ground.lines[-1]
    assert [round(line / INCH, 3) for line in cap.lines[:2]] == [36.375, 72.75]
    assert cap.top_exposed >= 14 * INCH
    assert {word for one in ground.lines for word in one.exceptions} == {"offset_for_laps"}
