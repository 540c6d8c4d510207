"""TMY3 files: hours by their begin, sentinels and absurd depths found, broken files refused."""

import csv
import datetime as dt
from importlib import util
from pathlib import Path

import numpy as np
import pytest
from weather_sample import tmy3

from lapwright.faults import Refused
from lapwright.intake.weather_source import read_bundled
from lapwright.intake.weather_tmy3 import read


def rows_of(file: str) -> list[dict[str, str]]:
    """A file of pvlib's data folder, by hand: no reader of ours or of theirs."""
    folder = Path(next(iter(util.find_spec("pvlib").submodule_search_locations))) / "data"
    return list(csv.DictReader((folder / file).read_text().splitlines()[1:]))


def test_every_reading_of_a_bundled_year_stands_at_the_begin_of_its_hour() -> None:
    """The row of 12/25, 14:00 is the hour that begins at 13:00; all 8760 follow, leap February or not."""
    year, _ = read_bundled("greensboro")
    rows = rows_of("723170TYA.CSV")
    stamps = [dt.datetime.strptime(row["Date (MM/DD/YYYY)"], "%m/%d/%Y").replace(year=2001) for row in rows]
    begins = [day + dt.timedelta(hours=int(row["Time (HH:MM)"][:2]) - 1) for day, row in zip(stamps, rows, strict=True)]
    assert year.start.tolist() == begins
    assert year.air_c.tolist() == [float(row["Dry-bulb (C)"]) for row in rows]
    assert year.dew_point_c.tolist() == [float(row["Dew-point (C)"]) for row in rows]
    assert year.ghi_w_m2.tolist() == [float(row["GHI (W/m^2)"]) for row in rows]


def test_a_february_of_a_leap_year_does_not_run_into_march() -> None:
    """The last hour of February 1996 begins at 23:00 on the 28th and is followed by 1 March."""
    year, _ = read_bundled("greensboro")
    ends = int(np.flatnonzero(year.start == np.datetime64("2001-02-28T23:00"))[0])
    assert str(year.start[ends + 1]) == "2001-03-01T00:00"
    assert len(year.start) == 8760
    assert not year.absent.any()


def test_cold_of_a_mild_winter_as_counted_by_hand() -> None:
    """In the mild city's January about 12 % of the hours from 7 to 15 reach 50 °F and 88 % reach 20 °F."""
    year, _ = read_bundled("greensboro")
    clock = (year.start - year.start.astype("datetime64[D]")).astype(int) // 60
    january = (year.start.astype("datetime64[M]").astype(int) % 12 == 0) & (clock >= 7) & (clock < 15)
    assert np.mean(year.air_c[january] >= 10) == pytest.approx(0.12, abs=0.01)
    assert np.mean(year.air_c[january] >= -20 / 3) == pytest.approx(0.88, abs=0.01)


def test_rain_in_tenths_is_found() -> None:
    """The city's depths add up to 8345 "mm" on 0.01 inch steps: 834.5 mm is a year of rain, and it is told."""
    year, mended = read_bundled("greensboro")
    assert np.nansum(year.rain_mm) == pytest.approx(834.5)
    assert "rain: depths of a year deeper than any, on the 0.01 inch steps of gauges ten times over" in "\n".join(
        year.notes
    )
    assert any(note.done == "read as tenths of a millimetre" for note in mended)


def test_sentinels_and_absurd_depths_of_rain_are_unknown_not_dry() -> None:
    """8011 cells of -9900 fill no hour; 193 to 753 mm in an hour are no amounts; six dry hours are dry."""
    year, mended = read_bundled("sand-point")
    told = "\n".join(note.text() for note in mended)
    assert "8011 cells of -9900" in told
    assert "12 readings outside 0 to 130 mm (as far as 255)" in told
    assert np.nanmax(year.rain_mm) <= 130
    rows = rows_of("703165TY.csv")
    six_dry = [
        hour for hour, row in enumerate(rows) if (row["Lprecip depth (mm)"], row["Lprecip quantity (hr)"]) == ("0", "6")
    ]
    assert np.all(year.rain_mm[six_dry] == 0)
    alone = [hour for hour, row in enumerate(rows) if row["Lprecip depth (mm)"] == "-9900"]
    assert np.isnan(year.rain_mm[alone]).sum() > 6000


def test_rain_over_several_hours_fills_no_hour() -> None:
    """3 mm in six hours tells that it rained, not when."""
    year, _ = read(
        tmy3({hour: {"depth": -9900, "period": -9900} for hour in range(95, 105)} | {100: {"depth": 3, "period": 6}}),
        file="t",
    )
    assert np.isnan(year.rain_mm[95:105]).all()


def test_rain_that_was_seen_but_not_measured_is_not_dry() -> None:
    """Present weather 71 (snow) with a depth of 0 is a trace; 45 (fog) is not."""
    year, mended = read(tmy3({50: {"code": 71}, 60: {"code": 45}}), file="t")
    assert year.trace is not None
    assert np.flatnonzero(year.trace).tolist() == [50]
    assert mended[-1].text() == (
        "t  rain: 1 hours with rain or snow but no depth (a trace), first 1999-01-03 02:00; not counted as dry"
    )


