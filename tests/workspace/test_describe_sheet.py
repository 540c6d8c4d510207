"""The sheets that describe a job, in a browser: wrong at its field, by keyboard alone, small, undone, typed as text."""

from __future__ import annotations

import re
from itertools import combinations
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from .jobs import Served, wait_for

expect.set_options(timeout=20_000)

ROOF = "roof:\n  - area: Main\n    outline: E 60', N 40', W 60', S 40'\n    falls: S\n    slope: 1/4 in 12\n"
REST = """assembly:
  plies:
    - {ply: base, sheet: b}
    - {ply: cap, sheet: c}
sheets:
  b: {width: 1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}
  c: {width: 1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}
"""
WRONG = """job: {name: Wrong, date: tomorrow}
units: us
site: {latitude: 361}
weather: {year: greensborough}
building: {height: 22}
roof:
  - area: Main
    outline: E 60', N 40', W 60', S 40'
    falls: downhill
    slope: 1/4 in 12
    edges: [{sides: 1-4, kind: parapets}]
    openings: [{name: C-1, kind: curb, at: 30' 20', size: E 2' x N 1'}]
    pipes: [{name: V-1, at: E 1' N 1', diameter: 4}]
assembly: {deck: {kind: stone}, plies: [{ply: base, sheet: b}, {ply: cap, sheet: c}]}
sheets:
  b: {width: 1 m, length: 10 m, side_lap: 3, end_lap: 150 mm}
  c: {width: 1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}
materials: {primer: {coverage: 200}}
crew: {people: some, day: all}
store: {temperature: 70}
weld: {proved_speed: fast}
power: {volts: 120}
prices: {b: dear}
rules: {ply_offset: 18}
layout: {aim: cheap}
"""
AT = [
    "job.date", "site.latitude", "weather.year", "building.height", "roof[0].falls", "roof[0].edges[0].kind",
    "roof[0].openings[0].at", "roof[0].pipes[0].diameter", "assembly.deck.kind", "sheets.b.side_lap",
    "materials.primer.coverage", "crew.people", "crew.day", "store.temperature", "weld.proved_speed", "power.volts",
    "prices.b", "rules.ply_offset", "layout.aim",
]  # fmt: skip


def describe(page: Page, office: Served, name: str, text: str) -> Path:
    """The sheet of a job that says this; the file."""
    path = office.job(name, text)
    page.goto(f"{office.url}/jobs/{name}/describe")
    expect(page.locator("#step-title")).to_be_attached()
    return path


def violations(page: Page) -> list[str]:
    """What axe finds on the page as it stands."""
    return [f"{each['id']}: {each['nodes'][0]['target']}" for each in Axe().run(page).response["violations"]]


def id_of(path: str) -> str:
    """The id of a field."""
    return "#f-" + re.sub("[^A-Za-z0-9]+", "-", path).strip("-")


def test_each_fault_stands_at_its_field(page: Page, office: Served) -> None:
    """One in every step: at the field that its key names, with what was read; axe finds nothing wrong."""
    describe(page, office, "wrong-at-fields", WRONG)
    for path in AT:
        field = page.locator(id_of(path))
        expect(field, path).to_have_attribute("aria-invalid", "true")
        expect(page.locator(f"{id_of(path)}-wrong"), path).to_contain_text("needs")
    page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
    assert violations(page) == []


def test_what_to_write_is_put_in_by_a_button_and_taken_back(page: Page, office: Served) -> None:
    """The button sets the value, the fault goes, and one step back brings both again."""
    path = describe(page, office, "mended", "job: {name: Mended}\n" + ROOF.replace("1/4 in 12", "flat") + REST)
    page.get_by_role("button", name="Write 1/4 in 12").click()
    expect(page.locator("#f-roof-0-slope")).to_have_value("1/4 in 12")
    expect(page.locator("#f-roof-0-slope")).to_have_attribute("aria-invalid", "false")
    assert "slope: 1/4 in 12" in path.read_text(encoding="utf-8")
    page.get_by_role("button", name="Take back").click()
    expect(page.locator("#f-roof-0-slope")).to_have_value("flat")
    assert "slope: flat" in path.read_text(encoding="utf-8")


