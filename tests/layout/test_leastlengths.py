"""Different lengths at least, by pencil."""

from __future__ import annotations

import pytest
from roofs import BASE, CAP, TWO_PLIES
from test_sections import region

from lapwright.assembly.values import Sheet
from lapwright.defaults.rules import make_rules
from lapwright.layout.cost import Costs
from lapwright.layout.leastlengths import least_lengths, lengths_cost
from lapwright.layout.region import Region

RULES = make_rules({})


def ell(below: float, above: float, high: float = 15) -> Region:
    """A band below another, each so many feet across and both so high, alike on the left."""
    return region([(0, 0), (below, 0), (below, high), (above, high), (above, 2 * high), (0, 2 * high)])


def test_staggers_ask_for_a_second_length() -> None:
    """97' by 30' has neighbouring courses with end laps, whose last pieces differ by 36".

    A base piece of 33' at most is always cut, so two lengths are; a cap piece may be a roll of 32' 10", so one is.
    Over 24', less than 33' and than either roll, there is no end lap: a length of each ply.
    """
    wide, narrow = (region([(0, 0), (x, 0), (x, 30), (0, 30)]) for x in (97, 24))
    assert lengths_cost([wide] * 2, TWO_PLIES, RULES, Costs()) == 2 * 3 + 3
    assert lengths_cost([narrow] * 2, TWO_PLIES, RULES, Costs()) == 2 * 3


@pytest.mark.parametrize(
    ("ground", "sheet", "lengths"),
    [
        (ell(11, 20), BASE, (1, 1)),  # 11' and 20'; one is sure, the other or an end lap
        (ell(11, 20), CAP, (1, 1)),
        (region([(0, 0), (20, 0), (20, 30), (0, 30)]), CAP, (1, 0)),
        (ell(11, 20, 6), CAP, (1, 0)),  # bands of 72" with no course of their own: 75 3/4" it would take
        (ell(11, 20, 6.5), CAP, (1, 1)),
        (ell(11, 28.5), CAP, (1, 0)),  # 28' 6" leaves less of a roll than a piece: two pieces may use up less
        (ell(11, 28.5), BASE, (1, 1)),
        (ell(11, 97), BASE, (2, 0)),  # 97' takes two lengths by its staggers, of which 11' may be one
        (ell(32.5, 36), BASE, (2, 1)),  # beside 32' 6" no piece of 5' goes into 36': two lengths there, and this one
        (ell(32.5, 36), CAP, (1, 0)),
    ],
)
def test_lengths_of_two_bands(ground: Region, sheet: Sheet, lengths: tuple[int, int]) -> None:
    """Pieces of 33' at most from rolls of 65' 7", or 32' 10", none under 5'."""
    found = least_lengths(ground, sheet, RULES)
    assert (found.sure, found.more) == lengths


def test_an_end_lap_may_be_cheaper_than_a_length() -> None:
    """A length takes 20 min, an end lap 1, at 60 an hour: the second length of each ply counts no more than that."""
    costs = Costs(end_lap_s=60.0, new_length_s=1200.0)
    assert lengths_cost([ell(11, 20)] * 2, TWO_PLIES, RULES, costs) == 2 * (20 + 1)
