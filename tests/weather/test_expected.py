"""Which hours of a forecast count as wet."""

import datetime as dt
from dataclasses import replace

import numpy as np
import pytest

from lapwright.weather.expected import forecast_hours, thunder_due
from lapwright.weather.values import Forecast, WeatherYear

NAN = float("nan")


def forecast(
    chance: list[float], amount_mm: list[float], *, named: list[bool] | None = None, snow_m: list[float] | None = None
) -> Forecast:
    """A forecast of mild hours with what falls in them."""
    hours = len(chance)
    flat = np.zeros(hours)
    year = WeatherYear(
        name="forecast",
        origin="made",
        latitude=36.0,
        longitude=-80.0,
        elevation=0.0,
        offset_h=-5.0,
        start=np.datetime64("2027-01-11T00:00", "m") + np.arange(hours) * np.timedelta64(60, "m"),
        absent=np.zeros(hours, dtype=bool),
        air_c=flat + 5,
        dew_point_c=flat + np.nan,
        wind_m_s=flat,
        gust_m_s=flat,
        rain_mm=np.array(amount_mm, dtype=float),
        cloud=flat,
        ghi_w_m2=flat + np.nan,
        snow_depth_m=flat + np.nan,
        bridged=np.zeros(hours, dtype=bool),
    )
    return Forecast(
        hours=year,
        issued=dt.datetime(2027, 1, 10, tzinfo=dt.UTC),
        humidity=flat + 0.5,
        rain_chance=np.array(chance, dtype=float),
        rain_named=np.array(named or [False] * hours),
        thunder=np.zeros(hours, dtype=bool),
        snow_new_m=np.array(snow_m or [0.0] * hours),
        ice_mm=flat,
    )


def wet(of: Forecast) -> list[str]:
    """Each hour in a word."""
    year = forecast_hours(of, rain_chance=0.3)
    assert year.trace is not None
    falling = (year.rain_mm > 0) | year.trace
    return [
        "wet" if one else "unknown" if np.isnan(rain) else "dry"
        for one, rain in zip(falling, year.rain_mm, strict=True)
    ]


@pytest.mark.parametrize(
    ("chance", "amount_mm", "expected"),
    [
        (0.29, 0.5, "dry"),
        (0.30, 0.5, "wet"),
        (0.30, 0.0, "wet"),
        (0.30, NAN, "wet"),
        (0.00, 0.0, "dry"),
        (0.10, NAN, "dry"),
        (NAN, 0.5, "wet"),
        (NAN, 0.0, "dry"),
        (NAN, NAN, "unknown"),
    ],
)
def test_chance_decides_and_where_there_is_none_the_amount(chance: float, amount_mm: float, expected: str) -> None:
    """An hour is wet from the chance's limit on; without a chance, with any amount; with neither it is not known."""
    of = replace(forecast([chance], [amount_mm]), snow_new_m=np.array([NAN]), ice_mm=np.array([NAN]))
    assert wet(of) == [expected]


def test_named_rain_is_wet_at_any_chance() -> None:
    """Rain that is named as sure or over whole areas needs no number."""
    assert wet(forecast([0.1, 0.1], [0.0, 0.0], named=[True, False])) == ["wet", "dry"]


def test_ice_and_snow_are_amounts_too() -> None:
    """Snow without a chance and without water is still snow."""
    assert wet(forecast([NAN, NAN], [0.0, 0.0], snow_m=[0.01, 0.0])) == ["wet", "dry"]


def test_new_snow_lies_from_the_hour_it_falls() -> None:
    """It adds up and stays; before it nobody says whether snow lies."""
    year = forecast_hours(forecast([0, 0.9, 0.9, 0], [0, 1, 1, 0], snow_m=[0, 0.01, 0.02, 0]), rain_chance=0.3)
    assert np.isnan(year.snow_depth_m[0])
    assert year.snow_depth_m[1:].tolist() == pytest.approx([0.01, 0.03, 0.03])


def test_a_dew_point_that_is_not_given_comes_from_the_humidity() -> None:
    """5 °C and 50 % humidity: a dew point of -4.6 °C over water, by tables of the dew point [from memory]."""
    year = forecast_hours(forecast([0], [0]), rain_chance=0.3)
    assert year.dew_point_c[0] == pytest.approx(-4.6, abs=0.1)


def test_thunder_counts_where_rain_is_due() -> None:
    """A slight chance of a thunderstorm is told on the sheet but shuts nothing."""
    of = replace(forecast([0.2, 0.3, NAN], [0, 0, 0]), thunder=np.array([True, True, True]))
    assert thunder_due(of, rain_chance=0.3).tolist() == [False, True, True]
