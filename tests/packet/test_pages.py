"""Words and sums that the pages are made of."""

import dataclasses
import math

import numpy as np
import pytest
from papers import CAP, days, shed
from shapely import LineString, MultiLineString

from lapwright.assembly.values import Assembly, Ply
from lapwright.defaults.table import table
from lapwright.packet.pages.cover import plan_area, side_words
from lapwright.packet.pages.hotwork import least_distance
from lapwright.packet.pages.lists import origin_words
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.readings import sheet_limits
from lapwright.packet.pages.strip import day_strip, windows
from lapwright.packet.pages.words import bearing, counted, date_words, shortened, soft, spans
from lapwright.packet.xlsx import listed


@pytest.mark.parametrize(
    ("vector", "said"),
    [
        ((0.0, -1.0), "S"),
        ((-1.0, 0.0), "W"),
        ((math.sqrt(0.5), math.sqrt(0.5)), "NE"),
        ((math.sin(math.radians(35.5)), math.cos(math.radians(35.5))), "N 35° 30' E"),
        ((math.sin(math.radians(200)), math.cos(math.radians(200))), "S 20° W"),
        ((math.sin(math.radians(350)), math.cos(math.radians(350))), "N 10° W"),
        ((-0.0, -1.0), "S"),
    ],
)
def test_bearings_are_said_from_the_meridian(vector: tuple[float, float], said: str) -> None:
    """Compass points where exact, else degrees and minutes east or west of north or south, as surveyors write them."""
    assert bearing(vector) == said


def test_dates_can_not_be_taken_for_others() -> None:
    """The month is a word, so that 1 February is not read as 2 January."""
    assert date_words(days()[0].date) == "Mon 11 Jan 2027"
    assert date_words(None) == ""


def test_counted_things() -> None:
    """One and many, with the ending that English asks for."""
    assert [counted(1, "box"), counted(2, "box"), counted(0, "lap"), counted(2, "person", "people")] == [
        "1 box",
        "2 boxes",
        "0 laps",
        "2 people",
    ]


def test_runs_of_hours() -> None:
    """Hours that follow each other are one window, named from the first to the end of the last."""
    assert spans([7, 8, 9, 12, 14, 15]) == [(7, 9), (12, 12), (14, 15)]
    cells = ["shut"] * 9 + ["heat"] * 2 + ["warm"] * 3 + ["shut"] + ["open"] + ["shut"] * 8
    assert windows(cells) == "9-14 heat, warm; 15-16 open"
    assert windows(["open", "shut"] * 12) == "0-23, with gaps"
    assert windows(["shut"] * 24) == "shut all day"


def test_strip_covers_24_hours_and_tells_what_shuts_the_crews_hours() -> None:
    """Runs of each operation add up to a day; the hour before light is told with its reason for all operations."""
    strip = day_strip(open_book(shed()), days()[0])
    assert strip is not None
    assert {sum(count for _, count in row["runs"]) for row in strip["rows"]} == {24}
    assert strip["why"] == ["7-8 dark: all work"]
    assert (strip["from"], strip["to"]) == (7, 17)


def test_hours_to_measure_first_are_told() -> None:
    """Hours in which the spread of the models straddles a limit are named, those outside the crew's hours are not."""
    hours = shed().hours
    assert hours is not None
    first = 10 * 24
    measure = np.isin(np.arange(8760), [first + 3, first + 9, first + 10, first + 14])
    day = dataclasses.replace(days()[0], hours=tuple(range(first, first + 24)))
    strip = day_strip(open_book(shed(hours=dataclasses.replace(hours, measure=measure))), day)
    assert strip is not None
    assert strip["measure"] == "Measure first at 9-11, 14-15: the models of the surface differ across a limit."


def test_an_hour_that_the_weather_lacks_has_no_state() -> None:
    """Hours outside the weather year show as no reading, never as open."""
    strip = day_strip(open_book(shed()), days()[1])
    assert strip is not None
    assert strip["rows"][0]["runs"] == [["none", 24]]


@pytest.mark.parametrize("seed", range(20))
def test_distance_between_sets_of_segments(seed: int) -> None:
    """Least distances agree with shapely's, crossings and points included."""
    rng = np.random.default_rng(seed)
    one, other = rng.uniform(0, 10, (4, 4)), rng.uniform(0, 10 + seed, (3, 4)) + seed / 4
    other[0, 2:] = other[0, :2]
    expected = MultiLineString([LineString(s.reshape(2, 2)) for s in one]).distance(
        MultiLineString([LineString(s.reshape(2, 2)) for s in other[1:]])
    )
    at_point = min(LineString(s.reshape(2, 2)).distance(LineString([other[0, :2], other[0, :2] + 1e-12])) for s in one)
    assert least_distance(one, other) == pytest.approx(min(expected, at_point), abs=1e-9)


def test_area_in_plan_leaves_out_openings() -> None:
    """6 m by 1.9 m less 1 m by 0.5 m is 10.9 m²."""
    assert plan_area(shed().areas[0]) == pytest.approx(10.9, abs=1e-9)


def test_a_sheet_without_limits_is_not_laid() -> None:
    """A sheet whose limits are not given says so in place of a limit."""
    bare = dataclasses.replace(CAP, apply_at_or_above_c=None, with_heat_at_or_above_c=None)
    book = open_book(shed(assembly=Assembly((Ply("cap", bare),))))
    assert sheet_limits(book, book.paper.assembly.plies[0]) == "limit not given: not laid"


def test_long_words_can_break_and_short_ones_stay() -> None:
    """Words of 29 letters and more get a place to break after each 20; mappings and lists are walked."""
    assert soft({"a": ["x" * 28, "y" * 45], "b": 3}) == {
        "a": ["x" * 28, "y" * 20 + "\u200b" + "y" * 20 + "\u200byyyyy"],
        "b": 3,
    }


def test_a_title_is_one_line() -> None:
    """White space is evened out and the rest cut with a mark."""
    assert shortened("a\n b\t c", 60) == "a b c"
    assert shortened("x" * 50, 10) == "xxxxxxxxx…"


def test_common_practice_is_said_once() -> None:
    """`common practice, no source` does not become `common practice, common practice, no source`."""
    rate = shed().settings[0]
    assert origin_words(dataclasses.replace(rate, source="common practice, no source")) == "common practice, no source"
    assert origin_words(dataclasses.replace(rate, origin="published", source="a book")) == "published, a book"


def test_lists_of_ids_that_fit_are_whole() -> None:
    """Nothing is cut where there is room."""
    assert listed(("a", "b")) == "a, b"


def test_rows_of_our_own_defaults_say_where_they_come_from() -> None:
    """The hot-work distance is from memory and says so."""
    row = table("packet")["hot_work_clear"]
    assert (row.value, row.unit, row.origin) == ("35", "ft", "from memory")


def test_sides_are_told_in_ranges() -> None:
    """An outline of a thousand corners takes one line on the cover, not a page of numbers."""
    assert side_words([1, 3, 4, 5, *range(10, 1000)]) == "1, 3-5, 10-999"
