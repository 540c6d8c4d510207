"""The sheets "days", "order" and "checks" in a browser: by keyboard, on a phone, by addresses of their own, printed."""

from __future__ import annotations

import json
import re

import httpx
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from .jobs import SMALL, Served, open_sheet

PLANNED = (
    SMALL.replace("sheet: b}", "sheet: b, attachment: self_adhered}").replace(
        'end_lap: 6"}', 'end_lap: 6", apply_at_or_above: 50 F, warm_rolls_at_or_above: 20 F}'
    )
    + "site: {latitude: 36.10, longitude: -79.95, time_zone: America/New_York}\nweather: {year: greensboro}\n"
    + "crew: {people: 6, welders: 2, day: 07:00-16:30, days: Mon-Fri, start: 2027-01-11}\nprices: {b: $118, c: $104}\n"
)


def is_narrow(page: Page) -> bool:
    """Nothing is wider than the screen."""
    found: bool = page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    return found


def test_days_by_the_keyboard(page: Page, office: Served) -> None:
    """One stop of the tab key for the calendar; the arrow keys go on and back; the address names the day."""
    office.job("days-keys", PLANNED)
    open_sheet(page, office, "days-keys", "days")
    expect(page.locator("#day h2")).to_contain_text("Day 1", timeout=60_000)
    days = page.locator(".day").count()
    assert days > 1
    expect(page.locator(".day[tabindex='0']")).to_have_count(1)
    page.locator(".day").first.focus()
    page.keyboard.press("ArrowRight")
    expect(page.locator("#day h2")).to_contain_text("Day 2", timeout=30_000)
    expect(page.locator(".day[data-day='2']")).to_be_focused()
    assert page.url.endswith("#2")
    page.keyboard.press("End")
    expect(page.locator("#day h2")).to_contain_text(f"Day {days} ", timeout=30_000)
    expect(page.get_by_role("button", name="day after")).to_be_disabled()
    page.get_by_role("button", name="day before").click()
    expect(page.locator("#day h2")).to_contain_text(f"Day {days - 1} ", timeout=30_000)
    # The crew's day is 07:00 to 16:30: ten clock hours are begun in it, 7 to 16.
    heads = page.locator(".strip thead th").all_inner_texts()
    assert heads[1:-1] == [str(hour) for hour in range(7, 17)]
    assert Axe().run(page).violations_count == 0


def test_one_day_is_printed(page: Page, office: Served) -> None:
    """On paper the calendar and the buttons are left out, the day's sheet stays."""
    office.job("days-print", PLANNED)
    open_sheet(page, office, "days-print", "days")
    expect(page.locator("#day h2")).to_contain_text("Day 1", timeout=60_000)
    page.emulate_media(media="print")
    expect(page.locator("#calendar")).to_be_hidden()
    expect(page.get_by_role("button", name="Print this day")).to_be_hidden()
    expect(page.locator(".dayplan svg")).to_be_visible()


def test_days_on_a_phone_and_without_weather(page: Page, office: Served) -> None:
    """Days stand below one another; without weather and crew the sheet says what is not given."""
    page.set_viewport_size({"width": 360, "height": 740})
    office.job("days-phone", PLANNED)
    open_sheet(page, office, "days-phone", "days")
    expect(page.locator("#day h2")).to_contain_text("Day 1", timeout=60_000)
    assert is_narrow(page)
    assert Axe().run(page).violations_count == 0
    office.job("days-none", SMALL)
    open_sheet(page, office, "days-none", "days")
    expect(page.locator("#calendar")).to_contain_text("weather and crew is not given", timeout=60_000)
    assert Axe().run(page).violations_count == 0


def test_sources_of_the_order_lead_to_the_roof(page: Page, office: Served) -> None:
    """Every piece that asks for an item is named; its link opens the roof with its card."""
    office.job("order-from", PLANNED)
    open_sheet(page, office, "order-from", "order")
    asked = page.get_by_role("button", name=re.compile("^What asks for c: "))
    expect(asked).to_be_visible(timeout=60_000)
    asked.press("Enter")
    expect(asked).to_have_attribute("aria-expanded", "true")
    assert Axe().run(page).violations_count == 0
    link = page.locator(".ids a", has_text="Main/cap/01/1")
    link.click()
    expect(page.locator(".card dl")).to_contain_text("Main/cap/01/1", timeout=60_000)


