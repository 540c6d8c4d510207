"""Courses and rolls that hang together, held against every way to split small courses and to pack rolls."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from itertools import combinations_with_replacement, product
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).resolve().parents[2] / "benchmarks"))

from threads import Cutting, Sort, threads

ROLL, LAP = 8, 1


def splits(length: int, laps: int) -> Iterator[tuple[int, ...]]:
    """Every split of a course into the fewest pieces and one or two more, to the step; none longer than a roll."""
    for count in range(laps + 1, laps + 4):
        total = length + (count - 1) * LAP
        for cuts in combinations_with_replacement(range(1, ROLL + 1), count):
            if sum(cuts) == total:
                yield cuts


def fewest_rolls(cuts: Sequence[int], free: tuple[int, ...] = ()) -> int:
    """Rolls that lengths take: every way to put each into a roll that is begun or a new one."""
    if not cuts:
        return len(free)
    first, rest = cuts[0], cuts[1:]
    found = [fewest_rolls(rest, (*free, ROLL - first))]
    for room in set(free):
        if room >= first:
            k = free.index(room)
            found.append(fewest_rolls(rest, (*free[:k], room - first, *free[k + 1 :])))
    return min(found)


def cheapest(courses: Sequence[Sort], price: float, lap: float) -> float:
    """The least of rolls and end laps beyond the fewest over all splits of all courses."""
    least = float("inf")
    for ways in product(*(list(splits(one.length, one.laps)) for one in courses)):
        more = sum(len(way) - 1 - one.laps for way, one in zip(ways, courses, strict=True))
        cuts = sorted((cut for way in ways for cut in way), reverse=True)
        if more * lap + price * -(-sum(cuts) // ROLL) < least:
            least = min(least, more * lap + price * fewest_rolls(cuts))
    return least


@pytest.mark.parametrize(
    ("counts", "sorts"),
    [
        ((0, 3), (Sort(9, 1), Sort(9, 1))),
        ((0, 4), (Sort(5, 0), Sort(5, 0))),
        ((2, 2), (Sort(5, 0), Sort(9, 1))),
        ((1, 2), (Sort(4, 0), Sort(10, 1))),
        ((2, 1), (Sort(6, 0), Sort(11, 1))),
    ],
)
@pytest.mark.parametrize(("price", "lap"), [(1.0, 0.0), (10.0, 2.0), (10.0, 6.0)])
def test_no_cutting_is_cheaper(counts: tuple[int, int], sorts: tuple[Sort, Sort], price: float, lap: float) -> None:
    """Threads ask for no more than the cheapest of all cuttings takes."""
    courses = [sort for sort, count in zip(sorts, counts, strict=True) for _ in range(count)]
    assert threads(Cutting(ROLL, LAP, price, lap), sorts, counts) <= cheapest(courses, price, lap)


def test_three_courses_of_nine_tie_four_rolls() -> None:
    """From rolls of 8, 30 of 32 in two pieces each: one thread, three end laps and one, no piece more."""
    assert threads(Cutting(8, 1, 10.0, 2.0), (Sort(9, 1), Sort(9, 1)), (0, 3)) == 40.0
    assert cheapest([Sort(9, 1)] * 3, 10.0, 2.0) == 40.0


def test_four_courses_of_five_take_a_lap_more_or_a_roll_more() -> None:
    """From rolls of 8 in one piece four rolls; three rolls are 24 for 20 and an end lap each, one at least.

    One lap ties two rolls: 5 + 5 + 5 and a lap are 16.  So 5 alone and a thread of three: three rolls and a lap.
    """
    assert threads(Cutting(8, 1, 10.0, 2.0), (Sort(5, 0), Sort(5, 0)), (0, 4)) == 32.0
    assert cheapest([Sort(5, 0)] * 4, 10.0, 2.0) == 32.0


def test_a_roll_more_than_the_length_fills() -> None:
    """53' 7" below 37' 6", 4 and 15 courses of 643 and 450, from rolls of 394: 25, where 9,436 fill 23.95.

    By pencil: a thread of a courses of 450 and b of 643 has at most a + b + 1 rolls, so 394 less 62 a and 255 b has
    to be none or more: b is 1 with up to two of 450, or none with up to six.  Four threads with two take eight of the
    fifteen; seven are left for two threads more: 19 end laps and 6 threads are 25 rolls.  An end lap more gives a
    thread a roll and 388 of it: two threads in one, and 6 less to share.
    """
    assert threads(Cutting(394, 6, 1.0, 0.0), (Sort(450, 1), Sort(643, 1)), (15, 4)) == 25.0


def test_rolls_that_are_spared_by_end_laps() -> None:
    """25' 10" below 33' 7", 15 and 30 courses of 310 and 403 from 402: 45 rolls, or 43 with six end laps more at 7.

    By pencil: 310 leaves 92 for threads of up to 13 courses of 403, which take 7 of it each; 15 threads and 30 end
    laps are 45 rolls.  With three end laps more a thread has 402 + 3 x 396 = 1590 for five of 310 and five of 7: four
    rolls for five.  Two such spare two.
    """
    sorts = (Sort(310, 0), Sort(403, 1))
    assert threads(Cutting(402, 6, 120.0, 7.0), sorts, (15, 30)) == 43 * 120 + 6 * 7
    assert threads(Cutting(402, 6, 1.0, 0.0), sorts, (15, 30)) == 43.0
