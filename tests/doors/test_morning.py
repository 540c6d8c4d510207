"""The morning sheet as a superintendent meets it: verdicts, times, missing inputs, bad forecasts, the service down."""

from __future__ import annotations

import datetime as dt
import json
import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from planned_jobs import ROOT, lapwright

import forecast_sample as sample
from forecast_server import GRID, HOURLY, POINTS, problem, reply, service, silent
from lapwright.faults import Refused
from lapwright.plan.morningsheet import Asked, MorningMade, make_morning

EXAMPLE = ROOT / "src/lapwright/plan/example/millrace.yaml"
EVENING = dt.datetime(2027, 1, 11, 1, tzinfo=dt.UTC)  # 20:00 on Sunday the 10th by the crew's clock
Make = Callable[..., MorningMade]


@pytest.fixture
def make(tmp_path: Path) -> Make:
    """A maker of sheets: the example job with texts replaced, under a forecast's replies."""

    def made(replies: bytes | None = None, *replaced: tuple[str, str], **asked: Any) -> MorningMade:
        text = re.sub(r"(?m)^(weld|power|store):.*\n(?: .*\n)*", "", EXAMPLE.read_text(encoding="utf-8"))
        for old, new in replaced:
            assert old in text
            text = text.replace(old, new)
        (tmp_path / "job.yaml").write_text(text, encoding="utf-8")
        if replies is not None:
            (tmp_path / "f.json").write_bytes(replies)
            asked["forecast"] = str(tmp_path / "f.json")
        return make_morning(tmp_path / "job.yaml", Asked(**asked))

    return made


def verdicts(made: MorningMade) -> dict[str, str]:
    """The verdict of each operation."""
    return {one.operation: one.verdict for one in made.paper.morning.operations}


def told(made: MorningMade) -> str:
    """The sheet as one line of words."""
    return " ".join(" ".join(made.lines()).split())


def warm_day(**changed: Any) -> bytes:
    """A mild, dry day in April: open from the crew's coming on."""
    begin = dt.datetime(2027, 4, 12, 3, tzinfo=dt.UTC)
    two_days = {
        "temperature": ("degC", 18), "dewpoint": ("degC", 2), "skyCover": ("percent", 50),
        "probabilityOfPrecipitation": ("percent", 0), "windSpeed": ("km_h-1", 9), "windGust": ("km_h-1", 18),
        "quantitativePrecipitation": ("mm", 0), "snowfallAmount": ("mm", 0), "iceAccumulation": ("mm", 0),
    }  # fmt: skip
    layers = {name: sample.layer(unit, [("P2D", value)], begin) for name, (unit, value) in two_days.items()}
    layers["weather"] = sample.layer(None, [("P2D", sample.weather(None, None))], begin)
    layers["relativeHumidity"] = sample.layer("percent", [("P2D", 40)], begin)
    layers["updateTime"] = "2027-04-12T01:00:00+00:00"
    return sample.saved(grid=sample.grid(**layers | changed), hourly=None)


def test_a_mild_day_is_a_go_from_the_start(make: Make) -> None:
    """18 °C, dry, sun up at 05:50: everything may begin with the crew, nothing has to be warm."""
    made = make(warm_day())
    assert set(verdicts(made).values()) == {"go"}
    assert made.lines()[4].startswith("GO from the start: open; last safe minute 16:30.")
    assert "WARM    No rolls have to be warm today." in made.lines()


def test_a_cold_clear_morning_is_a_wait(make: Make) -> None:
    """Frost on the surface at 07:00; the sheet says until when to wait, and for what."""
    made = make(sample.saved())
    assert set(verdicts(made).values()) == {"wait"}
    assert "Before 08:03 surface within 5 °F of dew or frost" in told(made)
    assert "Measure first at 07:00" in told(made)


def test_snow_all_day_is_a_stop(make: Make) -> None:
    """The second day of the made forecast: snow at 80 %."""
    made = make(sample.saved(), day="2027-01-12")
    assert set(verdicts(made).values()) == {"stop"}
    assert made.lines()[4] == "STOP: no time today for base and cap together (rain or snow falling)."
    assert "Base and cap: not one course can be opened and closed again today." in told(made)


