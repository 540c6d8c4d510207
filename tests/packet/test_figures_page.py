"""The page of figures: well-formed, whole by itself, every curve with its table, hostile names as text."""

from __future__ import annotations

import base64
import hashlib
import re
from dataclasses import replace
from importlib.resources import files

import pytest
from papers import shed
from readpage import ReadPage
from test_tools import TOOLS

from lapwright.packet.figures.page import figures_page
from lapwright.packet.figurevalues import ChillTable, FieldFigures, OperationLimits, RollTable, StoreTable, WayOut
from lapwright.packet.values import Engineered, Paper
from lapwright.wind.values import ZoneMap, ZonePressure

F20, F30, F70 = -20 / 3, -10 / 9, 190 / 9
MPH = 0.44704
FIGURES = FieldFigures(
    rolls=(
        RollTable("cap-sa", F70, 10.0, None, (F30, F20), (0.0, 10 * MPH), ((7260.0, 599.0), (None, 3599.0))),
    ),
    store=(
        StoreTable("cap-sa", F70, 10.0, ("rolls spaced", "wrapped pallet"), 1, (F30, F20), ((3601.0, 7200.0),
                   (86401.0, None))),
    ),
    chill=ChillTable((0.0, -40.0), (10 * MPH, 20 * MPH), ((-5.0, -8.0), (-54.0, -60.0)), ((None, None), (4.9, 3.2))),
    ways_out=(
        WayOut("Main", "D-1", "drain", "primary", 1, 0.002, 0.002, 0.004, 0.0254, 300.0),
        WayOut("Main", "S-1", "overflow_scupper", "secondary", 1, None, lacking=("site.rain_secondary",)),
    ),
    limits=(
        OperationLimits("cap", 10.0, None, F20, True, False),
        OperationLimits("mastic", None, None, None, True, True, ("materials.mastic.apply_at_or_above",)),
    ),
)  # fmt: skip
ZONES = ZoneMap(("Main",), 6.0, {}, {"1": 92.90304}, {"1": ZonePressure("1", -1.0, -2394.0, -1436.0, 60)})


def full() -> Paper:
    """The shed with every table."""
    return shed(figures=FIGURES, tools=TOOLS, engineered=Engineered(zones=(ZONES,)))


def page(paper: Paper) -> ReadPage:
    """The page, read."""
    return ReadPage(figures_page(paper).decode())


def cells(id: str) -> list[list[str]]:
    """A table of the full page below its head."""
    return page(full()).tables[id].rows[1:]


@pytest.mark.parametrize("paper", [full(), shed()], ids=["full", "nothing given"])
def test_the_page_is_well_formed(paper: Paper) -> None:
    """Everything that is opened is closed in its place, and no id is there twice."""
    read = page(paper)
    assert read.wrong == []
    assert len(read.ids) == len(set(read.ids))


def test_nothing_is_fetched() -> None:
    """No address of another place, no source, no import; links lead to parts of the page."""
    text = figures_page(full()).decode()
    read = ReadPage(text)
    assert re.findall(r"(?i)https?:|//[a-z]|@import|url\(|\bsrc=|fetch|XMLHttp|innerHTML|eval", text) == []
    targets = [one["href"] or "" for one in read.all("a")]
    assert [href for href in targets if href[:1] != "#" or href[1:] not in read.ids] == []


def test_only_its_own_style_and_script_may_run() -> None:
    """The policy names the SHA-256 of the style and of the script that stand in the page, and nothing else."""
    read = page(full())
    policy = next(one["content"] or "" for one in read.all("meta") if one.get("http-equiv"))
    sums = [base64.b64encode(hashlib.sha256(read.text[tag].encode()).digest()).decode() for tag in ("style", "script")]
    assert re.findall(r"sha256-([^']+)", policy) == sums
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy


def test_every_curve_has_its_table() -> None:
    """Each figure names a table that is there; the drawing has a title.  Cords of one length alone have no curve."""
    read = page(full())
    links = [one["href"] or "" for one in read.all("a") if (one["href"] or "")[1:] in read.tables]
    assert len(links) == len(read.all("svg")) == 4
    titles = {one["id"] for one in read.all("title") if "id" in one}
    assert {one["aria-labelledby"] for one in read.all("svg")} == titles


def test_tables_have_captions_heads_and_scopes() -> None:
    """A caption; every column and row with a head that says its scope; rows as long as the head."""
    tables = page(full()).tables.values()
    assert [one.id for one in tables if not one.caption] == []
    assert [one.id for one in tables if set(one.scopes[0]) != {"col"}] == []
    assert [one.id for one in tables for row in one.scopes[1:] if row[0] != "row" or set(row[1:]) != {"td"}] == []
    assert [one.id for one in tables for row in one.rows if len(row) != len(one.rows[0])] == []


