"""What of its course each piece shows at a level, where runs lie over one another, counted by hand."""

from __future__ import annotations

from shapely import Polygon, box

from lapwright.layout.laps import Laid, lying
from lapwright.layout.runs import Run
from lapwright.layout.values import Piece


def laid(run: Run, place: int, left: int, right: int) -> Laid:
    """A piece of a run from one place of its course to another, 100 deep."""
    return Laid(Piece(str(place), "A", "cap", 1, place, left, right, 0, 100, right - left, "sheet"), run)


def notched_run(left: int, right: int) -> Run:
    """A run that is no plain rectangle, all of which its sheets lie on."""
    shape = box(left, 0, right, 100).difference(box(left, 60, left + 10, 100))
    return Run(1, left, right, (), (), shape, shape)


def test_a_piece_shows_where_none_of_the_later_run_lies() -> None:
    """From 0 to 340 a piece, later two over it from 180 to 280 and from 270 to 1,000: it shows up to 180 only."""
    one, other = notched_run(0, 340), notched_run(180, 1_000)
    row = [laid(one, 1, 0, 340), laid(other, 2, 180, 280), laid(other, 3, 270, 1_000)]
    shown = [(piece.id, spans) for piece, spans in lying(row, 0)]
    assert shown == [("1", [(0, 180)]), ("2", [(180, 270)]), ("3", [(270, 1_000)])]


def test_what_a_later_run_leaves_shows_on_both_sides() -> None:
    """Later pieces from 100 to 200 and from 190 to 300 leave 0 to 100 and 300 to 400 of a piece 400 long."""
    one, other = notched_run(0, 400), notched_run(100, 300)
    row = [laid(one, 1, 0, 400), laid(other, 2, 100, 200), laid(other, 3, 190, 300)]
    assert lying(row, 0)[0][1] == [(0, 100), (300, 400)]


def parted_run(high: int) -> Run:
    """30,000 long; an opening from 11,000 to 19,000 at the low edge leans left: up to 6,000 from 6,000 to 8,000 up."""
    opening = Polygon([(11_000, 0), (6_000, 6_000), (6_000, 8_000), (19_000, 0)])
    shape = box(0, 0, 30_000, high).difference(opening)
    return Run(1, 0, 30_000, (), (), shape, shape)


def deep(run: Run, place: int, left: int, right: int) -> Laid:
    """A piece of that run, 10,000 deep."""
    return Laid(Piece(str(place), "A", "cap", 1, place, left, right, 0, 10_000, right - left, "sheet"), run)


def test_a_piece_shows_nothing_of_a_scrap_that_its_end_cuts_off() -> None:
    """A piece from 9,000 on is cut round the opening: from there to 11,000 at the low edge nothing holds a scrap of it.

    7,000 up the opening goes from 6,000 to where its far side, down to 19,000 from 6,000 and 8,000 up, has an eighth of
    its way behind it: to 7,625.
    """
    run = parted_run(10_000)
    row = [deep(run, 1, 0, 10_000), deep(run, 2, 9_000, 30_000)]
    assert [spans for _, spans in lying(row, 0)] == [[(0, 10_000)], [(19_000, 30_000)]]
    assert [spans for _, spans in lying(row, 7_000)] == [[(0, 6_000), (7_625, 9_000)], [(9_000, 30_000)]]


def test_where_no_part_goes_from_end_to_end_all_show() -> None:
    """Cut off 3,000 up, the sheet left of the opening and that right of it are two parts, neither more than a part."""
    run = parted_run(3_000)
    assert lying([deep(run, 1, 8_000, 25_000)], 0)[0][1] == [(8_000, 11_000), (19_000, 25_000)]
