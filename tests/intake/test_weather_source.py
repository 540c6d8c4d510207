"""Bundled years by name, formats by their first bytes, and bytes that are no weather."""

import gzip
import io

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from weather_sample import epw, isdlite, tmy3

from lapwright.faults import Refused
from lapwright.intake.weather_clean import Station
from lapwright.intake.weather_source import HEAD_BYTES, bundled_names, detect_format, read_bundled, read_weather
from lapwright.intake.weather_text import MOST_BYTES
from lapwright.weather.moist import dew_point_c

SITE = Station(name="site", origin="the job's site", latitude=60, longitude=-150, elevation=50, offset_h=-9)


def test_bundled_years_in_their_order() -> None:
    """The names of the job file's reference."""
    assert bundled_names() == ("greensboro", "sand-point", "chicago-2015", "chicago-2016", "northway-2018")


@pytest.mark.parametrize("name", ["greensboro", "sand-point", "chicago-2015", "chicago-2016", "northway-2018"])
def test_bundled_years_are_whole(name: str) -> None:
    """Each is a year of rising hours, one an hour, with readings in most of them, and says where it comes from."""
    year, mended = read_bundled(name)
    assert year.name == name
    assert len(year.start) in (8760, 8784)
    assert np.all(np.diff(year.start) == np.timedelta64(60, "m"))
    assert np.isfinite(year.air_c).mean() > 0.99
    assert np.nanmax(year.dew_point_c - year.air_c) <= 1e-9
    assert year.origin
    assert [f"{note.place}: {note.found}; {note.done}" for note in mended] == list(year.notes)


def test_the_same_file_gives_the_same_year() -> None:
    """Reading twice gives the same numbers and the same notes."""
    first, second = (read_bundled("northway-2018")[0] for _ in range(2))
    assert first.notes == second.notes
    assert np.array_equal(first.air_c, second.air_c, equal_nan=True)


def test_another_name_is_refused_with_the_choices() -> None:
    """The choices are told in their order."""
    with pytest.raises(Refused) as refused:
        read_bundled("atlantis")
    assert refused.value.text() == (
        "  weather.year\n  read:   atlantis\n"
        "  needs:  one of greensboro, sand-point, chicago-2015, chicago-2016, northway-2018\n  write:  year: greensboro"
    )


def test_formats_are_told_by_their_first_bytes() -> None:
    """Each format has its own begin, and other bytes have none."""
    heads = [make().read(HEAD_BYTES) for make in (epw, tmy3, isdlite)]
    assert [detect_format(head) for head in heads] == ["epw", "tmy3", "isd-lite"]
    assert [detect_format(head) for head in (b"", b"\xff\xfe\x00", b"LOCATION", b"a,b\nc,d\n")] == [None] * 4


@pytest.mark.parametrize("make", [epw, tmy3, isdlite])
def test_a_file_is_read_by_its_format_zipped_or_not(make: object) -> None:
    """The same year comes out of the file and of its gzip."""
    plain, _ = read_weather(make(), file="w", station=SITE, dew_point=dew_point_c)
    packed, _ = read_weather(io.BytesIO(gzip.compress(make().read())), file="w", station=SITE, dew_point=dew_point_c)
    assert np.array_equal(plain.air_c, packed.air_c, equal_nan=True)
    assert plain.offset_h == -9.0


@pytest.mark.parametrize("make", [epw, tmy3, isdlite])
def test_line_ends_of_other_systems_do_not_matter(make: object) -> None:
    """CR LF, and a mark at the begin of the text, give the same year."""
    plain, _ = read_weather(make(), file="w", station=SITE, dew_point=dew_point_c)
    other, _ = read_weather(
        io.BytesIO(b"\xef\xbb\xbf" + make().read().replace(b"\n", b"\r\n")),
        file="w",
        station=SITE,
        dew_point=dew_point_c,
    )
    assert np.array_equal(plain.rain_mm, other.rain_mm, equal_nan=True)


BRING = "an EPW, TMY3 CSV, ISD-Lite or logger CSV file of one year"
FORMATS = "an EPW, TMY3 CSV or ISD-Lite file, or a logger's CSV whose first line names its columns"
HOSTILE = {
    "empty": (b"", f"w  weather\n  read:   an empty file\n  needs:  {BRING}"),
    "blank": (b"\n \n\n", f"w  weather\n  read:   an empty file\n  needs:  {BRING}"),
    "binary": (b"\x00\x01\x02", f"w  weather\n  read:   bytes that are no text\n  needs:  {BRING}"),
    "words": (b"hello\nthere\n", f"w:1:1  weather\n  read:   hello\n  needs:  {FORMATS}"),
    "semicolons": (
        b"time [UTC-5]; air [F]; humidity [%]; wind [mph]\n2026-01-15 07:00; 24,3; 81; 6\n",
        "w:1:1  weather\n  read:   time [UTC-5]; air [F]; humidity [%]; wind [mph]\n"
        "  needs:  a logger's CSV with commas between its cells, points in its numbers and no quotes\n"
        "  write:  time [America/New_York], air [F], humidity [%], wind [mph]",
    ),
    "gzip broken off": (
        gzip.compress(b"x" * 9999)[:20],
        "w  weather\n  read:   a gzip file that breaks off or is damaged\n  needs:  the whole file",
    ),
    "gzip of more than there is room for": (
        gzip.compress(b" " * (MOST_BYTES + 1), compresslevel=1),
        f"w  weather\n  read:   more than 32 MB\n  needs:  {BRING}",
    ),
}


@pytest.mark.parametrize("case", HOSTILE)
def test_what_is_no_weather_is_refused(case: str) -> None:
    """The whole message, and never a traceback."""
    data, text = HOSTILE[case]
    with pytest.raises(Refused) as refused:
        read_weather(io.BytesIO(data), file="w", station=SITE, dew_point=dew_point_c)
    assert refused.value.text() == text


@settings(deadline=None)
@given(data=st.binary(max_size=2000))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    """No bytes give a traceback."""
    with pytest.raises(Refused):
        read_weather(io.BytesIO(data), file="w", station=SITE, dew_point=dew_point_c)


@settings(deadline=None, max_examples=25)
@given(
    make=st.sampled_from([epw, tmy3, isdlite]),
    line=st.integers(0, 20),
    place=st.integers(0, 60),
    junk=st.text(alphabet="0123456789,.-+eE nNaAiIfF\"'\t/:;", max_size=8),
)
def test_a_damaged_line_is_read_or_refused(make: object, line: int, place: int, junk: str) -> None:
    """Whatever stands in one of the first lines, the file is read with its readings in bounds, or refused."""

    def damage(lines: list[str]) -> None:
        lines[line] = lines[line][:place] + junk + lines[line][place + len(junk) :]

    try:
        year, _ = read_weather(make(change=damage), file="w", station=SITE, dew_point=dew_point_c)
    except Refused as refused:
        assert refused.faults
    else:
        known = year.air_c[np.isfinite(year.air_c)]
        assert len(year.start) in (8760, 8784)
        assert np.all((known >= -70) & (known <= 57))