def test_two_fields_changed_one_right_after_the_other_are_both_saved(page: Page, office: Served) -> None:
    """The second waits for the first; neither is lost, and neither is told as changed elsewhere."""
    path = describe(page, office, "two-fields", "job: {name: Two}\n" + ROOF + REST)
    page.evaluate("""() => {
      const typed = { "f-building-height": "20'", "f-building-wind-speed": "110 mph", "f-crew-people": "5" };
      for (const [id, value] of Object.entries(typed)) {
        const field = document.getElementById(id);
        field.value = value;
        field.dispatchEvent(new Event("input", { bubbles: true }));
        field.dispatchEvent(new Event("change", { bubbles: true }));
      }
    }""")
    wait_for(lambda: "people: 5" in path.read_text(encoding="utf-8"))
    text = path.read_text(encoding="utf-8")
    assert "height: 20'" in text
    assert "wind_speed: 110 mph" in text
    expect(page.locator("#moved")).to_be_hidden()
    expect(page.locator("#f-building-height")).to_have_value("20'")


def test_each_kind_of_step_is_taken_back(page: Page, office: Served) -> None:
    """A leg, sides, an opening added, a field emptied, a start taken: back to the first text each time."""
    text = "job: {name: Steps}  # mine\nunits: us\n" + ROOF
    path = describe(page, office, "each-step", text)
    now = lambda: path.read_text(encoding="utf-8")  # noqa: E731  # asked again and again
    steps = page.locator("#step-standing")

    def back() -> None:
        wait_for(lambda: now() != text)
        page.get_by_role("button", name="Take back").click()
        wait_for(lambda: now() == text)

    leg = page.get_by_label("Leg 2, length")
    leg.fill("44'")
    leg.press("Tab")
    back()
    page.get_by_role("checkbox", name="2 40' 0\" N").check()
    page.locator("#f-sides-kind").select_option("wall")
    page.get_by_role("button", name="Say it of 1 side").click()
    back()
    form = page.get_by_role("form", name="One more: Openings")
    form.get_by_label("Place", exact=True).fill("E 5' N 5'")
    form.get_by_label("Size", exact=True).fill("E 2' x N 2'")
    form.get_by_role("button", name="Add", exact=True).click()
    expect(steps.get_by_role("button", name="Take out C-1")).to_be_visible()
    back()
    page.locator("#f-roof-0-slope").fill("")
    page.locator("#f-roof-0-slope").press("Tab")
    back()
    page.locator("#step-sheets").get_by_role("button", name="Take these").click()
    back()


def test_a_job_is_described_by_keyboard_alone(page: Page, office: Served) -> None:
    """Walk, sides and a curb without a pointer; arrow keys move the curb by the cut step, in one edit."""
    path = describe(page, office, "by-keyboard", "job: {name: Keys}\nunits: us\nroof:\n  - area: Main\n" + REST)
    page.get_by_label("Leg 1, length").focus()
    for typed in ("E 60'", "N 40'", "W 60'", "S 40'"):
        page.keyboard.type(typed)
        page.keyboard.press("Enter")
    expect(page.get_by_label("Leg 5, length")).to_be_focused()
    expect(page.get_by_text("the walk ends at its start")).to_be_visible()
    page.get_by_role("button", name="Side 1 of Main").focus()
    page.keyboard.press("Enter")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("ArrowRight")
    expect(page.get_by_role("button", name="Side 3 of Main")).to_be_focused()
    page.keyboard.press("Space")
    expect(page.get_by_role("button", name="Say it of 2 sides")).to_be_visible()
    page.locator("#f-sides-kind").focus()
    page.keyboard.type("par")
    page.get_by_role("button", name="Say it of 2 sides").press("Enter")
    wait_for(lambda: path.read_text(encoding="utf-8").count("kind: parapet") == 2)
    form = page.get_by_role("form", name="One more: Openings")
    form.get_by_label("Place", exact=True).fill("E 5' N 5'")
    form.get_by_label("Size", exact=True).fill("E 2' x N 2'")
    form.get_by_label("Size", exact=True).press("Enter")
    thing = page.get_by_role("button", name="C-1, curb; arrow keys move it")
    thing.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    wait_for(lambda: "at: E 5' 1 1/2\" N 5' 6\"" in path.read_text(encoding="utf-8"))


