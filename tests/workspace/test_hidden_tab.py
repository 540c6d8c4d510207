"""A browser holds six lines to one server: a tab that nobody sees gives its own back, and takes it up when seen."""

from __future__ import annotations

from playwright.sync_api import Page, expect

from .jobs import SMALL, Served, open_sheet

TURN = """(hidden) => {
  Object.defineProperty(document, "hidden", { value: hidden, configurable: true });
  document.dispatchEvent(new Event("visibilitychange"));
}"""


def test_a_tab_that_is_not_seen_gives_its_line_back(page: Page, office: Served) -> None:
    """Its line ends; what changed meanwhile is there once the tab is seen again."""
    path = office.job("hidden-tab", SMALL)
    with page.expect_request("**/changes", timeout=30_000):
        open_sheet(page, office, "hidden-tab", "file")
    expect(page.locator("textarea").first).to_have_value(SMALL, timeout=30_000)
    with page.expect_event("requestfailed", lambda one: one.url.endswith("/changes"), timeout=30_000):
        page.evaluate(TURN, True)
    path.write_text(SMALL.replace("Small", "Meanwhile"), encoding="utf-8")
    with page.expect_request("**/changes", timeout=30_000):
        page.evaluate(TURN, False)
    expect(page.locator("textarea").first).to_have_value(SMALL.replace("Small", "Meanwhile"), timeout=30_000)
