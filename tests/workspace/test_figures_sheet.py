"""The sheet "figures" in a browser: values of the job, answers with curve and steps, errors at fields, phone size."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

from lapwright.plan.figures.registry import NAMES

from .jobs import SMALL, Served, open_sheet

# 10 m of 4 mm sheet kept at 70 F: the roll clock's own example job.
WARM = (
    SMALL.replace('c: {width: 39 3/8", length: 32\' 10"', 'c: {width: 39 3/8", length: 10 m, thickness: 4 mm')
    + "store: {temperature: 70 F}\npower: {volts: 120 V, load: 1.6 kW, gauge: 14, length: 60'}\n"
)


def test_each_figure_answers_its_example_at_phone_size(page: Page, office: Served) -> None:
    """Every figure by itself, without a job: form, answer, nothing wider than the phone, no barrier found."""
    page.set_viewport_size({"width": 360, "height": 740})
    for name in NAMES:
        page.goto(f"{office.url}/figures#{name}")
        expect(page.locator("#which a[aria-current]")).to_have_text(name)
        page.get_by_role("button", name="Fill in an example").click()
        expect(page.locator(".results tr").first).to_be_visible(timeout=20_000)
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), name
        for closed in page.locator("#answer summary").all():
            closed.click()
        assert Axe().run(page).violations_count == 0, name


def test_a_job_fills_in_what_it_has(page: Page, office: Served) -> None:
    """Store, sheet and power as typed in the job; of two sheets either."""
    office.job("figured", WARM)
    open_sheet(page, office, "figured", "figures")
    expect(page.get_by_label("The roll as it leaves the store")).to_have_value("70 F")
    expect(page.get_by_label("Length of its sheet")).to_have_value("10 m")
    page.get_by_label("Values of").select_option("b")
    expect(page.get_by_label("Length of its sheet")).to_have_value("65' 7\"")
    page.locator("#which").get_by_text("cord").click()
    expect(page.get_by_label("Watts on the tool's plate")).to_have_value("1.6 kW")
    # 120 V and 1.6 kW on the plate: 1600 / 120 = 13.3 A by pencil.
    expect(page.locator(".results tr", has_text="Current by the plate").locator("td")).to_have_text("13.3 A")


def test_wrong_values_are_told_at_their_fields(page: Page, office: Served) -> None:
    """Words beside the field, the field marked; both gone when it is put right, the answer there."""
    page.goto(f"{office.url}/figures#chill")
    page.get_by_role("button", name="Fill in an example").click()
    expect(page.locator(".results")).to_be_visible(timeout=20_000)
    air = page.get_by_label("The air")
    air.fill("25")
    expect(page.locator("#f-air-wrong")).to_contain_text("Write: 25F", timeout=10_000)
    expect(air).to_have_attribute("aria-invalid", "true")
    assert Axe().run(page).violations_count == 0
    air.fill("60F")
    # Over 50 F there is no chill: the air's own temperature is told (National Weather Service, chart of 2001).
    expect(page.locator("#f-air-wrong")).to_be_empty(timeout=10_000)
    expect(page.locator(".results td").first).to_contain_text("60 °F", timeout=10_000)


def test_a_figure_is_reckoned_with_the_keyboard_alone(page: Page, office: Served) -> None:
    """Enter in a field reckons; the answer is said as well."""
    page.goto(f"{office.url}/figures#chill")
    air, wind = page.get_by_label("The air"), page.get_by_label("The wind in the open")
    air.focus()
    page.keyboard.type("0F")
    page.keyboard.press("Tab")
    expect(wind).to_be_focused()
    page.keyboard.type("15mph")
    page.keyboard.press("Enter")
    # 0 F and 15 mph: -19 F on the chart of 2001 of the National Weather Service.
    expect(page.locator(".results td").first).to_contain_text("-19", timeout=20_000)
    expect(page.locator("#heard")).to_contain_text("-19")


@pytest.mark.parametrize("units", ["us", "metric"])
def test_units_are_chosen(page: Page, office: Served, units: str) -> None:
    """Answers in the units chosen: 0 F is -17.8 C."""
    page.goto(f"{office.url}/figures#chill")
    page.get_by_label("Units").select_option(units)
    page.get_by_role("button", name="Fill in an example").click()
    mark = "°F" if units == "us" else "°C"
    expect(page.locator(".results td").first).to_contain_text(mark, timeout=20_000)