def test_places_are_pointed_at_and_dragged(page: Page, office: Served) -> None:
    """While pointing, the distances to the two nearest sides; what is dropped stands there, on whole cut steps."""
    pipes = "    pipes:\n      - {name: V-1, at: E 30' N 20', diameter: 4\"}\n"
    path = describe(page, office, "pointed-at", "job: {name: Point}\nunits: us\n" + ROOF + pipes + REST)
    plan = page.locator(".plan svg")
    box = plan.bounding_box()
    assert box is not None
    page.get_by_role("form", name="One more: Openings").get_by_role("button", name="Point at its place").click()
    plan.hover(position={"x": box["width"] / 2 - 40, "y": box["height"] / 2 - 30})
    expect(page.locator(".plan .said")).to_have_text(re.compile(r"^E .+' .*N .+: .+ from side \d, .+ from side \d$"))
    assert violations(page) == []
    plan.click(position={"x": box["width"] / 2 - 40, "y": box["height"] / 2 - 30})
    expect(page.get_by_role("form", name="One more: Openings").get_by_label("Place", exact=True)).to_have_value(
        re.compile("^E .+ N .+")
    )
    spot = page.get_by_role("button", name="V-1, pipe; arrow keys move it").bounding_box()
    assert spot is not None
    page.mouse.move(spot["x"] + spot["width"] / 2, spot["y"] + spot["height"] - 12)
    page.mouse.down()
    page.mouse.move(spot["x"] + 80, spot["y"] + 60, steps=4)
    page.mouse.up()
    wait_for(lambda: "at: E 30' N 20'" not in path.read_text(encoding="utf-8"))
    expect(page.locator("#f-roof-0-pipes-0-at")).to_have_value(re.compile("^E [3-6]"))


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_phone_shows_it_without_a_bar_across(browser: Browser, office: Served, scheme: str) -> None:
    """At 360 px nothing but marked parts scrolls sideways; axe finds nothing wrong, and the focus is not covered."""
    office.job("on-a-phone", "job: {name: Phone}\n" + ROOF + REST)
    context = browser.new_context(viewport={"width": 360, "height": 740}, color_scheme=scheme)  # type: ignore[arg-type]  # one of two words
    page = context.new_page()
    page.goto(f"{office.url}/jobs/on-a-phone/describe")
    expect(page.locator("#step-title")).to_be_attached()
    assert page.evaluate("document.documentElement.scrollWidth") <= 360
    assert violations(page) == []
    field = page.locator("#f-building-height")
    field.focus()
    plan = page.locator("#beside").bounding_box()
    there = field.bounding_box()
    assert plan is not None
    assert there is not None
    assert there["y"] >= plan["y"] + plan["height"] - 1
    context.close()


NOTCHED = ROOF.replace("E 60', N 40', W 60', S 40'", "E 31 m, N 24 m, W 10 m, S 12 m, W 10 m, N 12 m, W 11 m, S 24 m")
ON_ONE_ANOTHER = """() => {
  const drawn = document.querySelectorAll(".plan circle.number, .plan text.length");
  const boxes = [...drawn].map((each) => each.getBoundingClientRect());
  const meet = (one, two) => one.left + 1 < two.right && two.left + 1 < one.right
    && one.top + 1 < two.bottom && two.top + 1 < one.bottom;
  return boxes.flatMap((one, k) => boxes.slice(k + 1).filter((two) => meet(one, two))).length;
}"""


