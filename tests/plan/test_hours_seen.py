"""The views of the hours on three days that a pencil can judge; see `hours_by_hand` for the days."""

from __future__ import annotations

from pathlib import Path

import pytest
from hours_by_hand import JOB, put, seen

from lapwright.faults import Refused
from lapwright.plan.desk.stages import Stages


def counts(found: dict[str, dict[str, list[list[str]]]]) -> dict[str, list[str]]:
    """Hours open, warm, heat, shut, unknown by operation."""
    return {row[0]: row[1:] for row in found["rows"]}


def test_hours_of_three_days_by_pencil(tmp_path: Path) -> None:
    """14 light hours a day, three days, 72 hours in all.

    Base and cap: 14 + (14 - 2 in the wind) open, 14 warm or heat on the cold day, the rest of 72 shut.
    Side laps: nothing against the wind, 28 open.  Primer and mastic: 42.  Edge metal goes in the wind's hours: 40.
    """
    found = seen(put(tmp_path), "hours")
    rows = counts(found["counts"]["by_operation"]["all"])
    assert rows["base"] == ["26", "14", "0", "32", "0"]
    assert rows["cap"] == ["26", "0", "14", "32", "0"]
    assert rows["flashing"] == ["26", "0", "14", "32", "0"]
    assert rows["side lap"] == ["28", "0", "14", "30", "0"]
    assert rows["primer"] == ["42", "0", "0", "30", "0"]
    assert rows["mastic"] == ["42", "0", "0", "30", "0"]
    assert rows["edge metal"] == ["40", "0", "0", "32", "0"]


def test_hours_of_the_crews_day_by_pencil(tmp_path: Path) -> None:
    """06:00-16:30 of the crew's summer clock is 05:00-15:30 of standard time: 10.5 hours, all of them light.

    Base: 10.5 + (10.5 - 2) open, 10.5 warm, 2 shut.
    """
    found = seen(put(tmp_path), "hours")
    assert counts(found["counts"]["by_operation"]["crew"])["base"] == ["19", "10.5", "0", "2", "0"]
    assert counts(found["counts"]["by_month"]["base"]["crew"]) == {
        "Jun": ["19", "10.5", "0", "2", "0"],
        "all": ["19", "10.5", "0", "2", "0"],
    }


def test_each_hour_has_its_letter_and_reason(tmp_path: Path) -> None:
    """The 34th and 35th hours (21 June, 10:00 and 11:00) are the wind's; before 5:00 it is dark."""
    found = seen(put(tmp_path), "hours")
    assert found["states"]["base"] == "sssss" + "o" * 14 + "sssss" + "sssss" + "ooooo" + "ss" + "o" * 7 + "sssss" + (
        "sssss" + "w" * 14 + "sssss"
    )
    reasons = [found["reasons"][ord(letter) - ord("0")] for letter in found["reason"]["base"]]
    assert reasons[34] == "wind over 20 mph for sheets"
    assert (reasons[0], reasons[12], reasons[23]) == ("dark", "", "dark")
    assert found["days"] == ["20 Jun", "21 Jun", "22 Jun"]
    assert found["months"] == [{"name": "Jun", "first": 0, "date": 20, "days": 3}]
    # standard time 05:00 is 06:00 by the crew's clock in June
    assert found["clock"][5] == chr(ord("0") + 6)
    assert found["crew"][:24] == "-----" + "c" * 11 + "-" * 8


def test_what_if_the_wind_limit_were_higher(tmp_path: Path) -> None:
    """At 28 mph the two hours of 24 mph are open again; the job file is not touched."""
    path = put(tmp_path)
    found = seen(path, "hours", wind="28 mph")
    assert counts(found["counts"]["by_operation"]["all"])["base"] == ["28", "14", "0", "30", "0"]
    assert found["edits"] == [{"edit": "set", "path": "rules.wind_sheets", "value": "28 mph"}]
    slider = next(each for each in found["sliders"] if each["option"] == "wind")
    assert (slider["steps"][slider["own"]], slider["steps"][slider["at"]]) == ("20 mph", "28 mph")
    assert path.read_text(encoding="utf-8") == JOB


