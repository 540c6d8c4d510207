"""hours.csv says of each hour what the table holds, and of an absent one that there is no reading."""

import csv
import io
import math

import numpy as np
import pytest

from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, HourTable
from lapwright.packet.hourscsv import hours_csv
from lapwright.weather.values import WeatherYear

NAMES = [
    *("time", "air_c", "dew_point_c", "wind_m_s", "rain_mm", "sun_w_m2", "surface_c"),
    *("primer", "base", "interply", "cap", "side_lap", "end_lap", "flashing", "mastic", "edge_metal"),
    *("measure", "why"),
]


def three_hours(offset_h: float = -5.0) -> HourTable:
    """An open hour, a shut one with two reasons, and an absent one whose states were left open."""
    nan = math.nan
    no, yes = False, True
    start = np.array(["2016-02-29T22", "2016-02-29T23", "2016-03-01T00"], dtype="datetime64[m]")
    floats = {
        "air_c": np.array([10.0, -3.3000000000000003, nan]),
        "dew_point_c": np.array([5.0, -4.0, nan]),
        "wind_m_s": np.array([2.5, 9.0, nan]),
        "rain_mm": np.array([0.0, nan, nan]),
    }
    weather = WeatherYear(
        name="three",
        origin="typed",
        latitude=40.0,
        longitude=-75.0,
        elevation=0.0,
        offset_h=offset_h,
        start=start,
        absent=np.array([no, no, yes]),
        gust_m_s=np.full(3, nan),
        cloud=np.full(3, nan),
        ghi_w_m2=np.full(3, nan),
        snow_depth_m=np.full(3, nan),
        bridged=np.array([no, no, no]),
        **floats,
    )
    return HourTable(
        weather=weather,
        surface_c=np.array([12.25, -5.0, 1.0]),
        surface_low_c=np.zeros(3),
        surface_high_c=np.zeros(3),
        sun_w_m2=np.array([100.0, 0.0, 50.0]),
        frost_point_c=np.zeros(3),
        daylight=np.array([yes, no, no]),
        wet=np.array([no, no, no]),
        measure=np.array([yes, no, yes]),
        states={
            "base": np.array([WARM, SHUT, OPEN], dtype=np.uint8),
            "cap": np.array([HEAT, SHUT, OPEN], dtype=np.uint8),
        },
        reason={"base": np.array([0, 1, 0], dtype=np.uint8), "cap": np.array([0, 2, 0], dtype=np.uint8)},
        reasons=("", "dark", 'wind over 20 mph, "gusts"'),
        limits={},
    )


def rows(table: HourTable | None) -> list[dict[str, str]]:
    """The file as the csv module reads it."""
    return list(csv.DictReader(io.StringIO(hours_csv(table).decode(), newline="")))


def test_columns_stand_in_the_order_that_is_promised() -> None:
    """The header is the list of the file format, in its order."""
    assert hours_csv(three_hours()).decode().splitlines()[0].split(",") == NAMES


def test_an_open_hour_has_readings_states_and_measure() -> None:
    """Readings read back as the same numbers; operations that the roof lacks are empty; nothing is shut, so no why."""
    assert rows(three_hours())[0] == {
        "time": "2016-02-29T22:00:00-05:00",
        "air_c": "10.0",
        "dew_point_c": "5.0",
        "wind_m_s": "2.5",
        "rain_mm": "0.0",
        "sun_w_m2": "100.0",
        "surface_c": "12.25",
        "primer": "",
        "base": "warm",
        "interply": "",
        "cap": "heat",
        "side_lap": "",
        "end_lap": "",
        "flashing": "",
        "mastic": "",
        "edge_metal": "",
        "measure": "yes",
        "why": "",
    }


def test_a_shut_hour_says_why_and_a_missing_reading_is_empty() -> None:
    """Reasons that differ name their operation; commas and quotes survive; full precision is kept."""
    row = rows(three_hours())[1]
    assert (row["base"], row["cap"], row["rain_mm"], row["measure"]) == ("shut", "shut", "", "")
    assert row["why"] == 'base: dark; cap: wind over 20 mph, "gusts"'
    assert float(row["air_c"]) == -3.3000000000000003


def test_an_absent_hour_is_shut_with_no_reading() -> None:
    """Whatever the arrays hold there, an absent hour shows no reading and every operation of the roof shut."""
    row = rows(three_hours())[2]
    assert [row[name] for name in NAMES[:10]] == ["2016-03-01T00:00:00-05:00", *[""] * 7, "shut", ""]
    assert (row["cap"], row["measure"], row["why"]) == ("shut", "", "no reading")


@pytest.mark.parametrize(("offset_h", "text"), [(0.0, "+00:00"), (5.75, "+05:45"), (-3.5, "-03:30"), (-9.0, "-09:00")])
def test_offset_is_written_with_its_minutes(offset_h: float, text: str) -> None:
    """Offsets that are not whole hours, east or west, are written as ISO 8601 has them."""
    assert rows(three_hours(offset_h))[0]["time"] == "2016-02-29T22:00:00" + text


def test_without_weather_there_is_a_header_alone() -> None:
    """A job without weather gives a file with columns and no row."""
    assert hours_csv(None).decode() == ",".join(NAMES) + "\n"
