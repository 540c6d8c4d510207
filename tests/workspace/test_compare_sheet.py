"""The sheet "compare" in a browser: a what-if kept and taken back, errors at fields, an earlier step, another file."""

from __future__ import annotations

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from .jobs import SMALL, Served, open_sheet


def compare(page: Page) -> None:
    """Asks, and waits for the two sides."""
    page.get_by_role("button", name="Set them side by side").click()
    expect(page.get_by_role("heading", name="Layout")).to_be_visible(timeout=60_000)


def test_a_what_if_is_kept_and_taken_back(page: Page, office: Served) -> None:
    """Nothing is saved by looking; kept, it is one step; taken back, the file is the same bytes."""
    path = office.job("what-if", SMALL)
    open_sheet(page, office, "what-if", "compare")
    page.get_by_label("Plies").select_option("3")
    page.get_by_label("Length of a roll of c").fill("20'")
    compare(page)
    layout = page.get_by_role("region", name="Layout: what differs")
    # 30' from rolls of 20': each course of cap takes two pieces, one end lap each, where it took one and none.
    expect(layout.locator("tr", has_text="End laps").locator("td").first).to_have_text("0")
    expect(layout.locator("tr", has_text="End laps").locator(".change")).to_contain_text("more")
    assert path.read_text(encoding="utf-8") == SMALL
    assert Axe().run(page).violations_count == 0
    page.locator("#sides summary").first.click()
    assert Axe().run(page).violations_count == 0
    page.get_by_role("button", name="Make this the job").click()
    expect(page.get_by_text("It is the job now")).to_be_visible()
    expect(page.locator("#sides")).to_be_focused()
    assert "interply" in path.read_text(encoding="utf-8")
    page.get_by_label("An earlier step").check()
    expect(page.get_by_label("Which")).to_contain_text("before: what-if: Plies 3")
    page.get_by_role("button", name="Take back").click()
    expect(page.locator("#saved")).to_contain_text("taken back: what-if: Plies 3")
    expect(page.get_by_text("It is the job now")).to_have_count(0)
    assert path.read_text(encoding="utf-8") == SMALL
    expect(page.get_by_label("Which")).to_contain_text("with what was taken back: what-if: Plies 3")
    compare(page)
    expect(page.get_by_role("region", name="What differs in the file: what differs")).to_contain_text("interply")


def test_errors_stand_at_their_fields(page: Page, office: Served) -> None:
    """By the keyboard: Enter asks, the field is marked in words, put right it is gone."""
    office.job("what-else", SMALL)
    open_sheet(page, office, "what-else", "compare")
    length = page.get_by_label("Length of a roll of c")
    length.fill("20")
    length.press("Enter")
    expect(length).to_have_attribute("aria-invalid", "true", timeout=30_000)
    expect(page.locator("#choose .wrong", has_text="length with its unit")).to_be_visible()
    assert Axe().run(page).violations_count == 0
    length.fill("20'")
    length.press("Enter")
    expect(page.get_by_role("heading", name="Layout")).to_be_visible(timeout=60_000)
    expect(length).to_have_attribute("aria-invalid", "false")


def test_another_job_at_phone_size(page: Page, office: Served) -> None:
    """Beside another file of the folder; nothing is wider than the phone but the tables, which scroll by themselves."""
    office.job("this-one", SMALL)
    office.job("that-one", SMALL.replace("65' 7\"", "50'"))
    page.set_viewport_size({"width": 360, "height": 740})
    open_sheet(page, office, "this-one", "compare")
    page.get_by_label("Another job of the folder").check()
    page.get_by_label("Which").select_option("that-one")
    compare(page)
    expect(page.locator("#sides")).to_contain_text("that-one.yaml")
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    assert Axe().run(page).violations_count == 0


def test_no_step_yet_is_said(page: Page, office: Served) -> None:
    """A job that nobody changed has no earlier step."""
    office.job("unchanged", SMALL)
    open_sheet(page, office, "unchanged", "compare")
    page.get_by_label("An earlier step").check()
    expect(page.get_by_text("There is no earlier step yet")).to_be_visible()
    expect(page.get_by_role("button", name="Set them side by side")).to_be_disabled()
    assert Axe().run(page).violations_count == 0
