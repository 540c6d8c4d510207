"""The roof sheet in a browser: plies, layers, cards, order of laying, tape, aims, and the tables behind."""

from __future__ import annotations

import re

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from .jobs import SMALL, Served, open_sheet


def roof(page: Page, office: Served, name: str) -> None:
    """A small job's roof, laid out whole."""
    office.job(name, SMALL)
    open_sheet(page, office, name, "roof")
    expect(page.locator(".counts")).to_contain_text("pieces", timeout=60_000)
    expect(page.locator(".counts")).not_to_contain_text("First layout", timeout=60_000)


def middle_of(page: Page) -> tuple[float, float]:
    """The middle of the plan on the screen."""
    box = page.locator("canvas").bounding_box()
    assert box is not None
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def test_a_piece_has_its_card(page: Page, office: Served) -> None:
    """Pointing at the middle of the roof shows a piece's or lap's card, with its id; the table leads to it as well."""
    roof(page, office, "roof-card")
    page.mouse.click(*middle_of(page))
    expect(page.locator(".card dl")).to_contain_text("Main/cap", timeout=30_000)
    page.get_by_text("Pieces in the order of laying").click()
    row = page.locator("[data-kind=piece] tbody tr").first
    # 30' by 12' from rolls of 32' 10": a course is one piece, and the base comes first (common practice, no source).
    expect(row.locator("th")).to_have_text("1")
    row.get_by_role("button").click()
    expect(page.locator(".card h2")).to_have_text("piece 1", timeout=30_000)
    expect(page.locator(".card")).to_contain_text("base")


def test_the_order_of_laying_runs_piece_by_piece(page: Page, office: Served) -> None:
    """Back by one, then to the first."""
    roof(page, office, "roof-order")
    said = page.locator("output")
    whole = int(said.inner_text())
    page.get_by_role("button", name="one piece back").click()
    expect(said).to_have_text(str(whole - 1))
    page.locator("#laid").focus()
    page.keyboard.press("Home")
    expect(said).to_have_text("0")


def test_the_tape_reads_the_length_of_the_roof(page: Page, office: Served) -> None:
    """From the west edge to the east one, level: 30' as drawn, to what a pixel is on the screen."""
    roof(page, office, "roof-tape")
    page.get_by_role("button", name="tape").click()
    x, y = middle_of(page)
    page.mouse.click(x - 100, y)
    page.mouse.click(x + 100, y)
    said = page.get_by_text(re.compile(r"\d+' .*\(E .*, N 0\"\)"))
    expect(said).to_be_visible(timeout=30_000)
    feet = int(said.inner_text().split("'")[0])
    assert 1 <= feet <= 30


def test_another_aim_is_chosen_and_taken_back(page: Page, office: Served) -> None:
    """The table of aims; choosing one writes it into the job file, and it can be taken back."""
    roof(page, office, "roof-aims")
    page.get_by_role("button", name=re.compile("other aims")).click()
    page.get_by_role("button", name="lay this").first.click(timeout=60_000)
    expect(page.locator("#undo")).to_be_enabled(timeout=30_000)
    assert "aim: fewest_" in (office.folder / "roof-aims.yaml").read_text(encoding="utf-8")
    page.locator("#undo").click()
    expect(page.locator("#redo")).to_be_enabled()
    assert (office.folder / "roof-aims.yaml").read_text(encoding="utf-8") == SMALL


def test_keys_move_and_choose(page: Page, office: Served) -> None:
    """Without a mouse: the plan takes the focus, is moved and zoomed, and Enter chooses what is in the middle."""
    roof(page, office, "roof-keys")
    page.locator("canvas").focus()
    for key in ("+", "ArrowLeft", "ArrowUp", "-", "0", "Enter"):
        page.keyboard.press(key)
    expect(page.locator(".card dl")).to_contain_text("Main/", timeout=30_000)


def test_axe_finds_nothing(page: Page, office: Served) -> None:
    """The sheet with everything open, light and dark."""
    roof(page, office, "roof-axe")
    for each in page.locator("summary").all():
        each.click()
    for scheme in ("light", "dark"):
        page.emulate_media(color_scheme=scheme)  # type: ignore[arg-type]  # one of the words it takes
        found = Axe().run(page)
        assert found.violations_count == 0, found.generate_report()


def test_on_a_phone_nothing_runs_out_at_the_side(page: Page, office: Served) -> None:
    """360 pixels wide: the page scrolls down and not sideways."""
    page.set_viewport_size({"width": 360, "height": 740})
    roof(page, office, "roof-phone")
    assert page.evaluate("() => document.documentElement.scrollWidth <= document.documentElement.clientWidth")
