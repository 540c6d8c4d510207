"""Snow on the roof: what has fallen in the cold, what has melted, and until when it takes to clear it (question 5).

Few weather files tell how much snow lies; all tell rain by the hour, and what falls at or below freezing is snow.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.defaults.table import table
from lapwright.weather.values import Array, Flags


@dataclass(frozen=True, slots=True)
class Snow:
    """Snow on the roof, (hours,): lying, not cleared yet; cleared: it would lie still, had it not been cleared."""

    lying: Flags
    cleared: Flags


def snow_on_roof(rain_mm: Array, air_c: Array, depth_m: Array, daylight: Flags, *, cleared_within_s: float) -> Snow:
    """Where snow lies on the roof until the crew has cleared it, or it has melted.

    Args:
        rain_mm: water that falls in each hour, NaN unknown.  depth_m: snow on the ground as reported, NaN unknown.
        daylight: hours in which a roof can be cleared.
        cleared_within_s: hours of daylight that it takes, counted anew from the last hour in which snow came.

    Snow comes where something falls at or below freezing, and where the reported depth grows; it lies where more
    than a dusting of water is left of it, or the file reports snow on the ground.
    Source: arithmetic; melt by hours over freezing, rows of defaults/heat.csv, each with its own
    Checked: tests/weather/test_snow.py
    """
    rows = table("heat")
    freezing, least_mm = rows["snow_at"].number(), rows["snow_least"].number()
    air_known_c = np.nan_to_num(air_c, nan=freezing)
    frozen_mm = np.where(air_known_c <= freezing, np.nan_to_num(rain_mm), 0.0)
    melt_mm = rows["snow_melt"].number() / 24 * np.maximum(air_known_c - freezing, 0.0)
    # what is left of a store that never goes below nothing, all hours at once
    level = np.cumsum(frozen_mm - melt_mm)
    left_mm = level - np.minimum(np.minimum.accumulate(level), 0.0)
    grown = np.diff(depth_m, prepend=depth_m[:1]) > 0
    lies: Flags = (left_mm > least_mm) | (depth_m > 0)
    comes = (frozen_mm > 0) | grown
    worked_h = np.cumsum(daylight, dtype=np.float64)
    since_h: Array = worked_h - np.maximum.accumulate(np.where(comes, worked_h, 0))
    is_cleared: Flags = since_h * 3600 > cleared_within_s
    return Snow(lies & ~is_cleared, lies & is_cleared)
