"""Where a day's work is closed."""

from __future__ import annotations

from crew_jobs import FRAME, M, make_roof, make_small, ticks
from hypothesis import given
from hypothesis import strategies as st

from lapwright.crew.tieoff import cut_out, level_spans, make_ground, tie_off
from lapwright.layout.values import Piece
from lapwright.roof.values import Opening

PIECES = make_small(joints=(0.0, 8.0, 20.0)).plies[0].pieces


def lines(laid: int, opening: tuple[Opening, ...] = ()) -> list[tuple[tuple[float, float], ...]]:
    """The tie-off with so many base pieces down, to the millimetre."""
    found = tie_off(make_ground(make_roof(openings=opening), FRAME), PIECES, laid)
    return [tuple((round(x, 3), round(y, 3)) for x, y in line) for line in found]


def test_full_course_is_closed_along_its_high_edge() -> None:
    """Two pieces of the first course (0-0.5 m): one line at 0.5 m over the whole width."""
    assert lines(2) == [((0.0, 0.5), (20.0, 0.5))]


def test_nothing_and_everything_need_no_tie_off() -> None:
    """Before the first piece and after the last."""
    assert (lines(0), lines(len(PIECES))) == ([], [])


def test_half_a_course_is_closed_round_its_end() -> None:
    """The second course (0.4-1.4 m) down to 8 m: along 1.4 m, up its end from 0.5 m, along 0.5 m for the rest."""
    assert lines(3) == [
        ((0.0, 1.4), (8.0, 1.4)),
        ((8.0, 0.5), (8.0, 1.4)),
        ((8.0, 0.5), (20.0, 0.5)),
    ]


def test_first_course_left_half_done_is_closed_down_to_the_edge() -> None:
    """Only the first piece of the first course is down."""
    assert lines(1) == [((0.0, 0.5), (8.0, 0.5)), ((8.0, 0.0), (8.0, 0.5))]


def test_openings_are_left_out() -> None:
    """A curb from 3 to 5 m across the line at 0.5 m."""
    curb = Opening("RTU-1", "curb", (3 * M, M // 4), (2 * M, M // 2))
    assert lines(2, (curb,)) == [((0.0, 0.5), (3.0, 0.5)), ((5.0, 0.5), (20.0, 0.5))]


def test_sheet_that_runs_past_the_edge_is_closed_on_the_roof_only() -> None:
    """A base that reaches 0.05 m past both sides of the roof ties off from side to side."""
    wide = [Piece("a", "Main", "base", 1, 1, -ticks(0.05), ticks(20.05), 0, ticks(0.5), 1, "s")]
    wide.append(Piece("b", "Main", "base", 2, 1, 0, ticks(20), ticks(0.4), ticks(1.4), 1, "s", sequence=1))
    found = tie_off(make_ground(make_roof(), FRAME), wide, 1)
    assert found == (((0.0, 0.5), (20.0, 0.5)),)


def test_level_line_cuts_an_odd_ring() -> None:
    """A U of 6 by 4 with a gap from 2 to 4 above 1: one span below it, two above; at a corner, those above."""
    ring = [(0, 0), (6, 0), (6, 4), (4, 4), (4, 1), (2, 1), (2, 4), (0, 4)]
    assert [level_spans(ring, level) for level in (0, 1, 3, 4)] == [[(0, 6)], [(0, 2), (4, 6)], [(0, 2), (4, 6)], []]


@given(st.lists(st.tuples(st.integers(0, 40), st.integers(0, 9)).map(lambda t: (t[0], t[0] + t[1])), max_size=5))
def test_holes_are_cut_out_place_by_place(holes: list[tuple[int, int]]) -> None:
    """What is left of 0 to 40 is what lies in no hole, unit by unit."""
    left = cut_out([(0, 40)], holes)
    units = {k for a, b in left for k in range(a, b)}
    assert units == {k for k in range(40) if not any(a <= k < b for a, b in holes)}