@pytest.mark.parametrize("width", [360, 1280])
def test_numbers_at_a_notch_lie_beside_one_another(page: Page, office: Served, width: int) -> None:
    """All eight sides have a number and none lies on another, nor a length on one, on a phone or a desk; a leg is one
    row, with what takes it out in it.
    """
    page.set_viewport_size({"width": width, "height": 740})
    describe(page, office, f"notched-{width}", "job: {name: Notched}\nunits: metric\n" + NOTCHED + REST)
    expect(page.locator(".plan circle.number")).to_have_count(8)
    assert page.evaluate(ON_ONE_ANOTHER) == 0
    field, out = page.get_by_label("Leg 1, length").bounding_box(), page.get_by_label("Take out leg 1").bounding_box()
    assert field is not None
    assert out is not None
    assert abs(field["y"] + field["height"] / 2 - out["y"] - out["height"] / 2) < 4


def test_a_sheet_far_along_is_brought_into_a_phone(browser: Browser, office: Served) -> None:
    """The last of the row of sheets is in the row as it is seen."""
    office.job("row-of-sheets", "job: {name: Row}\n" + ROOF + REST)
    context = browser.new_context(viewport={"width": 360, "height": 740})
    page = context.new_page()
    page.goto(f"{office.url}/jobs/row-of-sheets/figures")
    expect(page.locator(".sheets a[aria-current]")).to_be_in_viewport(ratio=0.9)
    context.close()


def test_planes_and_the_way_of_their_water_stand_in_the_plan(page: Page, office: Served) -> None:
    """Two planes are outlined, each with its arrow and words, and nothing written lies on anything else written."""
    planes = (
        "    planes:\n"
        "      - {plane: A, outline: \"E 60', N 20', W 60', S 20'\", falls: N, slope: 2 %}\n"
        "      - {plane: B, start: N 20', outline: \"E 60', N 20', W 60', S 20'\", falls: S, slope: 2 %}\n"
        "    openings: [{name: C-1, kind: curb, at: E 28' N 8', size: E 4' x N 4', height: 12\"}]\n"
    )
    area = ROOF.replace("    falls: S\n    slope: 1/4 in 12\n", planes)
    describe(page, office, "two-planes", "job: {name: Planes}\n" + area + REST)
    expect(page.locator(".plan path.plane")).to_have_count(2)
    expect(page.locator(".plan .fall text")).to_have_text(["A 2 %", "B 2 %"])
    boxes = [each.bounding_box() for each in page.locator(".plan .fall, .plan .opening").all()]
    assert all(box is not None for box in boxes)
    ends = [(box["x"], box["y"], box["x"] + box["width"], box["y"] + box["height"]) for box in boxes if box]
    pairs = [zip(one[:2], one[2:], two[:2], two[2:], strict=True) for one, two in combinations(ends, 2)]
    assert not any(all(low < far and near < high for low, high, near, far in pair) for pair in pairs)


def test_an_area_is_begun_by_keyboard(page: Page, office: Served) -> None:
    """Enter on the button leads to the first leg; a leg with a decimal comma is put right by what it offers, the focus
    back in it.
    """
    path = describe(page, office, "by-keys", "job: {name: Keys}\nunits: metric\n" + REST)
    page.get_by_role("button", name="Add the first area").press("Enter")
    expect(page.get_by_label("Leg 1, length")).to_be_focused()
    page.keyboard.type("E 20,5 m")
    page.keyboard.press("Enter")
    page.get_by_role("button", name="Write E 20.5 m").press("Enter")
    expect(page.get_by_label("Leg 1, length")).to_have_value("20.5 m")
    expect(page.get_by_label("Leg 1, length")).to_be_focused()
    wait_for(lambda: "outline: E 20.5 m" in path.read_text(encoding="utf-8"))


