"""What the search is given: the parts of two plies in the order of their height, with what each keeps clear of."""

from __future__ import annotations

from dataclasses import replace

from roofs import FOOT, GRID, TWO_PLIES, rectangle, rules

from lapwright.layout.ground import make_area_ground
from lapwright.layout.parts import make_parts
from lapwright.roof.values import Opening

ROOF = rectangle(60 * FOOT, 10 * FOOT, ["ridge"] * 4)


def test_courses_come_by_height_and_look_at_those_below() -> None:
    """10' in courses of 39 3/8": four of the base, beginning with a ripped one, and four of the cap.

    A course keeps 3' from the one below it in its ply and from those of the other ply that begin lower and reach it.
    """
    ground = make_area_ground(ROOF, TWO_PLIES, rules(), grid=GRID)
    parts, _ = make_parts(ground.plies, rules(), None)
    assert [part.row for part in parts] == [(0, 1), (1, 1), (0, 2), (1, 2), (0, 3), (1, 3), (0, 4), (1, 4)]
    assert dict(parts[2].near) == {(0, 1): 3 * FOOT, (1, 1): 3 * FOOT}
    assert (parts[2].left, parts[2].right) == (0, 60 * FOOT)


def test_an_opening_inside_a_sheet_makes_two_parts_that_meet_in_its_held_lap() -> None:
    """A curb from 20' to 24', inside the second course of the cap: parts from the ends to a lap of 6" between."""
    curb = Opening("C", "curb", (20 * FOOT, 4 * FOOT), (4 * FOOT, 1 * FOOT), 0.2)
    ground = make_area_ground(
        replace(ROOF, openings=(curb,)), TWO_PLIES, rules(cant='0"', base_up_wall='0"'), grid=GRID
    )
    parts, _ = make_parts(ground.plies, rules(), None)
    first, second = (part for part in parts if part.row == (1, 2))
    assert first.right - second.left == FOOT // 2
    assert 20 * FOOT < second.left < first.right < 24 * FOOT
    assert (first.left, second.right) == (0, 60 * FOOT)
