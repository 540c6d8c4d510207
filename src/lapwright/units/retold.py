"""A value typed in one system told in the other: defaults are written as their sources print them, jobs in their own.

What both systems share (counts, shares, times) and what is in the job's own units already stays as it was typed.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from lapwright.units import factors as f
from lapwright.units import quantities as q
from lapwright.units.lengths import length_exact
from lapwright.units.unread import Unread
from lapwright.units.write import Units, sensible

FOOT_LENGTHS, METRE_LENGTHS = ("in", "ft"), ("mm", "cm", "m", "km")
# Unit as typed -> the unit it is told in, and how many of that go to one.
METRIC: Mapping[str, tuple[str, Fraction]] = MappingProxyType(
    {
        "mph": ("m/s", f.MILE / f.HOUR), "in/s": ("mm/s", f.INCH * 1000), "ft/s": ("m/s", f.FOOT),
        "ft/min": ("m/min", f.FOOT), "ft/h": ("m/h", f.FOOT), "sf/h": ("m²/h", f.FOOT**2), "sf": ("m²", f.FOOT**2),
        "sq": ("m²", 100 * f.FOOT**2), "sf/gal": ("m²/L", f.FOOT**2 / f.GALLON * f.LITRE),
        "gal": ("L", f.GALLON / f.LITRE), "lb": ("kg", f.POUND), "psf": ("kPa", f.PSF / 1000),
        "in/h": ("mm/h", f.INCH * 1000), "lbf": ("N", f.POUND_FORCE), "ppm/F": ("ppm/K", 1 / f.FAHRENHEIT_STEP),
        "lbf/in": ("kN/m", f.POUND_FORCE / f.INCH / 1000),
    }
)  # fmt: skip
US: Mapping[str, tuple[str, Fraction]] = MappingProxyType(
    {
        "m/s": ("mph", f.HOUR / f.MILE), "mm/s": ("in/s", 1 / (f.INCH * 1000)), "m2": ("sf", 1 / f.FOOT**2),
        "L": ("gal", f.LITRE / f.GALLON), "kg": ("lb", 1 / f.POUND), "kPa": ("psf", 1000 / f.PSF),
        "W/m2K": ("Btu/h ft² F", f.HOUR * f.FOOT**2 * f.FAHRENHEIT_STEP / f.BTU),
        "W/mK": ("Btu/h ft F", f.HOUR * f.FOOT * f.FAHRENHEIT_STEP / f.BTU),
    }
)  # fmt: skip


def retold(units: Units, text: str, *, difference: bool = False) -> str:
    """A typed value in the job's units: `457.2 mm` for `18"`; as typed where that says it already, but `°F`.

    difference: a temperature in it is a difference.
    """
    number, _, unit = text.partition(" ")
    if unit in ("F", "degF", "C", "degC"):
        if difference:
            return units.temperature_difference(q.temperature_difference_k(text))
        return units.temperature(q.temperature_c(text))
    if " in 12" in text:
        return text if units.is_us else units.slope(q.slope(text))
    other = (METRIC if not units.is_us else US).get(unit)
    if other is not None and number.replace(".", "", 1).isdigit():
        return f"{sensible(float(Fraction(number) * other[1]))} {other[0]}"
    return units.length(float(length_exact(text))) if _is_others_length(units, text, unit) else text


def _is_others_length(units: Units, text: str, unit: str) -> bool:
    """A length of the other system; a bare number is none."""
    try:
        length_exact(text)
    except Unread:
        return False
    is_us = unit in FOOT_LENGTHS or text[-1:] in "'\""
    return is_us != units.is_us and (is_us or unit in METRE_LENGTHS)
