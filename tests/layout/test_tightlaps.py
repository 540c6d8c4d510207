"""End laps on given course lines, by pencil."""

from __future__ import annotations

from roofs import FOOT, inches

from lapwright.layout.joints import Span
from lapwright.layout.levels import fewest_laps, tight_joints
from lapwright.layout.tightlaps import CourseTakes, TightLaps

APART = ((inches(36),) * 2,) * 2


def course(low: float, feet: float, longest: int) -> CourseTakes:
    """A course so many inches up and feet across, an end lap worth 1."""
    run: Span = (0, round(feet * FOOT))
    laps = fewest_laps(run[1], inches(longest), inches(6))
    return CourseTakes(inches(low), tight_joints(run, laps, inches(longest), inches(6)), float(laps), 1.0)


def plies(feet: float, counts: tuple[int, int], longest: int) -> list[list[CourseTakes]]:
    """A base from a half sheet on and a cap, 36 3/8" of each sheet shown."""
    base = [0.0, *(18 + 36.375 * k for k in range(counts[0] - 1))]
    return [[course(low, feet, longest) for low in lows] for lows in (base, [36.375 * k for k in range(counts[1])])]


def test_one_course_in_three_has_the_fewest_pieces() -> None:
    """97' from 394" leaves three pieces 6" of play: of 17 courses six are tight, 2 * 17 + 11 = 45 end laps (CP-SAT)."""
    assert TightLaps(plies(97, (9, 8), 394), APART).least() == 45


def test_courses_with_play_enough_all_have_the_fewest_pieces() -> None:
    """80' from 394" in three pieces leaves 210" of play, where three joints lie 36" apart: 2 end laps each."""
    assert TightLaps(plies(80, (9, 8), 394), APART).least() == 2 * 17


def test_courses_of_one_piece_bar_nothing() -> None:
    """30' is one piece from 394": no end lap, whatever lies beside it."""
    assert TightLaps(plies(30, (3, 2), 394), APART).least() == 0


def test_courses_of_two_widths() -> None:
    """97' below and 80' above, four courses each of one ply: the narrow ones keep clear, every other wide one can't.

    8 courses of two end laps and one more in two of the four that are wide.
    """
    lows = [36.375 * k for k in range(8)]
    one = [course(low, 97 if k < 4 else 80, 394) for k, low in enumerate(lows)]
    assert TightLaps([one], APART).least() == 2 * 8 + 2
