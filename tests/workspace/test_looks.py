"""What a sheet looks like on paper and on a phone, as far as it can be told without eyes."""

from __future__ import annotations

import io

import pytest
from playwright.sync_api import Page, expect
from pypdf import PdfReader

from lapwright.workspace.routes.pages import SHEETS

from .jobs import SMALL, Served, open_sheet

LONG = SMALL + "".join(f"# line {k} of a long file\n" for k in range(1, 121))


def printed(page: Page) -> list[str]:
    """The words of each page that goes to paper."""
    paper = page.pdf(format="Letter")
    return [each.extract_text() for each in PdfReader(io.BytesIO(paper)).pages]


def test_the_job_file_is_printed_whole(page: Page, office: Served) -> None:
    """Every line with its number, also those that are not in sight on the screen."""
    office.job("looks-file", LONG)
    open_sheet(page, office, "looks-file", "file")
    expect(page.locator("textarea")).to_have_value(LONG, timeout=20_000)
    words = " ".join(" ".join(printed(page)).split())
    count = len(SMALL.splitlines())
    assert "1 job: {name: Small}" in words
    assert all(f"{count + k} # line {k} of a long file" in words for k in range(1, 121))


def test_a_folded_cut_list_is_printed(page: Page, office: Served) -> None:
    """An order on paper has every roll: what is folded on the screen has no button there."""
    office.job("looks-order", SMALL)
    open_sheet(page, office, "looks-order", "order")
    heading = page.get_by_role("heading", name="Cut list: b")
    expect(heading).to_be_visible(timeout=90_000)
    folded = page.locator("details table caption").first
    expect(folded).to_be_hidden()
    said = (folded.text_content() or "").strip()
    assert said.startswith("What is cut from each roll")
    assert said in " ".join(" ".join(printed(page)).split())


def test_what_is_empty_is_not_printed(page: Page, office: Served) -> None:
    """The roof alone: no empty card, no heading over nothing; one page."""
    office.job("looks-roof", SMALL)
    open_sheet(page, office, "looks-roof", "roof")
    expect(page.locator(".counts")).to_contain_text("end laps", timeout=90_000)
    pages = printed(page)
    assert len(pages) == 1
    assert "end laps" in pages[0]
    assert "What it costs to spare" not in pages[0]
    assert "Point at a piece" not in pages[0]


@pytest.mark.parametrize("key", [sheet.key for sheet in SHEETS])
def test_the_open_sheets_name_is_in_sight_on_a_phone(page: Page, office: Served, key: str) -> None:
    """The row of names is longer than the screen; the one that is open stands in it."""
    page.set_viewport_size({"width": 360, "height": 740})
    office.job("looks-phone", SMALL)
    open_sheet(page, office, "looks-phone", key)
    expect(page.locator(".sheets [aria-current]")).to_be_in_viewport(ratio=0.99)
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    block = page.locator(".titleblock").bounding_box()
    assert block is not None
    assert block["height"] < 170  # of 740, so that the sheet begins in the upper third
