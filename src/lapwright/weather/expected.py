"""A forecast made into hours that are judged like a year's (question 5): which hours count as wet.

A forecast gives the *chance* of rain or snow for each hour and an *amount* for several hours at once, shared out
evenly.  An hour counts as wet where the chance reaches the limit, where rain or snow is named as sure or over whole
areas, and where no chance is given but an amount is.  An amount at a lower chance does not make an hour wet: it is the
mean over days that stay dry and days that do not; the chance stands on the sheet.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from lapwright.weather.moist import dew_point_c
from lapwright.weather.values import Array, Flags, Forecast, WeatherYear


def forecast_hours(forecast: Forecast, *, rain_chance: float) -> WeatherYear:
    """The hours of a forecast, to be judged like any other.

    Args:
        rain_chance: chance (0..1) from which on an hour counts as wet.

    Rain is known in an hour where its chance or its amount is.  New snow lies from the hour in which it falls.
    Source: method of our own, docs/method/forecast.md
    Checked: tests/weather/test_expected.py
    """
    year = forecast.hours
    amount_mm = np.fmax(np.fmax(year.rain_mm, forecast.ice_mm), forecast.snow_new_m)  # any of them says that it falls
    chance = forecast.rain_chance
    by_amount = np.isnan(chance) & (amount_mm > 0)
    wet: Flags = ~year.absent & ((chance >= rain_chance) | forecast.rain_named | by_amount)
    rain_mm: Array = np.where(wet, year.rain_mm, np.where(np.isfinite(chance) | (amount_mm == 0), 0.0, np.nan))
    snow_m = np.cumsum(np.where(wet & (forecast.snow_new_m > 0), forecast.snow_new_m, 0.0))
    return replace(
        year,
        dew_point_c=_dew_point_c(year, forecast.humidity),
        rain_mm=rain_mm,
        snow_depth_m=np.where(snow_m > 0, snow_m, np.nan),
        trace=wet,
        thunder=thunder_due(forecast, rain_chance=rain_chance),
    )


def thunder_due(forecast: Forecast, *, rain_chance: float) -> Flags:
    """Hours in which thunderstorms are named and rain counts as due, (hours,).

    Source: method of our own, docs/method/forecast.md
    Checked: tests/weather/test_expected.py
    """
    due = (forecast.rain_chance >= rain_chance) | forecast.rain_named | np.isnan(forecast.rain_chance)
    return forecast.thunder & due


def _dew_point_c(year: WeatherYear, humidity: Array) -> Array:
    """The dew point as given, else from the humidity."""
    with np.errstate(invalid="ignore"):
        from_humidity = np.minimum(dew_point_c(year.air_c, humidity), year.air_c)
    return np.where(np.isnan(year.dew_point_c), from_humidity, year.dew_point_c)
