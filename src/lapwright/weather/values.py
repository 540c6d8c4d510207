"""Hourly weather as plain arrays."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class WeatherYear:
    """One year of hours on the weather's own calendar.

    start: start of each hour in local standard time, datetime64[m], (hours,), rising, one an hour with no
    hour left out: an hour that the source lacks is there with `absent` true and NaN readings.
    offset_h: hours of local standard time east of UTC.  All readings (hours,): air_c, dew_point_c [°C],
    wind_m_s (at `wind_height` above ground), gust_m_s (NaN: not reported), rain_mm (water, of the hour),
    cloud (0..1, NaN unknown), ghi_w_m2 (global horizontal; NaN: not reported), snow_depth_m (NaN unknown).
    bridged: readings filled across a short gap.  notes: what was found, what was done.
    trace: rain or snow was seen but no depth measured (its rain_mm is 0 or NaN); None: the source does not tell.
    thunder: thunder or lightning was reported; None: the source does not tell.
    """

    name: str
    origin: str
    latitude: float
    longitude: float
    elevation: float
    offset_h: float
    start: NDArray[np.datetime64]
    absent: Flags
    air_c: Array
    dew_point_c: Array
    wind_m_s: Array
    gust_m_s: Array
    rain_mm: Array
    cloud: Array
    ghi_w_m2: Array
    snow_depth_m: Array
    bridged: Flags
    wind_height: float = 10.0
    notes: tuple[str, ...] = field(default=())
    trace: Flags | None = None
    thunder: Flags | None = None


@dataclass(frozen=True, slots=True)
class Forecast:
    """A forecast as it was read: hours like a year's, and what only a forecast has, (hours,) each.

    hours: the readings, rain_mm the amount shared out evenly over its period; hours before the forecast's first and
    those that it leaves out are absent.  issued: when the forecaster last changed it, UTC; None: not said.  humidity,
    rain_chance: 0..1, NaN unknown.  rain_named: rain or snow is named as sure, likely, or over whole areas.
    thunder: thunderstorms are named at all.  snow_new_m: depth of the hour's snow; ice_mm: of freezing rain (NaN: not
    said).  time_zone: of the place, "" where not said; place in words.
    """

    hours: WeatherYear
    issued: dt.datetime | None
    humidity: Array
    rain_chance: Array
    rain_named: Flags
    thunder: Flags
    snow_new_m: Array
    ice_mm: Array
    time_zone: str = ""
    place: str = ""
