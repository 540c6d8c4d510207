"""Units as a forecast service writes them: coded (`wmoUnit:km_h-1`), or in words (`5 to 10 mph`)."""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from fractions import Fraction

from lapwright.intake.forecast_reply import number_of
from lapwright.units import factors as f
from lapwright.units.quantities import SPEEDS

Scale = Callable[[float], float]
WIND_WORDS = re.compile(r"(?:up to )?(\d{1,3})(?: (?:to|-) (\d{1,3}))? (mph|km/h|kt|m/s)", re.IGNORECASE)
# the code behind the colon -> the same unit as `units` spells it
_SPEED_CODES = {"km_h-1": "km/h", "m_s-1": "m/s", "kt": "kt", "kn": "kn", "mi_h-1": "mph"}
_DEPTH_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0}
_CELSIUS, _FAHRENHEIT = (Fraction(0), Fraction(1)), (f.FAHRENHEIT_ICE, f.FAHRENHEIT_STEP)
_TEMPERATURES = {
    "degC": _CELSIUS,
    "C": _CELSIUS,
    "degF": _FAHRENHEIT,
    "F": _FAHRENHEIT,
    "K": (f.KELVIN_ICE, Fraction(1)),
}


def code_of(unit: object) -> str:
    """The code of a unit without the name of its list: `degC` of `wmoUnit:degC`."""
    return unit.rpartition(":")[2] if isinstance(unit, str) else ""


def temperature_scale(unit: object) -> Scale | None:
    """To °C from a coded unit; None where the unit is another's."""
    zero_and_step = _TEMPERATURES.get(code_of(unit))
    if zero_and_step is None:
        return None
    zero, step = zero_and_step
    # exact, so that a whole degree of one scale meets a limit typed in whole degrees of it
    return lambda value: float((Fraction(value) - zero) * step) if math.isfinite(value) else math.nan


def speed_scale(unit: object) -> Scale | None:
    """To m/s from a coded unit."""
    name = _SPEED_CODES.get(code_of(unit))
    if name is None:
        return None
    size = float(SPEEDS[name])
    return lambda value: size * value


def depth_scale(unit: object) -> Scale | None:
    """To millimetres from a coded unit."""
    size = _DEPTH_MM.get(code_of(unit))
    return None if size is None else lambda value: size * value


def share_scale(unit: object) -> Scale | None:
    """To a share of one from per cent; a value outside 0 to 100 % is none."""
    if code_of(unit) != "percent":
        return None
    return lambda value: value / 100.0 if 0.0 <= value <= 100.0 else math.nan


def wind_m_s(value: object) -> float:
    """Wind [m/s] from words (`5 to 10 mph`: the higher), or from a value with its unit; NaN where it is neither.

    Of a range the higher end is taken: it shuts sooner, and cools a roll sooner.
    """
    if isinstance(value, str):
        found = WIND_WORDS.fullmatch(" ".join(value.split()))
        if found is None:
            return math.nan
        return max(float(found[1]), float(found[2] or 0)) * float(SPEEDS[found[3].lower()])
    if isinstance(value, dict):
        scale = speed_scale(value.get("unitCode"))
        highest = number_of(value.get("maxValue"))
        read = highest if math.isfinite(highest) else number_of(value)
        return math.nan if scale is None else scale(read)
    return math.nan