def test_a_roof_of_three_plies_is_told_by_its_plies(make: Make) -> None:
    """All three are opened and closed; the two below the cap alone are what may wait for it."""
    two = "    - {ply: cap, sheet: cap-sa"
    told_of = told(make(warm_day(), (two, f"    - {{ply: interply, sheet: base-sa, attachment: self_adhered}}\n{two}")))
    assert "Base, interply and cap: no more than" in told_of
    assert "Base and interply alone, tied off, capped within" in told_of
    assert "Base and cap" not in told_of


def test_a_missing_limit_is_unknown_and_never_a_go(make: Make) -> None:
    """No limit for the cap: unknown, with the key to give, on the warmest day too."""
    old = "apply_at_or_above: 50 F, with_heat_at_or_above: 20 F, surfacing: granules"
    made = make(warm_day(), (old, "surfacing: granules"))
    assert verdicts(made)["cap"] == "unknown"
    assert made.paper.morning.overall.verdict == "unknown"
    assert made.paper.morning.opened is None
    assert "UNKNOWN: limit not given; give sheets.cap-sa.apply_at_or_above." in told(made)
    assert "how much may be opened: unknown; give sheets.cap-sa.apply_at_or_above." in told(made)


def test_laps_are_not_welded_without_a_fire_watch(make: Make) -> None:
    """In the cold laps are welded; how long somebody watches is not given: unknown."""
    made = make(sample.saved(), (", fire_watch: 60 min", ""))
    assert verdicts(made) == {
        "primer": "wait", "base": "wait", "cap": "unknown", "side_lap": "unknown", "end_lap": "unknown",
        "flashing": "unknown", "mastic": "wait", "edge_metal": "wait",
    }  # fmt: skip
    assert "laps must be welded; give crew.fire_watch" in told(made)


def test_welding_ends_before_the_watch(make: Make) -> None:
    """A crew that leaves at 16:30 and watches for 60 min welds until 15:30."""
    cap = next(one for one in make(sample.saved()).paper.morning.operations if one.operation == "cap")
    assert (cap.last_min, cap.after) == (
        15 * 60 + 30,
        "welding ends for the fire watch",
    )


def test_without_a_crew_what_may_be_opened_is_unknown(make: Make) -> None:
    """And the hours are still told."""
    made = make(warm_day(), ("people: 6, welders: 2, ", ""))
    assert made.paper.morning.opened is None
    assert "how much may be opened: unknown; give crew.people, crew.welders." in told(made)
    assert verdicts(made)["base"] == "go"


def test_no_test_weld_no_speed(make: Make) -> None:
    """The column is left out, and what to give is said; options at the door give it."""
    without = make(sample.saved())
    assert "Weld" not in told(without).split("OPEN")[0]
    assert "weld speeds: unknown; give weld.proved_speed, weld.proved_sheet, weld.nozzle." in told(without)
    given = make(sample.saved(), weld=("3 in/s", "25 F", "550 C"))
    assert given.paper.morning.proved == (pytest.approx(0.0762), pytest.approx(-35 / 9), 550.0)
    assert all(one.weld_m_s for one in given.paper.morning.hours)


def test_thunder_shuts_where_it_is_due_and_is_told_where_it_is_named(make: Make) -> None:
    """A slight chance at 10 % is told from 14:00 on; at 60 % the same hours are shut, and half an hour after."""
    begin = dt.datetime(2027, 4, 12, 3, tzinfo=dt.UTC)  # 23:00 by the clock of summer time
    runs = [("PT15H", None), ("PT1H", "thunderstorms"), ("P1DT8H", None)]
    named = sample.layer(None, [(time, sample.weather(kind, "slight_chance")) for time, kind in runs], begin)
    low, high = (sample.layer("percent", [("PT15H", 0), ("PT1H", share), ("P1DT8H", 0)], begin) for share in (10, 60))
    slight = make(warm_day(weather=named, probabilityOfPrecipitation=low))
    due = make(warm_day(weather=named, probabilityOfPrecipitation=high))
    assert "Thunder is named from 14:00: off the roof at the first one heard." in told(slight)
    assert slight.paper.morning.overall.last_min == 16 * 60 + 30
    mastic = next(one for one in due.paper.morning.operations if one.operation == "mastic")
    assert (mastic.last_min, mastic.after) == (13 * 60 + 59, "thunder or lightning")
    assert mastic.states[13:16] == ("open", "shut", "shut")


