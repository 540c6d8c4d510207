"""Wind at the roof, and hours since something happened."""

import numpy as np
import pytest

from lapwright.weather.wet import hours_since, hours_until, reading_after
from lapwright.weather.wind import wind_at_height_m_s


def test_wind_grows_with_height_and_with_open_country() -> None:
    """Higher is windier; town, open country, open water in that order at one height."""
    station = np.array([5.0])
    by_height = [
        wind_at_height_m_s(station, station_height=10, height=height, exposure="C")[0] for height in (3, 10, 30)
    ]
    by_country = [wind_at_height_m_s(station, station_height=10, height=8, exposure=exposure)[0] for exposure in "BCD"]
    assert by_height == sorted(by_height)
    assert by_country == sorted(by_country)


def test_exposure_not_given_is_open_country() -> None:
    """Where the exposure is not given, the roof stands in country like the station's."""
    station = np.array([5.0])
    assert wind_at_height_m_s(station, station_height=10, height=10, exposure=None)[0] == pytest.approx(5.0)


def test_hours_since_counts_from_the_end_of_the_hour() -> None:
    """Rain in hour 2 ends as hour 3 begins."""
    happened = np.zeros(6, dtype=bool)
    happened[2] = True
    assert hours_since(happened).tolist() == [np.inf, np.inf, 0.0, 0.0, 1.0, 2.0]


def test_never_is_infinitely_long_ago() -> None:
    """Nothing that happened, no number of hours."""
    assert np.isinf(hours_since(np.zeros(8760, dtype=bool))).all()


def test_a_whole_year_looks_back_over_new_year() -> None:
    """Rain in the last hour of December is just over as January begins."""
    happened = np.zeros(8760, dtype=bool)
    happened[-1] = True
    assert hours_since(happened)[:3].tolist() == [0.0, 1.0, 2.0]


def test_hours_until_counts_from_the_end_of_the_hour() -> None:
    """Rain in hour 3 comes as hour 2 ends, an hour after hour 1 ends."""
    happens = np.zeros(6, dtype=bool)
    happens[3] = True
    assert hours_until(happens).tolist() == [2.0, 1.0, 0.0, 0.0, np.inf, np.inf]


def test_a_whole_year_looks_ahead_over_new_year() -> None:
    """Rain in the first hour of January is due as December ends."""
    happens = np.zeros(8760, dtype=bool)
    happens[0] = True
    assert hours_until(happens)[-2:].tolist() == [1.0, 0.0]


def test_a_reading_between_two_others() -> None:
    """Half an hour on is half-way; beyond the end the last one stays; a missing neighbour is not guessed."""
    readings = np.array([0.0, 4.0, 10.0, np.nan])
    assert reading_after(readings[:3], 0.5).tolist() == [2.0, 7.0, 10.0]
    assert reading_after(readings[:3], 1.0).tolist() == [4.0, 10.0, 10.0]
    assert np.isnan(reading_after(readings, 0.5)).tolist() == [False, False, True, True]
    assert reading_after(readings, 0.0)[:3].tolist() == [0.0, 4.0, 10.0]
