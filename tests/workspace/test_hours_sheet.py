"""The sheet "hours" in a browser: pictures, cursor, what-if, another year beside it, the next day."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page, expect

import forecast_sample as sample

from .jobs import Served, open_sheet

sys.path.append(str(Path(__file__).parents[1] / "plan"))
from hours_by_hand import JOB, put  # the days that a pencil judged, beside the views' own tests

WINDY = "21 Jun, 11:00 to 12:00"  # by the crew's clock, an hour before standard time in June


def hours(page: Page, office: Served, name: str, job: str = JOB) -> Path:
    """The sheet of the three days, drawn."""
    path = put(office.folder, name, job)
    open_sheet(page, office, name, "hours")
    expect(page.locator(".card h2")).to_be_visible(timeout=60_000)
    expect(page.locator("#next h2")).to_be_visible(timeout=30_000)
    return path


def to_the_wind(page: Page) -> None:
    """From the first day's 9:00, where the cursor is at first, to the second day's 11:00 by the keys."""
    page.locator(".own canvas").focus()
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowUp")


def violations(page: Page) -> list[str]:
    """What axe finds."""
    return [f"{each['id']}: {each['nodes'][0]['html'][:120]}" for each in Axe().run(page).response["violations"]]


def test_keys_move_the_cursor_and_it_is_said(page: Page, office: Served) -> None:
    """The windy hour's state and reason on the card and in the live region; Enter opens its day."""
    hours(page, office, "hours-keys")
    to_the_wind(page)
    expect(page.locator(".card h2")).to_have_text(WINDY)
    expect(page.locator(".card")).to_contain_text("base: shut: wind over 20 mph for sheets")
    expect(page.locator(".own figcaption")).to_contain_text("by the crew's clock")
    live = page.locator("[aria-live=polite]", has_text="wind over 20 mph for sheets")
    expect(live).to_contain_text("Air 70 °F, Dew point 30 °F")
    page.keyboard.press("End")
    expect(page.locator(".card")).to_contain_text("base: shut: dark")
    page.keyboard.press("Enter")
    expect(page.get_by_role("button", name="day", exact=True)).to_have_attribute("aria-pressed", "true")
    expect(page.locator("#day h2")).to_have_text("21 Jun", timeout=30_000)
    page.locator(".own canvas").focus()
    page.keyboard.press("Home")
    page.keyboard.press("ArrowUp")
    page.keyboard.press("ArrowRight")
    # the row over the base is the primer's
    expect(page.locator(".card h2")).to_have_text("21 Jun, 01:00 to 02:00")
    expect(page.locator(".card")).to_contain_text("primer: shut: dark")


def test_the_pointer_tells_the_reason(page: Page, office: Served) -> None:
    """In the day's picture, over the base's 12:00; off it the cursor's hour is told again."""
    hours(page, office, "hours-pointer")
    to_the_wind(page)
    page.keyboard.press("Enter")
    cursor = page.locator(".own .cursor").bounding_box()
    assert cursor is not None
    page.mouse.move(cursor["x"] + cursor["width"] * 1.5, cursor["y"] + cursor["height"] / 2)
    expect(page.locator(".card h2")).to_have_text("21 Jun, 12:00 to 13:00")
    expect(page.locator(".card")).to_contain_text("wind over 20 mph for sheets")
    page.mouse.move(2, 2)
    expect(page.locator(".card h2")).to_have_text(WINDY)


def test_the_curve_marks_the_window(page: Page, office: Served) -> None:
    """First and last safe minute of the windy day, as the pencil has them, in the table under the curve."""
    hours(page, office, "hours-curve")
    to_the_wind(page)
    row = page.locator("#day tr", has_text="base")
    expect(row.first).to_contain_text("06:00", timeout=30_000)
    expect(row.first).to_contain_text("11:47")
    expect(page.locator("#day svg .mark")).to_have_count(2 + 1)  # the window's two, and the key's
    expect(page.locator("#day svg text", has_text="open from 50")).to_have_count(1)


def test_a_slider_changes_the_hours_and_not_the_file(page: Page, office: Served) -> None:
    """Eight steps up from 20 mph the windy hour is open; the file changes by the button alone, comments kept."""
    path = hours(page, office, "hours-slider")
    to_the_wind(page)
    page.locator("#if-wind").focus()
    for _ in range(8):
        page.keyboard.press("ArrowRight")
    expect(page.get_by_text("What if: not in the job file")).to_be_visible(timeout=30_000)
    expect(page.locator(".card")).to_contain_text("base: open", timeout=30_000)
    expect(page.locator("output[for=if-wind]")).to_have_text("28 mph")
    assert path.read_text(encoding="utf-8") == JOB
    page.get_by_role("button", name="As the job has it").click()
    expect(page.locator(".card")).to_contain_text("base: shut", timeout=30_000)
    expect(page.locator("#if-wind")).to_have_attribute("aria-valuetext", "20 mph")
    page.locator("#if-wind").press("ArrowLeft")
    expect(page.get_by_text("What if: not in the job file")).to_be_visible(timeout=30_000)
    page.get_by_role("button", name="Put it in the job file").click()
    expect(page.locator("#saved")).to_have_text("saved", timeout=30_000)
    assert path.read_text(encoding="utf-8") == JOB.replace("wind_sheets: 20 mph", "wind_sheets: 19 mph")
    expect(page.get_by_text("As the job has it.")).to_be_visible(timeout=30_000)


