"""From a year of weather to the hour table."""

import numpy as np
import pytest
from hours_sample import LIMITS, rules, weather

from lapwright.heat.surface import default_setting
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import SHUT, STATE_WORDS, HourTable
from lapwright.intake.weather_source import read_bundled
from lapwright.units.write import Units
from lapwright.weather.values import WeatherYear

PLACE = RoofPlace(40.0, -90.0, 6.7, "C")


def table_of(year: WeatherYear, place: RoofPlace = PLACE, **given: object) -> HourTable:
    """The hour table of a roof with every operation but the interply."""
    return make_hour_table(
        year, place=place, limits=LIMITS, rules=rules(), setting=default_setting(), units=Units("us"), **given
    )


def test_a_june_day_from_dark_to_dark() -> None:
    """By the sun of 20 June at 40° N (4:31 to 19:32 by the clock of 90° W) 15 hours are light: 5:00 to 19:00 begin."""
    found = table_of(weather(24))
    assert np.flatnonzero(found.daylight).tolist() == list(range(5, 19))
    assert found.why(2) == "dark"
    assert found.why(12) == ""


def test_operations_that_the_roof_lacks_are_not_there() -> None:
    """No interply in two plies."""
    assert list(table_of(weather(2)).states) == list(LIMITS)


def test_an_absent_hour_is_shut_for_want_of_a_reading() -> None:
    """NaN in all readings gives shut, `no reading`, nothing to measure."""
    absent = np.arange(48) == 12
    gone = np.where(absent, np.nan, 15.0)
    found = table_of(weather(absent=absent, air_c=gone, dew_point_c=gone - 10, wind_m_s=gone, rain_mm=gone * 0))
    assert found.why(12) == "no reading"
    assert {int(states[12]) for states in found.states.values()} == {SHUT}
    assert not found.measure[12]


def test_rain_shuts_its_hour_and_wets_the_base_for_a_day() -> None:
    """Rain at 10:00: all shut, then the cap for 24 hours more, the base not."""
    rain = np.where(np.arange(72) == 10, 1.2, 0.0)
    found = table_of(weather(72, rain_mm=rain))
    assert found.why(10) == "rain or snow falling"
    assert found.why(12) == "cap, side_lap, end_lap: base wet within 24 h"
    assert found.states["base"][12] != SHUT
    assert found.states["cap"][10 + 25] != SHUT
    assert found.since_wet_h is not None
    assert found.since_wet_h[10 + 24] == 23.0


def test_a_trace_is_not_dry() -> None:
    """Rain or snow without a depth shuts too."""
    found = table_of(weather(trace=np.arange(48) == 10))
    assert found.why(10) == "rain or snow falling"
    assert bool(found.wet[10])


def test_missing_rain_shuts_unless_the_user_calls_it_dry() -> None:
    """Unknown is not dry; the user's word is needed to go on."""
    year = weather(rain_mm=np.where(np.arange(48) == 10, np.nan, 0.0))
    shut, opened = table_of(year), table_of(year, unknown_rain_is_dry=True)
    assert shut.why(10) == "rain not reported"
    assert shut.why(12) == "cap, side_lap, end_lap: base may be wet, no reading within 24 h"
    assert opened.why(10) == ""


def test_lying_snow_shuts() -> None:
    """A reported depth of snow lies on the roof too, for the first four hours of daylight; then it is cleared."""
    found = table_of(weather(snow_depth_m=0.05))
    assert np.flatnonzero(found.daylight).tolist()[:5] == [5, 6, 7, 8, 9]
    assert found.why(8) == "snow lying"
    assert "snow lying" not in found.why(10)
    assert bool(found.measure[12])


def test_the_greater_of_two_winds_counts() -> None:
    """A station's wind over the limit shuts though a low roof has less; a high roof has more than its station."""
    station = rules().wind_sheets_m_s
    low = table_of(weather(wind_m_s=station * 1.01), RoofPlace(40.0, -90.0, 3.0, "C"))
    high = table_of(weather(wind_m_s=station * 0.95), RoofPlace(40.0, -90.0, 30.0, "C"))
    unknown = table_of(weather(wind_m_s=station * 0.95), RoofPlace(40.0, -90.0))
    assert low.states["cap"][12] == high.states["cap"][12] == SHUT
    assert unknown.states["cap"][12] != SHUT
    assert unknown.roof_wind_m_s is not None
    assert unknown.roof_wind_m_s[12] == station * 0.95


def test_hours_without_cloud_carry_the_full_spread() -> None:
    """Their spread is wider than that of the same hours with the cloud known."""
    known, unknown = table_of(weather(cloud=0.5)), table_of(weather(cloud=np.nan))
    width = [found.surface_high_c - found.surface_low_c for found in (known, unknown)]
    assert np.all(width[1] >= width[0])
    assert width[1][12] > 2 * width[0][12]


def test_frost_on_a_clear_autumn_night() -> None:
    """Air at 2 °C and a dew point of 0 °C under a clear calm sky: the roof is white at midnight."""
    found = table_of(weather(air_c=2.0, dew_point_c=0.0, cloud=0.0, wind_m_s=0.5))
    assert bool(found.wet[0])
    assert found.surface_c[0] < found.frost_point_c[0]


@pytest.mark.parametrize("name", ["greensboro", "chicago-2016", "northway-2018"])
def test_bundled_years_make_whole_tables(name: str) -> None:
    """Every hour has a state for every operation; shut hours and no others have a reason; spreads are in order."""
    year, _ = read_bundled(name)
    found = table_of(year, RoofPlace(year.latitude, year.longitude, 6.7, "C"))
    known = np.isfinite(found.surface_c)
    assert np.all(found.surface_low_c[known] <= found.surface_c[known])
    assert np.all(found.surface_c[known] <= found.surface_high_c[known])
    for operation, states in found.states.items():
        assert states.shape == year.start.shape
        assert set(np.unique(states).tolist()) <= set(range(len(STATE_WORDS)))
        assert np.array_equal(states == SHUT, found.reason[operation] > 0)
    assert not found.measure[year.absent].any()