def test_the_order_is_summed(page: Page, office: Served) -> None:
    """The sums of the kinds are that of the priced lines; on a phone tables scroll by themselves."""
    page.set_viewport_size({"width": 360, "height": 740})
    office.job("order-sum", PLANNED)
    open_sheet(page, office, "order-sum", "order")
    expect(page.locator(".sums tbody tr").last).to_contain_text("together", timeout=60_000)
    found = json.loads(httpx.get(f"{office.url}/api/jobs/order-sum/views/order", timeout=60).text.splitlines()[-1])
    rows = found["view"]["order"]["rows"]
    ordered = {row[0]: float(row[1].split()[0]) for row in rows[:-1] if row[4]}
    # Only the sheets have prices: rolls by $118 and $104.
    whole = sum(count * (118 if item.startswith("b") else 104) for item, count in ordered.items())
    expect(page.locator(".sums tbody tr").last).to_contain_text(f"${whole:,.2f}")
    assert is_narrow(page)
    assert Axe().run(page).violations_count == 0


def test_checks_stand_in_groups_the_worst_first(page: Page, office: Served) -> None:
    """A group with something unknown or failed comes before one in which all pass; the same within a group."""
    office.job("checks-order", SMALL)
    open_sheet(page, office, "checks-order", "checks")
    expect(page.get_by_role("heading", name="Layout")).to_be_visible(timeout=60_000)
    rank = {"fail": 0, "unknown": 1, "pass": 2}
    groups = [
        [rank[(mark.get_attribute("class") or "").split()[-1]] for mark in group.locator("summary .status").all()]
        for group in page.locator("section.list").all()
    ]
    assert all(marks == sorted(marks) for marks in groups)
    assert [marks[0] for marks in groups] == sorted(marks[0] for marks in groups)
    assert groups[0][0] < groups[-1][0]
    page.get_by_label("Only those with the words").fill("UPLIFT")
    shown = page.locator("section.list details")
    assert shown.count() > 0
    assert all("uplift" in (each.get_attribute("id") or "") for each in shown.all())
    page.get_by_label("Only those with the words").fill("no such words")
    expect(page.get_by_text("There is none.")).to_be_visible()
    assert Axe().run(page).violations_count == 0


def test_a_check_has_its_address(page: Page, office: Served) -> None:
    """The address of a check opens its calculation sheet, in sight and under the keyboard; also at phone size."""
    page.set_viewport_size({"width": 360, "height": 740})
    office.job("checks-link", SMALL)
    open_sheet(page, office, "checks-link", "checks#layout.side-lap")
    place = page.locator("[id='layout.side-lap']")
    expect(place.locator(".calc")).to_be_visible(timeout=60_000)
    expect(place.locator("summary")).to_be_focused()
    expect(place).to_be_in_viewport()
    assert is_narrow(page)
    assert Axe().run(page).violations_count == 0
    page.get_by_role("button", name="open or fold all").first.click()
    assert Axe().run(page).violations_count == 0


def test_what_a_check_lacks_leads_to_its_field(page: Page, office: Served) -> None:
    """An unknown check names what to supply in words; each leads to the field that takes it, ready to be typed in."""
    office.job("checks-lead", PLANNED)
    open_sheet(page, office, "checks-lead", "checks")
    page.get_by_role("button", name=re.compile("unknown$")).click(timeout=60_000)
    page.locator("section.list details > summary").first.click()
    links = page.locator("details[open] dd li a")
    expect(links.first).to_be_visible()
    wanted = {words: links.filter(has_text=words).first for words in links.all_inner_texts()}
    words = next(iter(wanted))
    assert "[" not in words
    wanted[words].click()
    expect(page).to_have_url(re.compile("describe#at="))
    label = words.rpartition(": ")[2]
    expect(page.locator("*:focus")).to_be_visible()
    focused = page.evaluate("document.activeElement.labels?.[0]?.textContent ?? document.activeElement.textContent")
    assert label.lower() in focused.lower()
