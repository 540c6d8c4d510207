"""ISD-Lite files: UTC laid on local standard hours, traces, six-hour rain, absent hours; broken files refused."""

import gzip
from importlib import resources

import numpy as np
import pytest
from weather_sample import isdlite

from lapwright.faults import Refused
from lapwright.intake.weather_clean import Station
from lapwright.intake.weather_isdlite import read, standard_offset_h
from lapwright.intake.weather_source import read_bundled

STATION = Station(name="t", origin="made for a test", latitude=42, longitude=-88, elevation=200, offset_h=-6)


def test_every_line_of_a_bundled_year_stands_where_it_belongs() -> None:
    """An observation stamped HH UTC was made up to HH:00: its hour begins one earlier, seven earlier in UTC-6."""
    year, _ = read_bundled("chicago-2015")
    packed = (resources.files("lapwright.intake") / "years" / "725300-2015.gz").read_bytes()
    at = {str(start): hour for hour, start in enumerate(year.start)}
    seen = 0
    for line in gzip.decompress(packed).decode().splitlines():
        utc = np.datetime64(f"{line[:4]}-{line[5:7]}-{line[8:10]}T{line[11:13]}:00", "m")
        hour = at.get(str(utc - np.timedelta64(7 * 60, "m")))
        seen += hour is not None and year.air_c[hour] == int(line[13:19]) / 10
    assert seen == 8751  # 8758 lines, seven of them in 2014 by local time
    assert int(year.absent.sum()) == 9  # two left out by the station, seven in the file of 2016


@pytest.mark.parametrize(("longitude", "hours"), [(-87.9, -6), (-141.9, -9), (-79.95, -5), (0.0, 0), (151.2, 10)])
def test_standard_time_goes_by_the_sun(longitude: float, hours: int) -> None:
    """A whole hour for each 15° of longitude."""
    assert standard_offset_h(longitude) == hours


def test_a_trace_is_no_depth_and_not_dry() -> None:
    """-1 is a trace: 0 mm, and told."""
    year, mended = read(isdlite({100: {"rain": -1}}), file="t", station=STATION)
    assert year.trace is not None
    assert np.flatnonzero(year.trace).tolist() == [93]
    assert year.rain_mm[93] == 0
    assert mended[-1].found == "1 hours with rain or snow but no depth (a trace), first 2017-01-04 21:00"


def test_six_dry_hours_fill_what_the_hours_do_not_tell() -> None:
    """Six hours without rain are six dry hours; six hours with some leave the hour unknown."""
    cells = {hour: {"rain": -9999} for hour in range(100, 130)} | {
        112: {"rain": -9999, "six": 0}, 120: {"rain": -9999, "six": 8}, 126: {"rain": -9999, "six": -1},
    }  # fmt: skip
    year, _ = read(isdlite(cells), file="t", station=STATION)
    assert np.flatnonzero(year.rain_mm[93:123] == 0).tolist() == [7, 8, 9, 10, 11, 12]


def test_short_gaps_are_bridged_long_ones_and_absent_hours_are_not() -> None:
    """Three hours are bridged on a line, four are not; an hour that is not in the file stays empty within a bridge."""
    cells = {hour: {"air": -9999} for hour in (50, 51, 52, 70, 71, 72, 73, 90, 92)} | {53: {"air": 140}}
    year, _ = read(isdlite(cells, change=lambda lines: lines.pop(91)), file="t", station=STATION)
    assert year.air_c[43:46].tolist() == pytest.approx([11.0, 12.0, 13.0])
    assert np.isnan(year.air_c[63:67]).all()
    assert (year.air_c[83], year.air_c[85]) == (10.0, 10.0)
    assert np.isnan(year.air_c[84])
    assert bool(year.absent[84])
    assert np.flatnonzero(year.bridged).tolist() == [43, 44, 45, 83, 85]


def test_rain_is_never_bridged() -> None:
    """One hour without a depth between two dry ones stays unknown."""
    year, _ = read(isdlite({60: {"rain": -9999}}), file="t", station=STATION)
    assert np.isnan(year.rain_mm[53])
    assert not year.bridged[53]