def test_landmarks_and_language() -> None:
    """English; header, nav and main once each; one first heading; each section named by its own heading."""
    read = page(full())
    assert read.all("html")[0]["lang"] == "en"
    assert [len(read.all(tag)) for tag in ("header", "nav", "main", "h1")] == [1, 1, 1, 1]
    assert [one["id"] for one in read.all("section") if one["aria-labelledby"] not in read.ids] == []


def test_without_its_script_the_tables_are_there_and_the_fields_are_not() -> None:
    """The fields are hidden until the script shows them; no cell waits for it."""
    read = page(full())
    assert "hidden" in read.all("form")[0]
    assert [one.id for one in read.tables.values() for row in one.rows if "" in row] == []


def test_minutes_are_cut_off_and_hours_rounded_up() -> None:
    """7260 s are two hours and more: 2 h; 599 s under ten minutes: 9.9; 3599 s: 59.  3601 s in the store: 1.1 h."""
    assert cells("roll-1") == [["30 °F", "2 h", "9.9"], ["20 °F", "-", "59"]]
    assert cells("store-1") == [["rolls spaced", "1.1", "2"], ["wrapped pallet (this job)", "25", "never"]]


def test_wind_chill_with_frostbite_and_the_jobs_stop() -> None:
    """0 °C, -5 °C: 32 and 23 °F; -54 °C is -65 °F, skin freezes within 4.9 min, so 4; below -25 °F the job stops."""
    assert cells("chill-1") == [["32 °F", "23", "18"], ["-40 °F", "-65/4 STOP", "-76/3 STOP"]]


def test_water_and_wind_in_the_jobs_units() -> None:
    """2 L/s are 31.7 gpm, 25.4 mm an inch, 300 Pa 6.27 psf, half is used; 2394 Pa are 50 psf, 92.9 m² 1000 sf."""
    assert cells("drains-primary") == [["Main D-1, drain", "31.7 gpm", '1"', "6.27 psf", "50 %"]]
    assert cells("drains-secondary") == [["Main S-1, overflow scupper", "unknown", "unknown", "unknown", "unknown"]]
    assert cells("wind-1") == [["1", "1000", "-50", "-30", "60"]]


def test_limits_say_which_reading_must_reach_them() -> None:
    """Air alone; a limit that is not given shuts, and its key is named."""
    assert cells("limits-1") == [
        ["cap", "50 °F", "–", "20 °F", "air"],
        ["mastic", "unknown: shut", "–", "–", "both"],
    ]
    assert "materials.mastic.apply_at_or_above" in page(full()).said


def test_hostile_names_stay_text() -> None:
    """Markup in a job's name, in a sheet's and in a drain's adds no element and no attribute."""
    bad = '"><script>alert(1)</script><img src=x onerror=alert(1)>\u0000&amp;'
    figures = replace(
        FIGURES,
        rolls=(replace(FIGURES.rolls[0], sheet=bad),),
        ways_out=(replace(FIGURES.ways_out[0], name=bad, area=bad),),
    )
    head = replace(full().head, name=bad, number=bad, revision=bad, file=bad)
    read, plain = page(replace(full(), head=head, figures=figures)), page(full())
    assert read.wrong == []
    assert {tag for tag, _ in read.tags} == {tag for tag, _ in plain.tags}
    assert len(read.all("script")) == 1
    assert read.said.count("<script>alert(1)</script>") >= 5


def test_a_job_that_gives_nothing_says_unknown() -> None:
    """No store, no wind, no drains: each part says unknown and what to give; nothing is left blank."""
    lacking = {"roll": ("store.temperature",), "wind": ("building.height",)}
    tools = replace(TOOLS, weld=None, cord=None, lacking={"weld": ("weld.nozzle",), "cord": ("power.load",)})
    said = page(shed(figures=FieldFigures(lacking=lacking), tools=tools)).said
    assert said.count("unknown.") == 6
    keys = ("store.temperature", "building.height", "weld.nozzle", "power.load", "roof[*].drains")
    assert [key for key in keys if key not in said] == []


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2."""
    text = colour if len(colour) == 7 else "#" + "".join(2 * letter for letter in colour[1:])
    parts = [int(text[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("place", [0, 1], ids=["light", "dark"])
def test_colours_stand_off_from_the_paper(place: int) -> None:
    """Letters at 4.5 to 1 and better on paper and on the picked row, in light and in dark (WCAG 2.2, 1.4.3)."""
    style = files("lapwright.packet.figures").joinpath("look.css").read_text("utf-8")
    colours = dict(re.findall(r"--(\w+):(#\w+)", style.split(":root{")[place + 1].split("}")[0]))
    pairs = [(front, back) for front in ("ink", "soft", "accent") for back in ("paper", "tint")]
    ratios = {
        (front, back): (max(lights) + 0.05) / (min(lights) + 0.05)
        for front, back in pairs
        for lights in [(luminance(colours[front]), luminance(colours[back]))]
    }
    assert {pair: ratio for pair, ratio in ratios.items() if ratio < 4.5} == {}
