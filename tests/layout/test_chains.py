"""Chains of cut lengths, counted with a pencil.

Rolls of 402, pieces of 60 to 396, end laps of 6; 24 courses of 377.  In one piece a course leaves 25 of a roll, less
than any piece: 24 rolls.  In two it takes 383, which a roll gives once; 24 x 383 = 9192 = 22.87 rolls, so 23 at least.

A chain has them: three of 134 fill a roll.  134 leaves 249 of a course, which leaves 153 of a roll: 153 + 230; 172 +
211; 191 + 192; 210 + 173; 229 + 154; 248 + 135; and a course that begins with 249 leaves 134, of which three fill a
roll again.  Eight links of three courses: 1 + 7 x 3 + 1 = 23 rolls.
"""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise

import pytest

from lapwright.layout.chains import Band, chains, link, link_up, parted_chains
from lapwright.layout.chance import make_chance
from lapwright.layout.cost import Costs
from lapwright.layout.moves import Mover
from lapwright.layout.polish import stand
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part
from lapwright.layout.standing import Standing, make_judge

STOCK = Stock(0, 0, 402, 396, 60, 6, 1, (396,))
WIDE, APART = 377, 36


def standing(courses: int, aim: str = "fewest_rolls") -> Standing:
    """Courses one above another, whose joints keep 36 apart, in one piece each."""
    parts = [Part((0, k), 0, WIDE, ((),), (((0, k - 1), APART),) if k > 1 else ()) for k in range(1, courses + 1)]
    return stand(parts, [()] * courses, [STOCK], make_judge(aim, Costs(), ("cap",), ({},)))


def mover(one: Standing) -> Mover:
    """All courses may be split anew."""
    free = tuple(range(len(one.seats)))
    return Mover(one, make_chance(), free, frozenset(free))


def rolls(one: Standing) -> int:
    """Rolls of the courses as they stand."""
    return first_fit(cut for split in one.at for cut in one.cuts[split])


def first_fit(cuts: Iterable[int]) -> int:
    """Rolls that cuts take by first fit of the longest first: no fewer than there are."""
    left: list[int] = []
    for cut in sorted(cuts, reverse=True):
        place = next((k for k, rest in enumerate(left) if rest >= cut), None)
        if place is None:
            left.append(402 - cut)
        else:
            left[place] -= cut
    return len(left)


def test_courses_take_fewer_rolls_by_a_chain() -> None:
    """33 courses, of which 9 or more stay in one piece: 24 of them from 23 rolls, so 32."""
    one = standing(33)
    assert rolls(one) == 33
    assert link_up(mover(one))
    assert rolls(one) == 32
    rows = [one.joints[split] for split in one.at]
    assert all(60 <= cut <= 396 for split in one.at for cut in one.cuts[split])
    near = [abs(a - b) for below, above in pairwise(rows) for a in below for b in above]
    assert min(near, default=APART) >= APART


def test_no_chain_where_it_costs_more() -> None:
    """By cost: a roll less for two dozen end laps is not worth it."""
    one = standing(33, "least_cost")
    assert not link_up(mover(one))
    assert rolls(one) == 33


def test_the_chain_of_the_pencil_is_among_those_tried() -> None:
    """Eight links of three, from 134 on to 249."""
    tried = list(chains(Band(range(33), 383, ()), STOCK))
    firsts = (134, 153, 172, 191, 210, 229, 248, 249)
    assert [((first, 383 - first), 3) for first in firsts] in tried


def test_no_course_is_left_over_between_courses_of_a_piece_more() -> None:
    """28 courses of 409 from 29 rolls: 141 + 141 + 139 twice, and three ways from 261 down by 13, two longer by one.

    28 x 415 and two end laps more are 11632 of 11658; the last links leave 144 and 157 for the other 141.
    """
    links = [((261 - 13 * k, 154 + 13 * k), 3) for k in range(8)]
    tried = list(parted_chains(Band(range(28), 415, ()), STOCK))
    assert [((141, 141, 139), 2), *links, ((157, 258), 2)] in tried
    assert (
        first_fit([*(141, 141, 139) * 2, *(cut for cuts, many in links for cut in cuts * many), *(157, 258) * 2]) == 29
    )


@pytest.mark.parametrize(("first", "cuts"), [(134, (134, 249)), (59, None), (397, None), (330, None)])
def test_what_a_link_may_be(first: int, cuts: tuple[int, int] | None) -> None:
    """Both lengths are pieces: 60 to 396; 330 would leave 53."""
    assert link(Band((0, 1), 383, ()), STOCK, first) == cuts


def test_what_is_not_free_stays() -> None:
    """With two courses to be split anew there is no chain."""
    one = standing(33)
    assert not link_up(Mover(one, make_chance(), (0, 1), frozenset((0, 1))))
    assert rolls(one) == 33
