"""Any one dimensioned value to SI, by its unit alone; for tests and tools that do not know what they hold."""

from __future__ import annotations

from fractions import Fraction
from types import MappingProxyType

from lapwright.units import factors as f
from lapwright.units import quantities as q
from lapwright.units.lengths import length_exact
from lapwright.units.unread import Unread, tidy

NEEDS = "a value with its unit"
WRITE = "12' 6 1/2\", 50 F, 45 psf or 24 h"

# Later tables give way: `kn` is a knot, though it is also a kilonewton.
_TABLES = (
    q.SPEEDS, q.PRESSURES, q.AREAS, q.VOLUMES, q.COVERAGES, q.RAINS, q.FLOWS, q.POWERS, q.VOLTAGES, q.IRRADIANCES,
    q.DURATIONS, q.MASSES, q.LINE_LOADS, q.EXPANSIONS, q.RESISTANCES, q.CONDUCTANCES,
)  # fmt: skip
SCALES = MappingProxyType(
    {unit: scale for table in reversed(_TABLES) for unit, scale in table.items()}
    | {
        "mm": Fraction(1, 1000), "cm": Fraction(1, 100), "m": Fraction(1), "km": Fraction(1000),
        "in": f.INCH, '"': f.INCH, "ft": f.FOOT, "'": f.FOOT, "ftus": f.SURVEY_FOOT, "mi": f.MILE,
        "%": Fraction(1, 100), "lbf": f.POUND_FORCE, "n": Fraction(1), "a": Fraction(1), "ohm": Fraction(1),
        "j": Fraction(1), "kj": Fraction(1000), "btu": f.BTU, "kg/m3": Fraction(1), "pcf": f.POUND / f.FOOT**3,
        "w/mk": Fraction(1), "w/m k": Fraction(1), "j/kgk": Fraction(1), "j/kg k": Fraction(1),
        "kj/kg": Fraction(1000), "j/kg": Fraction(1), "kg/m2": Fraction(1),
    }
)  # fmt: skip


def quantity_si(text: str) -> float:
    """Any one dimensioned value in SI; temperatures in °C, slopes as rise over run.

    Raises: Unread where the unit is not known.
    """
    plain = tidy(text, NEEDS, WRITE)
    for reader in (_length, _temperature, _scaled, _slope):
        value = reader(plain)
        if value is not None:
            return value
    raise Unread(NEEDS, WRITE)


def si_scale(unit: str) -> tuple[float, float]:
    """(scale, offset) that bring a value in `unit` to SI: value * scale + offset; temperatures to °C.

    Raises: Unread where the unit is not known.
    """
    name = tidy(unit, NEEDS, WRITE).lower()
    if name in q.KELVINS:
        offset = {"f": -f.FAHRENHEIT_ICE * f.FAHRENHEIT_STEP, "c": Fraction(0), "k": -f.KELVIN_ICE}[name[-1]]
        return (float(q.KELVINS[name]), float(offset))
    if name not in SCALES:
        raise Unread("a known unit", "degF, psf, m, m/s or min")
    return (float(SCALES[name]), 0.0)


def _length(plain: str) -> float | None:
    try:
        return float(length_exact(plain))
    except Unread:
        return None


def _temperature(plain: str) -> float | None:
    read = q.split_unit(plain)
    return q.temperature_c(plain) if read is not None and read[1] in q.KELVINS else None


def _scaled(plain: str) -> float | None:
    read = q.split_unit(plain)
    return float(read[0] * SCALES[read[1]]) if read is not None and read[1] in SCALES else None


def _slope(plain: str) -> float | None:
    try:
        return q.slope(plain)
    except Unread:
        return None
