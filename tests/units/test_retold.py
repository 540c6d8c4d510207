"""Defaults typed in one system, told in the other."""

import pytest

from lapwright.units.retold import retold
from lapwright.units.write import Units

US, METRIC = Units("us"), Units("metric")


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        # 25.4 mm to the inch and 0.3048 m to the foot by definition: 18 x 25.4, 5.5 x 25.4, 33 x 0.3048, 12 x 0.3048.
        ('18"', "457.2 mm"),
        ('5 1/2"', "139.7 mm"),
        ("33'", "10.058 m"),
        ("12 ft/h", "3.66 m/h"),
        ("3 ft/min", "0.914 m/min"),
        ("6 in/s", "152 mm/s"),
        ("0.1875 in", "4.8 mm"),
        ("100 ft", "30.48 m"),
        # 100 x 0.3048² = 9.290 m² to the square: 15 of them; 65 sf are 6.04 m².
        ("15 sq", "139 m²"),
        ("65 sf/h", "6.04 m²/h"),
        # 1609.344 m to the mile: 20 mph.
        ("20 mph", "8.94 m/s"),
        # 2/12.
        ("2 in 12", "16.67 %"),
    ],
)
def test_us_defaults_in_a_metric_job(typed: str, told: str) -> None:
    """Each in the job's own unit, by definition; in a US job as typed."""
    assert retold(METRIC, typed) == told
    assert retold(US, typed) == typed


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        # 0.6 m / 25.4 mm = 23.62 in; 0.8 m/s x 3600 / 1609.344; 1 Btu/h ft² F is 5.678 W/m²K.
        ("0.6 m", "1' 11 5/8\""),
        ("0.8 m/s", "1.79 mph"),
        ("6 W/m2K", "1.06 Btu/h ft² F"),
    ],
)
def test_metric_defaults_in_a_us_job(typed: str, told: str) -> None:
    """Each in feet, mph and Btu; in a metric job as typed."""
    assert retold(US, typed) == told
    assert retold(METRIC, typed) == typed


@pytest.mark.parametrize("typed", ["24 h", "30 min", "3 %", "1", "0.85", "air_and_surface", "1 1/h", "300 ml"])
def test_what_both_systems_share_stays(typed: str) -> None:
    """Times, shares, counts and words are no system's."""
    assert retold(US, typed) == typed
    assert retold(METRIC, typed) == typed


def test_degrees_carry_their_sign() -> None:
    """(-25 - 32) x 5/9, which ACGIH prints as -32 °C, and 20 x 9/5 + 32."""
    assert [retold(units, "-25 F") for units in (US, METRIC)] == ["-25 °F", "-31.7 °C"]
    assert [retold(units, "20 degC") for units in (US, METRIC)] == ["68 °F", "20 °C"]


def test_a_margin_is_a_difference() -> None:
    """5 °F more is 5 x 5/9 = 2.8 K more, not -15 °C."""
    assert retold(METRIC, "5 F", difference=True) == "2.8 K"