def test_sliders_speak_the_jobs_units(tmp_path: Path) -> None:
    """In a metric job 20 mph are 20 × 0.44704 = 8.94 m/s, and the margin's own 5 °F are 5/1.8 = 2.8 K."""
    found = seen(put(tmp_path, job=JOB.replace("units: us", "units: metric")), "hours")
    said = {each["option"]: each["shown"][each["own"]] for each in found["sliders"]}
    assert said == {"start": "06:00", "wind": "8.94 m/s", "margin": "2.8 K"}


def test_what_if_the_crew_began_later(tmp_path: Path) -> None:
    """From 09:00 (08:00 standard) to 16:30 are 7.5 hours a day: 7.5 + 5.5 open, 7.5 warm, 2 shut."""
    found = seen(put(tmp_path), "hours", start="09:00")
    assert counts(found["counts"]["by_operation"]["crew"])["base"] == ["13", "7.5", "0", "2", "0"]
    assert found["edits"] == [{"edit": "set", "path": "crew.day", "value": "09:00-16:30"}]


def test_what_if_the_margin_over_dew_were_wider(tmp_path: Path) -> None:
    """No roof in 70 °F air under a whole cloud is 200 °F warmer than its dew point: nothing is left open."""
    found = seen(put(tmp_path), "hours", margin="200 F")
    assert set(found["states"]["primer"]) == {"s"}
    reasons = [found["reasons"][ord(letter) - ord("0")] for letter in found["reason"]["primer"]]
    assert reasons[12] == "surface within 200 °F of dew or frost"


def test_a_what_if_is_the_same_as_the_job_file_changed(tmp_path: Path) -> None:
    """The hours judged again in memory are those of a file that says the same."""
    path = put(tmp_path)
    changed = put(
        tmp_path, "changed", JOB.replace("wind_sheets: 20 mph", "wind_sheets: 28 mph\n  dew_point_margin: 9 F")
    )
    asked, own = seen(path, "hours", wind="28 mph", margin="9 F"), seen(changed, "hours")
    assert asked["states"] == own["states"]
    assert asked["counts"] == own["counts"]
    assert asked["counts"] != seen(path, "hours")["counts"]


def test_another_rule_lays_no_roof(tmp_path: Path) -> None:
    """No layout is made for the hours, whatever the rule."""
    path, stages = put(tmp_path), Stages()
    for wind in ("15 mph", "20 mph", "28 mph"):
        seen(path, "hours", stages, wind=wind)
    assert not stages.layouts.held
    assert len(stages.hours_made.held) == 4  # as the weather has it, and judged by each of the three


def test_another_year_beside_it(tmp_path: Path) -> None:
    """The bundled year is looked at; what would put it into the file takes the logger's out."""
    path = put(tmp_path)
    found = seen(path, "hours", year="chicago-2015")
    assert (found["weather"], found["hours"], found["own"]) == ("chicago-2015", 8760, "three-days.csv")
    assert found["edits"] == [
        {"edit": "drop", "path": "weather.file"},
        {"edit": "set", "path": "weather.year", "value": "chicago-2015"},
    ]
    assert "chicago-2015" in found["years"]
    assert path.read_text(encoding="utf-8") == JOB


def test_readings_are_those_of_the_log(tmp_path: Path) -> None:
    """As typed, to the degree and the mile; no gust was logged."""
    found = seen(put(tmp_path), "hourreadings")["readings"]
    assert (found["air"]["at"][12], found["air"]["unit"]) == (70, "°F")
    assert (found["dew"]["at"][60], found["wind"]["at"][34], found["wind"]["unit"]) == (0, 24, "mph")
    assert (found["rain"]["at"][0], found["gust"]["at"][0]) == (0.0, None)
    assert found["low"]["at"][12] <= found["surface"]["at"][12] <= found["high"]["at"][12]


