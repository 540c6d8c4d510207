"""A logger's rows: units, hours, clocks that change, gaps; and broken rows refused with their line."""

import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.faults import Refused
from lapwright.intake.weather_clean import Station
from lapwright.intake.weather_logger import UNITS, looks_like, read
from lapwright.intake.weather_source import detect_format
from lapwright.weather.moist import dew_point_c
from lapwright.weather.values import WeatherYear

SITE = Station(name="log", origin="log.csv", latitude=40.0, longitude=-74.0, elevation=10.0, offset_h=-5.0)
HEAD = "time [America/New_York],air [F],dew point [F],wind [mph],rain [in]"


def log(*rows: str, head: str = HEAD) -> io.BytesIO:
    """A log with its first line."""
    return io.BytesIO("\n".join([head, *rows]).encode())


def year_of(*rows: str, head: str = HEAD) -> WeatherYear:
    """What is read of a log."""
    return read(log(*rows, head=head), file="log.csv", station=SITE, dew_point=dew_point_c)[0]


def refusal(*rows: str, head: str = HEAD) -> str:
    """The text of a refusal."""
    with pytest.raises(Refused) as refused:
        year_of(*rows, head=head)
    return refused.value.text()


def test_the_units_of_the_first_line_are_read() -> None:
    """41 °F is 5 °C, 10 mph 4.4704 m/s, 0.1 in 2.54 mm; the same in metric."""
    us = year_of("2026-01-15 08:00,41,32,10,0.1")
    metric = year_of(
        "4.4704;5;0;2026-01-15 08:00;2.54".replace(";", ","),
        head="wind [m/s],air [C],dew point [C],time [UTC-5],rain [mm]",
    )
    for found in (us, metric):
        assert (found.air_c[0], found.dew_point_c[0]) == pytest.approx((5.0, 0.0), abs=1e-9)
        assert (found.wind_m_s[0], found.rain_mm[0]) == pytest.approx((4.4704, 2.54))
        assert str(found.start[0]) == "2026-01-15T07:00"
        assert found.offset_h == -5.0


def test_every_column_is_read() -> None:
    """Gust, cloud in three ways, sun, snow, thunder."""
    head = "time [UTC-5],air [C],humidity [%],wind [kn],gust [km/h],cloud [eighths],sun [W/m2],snow [cm],thunder"
    found = year_of("2026-01-15 08:00,20,50,1,36,4,250,12,yes", "2026-01-15 09:00,20,50,1,36,8,,,no", head=head)
    assert found.dew_point_c[0] == pytest.approx(9.27, abs=0.05)  # psychrolib 2.5.0, GetTDewPointFromRelHum
    assert found.wind_m_s[0] == pytest.approx(1852 / 3600)
    assert found.gust_m_s[0] == pytest.approx(10.0)
    assert found.cloud.tolist() == [0.5, 1.0]
    assert (found.ghi_w_m2[0], found.snow_depth_m[0]) == pytest.approx((250.0, 0.12))
    assert np.isnan(found.ghi_w_m2[1])
    assert found.thunder is not None
    assert found.thunder.tolist() == [True, False]
    assert np.isnan(found.rain_mm).all()


def test_quarters_of_an_hour_are_laid_on_hours() -> None:
    """From 7:15 to 8:00: the last air, the mean wind, the greatest gust, the sum of the rain; all of 7:00."""
    head = "time [UTC-5],air [C],dew point [C],wind [m/s],gust [m/s],rain [mm]"
    rows = [f"2026-01-15 0{7 + (m == 60)}:{m % 60:02d},{m / 15},-9,{m / 15},{m / 5},0.25" for m in (15, 30, 45, 60)]
    found = year_of(*rows, "2026-01-15 08:01,9,-9,1,1,0", head=head)
    assert [str(hour)[11:] for hour in found.start] == ["07:00", "08:00"]
    assert (found.air_c[0], found.wind_m_s[0], found.gust_m_s[0], found.rain_mm[0]) == (4.0, 2.5, 12.0, 1.0)
    assert found.air_c[1] == 9.0


def test_missing_cells_and_missing_hours_are_told() -> None:
    """A dash is no reading; an hour without rows is absent; rain of an hour with a gap in it is not known."""
    rows = ["2026-01-15 01:00,10,5,3,0", "2026-01-15 02:00,-,5,3,0", "2026-01-15 03:00,12,5,3,0"]
    rows += ["2026-01-15 05:30,12,5,3,0", "2026-01-15 06:00,12,5,3,NA"]
    found, mended = read(log(*rows), file="log.csv", station=SITE, dew_point=dew_point_c)
    assert found.air_c[1] == pytest.approx((11 - 32) * 5 / 9)  # bridged
    assert np.flatnonzero(found.absent).tolist() == [3, 4]
    assert np.isnan(found.rain_mm).tolist() == [False, False, False, True, True, True]
    assert (
        "log.csv  hours: 2 of 6 hours are not in the file, first 2026-01-15 03:00; kept as hours without a reading"
        in [note.text() for note in mended]
    )


