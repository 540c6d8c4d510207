"""Clock hours of a forecast's dates: summer time, hours lost and doubled, 29 February, what the forecast lacks."""

import datetime as dt
from zoneinfo import ZoneInfo

import numpy as np

from lapwright.crew.clockhours import clock_hours
from lapwright.weather.values import WeatherYear

NEW_YORK = ZoneInfo("America/New_York")


def hours_from(start: str, count: int) -> WeatherYear:
    """Hours of standard time of New York from a moment on, without readings."""
    nothing = np.full(count, np.nan)
    none = np.zeros(count, dtype=bool)
    return WeatherYear(
        name="forecast",
        origin="made",
        latitude=40.0,
        longitude=-75.0,
        elevation=0.0,
        offset_h=-5.0,
        start=np.datetime64(start, "m") + np.arange(count) * np.timedelta64(60, "m"),
        absent=none,
        bridged=none,
        **dict.fromkeys(
            ("air_c", "dew_point_c", "wind_m_s", "gust_m_s", "rain_mm", "cloud", "ghi_w_m2", "snow_depth_m"), nothing
        ),
    )


def test_in_winter_the_clock_keeps_standard_time() -> None:
    """From 22:00 of the evening before: midnight is the third hour."""
    day = clock_hours(hours_from("2027-01-10T22:00", 48), NEW_YORK, dt.date(2027, 1, 11))
    assert day == tuple(range(2, 26))


def test_in_summer_the_clock_is_an_hour_ahead() -> None:
    """Midnight of summer time is 23:00 of standard time on the day before."""
    day = clock_hours(hours_from("2027-07-04T22:00", 48), NEW_YORK, dt.date(2027, 7, 5))
    assert day == tuple(range(1, 25))


def test_the_hour_that_is_skipped_is_none() -> None:
    """14 March 2027: 02:00 to 03:00 is not on the clock, and the day has 23 hours."""
    day = clock_hours(hours_from("2027-03-14T00:00", 48), NEW_YORK, dt.date(2027, 3, 14))
    assert day == (0, 1, -1, *range(2, 23))


def test_the_hour_that_comes_twice_is_its_first() -> None:
    """7 November 2027: 01:00 comes twice, so that 02:00 of standard time is the fourth hour of the day."""
    day = clock_hours(hours_from("2027-11-06T23:00", 48), NEW_YORK, dt.date(2027, 11, 7))
    assert day == (0, 1, 3, *range(4, 25))


def test_the_leap_day_is_itself() -> None:
    """29 February 2028 is not the 28th."""
    weather = hours_from("2028-02-28T00:00", 72)
    assert clock_hours(weather, NEW_YORK, dt.date(2028, 2, 29)) == tuple(range(24, 48))


def test_hours_that_the_forecast_lacks_are_none() -> None:
    """It begins at 06:00 and ends at noon."""
    day = clock_hours(hours_from("2027-01-11T06:00", 6), NEW_YORK, dt.date(2027, 1, 11))
    assert day == (*[-1] * 6, *range(6), *[-1] * 12)
