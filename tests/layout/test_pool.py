"""Offcuts drawn on by the search, counted by hand."""

from __future__ import annotations

from roofs import FOOT, inches

from lapwright.layout.pool import Stock, draw_ends, draw_middles, units_of

STEP = inches(0.5)
ROLL = 32 * FOOT + inches(10)
CAP = Stock(0, 0, ROLL, ROLL, 5 * FOOT, inches(6), STEP, (ROLL,))


def draw(
    pool: tuple[int, ...], stock: Stock, ends: tuple[int, ...], unit: int, middles: int
) -> tuple[int, tuple[int, ...]]:
    """Rolls opened, and the pool left, when the middles of a run are cut and then its ends, as the search does."""
    rolls, left = draw_middles(pool, stock, unit, middles)
    opened, rest = draw_ends(left, stock, ends)
    return rolls + opened, rest


def test_a_length_comes_from_the_smallest_offcut_that_gives_it() -> None:
    """9' from offcuts of 8', 10' and 20': the 10' one, whose last foot is no piece."""
    assert draw((8 * FOOT, 10 * FOOT, 20 * FOOT), CAP, (9 * FOOT,), 0, 0) == (0, (8 * FOOT, 20 * FOOT))


def test_two_halves_and_a_third_length_open_two_rolls() -> None:
    """Of 32' 10", 20' and 12' are one roll with 10" lost; a further 15' opens another and leaves 17' 10"."""
    assert draw((), CAP, (20 * FOOT, 12 * FOOT), 0, 0) == (1, ())
    opened, pool = draw((), CAP, (20 * FOOT, 12 * FOOT, 15 * FOOT), 0, 0)
    assert (opened, pool) == (2, (17 * FOOT + inches(10),))


def test_whole_rolls_between_open_a_roll_each() -> None:
    """Seven middles as long as the roll, and 10' at one end: eight rolls, 22' 10" left."""
    assert draw((), CAP, (10 * FOOT,), ROLL, 7) == (8, (22 * FOOT + inches(10),))


def test_half_rolls_come_two_to_a_roll() -> None:
    """A base roll of 65' 7" gives two of 32' 9 1/2"; three of them open two rolls and leave 32' 9 1/2"."""
    roll, unit = 65 * FOOT + inches(7), 32 * FOOT + inches(9.5)
    base = Stock(0, 0, roll, 33 * FOOT, 5 * FOOT, inches(6), STEP, (unit,))
    assert draw((), base, (), unit, 3) == (2, (unit,))
    assert draw((), base, (), unit, 4) == (2, ())


def test_units_are_even_shares_where_they_are_long_enough() -> None:
    """65' 7" under a 33' limit is two of 32' 9 1/2"; 49' 3" is two of 24' 7 1/2", or 33' with an offcut."""
    assert units_of(65 * FOOT + inches(7), 33 * FOOT, STEP) == (32 * FOOT + inches(9.5),)
    assert units_of(49 * FOOT + inches(3), 33 * FOOT, STEP) == (24 * FOOT + inches(7.5), 33 * FOOT)