def test_the_hour_that_is_lost_in_march() -> None:
    """By the clock of New York 1:30 is followed by 3:30; by standard time an hour lies between, and none is missing."""
    found = year_of("2026-03-08 01:30,30,20,3,0", "2026-03-08 03:30,31,20,3,0", "2026-03-08 04:30,32,20,3,0")
    assert [str(hour)[11:] for hour in found.start] == ["01:00", "02:00", "03:00"]
    assert not found.absent.any()


def test_a_time_that_the_clock_skips_is_refused() -> None:
    """A logger that shows 2:30 on that night keeps standard time."""
    assert refusal("2026-03-08 01:30,30,20,3,0", "2026-03-08 02:30,31,20,3,0") == (
        "log.csv:3:1  time\n  read:   2026-03-08 02:30\n"
        "  needs:  a time that the clock of America/New_York shows: here it went forward over it\n"
        "  write:  time [UTC-5] in the first line, if the logger keeps standard time all year"
    )


def test_the_hour_that_comes_twice_in_november() -> None:
    """1:00, 1:30, then 1:00 and 1:30 again, are two hours of standard time."""
    rows = ["00:30", "01:00", "01:30", "01:00", "01:30", "02:00", "02:30"]
    found = year_of(*(f"2026-11-01 {time},{40 + place},20,3,0" for place, time in enumerate(rows)))
    hours = [str(hour)[5:16] for hour in found.start]
    assert hours == ["10-31T23:00", "11-01T00:00", "11-01T01:00", "11-01T02:00"]
    assert (found.air_c * 9 / 5 + 32).tolist() == pytest.approx([41.0, 43.0, 45.0, 46.0])


def test_a_fixed_clock_knows_no_summer() -> None:
    """The same rows under UTC-5 run on through the night."""
    head = HEAD.replace("America/New_York", "UTC-5")
    found = year_of("2026-03-08 01:30,30,20,3,0", "2026-03-08 02:30,31,20,3,0", head=head)
    assert [str(hour)[11:] for hour in found.start] == ["01:00", "02:00"]


def test_utc_and_offsets_in_the_stamps_go_by_the_site() -> None:
    """12:00 UTC is 7:00 of standard time at 74° W, whichever way it is written."""
    for head, stamp in (
        ("time [UTC]", "2026-07-15 12:00"),
        ("time", "2026-07-15T08:00:00-04:00"),
        ("time", "2026-07-15 12:00Z"),
    ):
        found = year_of(f"{stamp},70,60,3,0", head=HEAD.replace("time [America/New_York]", head))
        assert (str(found.start[0]), found.offset_h) == ("2026-07-15T06:00", -5.0)


def test_a_zone_of_half_hours() -> None:
    """India's standard time is 5:30 east."""
    found = year_of("2026-01-15 08:00,70,60,3,0", head=HEAD.replace("America/New_York", "Asia/Kolkata"))
    assert (str(found.start[0]), found.offset_h) == ("2026-01-15T07:00", 5.5)


def test_a_winter_over_new_year_is_one_log() -> None:
    """Hours run on through midnight of 31 December."""
    found = year_of("2026-12-31 23:30,30,20,3,0", "2027-01-01 00:30,30,20,3,0")
    assert [str(hour) for hour in found.start] == ["2026-12-31T23:00", "2027-01-01T00:00"]


