"""Bounds for all plies together: roofs whose best a solver has proven, and pencil counts."""

from __future__ import annotations

from fractions import Fraction

import pytest
from roofs import BASE, CAP, FOOT, INCH, TWO_PLIES, inches
from test_levels import task
from test_sections import region

from lapwright.assembly.values import Ply
from lapwright.defaults.rules import make_rules
from lapwright.layout.bounds import ply_bound
from lapwright.layout.cost import Costs
from lapwright.layout.least import AreaNeed, job_least
from lapwright.layout.levels import Level
from lapwright.layout.together import Least, course_counts, least_together, make_apart, more_courses

RULES = make_rules({})
PLIES = TWO_PLIES.plies
PLAIN = {"base-sa": True, "cap-sa": True}


def least(height: int, *levels: tuple[float, float], plies: tuple[Ply, ...] = PLIES) -> Least:
    """The bounds of bands of so many feet from and to, all of one height [ticks], both plies ending at its sides."""
    bands = tuple(
        Level(k * height, (k + 1) * height, round(left * FOOT), round(right * FOOT))
        for k, (left, right) in enumerate(levels)
    )
    found = least_together(plies, [bands] * len(plies), RULES, Costs(), PLAIN)
    assert found is not None
    return found


def rolls(found: Least) -> int:
    """Rolls of both sheets at least, each rounded up."""
    return min(sum(-(-Fraction(round(use * 787 * 394), 787 * 394) // 1) for use in choice) for choice in found.use)


@pytest.mark.parametrize(
    ("feet", "inches_up", "laps", "least_rolls"),
    [
        (97, 109, 18, 15),  # 3 + 4 courses; tight ones are a third: 2 * 7 + 4
        (97, 291, 45, 38),  # 8 + 9 courses: 2 * 17 + 11
        (100, 436, 75, 59),  # 12 + 13 courses of 3
        (66, 146, 18, 15),
        (33, 146, 4, 8),
        (40, 436, 25, 24),
        (120, 218, 39, 36),
    ],
)
def test_rectangles_whose_best_is_proven(feet: int, inches_up: int, laps: int, least_rolls: int) -> None:
    """End laps and rolls that CP-SAT proves to be the fewest (benchmarks/layout.py, small)."""
    found = least(inches(inches_up), (0, feet))
    assert found.end_laps == laps
    assert rolls(found) == least_rolls


def test_an_l_whose_best_is_proven() -> None:
    """60' below 40', three courses of 36 3/8" each, and 50' below 100', six each: 15 and 51 end laps (CP-SAT)."""
    assert least(109 * INCH, (0, 60), (0, 40)).end_laps == 15
    assert least(218 * INCH, (0, 50), (0, 100)).end_laps == 51


def test_both_plies_can_not_have_the_fewest_courses() -> None:
    """109" up: three courses of 36 3/8" and a lap of 3" are 112 1/8", so their lines move by 3 1/8" only: 4 and 3.

    The cap's first line lies at 36 3/8" whatever it has above, so three courses of the base are too near to any cap.
    """
    band = Level(0, inches(109), 0, 20 * FOOT)
    counts = course_counts([task(BASE, band), task(CAP, band)], make_apart(RULES, 2))
    assert not {(3, 3), (3, 4)} & set(counts)
    assert (4, 3) in counts


def test_a_low_roof_has_one_course() -> None:
    """39" up and 30' across: no lap, one course of each ply; 360" of 787" and, of 394", less than a piece is left."""
    found = least(inches(39), (0, 30))
    assert found.end_laps == 0
    assert min(use[0] for use in found.use) == pytest.approx(360 / 787)
    assert min(use[1] for use in found.use) == pytest.approx(366 / 394)  # in two pieces


def test_work_is_laps_t_joints_and_cuts() -> None:
    """100' by 109": 4 + 3 courses of three laps; laps 21 * 4; T-joints at both sides but at the outer two courses of
    each ply: 2 * (21 * 2 - 12); the base's pieces are cut, 4 in each of its 4 courses: 16.
    """
    found = least(109 * INCH, (0, 100))
    assert found.work[0] == 84 + 60 + 16


def test_three_plies_hold_for_neighbours() -> None:
    """66' by 146" in three plies: 26 end laps (CP-SAT)."""
    plies = (Ply("base", BASE), Ply("interply", BASE), Ply("cap", CAP))
    assert least(inches(146), (0, 66), plies=plies).end_laps == 26


def test_one_ply_or_the_other_has_a_course_more() -> None:
    """109" up from edge to edge: the base has four courses or more; 36" up and less one of each will do.

    The base's first line would lie within 3 1/8" of the cap's, which lies at 36 3/8", had it three.
    """
    more = more_courses([(0, inches(109))] * 2, TWO_PLIES, RULES)
    assert not {(0, 0), (0, 1)} & set(more)
    assert (1, 0) in more
    assert (0, 0) in more_courses([(0, inches(36))] * 2, TWO_PLIES, RULES)
    assert more_courses([(0, inches(36))] * 2, TWO_PLIES, RULES, laid=(1, 1)) == [(0, 0)]
    assert more_courses([(0, inches(109))] * 2, TWO_PLIES, RULES, laid=(4, 3)) == more


def test_rules_that_no_course_keeps_leave_a_bound_of_nothing() -> None:
    """A narrowest rip above the exposed width can't be kept by three courses: nothing is said, nothing fails."""
    band = (Level(0, inches(109), 0, 97 * FOOT),)
    rules = make_rules({"narrowest_rip": '38"'})
    assert least_together(PLIES, [band, band], rules, Costs(), PLAIN) is None
    assert more_courses([(0, inches(109))] * 2, TWO_PLIES, rules) == [(0, 0)]


@pytest.mark.parametrize(
    ("below", "above", "courses", "least_rolls"),
    [(97, 50, (4, 4), 30), (40, 97, (3, 2), 17), (60, 40, (3, 3), 16)],
)
def test_ls_whose_rolls_are_proven(below: int, above: int, courses: tuple[int, int], least_rolls: int) -> None:
    """Rolls that CP-SAT proves to be the fewest, side laps wider than asked among its choices.

    Only one ply can have a lap line at the step; the other has a course more that is as long as the longer band.
    """
    pitch = inches(36) + FOOT // 32
    heights = [round(count * pitch / INCH) / 12 for count in courses]
    step, top = heights[0], sum(heights)
    ground = region([(0, 0), (below, 0), (below, step), (above, step), (above, top), (0, top)])
    needs = AreaNeed("", [ground] * 2, [ply_bound(ground, ply.sheet, RULES) for ply in PLIES])
    assert job_least([needs], TWO_PLIES, RULES, Costs(), []).rolls == least_rolls
