"""Weld speeds, cords and power on the page and in plan.json: the same numbers, blanks where nothing is known."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from papers import shed

from lapwright.hours.values import SHUT
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.readings import reckoned_speeds
from lapwright.packet.pages.tools import generator_words, longest_words, percent, tool_page
from lapwright.packet.tooljson import tools_entry
from lapwright.packet.toolvalues import CordRow, CordTable, SupplyTable, Tools, WeldDay, WeldRow, WeldTable
from lapwright.units.write import Units

WELD = WeldTable(
    proved_speed_m_s=0.0762,
    proved_sheet_c=(70 - 32) / 1.8,
    proved_air_c=None,
    nozzle_c=550,
    holds_nozzle=False,
    slowest_m_s=0.00508,
    fastest_m_s=None,
    shares=(0.0, 0.05),
    rows=(WeldRow((70 - 32) / 1.8, (0.0762, 0.0587)), WeldRow((20 - 32) / 1.8, (0.0508, None))),
    days=(WeldDay(1, {7: -3.0, 8: None}, {7: 0.0508, 8: None}),),
    retest_k=10 / 1.8,
    source="computed",
)
CORD = CordTable(
    load_w=1600,
    volts=120,
    amps=13.333,
    lengths=(30.48,),
    rows=(
        CordRow("14", (0.0652,), (0.126,), 13.51, 22.99, 18, False),
        CordRow("16", (0.1,), (0.19,), 8.0, 14.0, 13, True),
    ),
    own_gauge="14",
    own_length=30.48,
    own_drop_share=0.0652,
    own_heat_lost=0.126,
    source="circuit",
)
SUPPLY = SupplyTable("generator", 2, 4700, 5900, 6090, 6500, 8000, 20, 5e-7, 8e-7, (), "practice")
TOOLS = Tools(WELD, CORD, SUPPLY, ("Carbon monoxide.",), {})


def page(tools: Tools) -> dict:
    """The page of a paper with these tables."""
    found = tool_page(open_book(replace(shed(), tools=tools)))
    assert found is not None
    return found


def test_without_any_table_there_is_no_page() -> None:
    """Nothing said of tools: no page."""
    assert tool_page(open_book(replace(shed(), tools=Tools()))) is None


def test_weld_speeds_are_rounded_to_what_can_be_set() -> None:
    """A tenth of an inch a second; a dash where the tool can't weld; the row of the test weld is bold."""
    weld = page(TOOLS)["weld"]
    assert weld["unit"] == "in/s"
    assert weld["table"]["head"] == ["Sheet", "all volts", "5 % lost"]
    assert weld["table"]["rows"] == [["70 °F", "3.0", "2.3"], ["20 °F", "2.0", "–"]]
    assert weld["table"]["bold"] == [0]
    assert weld["hours"]["rows"] == [["Day 1", "2.0", "–"]]
    assert weld["retest"] == "10 °F"


@pytest.mark.parametrize(
    ("holds", "said"),
    [(True, "The tool holds"), (False, "The tool does not hold"), (None, "Whether the tool holds")],
)
def test_how_the_nozzle_is_reckoned_is_said(holds: bool | None, said: str) -> None:
    """Held, not held, or not given."""
    assert page(replace(TOOLS, weld=replace(WELD, holds_nozzle=holds)))["weld"]["said"][1].startswith(said)


def test_cords_and_the_jobs_own() -> None:
    """Volts and heat by length, the longest cords rounded down, none for a cord too thin."""
    cord = page(TOOLS)["cord"]
    assert cord["table"]["rows"] == [
        ["14, carries 18 A", "6.5 %, 12.6 %", "44'", "75'"],
        ["16, carries 13 A: too thin", "10 %, 19 %", "–", "–"],
    ]
    assert cord["said"][1] == "The job's cord, AWG 14, 100': 6.5 % of the volts and 12.6 % of the heat are lost."


def test_what_lacks_is_named() -> None:
    """A table that is not there names the keys to give."""
    lacking = page(Tools(cord=CORD, lacking={"weld": ("weld.nozzle",)}))["lacking"]
    assert lacking == ["No table of weld speeds: give weld.nozzle."]


def test_generator_in_words() -> None:
    """Enough, too small, or none given."""
    assert generator_words(SUPPLY).endswith("so 6.5 kW; there is one of 8 kW: enough")
    assert generator_words(replace(SUPPLY, generator_w=6000)).endswith("there is one of 6 kW: too small")
    assert generator_words(replace(SUPPLY, generator_w=None)).endswith("so 6.5 kW")


def test_mains_have_no_generator_and_no_fuel() -> None:
    """On mains only watts and circuits are told."""
    rows = page(replace(TOOLS, supply=replace(SUPPLY, supply="mains")))["supply"]["rows"]
    assert [row[0] for row in rows] == ["Runs at the same time", "Circuits"]


def test_day_sheets_have_the_days_speeds() -> None:
    """Slowest and fastest of the hours in which a lap may be welded; nothing where there are none or no test weld."""
    speeds = {clock: 0.0254 * clock / 10 for clock in range(24)}
    weld = replace(WELD, days=(WeldDay(1, dict.fromkeys(speeds, 0.0), speeds),))
    paper = shed(tools=Tools(weld=weld))
    hours = paper.hours
    assert hours is not None
    first = paper.days[0]
    fit = [clock for clock in range(24) if int(hours.states["side_lap"][first.hours[clock]]) != SHUT]
    told = f"; reckoned {min(fit) / 10:.1f} to {max(fit) / 10:.1f} in/s"
    assert reckoned_speeds(open_book(paper), first) == told
    shut = replace(hours, states={"side_lap": np.full_like(hours.states["side_lap"], SHUT)}, fresh_base={})
    assert reckoned_speeds(open_book(replace(paper, hours=shut)), first) == ""
    assert reckoned_speeds(open_book(shed()), first) == ""


def test_lengths_are_never_rounded_up() -> None:
    """Whole feet or metres, down."""
    assert [longest_words(Units(system), 13.99) for system in ("us", "metric")] == ["45'", "13 m"]
    assert percent(0.0005) == "0.1 %"


def test_json_has_the_numbers_unrounded() -> None:
    """Speeds, shares and watts as they were worked out; null where there is none."""
    entry = tools_entry(TOOLS)
    assert entry["weld"]["rows"][1] == {"sheet_c": (20 - 32) / 1.8, "speeds_m_s": [0.0508, None]}
    assert entry["weld"]["days"][0]["hours"][1] == {"clock": 8, "sheet_c": None, "speed_m_s": None}
    assert entry["cord"]["own"]["drop_share"] == 0.0652
    assert entry["supply"]["needed_w"] == 6090
    assert tools_entry(Tools(lacking={"cord": ("power.load",)})) == {
        "weld": None, "cord": None, "supply": None, "lacking": {"cord": ["power.load"]},
    }  # fmt: skip
