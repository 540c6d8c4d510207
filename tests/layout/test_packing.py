"""Lengths in rolls: against exhaustive search, and against rolls counted by hand."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from functools import cache

from hypothesis import given
from hypothesis import strategies as st

from lapwright.layout.packing import best_fit, fewest, pack

ROLL = 60


def used(counts: dict[int, int]) -> int:
    """Rolls of a packing."""
    return sum(times for _, times in pack(counts, ROLL))


@cache
def exhaustive(items: tuple[int, ...], free: tuple[int, ...]) -> int:
    """Fewest rolls, each length tried in every opened roll and in a new one; items: longest first; free: rests."""
    if not items:
        return len(free)
    length, rest = items[0], items[1:]
    ways = [
        exhaustive(rest, tuple(sorted((*free[:k], free[k] - length, *free[k + 1 :]))))
        for k in range(len(free))
        if free[k] >= length and free[k] not in free[:k]
    ]
    return min([*ways, exhaustive(rest, tuple(sorted((*free, ROLL - length))))])


def lengths() -> st.SearchStrategy[list[int]]:
    """Up to nine lengths."""
    return st.lists(st.integers(5, ROLL), min_size=1, max_size=9)


@given(lengths())
def test_packing_holds_every_length_once_and_overdraws_no_roll(items: list[int]) -> None:
    """What the rolls give is what was asked, and no roll gives more than it is long."""
    fills = pack(Counter(items), ROLL)
    given_out = Counter(length for inside, times in fills for length in inside for _ in range(times))
    assert given_out == Counter(items)
    assert all(sum(inside) <= ROLL for inside, _ in fills)


@given(lengths())
def test_bound_and_packing_hold_the_fewest_rolls_between_them(items: list[int]) -> None:
    """No packing needs fewer rolls than the bound; ours needs at most one more than the fewest there are."""
    least = exhaustive(tuple(sorted(items, reverse=True)), ())
    assert fewest(Counter(items), ROLL) <= least <= used(Counter(items)) <= least + 1


def one_by_one(items: Sequence[int]) -> int:
    """Rolls of best fit decreasing, length by length: the textbook's way (Johnson 1973, from memory)."""
    free: list[int] = []
    for length in sorted(items, reverse=True):
        fitting = [rest for rest in free if rest >= length]
        if fitting:
            free.remove(min(fitting))
            free.append(min(fitting) - length)
        else:
            free.append(ROLL - length)
    return len(free)


@given(st.lists(st.sampled_from([7, 12, 13, 20, 29, 30, 31, 47]), max_size=60))
def test_equal_lengths_together_fill_as_one_by_one(items: list[int]) -> None:
    """Best fit with equal lengths taken together opens as many rolls as with each on its own."""
    counted = sorted(Counter(items).items(), reverse=True)
    assert sum(times for _, times in best_fit(counted, ROLL)) == one_by_one(items)


def test_rolls_that_only_fill_exactly() -> None:
    """Two courses of 26, 30 and 30 and two of 13, 30, 30 and 21: 2·86 + 2·94 = 360 is six rolls, none with a rest.

    By pencil: 30 + 30 four times, 26 + 13 + 21 twice.  Longest first would put the two 26 into one roll and need seven.
    """
    items = [26, 30, 30, 13, 30, 30, 21] * 2
    assert one_by_one(items) == 7
    assert used(Counter(items)) == 6


def test_bound_counts_long_lengths_each_its_own_roll() -> None:
    """Three lengths of 40 out of 60 need three rolls, though 120 would go into two; and 25 fits no rest of 20."""
    assert fewest({40: 3}, ROLL) == 3
    assert fewest({40: 3, 25: 1}, ROLL) == 4
