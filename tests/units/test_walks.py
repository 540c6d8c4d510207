"""Walks, bearings, positions and sizes."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.units.unread import Unread
from lapwright.units.walks import AXES, Leg, direction, position, size, walk
from lapwright.units.write import Units

MANY = settings(deadline=None, max_examples=300)
FT = 24_384
US = Units("us")
SIXTEENTHS = st.integers(1, 400_000)
WALK_NEEDS = "legs separated by commas, each a direction and a length with its unit"
WALK_WRITE = "E 120', N 64', W 120', S 64'"


def test_the_walk_of_a_rectangle() -> None:
    """A walk by E N W S gives exact unit vectors and whole ticks, with each leg as typed."""
    assert walk("E 120', N 64' 6\",\n W 120',S64.5 ft\n") == (
        Leg((1.0, 0.0), True, 120 * FT, "E 120'"),
        Leg((0.0, 1.0), True, 64 * FT + 6 * 2032, "N 64' 6\""),
        Leg((-1.0, 0.0), True, 120 * FT, "W 120'"),
        Leg((0.0, -1.0), True, 64 * FT + 6 * 2032, "S64.5 ft"),
    )


def test_a_leg_by_bearing() -> None:
    """N 30 E goes half as far east as it is long, and is no leg along an axis."""
    (leg,) = walk("N 30 E 18' 4\"")
    assert leg.direction == pytest.approx((0.5, math.sqrt(3) / 2), rel=1e-15)
    assert (leg.is_axis, leg.length_ticks) == (False, 18 * FT + 4 * 2032)


@MANY
@given(st.lists(st.tuples(st.sampled_from("ENWS"), SIXTEENTHS), min_size=1, max_size=12))
def test_walks_come_back(legs: list[tuple[str, int]]) -> None:
    """A walk written leg by leg reads as the same directions and ticks."""
    text = ", ".join(f"{letter} {US.tape(sixteenths * 127)}" for letter, sixteenths in legs)
    assert [(leg.direction, leg.length_ticks) for leg in walk(text)] == [
        (AXES[letter], sixteenths * 127) for letter, sixteenths in legs
    ]


@MANY
@given(st.sampled_from("NS"), st.integers(0, 89), st.integers(0, 59), st.integers(0, 59), st.sampled_from("EW"))
def test_bearings_are_unit_vectors_in_their_quarter(a: str, degrees: int, minutes: int, seconds: int, b: str) -> None:
    """Every bearing points into the quarter that its letters name and has length one, in every spelling."""
    plain = direction(f"{a} {degrees} {minutes} {seconds} {b}")
    assert math.hypot(*plain) == pytest.approx(1, rel=1e-15)
    assert plain[0] * (1 if b == "E" else -1) >= 0
    assert plain[1] * (1 if a == "N" else -1) >= 0
    assert direction(f"{a} {degrees}° {minutes}' {seconds}\" {b}") == plain
    assert direction(f"{a.lower()}{degrees}-{minutes}-{seconds}{b.lower()}") == plain


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E", (1.0, 0.0)), ("n", (0.0, 1.0)), ("W", (-1.0, 0.0)), ("S", (0.0, -1.0)),
        ("N 0 E", (0.0, 1.0)), ("S 0 W", (0.0, -1.0)), ("N 90 E", (1.0, 0.0)), ("S 90 W", (-1.0, 0.0)),
    ],
)  # fmt: skip
def test_axes_are_exact(text: str, expected: tuple[float, float]) -> None:
    """The four directions and bearings along them have no rounding and no negative zero."""
    assert str(direction(text)) == str(expected)


def test_minutes_are_sixtieths() -> None:
    """35 degrees 30 minutes is 35.5 degrees."""
    assert direction("N 35 30 E") == direction("N 35.5 E") == direction("N 35 30 0 E")


@pytest.mark.parametrize(
    ("text", "needs", "write"),
    [
        ("", WALK_NEEDS, WALK_WRITE),
        (" \n ", WALK_NEEDS, WALK_WRITE),
        ("E 120', N 64',", WALK_NEEDS, WALK_WRITE),
        ("E 120',, N 64'", "leg 2: a direction and a length with its unit", WALK_WRITE),
        ("E 120', north 64'", "leg 2: a direction and a length with its unit", WALK_WRITE),
        ("120'", "leg 1: a direction and a length with its unit", WALK_WRITE),
        ("E", "leg 1: a direction and a length with its unit", WALK_WRITE),
        ("E 120", "leg 1: a length with its unit", "12' 6 1/2\", 3.81 m or 40 mm"),
        ("E 12' 14\"", "leg 1: inches under 12 after feet", "13' 2\""),
        ("E 120' N 64'", "leg 1: a comma between legs", WALK_WRITE),
        ("N 64' W 120'", "leg 1: a comma between legs", WALK_WRITE),
        ("E 0'", "leg 1: a length above 0", WALK_WRITE),
        ("E 3', N -3'", "leg 2: a length above 0", WALK_WRITE),
        (
            "N 35 60 E 3'",
            "a bearing of 0 to 90 degrees, minutes and seconds under 60",
            "N 35 30 E",
        ),
        ("E 1'," * 300_000, "a walk that a person typed, at most 1,000,000 characters", WALK_WRITE),
    ],
    ids=range(15),
)
def test_what_a_refused_walk_says(text: str, needs: str, write: str) -> None:
    """The whole of what is said about the first leg that can't be read."""
    with pytest.raises(Unread) as found:
        walk(text)
    assert (found.value.needs, found.value.write) == (needs, write)


