"""The page of warm rolls, its chart, its part of plan.json: the same numbers everywhere."""

import io
import json
from dataclasses import replace
from functools import cache

import jsonschema
import pypdf
import pytest
from papers import shed

from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.heat.values import MonthClock, StoreSetting, Trip, Warmth
from lapwright.packet.drawing import Fill, Stroke, Text
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.warm import switch_words, warm_page
from lapwright.packet.pdf import packet_pdf
from lapwright.packet.planjson import plan_bytes
from lapwright.packet.planschema import plan_schema
from lapwright.packet.plates import make_plates, warm_chart
from lapwright.packet.sheets.rollchart import minute_words, roll_chart
from lapwright.packet.values import Paper
from lapwright.plan.warmth import make_warmth

SETTING = StoreSetting(21.1, 30.0, 10_000.0, 20.0, fuel="propane", stack="pallet", wrapping="spaced")


@cache
def warm_paper() -> Paper:
    """The shed with a warm store."""
    paper = shed()
    return replace(paper, warmth=make_warmth(paper, SETTING))


def warmth() -> Warmth:
    """Its warm rolls."""
    found = warm_paper().warmth
    assert found is not None
    return found


def test_days_and_rolls_are_those_of_the_crew() -> None:
    """The first day has warm work: one roll of the base, one of the cap; the second has none."""
    assert [(day.number, dict(day.rolls)) for day in warmth().days] == [(1, {"base-sa": 1, "cap-sa": 1})]
    assert [sheet.sheet for sheet in warmth().sheets] == ["base-sa", "cap-sa"]


def test_a_roll_is_needed_as_often_as_its_sheet_is_laid() -> None:
    """1 m by 10 m of cap as laid, by six at 47 sf/h each, 85 % of that in the cold: 10/(6·4.366·0.85) h is 1617 s."""
    assert warmth().sheets[1].pace_s == pytest.approx(1616.6, abs=0.5)


def test_the_store_meets_the_coldest_hour_of_all_the_days_it_is_on() -> None:
    """A wrapped pallet heats for days: -30 °C three days before the work counts for it, not for free rolls."""
    paper = shed()
    assert paper.hours is not None
    first = paper.days[0].hours[7]
    weather = paper.hours.weather
    air_c = weather.air_c.copy()
    air_c[(first - 80) % len(air_c)] = -30.0
    cold = replace(paper, hours=replace(paper.hours, weather=replace(weather, air_c=air_c)))
    wrapped, spaced = (make_warmth(cold, replace(SETTING, wrapping=wrapping)) for wrapping in ("wrapped", "spaced"))
    assert wrapped is not None
    assert spaced is not None
    assert wrapped.days[0].air_c == -30.0
    assert spaced.days[0].air_c > -30.0


def test_a_roof_in_the_lee_has_the_stations_wind() -> None:
    """As hours are judged: a tenth of the wind at the roof lets no roll last longer, ten times shortens it."""
    paper = shed()
    assert paper.hours is not None
    station = paper.hours.weather.wind_m_s

    def told(roof: float) -> Warmth:
        found = make_warmth(replace(paper, hours=replace(paper.hours, roof_wind_m_s=roof * station)), SETTING)
        assert found is not None
        return found

    assert told(0.1).sheets == told(1.0).sheets
    shelter, storm = told(1.0).sheets[1].short_s, told(10.0).sheets[1].short_s
    assert shelter is not None
    assert storm is not None
    assert storm < shelter


def test_the_printed_table_is_the_clock() -> None:
    """The cap at 25 °F and 10 mph: what `roll_clock` says, within a hundredth."""
    cap = warmth().sheets[1]
    row, column = cap.airs_c.index(pytest.approx(-35 / 9)), cap.winds_m_s.index(pytest.approx(4.4704))
    exact = roll_clock(RollAsk(21.1, -35 / 9, 4.4704, 10.0, 0.004, 10.0)).outer_wrap_s
    assert cap.lasts_s[row][column] == pytest.approx(exact, rel=0.01)


