"""A roof from an architect's drawing: its areas meet along a part of a side, and much of it no drawing says."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import ezdxf
import pytest
from playwright.sync_api import Page, expect

from lapwright.faults import Refused
from lapwright.intake.plan_dxf import INSUNITS
from lapwright.plan.describe.layered import areas_of, drawing_edits, several
from lapwright.plan.describe.looking import layer_json
from lapwright.plan.describe.outline import outline_json
from lapwright.plan.describe.sketch import sketch
from lapwright.plan.desk.stages import JobAsk

from .jobs import Served

expect.set_options(timeout=20_000)

INCHES = next(code for code, unit in INSUNITS.items() if unit == "in")
# Feet: a hall of 60 by 40 and an office of 30 by 25 against the south of its east side.
HALL = [(0, 0), (60, 0), (60, 40), (0, 40)]
OFFICE = [(60, 0), (90, 0), (90, 25), (60, 25)]
TAKEN = [
    {"layer": "HALL", "use": "outline", "area": "Hall"},
    {"layer": "OFFICE", "use": "outline", "area": "Office"},
    {"layer": "CURBS", "use": "curb", "size": ""},
    {"layer": "DRAINS", "use": "drain", "size": '4"'},
]
AREAS = """\
areas: {dxf: two.dxf, corners: where_areas_meet, layers: {
  Hall: {outline: HALL, openings: {CURBS: curb}, drains: {DRAINS: drain}},
  Office: {outline: OFFICE, openings: {CURBS: curb}, drains: {DRAINS: drain}}}}
"""
ROOF = """\
roof:
  - area: Hall
    falls: S
    slope: 1/4 in 12
  - area: Office
    falls: N 90 E
    slope: 1/2 in 12
"""


def drawing(folder: Path) -> str:
    """The drawing in inches, kept in a folder; its name."""
    made = ezdxf.new("R2010")
    made.header["$INSUNITS"] = INCHES
    space = made.modelspace()
    for layer, corners in (("HALL", HALL), ("OFFICE", OFFICE)):
        space.add_lwpolyline([(12 * x, 12 * y) for x, y in corners], close=True, dxfattribs={"layer": layer})
    for x, y, wide, deep in ((10, 10, 8, 5), (30, 20, 4, 4), (70, 10, 3, 3)):
        ring = [(x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep)]
        space.add_lwpolyline([(12 * a, 12 * b) for a, b in ring], close=True, dxfattribs={"layer": "CURBS"})
    space.add_circle((12 * 50, 12 * 5), 6, dxfattribs={"layer": "DRAINS"})
    stream = StringIO()
    made.write(stream)
    (folder / "two.dxf").write_text(stream.getvalue(), encoding="utf-8")
    return "two.dxf"


def described(page: Page, office: Served, name: str, more: str = AREAS + ROOF) -> Path:
    """The sheet of a job whose roof is drawn."""
    drawing(office.folder)
    path = office.job(name, f"job: {{name: {name}}}\nunits: us\n{more}")
    page.goto(f"{office.url}/jobs/{name}/describe")
    expect(page.get_by_role("button", name="Side 1 of Hall")).to_be_visible()
    return path


def test_what_a_layer_holds_is_said_in_words() -> None:
    """A drawing's own names of shapes mean nothing to whoever looks at it; one that has no other name keeps it."""
    assert layer_json("A", {"lwpolyline": 4, "polyline": 1, "region": 2})["holds"] == "5 polylines, 2 region"
    assert layer_json("B", {"insert": 1, "mtext": 1, "text": 2})["holds"] == "1 block, 3 texts"


def test_more_than_one_of_a_kind() -> None:
    """Curbs and hatches."""
    assert (several("curb"), several("hatch"), several("overflow drain")) == ("curbs", "hatches", "overflow drains")


def test_areas_side_by_side_end_their_sides_where_they_meet() -> None:
    """Two outlines get corners where they meet, one alone stays as drawn; sizes stand beside their layers."""
    found = {"file": "two.dxf", "kind": "dxf", "property": ""}
    taken = areas_of(found, TAKEN, "")
    assert taken["corners"] == "where_areas_meet"
    assert taken["layers"]["Hall"] == {
        "outline": "HALL",
        "openings": {"CURBS": "curb"},
        "drains": {"DRAINS": {"kind": "drain", "diameter": '4"'}},
    }
    assert "corners" not in areas_of(found, TAKEN[:1], "")


