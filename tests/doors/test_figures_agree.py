"""figures.html, read back, has plan.json's numbers: rounded, never to the unsafe side."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import Any

import pytest
from planned_jobs import Planned

CELL = re.compile(r"<t[hd][^>]*>([^<]*)</t[hd]>")


def table(planned: Planned, id: str) -> list[list[str]]:
    """The rows of a table below its head, none where it is not there."""
    text = (planned.folder / "figures.html").read_text(encoding="utf-8")
    found = re.search(rf'<table id="{id}".*?</table>', text, re.DOTALL)
    return [CELL.findall(row) for row in found.group().split("<tr")[2:]] if found else []


def number(text: str) -> float:
    """The number that a cell begins with."""
    found = re.match(r"-?[0-9.]+", text)
    assert found is not None, text
    return float(found.group())


def degrees(planned: Planned, value_c: float) -> float:
    """A temperature in the job's units."""
    return value_c * 1.8 + 32 if planned.plan["job"]["units"] == "us" else value_c


def whole(planned: Planned) -> dict[str, Any]:
    """The plan's figures."""
    found: dict[str, Any] = planned.plan["figures"]
    return found


def test_rolls_last_what_the_plan_says(planned: Planned) -> None:
    """Minutes and hours are cut off: never more than plan.json's, and less by under one of the last place."""
    for place, one in enumerate(whole(planned)["rolls"], start=1):
        for row, airs, times in zip(table(planned, f"roll-{place}"), one["airs_c"], one["lasts_s"], strict=True):
            assert number(row[0]) == pytest.approx(degrees(planned, airs), abs=0.051)
            for cell, time in zip(row[1:], times, strict=True):
                assert (cell == "-") == (time is None)
                unit, step = (
                    (3600, 1) if cell.endswith("h") else (60, 0.1 if "." in cell or number_is_small(cell) else 1)
                )
                assert time is None or 0 <= time / unit - number(cell) < step + 1e-9


def number_is_small(cell: str) -> bool:
    """A whole number of minutes under ten is written with tenths that are none."""
    return cell != "-" and number(cell) < 10


def test_rolls_are_those_of_the_page_of_warm_rolls(planned: Planned) -> None:
    """Where plan.json has warm rolls, the roll clock says the same of each of their sheets."""
    told = {one["sheet"]: one["lasts_s"] for one in whole(planned)["rolls"]}
    warm = planned.plan["warm"]
    for one in warm["sheets"] if warm else ():
        assert told[one["sheet"]] == one["lasts_s"]


def test_the_store_takes_what_the_plan_says(planned: Planned) -> None:
    """Hours are rounded up: never less than plan.json's, and more by under one of the last place."""
    for place, one in enumerate(whole(planned)["store"], start=1):
        for row, times in zip(table(planned, f"store-{place}"), one["core_s"], strict=True):
            for cell, time in zip(row[1:], times, strict=True):
                assert (cell == "never") == (time is None)
                assert time is None or -1e-6 <= number(cell) - time / 3600 < (1 if time >= 86400 else 0.1)


def test_weld_speeds_are_those_of_the_plan(planned: Planned) -> None:
    """Each row and column to half of its last place."""
    weld = planned.plan["tools"]["weld"]
    unit, half = (0.0254, 0.05) if planned.plan["job"]["units"] == "us" else (0.001, 0.5)
    rows = table(planned, "weld-1")
    assert bool(rows) == bool(weld)
    for row, one in zip(rows, weld["rows"] if weld else (), strict=True):
        assert number(row[0]) == pytest.approx(degrees(planned, one["sheet_c"]), abs=0.051)
        for cell, speed in zip(row[1:], one["speeds_m_s"], strict=True):
            assert (cell == "–") == (speed is None)
            assert speed is None or abs(number(cell) - speed / unit) <= half + 1e-9


def test_cords_are_those_of_the_plan(planned: Planned) -> None:
    """Longest cords cut off to the foot or metre; shares of the volts to a twentieth of a percent."""
    cord = planned.plan["tools"]["cord"]
    unit = 0.3048 if planned.plan["job"]["units"] == "us" else 1.0
    rows = table(planned, "cords-1")
    assert bool(rows) == bool(cord)
    for row, one in zip(rows, cord["rows"] if cord else (), strict=True):
        assert row[0].split(",")[0] == one["gauge"]
        for cell, length in zip(row[1:3], (one["longest_3_pct_m"], one["longest_5_pct_m"]), strict=True):
            assert (cell == "–") == one["overloaded"]
            assert one["overloaded"] or 0 <= length / unit - number(cell) < 1
        for cell, share in zip(row[3:], one["drop_shares"], strict=True):
            assert number(cell) == pytest.approx(100 * share, abs=0.0501)


def test_chill_is_that_of_the_plan_and_stops_where_the_job_does(planned: Planned) -> None:
    """Chill to half a degree, minutes cut off, STOP just where the chill is below the rule."""
    chill, stop_c = whole(planned)["chill"], planned.plan["rules"]["wind_chill_stop"]["value"]
    rows = zip(table(planned, "chill-1"), chill["chills_c"], chill["frostbite_min"], strict=True)
    for row, chills, frozen in rows:
        for cell, chill_c, minutes in zip(row[1:], chills, frozen, strict=True):
            assert number(cell) == pytest.approx(degrees(planned, chill_c), abs=0.501)
            assert ("STOP" in cell) == (chill_c < stop_c)
            assert ("/" in cell) == (minutes is not None)
            assert minutes is None or 0 <= minutes - number(cell.split("/")[1]) < 1


def test_colder_and_windier_is_never_better(planned: Planned) -> None:
    """Along every row and down every column of the roll clock and of the chill, numbers do not rise."""
    grids = [one["lasts_s"] for one in whole(planned)["rolls"]] + [whole(planned)["chill"]["chills_c"]]
    for grid in grids:
        lines = [*grid, *(list(column) for column in zip(*grid, strict=True))]
        pairs = [pair for line in lines for pair in pairwise(line) if pair[0] is not None]
        assert [pair for pair in pairs if pair[1] is None or pair[1] > pair[0]] == []


def test_every_way_out_has_its_flow(planned: Planned) -> None:
    """One row for each, its flow in gpm or L/s to three figures."""
    unit = 0.003785411784 / 60 if planned.plan["job"]["units"] == "us" else 0.001
    for storm in ("primary", "secondary"):
        ways = [way for way in whole(planned)["ways_out"] if way["storm"] == storm]
        for row, way in zip(table(planned, f"drains-{storm}"), ways, strict=True):
            assert way["name"] in row[0]
            assert (row[1] == "unknown") == (way["flow_m3_s"] is None)
            assert row[1] == "unknown" or number(row[1]) == pytest.approx(way["flow_m3_s"] / unit, rel=5e-3)


def test_the_page_says_unknown_where_the_plan_lacks_a_key(planned: Planned) -> None:
    """Every key that a table lacks stands on the page; without any, the page says unknown nowhere."""
    text = (planned.folder / "figures.html").read_text(encoding="utf-8")
    of_tools = planned.plan["tools"]["lacking"]
    lacking = [*whole(planned)["lacking"].values(), of_tools.get("weld", []), of_tools.get("cord", [])]
    lacking += [one["lacking"] for one in (*whole(planned)["ways_out"], *whole(planned)["limits"])]
    keys = {key for each in lacking for key in each}
    assert [key for key in sorted(keys) if f"<code>{key}</code>" not in text] == []
    words = text[text.index("</style>") : text.index("<script>")]
    assert (">unknown" in words or "unknown." in words) == bool(keys)
