"""What a form says of a mistake: in words of a form, and never a number that nobody typed."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Page, expect

from lapwright.plan.describe.form import form_json
from lapwright.plan.desk.stages import JobAsk

from .jobs import SMALL, Served, open_sheet


def step(text: str, key: str) -> Any:
    """A step of a job's description."""
    found = form_json(JobAsk(text, Path("nowhere/x.yaml")))
    return next(each for each in found["steps"] if each["key"] == key)


@pytest.mark.parametrize(
    ("typed", "offered"),
    [("1/18/2027", "2027-01-18"), ("18.1.2027", "2027-01-18"), ("4/5/2027", ""), ("next Monday", "2027-01-11")],
)
def test_a_date_is_turned_or_left_alone(typed: str, offered: str) -> None:
    """There is no 18th month; 4/5 is April in one country and May in another; where no number is read, an example."""
    crew = step(SMALL + f"crew: {{people: 5, start: {typed}}}\n", "crew")["blocks"][0]
    start = next(field for field in crew["fields"] if field["key"] == "start")
    assert [fault["value"] for fault in start["faults"]] == [offered]


def test_a_rule_that_can_not_be_kept_is_offered_as_it_can() -> None:
    """A cap lapped 4" leaves 39 3/8 - 4 = 35 3/8 in a course; half of it is 17 11/16, less than the default 18."""
    wide = SMALL.replace("32' 10\", side_lap: 3", "32' 10\", side_lap: 4")
    assert wide != SMALL
    rules = next(block for block in step(wide, "rules")["blocks"] if block["key"] == "rules")
    offset = next(field for field in rules["fields"] if field["key"] == "ply_offset")
    assert [fault["value"] for fault in offset["faults"]] == ['17 11/16"']


def test_what_is_missing_is_said_without_the_files_words() -> None:
    """A form has fields, no keys."""
    falls = step(SMALL.replace("    falls: S\n", ""), "falls")["blocks"][0]["fields"]
    said = [fault["plain"] for field in falls for fault in field["faults"]]
    assert said == ["still to be given: the way water runs: E N W S, or a bearing"]


def test_a_fold_that_is_typed_into_keeps_the_cursor(page: Page, office: Served) -> None:
    """The first value of a fold is picked: the fold stays open and the next key still goes to the same field."""
    path = office.job("fold-focus", SMALL)
    open_sheet(page, office, "fold-focus", "describe")
    page.locator("#step-sheets summary", has_text="Insulation").click()
    kind = page.locator("#f-assembly-insulation-kind")
    kind.focus()
    kind.select_option("polyiso")
    expect(page.locator("#f-assembly-insulation-more > summary")).not_to_contain_text("nothing given", timeout=20_000)
    assert "polyiso" in path.read_text(encoding="utf-8")
    expect(kind).to_be_focused()


def test_a_hint_takes_no_click(page: Page, office: Served) -> None:
    """A hint is shown over what stands near its field; a click in its middle goes to what lies below it."""
    office.job("hint-click", SMALL)
    open_sheet(page, office, "hint-click", "describe")
    page.get_by_role("form", name="One more: Pipes").get_by_label("Diameter").focus()
    hint = page.locator("#step-standing .field:focus-within > .hint")
    expect(hint).to_be_visible(timeout=20_000)
    assert hint.evaluate("""each => {
        const { x, y, width, height } = each.getBoundingClientRect();
        return !each.contains(document.elementFromPoint(x + width / 2, y + height / 2));
    }""")
