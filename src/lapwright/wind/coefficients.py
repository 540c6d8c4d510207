"""Pressure coefficients of roof and wall zones by effective wind area (Q3).

A curve is flat up to its smaller area, straight in the logarithm of the area between, and flat beyond its larger area.
The tables: `low` for 7-16 and 7-22 and `old` for 7-10, both for a mean roof height to 60 ft; `high` above it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.units.anything import si_scale

ZONES: Mapping[str, tuple[str, ...]] = {
    "low": ("1'", "1", "2", "3"),
    "old": ("1", "2", "3"),
    "high": ("1", "2", "3"),
}


@dataclass(frozen=True, slots=True)
class Curve:
    """Coefficients at the smaller and the larger area [m²], where the numbers come from, what is doubtful in them."""

    small_area: float
    small: float
    large_area: float
    large: float
    origin: str
    note: str

    def at(self, area: float) -> float:
        """The coefficient at an effective wind area [m²].

        Source: ASCE 7-16 figure 30.3-2A, equations on the figure [from memory]
        Checked: tests/published/wind.csv gcp-*
        """
        if area <= self.small_area:
            return self.small
        if area >= self.large_area:
            return self.large
        share = math.log(area / self.small_area) / math.log(self.large_area / self.small_area)
        return self.small + (self.large - self.small) * share


def curve(name: str) -> Curve:
    """The curve of one zone: `low.1'`, `old.2`, `high.3`, `wall_low.5`.

    Raises: KeyError for a name that defaults/wind.csv lacks.
    Source: defaults/wind.csv, origin on each row
    """
    row = table("wind")[f"gcp.{name}"]
    first, last = (part.split(" at ") for part in row.value.split(" to "))
    unit, _ = si_scale(row.unit.removeprefix("1 at "))
    return Curve(float(first[1]) * unit, float(first[0]), float(last[1]) * unit, float(last[0]), row.origin, row.note)


def figure_of(standard: str, height: float) -> str:
    """Which table of coefficients serves a roof of this mean height [m]: `low`, `old` or `high`.

    Source: ASCE 7-16 sections 30.3 and 30.5, 60 ft [from memory]; over 60 ft the low figure's leave to be used up to
        90 ft on wide buildings is not taken.
    """
    if height > default_si("wind", "low_rise_height"):
        return "high"
    return "old" if standard == "ASCE 7-10" else "low"


def gcp(zone: str, *, standard: str, height: float, area: float) -> float:
    """External coefficient of a roof zone (1', 1, 2, 3 or positive) for height [m] and effective wind area [m²].

    Source: ASCE 7-16 figures 30.3-2A and 30.5-1 [from memory]; 7-10 by 2018 IRC Table R301.2(2)
    Checked: tests/published/wind.csv gcp-*
    """
    return curve(f"{figure_of(standard, height)}.{zone}").at(area)


def wall_gcp(zone: str, *, height: float, area: float, is_low_slope: bool = True) -> float:
    """Coefficient of wall zone 4 (field) or 5 (corner), outward, or `positive`; a tenth less under a roof to 10°.

    Source: ASCE 7-16 figures 30.3-1 and 30.5-1 [from memory]
    Checked: tests/published/wind.csv wall-*
    """
    is_high = height > default_si("wind", "low_rise_height")
    value = curve(f"wall_{'high' if is_high else 'low'}.{zone}").at(area)
    return value * default_si("wind", "wall_reduction") if is_low_slope and not is_high else value
