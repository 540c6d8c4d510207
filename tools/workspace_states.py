"""States of the workspace's sheets that no address alone gives: each is led to as a hand would, then looked at."""

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Page

LONGEST_MS = 240_000
TALLEST = 1800  # of a picture [px]
Shot = Callable[[str], None]


def picture(page: Page, path: Path) -> None:
    """A whole sheet; a long one in parts that can be read, path-1.png and so on."""
    page.evaluate("scrollTo(0, 0)")  # what sticks to the window stands where it begins
    width, height = page.evaluate("[document.documentElement.clientWidth, document.documentElement.scrollHeight]")
    for old in path.parent.glob(f"{path.stem}*.png"):
        if old.stem == path.stem or old.stem.removeprefix(f"{path.stem}-").isdecimal():
            old.unlink()
    if height <= TALLEST:
        page.screenshot(path=path, full_page=True)
        return
    for part, top in enumerate(range(0, height, TALLEST), start=1):
        clip = {"x": 0, "y": top, "width": width, "height": min(TALLEST, height - top)}
        page.screenshot(path=path.with_name(f"{path.stem}-{part}.png"), full_page=True, clip=clip)


def settled(page: Page) -> None:
    """Waits until nothing is worked on any more."""
    page.wait_for_timeout(700)
    page.wait_for_selector(".working", state="detached", timeout=LONGEST_MS)
    page.wait_for_timeout(600)


def opened(page: Page, url: str, job: str, sheet: str) -> None:
    """A sheet of a job, worked out."""
    page.goto("about:blank")
    page.goto(f"{url}/jobs/{job}/{sheet}")
    settled(page)


def at_work(page: Page, url: str, shot: Shot) -> None:
    """A job being worked on, the large one, which takes longest."""
    for sheet in ("checks", "days"):
        page.goto(f"{url}/jobs/large/{sheet}")
        page.wait_for_selector(".working")
        page.wait_for_timeout(400)
        shot(f"working-{sheet}")
    opened(page, url, "large", "packet")
    page.get_by_role("button", name="Make the packet").click()
    page.wait_for_timeout(2500)
    shot("working-packet")
    settled_or_stopped = page.get_by_role("button", name="Stop")
    if settled_or_stopped.count():
        settled_or_stopped.first.click()


def faulty(page: Page, url: str, shot: Shot) -> None:
    """A job with errors, at their fields and lines, and what the other sheets say of it."""
    for sheet in ("overview", "describe", "file", "roof", "hours", "days", "compare"):
        opened(page, url, "faulty", sheet)
        shot(f"faulty-{sheet}")


def bare(page: Page, url: str, shot: Shot) -> None:
    """A job with nothing in it yet, and one whose checks miss their input."""
    for sheet in ("overview", "describe", "file", "roof", "hours", "packet", "compare", "figures"):
        opened(page, url, "empty", sheet)
        shot(f"empty-{sheet}")
    for sheet in ("overview", "checks", "hours", "days", "order"):
        opened(page, url, "unknown", sheet)
        shot(f"unknown-{sheet}")
    page.goto(f"{url}/jobs/unknown/checks")
    settled(page)
    page.locator("details summary").first.click()
    shot("unknown-checks-open")


def stale(page: Page, url: str, shot: Shot, folder: Path) -> None:
    """A tab whose file was changed elsewhere while it looked away."""
    text = (folder / "millrace.yaml").read_text(encoding="utf-8")
    (folder / "stale.yaml").write_text(text, encoding="utf-8")
    opened(page, url, "stale", "file")
    page.route("**/changes", lambda route: route.abort())
    page.reload()
    settled(page)
    (folder / "stale.yaml").write_text("# another hand was here\n" + text, encoding="utf-8")
    page.locator("textarea").focus()
    page.keyboard.type("# typed here\n")
    page.wait_for_timeout(2500)
    shot("stale-file")
    page.unroute("**/changes")
    page.route("**/changes", lambda route: route.abort())
    opened(page, url, "stale", "describe")
    (folder / "stale.yaml").write_text("# another hand was here again\n" + text, encoding="utf-8")
    page.locator("#step-title input").first.fill("Typed here")
    page.locator("#step-title input").first.blur()
    page.wait_for_timeout(2500)
    page.evaluate("scrollTo(0, 0)")
    shot("stale-describe")
    page.unroute("**/changes")