def test_the_windy_days_window_by_pencil(tmp_path: Path) -> None:
    """21 June: 5 mph at 10:00 rise to 24 at 11:00; 20 are passed after 60 × 15/19 = 47.4 min.

    So sheets go from the crew's 06:00 to 10:47 standard time, 11:47 by its clock, and nothing shuts the primer.
    """
    found = seen(put(tmp_path), "hoursday", day="1")
    rows = {row[1]: row[2:] for row in found["windows"]["rows"]}
    sheets = next(cells for names, cells in rows.items() if names.startswith("base"))
    assert sheets[:3] == ["06:00", "11:47", "open"]
    assert sheets[4] == "wind over 20 mph for sheets"
    primer = next(cells for names, cells in rows.items() if names.startswith("primer"))
    assert primer[:2] == ["06:00", "16:30"]
    # hours after midnight by the crew's clock, and as many after the first hour shown, which is that midnight's
    assert found["clock_marks"]["base"] == [[6.0, 11.783]]
    assert found["marks"]["base"] == [[6.0, 11.783]]
    assert found["title"] == "21 Jun"
    assert [line["at"] for line in found["limits"]] == [50.0, 25.0, 25.0, 20.0]


def test_the_hour_table_of_a_day(tmp_path: Path) -> None:
    """A row an hour of the crew's clock, 10:00 standard time at its 11:00: readings, then each operation."""
    table = seen(put(tmp_path), "hoursday", day="1")["table"]
    assert len(table["rows"]) == 24
    row = dict(zip(table["head"], table["rows"][11], strict=True))
    assert (row["Hour"], row["Air °F"], row["Wind mph"], row["base"]) == (
        "11:00",
        "70",
        "24",
        "shut: wind over 20 mph for sheets",
    )
    assert row["primer"] == "open"


def test_a_week_that_the_weather_does_not_fill(tmp_path: Path) -> None:
    """Three days are all there are; light from 5:00 to 19:00 is 6:00 to 20:00 by the crew's summer clock.

    The log begins at midnight of standard time, so that the first day's first hour by the clock is not in it.
    """
    found = seen(put(tmp_path), "hoursday", day="0", days="7")
    assert found["title"] == "20 Jun to 22 Jun"
    assert [row[0] for row in found["table"]["rows"]] == ["20 Jun", "21 Jun", "22 Jun"]
    base = found["table"]["head"].index("base")
    assert found["table"]["rows"][0][base] == "06:00 to 20:00"
    assert (found["curve"]["hours"][:2], found["curve"]["days"][:2]) == (["01", "02"], [[0, "20 Jun"], [23, "21 Jun"]])


@pytest.mark.parametrize("day", ["3", "-1", "x", "99999999999"])
def test_a_day_that_is_not_there_is_refused(tmp_path: Path, day: str) -> None:
    """With the days that are."""
    with pytest.raises(Refused) as refused:
        seen(put(tmp_path), "hoursday", day=day)
    assert refused.value.faults[0].needs == "a day of the weather from 0 to 2"


def test_a_what_if_that_cant_be_read_is_told_as_the_file_would(tmp_path: Path) -> None:
    """The key, and what to write."""
    with pytest.raises(Refused) as refused:
        seen(put(tmp_path), "hours", wind="fast")
    assert refused.value.faults[0].key == "rules.wind_sheets"


def test_without_weather_the_years_are_offered(tmp_path: Path) -> None:
    """Nothing is said of hours that are not known."""
    path = put(tmp_path, job=JOB.replace("weather: {file: three-days.csv}     # of our own logger\n", ""))
    found = seen(path, "hours")
    assert found["why"] == "There are no hours: weather is not given"
    assert "states" not in found
    assert "greensboro" in found["years"]


def test_the_next_day_is_the_crews_first(tmp_path: Path) -> None:
    """No start is no day; a Saturday's start is Monday's morning; a date asked for goes before it."""
    path = put(tmp_path)
    assert seen(path, "nextday")["why"] == "There is no morning: crew.start is not given"
    # 20 June 2026 is a Saturday (the calendar)
    path = put(tmp_path, job=JOB.replace("days: Mon-Fri,", "days: Mon-Fri, start: 2026-06-20,"))
    assert seen(path, "nextday")["date"] == "2026-06-22"
    page = seen(path, "nextday", date="2026-06-21")["page"]
    base = next(row for row in page["operations"] if "base" in row["names"])
    assert (base["verdict"], base["from"], base["to"]) == ("go", "06:00", "11:47")
    assert page["is_forecast"] is False
