"""EPW files: hour 1 begins at midnight; missing, absurd and unmeasured readings are found; broken files refused."""

import numpy as np
import pytest
from weather_sample import epw

from lapwright.faults import Refused
from lapwright.intake.weather_epw import is_falling, read


def test_hour_1_begins_at_midnight() -> None:
    """The first row is the hour from 0:00, the last the one from 23:00, in local standard time."""
    year, _ = read(epw({0: {"air": -1.5}, 8759: {"air": -2.5}}), file="t.epw")
    assert (str(year.start[0]), year.air_c[0]) == ("2017-01-01T00:00", -1.5)
    assert (str(year.start[-1]), year.air_c[-1]) == ("2017-12-31T23:00", -2.5)
    assert (year.latitude, year.longitude, year.offset_h, year.elevation) == (60.0, -150.0, -9.0, 50.0)


def test_missing_is_not_a_reading() -> None:
    """99.9 °C, 9999 W/m², 999 m/s, 99 tenths and 999 mm are the format's words for nothing."""
    nothing = {"air": 99.9, "dew": 99.9, "ghi": 9999, "wind": 999, "cloud": 99, "depth": 999, "snow": 999}
    year, _ = read(epw(dict.fromkeys(range(100, 110), nothing)), file="t.epw")
    for values in (
        year.air_c,
        year.dew_point_c,
        year.ghi_w_m2,
        year.wind_m_s,
        year.cloud,
        year.rain_mm,
        year.snow_depth_m,
    ):
        assert np.isnan(values[100:110]).all()
        assert np.isfinite(values[[99, 110]]).all()


def test_units_of_the_format() -> None:
    """Cloud in tenths becomes a share, snow in centimetres metres."""
    year, _ = read(epw({10: {"cloud": 3, "snow": 12}}), file="t.epw")
    assert year.cloud[10] == pytest.approx(0.3)
    assert year.snow_depth_m[10] == pytest.approx(0.12)


def test_the_observer_tells_what_the_gauge_did_not() -> None:
    """Flag 0: light snow is a trace, nothing is dry though the depth is missing.  Flag 9 tells nothing."""
    cells = {
        10: {"depth": 999, "observed": 0, "code": "999099999"},
        11: {"depth": 999, "observed": 0, "code": "999999999"},
        12: {"depth": 999, "observed": 9, "code": "999999999"},
    }
    year, _ = read(epw(cells), file="t.epw")
    assert year.trace is not None
    assert np.flatnonzero(year.trace).tolist() == [10]
    assert np.isnan(year.rain_mm[10])
    assert year.rain_mm[11] == 0
    assert np.isnan(year.rain_mm[12])


@pytest.mark.parametrize(
    ("code", "falls"),
    [(999999999, False), (929999999, True), (999992999, True), (99999999, False), (199999999, False),
     (999999996, True), (999999199, False), (999999949, False), (np.nan, False), (-1.0, True), (1e30, False)],
)  # fmt: skip
def test_digits_of_the_weather_code(code: float, falls: bool) -> None:
    """Rain, drizzle, snow, sleet and ice pellets fall; thunder, fog and blowing snow do not; leading zeros count."""
    assert is_falling(np.array([float(code)])).tolist() == [falls]


def test_rain_without_its_period_is_of_one_hour() -> None:
    """A depth with the period missing is taken for the hour, and told."""
    year, mended = read(epw({7: {"depth": 3, "period": 99}}), file="t.epw")
    assert year.rain_mm[7] == 3
    assert "t.epw  rain: 1 depths without their period; taken as of one hour" in [note.text() for note in mended]


def test_a_leap_year_of_its_own_is_kept() -> None:
    """8784 rows of one year with 29 February stay on its calendar."""
    year, _ = read(epw(year=2016), file="t.epw")
    assert len(year.start) == 8784
    assert str(year.start[59 * 24]) == "2016-02-29T00:00"


def test_a_leap_year_without_its_leap_day_has_hours_absent() -> None:
    """8760 rows of 2016 leave out 24 hours of 29 February, which are kept as absent."""
    year, mended = read(
        epw(year=2016, change=lambda lines: lines.__delitem__(slice(8 + 59 * 24, 8 + 60 * 24))), file="t.epw"
    )
    assert np.flatnonzero(year.absent).tolist() == list(range(59 * 24, 60 * 24))
    assert np.isnan(year.air_c[year.absent]).all()
    assert mended[0].text() == (
        "t.epw  hours: 24 of 8784 hours are not in the file, first 2016-02-29 00:00; kept as hours without a reading"
    )


ROW = "2017,1,1,2,60,?9?9,10.0,5.0,0,0,0,0,0,0,0,0,0,0,0,0,0,2.0,0,5,0,0,9,999999999,0,0,0,0,0,0,1"
REFUSED = {
    "a cell too many": (
        lambda lines: lines.__setitem__(9, lines[9] + ",1"),
        f"w.epw:10:1  cells\n  read:   {ROW},1\n  needs:  32 to 35 cells",
    ),
    "a cell less than the others": (
        lambda lines: lines.__setitem__(9, lines[9].rsplit(",", 1)[0]),
        f"w.epw:10:1  cells\n  read:   {ROW[:-2]}\n  needs:  35 cells as in the line before",
    ),
    "a word in a reading": (
        lambda lines: lines.__setitem__(9, lines[9].replace("10.0", "mild")),
        "w.epw:10:1  temp_air\n  read:   mild\n  needs:  a number",
    ),
    "no hour": (
        lambda lines: lines.__setitem__(9, lines[9].replace(",2,60", ",25,60")),
        f"w.epw:10:1  date\n  read:   {ROW.replace(',2,60', ',25,60')}\n  needs:  a date and hour of the calendar",
    ),
    "a date in words": (
        lambda lines: lines.__setitem__(9, lines[9].replace("2017,1,", "2017,Jan,")),
        f"w.epw:10:1  date\n  read:   {ROW.replace('2017,1,', '2017,Jan,')}\n"
        "  needs:  year, month, day, hour (1 to 24) in whole numbers",
    ),
    "a heading lost": (
        lambda lines: lines.pop(0),
        "w.epw:1:1  heading\n  read:   DESIGN CONDITIONS,0\n"
        "  needs:  LOCATION with ten cells, seven more heading lines, then hourly rows",
    ),
    "no latitude": (
        lambda lines: lines.__setitem__(0, lines[0].replace("60.0", "")),
        "w.epw:1:1  latitude\n  needs:  a number",
    ),
    "half-hourly": (
        lambda lines: lines.extend(lines[8:]),
        "w.epw  rows\n  read:   17520 hourly rows\n  needs:  8760 hourly rows of one year (8784 with 29 February)",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_broken_files_are_refused_by_line(case: str) -> None:
    """The whole message names the file, the line, what was read and what is needed."""
    change, text = REFUSED[case]
    with pytest.raises(Refused) as refused:
        read(epw(change=change), file="w.epw")
    assert refused.value.text() == text