def test_sky_codes() -> None:
    """Eighths; 9 is a sky that can't be seen; 19 and -9999 tell nothing."""
    codes = {60: 0, 61: 6, 62: 8, 63: 9, 64: 19, 65: -9999}
    year, _ = read(isdlite({hour: {"sky": code} for hour, code in codes.items()}), file="t", station=STATION)
    assert year.cloud[53:57].tolist() == [0.0, 0.75, 1.0, 1.0]
    assert np.isnan(year.cloud[57:59]).all()


def test_absurd_readings_are_told_and_not_used() -> None:
    """-99.9 °C is colder than any place of the country; a dew point far over the air can't be."""
    year, mended = read(isdlite({60: {"air": -999}, 80: {"dew": 180}, 90: {"dew": 104}}), file="t", station=STATION)
    told = [note.text() for note in mended]
    assert (
        "t  air temperature: 1 readings outside -70 to 57 °C (as far as -99.9), first 2017-01-03 05:00; "
        "taken as not reported" in told
    )
    assert "t  dew point: 1 hours well over the air, first 2017-01-04 01:00; taken as not reported" in told
    assert "t  dew point: 1 hours a little over the air, first 2017-01-04 11:00; set to the air temperature" in told
    assert year.dew_point_c[83] == 10.0


REFUSED = {
    "broken off in a line": (
        lambda lines: lines.__setitem__(-1, lines[-1][:30]),
        "w:8760:1  line\n  read:   2017 12 31 23   100    50 1013\n"
        "  needs:  year, month, day, hour and eight whole numbers at fixed width, 61 characters",
    ),
    "two years": (
        lambda lines: lines.append("2018" + lines[0][4:]),
        "w:8761:1  date\n  read:   2018 01 01 00   100    50 10130   180    20     4     0 -9999\n"
        "  needs:  the year 2017 alone, a file for each year",
    ),
    "an hour twice": (
        lambda lines: lines.insert(1, lines[0]),
        "w:2:1  date\n  read:   2017 01 01 00   100    50 10130   180    20     4     0 -9999\n"
        "  needs:  an hour after the line before it",
    ),
    "no such day": (
        lambda lines: lines.__setitem__(0, lines[0].replace("01 01", "02 31")),
        "w:1:1  date\n  read:   2017 02 31 00   100    50 10130   180    20     4     0 -9999\n"
        "  needs:  a date and hour of the calendar",
    ),
}


@pytest.mark.parametrize("case", REFUSED)
def test_broken_files_are_refused_by_line(case: str) -> None:
    """The whole message names the file, the line, what was read and what is needed."""
    change, text = REFUSED[case]
    with pytest.raises(Refused) as refused:
        read(isdlite(change=change), file="w", station=STATION)
    assert refused.value.text() == text


def test_part_of_a_year_is_read() -> None:
    """A file that ends in March leaves the other hours absent."""
    year, _ = read(isdlite(change=lambda lines: lines.__delitem__(slice(1440, None))), file="t", station=STATION)
    assert int((~year.absent).sum()) == 1440 - 7


def test_a_winter_without_a_flake_was_not_measured() -> None:
    """61 dry days of frost tell of a gauge without heat, not of a dry winter; 59 days and mild ones are believed."""
    frost = {hour: {"air": -50, "dew": -80} for hour in range(61 * 24)}
    for cells, wet_hour, unknown in ((frost, 61 * 24, 61 * 24 - 7), (frost, 59 * 24, 0), ({}, 61 * 24, 0)):
        year, mended = read(isdlite(cells | {wet_hour: {"rain": 5}}), file="t", station=STATION)
        assert int(np.isnan(year.rain_mm[~year.absent]).sum()) == unknown
        assert ("snow not measured" in "".join(note.done for note in mended)) is (unknown > 0)


def test_the_gauge_of_the_coldest_bundled_year_does_not_measure_snow() -> None:
    """Northway reports no rain, snow or trace from October to April; those hours are not called dry."""
    year, _ = read_bundled("northway-2018")
    winter = (year.start < np.datetime64("2018-04-01")) | (year.start >= np.datetime64("2018-11-01"))
    assert np.isnan(year.rain_mm[winter]).all()
    assert np.isfinite(year.rain_mm[~winter]).mean() > 0.6
