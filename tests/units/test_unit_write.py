"""What is written out, in both systems."""

from __future__ import annotations

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.units.write import Units, decimals, sensible

US, METRIC = Units("us"), Units("metric")
SI_UNITS = ("m", "m2", "m3", "m/s", "m/s tool", "m/s rain", "Pa", "N", "N/m", "m3/s", "kg", "degC", "K", "s", "slope",
            "W/m2", "m2/m3", "W/m2K", "m2K/W", "", "roll")  # fmt: skip


@pytest.mark.parametrize(
    ("ticks", "step", "us", "metric"),
    [
        (305_816, "1/16", "12' 6 1/2\"", "3823 mm"),  # 3822.7 mm
        (80_010, "1/16", "3' 3 3/8\"", "1000 mm"),
        (0, "1/16", '0"', "0 mm"),
        (24_384, "1/16", "1' 0\"", "305 mm"),
        (-24_384, "1/16", "-1' 0\"", "-305 mm"),
        (2_032 * 12 - 1, "1/16", "1' 0\"", "305 mm"),
        (80_010, "1/2", "3' 3 1/2\"", "1000 mm"),
        (-1, "1/16", '0"', "0 mm"),
        (64, "1/32", '1/32"', "1 mm"),
    ],
)
def test_tape(ticks: int, step: str, us: str, metric: str) -> None:
    """Feet and inches to the step, or whole millimetres; what rounds to nothing has no sign."""
    assert (US.tape(ticks, step), METRIC.tape(ticks, step)) == (us, metric)


@pytest.mark.parametrize(
    ("value", "unit", "us", "metric"),
    [
        (713.49, "m2", "7680 sf", "713 m²"),
        (0.018927, "m3", "5 gal", "18.9 L"),
        (50.06848, "m/s", "112 mph", "50.1 m/s"),
        (0.1524, "m/s tool", "6 in/s", "152 mm/s"),
        (2.6458333e-05, "m/s rain", "3.75 in/h", "95.2 mm/h"),
        (2154.61165, "Pa", "45 psf", "2.15 kPa"),
        (1459.39, "N/m", "100 plf", "1459 N/m"),
        (0.01129, "m3/s", "179 gpm", "11.3 L/s"),
        (10.0, "degC", "50 °F", "10 °C"),
        (-6.6666667, "degC", "20 °F", "-6.7 °C"),
        (2.7777778, "K", "5 °F", "2.8 K"),
        (40.0, "kg", "88.2 lb", "40 kg"),
        (1 / 48, "slope", "1/4 in 12", "2.08 %"),
        (0.02, "slope", "0.24 in 12", "2 %"),
        (3.8227, "m", "12' 6 1/2\"", "3.823 m"),
        (0.2032, "m", '8"', "203.2 mm"),
        (36.576, "m", "120'", "36.576 m"),
        (270.0, "m", "886'", "270 m"),
        (26.25, "s", "26.3 s", "26.3 s"),
        (200.0, "s", "3 min 20 s", "3 min 20 s"),
        (3600.0, "s", "60 min", "60 min"),
        (86_400.0, "s", "24 h", "24 h"),
        (259_200.0, "s", "3 d", "3 d"),
        (250.0, "W/m2", "250 W/m²", "250 W/m²"),
        (3926.78, "m2/m3", "160 sf/gal", "3.93 m²/L"),
        (305_816, "ticks", "12' 6 1/2\"", "3823 mm"),
        (0.85, "", "0.85", "0.85"),
        (7, "roll", "7 roll", "7 roll"),
        (math.inf, "m", "no limit", "no limit"),
        (math.nan, "degC", "no number °F", "no number °C"),
    ],
)
def test_number_and_unit(value: float, unit: str, us: str, metric: str) -> None:
    """Each SI unit in both systems, worked on paper from the definitions."""
    assert (US.number_and_unit(value, unit), METRIC.number_and_unit(value, unit)) == (us, metric)


@settings(deadline=None, max_examples=300)
@given(st.floats(-1e-9, 0) | st.floats(-1e12, 1e12), st.sampled_from(SI_UNITS), st.sampled_from([US, METRIC]))
def test_no_negative_zero_and_no_idle_zeros(value: float, unit: str, units: Units) -> None:
    """No text starts with -0 where the number is nothing, ends a decimal in 0, or is empty."""
    number = units.number_and_unit(value, unit).split(" ")[0]
    assert number not in ("", "-0", '-0"')
    assert not ("." in number and "e" not in number and number.endswith("0"))


@settings(deadline=None, max_examples=300)
@given(st.floats(1e-3, 1e6))
def test_sensible_keeps_three_figures(value: float) -> None:
    """What is shown is within half of 1 part in 100 of what is meant, and usually nearer."""
    assert float(sensible(value)) == pytest.approx(value, rel=0.005)


@pytest.mark.parametrize(
    ("value", "most", "expected"),
    [
        (2.25, 1, "2.3"),
        (-2.25, 1, "-2.3"),
        (2.0, 3, "2"),
        (-0.04, 1, "0"),
        (1234.5, 0, "1235"),
        (1e21, 1, "1" + "0" * 21),
    ],
)
def test_decimals(value: float, most: int, expected: str) -> None:
    """A half goes away from zero; zeros that say nothing go."""
    assert decimals(value, most) == expected


def test_widths_thicknesses_squares() -> None:
    """Widths in inches alone, thicknesses in thousandths, areas in squares of 100 sf."""
    assert (US.width(80_010), METRIC.width(80_010)) == ('39 3/8"', "1000 mm")
    assert (US.thickness(0.004), METRIC.thickness(0.0015)) == ('0.157"', "1.5 mm")
    assert (US.squares(713.49), METRIC.squares(713.49)) == ("76.8 squares", "713 m²")


def test_columns_carry_number_and_unit() -> None:
    """For tables: the number not rounded, the unit apart."""
    assert US.converted(3.048, "m") == (10.0, "ft")
    assert METRIC.converted(3.048, "m") == (3.048, "m")
    assert US.converted(-40.0, "degC") == (-40.0, "°F")
    assert US.converted(12.0, "pail") == (12.0, "pail")


def test_a_third_system_is_a_bug() -> None:
    """Nothing but us and metric is known here."""
    with pytest.raises(ValueError, match="units are one of"):
        Units("imperial")
