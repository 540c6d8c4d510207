"""Pieces found by place."""

from __future__ import annotations

from crew_jobs import M, make_small
from hypothesis import given
from hypothesis import strategies as st

from lapwright.crew.rows import Box, area_rows, box_of, covers, make_rows
from lapwright.layout.values import Piece


def test_what_lies_on_a_piece_is_found() -> None:
    """Base courses 0-0.5, 0.4-1.4, 1.3-2.3 m under cap courses 0-1, 0.9-1.9, 1.8-2.3 m."""
    assert covers(area_rows(make_small(), "Main")) == {
        "Main/base/01/1": ("Main/cap/01/1",),
        "Main/base/02/1": ("Main/cap/01/1", "Main/cap/02/1"),
        "Main/base/03/1": ("Main/cap/02/1", "Main/cap/03/1"),
    }


def test_boxes_that_only_touch_do_not_overlap() -> None:
    """The base's second course begins at 0.4 m: a box that ends there does not meet it."""
    rows = area_rows(make_small(), "Main")[0]
    assert (rows.upto([(0, M, 0, 4 * M // 10)]), rows.upto([(0, M, 0, 4 * M // 10 + 1)]), rows.upto([])) == (1, 2, 0)


boxes = st.tuples(*[st.integers(0, 30)] * 4).map(lambda t: (t[0], t[0] + t[1] + 1, t[2], t[2] + t[3] + 1))


@given(st.lists(boxes, max_size=12), boxes)
def test_search_agrees_with_looking_at_every_piece(places: list[Box], box: Box) -> None:
    """The search by rows finds what looking at each piece finds."""
    pieces = [
        Piece(f"{k}", "A", "base", k, 1, u0, u1, v0, v1, 1, "s", sequence=k)
        for k, (u0, u1, v0, v1) in enumerate(places)
    ]
    u0, u1, v0, v1 = box
    slow = [k for k, p in enumerate(pieces) if p.u0 < u1 and p.u1 > u0 and p.v0 < v1 and p.v1 > v0]
    rows = make_rows(pieces)
    assert sorted(rows.meeting(box)) == slow
    assert [box_of(piece) for piece in rows.pieces] == places
