"""Where a cut would let a piece fall in two."""

from __future__ import annotations

from roofs import FOOT, inches
from shapely import Polygon

from lapwright.layout.bars import hole_bars, loose_bars, torn_bars
from lapwright.layout.runs import Hole, Run


def run_of(corners: list[tuple[int, int]], holes: tuple[Hole, ...] = ()) -> Run:
    """A run 40' long whose shape has these corners, in feet."""
    shape = Polygon([(x * FOOT, y * FOOT) for x, y in corners])
    return Run(1, 0, 40 * FOOT, holes, (), shape, shape)


def test_a_bite_out_of_the_middle_of_the_width_bars_its_length() -> None:
    """A slot from the right end, 30' to 40', leaves a tongue on either side of it: no lap may begin or end there."""
    run = run_of([(0, 0), (40, 0), (40, 1), (30, 1), (30, 2), (40, 2), (40, 3), (0, 3)])
    assert loose_bars(run, inches(6)) == [(30 * FOOT - inches(6) - 1, 40 * FOOT + 1)]


def test_a_notch_in_a_long_side_bars_nothing() -> None:
    """Beside a notch the sheet hangs together wherever it is cut."""
    assert loose_bars(run_of([(0, 0), (40, 0), (40, 3), (30, 3), (30, 1), (20, 1), (20, 3), (0, 3)]), inches(6)) == []


def test_an_opening_within_the_sheet_bars_its_length_and_a_lap() -> None:
    """From 6" before 10' to 14'."""
    run = run_of([(0, 0), (40, 0), (40, 3), (0, 3)], (Hole((10 * FOOT, 14 * FOOT)),))
    assert hole_bars(run, inches(6)) == [(10 * FOOT - inches(6), 14 * FOOT)]


def test_a_notch_askew_tears_a_tongue_off() -> None:
    """A slit askew, from 10' along and 2' high down to the low edge at 20'; under it lies a wedge.

    A piece that begins at 15' has 1' of it by itself.  A piece that ends there is held on the left.
    """
    run = run_of([(0, 0), (20, 0), (10, 2), (10, 2.2), (21, 0), (40, 0), (40, 3), (0, 3)])
    ((first, last),) = torn_bars(run, inches(6))
    assert first == 10 * FOOT - 1
    assert 20 * FOOT - inches(1) < last <= 20 * FOOT


def test_a_slot_tears_on_its_open_side_alone() -> None:
    """From 30' to the right end: a piece that begins there falls in two, one that ends there hangs on the left."""
    run = run_of([(0, 0), (40, 0), (40, 1), (30, 1), (30, 2), (40, 2), (40, 3), (0, 3)])
    ((first, last),) = torn_bars(run, inches(6))
    assert first == 30 * FOOT - 1
    assert 40 * FOOT - inches(1) < last <= 40 * FOOT


def test_an_opening_within_the_sheet_tears_nothing() -> None:
    """The sheet goes round it on both hands."""
    shape = Polygon([(x * FOOT, y * FOOT) for x, y in ((0, 0), (40, 0), (40, 3), (0, 3))])
    hole = Polygon([(x * FOOT, y * FOOT) for x, y in ((10, 1), (14, 1), (14, 2), (10, 2))])
    run = Run(1, 0, 40 * FOOT, (Hole((10 * FOOT, 14 * FOOT)),), (), shape - hole, shape - hole)
    assert torn_bars(run, inches(6)) == []