def test_a_year_without_a_drop_was_not_measured() -> None:
    """A column of zeros tells nothing."""
    year, mended = read(tmy3({4000: {"depth": 0}}), file="t")
    assert np.isnan(year.rain_mm).all()
    assert ("not a drop in the whole year", "taken as not reported") in [(note.found, note.done) for note in mended]


def test_months_of_several_years_are_laid_on_one() -> None:
    """The years that the months come from are told."""
    _, mended = read_bundled("sand-point")
    assert mended[0].text() == (
        "sand-point  calendar: months of 1991, 1994, 1995, 1996, 1997, 1998, 1999, 2005; laid on one year, written 2001"
    )


def cut(line: int) -> object:
    """Leave the last cell of a line out."""
    return lambda lines: lines.__setitem__(line, lines[line].rsplit(",", 1)[0])


def replaced(line: int, old: str, new: str) -> object:
    """Change a line."""
    return lambda lines: lines.__setitem__(line, lines[line].replace(old, new, 1))


ROW_9 = "01/01/1999,08:00,0,5,10.0,5.0,2.0,0,1,0"
REFUSED = {
    "a cell too few": (cut(9), f"w.csv:10:1  cells\n  read:   {ROW_9[:-2]}\n  needs:  10 cells"),
    "a quote": (
        replaced(9, "5.0", '"5.0"'),
        'w.csv:10:1  cells\n  read:   01/01/1999,08:00,0,5,10.0,"5.0",2.0,0,1,0\n  needs:  10 cells',
    ),
    "no number": (replaced(9, "10.0", "ten"), "w.csv:10:1  Dry-bulb (C)\n  read:   ten\n  needs:  a number"),
    "no such day": (
        replaced(9, "01/01/", "02/30/"),
        "w.csv:10:1  date\n  read:   02/30/1999,08:00,0,5,10.0,5.0,2.0,0,1,0\n"
        "  needs:  a date and hour of the calendar",
    ),
    "another date form": (
        replaced(9, "01/01/1999", "1/1/1999"),
        "w.csv:10:1  date\n  read:   1/1/1999,08:00,0,5,10.0,5.0,2.0,0,1,0\n  needs:  MM/DD/YYYY,HH:00, hours 01 to 24",
    ),
    "an hour twice": (
        replaced(9, "08:00", "07:00"),
        "w.csv:10:1  date\n  read:   01/01/1999,07:00,0,5,10.0,5.0,2.0,0,1,0\n"
        "  needs:  the hour after the line before it, each hour once",
    ),
    "a row too many": (
        lambda lines: lines.append(lines[-1]),
        "w.csv  rows\n  read:   8761 hourly rows\n  needs:  8760 hourly rows of one year (8784 with 29 February)",
    ),
    "broken off": (
        lambda lines: lines.__delitem__(slice(5000, None)),
        "w.csv  rows\n  read:   4998 hourly rows\n  needs:  8760 hourly rows of one year (8784 with 29 February)",
    ),
    "no wind column": (
        replaced(1, "Wspd (m/s)", "Wspeed"),
        "w.csv:2:1  Wspd (m/s)\n  read:   no such column\n  needs:  this column, once",
    ),
    "no heading": (
        lambda lines: lines.pop(0),
        "w.csv:1:1  heading\n  read:   Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),OpqCld (tenths),Dry-bulb (C),"
        "Dew-point (C),Wspd (m/s),Lprecip depth (mm),Lpr…\n"
        "  needs:  station, name, state, time zone, latitude, longitude, elevation",
    ),
    "a place that is none": (
        replaced(0, "60.000", "nan"),
        "w.csv:1:1  latitude\n  read:   nan\n  needs:  a number",
    ),
    "a time zone that is none": (
        replaced(0, "-9.0", "900"),
        "w.csv:1:1  time zone\n  read:   900\n  needs:  hours east of UTC, -12 to 14",
    ),
    "a station that is none": (
        replaced(0, "700000", "7e5"),
        "w.csv:1:1  station\n  read:   7e5\n  needs:  a whole number",
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", REFUSED)
def test_broken_files_are_refused_by_line(case: str) -> None:
    """The whole message names the file, the line, what was read and what is needed."""
    change, text = REFUSED[case]
    with pytest.raises(Refused) as refused:
        read(tmy3(change=change), file="w.csv")
    assert refused.value.text() == text


def test_empty_and_infinite_cells_are_found_not_used() -> None:
    """An empty cell, NaN and infinity are no readings; each is bridged or told."""
    year, mended = read(tmy3({20: {"air": ""}, 30: {"air": "NaN"}, 40: {"air": "inf"}}), file="t")
    assert year.air_c[[20, 30, 40]].tolist() == [10.0, 10.0, 10.0]
    assert np.flatnonzero(year.bridged).tolist() == [20, 30, 40]
    assert "3 of 8760 hours not reported, first 1999-01-01 20:00" in [note.found for note in mended]
    assert "1 readings outside -70 to 57 °C (as far as inf), first 1999-01-02 16:00" in [note.found for note in mended]
