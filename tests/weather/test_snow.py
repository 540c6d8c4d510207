"""Snow on the roof: when it comes, when it has melted, when it is cleared."""

import numpy as np

from lapwright.weather.snow import Snow, snow_on_roof

ALL_DAY = np.ones(60, dtype=bool)
UNKNOWN = np.full(60, np.nan)


def snow(rain: object, air: object, depth: object = np.nan, light: object = True, cleared_h: float = 1000.0) -> Snow:
    """Sixty hours; each value is one or one for each hour."""
    arrays = [np.broadcast_to(value, (60,)).astype(float) for value in (rain, air, depth)]
    return snow_on_roof(*arrays, np.broadcast_to(light, (60,)).copy(), cleared_within_s=cleared_h * 3600)


def at(*hours: int, amount: float = 2.0) -> np.ndarray:
    """An amount in these hours, none in the others."""
    values = np.zeros(60)
    values[list(hours)] = amount
    return values


def test_what_falls_in_the_cold_lies_and_what_falls_in_the_warm_does_not() -> None:
    """2 mm at -1 °C lie from their hour on; at 1 °C they run off."""
    assert np.flatnonzero(snow(at(5), -1.0).lying).tolist() == list(range(5, 60))
    assert not snow(at(5), 1.0).lying.any()


def test_a_dusting_is_not_snow_lying() -> None:
    """Half a millimetre of water is dried off with the surface; a second half makes it lie."""
    assert not snow(at(5, amount=0.5), -1.0).lying.any()
    assert np.flatnonzero(snow(at(5, 8, amount=0.5), -1.0).lying).tolist()[0] == 8


def test_it_melts_by_hours_over_freezing() -> None:
    """At 4 °C and 3 mm for each degree and day, half a millimetre goes in an hour: of 2 mm more than 0.5 lie 2 hours.

    The snow falls in hour 5 at -1 °C; hours 6, 7, 8 leave 1.5, 1.0 and 0.5 mm.
    """
    air = np.where(np.arange(60) <= 5, -1.0, 4.0)
    assert np.flatnonzero(snow(at(5), air).lying).tolist() == [5, 6, 7]


def test_a_store_that_was_empty_owes_nothing() -> None:
    """A warm week before does not melt the snow that comes after it."""
    air = np.where(np.arange(60) < 40, 15.0, -1.0)
    assert np.flatnonzero(snow(at(45), air).lying).tolist() == list(range(45, 60))


def test_hours_of_daylight_clear_it_and_new_snow_begins_anew() -> None:
    """Four hours of light after the last of two snowfalls; the dark ones between do not count."""
    light = (np.arange(60) % 24 >= 8) & (np.arange(60) % 24 < 16)
    found = snow(at(5, 9), -3.0, light=light, cleared_h=4.0)
    assert np.flatnonzero(found.lying).tolist() == list(range(5, 14))
    assert np.flatnonzero(found.cleared).tolist() == list(range(14, 60))
    late = snow(at(14), -3.0, light=light, cleared_h=4.0)
    assert np.flatnonzero(late.lying).tolist()[-1] == 34  # hour 15 of the first day, 32, 33 and 34 of the next


def test_a_reported_depth_lies_too() -> None:
    """Snow on the ground, and each time that it grows a roof to be cleared."""
    depth = np.where(np.arange(60) < 10, 0.0, 0.05) + np.where(np.arange(60) < 30, 0.0, 0.02)
    found = snow(0.0, -3.0, depth, cleared_h=6.0)
    assert np.flatnonzero(found.lying).tolist() == [*range(10, 17), *range(30, 37)]


def test_missing_readings_bring_no_snow_and_keep_what_lies() -> None:
    """An hour without rain or air reading neither adds nor melts."""
    rain, air = at(5), np.full(60, -1.0)
    rain[20], air[21] = np.nan, np.nan
    assert np.flatnonzero(snow(rain, air).lying).tolist() == list(range(5, 60))