def test_the_file_is_typed_and_its_errors_stand_at_their_lines(page: Page, office: Served) -> None:
    """Marked in the gutter with a word, listed beside, led to; saved when typing pauses; an address leads to a line."""
    path = office.job("as-text", "job: {name: Text}\n" + ROOF + REST)
    page.goto(f"{office.url}/jobs/as-text/file#line-6")
    area = page.get_by_label("The job file")
    expect(area).to_be_focused()
    text = path.read_text(encoding="utf-8")
    assert area.evaluate("(each) => each.value.slice(each.selectionStart, each.selectionEnd)") == "    slope: 1/4 in 12"
    assert violations(page) == []
    area.fill(text.replace("slope: 1/4 in 12", "slope: flat"))
    expect(page.locator(".gutter")).to_contain_text("wrong ▲ 6")
    expect(page.locator(".wrong-lines")).to_contain_text("needs a slope")
    assert "slope: flat" in path.read_text(encoding="utf-8")
    page.get_by_role("button", name="line 6").click()
    assert area.evaluate("(each) => each.value.slice(each.selectionStart, each.selectionEnd)") == "    slope: flat"
    assert violations(page) == []


def test_a_change_made_elsewhere_while_text_is_typed_is_told(page: Page, office: Served) -> None:
    """Nothing is overwritten, and nothing typed is lost: either text can be taken."""
    path = office.job("text-twice", "job: {name: Text}\n" + ROOF + REST)
    page.goto(f"{office.url}/jobs/text-twice/file")
    area = page.get_by_label("The job file")
    expect(area).to_have_value(re.compile("name: Text"))
    area.evaluate("(each) => { each.setRangeText('# mine\\n', 0, 0); each.dispatchEvent(new Event('input')); }")
    path.write_text("# theirs\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    expect(page.get_by_role("alert").filter(has_text="while you typed")).to_be_visible()
    assert path.read_text(encoding="utf-8").startswith("# theirs\n")
    expect(area).to_have_value(re.compile("^# mine\n"))
    page.get_by_role("button", name="Save my text over it").click()
    wait_for(lambda: path.read_text(encoding="utf-8").startswith("# mine\njob"))
    page.get_by_role("button", name="Take back").click()
    wait_for(lambda: path.read_text(encoding="utf-8").startswith("# theirs\njob"))


def test_file_and_fields_stand_side_by_side(page: Page, office: Served) -> None:
    """What is typed in a field is in the text beside it, and the other way round."""
    describe(page, office, "side-by-side", "job: {name: Side}\n" + ROOF + REST)
    page.get_by_role("button", name="Job file", exact=True).click()
    area = page.get_by_label("The job file")
    page.locator("#f-building-height").fill("20'")
    page.locator("#f-building-height").press("Tab")
    expect(area).to_have_value(re.compile("building: {height: 20'}"))
    area.fill(area.input_value().replace("slope: 1/4 in 12", "slope: 1/2 in 12"))
    expect(page.locator("#f-roof-0-slope")).to_have_value("1/2 in 12")
    assert violations(page) == []


def test_a_sheet_is_kept_and_taken_for_the_next_job(page: Page, office: Served) -> None:
    """Typed once; the list is no job."""
    sheet = "sheets:\n  kept-cap: {width: 1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}\n"
    describe(page, office, "sheet-kept", "job: {name: Kept}\n" + sheet)
    page.get_by_role("button", name="Keep kept-cap in the list").click()
    expect(page.get_by_text("kept-cap is in the list")).to_be_visible()
    path = describe(page, office, "sheet-taken", "job: {name: Taken}\n")
    page.get_by_role("button", name="Take kept-cap").click()
    expect(page.locator("#f-sheets-kept-cap-end-lap")).to_have_value("150 mm")
    assert "end_lap: 150 mm" in path.read_text(encoding="utf-8")
    assert "sheets" not in page.request.get(f"{office.url}/api/jobs").json()["jobs"]
