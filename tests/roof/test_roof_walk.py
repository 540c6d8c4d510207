"""Walks closed: by hand, against two published traverses, and what must hold for every walk."""

from __future__ import annotations

from dataclasses import dataclass

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.roof.values import Closure, LegChange
from lapwright.roof.walk import close_walk, is_closed_enough, misclosure_limit, misclosure_words, shared_out
from lapwright.units.read import walk
from lapwright.units.write import Units

INCH = 2_032
FOOT = 24_384
MANY = settings(deadline=None, max_examples=300)


def steps(corners: tuple[tuple[int, int], ...]) -> list[tuple[float, float]]:
    """Each side's way east and north [ft]."""
    return [
        ((bx - ax) / FOOT, (by - ay) / FOOT)
        for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)
    ]


def test_a_walk_that_closes_stays() -> None:
    """Four legs round a rectangle; the corners are the tape's, nothing is changed."""
    corners, closure = close_walk(walk("E 120', N 64', W 120', S 64'"), start=(FOOT, 0), area="Main")
    assert corners == ((FOOT, 0), (121 * FOOT, 0), (121 * FOOT, 64 * FOOT), (FOOT, 64 * FOOT))
    assert closure == Closure("Main", 0, 0, 368 * FOOT, ())


def test_axis_legs_share_by_length_and_keep_their_direction() -> None:
    """120' out and 80' + 39' 11" back: 1" too far east, shared 120 : 80 : 39 11/12 by hand; north is untouched.

    2,032 ticks times 120, 80 and 39.9167 over 239.9167 are 1016.353, 677.569 and 338.078: down to 1016, 677 and 338,
    which leaves one tick, and .569 is the largest remainder.
    """
    corners, closure = close_walk(walk("E 120', N 30', W 80', N 34', W 39' 11\", S 64'"))
    assert (closure.east, closure.north) == (INCH, 0)
    assert closure.changes == (LegChange(1, -1016, 0), LegChange(3, -678, 0), LegChange(5, -338, 0))
    assert corners[1] == (120 * FOOT - 1016, 0)
    assert corners[-1] == (0, 64 * FOOT)


def test_one_short_side_takes_it_all() -> None:
    """Only one leg runs north and one south: each takes half of what is missing, and stays due north and south."""
    corners, closure = close_walk(walk("E 10', N 8', W 10', S 7' 11\""))
    assert (closure.east, closure.north) == (0, INCH)
    assert sorted(change.north for change in closure.changes) == [-1021, -1011]
    assert {x for x, _ in corners} == {0, 10 * FOOT}


def test_mixed_walk_keeps_its_axis_legs_straight() -> None:
    """A cut corner by bearing: E, N, W and S legs stay so; east is shared by E, W and the bearing leg, north likewise.

    N 45 W 10' runs 243,840 / sqrt 2 = 172,421 ticks west and north; the other legs leave 7' 1" = 172,720: 299 off.
    """
    corners, closure = close_walk(walk("E 40', N 20', N 45 W 10', W 32' 11\", S 27' 1\""))
    assert (closure.east, closure.north) == (299, -299)
    ways = steps(corners)
    assert [ways[0][1], ways[1][0], ways[3][1], ways[4][0]] == [0, 0, 0, 0]
    assert [change.side for change in closure.changes] == [1, 2, 3, 4, 5]


def test_compass_rule_purdue() -> None:
    """Purdue University, ASM 215, traverse calculations: lengths in feet, balanced latitudes and departures.

    engineering.purdue.edu/~asm215/topics/travcalc.html.  The page works with two decimals and makes its corrections
    add up by hand, so its balanced values are within 0.015 ft of unrounded ones.
    """
    text = "N 26 10 E 285.10', S 75 25 E 610.45', S 15 30 W 720.48', N 1 42 W 203.00', N 53 06 W 647.02'"
    corners, closure = close_walk(walk(text))
    assert closure.north / FOOT == pytest.approx(-0.71, abs=0.015)
    assert closure.east / FOOT == pytest.approx(0.53, abs=0.015)
    printed = [(125.66, 255.96), (590.65, -153.52), (-192.69, -694.07), (-6.07, 202.97), (-517.55, 388.66)]
    assert [way for pair in steps(corners) for way in pair] == pytest.approx(
        [way for pair in printed for way in pair], abs=0.015
    )


