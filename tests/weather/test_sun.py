"""Daylight and what reaches the roof; heights beside another formula are in tests/published/live_sun.py."""

import numpy as np
import pytest

from lapwright.intake.weather_source import read_bundled
from lapwright.weather.sun import (
    SunHeights,
    clear_sun_w_m2,
    daylight,
    sun_heights,
    sun_on_roof,
    under_cloud_w_m2,
)

HOUR = np.timedelta64(60, "m")


def hours_from(text: str, count: int) -> np.ndarray:
    """So many hours from a time on."""
    return np.datetime64(text, "m") + np.arange(count) * HOUR


def test_an_hour_ends_where_the_next_begins() -> None:
    """The bounds of hours are shared."""
    heights = sun_heights(hours_from("2016-02-28T00:00", 72), offset_h=-6, latitude=42, longitude=-88)
    assert heights.end_deg[:-1].tolist() == heights.begin_deg[1:].tolist()


def test_the_sun_is_up_by_its_upper_limb() -> None:
    """The disc's edge and refraction lift the sun by 0.833°."""
    level = np.array([-0.84, -0.82])
    assert daylight(SunHeights(level, level, level)).tolist() == [False, True]


def test_polar_night_and_midnight_sun() -> None:
    """At 71° N no hour of 21 December is light and every hour of 21 June is."""
    for day, lit in (("2018-12-21T00:00", 0), ("2018-06-21T00:00", 24)):
        heights = sun_heights(hours_from(day, 24), offset_h=-10, latitude=71.3, longitude=-156.8)
        assert int(daylight(heights).sum()) == lit


def test_an_hour_in_which_the_sun_sets_and_rises_again_is_not_light() -> None:
    """The middle of the hour counts too."""
    dipped = SunHeights(np.array([0.0]), np.array([-1.0]), np.array([0.0]))
    assert daylight(dipped).tolist() == [False]


def test_sun_under_cloud_against_a_year_of_records() -> None:
    """In the hours of a TMY3 year with a clear sky the estimate is within 15 % of the record on the mean, and low.

    Under a full cover it is well below (a winter's mean of 58 %): the estimate errs to the cold side.
    """
    year, _ = read_bundled("greensboro")
    heights = sun_heights(year.start, offset_h=year.offset_h, latitude=year.latitude, longitude=year.longitude)
    estimate = under_cloud_w_m2(clear_sun_w_m2(heights.middle_deg), year.cloud)
    high = heights.middle_deg > 10
    clear, overcast = high & (year.cloud == 0), high & (year.cloud == 1)
    assert 0.85 < estimate[clear].mean() / year.ghi_w_m2[clear].mean() < 1.0
    assert 0.4 < estimate[overcast].mean() / year.ghi_w_m2[overcast].mean() < 1.0


def test_a_reported_sun_goes_before_an_estimate() -> None:
    """Reported is used as it is; with cloud it is estimated; with neither the span from overcast to clear is kept."""
    reported, cloud = np.array([123.0, np.nan, np.nan]), np.array([0.5, 1.0, np.nan])
    sun = sun_on_roof(reported, cloud, np.full(3, 30.0))
    assert sun.clearest_w_m2.tolist() == pytest.approx([123.0, 106.25, 425.0])
    assert sun.darkest_w_m2.tolist() == pytest.approx([123.0, 106.25, 106.25])
    assert sun.middle_w_m2.tolist() == pytest.approx([123.0, 106.25, 265.625])
