"""Values as the job wants them written: US (feet, inches, °F, psf) or metric.  SI and ticks in, text out.

Texts are plain: ' and " for feet and inches, no thousands marks, no zeros that say nothing, never a negative zero.
What is written for lengths, temperatures, speeds, pressures and the like, the readers read back.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from types import MappingProxyType

from lapwright.units import factors as f
from lapwright.units.lengths import mixed, nearest

SYSTEMS = ("us", "metric")
TICKS_PER_INCH = int(f.INCH * f.TICKS_PER_METRE)
TICKS_PER_MM = f.TICKS_PER_METRE // 1000

_ONE = Fraction(1)
# SI unit -> the unit shown and its size in SI, for each system.
_US: Mapping[str, tuple[str, Fraction]] = MappingProxyType(
    {
        "m2": ("sf", f.FOOT**2), "m3": ("gal", f.GALLON), "m/s": ("mph", f.MILE / f.HOUR), "m/s tool": ("in/s", f.INCH),
        "m/s rain": ("in/h", f.INCH / f.HOUR), "Pa": ("psf", f.PSF), "N": ("lbf", f.POUND_FORCE),
        "N/m": ("plf", f.POUND_FORCE / f.FOOT), "m3/s": ("gpm", f.GALLON / f.MINUTE), "kg": ("lb", f.POUND),
        "kg/m2": ("lb/sf", f.POUND / f.FOOT**2), "kg/m3": ("pcf", f.POUND / f.FOOT**3),
        "m2/m3": ("sf/gal", f.FOOT**2 / f.GALLON), "m2/s": ("sq/h", 100 * f.FOOT**2 / f.HOUR),
        "m2K/W": ("h ft² F/Btu", f.HOUR * f.FOOT**2 * f.FAHRENHEIT_STEP / f.BTU),
        "W/m2K": ("Btu/h ft² F", f.BTU / f.HOUR / f.FOOT**2 / f.FAHRENHEIT_STEP),
        "1/m2": ("to 100 sf", 1 / (100 * f.FOOT**2)), "1/K": ("ppm/F", Fraction(1, 1_000_000) / f.FAHRENHEIT_STEP),
    }
)  # fmt: skip
_METRIC: Mapping[str, tuple[str, Fraction]] = MappingProxyType(
    {
        "m2": ("m²", _ONE), "m3": ("L", f.LITRE), "m/s": ("m/s", _ONE), "m/s tool": ("mm/s", Fraction(1, 1000)),
        "m/s rain": ("mm/h", Fraction(1, 1000) / f.HOUR), "Pa": ("kPa", Fraction(1000)), "N": ("N", _ONE),
        "N/m": ("N/m", _ONE), "m3/s": ("L/s", f.LITRE), "kg": ("kg", _ONE), "kg/m2": ("kg/m²", _ONE),
        "kg/m3": ("kg/m³", _ONE), "m2/m3": ("m²/L", 1 / f.LITRE), "m2/s": ("m²/h", 1 / f.HOUR),
        "m2K/W": ("m²K/W", _ONE), "W/m2K": ("W/m²K", _ONE), "1/m2": ("to 1 m²", _ONE),
        "1/K": ("ppm/K", Fraction(1, 1_000_000)),
    }
)  # fmt: skip
_EITHER: Mapping[str, str] = MappingProxyType({"W/m2": "W/m²", "W/mK": "W/m·K", "J/kgK": "J/kg·K"})


@dataclass(frozen=True, slots=True)
class Units:
    """The units of what is written out: `us` or `metric`."""

    system: str = "us"

    def __post_init__(self) -> None:
        """Another system is a bug, not a fault: the job file's reader has refused it."""
        if self.system not in SYSTEMS:
            raise ValueError(f"units are one of {SYSTEMS}, not {self.system!r}")

    @property
    def is_us(self) -> bool:
        """Feet, inches, °F and psf."""
        return self.system == "us"

    def tape(self, ticks: int, step: str = "1/16") -> str:
        """A length [ticks] as read off a tape: `12' 6 1/2"` to the nearest `step` of an inch, or `3823 mm`."""
        if not self.is_us:
            return _millimetres(ticks)
        sixteenths = _steps(ticks, step)
        feet, inches = divmod(abs(sixteenths), 12)
        sign = "-" if sixteenths < 0 else ""
        return f"{sign}{feet}' {mixed(inches)}\"" if feet else f'{sign}{mixed(inches)}"'

    def width(self, ticks: int, step: str = "1/16") -> str:
        """A width [ticks] in inches alone, as sheets are named: `39 3/8"`, or `1000 mm`."""
        if not self.is_us:
            return _millimetres(ticks)
        inches = _steps(ticks, step)
        return f'{"-" if inches < 0 else ""}{mixed(abs(inches))}"'

    def length(self, metres: float) -> str:
        """A length [m]: to 1/16" under 10 m, to 1/2" under 60 m, then whole feet; in mm under a metre, else m."""
        if not math.isfinite(metres):
            return decimals(metres, 0)
        if self.is_us:
            step = "1/16" if abs(metres) < 10 else "1/2" if abs(metres) < 60 else "12"
            return self.tape(nearest(Fraction(metres) * f.TICKS_PER_METRE), step).removesuffix(' 0"')
        if abs(metres) < 1:
            return f"{decimals(metres * 1000, 1)} mm"
        return f"{decimals(metres, 3 if abs(metres) < 100 else 1)} m"

    def thickness(self, metres: float) -> str:
        """A thickness [m], in thousandths of an inch or tenths of a millimetre."""
        if self.is_us:
            return f'{decimals(metres / float(f.INCH), 3)}"'
        return f"{decimals(metres * 1000, 1)} mm"

    def temperature(self, air_c: float) -> str:
        """A temperature [°C], to a tenth of a degree: `50 °F`."""
        if self.is_us:
            return f"{decimals(air_c / float(f.FAHRENHEIT_STEP) + 32, 1)} °F"
        return f"{decimals(air_c, 1)} °C"

    def temperature_difference(self, kelvin: float) -> str:
        """A difference of temperatures [K]: `5 °F` or `2.8 K`."""
        return f"{decimals(kelvin / float(f.FAHRENHEIT_STEP), 1)} °F" if self.is_us else f"{decimals(kelvin, 1)} K"

    def slope(self, rise_over_run: float) -> str:
        """A slope: `1/4 in 12`, to 1/32" where that is true within 1 part in 100; or `2.1 %`."""
        if not self.is_us or not math.isfinite(rise_over_run):
            return f"{decimals(rise_over_run * 100, 2)} %"
        rise = rise_over_run * 12
        taped = Fraction(nearest(Fraction(rise) * 32), 32)
        is_taped = taped > 0 and abs(float(taped) - rise) <= rise / 100
        return f"{mixed(taped) if is_taped else decimals(rise, 3)} in 12"

    def area(self, square_metres: float) -> str:
        """An area [m²]."""
        return self.number_and_unit(square_metres, "m2")

    def squares(self, square_metres: float) -> str:
        """An area [m²] in squares of 100 sf, or in m²."""
        if not self.is_us:
            return self.area(square_metres)
        return f"{decimals(square_metres / float(100 * f.FOOT**2), 1)} squares"

    def volume(self, cubic_metres: float) -> str:
        """A volume [m³] of what is sold by the pail."""
        return self.number_and_unit(cubic_metres, "m3")

    def speed(self, speed_m_s: float) -> str:
        """A speed of the wind [m/s]."""
        return self.number_and_unit(speed_m_s, "m/s")

    def travel(self, speed_m_s: float) -> str:
        """A speed of a tool along a lap [m/s]."""
        return self.number_and_unit(speed_m_s, "m/s tool")

    def pressure(self, pascal: float) -> str:
        """A pressure or area load [Pa]."""
        return self.number_and_unit(pascal, "Pa")

    def rain(self, rain_m_s: float) -> str:
        """A rate of rain [m/s]."""
        return self.number_and_unit(rain_m_s, "m/s rain")

    def flow(self, flow_m3_s: float) -> str:
        """A flow of water [m³/s]."""
        return self.number_and_unit(flow_m3_s, "m3/s")

    def line_load(self, newton_per_metre: float) -> str:
        """A load per length [N/m]."""
        return self.number_and_unit(newton_per_metre, "N/m")

    def mass(self, kilogram: float) -> str:
        """A mass [kg]."""
        return self.number_and_unit(kilogram, "kg")

    def duration(self, seconds: float) -> str:
        """A length of time [s] in one or two of d, h, min, s; the same in both systems."""
        if not math.isfinite(seconds):
            return decimals(seconds, 0)
        whole = nearest(Fraction(seconds))
        if abs(whole) < 120:
            return f"{decimals(seconds, 1)} s"
        sign, whole = ("-" if whole < 0 else ""), abs(whole)
        if whole < 600:
            return sign + _two(whole, 60, "min", "s")
        minutes = nearest(Fraction(whole, 60))
        if minutes < 48 * 60:
            return sign + (f"{minutes} min" if minutes < 120 else _two(minutes, 60, "h", "min"))
        return sign + _two(nearest(Fraction(minutes, 60)), 24, "d", "h")

    def converted(self, value: float, si_unit: str) -> tuple[float, str]:
        """A value in `si_unit` as a number and the unit shown, for columns of a table; lengths in ft or m."""
        table = _US if self.is_us else _METRIC
        if si_unit in ("degC", "°C"):
            return (value / float(f.FAHRENHEIT_STEP) + 32, "°F") if self.is_us else (value, "°C")
        if si_unit == "K":
            return (value / float(f.FAHRENHEIT_STEP), "°F") if self.is_us else (value, "K")
        if si_unit == "m":
            return (value / float(f.FOOT), "ft") if self.is_us else (value, "m")
        name = si_unit.replace("²", "2").replace("³", "3").replace("·", "").replace("m2 K", "m2K")
        if name in table:
            shown, size = table[name]
            return (value / float(size), shown)
        return (value, _EITHER.get(name, si_unit))

    def number_and_unit(self, value: float, si_unit: str) -> str:
        """A value in `si_unit` as text in the job's units; a unit not known is left as it is.

        Beside SI: `degC`, `ticks`, `slope`, `m/s rain` (depth), `m/s tool` (travel along a lap), "" (a bare number).
        """
        own = {
            "m": self.length,
            "degC": self.temperature,
            "°C": self.temperature,
            "K": self.temperature_difference,
            "s": self.duration,
            "slope": self.slope,
        }
        if si_unit in own:
            return own[si_unit](value)
        if si_unit == "ticks":
            return self.tape(nearest(Fraction(value)))
        number, unit = self.converted(value, si_unit)
        return f"{sensible(number)} {unit}".rstrip()