def test_the_job_s_own_store_is_on_the_sheet(make: Make) -> None:
    """How its rolls stand, how warm it is kept, how far it is away and what the way allows."""
    store = "store:\n  {temperature: 80 F, stack: single, distance: 120', carry: 2, cover: 3 W/m2K}\n\nprices:"
    made = make(sample.saved(), ("\nprices:", f"\n{store}"))
    assert "in a store at 80 °F" in told(made)
    assert "Store on (rolls from 23 °F; 60 min to heat it): as they stand (single rolls)" in told(made)
    assert "base: covered outer wrap lasts" in told(made)
    assert "2 rolls a trip, the store 120' away." in told(made)
    assert "the store's own temperature: unknown; give store.temperature." in told(make(sample.saved()))


def test_a_forecast_that_ends_at_noon_shuts_the_afternoon(make: Make) -> None:
    """What it does not reach is no reading, and shut."""
    short = sample.grid(temperature=sample.layer("degC", [("PT15H", 12)]))
    made = make(sample.saved(grid=short, hourly=None))
    base = next(one for one in made.paper.morning.operations if one.operation == "base")
    assert (base.last_min or 0) <= 13 * 60
    assert base.states[14:17] == ("", "", "")
    assert "No reading for 4 of the crew's hours, from 13:00: they are shut." in told(made)


def test_a_forecast_that_begins_at_five_does_not_know_the_night(make: Make) -> None:
    """It says so; one of the evening before does not."""
    begin = dt.datetime(2027, 1, 11, 10, tzinfo=dt.UTC)
    late = {
        name: sample.layer(layer.get("uom", "wmoUnit:x")[8:], [("P1D", layer["values"][-1]["value"])], begin)
        for name, layer in sample.grid()["properties"].items()
        if isinstance(layer, dict) and layer.get("values") and name != "weather"
    }
    made = make(sample.saved(grid=sample.grid(**late), hourly=None))
    assert "The forecast begins at 05:00: dew, frost or rain of the night is not in it." in told(made)
    assert "dew, frost or rain of the night" not in told(make(sample.saved()))


def test_a_day_that_the_forecast_does_not_reach_is_refused(make: Make) -> None:
    """With the days that it holds."""
    with pytest.raises(Refused) as refused:
        make(sample.saved(), day="2027-01-20")
    assert refused.value.text() == (
        "f.json  --day\n"
        "  read:   2027-01-20\n"
        "  needs:  a day that the forecast holds: 2027-01-11 to 2027-01-12\n"
        "  write:  --day 2027-01-11"
    )


def test_without_a_forecast_the_year_says_so(make: Make) -> None:
    """The first thing on the page."""
    made = make(None)
    assert made.paper.morning.is_forecast is False
    assert made.lines()[1].startswith("NOT A FORECAST: 11 Jan of the weather year greensboro.")


def test_without_weather_and_forecast_nothing_is_said(make: Make) -> None:
    """What to give stands in the fault."""
    with pytest.raises(Refused) as refused:
        make(None, ("weather: {year: greensboro}", "# weather: none"))
    assert "needs:  weather, to say anything of a day" in refused.value.text()
    assert "write:  --forecast nws, or weather: {year: greensboro}" in refused.value.text()


