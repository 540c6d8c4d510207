"""The frame of the sheets: the title block follows the job, steps go back and forth by keys, every sheet passes axe."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from .jobs import SMALL, Served, open_sheet


def test_the_title_block_follows_the_job(page: Page, office: Served) -> None:
    """A new name typed into the file stands in the title block at once, and is taken back with Ctrl+Z."""
    office.job("frame-title", SMALL)
    open_sheet(page, office, "frame-title", "file")
    field = page.locator("textarea").first
    expect(field).not_to_have_value("", timeout=30_000)
    field.fill(SMALL.replace("name: Small", "name: Weir House, number: 27-3"))
    expect(page.locator("#tb-name")).to_have_text("Weir House", timeout=30_000)
    expect(page.locator("#tb-number")).to_have_text("27-3")
    page.locator("h1").click()
    page.keyboard.press("Control+z")
    expect(page.locator("#tb-name")).to_have_text("Small", timeout=30_000)
    page.keyboard.press("Control+Shift+z")
    expect(page.locator("#tb-name")).to_have_text("Weir House", timeout=30_000)


@pytest.mark.parametrize("key", ["overview", "file", "days", "order", "checks"])
def test_axe_finds_nothing_on_a_sheet(page: Page, office: Served, key: str) -> None:
    """Light and dark, with a job that can be planned and one that can't."""
    office.job("frame-axe", SMALL)
    office.job("frame-faulty", SMALL.replace('side_lap: 3"', "side_lap: 3"))
    for name in ("frame-axe", "frame-faulty"):
        open_sheet(page, office, name, key)
        page.wait_for_timeout(300)
        page.wait_for_selector(".working", state="detached", timeout=60_000)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]  # one of the words it takes
            found = Axe().run(page)
            assert found.violations_count == 0, found.generate_report()


def test_the_first_page_begins_a_job(page: Page, office: Served) -> None:
    """A name and a click lead to its description; a second job of that name is refused in words."""
    page.goto(office.url)
    assert Axe().run(page).violations_count == 0
    page.get_by_label("Name of the job").fill("Kiln Row, north")
    page.get_by_role("button", name="Begin").click()
    page.wait_for_url("**/jobs/kiln-row-north/describe")
    assert (office.folder / "kiln-row-north.yaml").read_text(encoding="utf-8").count("Kiln Row, north") == 1
    page.goto(office.url)
    page.get_by_label("Name of the job").fill("Kiln Row, north")
    page.get_by_role("button", name="Begin").click()
    expect(page.locator("#begin-said")).to_contain_text("there is a job kiln-row-north.yaml already")
