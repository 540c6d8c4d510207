"""Go, wait, stop, unknown: what the morning says of hours that are given."""

import datetime as dt
from collections.abc import Mapping
from zoneinfo import ZoneInfo

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.crew.calendar import make_calendar
from lapwright.crew.clockhours import clock_hours
from lapwright.crew.morning import CLOSES_A_ROOF, GO, STOP, UNKNOWN, WAIT, DayAsked, operations_today, together
from lapwright.crew.values import OperationToday
from lapwright.defaults.rules import make_rules
from lapwright.heat.surface import default_setting
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import HourTable, Limits
from lapwright.hours.windows import safe_windows
from lapwright.units.write import Units
from lapwright.weather.values import WeatherYear

SPAN = (7 * 60, 16 * 60)
SHEET = Limits(10.0, None, -20 / 3)
LIMITS = {"primer": Limits(-5.0, None, None), "base": SHEET, "cap": SHEET, "side_lap": SHEET, "end_lap": SHEET}
RULES = make_rules({})


def made(limits: Mapping[str, Limits] = LIMITS, **changed: object) -> HourTable:
    """Three days of January without wind at 5 °C, very dry air, overcast."""
    count = 72
    flat = np.zeros(count)
    plain = {
        "air_c": 5.0, "dew_point_c": -15.0, "wind_m_s": 2.0, "gust_m_s": 4.0, "rain_mm": 0.0, "cloud": 1.0,
        "ghi_w_m2": np.nan, "snow_depth_m": np.nan,
    }  # fmt: skip
    arrays = {name: flat + value for name, value in (plain | changed).items()}
    weather = WeatherYear(
        name="made", origin="made", latitude=40.0, longitude=-75.0, elevation=0.0, offset_h=-5.0,
        start=np.datetime64("2027-01-10T00:00", "m") + np.arange(count) * np.timedelta64(60, "m"),
        absent=np.isnan(arrays["air_c"]), bridged=np.zeros(count, dtype=bool), **arrays,
    )  # fmt: skip
    return make_hour_table(
        weather, place=RoofPlace(40.0, -75.0), limits=limits, rules=RULES, setting=default_setting(), units=Units("us")
    )


def asked(table: HourTable, **changed: object) -> DayAsked:
    """The second of the three days."""
    hours = clock_hours(table.weather, ZoneInfo("America/New_York"), dt.date(2027, 1, 11))
    return DayAsked(hours, SPAN, {"cap": ("sheets.cap.apply_at_or_above",)}, **changed)


