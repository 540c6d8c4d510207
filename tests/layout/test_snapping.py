"""Lap lines drawn down to steps of the ground, by pencil."""

from __future__ import annotations

from itertools import pairwise

import pytest
from roofs import FOOT, GRID, INCH, TWO_PLIES, flat, inches, make_area, rules

from lapwright.layout.courses import Band, Stack, least_offset, plan_lines
from lapwright.layout.frame import make_frame
from lapwright.layout.place import make_layout
from lapwright.layout.region import make_region
from lapwright.layout.snapping import snapped, steps_of

STACK = Stack(inches(18), inches(12), inches(12), GRID)
PITCH = inches(36.375)


def bands(height: float) -> list[Band]:
    """Base and cap between two level edges without details [inches]."""
    return [Band(ply, inches(39.375), inches(3), 0, inches(height)) for ply in ("base", "cap")]


def wider_above(step: int) -> list[tuple[int, int]]:
    """An L: 50' wide below a level, 100' above it, 36' 4" up."""
    top = 436 * INCH
    return [(0, 0), (50 * FOOT, 0), (50 * FOOT, step), (100 * FOOT, step), (100 * FOOT, top), (0, top)]


def test_steps_are_where_the_ground_gets_wider() -> None:
    """The L has one, at 218"; upside down, narrower above, it has none."""
    above = make_area(wider_above(218 * INCH), ["ridge"] * 6)
    below = make_area(
        [
            (0, 0),
            (100 * FOOT, 0),
            (100 * FOOT, 218 * INCH),
            (50 * FOOT, 218 * INCH),
            (50 * FOOT, 436 * INCH),
            (0, 436 * INCH),
        ],
        ["ridge"] * 6,
    )
    for area, steps in ((above, 1), (below, 0)):
        region = make_region(area, make_frame(area, rules()), rules(), under_cap=False)
        assert len(steps_of(region)) == steps


def test_a_line_a_quarter_inch_above_a_step_comes_down_to_it() -> None:
    """The cap's sixth line lies at 6 x 36 3/8" = 218 1/4"; drawn to 218" courses are ripped.

    Every offset stays 18", no sheet is stretched: lines are no more than 36 3/8" apart.
    """
    planned = plan_lines(bands(436), STACK)
    assert planned[1].lines[5] == inches(218.25)
    found = snapped(planned, STACK, [[inches(218)], [inches(218)]])
    assert found is not None
    base, cap = found
    assert cap.lines[5] <= inches(218)
    assert all(b - a <= PITCH for lines in (base.lines, cap.lines) for a, b in pairwise(lines))
    least = least_offset(base.lines, cap.lines)
    assert least is not None
    assert least >= inches(18)


@pytest.mark.parametrize("level", [211.0, 218.25])
def test_no_line_is_drawn_down_far_or_for_nothing(level: float) -> None:
    """From 218 1/4" it is 7 1/4" to 211", over the 6" that are tried; and a line on the step need not move."""
    planned = plan_lines(bands(436), STACK)
    assert snapped(planned, STACK, [[], [inches(level)]]) is None


def test_the_course_below_a_step_stays_short() -> None:
    """50' below 100': the cap has six courses of 50' and six of 100', not seven, though 6 x 36 3/8" is 1/4" over 218".

    At least 6 x 1 + 6 x 3 end laps in the cap: 50' takes two pieces of 32' 10", 100' four.
    """
    area = make_area(wider_above(218 * INCH), ["ridge"] * 6)
    layout = make_layout([flat(area)], TWO_PLIES, rules(), grid=GRID, patience=0.1)
    cap = layout.plies[1]
    long = {piece.course for piece in cap.pieces if piece.u1 > 51 * FOOT}
    assert long == set(range(7, 13))
