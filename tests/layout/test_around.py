"""A chain laid first and all else around it, counted with a pencil.

Rolls of 402, pieces of 60 to 396, end laps of 6; 35 courses of 407 in two pieces take 413 each: 35 x 413 = 14,455 =
35.96 rolls, so 36 at least, with 17 to spare.  A piece is 353 at most, so a roll with one piece wastes 49: each gives
two, 72 pieces, two more than the courses have.  With two courses in three pieces of 140 (and 139), 12 of the 17 left,
36 rolls do: each 140 leaves 262 of a roll, that 151 of a course, that 251 of a roll, 162, 240, ... 196, 206; three
such threads of eleven courses each end at the other course's 140s (402 - 261 = 141).
"""

from __future__ import annotations

from test_chains import first_fit, mover

from lapwright.layout.around import ways_around
from lapwright.layout.chains import Band, link_up, parted_chains, rest_chains
from lapwright.layout.chance import make_chance
from lapwright.layout.cost import Costs
from lapwright.layout.moves import Mover
from lapwright.layout.polish import go_around, stand
from lapwright.layout.pool import Stock
from lapwright.layout.search import Part
from lapwright.layout.standing import Standing, make_judge

CAP = Stock(0, 0, 402, 396, 60, 6, 1, (396,))
BASE = Stock(1, 1, 804, 396, 60, 6, 1, (396,))
WIDE, APART, COURSES = 407, 36, 35


def standing(*, with_base: bool) -> Standing:
    """Cap courses split at 54 and 347 in turn; each base course lies under two of them, split at 201."""
    parts = [Part((0, k), 0, WIDE, ((),), (((0, k - 1), APART),) if k > 1 else ()) for k in range(1, COURSES + 1)]
    joints = [(54,) if k % 2 else (347,) for k in range(1, COURSES + 1)]
    for k in range(1, COURSES + 1) if with_base else ():
        near = [((0, j), APART) for j in (k, k + 1) if j <= COURSES]
        parts.append(Part((1, k), 0, WIDE, ((),), (*near, *((((1, k - 1), APART),) if k > 1 else ()))))
        joints.append((165,) if k % 2 else (201,))
    sheets = ("cap", "base") if with_base else ("cap",)
    stocks = [CAP, BASE] if with_base else [CAP]
    return stand(parts, joints, stocks, make_judge("least_cost", Costs(), sheets, ({},) * len(sheets)))


def rolls(one: Standing) -> int:
    """Rolls of the cap as it stands."""
    at = zip(one.seats, one.at, strict=True)
    return first_fit(cut for seat, split in at if seat.ply == 0 for cut in one.cuts[split])


def is_clear(one: Standing) -> bool:
    """All joints of courses near one another are as far apart as they have to be."""
    rows = [one.joints[split] for split in one.at]
    return all(
        abs(a - b) >= apart
        for p, seat in enumerate(one.seats)
        for q, apart in seat.near
        for a in rows[p]
        for b in rows[q]
    )


def test_the_chain_of_the_pencil_is_among_those_tried() -> None:
    """Two courses in three pieces, eleven links of three courses."""
    links = [((140, 140, 139), 2), *(((262 - 11 * k, 151 + 11 * k), 3) for k in range(11))]
    assert links in list(parted_chains(Band(range(COURSES), 413, ()), CAP))


def test_courses_of_a_piece_more_spare_the_last_roll() -> None:
    """36 rolls, as few as their length allows."""
    one = standing(with_base=False)
    assert rolls(one) > 36
    assert link_up(mover(one))
    assert rolls(one) == 36
    assert is_clear(one)


def test_joints_in_the_way_are_moved() -> None:
    """The base's joints in the middle bar the chain; laid first, it has 36 rolls, and the base goes to the sides."""
    one = standing(with_base=True)
    assert is_clear(one)
    ways = ways_around(mover(one))
    assert ways
    before = one.cost()
    one.change(ways[0].new)
    assert is_clear(one)
    assert rolls(one) == 36
    again = standing(with_base=True)
    go_around(mover(again), 2_000)
    assert again.cost() < before
    assert is_clear(again)


def test_chains_in_what_whole_courses_leave() -> None:
    """Three courses of 205 leave 189 of 804: 151 + 60 of a course of 211, 129 + 82, 107 + 104, 85 + 126, 63 + 148."""
    stock = Stock(0, 0, 804, 396, 60, 6, 1, (396,))
    firsts = (151, 129, 107, 85, 63)
    tried = list(rest_chains(Band(range(34), 211, ()), stock, {205}))
    assert [((first, 211 - first), 3) for first in firsts] in tried


def test_what_may_not_move_stays() -> None:
    """With the base held there is no place for the chain of the middle."""
    one = standing(with_base=True)
    free = tuple(range(COURSES))
    held = [one.at[p] for p in range(COURSES, 2 * COURSES)]
    go_around(Mover(one, make_chance(), free, frozenset(free)), 100)
    assert [one.at[p] for p in range(COURSES, 2 * COURSES)] == held
    assert is_clear(one)
