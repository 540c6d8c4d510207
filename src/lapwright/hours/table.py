"""The hour table: hours of weather turned into states of every operation (question 5)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import numpy as np

from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.heat.buildup import BuildUp, bare_sheet
from lapwright.heat.surface import Conditions, SurfaceSetting
from lapwright.heat.year import SurfaceYear, Water, surface_year
from lapwright.hours.decide import decide, dry_mm
from lapwright.hours.limits import shown
from lapwright.hours.readings import Readings
from lapwright.hours.values import HourTable, Limits
from lapwright.units.write import Units
from lapwright.weather.chill import warm_up_work_min, wind_chill_c
from lapwright.weather.moist import wetting_point_c
from lapwright.weather.snow import snow_on_roof
from lapwright.weather.sun import SunHeights, SunOnRoof, daylight, sun_heights, sun_on_roof
from lapwright.weather.values import Array, Flags, WeatherYear
from lapwright.weather.wet import hours_since, hours_until, reading_after
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


@dataclass(frozen=True, slots=True)
class _Sky:
    """Over the roof, (hours,): sun, light, wind [m/s], rain or snow, and where nothing tells whether it rains."""

    heights: SunHeights
    sun: SunOnRoof
    light: Flags
    wind_m_s: Array
    falling: Flags
    rain_unknown: Flags


def make_hour_table(
    weather: WeatherYear,
    *,
    place: RoofPlace,
    limits: Mapping[str, Limits],
    rules: Rules,
    setting: SurfaceSetting,
    units: Units,
    unknown_rain_is_dry: bool = False,
    built: BuildUp | None = None,
) -> HourTable:
    """States of every hour of the weather for each operation in `limits`.

    Args:
        limits: the roof's operations with their limits; see `limits.limits_by_operation`.
        unknown_rain_is_dry: the user says that hours without a rain reading were dry; else they are shut.
        built: what the surface lies on; None: a sheet with nothing behind it but the setting's `u_w_m2k`.

    Holds for: a roof as level as a low slope; see docs/method/hours.md.
    Source: common practice, no source
    """
    sky = _sky(weather, place, unknown_rain_is_dry=unknown_rain_is_dry)
    snow = snow_on_roof(
        weather.rain_mm, weather.air_c, weather.snow_depth_m, sky.light, cleared_within_s=rules.snow_cleared_within_s
    )
    sun = sky.sun
    found = surface_year(
        Conditions(
            weather.air_c, weather.dew_point_c, sky.wind_m_s, weather.cloud, sun.clearest_w_m2, sun.darkest_w_m2
        ),
        Water(_rain_on_surface_mm(weather), snow.lying),
        setting,
        bare_sheet(setting.u_w_m2k) if built is None else built,
    )
    wetting_c = wetting_point_c(weather.dew_point_c)
    getting_wet = sky.falling | (found.surface.middle_c <= wetting_c)
    wet = getting_wet | (found.film_mm > dry_mm())
    readings = Readings(
        **_of_weather(weather, sky, rules),
        **_of_surface(found, wetting_c, rules),
        snow_lying=snow.lying,
        snow_cleared=snow.cleared,
        since_wet_h=hours_since(wet),
        since_unknown_h=hours_since(_may_be_wet(weather, sky, found, wet)),
    )
    decision = decide(readings, limits, rules, units)
    return HourTable(
        weather=weather,
        surface_c=found.surface.middle_c,
        surface_low_c=found.surface.low_c,
        surface_high_c=found.surface.high_c,
        sun_w_m2=sun.middle_w_m2,
        frost_point_c=wetting_c,
        daylight=readings.daylight,
        wet=wet,
        measure=decision.measure,
        states=decision.states,
        reason=decision.reason,
        reasons=decision.reasons,
        limits={operation: limits[operation] for operation in shown(limits)},
        roof_wind_m_s=sky.wind_m_s,
        since_wet_h=readings.since_wet_h,
        fresh_base=decision.fresh_base,
        dried=decision.dried,
        dried_reason=decision.dried_reason,
        getting_wet=getting_wet,
        readings=readings,
        sun_heights=sky.heights,
    )


def rejudged(table: HourTable, rules: Rules, units: Units) -> HourTable:
    """The same hours judged by other rules; nothing of the weather or the surface is reckoned anew.

    Args:
        rules: they differ from those of the table in none of `roll_within` and `snow_cleared_within`, which its
            readings hold.

    Raises: ValueError where the table was made without its readings (a bug).
    Source: arithmetic
    """
    if table.readings is None:
        raise ValueError("the hour table holds no readings")
    decision = decide(table.readings, table.limits, rules, units)
    return replace(
        table,
        measure=decision.measure,
        states=decision.states,
        reason=decision.reason,
        reasons=decision.reasons,
        fresh_base=decision.fresh_base,
        dried=decision.dried,
        dried_reason=decision.dried_reason,
    )


def _sky(weather: WeatherYear, place: RoofPlace, *, unknown_rain_is_dry: bool) -> _Sky:
    """Sun, light, wind and rain over the roof."""
    heights = sun_heights(weather.start, offset_h=weather.offset_h, latitude=place.latitude, longitude=place.longitude)
    falling = _falling(weather)
    return _Sky(
        heights,
        sun_on_roof(weather.ghi_w_m2, weather.cloud, heights.middle_deg),
        daylight(heights),
        _roof_wind_m_s(weather, place),
        falling,
        np.isnan(weather.rain_mm) & ~falling & (not unknown_rain_is_dry),
    )


def _of_weather(weather: WeatherYear, sky: _Sky, rules: Rules) -> dict[str, Any]:
    """The readings that the weather gives."""
    thunder = np.zeros(len(weather.start), dtype=bool) if weather.thunder is None else weather.thunder
    return {
        "absent": weather.absent,
        "air_c": weather.air_c,
        "air_then_c": reading_after(weather.air_c, rules.roll_within_s / 3600),
        "wind_m_s": np.maximum(weather.wind_m_s, sky.wind_m_s),
        "gust_m_s": weather.gust_m_s,
        "falling": sky.falling,
        "rain_unknown": sky.rain_unknown,
        "daylight": sky.light,
        "thunder": thunder,
        "since_thunder_h": hours_since(thunder),
        "until_falling_h": hours_until(sky.falling),
        "chill_c": wind_chill_c(weather.air_c, weather.wind_m_s),
        "work_min": warm_up_work_min(weather.air_c, weather.wind_m_s),
    }


def _of_surface(found: SurfaceYear, wetting_c: Array, rules: Rules) -> dict[str, Any]:
    """The readings that the balance of the surface gives."""
    return {
        "surface_c": found.surface.middle_c,
        "surface_low_c": found.surface.low_c,
        "surface_high_c": found.surface.high_c,
        "surface_then_c": reading_after(found.surface.middle_c, rules.roll_within_s / 3600),
        "wetting_c": wetting_c,
        "film_mm": found.film_mm,
        "film_low_mm": found.film_low_mm,
        "film_high_mm": found.film_high_mm,
    }


def _may_be_wet(weather: WeatherYear, sky: _Sky, found: SurfaceYear, wet: Flags) -> Flags:
    """Hours in which the surface is wet, or nothing tells that it was not."""
    no_surface = np.isnan(found.surface.middle_c) | np.isnan(weather.dew_point_c)
    return wet | sky.rain_unknown | weather.absent | no_surface


def _rain_on_surface_mm(weather: WeatherYear) -> Array:
    """Water that comes on the surface in each hour [mm]: as reported, a little for a trace, none where not known."""
    known_mm = np.nan_to_num(weather.rain_mm)
    if weather.trace is None:
        return known_mm
    return np.where(weather.trace, np.maximum(known_mm, table("heat")["trace_film"].number()), known_mm)


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
