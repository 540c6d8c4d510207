"""The search for joints on courses that can be counted by hand."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from roofs import FOOT, inches

from lapwright.layout.cost import Costs, weights_of
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part, State, Task, search
from lapwright.layout.splits import Split

ROLL = 32 * FOOT + inches(10)
CAP = Stock(0, 0, ROLL, ROLL, 5 * FOOT, inches(6), inches(0.5), (ROLL,))


def courses(length: int, count: int) -> list[Part]:
    """Courses of one length, each 3' clear of the joints of the one below."""
    return [Part((0, k), 0, length, near=(((0, k - 1), 3 * FOOT),)) for k in range(1, count + 1)]


def searched(parts: Sequence[Part], aim: str) -> tuple[list[Split], State]:
    """The cheapest way found."""
    weights = weights_of(aim, Costs(), {"cap": 0})
    result = search(Task(parts, [CAP], weights, [weights.roll["cap"]], 20, 0, ((),)))
    assert not isinstance(result, Part)
    return result


def test_ninety_seven_feet_alternate_three_and_four_pieces() -> None:
    """Three pieces of 97' leave 6" of play, so of four courses two at most have three: 2 + 3 + 2 + 3 end laps."""
    splits, _ = searched(courses(97 * FOOT, 4), "fewest_laps")
    assert sorted(len(split.joints) for split in splits) == [2, 2, 3, 3]


def test_forty_seven_feet_take_three_rolls_for_two_courses() -> None:
    """Two courses of 47' with one lap each are 95' of sheet; three rolls give 98' 6", two 65' 8"."""
    _, state = searched(courses(47 * FOOT, 2), "fewest_rolls")
    assert state.opened == (3,)


def test_joints_keep_their_stagger_and_what_is_barred() -> None:
    """No joint of a course is within 3' of one below or within a bar."""
    bar = (40 * FOOT, 46 * FOOT)
    parts = [Part(one.row, 0, one.right, ((bar,),), one.near) for one in courses(100 * FOOT, 6)]
    splits, _ = searched(parts, "least_cost")
    for low, high in pairwise(splits):
        assert min(abs(a - b) for a in low.joints for b in high.joints) >= 3 * FOOT
    assert not any(bar[0] < joint < bar[1] for split in splits for joint in split.joints)


def test_a_part_without_a_way_is_named() -> None:
    """A run longer than a piece, all of it barred, can't be split: the search gives the part back."""
    part = Part((0, 1), 0, 60 * FOOT, (((-FOOT, 61 * FOOT),),))
    weights = weights_of("least_cost", Costs(), {"cap": 0})
    assert search(Task([part], [CAP], weights, [1.0], 20, 0, ((),))) is part
