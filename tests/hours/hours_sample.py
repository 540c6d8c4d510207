"""Hours that are fit for everything, changed where a test says."""

from dataclasses import replace
from typing import Any

import numpy as np

from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.hours.readings import Readings
from lapwright.hours.values import Limits
from lapwright.weather.values import WeatherYear

BASE = Limits(10.0, -20 / 3, None)
CAP = Limits(10.0, None, -20 / 3)
MATERIAL = Limits(4.0, None, None)
LIMITS = {
    "primer": MATERIAL,
    "base": BASE,
    "cap": CAP,
    "side_lap": CAP,
    "end_lap": CAP,
    "flashing": CAP,
    "mastic": MATERIAL,
    "edge_metal": MATERIAL,
}


def rules(**changed: Any) -> Rules:
    """The default rules, changed where said."""
    return replace(make_rules({}), **changed)


def fit(hours: int = 1, **changed: Any) -> Readings:
    """Hours at 15 °C, dry, calm and light, nothing known of what follows; each change is a value or one each hour."""
    plain: dict[str, Any] = {
        "absent": False,
        "air_c": 15.0,
        "surface_c": 15.0,
        "surface_low_c": 15.0,
        "surface_high_c": 15.0,
        "wetting_c": 0.0,
        "wind_m_s": 2.0,
        "gust_m_s": np.nan,
        "falling": False,
        "rain_unknown": False,
        "snow_lying": False,
        "daylight": True,
        "since_wet_h": np.inf,
        "since_unknown_h": np.inf,
        "snow_cleared": False,
        "film_mm": 0.0,
        "film_low_mm": 0.0,
        "film_high_mm": 0.0,
        "thunder": False,
        "since_thunder_h": np.inf,
        "until_falling_h": np.inf,
        "air_then_c": np.nan,
        "surface_then_c": np.nan,
        "chill_c": 15.0,
        "work_min": np.inf,
    }
    return Readings(**{name: np.broadcast_to(value, (hours,)).copy() for name, value in (plain | changed).items()})


def weather(hours: int = 48, **changed: Any) -> WeatherYear:
    """A WeatherYear of June hours at 15 °C, half clouded, dry; each change is a value or one for each hour."""
    plain: dict[str, Any] = {
        "air_c": 15.0,
        "dew_point_c": 5.0,
        "wind_m_s": 3.0,
        "gust_m_s": np.nan,
        "rain_mm": 0.0,
        "cloud": 0.5,
        "ghi_w_m2": np.nan,
        "snow_depth_m": np.nan,
        "absent": False,
        "bridged": False,
        "trace": False,
    }
    start = np.datetime64("2017-06-20T00:00", "m") + np.arange(hours) * np.timedelta64(60, "m")
    arrays = {name: np.broadcast_to(value, (hours,)).copy() for name, value in (plain | changed).items()}
    return WeatherYear(
        name="t", origin="made", latitude=40.0, longitude=-90.0, elevation=200.0, offset_h=-6.0, start=start, **arrays
    )
