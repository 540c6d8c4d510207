"""The hour table: a year of weather turned into states of every operation (question 5)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from lapwright.defaults.values import Rules
from lapwright.heat.surface import Conditions, Surface, SurfaceSetting, surface_temperature
from lapwright.hours.decide import Readings, decide
from lapwright.hours.limits import shown
from lapwright.hours.values import HourTable, Limits
from lapwright.units.write import Units
from lapwright.weather.moist import wetting_point_c
from lapwright.weather.sun import daylight, sun_heights, sun_on_roof
from lapwright.weather.values import Array, Flags, WeatherYear
from lapwright.weather.wet import hours_since
from lapwright.weather.wind import wind_at_height_m_s


@dataclass(frozen=True, slots=True)
class RoofPlace:
    """Where the roof stands.

    latitude, longitude [°]; height of the roof above the ground [m] and exposure (B, C, D), None: not given, and the
    station's wind is taken as it is.
    """

    latitude: float
    longitude: float
    height: float | None = None
    exposure: str | None = None


def make_hour_table(
    weather: WeatherYear,
    *,
    place: RoofPlace,
    limits: Mapping[str, Limits],
    rules: Rules,
    setting: SurfaceSetting,
    units: Units,
    unknown_rain_is_dry: bool = False,
) -> HourTable:
    """States of every hour of the weather for each operation in `limits`.

    Args:
        limits: the roof's operations with their limits; see `limits.limits_by_operation`.
        unknown_rain_is_dry: the user says that hours without a rain reading were dry; else they are shut.

    Holds for: a roof as level as a low slope; see docs/method/hours.md.
    Source: common practice, no source
    """
    heights = sun_heights(weather.start, offset_h=weather.offset_h, latitude=place.latitude, longitude=place.longitude)
    sun = sun_on_roof(weather.ghi_w_m2, weather.cloud, heights.middle_deg)
    roof_wind_m_s = _roof_wind_m_s(weather, place)
    surface = surface_temperature(
        Conditions(
            weather.air_c, weather.dew_point_c, roof_wind_m_s, weather.cloud, sun.clearest_w_m2, sun.darkest_w_m2
        ),
        setting,
    )
    wetting_c = wetting_point_c(weather.dew_point_c)
    falling = _falling(weather)
    wet = falling | (surface.middle_c <= wetting_c)
    readings = _readings(
        weather,
        surface,
        wetting_c=wetting_c,
        wind_m_s=np.maximum(weather.wind_m_s, roof_wind_m_s),
        wet=wet,
        light=daylight(heights),
        rain_unknown=np.isnan(weather.rain_mm) & ~falling & (not unknown_rain_is_dry),
    )
    decision = decide(readings, limits, rules, units)
    return HourTable(
        weather=weather,
        surface_c=surface.middle_c,
        surface_low_c=surface.low_c,
        surface_high_c=surface.high_c,
        sun_w_m2=sun.middle_w_m2,
        frost_point_c=wetting_c,
        daylight=readings.daylight,
        wet=wet,
        measure=decision.measure,
        states=decision.states,
        reason=decision.reason,
        reasons=decision.reasons,
        limits={operation: limits[operation] for operation in shown(limits)},
        roof_wind_m_s=roof_wind_m_s,
        since_wet_h=readings.since_wet_h,
        fresh_base=decision.fresh_base,
    )


def _readings(
    weather: WeatherYear,
    surface: Surface,
    *,
    wetting_c: Array,
    wind_m_s: Array,
    wet: Flags,
    light: Flags,
    rain_unknown: Flags,
) -> Readings:
    """The readings by which hours are judged."""
    no_surface = np.isnan(surface.middle_c) | np.isnan(wetting_c)
    return Readings(
        absent=weather.absent,
        air_c=weather.air_c,
        surface_c=surface.middle_c,
        surface_low_c=surface.low_c,
        surface_high_c=surface.high_c,
        wetting_c=wetting_c,
        wind_m_s=wind_m_s,
        gust_m_s=weather.gust_m_s,
        falling=_falling(weather),
        rain_unknown=rain_unknown,
        snow_lying=weather.snow_depth_m > 0,
        daylight=light,
        since_wet_h=hours_since(wet),
        since_unknown_h=hours_since(wet | rain_unknown | weather.absent | no_surface),
    )


def _roof_wind_m_s(weather: WeatherYear, place: RoofPlace) -> Array:
    """The wind at the roof [m/s]; the station's where the height is not given."""
    if place.height is None:
        return weather.wind_m_s
    return wind_at_height_m_s(
        weather.wind_m_s, station_height=weather.wind_height, height=place.height, exposure=place.exposure
    )


def _falling(weather: WeatherYear) -> Flags:
    """Rain or snow, a trace too."""
    falling: Flags = weather.rain_mm > 0
    return falling if weather.trace is None else falling | weather.trace
