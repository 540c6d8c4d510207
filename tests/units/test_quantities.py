"""Other quantities: round trips through both systems, and what is said when a value can't be read."""

from __future__ import annotations

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.units import quantities as q
from lapwright.units.amounts import currency, integer, number, price
from lapwright.units.anything import quantity_si, si_scale
from lapwright.units.unread import Unread
from lapwright.units.write import Units

MANY = settings(deadline=None, max_examples=300)
US, METRIC = Units("us"), Units("metric")
SYSTEMS = st.sampled_from([US, METRIC])


@MANY
@given(st.integers(-2731, 20_000), SYSTEMS)
def test_temperature_text_comes_back(tenths: int, units: Units) -> None:
    """Every tenth of a degree, in either scale, survives reading and writing."""
    text = units.temperature(q.temperature_c(f"{tenths / 10} {'F' if units.is_us else 'C'}"))
    shown = f"{tenths / 10:g}"
    assert text == f"{shown} °{'F' if units.is_us else 'C'}"


@MANY
@given(st.integers(-1000, 1000), SYSTEMS)
def test_difference_text_comes_back(tenths: int, units: Units) -> None:
    """A difference has no offset: 0 is 0 in both scales, and each tenth survives."""
    scale = "°F" if units.is_us else "K"
    assert units.temperature_difference(q.temperature_difference_k(f"{tenths / 10} {scale}")) == (
        f"{tenths / 10:g} {scale}"
    )


@MANY
@given(st.integers(0, 999), SYSTEMS)
def test_scaled_values_come_back(tenths: int, units: Units) -> None:
    """Wind, tool travel, pressure, rain and area typed to a tenth are written back as typed."""
    typed = f"{tenths / 10:g}"
    rows: list[tuple[Callable[[str], float], Callable[[float], str], str]] = [
        (q.speed_m_s, units.speed, "mph" if units.is_us else "m/s"),
        (q.speed_m_s, units.travel, "in/s" if units.is_us else "mm/s"),
        (q.pressure_pa, units.pressure, "psf" if units.is_us else "kPa"),
        (q.rain_m_s, units.rain, "in/h" if units.is_us else "mm/h"),
        (q.area_m2, units.area, "sf" if units.is_us else "m²"),
        (q.mass_kg, units.mass, "lb" if units.is_us else "kg"),
        (q.volume_m3, units.volume, "gal" if units.is_us else "L"),
    ]
    assert [write(read(f"{typed} {unit}")) for read, write, unit in rows] == [f"{typed} {unit}" for *_, unit in rows]


@MANY
@given(st.integers(1, 12 * 32), SYSTEMS)
def test_slopes_come_back(thirty_seconds: int, units: Units) -> None:
    """A rise in 12 to 1/32" reads as the fraction it is; written out, it is true within 1 part in 100."""
    expected = thirty_seconds / 384
    assert q.slope(f"{thirty_seconds / 32} in 12") == q.slope(f"{thirty_seconds / 32}:12") == expected
    assert q.slope(units.slope(expected)) == pytest.approx(expected, rel=0.01, abs=5e-5)


@pytest.mark.parametrize(
    ("reader", "same"),
    [
        (q.temperature_c, ["50 F", "50F", "50°F", "50 °F", "50 deg F", "50 degF", "50 ℉", "10 C", "10°C"]),
        (q.area_m2, ["250 sf", "250 sq ft", "250 ft2", "250 ft²", "2.5 sq", "2.5 squares"]),
        (q.coverage_m2_m3, ["4 m2/L", "4 m²/l", "4000 m2/m3"]),
        (q.duration_s, ["1 d", "24 h", "24 hr", "1440 min", "86400 s", "24 hours", "1 day"]),
        (q.slope, ["1/4 in 12", "1/4:12", "1/4\" in 12\"", "1/4 in/ft", "1/4\" per foot", "1 in 48", ".25 in 12"]),
        (q.power_w, ["1.6 kW", "1600 W", "1600W"]),
        (q.resistance_m2k_w, ["R-20", "R20", "r 20", "20 h ft2 F/Btu", "20 h ft² F/Btu"]),
    ],
)  # fmt: skip
def test_one_value_in_many_spellings(reader: Callable[[str], float], same: list[str]) -> None:
    """Every spelling of a value reads as the same number."""
    assert [reader(text) for text in same] == pytest.approx([reader(same[0])] * len(same), rel=1e-14)