def test_sides_that_got_other_numbers_are_told(tmp_path: Path) -> None:
    """The hall was drawn with four sides and has five now: 25 ft of its east side are the office's."""
    drawing(tmp_path)
    made = drawing_edits({}, tmp_path, "two.dxf", TAKEN, "", {"Hall": 4, "Office": 4})
    assert made["words"][2:] == ["Hall has 5 sides now, and had 4: look over what each of them is"]


def test_a_size_that_is_no_length_is_refused(tmp_path: Path) -> None:
    """What is typed beside a layer is read before anything is written."""
    drawing(tmp_path)
    with pytest.raises(Refused):
        drawing_edits({}, tmp_path, "two.dxf", [*TAKEN[:3], {**TAKEN[3], "size": "wide"}], "", {})


def test_what_is_drawn_is_told_apart(tmp_path: Path) -> None:
    """Two curbs stand where they are drawn, of one the height is typed; a third stands where the file says."""
    drawing(tmp_path)
    typed = "openings: [{name: CURBS-1, height: 10\"}, {name: X, kind: curb, at: E 40' N 30', size: E 2' x N 2'}]"
    text = f"job: {{name: X}}\nunits: us\n{AREAS}{ROOF}".replace("  - area: Office", f"    {typed}\n  - area: Office")
    area = outline_json(sketch(JobAsk(text, tmp_path / "x.yaml")))["areas"][0]
    assert [(each["name"], each["is_drawn"], each["said"]) for each in area["openings"]] == [
        ("CURBS-1", True, '10"'),
        ("X", False, ""),
        ("CURBS-2", True, ""),
    ]
    assert area["openings"][0]["words"] == "curb, E 8' 0\" x N 5' 0\""


def test_the_way_water_runs_is_told_for_the_plan(tmp_path: Path) -> None:
    """South is down on the sheet, east to the right; an area of several planes has no one way."""
    drawing(tmp_path)
    text = f"job: {{name: X}}\nunits: us\n{AREAS}{ROOF}"
    ways = [each["fall"] for each in outline_json(sketch(JobAsk(text, tmp_path / "x.yaml")))["areas"]]
    assert ways == [{"way": [0.0, 1.0], "words": "1/4 in 12"}, {"way": [1.0, pytest.approx(0)], "words": "1/2 in 12"}]
    planes = text.replace("falls: S\n    slope: 1/4 in 12", "planes: [{plane: A}]")
    assert outline_json(sketch(JobAsk(planes, tmp_path / "x.yaml")))["areas"][0]["fall"] is None


def test_layers_are_taken_with_what_a_drawing_can_not_say(page: Page, office: Served) -> None:
    """Height and diameter are asked where a layer is taken; a later issue is taken the same way without a word."""
    drawing(office.folder)
    path = office.job("take-sizes", "job: {name: X}\nunits: us\n")
    page.goto(f"{office.url}/jobs/take-sizes/describe")
    page.get_by_text("From a drawing or a map").click()
    page.get_by_role("button", name="two.dxf").click()
    expect(page.get_by_text("Layers of two.dxf, drawn in inches")).to_be_visible()
    page.get_by_label("HALL is").select_option("outline")
    page.get_by_label("OFFICE is").select_option("outline")
    page.get_by_label("CURBS is").select_option("curb")
    page.get_by_label("height above the roof").fill('12"')
    page.get_by_role("button", name="Take these layers").click()
    expect(page.get_by_role("button", name="Side 5 of HALL")).to_be_visible()
    assert 'CURBS: {kind: curb, height: 12"}' in " ".join(path.read_text(encoding="utf-8").split())
    page.get_by_role("button", name="two.dxf").click()
    expect(page.get_by_label("CURBS is")).to_have_value("curb")
    expect(page.get_by_label("height above the roof", exact=True)).to_have_value('12"')
    expect(page.get_by_label("OFFICE is")).to_have_value("outline")


def test_heights_of_drawn_curbs_are_typed_one_by_one_and_together(page: Page, office: Served) -> None:
    """One curb is 10", the rest 8": each in an entry of its own that names it; the office's stands under the office."""
    path = described(page, office, "drawn-heights")
    step = page.locator("#step-standing")
    openings = step.get_by_role("group", name="Openings")
    expect(openings.get_by_role("listitem")).to_have_count(2)
    openings.get_by_label("Height above the roof: CURBS-1").fill('10"')
    openings.get_by_label("Height above the roof: CURBS-1").press("Tab")
    expect(page.locator("#saved")).to_have_text("saved")
    assert '{name: CURBS-1, height: 10"}' in path.read_text(encoding="utf-8")
    step.get_by_role("button", name="Office").click()
    height = openings.get_by_label("Height above the roof: CURBS-3")
    height.fill("high")
    height.press("Tab")
    expect(openings.get_by_text("needs a length")).to_be_visible()
    height.fill('8"')
    height.press("Tab")
    expect(openings.get_by_text("needs a length")).to_have_count(0)
    assert '{name: CURBS-3, height: 8"}' in path.read_text(encoding="utf-8")


