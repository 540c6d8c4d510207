"""Lengths: exact both ways, in every way that a tape is written."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.units.lengths import length_exact, length_m, length_ticks, mixed, nearest
from lapwright.units.unread import Unread
from lapwright.units.write import Units

MANY = settings(deadline=None, max_examples=300)
US, METRIC = Units("us"), Units("metric")
# 127 ticks to a sixteenth of an inch, 80 to a millimetre; up to about 3 km either way.
SIXTEENTHS = st.integers(-2_000_000, 2_000_000)
MILLIMETRES = st.integers(-3_000_000, 3_000_000)


@MANY
@given(SIXTEENTHS)
def test_tape_text_comes_back_to_the_same_ticks(sixteenths: int) -> None:
    """Every sixteenth of an inch survives writing and reading."""
    assert length_ticks(US.tape(sixteenths * 127)) == sixteenths * 127


@MANY
@given(SIXTEENTHS)
def test_width_in_inches_comes_back_to_the_same_ticks(sixteenths: int) -> None:
    """Every width in inches survives writing and reading."""
    assert length_ticks(US.width(sixteenths * 127)) == sixteenths * 127


@MANY
@given(MILLIMETRES)
def test_millimetres_come_back_to_the_same_ticks(millimetres: int) -> None:
    """Every millimetre survives writing and reading."""
    assert length_ticks(METRIC.tape(millimetres * 80)) == millimetres * 80


@MANY
@given(st.integers(0, 3000), st.integers(0, 11), st.integers(0, 15))
def test_one_length_reads_alike_in_every_notation(feet: int, inches: int, sixteenths: int) -> None:
    """Primes, typographic primes, words, hyphen, spaces, decimals: the same exact length."""
    expected = (12 * feet + inches + Fraction(sixteenths, 16)) * Fraction(254, 10_000)
    part = f"{inches} {sixteenths}/16"
    texts = [
        f"{feet}' {part}\"",
        f"{feet}'-{part}\"",
        f"{feet}′ {part}″",
        f"{feet}’ {part}”",
        f"{feet} ft {part} in",
        f"{feet}ft {part}inches",
        f"{feet} feet - {inches}-{sixteenths}/16 in",
        f"  {feet}'\u00a0{part}''  ",
        f"{12 * feet + inches + sixteenths / 16} in",
        f'{12 * feet + inches + sixteenths / 16}"',
    ]
    assert {length_exact(text) for text in texts} == {expected}


@MANY
@given(st.decimals(min_value=0, max_value=9_999, places=5, allow_nan=False))
def test_decimal_metres_are_read_exactly(metres: object) -> None:
    """What is typed in metres, centimetres or millimetres is the fraction it says, not its nearest float."""
    text = f"{metres:f}"
    assert length_exact(f"{text} m") == Fraction(text)
    assert length_exact(f"{text} cm") == Fraction(text) / 100
    assert length_exact(f"{text} mm") == Fraction(text) / 1000


@MANY
@given(st.fractions(min_value=-(10**9), max_value=10**9, max_denominator=10**6))
def test_nearest_is_within_a_half_and_the_same_either_way(value: Fraction) -> None:
    """Rounding moves by a half at most and treats both signs alike."""
    assert abs(nearest(value) - value) <= Fraction(1, 2)
    assert nearest(-value) == -nearest(value)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("12' 6 1/2\"", 305_816),  # 12 × 24,384 + 6.5 × 2,032
        ('39 3/8"', 80_010),
        ('39-3/8"', 80_010),
        ("39.375 in", 80_010),
        ('6"', 12_192),
        ("3'", 73_152),
        ("3.5'", 85_344),
        ("3 1/2'", 85_344),
        ("10 ft", 243_840),
        ("3.81 m", 304_800),
        ("2.5 cm", 2_000),
        ("40 MM", 3_200),
        ("6½″", 13_208),
        ('3/8"', 762),
        ("-3' 6\"", -85_344),
        ("- 40 mm", -3_200),
        ("1/32\"", 64),  # 63.5: a half goes away from zero
        ("-1/32\"", -64),
        ("1/64\"", 32),  # 31.75
        ("100 km", 8_000_000_000),
    ],
)  # fmt: skip
def test_ticks_counted_by_hand(text: str, expected: int) -> None:
    """Ticks as counted on paper from 2,032 to the inch and 80 to the millimetre."""
    assert length_ticks(text) == expected


def test_a_float_length_is_the_nearest_float() -> None:
    """A length in metres is rounded once, from the exact fraction."""
    assert (length_m("12' 6 1/2\""), length_m("1/10 in"), length_m('-0"')) == (3.8227, 0.00254, 0.0)


@pytest.mark.parametrize(
    ("value", "expected"),
    [(Fraction(6), "6"), (Fraction(3, 8), "3/8"), (Fraction(315, 8), "39 3/8"), (Fraction(0), "0")],
)
def test_fractions_as_a_tape_shows_them(value: Fraction, expected: str) -> None:
    """Whole, part, or whole and part."""
    assert mixed(value) == expected


LENGTH = ("a length with its unit", "12' 6 1/2\", 3.81 m or 40 mm")


@pytest.mark.parametrize(
    ("text", "needs", "write"),
    [
        ("", *LENGTH),
        ("12", *LENGTH),
        ("12.5", *LENGTH),
        ("12' 6", *LENGTH),
        ("12 6\"", *LENGTH),
        ("'", *LENGTH),
        ("nan m", *LENGTH),
        ("inf", *LENGTH),
        ("1e3 m", *LENGTH),
        ("1,5 m", "a length with its unit, its decimals behind a point", "1.5 m"),
        ("1,200'", "a length with its unit, without a comma", "1200' or 1.200'"),
        ("0,125 m", "a length with its unit, its decimals behind a point", "0.125 m"),
        ("--3'", *LENGTH),
        ("6\" 3'", *LENGTH),
        ("3' x 4'", *LENGTH),
        ("٣ m", *LENGTH),
        ("3 furlongs", *LENGTH),
        ("3 m 20 cm", *LENGTH),
        ("12' 14\"", "inches under 12 after feet", "13' 2\""),
        ("12' 12\"", "inches under 12 after feet", "13' 0\""),
        ("4' 30 1/2\"", "inches under 12 after feet", "6' 6 1/2\""),
        ("3.5' 6\"", "whole feet before inches", LENGTH[1]),
        ("3 8/8\"", "a fraction under one", "3/8 or 1 3/8"),
        ("1/0 in", "a fraction under one", "3/8 or 1 3/8"),
        ("100.001 km", "a length of at most 100 km", LENGTH[1]),
        ("999999999999 m", "a length of at most 100 km", LENGTH[1]),
    ],
)  # fmt: skip
def test_what_a_refused_length_says(text: str, needs: str, write: str) -> None:
    """The whole of what is said, for each way of getting a length wrong."""
    with pytest.raises(Unread) as found:
        length_ticks(text)
    assert (found.value.needs, found.value.write) == (needs, write)


@MANY
@given(st.text(max_size=200) | st.text(alphabet="0123456789 ./'\"-ftinm", max_size=80))
def test_any_text_is_read_or_refused(text: str) -> None:
    """Nothing but a length or a refusal comes of any text."""
    try:
        length_ticks(text)
    except Unread as found:
        assert found.needs and found.write


@pytest.mark.parametrize("text", ["1" * 1_000_000, "1 " * 500_000, "1/" * 500_000 + "m", "'" * 1_000_000, "-" * 99])
def test_endless_text_is_refused_unread(text: str) -> None:
    """A text longer than anyone types is refused without being searched."""
    with pytest.raises(Unread):
        length_ticks(text)


@pytest.mark.parametrize("text", ["²m", "4²m", "4 ²m", "³"])
def test_a_power_behind_no_unit_is_refused(text: str) -> None:
    """4²m is not 42 m."""
    with pytest.raises(Unread):
        length_m(text)
