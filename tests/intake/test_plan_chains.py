"""Loose lines joined end to end."""

from __future__ import annotations

from lapwright.intake.plan_chains import Joined, join_chains

SQUARE = [(0, 0), (100, 0), (100, 100), (0, 100)]


def sides(ring: list[tuple[int, int]]) -> list[list[tuple[int, int]]]:
    """Each side as a line of its own."""
    return [[a, b] for a, b in zip(ring, ring[1:] + ring[:1], strict=True)]


def test_a_square_in_its_order() -> None:
    """Four lines make one ring that starts where the first line does."""
    assert join_chains(sides(SQUARE), within=0) == Joined(closed=[SQUARE])


def test_two_squares_apart() -> None:
    """Each closes before the other is begun."""
    other = [(x + 500, y) for x, y in SQUARE]
    mixed = [line for pair in zip(sides(SQUARE), sides(other), strict=True) for line in pair]
    assert join_chains(mixed, within=1).closed == [SQUARE, other]


def test_gaps_up_to_the_limit() -> None:
    """A gap of 5 closes at 5 and stays open at 4; the earlier line's end is kept."""
    lines = [[(0, 0), (100, 0)], [(100, 5), (100, 100)], [(100, 100), (0, 100)], [(0, 100), (0, 0)]]
    assert join_chains(lines, within=5) == Joined(closed=[SQUARE], gaps=[(5.0, (100, 0))])
    assert join_chains(lines, within=4).closed == []
    assert len(join_chains(lines, within=4).still_open) == 1


def test_the_nearest_end_is_taken() -> None:
    """Two ends within reach: the nearer line goes on, the other is left open."""
    lines = [[(0, 0), (100, 0)], [(100, 4), (300, 300)], [(100, 1), (100, 100)], [(100, 100), (0, 0)]]
    joined = join_chains(lines, within=5)
    assert joined.closed == [[(0, 0), (100, 0), (100, 100)]]
    assert joined.still_open == [[(100, 4), (300, 300)]]


def test_lines_twice_and_lines_without_a_length() -> None:
    """The same line again, there and back, counts; a dot does not."""
    joined = join_chains([*sides(SQUARE), [(100, 0), (0, 0)], [(7, 7), (7, 7)]], within=1)
    assert joined == Joined(closed=[SQUARE], twice=1)


def test_a_ring_begun_in_its_middle() -> None:
    """An open run grows at both of its ends."""
    lines = [[(100, 0), (100, 100)], [(0, 0), (100, 0)], [(0, 100), (100, 100)]]
    assert join_chains(lines, within=0).still_open == [[(0, 0), (100, 0), (100, 100), (0, 100)]]