def test_the_day_the_clocks_go_back(make: Make) -> None:
    """7 November 2027: summer time ends at 02:00; 07:00 by the clock is 12:00 UTC, the sun is up at 06:46."""
    begin = dt.datetime(2027, 11, 7, 4, tzinfo=dt.UTC)  # midnight by the clock, still summer time
    flat = {
        name: {**layer, "values": [{"validTime": f"{begin.isoformat()}/P2D", "value": layer["values"][0]["value"]}]}
        for name, layer in json.loads(warm_day())["grid"]["properties"].items()
        if isinstance(layer, dict) and layer.get("values")
    }
    steps = [("PT8H", 5), ("P1DT16H", 15)]  # 5 °C until 12:00 UTC, 07:00 by the clock, then 15 °C
    made = make(warm_day(**flat | {"temperature": sample.layer("degC", steps, begin)}), day="2027-11-07")
    assert made.paper.morning.sun is not None
    assert made.paper.morning.sun[0] == pytest.approx(6 * 60 + 46, abs=4)
    assert next(one for one in made.paper.morning.hours if one.hour == 7).air_c == 15.0


@pytest.mark.parametrize(
    ("option", "value", "message"),
    [
        ("--day", "tomorrow", "  --day\n  read:   tomorrow\n"
                              "  needs:  a date as year-month-day\n  write:  --day 2027-01-11"),
        ("--nozzle", "550", "  --nozzle\n  read:   550\n"
                            "  needs:  a temperature with its unit\n  write:  --nozzle 550C"),
        ("--proved-speed", "0 in/s", "  --proved-speed\n  read:   0 in/s\n  needs:  speed of the test weld that held, "
                                     "over 0 in/s, at most 24 in/s\n  write:  --proved-speed 3in/s"),
        ("--proved-speed", "3 in/s", "  --proved-sheet\n"
                                     "  needs:  speed and sheet of one test weld, together\n"
                                     "  write:  --proved-sheet 70F"),
        ("--proved-sheet", "25 F", "  --proved-speed\n  needs:  speed and sheet of one test weld, together\n"
                                   "  write:  --proved-speed 3in/s"),
        ("--out", "job.yaml", "job.yaml  --out\n  read:   a file that is no PDF\n"
                              "  needs:  a folder, or a file ending in .pdf\n  write:  --out morning.pdf"),
        ("--save", "a.json", "  --save\n  read:   a.json\n"
                             "  needs:  a forecast asked of the service\n  write:  --forecast nws --save FILE.json"),
        ("--forecast", "none.json", "none.json\n"
                                    "  needs:  a saved forecast, or nws\n  write:  the path of a file that is there"),
    ],
)  # fmt: skip
def test_options_that_can_t_be_read_are_told(tmp_path: Path, option: str, value: str, message: str) -> None:
    """Status 2, the whole message, no traceback."""
    (tmp_path / "job.yaml").write_bytes(EXAMPLE.read_bytes())
    done = lapwright("morning", "job.yaml", option, value, cwd=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == f"one thing in the input can't be used:\n\n{message}\n"


def test_the_sheet_is_written_as_one_page_and_the_same_again(tmp_path: Path) -> None:
    """`--out` a folder: morning.pdf in it; the same forecast gives the same bytes, on one page."""
    from pypdf import PdfReader

    (tmp_path / "job.yaml").write_bytes(EXAMPLE.read_bytes())
    (tmp_path / "f.json").write_bytes(sample.saved())
    for out in ("one", "two"):
        done = lapwright("morning", "job.yaml", "--forecast", "f.json", "--out", out, cwd=tmp_path)
        assert (done.returncode, done.stdout) == (0, f"written to {Path(out) / 'morning.pdf'}\n")
    pages = PdfReader(tmp_path / "one/morning.pdf").pages
    assert len(pages) == 1
    assert "WAIT until 08:03" in pages[0].extract_text()
    assert (tmp_path / "one/morning.pdf").read_bytes() == (tmp_path / "two/morning.pdf").read_bytes()


def test_a_file_of_another_kind_is_not_written_over(tmp_path: Path, make: Make) -> None:
    """Only a PDF gives way."""
    mine = tmp_path / "morning.pdf"
    mine.write_text("my notes", encoding="utf-8")
    with pytest.raises(Refused) as refused:
        make(sample.saved()).write(tmp_path)
    assert "read:   a file that is no PDF" in refused.value.text()
    assert mine.read_text(encoding="utf-8") == "my notes"


def test_a_day_without_its_hours_still_fits_one_page(make: Make) -> None:
    """The whole day is looked at, a long name is shortened: 24 rows of hours in smaller letters, nothing cut off."""
    from io import BytesIO

    from pypdf import PdfReader

    from lapwright.packet.morningpdf import morning_pdf

    long = "Quarry Lane and Millrace Row Workshops with the old boiler house behind"
    made = make(sample.saved(), ("day: 07:00-16:30, ", ""), ("Millrace Row Workshops", long))
    pages = PdfReader(BytesIO(morning_pdf(made.paper))).pages
    assert len(pages) == 1
    text = pages[0].extract_text()
    assert "23:00" in text
    assert "The crew's day is not given (crew.day): the whole day is looked at." in " ".join(text.split())
    assert max(map(len, made.lines())) <= 80


@pytest.mark.parametrize("units", ["us", "metric"])
def test_the_terminal_page_is_one_page(make: Make, units: str) -> None:
    """At most 62 lines of at most 80 columns, whatever the units."""
    lines = make(sample.saved(), ("units: us ", f"units: {units} "), weld=("3 in/s", "70 F", "550 C")).lines()
    assert len(lines) <= 62
    assert max(map(len, lines)) <= 80


def test_the_service_s_forecast_is_kept_and_named_when_it_fails(make: Make, tmp_path: Path, monkeypatch: Any) -> None:
    """Asked once while it answers; when it does not, the last good one serves and says so, with its age."""
    monkeypatch.setenv("no_proxy", "*")
    with service() as made:
        asked = {"forecast": "nws", "now": EVENING, "base": made.base, "pause": lambda _: None}
        good = make(None, **asked, save=tmp_path / "mine.json")
        assert good.paper.morning.date == dt.date(2027, 1, 11)
        assert (tmp_path / "mine.json").read_bytes() == (tmp_path / "job.forecast.json").read_bytes()
        made.put(POINTS, problem(503, "Service Unavailable"))
        old = make(None, **asked)
    assert "THE SERVICE DID NOT ANSWER (503 Service Unavailable: Service Unavailable: made)" in told(old)
    assert "This is the last good forecast, job.forecast.json" in told(old)
    assert "Forecast issued Sun 10 Jan 2027 21:31, 9 h 29 min before the crew's day." in told(old)
    assert old.paper.morning.operations == good.paper.morning.operations


def test_the_night_comes_from_the_evening_s_forecast(make: Make, monkeypatch: Any) -> None:
    """Asked at 20:00 and at 05:00: the second begins at 05:00 and takes the night from the first, whose air it was."""
    monkeypatch.setenv("no_proxy", "*")
    begin = dt.datetime(2027, 1, 11, 10, tzinfo=dt.UTC)
    late = {
        name: sample.layer(layer.get("uom", "wmoUnit:x")[8:], [("P1D", layer["values"][-1]["value"])], begin)
        for name, layer in sample.grid()["properties"].items()
        if isinstance(layer, dict) and layer.get("values") and name != "weather"
    }
    morning = dt.datetime(2027, 1, 11, 10, tzinfo=dt.UTC)
    with service() as made:
        made.put(HOURLY, problem(404, "Not Found"))
        asked = {"forecast": "nws", "base": made.base, "pause": lambda _: None}
        make(None, **asked, now=EVENING)
        made.put(GRID, reply(sample.grid(**late)))
        again = [make(None, **asked, now=morning) for _ in range(2)]
    for one in again:
        assert "dew, frost or rain of the night" not in told(one)
        assert one.paper.morning.operations == again[0].paper.morning.operations


def test_the_service_down_and_nothing_kept(make: Make, monkeypatch: Any) -> None:
    """Refused, with what the service did."""
    monkeypatch.setenv("no_proxy", "*")
    with service() as made:
        made.put(POINTS, problem(500, "Unexpected Problem"))
        with pytest.raises(Refused) as refused:
            make(None, forecast="nws", now=EVENING, base=made.base, pause=lambda _: None)
    assert refused.value.text() == (
        "job.forecast.json  --forecast nws\n"
        "  read:   500 Internal Server Error: Unexpected Problem: made\n"
        "  needs:  an answer of the weather service, or a forecast kept from an earlier one\n"
        "  write:  the same again later, or --forecast FILE.json"
    )


def test_the_command_asks_the_service(tmp_path: Path) -> None:
    """The whole way in a process of its own, at another address; the grid fails and the hours serve."""
    (tmp_path / "job.yaml").write_bytes(EXAMPLE.read_bytes())
    with service() as made:
        made.put(GRID, problem(404, "Not Found"))
        made.put(HOURLY, reply(sample.hourly()))
        base = {"LAPWRIGHT_FORECAST_URL": made.base, "no_proxy": "*"}
        done = lapwright("morning", "job.yaml", "--forecast", "nws", "--day", "2027-01-11", cwd=tmp_path, **base)
    assert done.returncode == 0, done.stderr
    assert "The forecast has no sky cover" in " ".join(done.stdout.split())
    assert (tmp_path / "job.forecast.json").exists()


def test_an_address_that_is_none(make: Make) -> None:
    """Told with what stands there."""
    with pytest.raises(Refused) as refused:
        make(None, forecast="nws", now=EVENING, base="ftp://x")
    assert "LAPWRIGHT_FORECAST_URL\n  read:   ftp://x" in refused.value.text()


def test_a_silent_service_ends(make: Make, monkeypatch: Any) -> None:
    """It is waited for within the time-out, then told."""
    from lapwright.intake import forecast_ask

    monkeypatch.setenv("no_proxy", "*")
    known = forecast_ask.default_number
    monkeypatch.setattr(
        forecast_ask, "default_number", lambda name, row: 0.05 if row == "time_out" else known(name, row)
    )
    with service() as made:
        made.put(POINTS, silent)
        with pytest.raises(Refused) as refused:
            make(None, forecast="nws", now=EVENING, base=made.base, pause=lambda _: None)
    assert "read:   no answer in time" in refused.value.text()


def test_a_tool_that_has_no_speed_for_the_cold_is_told(make: Make) -> None:
    """A tool that goes no slower than 8.9 in/s, 9 in/s on a sheet of 100 °F: the column stays and says why."""
    weld = "weld: {proved_speed: 9 in/s, proved_sheet: 100 F, nozzle: 550 C, slowest: 8.9 in/s}"
    made = make(sample.saved(), ("sheets:", f"{weld}\nsheets:"))
    assert all(one.weld_m_s is None for one in made.paper.morning.hours)
    assert [line.split()[-1] for line in made.lines() if re.match(r"\d\d:00 ", line)] == ["none"] * 11
    assert "Weld: computed; the test weld is the judge. none: the tool has no speed that welds it." in told(made)


def test_a_store_that_is_colder_than_the_limit_warms_nothing(make: Make) -> None:
    """45 °F for rolls that must be at 50 °F."""
    made = make(sample.saved(), ("sheets:", "store: {temperature: 45 F, stack: pallet, wrapping: spaced}\nsheets:"))
    assert "in a store at 45 °F. THE STORE IS TOO COLD: no roll in it comes to 50 °F." in told(made)
    assert "Store on" not in told(made)


def test_a_forecast_without_its_place_is_told(make: Make) -> None:
    """Nothing says where it is for: the sheet begins with it."""
    whole = json.loads(sample.saved())
    for part in ("points", "grid", "hourly"):
        if whole[part]:
            whole[part]["geometry"] = None
    made = make(json.dumps(whole).encode())
    assert "PLACE NOT TOLD: make sure that it is this roof's." in " ".join(" ".join(made.lines()[:4]).split())
    assert "PLACE NOT TOLD" not in told(make(sample.saved()))


def test_words_of_a_reply_are_printed_without_what_no_paper_shows(make: Make) -> None:
    """Half a character and a terminal's codes in the name of the grid."""
    whole = json.loads(sample.saved())
    whole["points"]["properties"]["gridId"] = "\ud800R\x1b[2JAH"
    text = "\n".join(make(json.dumps(whole).encode()).lines())
    assert text.encode().decode() == text
    assert "\x1b" not in text
    assert "grid R [2JAH" in text