def said(table: HourTable, day: DayAsked | None = None) -> dict[str, OperationToday]:
    """What is said of each operation."""
    day = day or asked(table)
    minute = np.timedelta64(1, "m")
    start = table.weather.start
    begin, end = start[day.hours[day.crew_min[0] // 60]], start[day.hours[15]] + 60 * minute
    windows = safe_windows(table, begin, end, rules=RULES, units=Units("us"), dried=True)
    return {one.operation: one for one in operations_today(table, windows, day)}


def hour_values(value: float, other: float, hours: range) -> np.ndarray:
    """One value in some hours of the second day, another in the rest."""
    values = np.full(72, other)
    values[[24 + hour for hour in hours]] = value
    return values


def test_dark_until_sunrise_is_a_wait() -> None:
    """The sun is up at 07:21 by the almanac of 40° north: everything waits for it."""
    base = said(made())["base"]
    assert (base.verdict, base.before) == (WAIT, "dark")
    assert base.first_min == pytest.approx(7 * 60 + 21, abs=3)
    assert base.last_min == 16 * 60


def test_a_crew_that_comes_later_goes() -> None:
    """At 08:00 the sun is up."""
    table = made()
    day = DayAsked(asked(table).hours, (8 * 60, 16 * 60), {})
    assert {one.verdict for one in said(table, day).values()} == {GO}


def test_rain_all_day_is_a_stop_with_its_reason() -> None:
    """Not the darkness of its first hour."""
    one = said(made(rain_mm=1.0))["base"]
    assert (one.verdict, one.why) == (STOP, "rain or snow falling")


def test_no_readings_all_day_is_unknown_and_not_a_stop() -> None:
    """Nobody knows is another thing than no."""
    one = said(made(air_c=hour_values(np.nan, 5.0, range(24))))["base"]
    assert (one.verdict, one.why) == (UNKNOWN, "no reading")


def test_a_limit_that_is_not_given_is_unknown_with_its_key() -> None:
    """On a day that is fit for everything else."""
    one = said(made(LIMITS | {"cap": Limits(None, None, None)}))["cap"]
    assert (one.verdict, one.why, one.supply) == (UNKNOWN, "limit not given", ("sheets.cap.apply_at_or_above",))


def test_welding_that_is_not_possible_is_unknown() -> None:
    """The laps need heat and nobody may weld."""
    table = made()
    one = said(table, asked(table, weld_keys=("crew.fire_watch",)))["cap"]
    assert (one.verdict, one.supply) == (UNKNOWN, ("crew.fire_watch",))


def test_welding_stops_for_the_watch_and_the_hours_after_are_shut() -> None:
    """No lap after 15:00."""
    table = made()
    one = said(table, asked(table, weld_stop_min=15 * 60))["cap"]
    assert (one.last_min, one.states[14], one.states[15]) == (15 * 60, "heat", "shut")


def test_together_is_the_time_that_all_share() -> None:
    """From the latest first to the earliest last minute; never a go where one is unknown."""
    table = made(LIMITS | {"base": Limits(10.0, -20 / 3, None)})
    one = together(tuple(said(table).values()), CLOSES_A_ROOF, asked(table))
    assert (one.verdict, one.state) == (WAIT, "heat")
    missing = said(made(LIMITS | {"cap": Limits(None, None, None)}))
    assert together(tuple(missing.values()), CLOSES_A_ROOF, asked(table)).verdict == UNKNOWN
    apart = (
        OperationToday("base", WAIT, 8 * 60, 9 * 60, 9 * 60, "open", ("open",) * 24),
        OperationToday("cap", WAIT, 10 * 60, 11 * 60, 11 * 60, "open", ("open",) * 24),
    )
    found = together(apart, CLOSES_A_ROOF, asked(table))
    assert (found.verdict, found.why) == (STOP, "cap and base are not fit at one time")


def test_a_year_s_day_is_told_like_a_forecast_s() -> None:
    """The same hours by month and day."""
    table = made()
    day = DayAsked(make_calendar(table.weather, "America/New_York").hours(dt.date(2027, 1, 11)), SPAN, {})
    assert said(table, day)["base"].first_min == said(table)["base"].first_min


@settings(max_examples=25, deadline=None)
@given(
    air_c=st.lists(st.floats(-20, 20), min_size=72, max_size=72),
    rain_mm=st.lists(st.sampled_from([0.0, 0.0, 0.0, 1.0, np.nan]), min_size=72, max_size=72),
    wind_m_s=st.lists(st.floats(0, 15), min_size=72, max_size=72),
)
def test_no_minute_that_is_said_to_be_safe_lies_in_a_shut_hour(
    air_c: list[float], rain_mm: list[float], wind_m_s: list[float]
) -> None:
    """Whatever the weather: whole hours inside a window are dry, not too windy and not too cold at their ends."""
    table = made(air_c=np.array(air_c), rain_mm=np.array(rain_mm), wind_m_s=np.array(wind_m_s))
    day = asked(table)
    for one in said(table, day).values():
        if one.first_min is None or one.last_min is None:
            assert one.verdict in (STOP, UNKNOWN)
            continue
        whole = [day.hours[hour] for hour in range(24) if one.first_min <= 60 * hour and 60 * hour + 59 <= one.last_min]
        assert all(rain_mm[index] == 0.0 for index in whole)
        assert all(wind_m_s[index] <= RULES.gust_stop_m_s for index in whole)
        assert all(air_c[index] >= -20 / 3 - 1e-9 or one.operation == "primer" for index in whole)


@pytest.mark.parametrize(("dry_h", "last"), [(0, 16 * 60), (1, 15 * 60), (8.5, 7 * 60 + 30)])
def test_primer_ends_early_enough_to_dry(dry_h: float, last: int) -> None:
    """The base's window ends with the crew's day at 16:00; primer ends the time that it dries before."""
    table = made()
    primer = said(table, asked(table, primer_dry_s=3600 * dry_h))["primer"]
    assert primer.last_min == last
    assert (primer.after == "primer would not dry in time for the base") is (dry_h > 0)
    assert all(state == "shut" for state in primer.states[-(-last // 60) : 24])


def test_primer_that_can_t_dry_today_is_a_stop() -> None:
    """Light from 07:21 to 16:00 is less than nine hours."""
    table = made()
    primer = said(table, asked(table, primer_dry_s=9 * 3600))["primer"]
    assert (primer.verdict, primer.why) == (STOP, "primer would not dry in time for the base")
    assert primer.last_min is None


def test_primer_goes_by_its_own_hours_where_nothing_is_laid() -> None:
    """A base that is shut all day says nothing of primer."""
    cold = LIMITS | {"base": Limits(50.0, None, None)}
    table = made(cold)
    both = said(table, asked(table, primer_dry_s=3600))
    assert (both["base"].verdict, both["primer"].last_min) == (STOP, 16 * 60)


def test_an_hour_that_nobody_knows_is_no_shut_hour() -> None:
    """Without a wind at 10:00 and 11:00, rain at 13:00 (an hour ahead it is due): the first two are neither."""
    table = made(wind_m_s=hour_values(np.nan, 2.0, range(10, 12)), rain_mm=hour_values(2.0, 0.0, range(13, 14)))
    base = said(table)["base"]
    assert base.states[9:14] == ("heat", "", "", "shut", "shut")


def test_without_a_limit_no_hour_is_known() -> None:
    """A sheet that does not say at what temperature it is laid: unknown all day, not shut."""
    cap = said(made({**LIMITS, "cap": Limits(None, None, None)}))["cap"]
    assert (cap.verdict, set(cap.states)) == (UNKNOWN, {""})