def decimals(value: float, most: int) -> str:
    """A number with at most `most` decimals, a half away from zero, without idle zeros or a negative zero."""
    if not math.isfinite(value):
        return "no number" if math.isnan(value) else "no limit"
    text = format(Decimal(repr(float(value))).quantize(Decimal(1).scaleb(-most), ROUND_HALF_UP), "f")
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def sensible(value: float) -> str:
    """A number to about three figures; from 100 up, to the unit."""
    size = abs(value)
    if size >= 100 or not math.isfinite(value):
        return decimals(value, 0)
    if size >= 10:
        return decimals(value, 1)
    if size >= 1:
        return decimals(value, 2)
    return decimals(value, 3) if size >= 0.1 or size == 0 else f"{value:.3g}"


def _steps(ticks: int, step: str) -> Fraction:
    """Inches, to the nearest step."""
    size = Fraction(step.strip('" '))
    return nearest(Fraction(ticks, TICKS_PER_INCH) / size) * size


def _millimetres(ticks: int) -> str:
    return f"{nearest(Fraction(ticks, TICKS_PER_MM))} mm"


def _two(count: int, per: int, large: str, small: str) -> str:
    whole, rest = divmod(count, per)
    return f"{whole} {large} {rest} {small}" if rest else f"{whole} {large}"