def steps_back(page: Page, url: str, shot: Shot, folder: Path) -> None:
    """After two changes: steps to take back and to make again, and an earlier step beside the job as it is."""
    text = (folder / "millrace.yaml").read_text(encoding="utf-8")
    (folder / "steps.yaml").write_text(text, encoding="utf-8")
    opened(page, url, "steps", "describe")
    for words in ("First name", "Second name"):
        page.locator("#step-title input").first.fill(words)
        page.locator("#step-title input").first.blur()
        page.wait_for_timeout(1500)
    page.get_by_role("button", name="Take back").click()
    page.wait_for_timeout(1500)
    shot("steps-describe")
    opened(page, url, "steps", "compare")
    page.get_by_label("An earlier step of this job").check()
    page.get_by_role("button", name="Set them side by side").click()
    settled(page)
    shot("steps-compare")


def on_roof(page: Page, url: str, shot: Shot) -> None:
    """The card of a piece, the tape, the order half laid, and everything shown at once."""
    opened(page, url, "millrace", "roof")
    canvas = page.locator(".paper canvas")
    box = canvas.bounding_box()
    assert box is not None
    spots = [{"x": box["width"] * share, "y": box["height"] * 0.64} for share in (0.36, 0.75)]
    canvas.click(position=spots[0])
    page.wait_for_timeout(1500)
    shot("roof-card")
    page.get_by_role("button", name="tape").click()
    for spot in spots:
        canvas.click(position=spot)
    page.wait_for_timeout(600)
    shot("roof-tape")
    page.locator("#laid").fill("90")
    page.wait_for_timeout(400)
    shot("roof-half")
    page.get_by_label("stacked").check()
    for each in page.locator(".panel input[type=checkbox]").all():
        each.check()
    page.wait_for_timeout(600)
    for each in page.locator(".panel details summary").all():
        each.click()
    shot("roof-all")
    page.locator(".tables summary").first.click()
    page.locator(".tables summary").nth(1).click()
    page.get_by_role("button", name="Lay it out for the other aims").click()
    settled(page)
    shot("roof-tables")
    opened(page, url, "large", "roof")
    shot("roof-large")
    for _ in range(4):
        page.get_by_role("button", name="nearer").click()
    page.wait_for_timeout(500)
    shot("roof-large-near")


def of_hours(page: Page, url: str, shot: Shot) -> None:
    """Year, month, week and day with the reason under the cursor, the sliders moved, another year beside it."""
    opened(page, url, "millrace", "hours")
    canvas = page.locator(".own canvas")
    for kind in ("year", "month", "week", "day"):
        page.get_by_role("button", name=kind, exact=True).click()
        canvas.hover(position={"x": 200, "y": 70})
        page.wait_for_timeout(900)
        shot(f"hours-{kind}")
    page.locator("#day summary").first.click()
    page.get_by_role("button", name="year", exact=True).click()
    page.locator("input[type=range]").first.fill("2")
    page.wait_for_timeout(2500)
    shot("hours-what-if")
    page.get_by_role("button", name="As the job has it").click()
    page.select_option("#beside", index=1)
    page.wait_for_timeout(2500)
    shot("hours-beside")
    nextday = page.locator("button", has_text="next day")
    if nextday.count():
        nextday.first.click()
        page.wait_for_timeout(1500)
        shot("hours-next-day")


def of_the_rest(page: Page, url: str, shot: Shot) -> None:
    """A later day, an item traced, a check opened, versions side by side, every figure with its curve, steps back."""
    opened(page, url, "millrace", "days")
    page.locator("[data-day='12']").click()
    settled(page)
    shot("days-12")
    opened(page, url, "millrace", "order")
    for button in page.locator("table button").all()[:2]:
        button.click()
    page.wait_for_timeout(600)
    shot("order-traced")
    opened(page, url, "millrace", "checks")
    for place in (0, 5, 20):
        page.locator("details summary").nth(place).click()
    page.wait_for_timeout(300)
    shot("checks-open")
    opened(page, url, "millrace", "compare")
    page.locator(".grid select").first.select_option(index=1)
    page.get_by_role("button", name="Set them side by side").click()
    settled(page)
    shot("compare-what-if")
    page.get_by_label("Another job of the folder").check()
    page.get_by_role("button", name="Set them side by side").click()
    settled(page)
    shot("compare-file")
    for place in range(page.goto(f"{url}/figures") is not None and figures(page)):
        page.locator("#which a").nth(place).click()
        page.get_by_role("button", name="Fill in an example").click()
        page.wait_for_timeout(1200)
        shot(f"figure-{page.locator('#which a').nth(place).inner_text().strip()}")


def figures(page: Page) -> int:
    """How many figures there are."""
    page.wait_for_selector("#which a")
    return page.locator("#which a").count()


def metric(page: Page, url: str, shot: Shot) -> None:
    """A job in metres: a walk with bearings."""
    for sheet in ("overview", "describe", "roof", "hours", "days", "order", "checks", "compare", "figures"):
        opened(page, url, "granary-loft", sheet)
        shot(f"metric-{sheet}")
