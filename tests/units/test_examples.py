"""Examples in the units of the job: round values of its own system, and nothing that a person typed."""

from __future__ import annotations

import pytest

from lapwright.units.examples import example_in, limits_in, offered_in, rounded, with_unit
from lapwright.units.lengths import WRITE, length_m
from lapwright.units.write import Units

METRIC, US = Units("metric"), Units("us")


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ('3"', "75 mm"),
        ('6"', "150 mm"),
        ('30"', "750 mm"),
        ("150'", "45 m"),
        ("22'", "6.5 m"),
        ("20 F", "-7 °C"),
        ("112 mph", "50 m/s"),
        ("3.75 in/h", "95 mm/h"),
        ("20 ppm/F", "35 ppm/K"),
        ("60 lbf", "270 N"),
        ("1/4 in 12", "2 %"),
        ("120 V", "230 V"),
        (WRITE, "3.81 m or 40 mm"),
        ("4 mm", "4 mm"),
        ("2027-01-11", "2027-01-11"),
        (
            '{width: 39 3/8", length: 65\' 7", side_lap: 3", end_lap: 6"}',
            "{width: 1000 mm, length: 20 m, side_lap: 75 mm, end_lap: 150 mm}",
        ),
    ],
)
def test_an_example_is_round_in_its_own_system(text: str, expected: str) -> None:
    """A metric job is shown metric values that somebody would type; a US job the text as it is."""
    assert example_in(METRIC, text) == expected
    assert example_in(US, text) == text


def test_what_may_be_typed_is_not_rounded() -> None:
    """Of what a reader says only its own examples are exchanged; limits are told to the tenth of a millimetre."""
    assert offered_in(METRIC, '14 7/16"') == '14 7/16"'
    assert offered_in(METRIC, "45 psf or 2.15 kPa") == "2.15 kPa"
    assert limits_in(METRIC, "a length from 6\" to 20'") == "a length from 152.4 mm to 6.096 m"
    assert limits_in(US, "a length from 6\" to 20'") == "a length from 6\" to 20'"


def test_a_bare_number_gets_the_units_that_are_shown_the_likeliest_first() -> None:
    """300 beside `3.81 m or 40 mm` is sooner 300 mm; what the reader refuses is left out, a text is no number."""
    assert with_unit("300", "3.81 m or 40 mm", length_m, 0.75) == "300 mm, or 300 m"
    assert with_unit("700", "3.81 m or 40 mm", length_m, 270.0) == "700 m, or 700 mm"
    assert with_unit("28 feet", "3.81 m or 40 mm", length_m, 0.75) == ""
    assert with_unit("0", "3.81 m or 40 mm", length_m, 0.75) == ""


@pytest.mark.parametrize(
    ("value", "expected"), [(76.2, 75), (45.72, 45), (6.706, 6.5), (304.8, 300), (13.4, 13), (0, 0)]
)
def test_round_numbers(value: float, expected: float) -> None:
    """Two figures, the second 0 or 5 within 4 parts in 100."""
    assert rounded(value) == pytest.approx(expected, abs=1e-12)
