"""A job from nothing to a laid roof, as somebody would who has never seen it."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from playwright.sync_api import Locator, Page, expect

from .jobs import Served

expect.set_options(timeout=20_000)

MOST = 60


@dataclass
class Counted:
    """Fields filled in and clicks made, counted."""

    page: Page
    steps: list[str] = field(default_factory=list)

    def fill(self, place: Locator, value: str) -> None:
        """A field typed."""
        self.steps.append(f"type {value}")
        place.fill(value)

    def choose(self, place: Locator, value: str) -> None:
        """A choice made."""
        self.steps.append(f"choose {value}")
        place.select_option(value)

    def click(self, place: Locator, name: str = "") -> None:
        """A click."""
        self.steps.append(f"click {name or place}")
        place.click()


def settled(page: Page) -> None:
    """Everything typed is on the disk."""
    expect(page.locator("#saved")).to_have_text(re.compile("saved|as on disk"))


def test_a_rectangle_with_two_curbs_takes_at_most_sixty_fields_and_clicks(page: Page, office: Served) -> None:
    """From the first page to the laid roof, each field and click counted; the file says what was typed."""
    by = Counted(page)
    page.goto(office.url)
    by.fill(page.get_by_label("Name of the job"), "Two Curbs From Nothing")
    by.click(page.get_by_role("button", name="Begin"))
    by.click(page.get_by_role("button", name="Add the first area"))
    for leg, typed in enumerate(("E 60'", "N 40'", "W 60'", "S 40'"), start=1):
        row = page.get_by_label(f"Leg {leg}, length")
        by.fill(row, typed)
        row.press("Enter")
        expect(page.get_by_label(f"Leg {leg + 1}, length")).to_be_focused()
    expect(page.get_by_text("the walk ends at its start")).to_be_visible()
    edges = page.locator("#step-edges")
    by.click(edges.get_by_role("button", name="Take these"))
    expect(edges.locator(".sides")).to_contain_text("metal edge")
    openings = page.get_by_role("form", name="One more: Openings")
    for place in ("E 10' N 10'", "E 40' N 20'"):
        by.fill(openings.get_by_label("Place", exact=True), place)
        by.fill(openings.get_by_label("Size", exact=True), "E 6' x N 4'")
        by.fill(openings.get_by_label("Height", exact=True), '12"')
        by.click(openings.get_by_role("button", name="Add", exact=True))
        expect(openings.get_by_label("Place", exact=True)).to_have_value("")
    by.click(page.locator("#step-falls").get_by_role("button", name="Take these"))
    expect(page.locator("#f-roof-0-slope")).to_have_value("1/4 in 12")
    by.click(page.locator("#step-sheets").get_by_role("button", name="Take these"))
    expect(page.get_by_role("link", name="See the roof laid")).to_be_visible()
    settled(page)
    by.click(page.get_by_role("link", name="See the roof laid"))
    assert len(by.steps) <= MOST, by.steps
    text = (office.folder / "two-curbs-from-nothing.yaml").read_text(encoding="utf-8")
    assert "outline: E 60', N 40', W 60', S 40'" in text
    assert "{name: C-2, kind: curb, at: E 40' N 20', size: E 6' x N 4', height: 12\"}" in text
    found = page.request.get(f"{office.url}/api/jobs/two-curbs-from-nothing/views/summary").text()
    assert '"areas":["Main"]' in found, found