ROW = "2026-01-15 08:00,30,20,3,0"
REFUSED = {
    "no zone": (
        [ROW], HEAD.replace(" [America/New_York]", ""),
        "log.csv:2:1  time\n  read:   2026-01-15 08:00\n"
        "  needs:  an offset in the stamp, or a time zone by name, or the hours that the logger's clock is before or "
        "behind UTC in the first line\n  write:  time [America/New_York], time [UTC-5] or time [UTC]",
    ),
    "a zone that is none": (
        [ROW], HEAD.replace("America/New_York", "Eastern"),
        "log.csv:1:1  time\n  read:   Eastern\n"
        "  needs:  a time zone by name, or the hours that the logger's clock is before or behind UTC\n"
        "  write:  time [America/New_York], time [UTC-5] or time [UTC]",
    ),
    "both a zone and an offset": (
        ["2026-01-15 08:00-05:00,30,20,3,0"], HEAD,
        "log.csv:2:1  time\n  read:   2026-01-15 08:00-05:00\n"
        "  needs:  a time without an offset, for the first line names the clock\n  write:  2026-01-15 08:00",
    ),
    "a date in words": (
        ["Jan 15 08:00,30,20,3,0"], HEAD,
        "log.csv:2:1  time\n  read:   Jan 15 08:00\n"
        "  needs:  a date and time like 2026-01-15 07:00, of the calendar and the clock",
    ),
    "a day that is none": (
        ["2026-02-30 08:00,30,20,3,0"], HEAD,
        "log.csv:2:1  time\n  read:   2026-02-30 08:00\n"
        "  needs:  a date and time like 2026-01-15 07:00, of the calendar and the clock",
    ),
    "rows out of order": (
        [ROW, "2026-01-15 07:00,30,20,3,0"], HEAD,
        "log.csv:3:1  time\n  read:   2026-01-15 07:00\n  needs:  a time after that of the line before it",
    ),
    "a unit left out": (
        [ROW], HEAD.replace("air [F]", "air"),
        "log.csv:1:1  air\n  read:   air\n  needs:  its unit, one of F, C, K\n  write:  air [F]",
    ),
    "a unit of another kind": (
        [ROW], HEAD.replace("rain [in]", "rain [psf]"),
        "log.csv:1:1  rain\n  read:   rain [psf]\n  needs:  its unit, one of in, mm, cm\n  write:  rain [in]",
    ),
    "a column that is not known": (
        [ROW], HEAD.replace("rain [in]", "rainfall [in]"),
        "log.csv:1:1  heading\n  read:   rainfall [in]\n"
        "  needs:  one of time, air, dew point, humidity, wind, gust, rain, cloud, sun, snow, thunder\n"
        "  write:  rain [in]",
    ),
    "a column twice": (
        [ROW], HEAD.replace("rain [in]", "air [C]"),
        "log.csv:1:1  air\n  read:   air [C]\n  needs:  this column once",
    ),
    "a column that must be there": (
        ["2026-01-15 08:00,30,3,0"], HEAD.replace("dew point [F],", ""),
        "log.csv:1:1  dew point\n  read:   no such column\n  needs:  this column\n  write:  dew point [F]",
    ),
    "a cell too few": (
        ["2026-01-15 08:00,30,20,3"], HEAD,
        "log.csv:2:1  cells\n  read:   2026-01-15 08:00,30,20,3\n"
        "  needs:  5 cells without quotes, as the first line has",
    ),
    "a unit in a cell": (
        ["2026-01-15 08:00,30 F,20,3,0"], HEAD,
        "log.csv:2:1  air\n  read:   30 F\n  needs:  a number without its unit, or nothing",
    ),
    "no row": ([], HEAD, "log.csv:1:1  rows\n  read:   no row\n  needs:  a row for each reading"),
    "two years": (
        [ROW, "2027-06-15 08:00,30,20,3,0"], HEAD,
        "log.csv  rows\n  read:   12384 hours from first to last\n  needs:  the hours of one year at most",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_broken_logs_are_refused(case: str) -> None:
    """The whole message, with its line."""
    rows, head, text = REFUSED[case]
    assert refusal(*rows, head=head) == text


def test_a_log_is_told_by_its_first_cell() -> None:
    """`time`, with a zone or without; other words are not a log's."""
    assert detect_format(HEAD.encode()) == "logger"
    assert [looks_like(head) for head in ("time,air [F]", "Time [UTC] ,x", "timer,air", "LOCATION,a", "")] == [
        True, True, False, False, False,
    ]  # fmt: skip


def test_each_unit_has_a_factor() -> None:
    """Every unit offered is read: one unit of each column gives a number."""
    for name, units in UNITS.items():
        for unit in units:
            column = f"{name} [{unit}]" if unit else name
            others = [one for one in ("air [F]", "dew point [F]", "wind [mph]") if not one.startswith(name)]
            found = year_of(
                "2026-01-15 08:00," + "1," * len(others) + "1", head=",".join(["time [UTC]", *others, column])
            )
            assert len(found.start) == 1


@settings(deadline=None, max_examples=150)
@given(
    st.lists(st.text(alphabet='0123456789,.-+: eNnaTZ/[]F%"', max_size=40), max_size=6),
    st.sampled_from(
        [HEAD, HEAD.replace("America/New_York", "UTC"), "time,air [F]", "time [x],air [F],wind [mph],gust [q]"]
    ),
)
def test_any_rows_are_read_or_refused(rows: list[str], head: str) -> None:
    """No text gives a traceback."""
    try:
        found = year_of(*rows, head=head)
    except Refused as refused:
        assert refused.text()
    else:
        assert len(found.start) >= 1
