"""The calculation sheets of the bundled example, each followed with a pencil, against plan.json and the docs (Q3, Q4).

`by_hand.csv` holds the pencil's numbers beside their arithmetic: typed from the job file and the sources that the
method pages name, with four figures carried on.  `*` in a sheet's id stands for all that begin so.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator
from fnmatch import fnmatchcase
from pathlib import Path
from typing import Any

import pytest
from planned_jobs import JOBS, ROOT, Planned
from pypdf import PdfReader

from lapwright.units.anything import si_scale

ROWS = list(csv.DictReader((Path(__file__).parent / "by_hand.csv").read_text(encoding="utf-8").splitlines()))
PAGES = ("wind", "fasten", "drains", "deck")
STRUCTURE = ("wind.", "metal.", "fasten.", "drains.", "deck.", "flashing.")
EXAMPLE = [path for path in JOBS if path.stem == "millrace"]
HEAD = ("| sheet | what | by hand | comes to | on the sheet |", "| --- | --- | --- | --- | --- |")
the_example = pytest.mark.parametrize("planned", EXAMPLE, indirect=True, ids=lambda path: path.stem)


def sheets_of(plan: dict[str, Any], pattern: str) -> list[dict[str, Any]]:
    """The sheets that a row is about; none is an error."""
    found = [check for check in plan["checks"] if fnmatchcase(check["id"], pattern)]
    assert found, f"no sheet {pattern}"
    return found


def on_the_sheet(check: dict[str, Any], line: str) -> float:
    """What a sheet says [SI]: asked, given, the result of the line that begins so, or a number put into it."""
    if line in ("asked", "given"):
        return float(check["demand" if line == "asked" else "capacity"])
    start, _, value = line.partition(" > ")
    (step,) = [step for step in check["steps"] if step["text"].startswith(start)]
    return float(step["values"][value] if value else step["result"])


def in_unit(si: float, unit: str) -> float:
    """A number in the unit of the row."""
    return si if unit == "1" else si / si_scale(unit)[0]


def page_rows(plan: dict[str, Any], page: str) -> Iterator[str]:
    """The table of a method page, line by line."""
    yield from HEAD
    for row in (row for row in ROWS if row["page"] == page):
        unit = "" if row["unit"] == "1" else f" {row['unit']}"
        said = in_unit(on_the_sheet(sheets_of(plan, row["sheet"])[0], row["line"]), row["unit"])
        what = row["line"].removesuffix(" [m]").replace(" > ", ": ")
        yield f"| `{row['sheet']}` | {what} | {row['by_hand_from']} | {row['by_hand']}{unit} | {said:.4g}{unit} |"


@the_example
def test_every_sheet_says_what_the_pencil_says(planned: Planned) -> None:
    """Within a thousandth, which the four figures carried on allow; whole numbers (nails, classes) as they are."""
    wrong = [
        (check["id"], row["line"], row["by_hand"], said)
        for row in ROWS
        for check in sheets_of(planned.plan, row["sheet"])
        if (said := in_unit(on_the_sheet(check, row["line"]), row["unit"]))
        != pytest.approx(
            float(row["by_hand"]), rel=0.0 if row["unit"] == "1" and "." not in row["by_hand"] else 1e-3, abs=1e-9
        )
    ]
    assert wrong == []


@the_example
def test_every_sheet_of_structure_was_followed(planned: Planned) -> None:
    """No sheet of wind, fastening, drainage and deck without a pencil's number for what it asks."""
    asked = [row["sheet"] for row in ROWS if row["line"] == "asked" or row["sheet"].startswith("metal.gauge")]
    left_out = [
        check["id"]
        for check in planned.plan["checks"]
        if check["id"].startswith(STRUCTURE) and not any(fnmatchcase(check["id"], pattern) for pattern in asked)
    ]
    assert left_out == []
    assert sum(check["id"].startswith(STRUCTURE) for check in planned.plan["checks"]) == 30


@the_example
@pytest.mark.parametrize("page", PAGES)
def test_the_docs_hold_the_pencils_numbers_and_the_sheets(planned: Planned, page: str) -> None:
    """Every row stands in docs/method with what plan.json says today."""
    text = (ROOT / "docs/method" / f"{page}.md").read_text(encoding="utf-8")
    assert "\n".join(page_rows(planned.plan, page)) in text


@the_example
def test_no_sheet_of_structure_runs_over_a_page(planned: Planned) -> None:
    """A page that begins with the head of a sheet's table goes on with a sheet of the page before."""
    pages = [page.extract_text() for page in PdfReader(planned.folder / "packet.pdf").pages]
    assert [at for at, text in enumerate(pages, start=1) if text.startswith("What is reckoned")] == []
    assert sum("Calculation sheets" in text for text in pages) > 20
