"""The pattern in words, and the cut list with what is cut alike together."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence

import pytest
from papers import METRE, shed, shed_layout

from lapwright.layout.values import Piece, Roll
from lapwright.packet.pages.cuts import cut_pages
from lapwright.packet.pages.lookup import Book, open_book
from lapwright.packet.pages.pattern import course_words, pattern_words
from lapwright.units.write import Units

METRIC = Units("metric")


def laid(*courses: Sequence[float], gap: float = -0.15) -> list[Piece]:
    """Pieces of courses by their lengths [m], each beginning `gap` after the end of the one before."""
    found = []
    for number, lengths in enumerate(courses, start=1):
        at = 0.0
        for place, length in enumerate(lengths, start=1):
            ends = (round(at * METRE), round((at + length) * METRE))
            id = f"A/cap/{number:02d}/{place}"
            cut = round(length * METRE)
            found.append(Piece(id, "A", "cap", number, place, *ends, 0, METRE, cut, "cap-sa"))
            at += length + gap
    return found


def test_a_pattern_of_two_courses_and_its_mirror() -> None:
    """Odd courses are alike, courses 2 and 6 their mirror, and course 4 is like none."""
    odd, even = (10, 10, 4), (4, 10, 10)
    pieces = laid(odd, even, odd, (7, 7, 7), odd, even)
    assert pattern_words(METRIC, pieces) == (
        "Courses 1, 3, 5: 2 × 10000 mm, 4000 mm. Courses 2, 6: as courses 1, 3, 5 mirrored. The other course is listed."
    )


def test_no_pattern_is_said() -> None:
    """Three courses, each cut otherwise; one that is its own mirror is not a pattern by itself."""
    none = "No pattern: no two courses are cut alike; each is listed."
    assert pattern_words(METRIC, laid((10, 4), (5, 9), (7, 7))) == none
    assert pattern_words(METRIC, []) == ""


def test_two_courses_that_mirror_each_other_are_a_pattern() -> None:
    """One course and its mirror, though neither comes twice."""
    told = pattern_words(METRIC, laid((10, 4), (4, 10)))
    assert told == "Course 1: 10000 mm, 4000 mm. Course 2: as course 1 mirrored."


def test_runs_beside_an_opening_are_told_apart() -> None:
    """Pieces with a gap between are two runs; the same lengths without one are another cut."""
    pieces = laid((3, 4), (3, 4), gap=1.0)
    assert pattern_words(METRIC, pieces) == "Courses 1, 2: 3000 mm, past an opening 4000 mm."


def test_what_comes_most_often_is_told_first_when_little_is() -> None:
    """With room for one cut, that of three courses is told, not that of two before it."""
    told = pattern_words(METRIC, laid((9, 5), (9, 5), (8, 2), (8, 2), (8, 2)), most=1)
    assert told == "Courses 3-5: 8000 mm, 2000 mm. The other 2 courses are listed."


@pytest.mark.parametrize(
    ("numbers", "said"),
    [
        ([4], "Course 4"),
        ([1, 3, 5, 7], "Courses 1, 3, 5, 7"),
        ([1, 3, 5, 7, 9], "Courses 1 to 9, every second"),
        ([2, 5, 8, 11, 14], "Courses 2 to 14, every third"),
        ([1, 2, 3, 5, 6, 9], "Courses 1-3, 5, 6, 9"),
    ],
)
def test_courses_in_words(numbers: list[int], said: str) -> None:
    """One, a few, at even steps, and in a row."""
    assert course_words(numbers) == said


def alike() -> Book:
    """The shed with three cap rolls cut alike and one that is not."""
    layout = shed_layout()
    like = layout.plies[1].pieces[2]
    pieces = tuple(
        dataclasses.replace(like, id=f"Main/cap/{n:02d}/1", course=n, cut_length=(5 if n == 3 else 6) * METRE)
        for n in (1, 2, 3, 4)
    )
    rolls = tuple(
        Roll(f"cap-sa {n}", "cap-sa", (one.id,), one.cut_length, 10 * METRE - one.cut_length)
        for n, one in enumerate(pieces, start=1)
    )
    plies = (layout.plies[0], dataclasses.replace(layout.plies[1], pieces=pieces))
    return open_book(shed(layout=dataclasses.replace(layout, plies=plies, rolls=rolls)))


def test_rolls_cut_alike_stand_together_with_their_pieces() -> None:
    """Rolls 1, 2 and 4 give 6 m each and leave 4 m, 13' 1 1/2"; roll 3 gives 5 m, 16' 4 7/8", and stands alone."""
    (page,) = cut_pages(alike())
    assert page["alike"]["rows"] == [
        ["3", "19' 8 1/4\"", "13' 1 1/2\"", "1: Main cap 1.1; 2: Main cap 2.1; 4: Main cap 4.1"]
    ]
    assert page["table"]["rows"] == [["3", [["16' 4 7/8\"", "Main cap 3.1"]], "16' 4 7/8\""]]
    assert page["patterns"] == [["Main, cap.", "Courses 1, 2, 4: 19' 8 1/4\". The other course is listed."]]


def test_every_piece_and_detail_stands_once_in_the_list() -> None:
    """The shed: two base pieces and a strip from one roll, three cap pieces from two."""
    names = [name for page in cut_pages(open_book(shed())) for _, cuts, _ in page["table"]["rows"] for _, name in cuts]
    assert names == [
        *("Main base 1.1", "Main base 2.1", "Main strip: side 1"),
        *("Main cap 1.1", "Main cap 1.2", "Main cap 2.1"),
    ]