def test_compass_rule_open_access_surveying() -> None:
    """Open Access Surveying Library, traverse computations, chapter E, compass rule, traverse with bearings.

    jerrymahun.com/index.php/home/open-access/17-trav-comps/44-travcomps-chap-e, printed to 0.001 ft; a tick is
    0.00004 ft.
    """
    text = "S 68 05 35 W 472.68', N 19 46 00 W 216.13', N 45 55 20 E 276.52', S 54 59 15 E 382.24'"
    corners, closure = close_walk(walk(text))
    assert closure.walked / FOOT == pytest.approx(1347.57, abs=0.001)
    assert (closure.east / FOOT, closure.north / FOOT) == pytest.approx((0.075, 0.083), abs=0.0011)
    printed = [(-438.574, -176.386), (-73.105, 203.382), (198.635, 192.340), (313.044, -219.336)]
    assert [way for pair in steps(corners) for way in pair] == pytest.approx(
        [way for pair in printed for way in pair], abs=0.0011
    )


@pytest.mark.parametrize(
    ("total", "shares", "parts"),
    [
        (10, [1, 1, 1], [4, 3, 3]),
        (-10, [1, 1, 1], [-4, -3, -3]),
        (7, [3, 0, 1], [5, 0, 2]),  # 5.25 and 1.75
        (0, [0, 0], [0, 0]),
        (1, [5, 6], [0, 1]),
    ],
)
def test_shared_out_by_hand(total: int, shares: list[int], parts: list[int]) -> None:
    """Largest remainder, earlier first where they are equal; what has no share gets nothing."""
    assert shared_out(total, shares) == parts


def test_limit_by_hand() -> None:
    """1 in 500 of 50' is 1.2"; of 368' it would be 8.8", so 2" rules."""
    assert misclosure_limit(50 * FOOT) == 1_219_200 // 500
    assert misclosure_limit(368 * FOOT) == 2 * INCH


@pytest.mark.parametrize(
    ("closure", "is_enough"),
    [
        (Closure("A", 0, 0, 368 * FOOT), True),
        (Closure("A", 2 * INCH, 0, 368 * FOOT), True),
        (Closure("A", 0, -2 * INCH - 1, 368 * FOOT), False),
        (Closure("A", 1500, 1500, 368 * FOOT), True),  # 2,121 ticks straight
        (Closure("A", 3000, 3000, 368 * FOOT), False),  # 4,243 of 4,064
        (Closure("A", 2438, 0, 50 * FOOT), True),
        (Closure("A", 2439, 0, 50 * FOOT), False),
    ],
)
def test_closed_enough(closure: Closure, is_enough: bool) -> None:
    """The straight distance counts, up to the limit itself."""
    assert is_closed_enough(closure) == is_enough


def test_words_of_a_misclosure() -> None:
    """East or west, north or south, straight, the ratio and the limit, in the job's units."""
    closure = Closure("A", 3 * INCH, -4 * INCH, 368 * FOOT)
    assert misclosure_words(closure, Units()) == (
        'the walk ends E 3" S 4" of its start: 5" in 368\', 1 in 883; limit 2"'
    )
    assert misclosure_words(closure, Units("metric")) == (
        "the walk ends E 76 mm S 102 mm of its start: 127 mm in 112.2 m, 1 in 883; limit 51 mm"
    )
    assert misclosure_words(Closure("A", -INCH, 0, 100 * FOOT), Units()) == (
        'the walk ends W 1" of its start: 1" in 100\', 1 in 1200; limit 2"'
    )
    assert misclosure_words(Closure("A", 0, 0, 100 * FOOT), Units()) == "the walk ends at its start"


@dataclass(frozen=True)
class AnyLeg:
    """A leg of a walk."""

    direction: tuple[float, float]
    is_axis: bool
    length_ticks: int


