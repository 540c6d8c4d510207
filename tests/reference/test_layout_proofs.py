"""Where our bound on end laps is under what we lay, the solver proves that no layout has fewer.

And of rolls: roofs at which more than one over the bound was seen once.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from layout_ask import AIMS
from layout_model import Limit, solve
from layout_ours import BASE, CAP, FOOT, INCH, THREE_PLIES, Case, Slab, ask, ell, lay, plan_of, rectangle, seeded_case

from lapwright.assembly.values import Ply

ROOFS = {
    # of three courses beside and on one another each pair leaves room, but a chain of them does not
    "92' 10\" below 110'": seeded_case(75),
    "59' 9\" below 29' 10\"": seeded_case(111),
    # ten courses with the fewest pieces, whose joints have to follow those of the other ply at one distance
    "156' 1\" of five courses": rectangle(156 + 1 / 12, 4.1),
}


@pytest.mark.parametrize("case", ROOFS.values(), ids=ROOFS)
def test_no_layout_has_fewer_end_laps(case: Case) -> None:
    """The solver, free in course lines and joints, proves our number the least within its limit."""
    roof, unit = ask(case)
    plan = plan_of(lay(case, "fewest_laps"), unit)
    answer = solve(roof, "fewest_laps", Limit(deterministic=60.0), plan)
    assert answer.is_proven
    assert answer.worth == AIMS["fewest_laps"](roof, plan)


def test_lines_at_a_step_spare_the_end_laps_of_courses_that_can_not_all_be_tight() -> None:
    """84' 3" below 92' 8", 14 and 5.8 courses, three plies, rolls of 33' 6" and 67': 127 end laps, as few as can be.

    Both lengths take three pieces, but 92' 8" leaves them 64" of play and 84' 3" 165": of three courses on one another
    that are as long as the upper band one takes a piece more.  Base and cap with their lines drawn down to the step
    have a course less of that length each.
    """
    base, cap = replace(BASE, length_ticks=67 * FOOT), replace(CAP, length_ticks=33 * FOOT + 6 * INCH)
    plies = (Ply("base", base), Ply("interply", base), Ply("cap", cap))
    layout = lay(ell((84.25, 92 + 8 / 12), (14, 5.8), "right", plies=plies), "fewest_laps")
    assert sum(ply.end_laps for ply in layout.plies) == 127 == layout.end_laps_at_least


def test_rolls_are_within_one_of_the_bound_on_a_long_l() -> None:
    """31' 5" below 40' 10" from rolls of 33' 6" and 67', 33.4 and 5.9 courses: 62 rolls, no fewer than 61.

    By pencil: a course of 377 takes 383 of a roll of 402 in two pieces and all of it in one, 0.953 at least, one of 490
    takes 496, 1.234.  The cap's lines go with the base's, which leaves them 3/8 a course: 12 1/2 on 33 courses, less
    than the 0.6 of a course that a line at the step would ask for.  So seven of its 40 courses are long: 33 x 0.953 + 7
    x 1.234 = 40.08, 41 rolls.  Of the base 34 x 377 + 6 x 496 = 15,794 of 804: 19.6, 20 rolls.
    """
    base, cap = replace(BASE, length_ticks=67 * FOOT), replace(CAP, length_ticks=33 * FOOT + 6 * INCH)
    case = ell((31 + 5 / 12, 40 + 10 / 12), (33.4, 5.9), "left", plies=(Ply("base", base), Ply("cap", cap)))
    layout = lay(case, "fewest_rolls")
    assert layout.rolls_at_least == 61
    assert len(layout.rolls) == 62


def test_three_plies_with_many_ways_are_bounded_two_by_two() -> None:
    """84' 3" below 92' 8", 2 and 5.8 courses, three plies: 51 end laps at least.

    By pencil: a course of 1112 takes three pieces of 394 or 396, which reach 1170 and 1176: 58 or 64 of play.  A course
    of the cap, one of the interply on it and the next of either ply keep 36 from one another, so of three courses in
    their order one has a lap more.  Ten of these two plies lie in the upper band alone: three more than two laps each
    of 8 + 8 + 8 courses, of which those of 1011 take three pieces as well.
    """
    case = ell((84.25, 92 + 8 / 12), (2, 5.8), "right", plies=THREE_PLIES)
    layout = lay(case, "fewest_laps", patience=0.01)
    assert 51 <= layout.end_laps_at_least <= sum(ply.end_laps for ply in layout.plies)


@pytest.mark.parametrize(
    "slabs",
    [
        ((0, 1106, 313), (43, 1092, 335), (549, 1092, 335)),
        ((0, 768, 186), (0, 1176, 302), (0, 569, 327)),
        ((150, 1173, 247), (150, 1320, 109), (200, 472, 211), (0, 472, 316)),
    ],
)
def test_bands_have_as_few_end_laps_as_bounded(slabs: tuple[tuple[int, int, int], ...]) -> None:
    """Bands with steps on both sides, from and to and high in inches: a layout that has what is bounded proves it.

    Each ply by itself needs 90, 81 and 60; together they need 98, 84 and 66.
    """
    case = Case("bands", tuple(Slab(left * INCH, right * INCH, height * INCH) for left, right, height in slabs))
    layout = lay(case, "fewest_laps", patience=0.1)
    assert layout.end_laps_at_least == sum(ply.end_laps for ply in layout.plies)
