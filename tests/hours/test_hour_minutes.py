"""Windows to the minute: crossings within an hour, what ends them, and that no minute of one breaks a limit."""

from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hours_sample import BASE, CAP, MATERIAL, rules, weather
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.heat.surface import default_setting
from lapwright.hours.minutes import minutes_of
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import HEAT, OPEN, WARM, HourTable
from lapwright.hours.windows import (
    DAY_BEGINS,
    DAY_ENDS,
    SafeWindow,
    latest_primer,
    longest_run,
    safe_windows,
)
from lapwright.units.write import Units

US = Units("us")
LIMITS = {"primer": MATERIAL, "base": BASE, "cap": CAP, "mastic": MATERIAL}
DAY = "2017-06-20T"


def table_of(hours: int = 48, limits: dict[str, Any] = LIMITS, **changed: Any) -> HourTable:
    """June hours at 40° N: sunrise 4:31, sunset 19:32 by the weather's clock."""
    return make_hour_table(
        weather(hours, **changed),
        place=RoofPlace(40.0, -90.0),
        limits=limits,
        rules=rules(),
        setting=default_setting(),
        units=US,
    )


def windows(found: HourTable, begin: str = "00:00", end: str = "23:00", **given_rules: Any) -> dict[str, SafeWindow]:
    """Windows of the first day between two times."""
    span = (np.datetime64(DAY + begin, "m"), np.datetime64(DAY + end, "m"))
    return dict(safe_windows(found, *span, rules=rules(**given_rules), units=US, over_fresh_base=True))


def clock(moment: np.datetime64) -> str:
    """Its time of day."""
    return str(moment)[11:16]


def test_a_fair_day_goes_from_sunrise_to_sunset() -> None:
    """By the almanac's sunrise and sunset (4:31, 19:32), within two minutes; dark before and after."""
    found = windows(table_of())["base"]
    assert abs(found.first - np.datetime64(DAY + "04:31")) <= np.timedelta64(2, "m")
    assert abs(found.last - np.datetime64(DAY + "19:32")) <= np.timedelta64(2, "m")
    assert (found.opens_after, found.shuts_for, found.worst) == ("dark", "dark", OPEN)
    assert found.minutes_by_state[1:] == (0, 0)


def test_the_crew_s_day_bounds_it() -> None:
    """From 7:00 to 16:30 exactly, and what is opened must be closed by then: an hour earlier."""
    found = windows(table_of(), "07:00", "16:30")["base"]
    assert (clock(found.first), clock(found.last), found.minutes) == ("07:00", "16:30", 570)
    assert (found.opens_after, found.shuts_for) == (DAY_BEGINS, DAY_ENDS)
    assert (clock(found.closed_by), clock(found.open_until)) == ("16:30", "15:30")


def test_air_crosses_a_limit_within_the_hour() -> None:
    """Readings of 2 °C at 9:00 and 6 °C at 10:00 pass mastic's 4 °C at 9:30."""
    air = np.where(np.arange(48) < 9, 2.0, 6.0)  # hour 8 ends at 9:00, hour 9 at 10:00
    found = windows(table_of(air_c=air, dew_point_c=-8.0))["mastic"]
    assert (clock(found.first), found.opens_after) == ("09:30", "air below 39.2 °F")


def test_laps_must_be_rolled_before_the_air_falls_through() -> None:
    """From -5 °C at 12:00 to -8.333 °C at 13:00 the air passes 20 °F (-6.667 °C) at 12:30: the last lap at 12:00."""
    air = np.where(np.arange(48) < 12, -5.0, -25 / 3)
    found = windows(table_of(air_c=air, dew_point_c=-20.0, limits={"cap": CAP}, ghi_w_m2=300.0), "07:00", "23:00")[
        "cap"
    ]
    assert found.shuts_for == "air falls below 20 °F within 30 min"
    assert (clock(found.last), clock(found.closed_by)) == ("12:00", "12:30")
    assert found.worst == HEAT


def test_what_is_opened_is_closed_before_rain() -> None:
    """Rain from 14:00: the base until 13:00, closed by 14:00; mastic, which leaves nothing open, until the rain."""
    rain = np.where(np.arange(48) == 14, 2.0, 0.0)
    found = windows(table_of(rain_mm=rain), "07:00", "16:30")
    base, mastic = found["base"], found["mastic"]
    assert (clock(base.last), base.shuts_for) == ("13:00", "rain or snow due within 60 min")
    assert (clock(base.closed_by), clock(base.open_until)) == ("14:00", "13:00")
    assert (clock(mastic.last), mastic.shuts_for) == ("13:59", "rain or snow falling")
    assert clock(mastic.open_until) == "13:59"


def test_after_thunder_half_an_hour_is_waited() -> None:
    """Thunder between 10:00 and 11:00: from 11:30 on."""
    thunder = np.arange(48) == 10
    year = replace(weather(48), thunder=thunder)
    found = make_hour_table(
        year, place=RoofPlace(40.0, -90.0), limits=LIMITS, rules=rules(), setting=default_setting(), units=US
    )
    base = windows(found, "10:00", "16:30")["base"]
    assert (clock(base.first), base.opens_after) == ("11:30", "thunder within 30 min")
    assert found.why(10) == "thunder or lightning"
    assert found.why(11) == "thunder within 30 min"


def test_an_operation_without_a_minute_has_no_window() -> None:
    """A day of rain."""
    assert windows(table_of(rain_mm=1.0), "07:00", "16:30")["base"] is None