@pytest.mark.parametrize(
    ("reader", "text", "needs", "write"),
    [
        (q.temperature_c, "50", "a temperature with its unit", "50 F or 10 C"),
        (q.temperature_c, "warm", "a temperature with its unit", "50 F or 10 C"),
        (q.temperature_c, "-460 F", "a temperature above absolute zero and below 3000 C", "50 F or 10 C"),
        (q.temperature_c, "99999 C", "a temperature above absolute zero and below 3000 C", "50 F or 10 C"),
        (q.temperature_difference_k, "5", "a temperature difference with its unit", "5 F or 3 K"),
        (q.speed_m_s, "20", "a speed with its unit", "20 mph, 9 m/s or 3 in/s"),
        (q.speed_m_s, "20 psf", "a speed with its unit", "20 mph, 9 m/s or 3 in/s"),
        (q.speed_m_s, "-20 mph", "a speed with its unit, not negative", "20 mph, 9 m/s or 3 in/s"),
        (q.pressure_pa, "nan psf", "a pressure with its unit", "45 psf or 2.15 kPa"),
        (q.pressure_pa, "45 psg", "a pressure with its unit", "45 psf or 2.15 kPa"),
        (q.area_m2, "2,500 sf", "an area with its unit, without a comma", "2500 sf or 2.500 sf"),
        (q.volume_m3, "5", "a volume with its unit", "5 gal or 20 L"),
        (q.coverage_m2_m3, "160 sf", "a coverage with its unit", "160 sf/gal or 4 m2/L"),
        (q.rain_m_s, "3.75 in", "a rate of rain with its unit", "3.75 in/h or 95 mm/h"),
        (q.power_w, "1.6 kV", "a power with its unit", "1.6 kW or 1600 W"),
        (q.voltage_v, "120", "a voltage with its unit", "120 V"),
        (q.irradiance_w_m2, "250 W", "an irradiance with its unit", "250 W/m2"),
        (q.duration_s, "07:00", "a duration with its unit", "24 h, 60 min or 3 d"),
        (q.mass_kg, "90", "a mass with its unit", "90 lb or 41 kg"),
        (q.line_load_n_m, "100 lb", "a load per length with its unit", "100 plf or 1.5 kN/m"),
        (q.resistance_m2k_w, "R", "a thermal resistance", "R-20 or 3.5 m2K/W"),
        (q.transmittance_w_m2k, "1", "a thermal transmittance with its unit", "0.3 W/m2K or 0.05 Btu/h ft2 F"),
        (q.percent, "0.05", "a percentage", "5 %"),
        (q.slope, "1/4", "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"),
        (q.slope, "1/4 in", "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"),
        (q.slope, "1 in 0", "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"),
        (q.slope, "-2 %", "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"),
        (q.slope, "90 deg", "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"),
        (q.slope, "1200 %", "a slope of a roof, less than 10 in 1", "1/4 in 12, 2 % or 1.2 deg"),
        (number, "ten", "a number", "12 or 0.5"),
        (number, "nan", "a number", "12 or 0.5"),
        (number, "-inf", "a number", "12 or 0.5"),
        (number, "", "a number", "12 or 0.5"),
        (integer, "1.5", "a whole number", "6"),
        (integer, "6 rolls", "a whole number", "6"),
        (price, "-3", "a price", "$95 or 95.50"),
        (price, "1,000", "a price, without a comma", "1000 or 1.000"),
        (price, "€52,50", "a price, its decimals behind a point", "€52.50"),
        (price, "$95 CAD", "a price", "$95 or 95.50"),
        (number, "60,72", "a number, its decimals behind a point", "60.72"),
        (quantity_si, "7", "a value with its unit", "12' 6 1/2\", 50 F, 45 psf or 24 h"),
        (quantity_si, "7 blinks", "a value with its unit", "12' 6 1/2\", 50 F, 45 psf or 24 h"),
        (si_scale, "blinks", "a known unit", "degF, psf, m, m/s or min"),
    ],
)
def test_what_a_refused_value_says(reader: Callable[[str], object], text: str, needs: str, write: str) -> None:
    """The whole of what is said, reader by reader."""
    with pytest.raises(Unread) as found:
        reader(text)
    assert (found.value.needs, found.value.write) == (needs, write)


@pytest.mark.parametrize(
    "reader", [q.temperature_c, q.speed_m_s, q.slope, q.coverage_m2_m3, number, price, quantity_si]
)
@MANY
@given(text=st.text(max_size=100) | st.text(alphabet="0123456789 ./-+eE%°degFinm:$", max_size=70))
def test_any_text_is_a_finite_value_or_refused(reader: Callable[[str], float], text: str) -> None:
    """No text gives an infinite value, a number that is none, or another error."""
    try:
        assert math.isfinite(reader(text))
    except Unread as found:
        assert found.needs and found.write


@pytest.mark.parametrize(
    ("text", "same"),
    [
        ("12' 6 1/2\"", 3.8227),
        ("50 F", 10.0),
        ("283.15 K", 10.0),
        ("1 kn", 1852 / 3600),
        ("1/4 in 12", 1 / 48),
        ("2 %", 0.02),
        ("90 min", 5400.0),
        ("-5 kPa", -5000.0),
        ("1400 kg/m3", 1400.0),
    ],
)
def test_any_value_is_read_by_its_unit(text: str, same: float) -> None:
    """One reader for all units tells them apart."""
    assert quantity_si(text) == pytest.approx(same, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "expected"),
    [("$95", 95.0), ("95", 95.0), ("95.50", 95.5), ("€ 12.5", 12.5), ("CAD 60", 60.0), ("98 EUR", 98.0)],
)
def test_prices(text: str, expected: float) -> None:
    """A price is read with and without its sign."""
    assert price(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"), [("95.50", ""), ("$95", "$"), ("€ 12.5", "€"), ("CAD 60", "CAD"), ("98 EUR", "EUR")]
)
def test_the_money_that_a_price_is_in(text: str, expected: str) -> None:
    """Its sign or its letters, before or behind; nothing where it has none."""
    assert currency(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"), [("20 mm/m", 0.02), ("15 mm per m", 0.015), ("2 cm/m", 0.02), ("1:50", 0.02)]
)
def test_slopes_as_a_metric_level_reads_them(text: str, expected: float) -> None:
    """Millimetres or centimetres to the metre, and one in so many."""
    assert q.slope(text) == pytest.approx(expected, abs=1e-15)
