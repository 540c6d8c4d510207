"""Where a cut would let a piece fall in two."""

from __future__ import annotations

from roofs import FOOT, inches
from shapely import Polygon

from lapwright.layout.bars import hole_bars, loose_bars
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