AXES = [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)]
LENGTHS = st.integers(1, 5_000_000)
AXIS_LEGS = st.builds(AnyLeg, st.sampled_from(AXES), st.just(True), LENGTHS)
BEARINGS = [(0.6, 0.8), (-0.8, 0.6), (0.28, -0.96), (-5 / 13, -12 / 13), (3 / 5, -4 / 5), (8 / 17, 15 / 17)]
BEARING_LEGS = st.builds(AnyLeg, st.sampled_from(BEARINGS), st.just(False), LENGTHS)
WALKS = st.lists(AXIS_LEGS | BEARING_LEGS, min_size=3, max_size=12)


def changed_steps(legs: list[AnyLeg]) -> list[tuple[int, int]]:
    """Each side's way east and north [ticks] after closing."""
    corners, _ = close_walk(legs)
    return [(bx - ax, by - ay) for (ax, ay), (bx, by) in zip(corners, corners[1:] + corners[:1], strict=True)]


@MANY
@given(WALKS)
def test_every_walk_closes_exactly(legs: list[AnyLeg]) -> None:
    """The legs as walked, rounded, and their changes add up to nothing, and the last leg ends at the start."""
    _, closure = close_walk(legs)
    changes = {change.side: change for change in closure.changes}
    walked = [(round(leg.length_ticks * leg.direction[0]), round(leg.length_ticks * leg.direction[1])) for leg in legs]
    nothing = LegChange(0, 0, 0)
    made = [
        (x + changes.get(side, nothing).east, y + changes.get(side, nothing).north)
        for side, (x, y) in enumerate(walked, start=1)
    ]
    assert (sum(x for x, _ in made), sum(y for _, y in made)) == (0, 0)
    assert changed_steps(legs) == made


@MANY
@given(WALKS)
def test_axis_legs_keep_their_direction(legs: list[AnyLeg]) -> None:
    """No leg walked east or west moves north, none walked north or south moves east, and none turns about."""
    ways = changed_steps(legs)
    off = [
        (way, leg)
        for way, leg in zip(ways, legs, strict=True)
        if leg.is_axis
        and (
            way[0] * leg.direction[1] != 0
            or way[1] * leg.direction[0] != 0
            or way[0] * leg.direction[0] + way[1] * leg.direction[1] < 0
        )
    ]
    assert off == []


@MANY
@given(WALKS)
def test_turning_and_mirroring_a_walk_turn_and_mirror_its_outline(legs: list[AnyLeg]) -> None:
    """A quarter turn and a mirror image of the walk give exactly the turned and mirrored outline."""
    ways = changed_steps(legs)
    turned = [AnyLeg((0.0 - leg.direction[1], leg.direction[0]), leg.is_axis, leg.length_ticks) for leg in legs]
    mirrored = [AnyLeg((0.0 - leg.direction[0], leg.direction[1]), leg.is_axis, leg.length_ticks) for leg in legs]
    assert changed_steps(turned) == [(-y, x) for x, y in ways]
    assert changed_steps(mirrored) == [(-x, y) for x, y in ways]


@MANY
@given(WALKS, st.tuples(st.integers(-(10**6), 10**6), st.integers(-(10**6), 10**6)))
def test_start_moves_the_outline_only(legs: list[AnyLeg], start: tuple[int, int]) -> None:
    """Another start, the same outline elsewhere."""
    here, closure = close_walk(legs)
    there, same = close_walk(legs, start=start)
    assert there == tuple((x + start[0], y + start[1]) for x, y in here)
    assert closure == same


@MANY
@given(st.lists(BEARING_LEGS, min_size=3, max_size=12))
def test_bearing_legs_change_by_the_compass_rule(legs: list[AnyLeg]) -> None:
    """Each leg's change is minus the misclosure times its share of the length, to within a tick."""
    _, closure = close_walk(legs)
    changes = {change.side: change for change in closure.changes}
    nothing = LegChange(0, 0, 0)
    off = [
        abs(changes.get(side, nothing).east + closure.east * leg.length_ticks / closure.walked)
        for side, leg in enumerate(legs, start=1)
    ]
    assert max(off) < 1
