"""Widths of rips at least, with a pencil: sheets of 39 3/8" lapped by 3", so 36 3/8" apart; 18" between plies."""

from __future__ import annotations

import pytest
from roofs import inches

from lapwright.layout.laplines import Band
from lapwright.layout.leastrips import fewest_of, least_rips
from lapwright.layout.takes import Apart

APART = Apart(inches(18), inches(12), inches(12), ())


def plies(count: int, height: float) -> tuple[Band, ...]:
    """Plies of one sheet on one ground."""
    return tuple(Band(str(k), inches(39.375), inches(3), 0, inches(height)) for k in range(count))


@pytest.mark.parametrize(
    ("count", "height", "least"), [(2, 112.125, 1), (3, 112.125, 1), (2, 130.3125, 1), (3, 130.3125, 2)]
)
def test_whole_sheets_in_every_other_ply(count: int, height: float, least: int) -> None:
    """Plies of whole sheets up to the top would lie line on line, so of two neighbours one is ripped at the top.

    112 1/8" are three whole sheets of the cap: the ply under it is ripped, the one below that is not.  130 5/16" leave
    21 3/16" of the cap's top: a whole sheet under it begins 18 3/16" below its line, the ply below that is ripped.
    """
    assert least_rips(plies(count, height), APART, is_held=True) == least


def test_a_top_that_no_other_ply_leaves_room_for() -> None:
    """105": the cap's top is 32 1/4", and a whole sheet below it would begin 7 1/8" under its line: a rip of each."""
    assert least_rips(plies(2, 105), APART, is_held=True) == 2


def test_a_rip_of_the_cap_lets_plies_under_it_come_no_closer() -> None:
    """611" of three plies takes three widths.

    A cap of one width has a line at 545 5/8" under its top course, which begins at 576 13/16", both 34 3/16" wide, or
    at 571 5/8", 39 3/8" and 29".  A whole top of the ply under it begins at 571 5/8": 12" off neither.  One of the
    base begins there too, its next line 36 3/8" below at most, so that of the ply between at 553 1/4" to 553 5/8", 18"
    off both: 8" off the cap's.  A cap of two widths has a third one under it, as two neighbours can't both be whole.
    """
    assert least_rips(plies(3, 611), APART, is_held=True) == 3


@pytest.mark.parametrize("is_held", [True, False])
def test_one_ply(is_held: bool) -> None:
    """105" of a cap alone: a rip; without granules whole sheets lap wider."""
    assert least_rips(plies(1, 105), APART, is_held=is_held) == is_held


def test_few_courses() -> None:
    """Of two courses a narrow one may stay: nothing is said."""
    assert fewest_of(plies(1, 75)[0]) == 2
    assert least_rips(plies(2, 75), APART, is_held=True) == 0


def test_where_no_lines_keep_the_rules() -> None:
    """Three courses 20" apart from the next ply's can't be laid."""
    assert least_rips(plies(2, 112.125), Apart(inches(20), inches(20), inches(12), ()), is_held=True) == 0
