"""What courses still to come take at least, by pencil."""

from __future__ import annotations

from roofs import CAP, FOOT, inches
from test_levels import RULES, feet, task

from lapwright.layout.takes import Takes, Worth
from lapwright.layout.together import make_apart

LAPS = Worth(lambda _, kind: (kind.laps + 1.0, float(kind.laps)))
T_JOINTS = Worth(lambda _, __: (0.0, 0.0), 1.0)
COUNT = Worth(lambda _, __: (1.0, 1.0))


def still(takes: Takes, line: float) -> tuple[float, ...]:
    """What courses below a line so many inches up take."""
    return takes.still(0, inches(line))


def test_courses_below_a_line_of_a_rectangle() -> None:
    """100' of cap in four pieces: below a line 100" up are 3 courses of 36 3/8" at least, two of them whole ones.

    So 3 courses of 3 laps; T-joints at the upper line of each of them, 3 from either side.
    """
    takes = Takes([task(CAP, feet(0, 20, 0, 100))], make_apart(RULES, 1), [LAPS, T_JOINTS, COUNT])
    assert still(takes, 100) == (9, 3 * 2 * 3, 3)
    assert still(takes, 36) == (3, 2 * 3, 1)
    assert still(takes, 0) == (0, 0, 0)


def test_courses_below_a_line_of_an_l() -> None:
    """100' across up to 10', 60' above: below 200" are 3 courses of the lower band, 2 of the upper, and one of either.

    120" over 36 3/8" are 3, 80" are 2, 200" are 6: 3 laps each, 1 lap each, and 1 for the one that may be of either.
    T-joints: two lines between courses of the lower band alone, and four lines with 1 lap from either side at least.
    """
    takes = Takes([task(CAP, feet(0, 10, 0, 100), feet(10, 20, 0, 60))], make_apart(RULES, 1), [LAPS, T_JOINTS, COUNT])
    assert 60 * FOOT == inches(720)
    assert still(takes, 200) == (3 * 3 + 2 * 1 + 1, 2 * (2 * 3 + 4 * 1), 6)


def test_courses_share_the_end_laps_of_what_both_cover() -> None:
    """100' across up to 10', from 40' to 140' up to 20', from 130' above that: 60' take 2 pieces, 100' take 4, 10' one.

    A course over the lower two covers 140', in 5 pieces; one over any of them shares what the least of them does.
    """
    bands = (feet(0, 10, 0, 100), feet(10, 20, 40, 140), feet(20, 30, 130, 190))
    takes = Takes([task(CAP, *bands)], make_apart(RULES, 1), [T_JOINTS])
    low, middle, high = ((k, k, True) for k in range(3))
    assert takes.shared(0, low, low) == 3
    assert takes.shared(0, low, middle) == takes.shared(0, middle, low) == 1
    assert takes.shared(0, middle, high) == takes.shared(0, low, high) == 0
    assert takes.shared(0, low, (0, 1, False)) == 3
    assert takes.shared(0, (0, 1, False), (0, 1, False)) == 4
    assert takes.shared(0, (1, 0, False), (0, 1, False)) == 3
    assert takes.shared(0, (1, 0, False), low) == 1


def test_t_joints_at_a_step() -> None:
    """100' below 60': a course over both beside one over the upper band: 1 end lap of either ends on the other.

    With one piece more than the fewest the upper one has 2 that do; where the lower one has its fifth piece is open,
    but that it lies on no more than the two bands: then too, the upper one reaches no farther than 60'.
    """
    takes = Takes([task(CAP, feet(0, 10, 0, 100), feet(10, 20, 0, 60))], make_apart(RULES, 1), [T_JOINTS])
    joints = {(was, now): more for was, now, (more,) in takes.table(0, (1, 1, True), (0, 1, True), ())}
    assert joints[(1, 0)] == joints[(1, 1)] == 2
    assert joints[(0, 0)] == joints[(0, 1)] == 3
