"""Small pieces side by side in a length of roll."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st
from roofs import BASE, CAP

from lapwright.layout.abreast import Small, abreast, beside_of, lengths_abreast, set_abreast
from lapwright.layout.values import Detail


def ids(pieces: list[tuple[int, int]], width: int) -> list[list[str]]:
    """Sets of pieces (along, across) named a, b, c …"""
    small = [Small(chr(97 + k), along, across) for k, (along, across) in enumerate(pieces)]
    return [[piece.id for piece in row] for row in abreast(small, width)]


def test_four_strips_of_nine_lie_abreast_in_39() -> None:
    """The fifth begins a set of its own."""
    assert ids([(100, 9)] * 5, 39) == [["a", "b", "c", "d"], ["e"]]


def test_small_pieces_fit_beside_narrow_ones() -> None:
    """A target of 36 leaves 3 of 39; a gusset of 12 goes beside a flashing of 20, not beside the target."""
    assert ids([(48, 36), (20, 20), (16, 12)], 39) == [["a"], ["b", "c"]]


def test_the_least_width_left_is_filled_first() -> None:
    """9 goes beside 30, which leaves 9, not beside 20, which leaves 19."""
    assert ids([(50, 20), (40, 30), (30, 9)], 39) == [["a"], ["b", "c"]]


@given(st.lists(st.tuples(st.integers(1, 400), st.integers(1, 39)), max_size=40))
def test_every_piece_is_cut_once_and_no_set_is_wider_than_the_sheet(pieces: list[tuple[int, int]]) -> None:
    """Widths add up to the sheet at most, the first of a set is its longest, no piece is lost or cut twice."""
    small = [Small(str(k), along, across) for k, (along, across) in enumerate(pieces)]
    sets = abreast(small, 39)
    assert sorted(piece.id for row in sets for piece in row) == sorted(piece.id for piece in small)
    assert all(sum(piece.across for piece in row) <= 39 for row in sets)
    assert all(row[0].along == max(piece.along for piece in row) for row in sets)


def test_what_lies_beside_takes_no_roll() -> None:
    """Two strips of 9" of the base: the longer takes its length, the other none; a strip of the cap keeps its own."""
    details = [
        Detail(name, "strip", "Main", "side 1", sheet, "strip", long / 80_000, 0.2286, takes_ticks=long)
        for name, sheet, long in (("a", "base-sa", 100), ("b", "base-sa", 200), ("c", "cap-sa", 300))
    ]
    found = set_abreast(details, {"base-sa": BASE, "cap-sa": CAP})
    assert [(one.id, one.takes_ticks, one.cut_ticks, one.beside) for one in found] == [
        ("a", 0, 100, "b"),
        ("b", 200, 200, ""),
        ("c", 300, 300, ""),
    ]
    assert beside_of(found) == {"b": ["a"]}
    assert lengths_abreast(details, {"base-sa": BASE, "cap-sa": CAP}) == ({200: 1}, {300: 1})
