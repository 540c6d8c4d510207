"""Prices of lengths: no roll comes to more than its price, and what they prove is no more than what can be had.

Held against every way to cut small rolls and to split small courses, written out plainly, and against what a solver
proved of a roof.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from itertools import combinations_with_replacement, product
from pathlib import Path

import numpy as np
import pytest
from layout_ours import ell, lay, rectangle

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "benchmarks"))

from priced import of_lengths, prove
from prices import Cut, Priced

ROLL, SHORTEST, LONGEST, LAP = 20, 4, 19, 1
COURSES = {17: 3.0, 12: 2.0}  # net lengths, an end lap left out: 18 and 13 long
LAP_COST, CUT_COST, PRICE = 0.4, 0.1, 10.0


def made() -> Priced:
    """Three courses of 18 and two of 13 from rolls of 20."""
    return Priced(Cut(SHORTEST, LONGEST, ROLL, LAP), COURSES, LAP_COST, CUT_COST, PRICE, 1)


def fills() -> Iterator[tuple[int, ...]]:
    """Every set of lengths that a roll gives."""
    for count in range(1, ROLL // SHORTEST + 1):
        for lengths in combinations_with_replacement(range(SHORTEST, LONGEST + 1), count):
            if sum(lengths) <= ROLL:
                yield lengths


def splits(net: int) -> Iterator[tuple[int, ...]]:
    """Every split of a course into up to four pieces, to the step."""
    for count in range(1, 5):
        for lengths in combinations_with_replacement(range(SHORTEST, LONGEST + 1), count):
            if sum(lengths) - count * LAP == net:
                yield lengths


def test_no_roll_comes_to_more_than_its_price() -> None:
    """Every fill of a roll, summed up one by one."""
    prices = made().prices()
    most = max(sum(float(prices[length]) for length in lengths) for lengths in fills())
    assert most <= PRICE
    assert most > 0.9 * PRICE  # else they would prove nothing


@pytest.mark.parametrize("net", COURSES)
def test_the_cheapest_split_is_that_of_all_splits(net: int) -> None:
    """No split is cheaper than what is told, and one is as cheap: whole, with the fewest pieces and with more."""
    one, prices = made(), made().prices()
    paid = {
        lengths: sum(float(prices[length]) + CUT_COST for length in lengths) + (len(lengths) - 1) * LAP_COST
        for lengths in splits(net)
    }
    assert one.cheapest(prices, net)[0][net] == pytest.approx(min(paid.values()))
    more, fewest = one.by_pieces(prices, net, 1)
    assert fewest == pytest.approx(min(worth for lengths, worth in paid.items() if len(lengths) == 1))
    assert more == pytest.approx(min(worth for lengths, worth in paid.items() if len(lengths) > 1))


@pytest.mark.parametrize(("roll", "net"), [(20, 17), (20, 30), (9, 12), (9, 27)])
def test_a_course_of_few_lengths_is_as_cheap_as_the_cheapest_of_all_counts(roll: int, net: int) -> None:
    """Pieces of 4 to 9 that reach at least, laps of 1; whole rolls beside them where a piece may be one."""
    cut = Cut(4, 9, roll, 1)
    paid = np.array([0.0, 0.0, 0.0, 0.0, 3.1, 3.3, 4.9, 5.0, 5.2, 7.7])
    one, two = of_lengths(cut, paid, net)
    wholes = range(5) if roll == 9 else range(1)
    for (i, x), (j, y) in product(enumerate(range(4, 10)), repeat=2):
        counts = [
            (whole, a, b)
            for whole, a, b in product(wholes, range(11), range(11))
            if whole * (roll - 1) + a * (x - 1) + b * (y - 1) >= net
        ]
        costs = [whole * paid[9] + a * paid[x] + b * paid[y] for whole, a, b in counts]
        assert two[i, j] == pytest.approx(min(costs))
        if i == j:
            assert one[i] == pytest.approx(min(costs))


def test_what_they_prove_can_be_had() -> None:
    """By pencil: 18 fills a roll but for 2, less than any piece, and 13 for 7: in one piece each that is five rolls.

    In two pieces 18 takes 19 and 13 takes 14: 3 x 19 + 2 x 14 = 85 of 100, so five again, and never four: 80.  Five
    rolls and five cuts are 50.5; the prices prove more than four rolls' 40 and no more than that.
    """
    one = made()
    prices = one.prices()
    proved = sum(many * float(one.cheapest(prices, net)[0][net]) for net, many in COURSES.items())
    assert 40 < proved <= 50.5


def test_a_roof_is_proved_no_dearer_than_it_can_be_had() -> None:
    """32' by 3 courses, cut to 4": three pieces of 384 of the cap from three rolls, four of the base from two.

    5 rolls at 120, 7 cuts, 2 lengths at 3 and 2 ripped widths at 10: 633 with a pencil, which CP-SAT proved the least
    where pieces are cut to 1/2" (docs/method/layout.md).
    """
    case = rectangle(32, 3, given=(("cut_step", '4"'),))
    proof = prove(case, lay(case, patience=0.01))
    assert proof is not None
    assert proof.rolls == 5
    assert 600 < proof.cost <= 633


def test_lengths_of_two_bands_are_proved_no_dearer_than_they_can_be_had() -> None:
    """20' below 11', 4 courses each, with a pencil: all courses in one piece, two lengths of each ply.

    Of the cap 4 of 240" and 4 of 132", from 4 rolls of 394"; of the base, whose sheets lap wider, one more of 240",
    from 3 rolls of 787".  7 rolls at 120, 17 cuts, 4 lengths at 3 and a ripped top of each ply at 10 are 889.  No less
    than rolls, 16 cuts and all 4 lengths is proved: with one length a ply narrow courses would have an end lap each.
    """
    case = ell((20, 11), (4, 4), "left", given=(("cut_step", '4"'),))
    proof = prove(case, lay(case, patience=0.01))
    assert proof is not None
    assert 7 * 120 + 16 + 4 * 3 <= proof.cost <= 889
