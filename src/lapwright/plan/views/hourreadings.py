"""What the hours were judged by: air, dew point, wind, rain, surface with its spread, in the job's units."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import numpy as np

from lapwright.plan.colddays import roof_wind
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.hourswhat import look
from lapwright.plan.views.registry import Json, Tell
from lapwright.units.factors import INCH
from lapwright.units.write import Units
from lapwright.weather.values import Array

# reading -> its words, unit as `Units.converted` knows it, decimals
READINGS = {
    "air": ("Air", "degC", 0),
    "dew": ("Dew point", "degC", 0),
    "surface": ("Surface", "degC", 0),
    "low": ("Surface, coldest", "degC", 0),
    "high": ("Surface, warmest", "degC", 0),
    "wind": ("Wind at the roof", "m/s", 0),
    "gust": ("Gusts", "m/s", 0),
}
MM_AN_INCH = float(INCH * 1000)


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """Readings of every hour under the option `year`; null where nothing was reported.

    Raises: Refused with every fault
    """
    looked = look(stages, ask, {"year": options.get("year", "")})
    if looked.table is None:
        return {"readings": {}}
    table, units = looked.table, looked.units
    values = {
        "air": table.weather.air_c,
        "dew": table.weather.dew_point_c,
        "surface": table.surface_c,
        "low": table.surface_low_c,
        "high": table.surface_high_c,
        "wind": roof_wind(table),
        "gust": table.weather.gust_m_s,
    }
    found = {
        name: reading(words, values[name], unit, units, places) for name, (words, unit, places) in READINGS.items()
    }
    return {"readings": {**found, "rain": rain(table.weather.rain_mm, units)}}


def reading(words: str, values: Array, unit: str, units: Units, places: int) -> Json:
    """A row of readings: its name, its unit, its numbers."""
    return {"words": words, "unit": units.converted(0.0, unit)[1], "at": rounded(values, unit, units, places)}


def rounded(values: Array, unit: str, units: Units, places: int) -> list[Any]:
    """Numbers in the unit shown; None for none."""
    zero, one = (units.converted(step, unit)[0] for step in (0.0, 1.0))
    shown = np.round(values * (one - zero) + zero, places) + 0.0  # never a negative zero
    kind: type[int] | type[float] = int if places == 0 else float
    return [kind(value) if np.isfinite(value) else None for value in shown]


def rain(values_mm: Array, units: Units) -> Json:
    """Rain and melted snow of each hour."""
    size, unit, places = (MM_AN_INCH, "in", 2) if units.is_us else (1.0, "mm", 1)
    shown = np.round(values_mm / size, places)
    return {
        "words": "Rain in the hour",
        "unit": unit,
        "at": [float(value) if np.isfinite(value) else None for value in shown],
    }
