"""Every other dimensioned value, read to SI: temperatures, speeds, pressures, slopes, areas, rates, powers, times."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping
from fractions import Fraction
from types import MappingProxyType

from lapwright.units import factors as f
from lapwright.units.amounts import AMOUNT, amount
from lapwright.units.unread import Unread, tidy

Scales = Mapping[str, Fraction]

_ONE = Fraction(1)
SPEEDS: Scales = MappingProxyType(
    {
        "m/s": _ONE, "mph": f.MILE / f.HOUR, "km/h": Fraction(1000) / f.HOUR, "kmh": Fraction(1000) / f.HOUR,
        "ft/min": f.FOOT / f.MINUTE, "fpm": f.FOOT / f.MINUTE, "ft/s": f.FOOT, "in/s": f.INCH,
        "mm/s": Fraction(1, 1000), "cm/s": Fraction(1, 100), "m/min": 1 / f.MINUTE, "kn": f.KNOT, "kt": f.KNOT,
    }
)  # fmt: skip
PRESSURES: Scales = MappingProxyType(
    {
        "pa": _ONE, "kpa": Fraction(1000), "hpa": Fraction(100), "mbar": Fraction(100), "n/m2": _ONE,
        "kn/m2": Fraction(1000), "psf": f.PSF, "lb/ft2": f.PSF, "psi": f.PSI,
    }
)  # fmt: skip
AREAS: Scales = MappingProxyType(
    {
        "m2": _ONE, "sq m": _ONE, "cm2": Fraction(1, 10_000), "mm2": Fraction(1, 1_000_000), "sf": f.FOOT**2,
        "sq ft": f.FOOT**2, "ft2": f.FOOT**2, "sq in": f.INCH**2, "in2": f.INCH**2,
        "sq": 100 * f.FOOT**2, "square": 100 * f.FOOT**2, "squares": 100 * f.FOOT**2,
    }
)  # fmt: skip
VOLUMES: Scales = MappingProxyType(
    {"m3": _ONE, "l": f.LITRE, "ml": f.LITRE / 1000, "gal": f.GALLON, "cf": f.FOOT**3, "ft3": f.FOOT**3}
)
COVERAGES: Scales = MappingProxyType(
    {
        f"{area}/{volume}": AREAS[area] / VOLUMES[volume]
        for area in ("sf", "sq ft", "ft2", "sq", "m2")
        for volume in ("gal", "l", "m3")
    }
)
RAINS: Scales = MappingProxyType(
    {
        "in/h": f.INCH / f.HOUR, "in/hr": f.INCH / f.HOUR, "iph": f.INCH / f.HOUR,
        "mm/h": Fraction(1, 1000) / f.HOUR, "mm/hr": Fraction(1, 1000) / f.HOUR,
    }
)  # fmt: skip
FLOWS: Scales = MappingProxyType(
    {
        "m3/s": _ONE, "l/s": f.LITRE, "gpm": f.GALLON / f.MINUTE, "gal/min": f.GALLON / f.MINUTE,
        "cfs": f.FOOT**3, "ft3/s": f.FOOT**3,
    }
)  # fmt: skip
POWERS: Scales = MappingProxyType({"w": _ONE, "kw": Fraction(1000)})
VOLTAGES: Scales = MappingProxyType({"v": _ONE})
IRRADIANCES: Scales = MappingProxyType({"w/m2": _ONE, "kw/m2": Fraction(1000), "btu/h ft2": f.BTU / f.HOUR / f.FOOT**2})
DURATIONS: Scales = MappingProxyType(
    {
        "s": _ONE, "sec": _ONE, "min": f.MINUTE, "h": f.HOUR, "hr": f.HOUR, "hour": f.HOUR, "hours": f.HOUR,
        "d": f.DAY, "day": f.DAY, "days": f.DAY,
    }
)  # fmt: skip
MASSES: Scales = MappingProxyType(
    {"kg": _ONE, "g": Fraction(1, 1000), "t": Fraction(1000), "lb": f.POUND, "lbs": f.POUND}
)
LINE_LOADS: Scales = MappingProxyType(
    {
        "n/m": _ONE, "kn/m": Fraction(1000), "plf": f.POUND_FORCE / f.FOOT, "lb/ft": f.POUND_FORCE / f.FOOT,
        "lbf/ft": f.POUND_FORCE / f.FOOT, "lbf/in": f.POUND_FORCE / f.INCH,
    }
)  # fmt: skip
EXPANSIONS: Scales = MappingProxyType(
    {
        "ppm/k": Fraction(1, 1_000_000), "ppm/c": Fraction(1, 1_000_000),
        "ppm/f": Fraction(1, 1_000_000) / f.FAHRENHEIT_STEP,
    }
)  # fmt: skip
_FORCE = re.compile(r"[0-9][0-9 ./]{0,15} ?(?:lbf|N)")
RESISTANCES: Scales = MappingProxyType(
    {"m2k/w": _ONE, "m2 k/w": _ONE, "h ft2 f/btu": f.HOUR * f.FOOT**2 * f.FAHRENHEIT_STEP / f.BTU}
)
CONDUCTANCES: Scales = MappingProxyType(
    {
        "w/m2k": _ONE, "w/m2 k": _ONE, "w/(m2 k)": _ONE, "w/(m2k)": _ONE,
        "btu/h ft2 f": f.BTU / f.HOUR / f.FOOT**2 / f.FAHRENHEIT_STEP,
    }
)  # fmt: skip
KELVINS: Scales = MappingProxyType(
    {unit: step for name, step in (("f", f.FAHRENHEIT_STEP), ("c", _ONE), ("k", _ONE))
     for unit in (name, f"°{name}", f"deg{name}", f"deg {name}")}
)  # fmt: skip

_AMOUNT_UNIT = re.compile(rf"(?P<sign>[+-] ?)?(?P<amount>{AMOUNT})(?: ?(?P<unit>[^0-9 ].*))?")
_IN_RUN = re.compile(rf"(?P<rise>{AMOUNT}) ?(?:\"|in)? ?(?:in|:|on) ?(?P<run>{AMOUNT}) ?\"?", re.IGNORECASE)
_PER_METRE = re.compile(rf"(?P<rise>{AMOUNT}) ?(?P<unit>mm|cm) ?(?:/|per) ?m", re.IGNORECASE)
_PER_FOOT = re.compile(rf"(?P<rise>{AMOUNT}) ?(?:\"|in)? ?(?:/|per) ?(?:ft|foot|')", re.IGNORECASE)
_HOTTEST_C = 3000


def split_unit(plain: str) -> tuple[Fraction, str] | None:
    """A tidy text as its amount and its unit in small letters; None where it has no such form."""
    found = _AMOUNT_UNIT.fullmatch(plain)
    if found is None:
        return None
    value = amount(found["amount"])
    unit = (found["unit"] or "").lower()
    return (-value if found["sign"] and found["sign"][0] == "-" else value, unit)


def scaled(text: str, scales: Scales, *, needs: str, write: str, may_be_negative: bool = False) -> float:
    """A value with one of the units of `scales`, in SI.

    Raises: Unread where the unit is absent or another's, or the value negative.
    """
    read = split_unit(tidy(text, needs, write))
    if read is None or read[1] not in scales:
        raise Unread(needs, write)
    if read[0] < 0 and not may_be_negative:
        raise Unread(f"{needs}, not negative", write)
    return float(read[0] * scales[read[1]])


def temperature_c(text: str) -> float:
    """A temperature [°C]: `50 F`, `10 C`, `50°F`.

    Raises: Unread without a unit, below absolute zero or above 3000 °C.
    Source: definition of the scales, 9/5 and 32
    """
    needs, write = "a temperature with its unit", "50 F or 10 C"
    read = split_unit(tidy(text, needs, write))
    if read is None or read[1] not in KELVINS:
        raise Unread(needs, write)
    value, scale = read[0], read[1][-1]
    if scale == "f":
        value = (value - f.FAHRENHEIT_ICE) * f.FAHRENHEIT_STEP
    elif scale == "k":
        value -= f.KELVIN_ICE
    if not -f.KELVIN_ICE <= value <= _HOTTEST_C:
        raise Unread("a temperature above absolute zero and below 3000 C", write)
    return float(value)


def temperature_difference_k(text: str) -> float:
    """A difference of temperatures [K]: `5 F`, `3 K`, `3 C`."""
    needs, write = "a temperature difference with its unit", "5 F or 3 K"
    return scaled(text, KELVINS, needs=needs, write=write, may_be_negative=True)


def speed_m_s(text: str) -> float:
    """A speed [m/s]."""
    return scaled(text, SPEEDS, needs="a speed with its unit", write="20 mph, 9 m/s or 3 in/s")


def pressure_pa(text: str) -> float:
    """A pressure or area load [Pa]."""
    return scaled(text, PRESSURES, needs="a pressure with its unit", write="45 psf or 2.15 kPa")


def area_m2(text: str) -> float:
    """An area [m²]; a square is 100 sf."""
    return scaled(text, AREAS, needs="an area with its unit", write="2500 sf or 232 m2")


def volume_m3(text: str) -> float:
    """A volume [m³]."""
    return scaled(text, VOLUMES, needs="a volume with its unit", write="5 gal or 20 L")


def coverage_m2_m3(text: str) -> float:
    """Area covered per volume [m²/m³]."""
    return scaled(text, COVERAGES, needs="a coverage with its unit", write="160 sf/gal or 4 m2/L")


def rain_m_s(text: str) -> float:
    """A rate of rain, as depth [m/s]."""
    return scaled(text, RAINS, needs="a rate of rain with its unit", write="3.75 in/h or 95 mm/h")


def power_w(text: str) -> float:
    """A power [W]."""
    return scaled(text, POWERS, needs="a power with its unit", write="1.6 kW or 1600 W")


def voltage_v(text: str) -> float:
    """A voltage [V]."""
    return scaled(text, VOLTAGES, needs="a voltage with its unit", write="120 V")


def irradiance_w_m2(text: str) -> float:
    """Sun on a plane [W/m²]."""
    return scaled(text, IRRADIANCES, needs="an irradiance with its unit", write="250 W/m2")


def duration_s(text: str) -> float:
    """A length of time [s]; a day is 24 h."""
    return scaled(text, DURATIONS, needs="a duration with its unit", write="24 h, 60 min or 3 d")


def mass_kg(text: str) -> float:
    """A mass [kg]."""
    return scaled(text, MASSES, needs="a mass with its unit", write="90 lb or 41 kg")


def line_load_n_m(text: str) -> float:
    """A load per length [N/m]."""
    return scaled(text, LINE_LOADS, needs="a load per length with its unit", write="100 plf or 1.5 kN/m")


def expansion_per_k(text: str) -> float:
    """A coefficient of linear expansion [1/K], in millionths."""
    return scaled(text, EXPANSIONS, needs="an expansion with its unit", write="20 ppm/F or 36 ppm/K")


def force_n(text: str) -> float:
    """A force [N]: `60 lbf`, `270 N`.

    Raises: Unread for anything else; lb alone is a mass, kN reads as knots elsewhere.
    """
    needs, write = "a force with its unit", "60 lbf or 270 N"
    if not _FORCE.fullmatch(text.strip()):
        raise Unread(needs, write)
    return scaled(text, {"lbf": f.POUND_FORCE, "n": _ONE}, needs=needs, write=write)


def resistance_m2k_w(text: str) -> float:
    """Thermal resistance [m²K/W]: `R-20`, `R 20` or `3.5 m2K/W`."""
    needs, write = "a thermal resistance", "R-20 or 3.5 m2K/W"
    plain = tidy(text, needs, write)
    if re.match(r"R[ -]?[0-9.]", plain, re.IGNORECASE):
        plain = plain[1:].lstrip(" -") + " h ft2 f/btu"
    return scaled(plain, RESISTANCES, needs=needs, write=write)


def transmittance_w_m2k(text: str) -> float:
    """Thermal transmittance [W/m²K]."""
    needs, write = "a thermal transmittance with its unit", "0.3 W/m2K or 0.05 Btu/h ft2 F"
    return scaled(text, CONDUCTANCES, needs=needs, write=write)


def percent(text: str) -> float:
    """A percentage as a fraction of one."""
    needs, write = "a percentage", "5 %"
    return scaled(text, {"%": Fraction(1, 100)}, needs=needs, write=write, may_be_negative=True)


def slope(text: str) -> float:
    """A slope, rise over run: `1/4 in 12`, `1/4:12`, `1/4 in/ft`, `20 mm/m`, `1:50`, `2 %` or `1.2 deg`.

    Raises: Unread for a bare number, and for ten in one or steeper.
    """
    needs, write = "a slope with its unit", "1/4 in 12, 2 % or 1.2 deg"
    plain = tidy(text, needs, write)
    value = _rise_over_run(plain)
    if value is None:
        raise Unread(needs, write)
    if value >= 10:
        raise Unread("a slope of a roof, less than 10 in 1", write)
    return value


def _rise_over_run(plain: str) -> float | None:
    per_run = _IN_RUN.fullmatch(plain)
    if per_run is not None:
        run = amount(per_run["run"])
        return float(amount(per_run["rise"]) / run) if run else None
    per_foot = _PER_FOOT.fullmatch(plain)
    if per_foot is not None:
        return float(amount(per_foot["rise"]) / 12)
    per_metre = _PER_METRE.fullmatch(plain)
    if per_metre is not None:
        return float(amount(per_metre["rise"]) / (1000 if per_metre["unit"].lower() == "mm" else 100))
    read = split_unit(plain)
    if read is None or read[0] < 0:
        return None
    if read[1] == "%":
        return float(read[0] / 100)
    if read[1] in ("deg", "°", "degrees") and read[0] < 85:
        return math.tan(math.radians(float(read[0])))
    return None
