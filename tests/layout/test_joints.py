"""End laps of a run, against brute force and against counts by hand."""

from __future__ import annotations

from itertools import combinations

from hypothesis import given
from hypothesis import strategies as st
from roofs import FOOT, inches

from lapwright.layout.joints import Cutting, come_near, split_run

CAP_CUT = Cutting(inches(0.5), inches(6), 5 * FOOT, 32 * FOOT + 10 * 2_032)


def test_hundred_feet_from_33_5_foot_rolls_takes_four_pieces() -> None:
    """Three 33 1/2' pieces with 6" laps reach 99 1/2', so 100' takes four (trade notes, piece formula)."""
    cutting = Cutting(inches(0.5), inches(6), 5 * FOOT, round(33.5 * FOOT))
    joints = split_run(0, 100 * FOOT, cutting, [], short_first=False)
    assert joints is not None
    assert len(joints) == 3
    assert len(split_run(0, round(99.5 * FOOT), cutting, [], short_first=False) or ()) == 2


def test_three_pieces_over_97_feet_have_six_inches_of_play() -> None:
    """97' from 32' 10" pieces: three reach 97' 6", so a neighbour 3' away needs a fourth piece (counted by hand)."""
    first = split_run(0, 97 * FOOT, CAP_CUT, [], short_first=False)
    assert first is not None
    assert len(first) == 2
    barred = [(joint - 3 * FOOT, joint + 3 * FOOT) for joint in first]
    second = split_run(0, 97 * FOOT, CAP_CUT, barred, short_first=False)
    assert second is not None
    assert len(second) == 3


def test_a_run_that_fits_one_piece_has_no_joint() -> None:
    """32' 10" is one piece; half an inch more is two."""
    assert split_run(0, 32 * FOOT + inches(10), CAP_CUT, [], short_first=False) == ()
    assert len(split_run(0, 32 * FOOT + inches(10.5), CAP_CUT, [], short_first=True) or ()) == 1


SMALL = Cutting(step=2, end_lap=2, shortest=6, longest=14)


def brute_force(right: int, barred: list[tuple[int, int]]) -> int | None:
    """Fewest joints of a run from 0 to `right` by trying every set of places; None if no set serves."""
    places = [place for place in range(1, right) if not any(a < place < b for a, b in barred)]
    for count in range(0, 5):
        for joints in combinations(places, count):
            starts, ends = [0, *joints], [*[joint + SMALL.end_lap for joint in joints], right]
            lengths = [end - start for start, end in zip(starts, ends, strict=True)]
            whole = all(length % SMALL.step == 0 for length in lengths[:-1])
            fits = all(SMALL.shortest <= length for length in lengths) or count == 0
            cut = [-(-length // SMALL.step) * SMALL.step for length in lengths]
            if whole and fits and max(cut) <= SMALL.longest:
                return count
    return None


@given(
    right=st.integers(8, 44),
    barred=st.lists(st.tuples(st.integers(0, 40), st.integers(1, 9)).map(lambda s: (s[0], s[0] + s[1])), max_size=4),
    short_first=st.booleans(),
)
def test_as_few_joints_as_brute_force(right: int, barred: list[tuple[int, int]], short_first: bool) -> None:
    """The interval search finds a split exactly where brute force does, with as few joints."""
    found = split_run(0, right, SMALL, barred, short_first=short_first)
    least = brute_force(right, barred)
    if least is None:
        assert found is None or len(found) > 4
    else:
        assert found is not None
        assert len(found) == least
        assert not any(a < joint < b for joint in found for a, b in barred)


@given(
    st.lists(st.integers(0, 60), max_size=5),
    st.lists(st.integers(0, 60), max_size=5).map(sorted),
    st.integers(0, 20),
)
def test_rows_come_near_where_a_look_at_every_pair_says_so(ones: list[int], others: list[int], apart: int) -> None:
    """Exactly `apart` is far enough."""
    assert come_near(ones, others, apart) == any(abs(one - other) < apart for one in ones for other in others)
