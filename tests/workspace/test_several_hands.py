"""Two tabs, an editor on the disk, a server that is killed: nothing is overwritten unseen, nothing saved is lost."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from .jobs import SMALL, Served, open_sheet, serve


@pytest.fixture
def other(browser: Browser, page: Page) -> Iterator[Page]:
    """A second tab."""
    context = browser.new_context()
    yield context.new_page()
    context.close()


def typed(page: Page, old: str, new: str) -> None:
    """A word of the job file replaced by hand on its sheet."""
    field = page.locator("textarea").first
    expect(field).not_to_have_value("", timeout=30_000)
    field.fill(field.input_value().replace(old, new))


def on_disk(path: Path) -> str:
    """What the file says."""
    return path.read_text(encoding="utf-8")


def test_another_tab_takes_over_what_one_saved(page: Page, other: Page, office: Served) -> None:
    """Typed and saved in one tab, it stands in the other without being asked for."""
    path = office.job("hands-two", SMALL)
    open_sheet(page, office, "hands-two", "file")
    open_sheet(other, office, "hands-two", "file")
    expect(other.locator("textarea").first).not_to_have_value("", timeout=30_000)
    typed(page, '30"', '36"')
    expect(page.locator("#saved")).to_have_text("saved", timeout=30_000)
    assert '36"' in on_disk(path)
    expect(other.locator("textarea").first).to_have_value(SMALL.replace('30"', '36"'), timeout=30_000)


def test_an_edit_on_an_older_text_is_told_and_not_saved(page: Page, other: Page, office: Served) -> None:
    """The second tab hears of nothing (its line is cut); its own change is refused, the first one's stays."""
    path = office.job("hands-old", SMALL)
    open_sheet(other, office, "hands-old", "file")
    expect(other.locator("textarea").first).not_to_have_value("", timeout=30_000)
    other.route("**/changes", lambda route: route.abort())
    other.reload()
    expect(other.locator("textarea").first).not_to_have_value("", timeout=30_000)
    path.write_text(SMALL.replace("1/4 in 12", "1/2 in 12"), encoding="utf-8")
    typed(other, "Small", "Mine")
    expect(other.locator("#moved")).to_contain_text("changed elsewhere", timeout=30_000)
    assert on_disk(path) == SMALL.replace("1/4 in 12", "1/2 in 12")


def test_a_change_on_the_disk_is_taken_over_and_can_be_taken_back(page: Page, office: Served) -> None:
    """An editor saves the file: the page shows it, and "take back" leads to what stood before."""
    path = office.job("hands-disk", SMALL)
    open_sheet(page, office, "hands-disk", "file")
    expect(page.locator("textarea").first).not_to_have_value("", timeout=30_000)
    path.write_text(SMALL.replace("Small", "By an editor"), encoding="utf-8")
    expect(page.locator("textarea").first).to_have_value(SMALL.replace("Small", "By an editor"), timeout=30_000)
    page.locator("#undo").click()
    expect(page.locator("textarea").first).to_have_value(SMALL, timeout=30_000)
    assert on_disk(path) == SMALL


def test_a_server_killed_and_begun_anew_goes_on(page: Page, tmp_path: Path) -> None:
    """Killed in the middle of typing: the page says so; begun anew at the same address, the page is loaded again, all
    that was told as saved is there, and the steps before can be taken back.
    """
    served = serve(tmp_path)
    path = served.job("hands-killed", SMALL)
    open_sheet(page, served, "hands-killed", "file")
    typed(page, "Small", "Before the end")
    expect(page.locator("#saved")).to_have_text("saved", timeout=30_000)
    served.process.kill()
    served.end()
    typed(page, "Before the end", "After it")
    expect(page.locator("#saved")).to_have_text("not saved", timeout=30_000)
    assert on_disk(path) == SMALL.replace("Small", "Before the end")
    again = serve(tmp_path, int(served.url.rsplit(":", 1)[1]))
    try:
        page.reload()
        expect(page.locator("textarea").first).to_have_value(SMALL.replace("Small", "Before the end"), timeout=30_000)
        page.locator("#undo").click()
        expect(page.locator("textarea").first).to_have_value(SMALL, timeout=30_000)
    finally:
        again.end()
