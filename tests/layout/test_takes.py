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

    So 3 courses of 3 laps; T-joints at the line between the two whole ones, 3 from either side.
    """
    takes = Takes([task(CAP, feet(0, 20, 0, 100))], make_apart(RULES, 1), [LAPS, T_JOINTS, COUNT])
    assert still(takes, 100) == (9, 6, 3)
    assert still(takes, 36) == (3, 0, 1)
    assert still(takes, 0) == (0, 0, 0)


def test_courses_below_a_line_of_an_l() -> None:
    """100' across up to 10', 60' above: below 200" are 3 courses of the lower band, 2 of the upper, and one of either.

    120" over 36 3/8" are 3, 80" are 2, 200" are 6: 3 laps each, 1 lap each, and 1 for the one that may be of either.
    """
    takes = Takes([task(CAP, feet(0, 10, 0, 100), feet(10, 20, 0, 60))], make_apart(RULES, 1), [LAPS, T_JOINTS, COUNT])
    assert 60 * FOOT == inches(720)
    assert still(takes, 200) == (3 * 3 + 2 * 1 + 1, 2 * (2 * 3 + 1 * 1), 6)