@pytest.mark.parametrize("text", ["NE", "N 91 E", "N 35 E 20", "35", "N 3.5 30 E", "N 35 30 15 10 E", "", "up"])
def test_what_is_no_direction(text: str) -> None:
    """Other letters, too many degrees and decimals before minutes are refused."""
    with pytest.raises(Unread):
        direction(text)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("E 30' N 20'", (30 * FT, 20 * FT)),
        ("N 20' E 30'", (30 * FT, 20 * FT)),
        ("W 3 ft, S 2 in", (-3 * FT, -2 * 2032)),
        ("N 1 m", (0, 80_000)),
        ("E 0' N 0'", (0, 0)),
    ],
)
def test_positions(text: str, expected: tuple[int, int]) -> None:
    """Either order; W and S count backwards; one part alone leaves the other 0."""
    assert position(text) == expected


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        ("", "a position east and north"),
        ("30' 20'", "a position east and north"),
        ("E 30' W 20'", "a position east and north"),
        ("E 1' N 2' S 3'", "a position east and north"),
        ("E 30 N 20'", "a position east and north: a length with its unit"),
        ("E -3' N 0'", "a position east and north, with W or S for the other way"),
    ],
)
def test_what_a_refused_position_says(text: str, needs: str) -> None:
    """The whole of what is said."""
    with pytest.raises(Unread) as found:
        position(text)
    assert (found.value.needs, found.value.write) == (needs, "E 30' N 20'")


@pytest.mark.parametrize("text", ["E 8' x N 6'", "N 6' x E 8'", "E 8' × N 6'", 'E 96" X N 72 in'])
def test_sizes(text: str) -> None:
    """A size is east by north, whichever comes first."""
    assert size(text) == (8 * FT, 6 * FT)


@pytest.mark.parametrize(
    ("text", "needs"),
    [
        ("8' x 6'", "a size east by north"),
        ("E 8'", "a size east by north"),
        ("E 8' x W 6'", "a size east by north"),
        ("E 8' x N 6' x N 6'", "a size east by north"),
        ("E 0' x N 6'", "a size east by north"),
        ("E 8 x N 6'", "a size east by north: a length with its unit"),
    ],
)
def test_what_a_refused_size_says(text: str, needs: str) -> None:
    """The whole of what is said."""
    with pytest.raises(Unread) as found:
        size(text)
    assert (found.value.needs, found.value.write) == (needs, "E 8' x N 6'")


@pytest.mark.parametrize("reader", [walk, position, size, direction])
@MANY
@given(text=st.text(max_size=100) | st.text(alphabet="ENWSx 0123456789'\",°-", max_size=60))
def test_any_text_is_read_or_refused(reader: object, text: str) -> None:
    """Nothing but a value or a refusal comes of any text."""
    try:
        assert reader(text)
    except Unread as found:
        assert found.needs and found.write


def test_a_walk_of_twenty_thousand_legs_is_read() -> None:
    """Length alone is no reason to refuse a walk; it is read in one pass."""
    assert len(walk(", ".join(["E 1'", "N 1'"] * 10_000))) == 20_000


def test_a_decimal_comma_in_a_leg_is_told_with_the_walk_to_write() -> None:
    """It parts no legs: a leg begins with a letter."""
    with pytest.raises(Unread) as found:
        walk("E 28 m, N 20,5 m, W 28 m, S 20,5 m")
    assert found.value.needs == "leg 2: a length with its unit, its decimals behind a point"
    assert found.value.write == "E 28 m, N 20.5 m, W 28 m, S 20.5 m"
