"""Ways to split a run: all within the rules, and none that a plain loop finds is out of reach."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from lapwright.layout.pool import Stock
from lapwright.layout.splits import free_firsts, single_splits, split_at, splits

SMALL = Stock(0, 0, 20, 20, 4, 1, 1, (20,))  # rolls of 20, pieces of 4 and more, laps of 1, cut to whole ones
BARS = st.lists(st.tuples(st.integers(0, 60), st.integers(1, 8)).map(lambda bar: (bar[0], bar[0] + bar[1])), max_size=4)


def lengths(left: int, right: int, joints: tuple[int, ...]) -> list[int]:
    """Lengths of the pieces, each lapping one over the next."""
    return [b - a for a, b in zip((left, *joints), (*(joint + 1 for joint in joints), right), strict=True)]


@given(st.integers(5, 75), BARS, st.lists(st.integers(4, 20), max_size=3))
def test_every_split_keeps_the_rules(length: int, bars: list[tuple[int, int]], hints: list[int]) -> None:
    """Pieces from 4 to 20 long, no joint within a bar, and what is cut is what lies."""
    found = [*splits(0, length, SMALL, bars, hints), *single_splits(0, length, SMALL, bars)]
    for split in found:
        pieces = lengths(0, length, split.joints)
        assert sorted(pieces) == sorted([*split.ends, *[split.unit] * split.middles])
        assert all(4 <= piece <= 20 for piece in pieces) or len(pieces) == 1
        assert not any(a < joint < b for joint in split.joints for a, b in bars)


@given(st.integers(24, 75), BARS, st.integers(2, 5))
def test_first_lengths_are_those_that_a_loop_allows(length: int, bars: list[tuple[int, int]], count: int) -> None:
    """The intervals for x hold the very lengths that trying each of 4 to 20 leaves."""
    total = length + (count - 1) - (count - 2) * 20
    plain = [
        x
        for x in range(4, 21)
        if 4 <= total - x <= 20 and not any(a < x - 1 + k * 19 < b for k in range(count - 1) for a, b in bars)
    ]
    spans = free_firsts(0, total, SMALL, tuple(bars), (20, count))
    assert [x for low, high in spans for x in range(low, high + 1)] == plain


def test_a_split_at_given_joints_cuts_to_the_step() -> None:
    """A run of 45 cut at 19 and 30: 20, 12 and 15."""
    assert split_at(0, 45, (19, 30), SMALL).ends == (20, 12, 15)