def test_curbs_of_a_drawing_are_said_alike_at_once(page: Page, office: Served) -> None:
    """Two curbs without a height get the same one in one step."""
    path = described(page, office, "drawn-alike")
    openings = page.locator("#step-standing").get_by_role("group", name="Openings")
    openings.get_by_label("Height above the roof, of the 2 not given").fill('9"')
    openings.get_by_role("button", name="Say it of them").click()
    expect(openings.get_by_role("button", name="Say it of them")).to_have_count(0)
    text = path.read_text(encoding="utf-8")
    assert '{name: CURBS-1, height: 9"}' in text
    assert '{name: CURBS-2, height: 9"}' in text
    page.get_by_role("button", name="Take back").click()
    expect(page.locator("#saved")).to_contain_text("taken back: CURBS-1, CURBS-2: height above the roof")
    assert "CURBS-1" not in path.read_text(encoding="utf-8")


def test_sides_of_two_areas_are_said_together(page: Page, office: Served) -> None:
    """A side of the other area adds to those chosen; one click on the form says it of both."""
    path = described(page, office, "two-areas-sides")
    for side in ("Side 4 of Hall", "Side 1 of Office", "Side 2 of Office"):
        page.get_by_role("button", name=side).focus()
        page.keyboard.press("Enter")
    step = page.locator("#step-edges")
    expect(step.get_by_text("Hall: side 4; Office: sides 1, 2")).to_be_visible()
    step.get_by_label("Kind", exact=True).select_option("wall")
    step.get_by_role("button", name="Say it of 3 sides").click()
    expect(step.get_by_role("button", name="Choose sides first")).to_be_visible()
    text = path.read_text(encoding="utf-8")
    assert "{sides: 4, kind: wall}" in text
    assert "{sides: 1-2, kind: wall}" in text


def test_an_edge_of_two_areas_is_chosen_as_one(page: Page, office: Served) -> None:
    """Where the areas meet, both sides are chosen by one click, and both are let go by the next."""
    described(page, office, "one-edge")
    side = page.get_by_role("button", name="Side 2 of Hall, 25' 0\"")
    other = page.get_by_role("button", name="Side 4 of Office, 25' 0\"")
    other.focus()
    page.keyboard.press("Enter")
    expect(side).to_have_attribute("aria-pressed", "true")
    expect(other).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Enter")
    expect(side).to_have_attribute("aria-pressed", "false")


def test_what_is_wrong_with_the_other_area_is_told_too(page: Page, office: Served) -> None:
    """An edge of two kinds is told at the later area; whoever looks at the earlier one sees it, and whose it is."""
    two = ROOF.replace("  - area: Office", "    edges: [{sides: 2, kind: parapet}]\n  - area: Office") + (
        "    edges: [{sides: 4, kind: wall}]\n"
    )
    described(page, office, "other-area", AREAS + two)
    step = page.locator("#step-edges")
    expect(step.get_by_role("button", name="Office ▲ 1")).to_be_visible()
    expect(step.get_by_role("button", name="Hall", exact=True)).to_have_attribute("aria-pressed", "true")
    expect(step.get_by_text("one kind for both")).to_be_visible()


def test_words_of_the_plan_take_no_click(page: Page, office: Served) -> None:
    """The name of a thing may stand over a side: the side is chosen all the same."""
    described(page, office, "words-no-click")
    name = page.locator(".plan .name").first
    assert name.evaluate("each => getComputedStyle(each).pointerEvents") == "none"
    expect(page.locator(".plan .fall")).to_have_count(2)


def test_words_of_the_plan_stand_clear_of_one_another(page: Page, office: Served) -> None:
    """No name, number or length overlaps another by more than its margin."""
    described(page, office, "words-clear")
    boxes = page.locator(".plan text").evaluate_all("all => all.map(each => each.getBoundingClientRect().toJSON())")
    overlaps = [
        (one, two)
        for k, one in enumerate(boxes)
        for two in boxes[:k]
        if min(one["right"], two["right"]) - max(one["left"], two["left"]) > 2
        and min(one["bottom"], two["bottom"]) - max(one["top"], two["top"]) > 4
    ]
    assert overlaps == []