def test_two_years_side_by_side(page: Page, office: Served) -> None:
    """Another weather with its counts; only the button puts it into the file."""
    path = hours(page, office, "hours-beside")
    page.locator("#beside").select_option("chicago-2015")
    expect(page.locator(".beside figcaption")).to_contain_text("chicago-2015", timeout=30_000)
    expect(page.locator(".own caption", has_text="by month, three-days.csv")).to_have_count(2)
    expect(page.locator(".beside caption", has_text="Hours for base by month, chicago-2015")).to_be_visible()
    # 20 June is in both; each picture tells its own
    expect(page.locator(".card")).to_have_count(2, timeout=30_000)
    assert violations(page) == []
    assert path.read_text(encoding="utf-8") == JOB
    page.get_by_role("button", name="Use this year").click()
    expect(page.locator("#saved")).to_have_text("saved", timeout=30_000)
    expect(page.locator(".own figcaption")).to_contain_text("chicago-2015, the job's own", timeout=30_000)
    assert "year: chicago-2015" in path.read_text(encoding="utf-8")
    assert "three-days.csv}" not in path.read_text(encoding="utf-8")


def test_the_next_day_in_words(page: Page, office: Served) -> None:
    """Without a start none; a date asked for has its morning."""
    hours(page, office, "hours-next")
    expect(page.locator("#next .notice")).to_have_text("There is no morning: crew.start is not given.")
    page.locator("#next-date").fill("2026-06-21")
    expect(page.locator("#next h3")).to_have_text("Sun 21 Jun 2026", timeout=30_000)
    expect(page.locator("#next .strip")).to_contain_text("11:47")
    expect(page.locator("#next")).to_contain_text("NOT A FORECAST")


def test_without_weather_a_year_is_one_press_away(page: Page, office: Served) -> None:
    """The bundled years are buttons."""
    path = put(office.folder, "hours-none", re.sub(r"weather: .*\n", "", JOB))
    open_sheet(page, office, "hours-none", "hours")
    page.get_by_role("button", name="northway-2018").click(timeout=60_000)
    expect(page.locator(".own figcaption")).to_contain_text("northway-2018", timeout=60_000)
    assert "northway-2018" in path.read_text(encoding="utf-8")


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_stands_in_the_way(page: Page, office: Served, scheme: str) -> None:
    """Axe finds nothing in any picture, and a phone's page is no wider than the phone."""
    page.emulate_media(color_scheme="dark" if scheme == "dark" else "light")
    page.set_viewport_size({"width": 360, "height": 740})
    hours(page, office, f"hours-axe-{scheme}")
    for kind in ("month", "week", "day", "year"):
        page.get_by_role("button", name=kind, exact=True).click()
        expect(page.locator("#day table").first).to_be_attached(timeout=30_000)
        assert violations(page) == []
        assert page.evaluate("document.documentElement.scrollWidth") == 360


def test_a_kept_forecast_is_chosen_for_the_next_day(page: Page, office: Served) -> None:
    """Offered by its name where it is kept beside the job; what it does not hold is told, and the choice stays."""
    (office.folder / "hours-kept.forecast.json").write_bytes(sample.saved())
    there = "latitude: 36.1, longitude: -79.95, elevation: 886', time_zone: America/New_York"
    job = JOB.replace("latitude: 40.0, longitude: -90.0, elevation: 600', time_zone: America/Chicago", there)
    hours(page, office, "hours-kept", job.replace("days: Mon-Fri,", "days: Mon-Fri, start: 2026-06-22,"))
    following = page.locator("#next")
    expect(following).to_contain_text("NOT A FORECAST")
    page.get_by_label("Weather", exact=True).select_option("the forecast kept in hours-kept.forecast.json")
    expect(following.locator("h3")).to_contain_text("11 Jan 2027", timeout=20_000)
    expect(following).not_to_contain_text("NOT A FORECAST")
    assert violations(page) == []
    page.get_by_label("Day", exact=True).fill("2027-03-01")
    expect(page.locator("#next-told")).to_contain_text("a day that the forecast holds: 2027-01-1", timeout=20_000)
    page.get_by_label("Weather", exact=True).select_option("the job's weather year")
    expect(following.locator("h3")).to_contain_text("22 Jun 2026", timeout=20_000)
    expect(page.locator("#next-told")).to_be_empty()


def test_every_hour_of_the_clock_has_its_place(page: Page, office: Served) -> None:
    """A year from 1 January in New York's zone, 2026: clocks go forward on 8 March, back on 1 November.

    Day 66 is 8 March: there is no 2:00, and 3:00 is the hour of standard time that begins at 2:00, the year's 1586th.
    In July (day 181 is 1 July) noon is eleven by standard time.  On 1 November (day 304) 1:00 comes twice: the first
    is standard midnight's hour.  On 31 December 23:00 is the last of 8760.
    """
    put(office.folder, "hours-clock", JOB)
    open_sheet(page, office, "hours-clock", "hours")
    found = page.evaluate(
        """async (address) => {
          const { placeOf } = await import(address);
          const zone = { timeZone: "America/New_York", hour: "numeric", hourCycle: "h23" };
          const told = new Intl.DateTimeFormat("en", zone);
          const hours = Array.from({ length: 8760 }, (_, k) => Number(told.format(Date.UTC(2026, 0, 1, 5 + k))));
          const clock = hours.map((hour) => String.fromCharCode(48 + hour)).join("");
          const asked = [[66, 1], [66, 2], [66, 3], [181, 12], [304, 1], [304, 2], [364, 23], [0, 0]];
          return asked.map(([day, hour]) => placeOf({ first: 0, hours: 8760, clock }, day, hour));
        }""",
        (page.locator("link[href*='sheet.css']").get_attribute("href") or "").replace("sheet.css", "hours/grid.js"),
    )
    assert found == [66 * 24 + 1, -1, 66 * 24 + 2, 181 * 24 + 11, 304 * 24, 304 * 24 + 2, 8759, 0]