def test_plan_json_has_the_same_numbers_and_keeps_its_schema() -> None:
    """The store's day and the sheet's trip, number for number."""
    found = json.loads(plan_bytes(warm_paper()))
    jsonschema.validate(found, plan_schema(), jsonschema.Draft202012Validator)
    day, cap = warmth().days[0], warmth().sheets[1]
    assert found["warm"]["days"][0]["heater_w"] == day.plan.heater_w
    assert found["warm"]["days"][0]["switch_on_s"] == day.plan.switch_on_s
    assert found["warm"]["sheets"][1]["short_s"] == cap.short_s
    assert found["warm"]["sheets"][1]["trip"]["rolls"] == cap.trip.rolls
    assert json.loads(plan_bytes(shed()))["warm"] is None


def test_the_page_stands_in_the_packet() -> None:
    """One sheet Warm rolls, with the store's heater and the trip as the values have them."""
    read = pypdf.PdfReader(io.BytesIO(packet_pdf(warm_paper(), make_plates(warm_paper()))))
    pages = [" ".join(page.extract_text().split()) for page in read.pages]
    page = next(text for text in pages if "Warm rolls Page" in text)
    assert f"{warmth().days[0].plan.heater_w / 1000:.3g} kW" in page
    assert "Propane" in page
    assert "at 50 °F" in page
    assert "far too short for a wrapped pallet" in page


@pytest.mark.parametrize("other", [None, replace(SETTING, store_c=None)])
def test_without_a_store_there_is_no_page(other: StoreSetting | None) -> None:
    """Neither page nor chart where the job has no store or does not say how warm it is."""
    paper = shed() if other is None else replace(shed(), warmth=make_warmth(shed(), other))
    assert paper.warmth is None
    assert warm_page(open_book(paper)) is None
    assert warm_chart(paper) is None


def test_a_bar_stands_over_each_month() -> None:
    """A hatched and a dotted part for each month of each sheet, a heavy line for its middle, and the trip's line."""
    plate = roll_chart(warmth(), width=190.0, height=66.0)
    months = sum(len(sheet.months) for sheet in warmth().sheets)
    fills = [item for item in plate.items if isinstance(item, Fill) and item.layer == "WARM"]
    middles = [item for item in plate.items if isinstance(item, Stroke) and item.weight == "outline"]
    trips = [item for item in plate.items if isinstance(item, Stroke) and item.layer == "WARM" and item.ink == "accent"]
    assert months < len(fills) <= 2 * months
    assert len(middles) == months
    assert len(trips) == 2
    assert {"heat", "dots"} == {item.pattern for item in fills}


def test_everything_lies_on_the_paper() -> None:
    """Texts and lines within the plate, whatever the times; what is not lost reaches the top and reads as a bar."""
    sheet = replace(
        warmth().sheets[0],
        months=(MonthClock(12, 5, 20.0, 90.0, 400.0), MonthClock(4, 3, 5000.0, None, None)),
        trip=Trip(0, 0.0, (), 95.0, (), ""),
    )
    plate = roll_chart(replace(warmth(), sheets=(sheet,)), width=190.0, height=66.0)
    points = [point for item in plate.items if isinstance(item, Stroke) for point in item.points]
    points += [item.at for item in plate.items if isinstance(item, Text)]
    assert all(-0.1 <= x <= 190.1 and -0.1 <= y <= 66.1 for x, y in points)
    assert [item.text for item in plate.items if isinstance(item, Text)].count("-") == 1


@pytest.mark.parametrize(
    ("seconds", "words"),
    [(None, "-"), (59.0, "0.9"), (443.0, "7.3"), (659.0, "10"), (7199.0, "119"), (7201.0, "2 h"), (20000.0, "5 h")],
)
def test_minutes_are_never_rounded_up(seconds: float | None, words: str) -> None:
    """A roll is never said to last longer than it does."""
    assert minute_words(seconds) == words


@pytest.mark.parametrize(
    ("seconds", "words"),
    [
        (-15000.0, "19:50 the day before"),
        (1800.0, "00:30 that day"),
        (-500000.0, "05:05, 6 days before"),
        (0.0, "00:00 that day"),
    ],
)
def test_the_heater_is_on_in_time(seconds: float, words: str) -> None:
    """Clock times are rounded down to five minutes."""
    assert switch_words(seconds) == words
