"""The sun over a level roof: how high it stands, whether it is light, and what reaches the roof (question 5).

A low-slope roof is taken as level: at 1/4 in 12 the tilt is 1.2°, which moves the sun's share by about 2 % of the
direct part at 45°, far less than the spread of the surface models.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.weather.values import Array, Flags

_DAY_S = 86400.0
_PARALLAX_DEG = 8.794 / 3600  # of the sun at the horizon (Reda and Andreas 2004 [from memory])
_STANDARD_AIR = {"pressure": 1013.25, "temp": 12.0, "atmos_refract": 0.5667, "delta_t": 67.0}


@dataclass(frozen=True, slots=True)
class SunHeights:
    """True height of the sun's centre above the horizon [°], (hours,): begin, middle and end of each hour."""

    begin_deg: Array
    middle_deg: Array
    end_deg: Array


def sun_heights(start: NDArray[np.datetime64], *, offset_h: float, latitude: float, longitude: float) -> SunHeights:
    """Height of the sun over hours that follow one another without a gap.

    Args:
        start: begin of each hour in local standard time, (hours,).
        offset_h: hours of local standard time east of UTC.
        latitude, longitude: [°], north and east positive.

    The sun's declination and hour angle are computed once a day and lie between by a curve through four days; the rest
    is geometry, and the sun's parallax.
    Source: Reda and Andreas 2004, solar position algorithm, as pvlib has it
    Checked: tests/published/weather.csv sun-*, tests/published/live_sun.py
    """
    begin = start[0].astype("datetime64[s]").astype(np.float64) - offset_h * 3600
    utc_s = begin + np.arange(2 * len(start) + 1) * 1800.0
    day = np.floor(utc_s[0] / _DAY_S)
    declination, ahead = _by_day((day + np.arange(-1, utc_s[-1] // _DAY_S - day + 3)) * _DAY_S)
    at = utc_s / _DAY_S - day
    hour_angle = 2 * np.pi * (at - 0.5) + _between(ahead, at) + np.radians(longitude)
    declined, north = _between(declination, at), np.radians(latitude)
    sine = np.sin(north) * np.sin(declined) + np.cos(north) * np.cos(declined) * np.cos(hour_angle)
    lowered_deg = _PARALLAX_DEG * np.sqrt(np.maximum(1 - sine * sine, 0.0))
    heights: Array = np.degrees(np.arcsin(np.clip(sine, -1, 1))) - lowered_deg
    return SunHeights(heights[:-1:2], heights[1::2], heights[2::2])


def _by_day(midnights_s: Array) -> tuple[Array, Array]:
    """The sun's declination, and how far its hour angle at Greenwich is ahead of the clock [rad], at each midnight UTC.

    The point is the one on the equator over which the sun stands about then, so that its distance does not count.
    """
    from pvlib import spa  # over a second to import, and only a plan with weather needs it

    sun = spa.solar_position_numpy(midnights_s, 0.0, 180.0, elev=0.0, numthreads=1, **_STANDARD_AIR)
    height, azimuth = np.radians(np.asarray(sun[3])), np.radians(np.asarray(sun[4]))
    east, north = np.cos(height) * np.sin(azimuth), np.cos(height) * np.cos(azimuth)
    return np.arcsin(north), np.arctan2(-east, np.sin(height))


def _between(daily: Array, at: Array) -> Array:
    """Values of every day between, by the cubic through four of them; `at`: days since the second value."""
    day = np.minimum(at.astype(np.intp), len(daily) - 4)
    x = at - day
    before, here, after, later = (daily[day + k] for k in range(4))
    value: Array = (x + 1) * (x - 2) * ((x - 1) * here - x * after) / 2 + x * (x - 1) * (
        (x + 1) * later - (x - 2) * before
    ) / 6
    return value


def daylight(heights: SunHeights) -> Flags:
    """True where the sun is up over the whole hour, (hours,).

    Source: sunrise as the US Naval Observatory defines it, upper limb with refraction (centre at -0.833°)
    Checked: tests/weather/test_sun.py
    """
    rise = table("heat")["sunrise_height"].number()
    light: Flags = np.minimum(np.minimum(heights.begin_deg, heights.end_deg), heights.middle_deg) > rise
    return light


def clear_sun_w_m2(height_deg: Array) -> Array:
    """Sun on a level roof under a clear sky [W/m²] from the sun's height [°]; any shape; never below 0.

    Source: Kasten and Czeplak 1980, equation for cloudless skies (as restated by others)
    Checked: tests/published/weather.csv clear-*
    """
    rows = table("heat")
    sine = np.sin(np.radians(height_deg))
    sun: Array = np.maximum(0.0, rows["clear_sun_slope"].number() * sine - rows["clear_sun_lost"].number())
    return sun


def under_cloud_w_m2(clear_w_m2: Array, cloud: Array) -> Array:
    """Sun that a cover of cloud (0..1) lets through [W/m²]; any shape.

    Source: Kasten and Czeplak 1980, 1 - 0.75 (N/8)^3.4 (as restated by others)
    Checked: tests/published/weather.csv cloud-*
    """
    rows = table("heat")
    sun: Array = clear_w_m2 * (1 - rows["cloud_sun_share"].number() * cloud ** rows["cloud_sun_power"].number())
    return sun


@dataclass(frozen=True, slots=True)
class SunOnRoof:
    """Sun on the roof [W/m²], (hours,): under the clearest and the darkest sky that the reading allows.

    Both are the same where the sun was reported or the cloud is known.
    """

    clearest_w_m2: Array
    darkest_w_m2: Array

    @property
    def middle_w_m2(self) -> Array:
        """Half-way between the two."""
        return (self.clearest_w_m2 + self.darkest_w_m2) / 2


def sun_on_roof(reported_w_m2: Array, cloud: Array, height_deg: Array) -> SunOnRoof:
    """Sun on the roof where it was reported, else from the sun's height and the cloud, else from clear to overcast.

    Args:
        reported_w_m2: global horizontal [W/m²], NaN where not reported, (hours,).
        cloud: 0..1, NaN where unknown, (hours,).
        height_deg: sun in the middle of the hour [°], (hours,).

    Source: Kasten and Czeplak 1980 (as restated by others)
    Checked: tests/weather/test_sun.py
    """
    clear = clear_sun_w_m2(height_deg)
    is_reported = np.isfinite(reported_w_m2)
    least, most = np.where(np.isfinite(cloud), cloud, 0.0), np.where(np.isfinite(cloud), cloud, 1.0)
    return SunOnRoof(
        np.where(is_reported, reported_w_m2, under_cloud_w_m2(clear, least)),
        np.where(is_reported, reported_w_m2, under_cloud_w_m2(clear, most)),
    )