def test_a_field_stays_where_it_is_while_lines_come_and_go(page: Page, office: Served) -> None:
    """The hint above the building goes once a height is given: the next field does not move under the pointer."""
    described(page, office, "stays")
    building = page.locator("#step-building")
    expect(building.get_by_text("without the building wind stays unknown")).to_be_visible()
    building.evaluate("each => each.scrollIntoView({ block: 'center' })")
    building.get_by_label("Height").fill("24'")
    next_field = building.get_by_label("Basic wind speed")
    was = next_field.evaluate("each => each.getBoundingClientRect().top")
    building.get_by_label("Height").press("Tab")
    expect(building.get_by_text("without the building wind stays unknown")).to_have_count(0)
    assert next_field.evaluate("each => each.getBoundingClientRect().top") == pytest.approx(was, abs=1)


def test_a_price_says_of_what_it_is(page: Page, office: Served) -> None:
    """Fasteners are bought by the box, primer by the pail: the field says so."""
    described(page, office, "prices-say")
    page.locator("summary", has_text="Prices").click()
    step = page.locator("#step-materials")
    for words in ("A box of fasteners", "A pail of primer", "A tube of caulk", "A length of edge metal"):
        expect(step.get_by_label(words)).to_be_visible()


def test_the_index_stays_in_sight(page: Page, office: Served) -> None:
    """Far down the sheet the steps can still be chosen."""
    described(page, office, "index-seen")
    page.locator("#step-title").scroll_into_view_if_needed()
    expect(page.get_by_role("link", name="Edges", exact=True)).to_be_in_viewport()
    page.get_by_role("link", name="Building", exact=True).click()
    head = page.locator("#head-building").evaluate("each => each.getBoundingClientRect().top")
    index = page.get_by_role("navigation", name="Steps of the description").evaluate(
        "each => each.getBoundingClientRect().bottom"
    )
    assert head >= index


def test_an_address_leads_to_a_drawn_curbs_height(page: Page, office: Served) -> None:
    """A check that lacks the height of the office's curbs leads to the office's first, whose field is ready."""
    described(page, office, "lead-drawn")
    page.goto(f"{office.url}/jobs/lead-drawn/describe#at=areas.layers.Office.openings.CURBS.height")
    expect(page.get_by_label("Height above the roof: CURBS-3")).to_be_focused()


def test_an_address_opens_the_fold_that_a_field_is_in(page: Page, office: Served) -> None:
    """A price stands in a fold: it is opened, and the field is ready; others stand open."""
    described(page, office, "lead-fold")
    page.goto(f"{office.url}/jobs/lead-fold/describe#at=prices.primer")
    expect(page.get_by_label("A pail of primer")).to_be_focused()
    page.goto(f"{office.url}/jobs/lead-fold/describe#at=crew.fire_watch")
    expect(page.get_by_label("Fire watch")).to_be_focused()


def test_what_is_still_to_be_given_leads_to_its_step(page: Page, office: Served) -> None:
    """A new job can't be planned: each thing that lacks is told in words, and leads to where it is given."""
    office.job("just-begun", "job: {name: Just begun}\nunits: us\n")
    page.goto(f"{office.url}/jobs/just-begun")
    page.get_by_role("link", name="the areas of the roof, each a plane").click()
    expect(page.get_by_role("button", name="Add the first area")).to_be_focused()
    page.goto(f"{office.url}/jobs/just-begun")
    expect(page.get_by_role("alert")).not_to_contain_text("write:")


def test_a_fourth_ply_is_not_asked_for(page: Page, office: Served) -> None:
    """A roof has two plies or three: with three there is no form for one more, with two there is."""
    plies = [f"{{ply: {ply}, sheet: s}}" for ply in ("base", "interply", "cap")]
    sheet = 'sheets: {s: {width: 39 3/8", length: 33\', side_lap: 3", end_lap: 6"}}\n'
    for name, some in (("plies-two", plies[::2]), ("plies-three", plies)):
        described(page, office, name, f"{AREAS}{ROOF}{sheet}assembly: {{plies: [{', '.join(some)}]}}\n")
        expect(page.get_by_role("form", name="One more: Plies, bottom first")).to_have_count(3 - len(some))