def test_the_day_after_rain_is_open_to_a_fresh_base_only() -> None:
    """Over a base that lay open the cap waits a day; over one laid today it need not."""
    rain = np.where(np.arange(48) == 5, 1.0, 0.0)
    found = table_of(rain_mm=rain)
    span = (np.datetime64(DAY + "07:00"), np.datetime64(DAY + "16:30"))
    old = safe_windows(found, *span, rules=rules(), units=US)
    assert old["cap"] is None
    assert windows(found, "07:00", "16:30")["cap"] is not None


def test_a_roof_that_is_blown_dry_opens_sooner() -> None:
    """After a frosty night the sun opens it within the morning; blown dry, it opens as soon as no more settles."""
    air = 3.0 + 5.0 * np.sin((np.arange(48) - 8) / 24 * 2 * np.pi)
    found = table_of(air_c=air, dew_point_c=np.minimum(air - 0.5, 0.0), cloud=0.0, wind_m_s=1.0, limits={"base": BASE})
    span = (np.datetime64(DAY + "04:00"), np.datetime64(DAY + "16:30"))
    waited = safe_windows(found, *span, rules=rules(), units=US)["base"]
    dried = safe_windows(found, *span, rules=rules(), units=US, dried=True)["base"]
    assert waited is not None
    assert dried is not None
    assert waited.opens_after in ("frost or ice not yet gone", "surface not yet dry")
    assert dried.first < waited.first


def test_primer_dries_before_the_base_ends() -> None:
    """With an hour to dry, primer until 15:30 for a base until 16:30; with twelve there is no time for it."""
    found = windows(table_of(), "07:00", "16:30")
    latest = latest_primer(found, 3600.0)
    assert latest is not None
    assert clock(latest) == "15:30"
    assert latest_primer(found, 12 * 3600.0) is None
    assert latest_primer({"base": found["base"]}, 0.0) is None


def test_a_span_that_the_weather_does_not_hold_is_refused() -> None:
    """A bug of the caller, not an empty answer."""
    with pytest.raises(ValueError, match="does not hold"):
        windows(table_of(12), "07:00", "16:30")
    with pytest.raises(ValueError, match="no readings"):
        windows(replace(table_of(), readings=None))


def test_of_two_equally_long_runs_the_earlier_is_taken() -> None:
    """Two of two, and one of one."""
    assert longest_run(np.array([1, 0, 1, 1, 0, 1, 1], dtype=bool)) == range(2, 4)
    assert longest_run(np.zeros(3, dtype=bool)) is None


hourly = st.lists(
    st.tuples(
        st.floats(-15, 20), st.floats(0, 12), st.sampled_from([0.0, 0.0, 0.0, 1.0]), st.sampled_from([0.0, 0.5, 1.0])
    ),
    min_size=24,
    max_size=24,
)


@settings(deadline=None, max_examples=60)
@given(hourly)
def test_no_minute_of_a_window_breaks_a_limit(values: list[tuple[float, float, float, float]]) -> None:
    """Whatever the day: dry, light, within wind, over its limit now and when its laps are rolled, over the margin."""
    air, wind, rain, cloud = np.array(values).T
    found = table_of(
        24, limits={"base": BASE}, air_c=air, dew_point_c=air - 6, wind_m_s=wind, rain_mm=rain, cloud=cloud
    )
    window = windows(found, "00:00", "23:59")["base"]
    minutes = minutes_of(found, range(24), rules())
    inside = (
        np.zeros(len(minutes.start), dtype=bool)
        if window is None
        else (minutes.start >= window.first) & (minutes.start < window.first + np.timedelta64(window.minutes, "m"))
    )
    told = minutes.readings
    lowest = -20 / 3
    assert not (inside & told.falling).any()
    assert (told.air_c[inside] >= lowest).all()
    assert (told.surface_c[inside] >= lowest).all()
    assert (told.wind_m_s[inside] <= rules().wind_sheets_m_s).all()
    assert (told.surface_c[inside] >= told.wetting_c[inside] + rules().dew_point_margin_k).all()
    assert (told.film_mm[inside] <= 0.005).all()
    assert told.daylight[inside].all()
    soon = np.flatnonzero(inside) + 60
    assert not told.falling[soon[soon < len(told.falling)]].any()


@settings(deadline=None, max_examples=60)
@given(hourly)
def test_a_minute_between_open_readings_is_not_worse_than_both(values: list[tuple[float, float, float, float]]) -> None:
    """Where an hour and the one before are open at their ends, every minute between keeps the temperatures of one."""
    air, wind, _, cloud = np.array(values).T
    found = table_of(24, air_c=air, dew_point_c=air - 6, wind_m_s=wind, cloud=cloud)
    told = minutes_of(found, range(1, 24), rules()).readings.surface_c.reshape(23, 60)
    ends = np.stack([found.surface_c[:-1], found.surface_c[1:]])
    assert np.all(told >= ends.min(axis=0)[:, None] - 1e-9)
    assert np.all(told <= ends.max(axis=0)[:, None] + 1e-9)


def test_states_within_a_window_are_counted() -> None:
    """Air that rises through 50 °F at 12:00 gives a base from warm rolls before it and as usual after it."""
    air = np.interp(np.arange(48) + 1.0, [0, 12, 48], [4.0, 10.0, 28.0])
    found = windows(table_of(air_c=air, dew_point_c=-5.0, ghi_w_m2=400.0), "08:00", "16:00")["base"]
    assert found.worst == WARM
    assert found.minutes_by_state == (240, 240, 0)
