"""What the sheet that describes a job is told: legs, outlines, places and sides, each by pencil."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from lapwright.faults import Refused
from lapwright.plan.describe.form import form_json
from lapwright.plan.describe.outline import outline_json
from lapwright.plan.describe.sheetlist import keep_sheet, sheets_kept
from lapwright.plan.describe.sides import ranges, side_edits
from lapwright.plan.describe.sketch import sketch
from lapwright.plan.describe.spots import placed, pointed, stepped
from lapwright.plan.describe.typed import typed_job
from lapwright.plan.desk.edits import apply
from lapwright.plan.desk.editsjson import edits_from
from lapwright.plan.desk.stages import JobAsk
from lapwright.units.write import Units

FOOT = 304.8  # mm, exact since 1959
HEAD = "job: {name: X}\nunits: us\nroof:\n  - area: Main\n"


def ask(text: str, folder: Path = Path("nowhere")) -> JobAsk:
    """A job that stands in no folder."""
    return JobAsk(text, folder / "x.yaml")


def first(text: str) -> Any:
    """The first area of an outline."""
    return outline_json(sketch(ask(HEAD + text)))["areas"][0]


def test_two_legs_are_a_way_that_is_not_closed() -> None:
    """3 ft east and 4 ft north: 7 ft walked, the start 3 ft west and 4 ft south."""
    area = first("    outline: E 3', N 4'\n")
    assert area["is_whole"] is False
    assert [side["length"] for side in area["sides"]] == ["3' 0\"", "4' 0\""]
    assert area["corners"][-1] == (pytest.approx(3 * FOOT, abs=0.1), pytest.approx(-4 * FOOT, abs=0.1))
    assert area["walk"]["words"] == "7' walked so far; the start lies W 3' 0\" S 4' 0\" from here"


def test_a_leg_that_cannot_be_read_leaves_those_before_it() -> None:
    """The second leg has no unit: one side is drawn, and the leg says what it needs."""
    area = first("    outline: E 30', N 40, W 30', S 40'\n")
    assert len(area["sides"]) == 1
    assert [leg["needs"] for leg in area["legs"]] == ["", "a length with its unit", "", ""]
    assert area["legs"][1]["write"] == "40'"


def test_a_rectangle_is_whole_and_has_its_size() -> None:
    """60 ft by 40 ft are 2,400 sf."""
    area = first("    outline: E 60', N 40', W 60', S 40'\n")
    assert area["is_whole"]
    assert area["size"] == "2400 sf"
    assert area["walk"]["words"] == "the walk ends at its start"


def test_a_walk_that_misses_its_start_by_too_much_stays_open() -> None:
    """A foot too long on the way back, of 201 ft: more than 1 in 500; the gap is from the end to the start."""
    area = first("    outline: E 60', N 40', W 61', S 40'\n")
    assert area["is_whole"] is False
    assert area["walk"]["is_off"]
    assert area["walk"]["gap"][0] == (pytest.approx(-FOOT, abs=0.1), pytest.approx(0, abs=0.1))
    assert "W 1' 0\"" in area["walk"]["words"]


def test_an_opening_with_a_wrong_kind_is_drawn_all_the_same() -> None:
    """Its place and size are known."""
    opening = "{name: C, kind: crub, at: E 10' N 5', size: E 2' x N 1'}"
    (opening,) = first(f"    outline: E 60', N 40', W 60', S 40'\n    openings: [{opening}]\n")["openings"]
    assert opening["ring"][0] == (pytest.approx(10 * FOOT, abs=0.1), pytest.approx(-5 * FOOT, abs=0.1))


@pytest.mark.parametrize(
    "text", ["", "roof: 3\n", "roof: [1, [2]]\n", "roof:\n  - {area: {x: 1}, outline: [[1], 2]}\n", "a: [\n"]
)
def test_what_is_no_roof_is_an_empty_outline(text: str) -> None:
    """Nothing is drawn, and nothing is wrong with asking."""
    assert outline_json(sketch(ask(text)))["box"] is None


BOX = HEAD + "    outline: E 60', N 40', W 60', S 40'\n    start: E 100' N 0'\n"


def test_a_place_is_told_from_the_first_corner_and_the_two_nearest_sides() -> None:
    """A pointer at 110.02 ft east and 35 ft north: 10 ft from side 4 in the west, 5 ft from side 3 in the north."""
    found = pointed(sketch(ask(BOX)), 0, 110.02 * FOOT, -35 * FOOT)
    assert found["at"] == "E 10' N 35'"
    assert found["words"] == "5' 0\" from side 3, 10' 0\" from side 4"
    assert found["side"] == {"side": "3", "from_start": "50' 0\"", "words": "side 3, 50' 0\" from its start"}


def test_a_step_moves_by_the_cut_step_of_the_job() -> None:
    """Two steps of 6 in east and one south, from 10 ft: 11 ft east, 4 ft 6 in north."""
    text = BOX + "    pipes: [{name: V, at: E 10' N 5', diameter: 4\"}]\nrules: {cut_step: 6\"}\n"
    (edit,) = stepped(sketch(ask(text)), "roof[0].pipes[0]", 2, -1)
    assert edit == {"edit": "set", "path": "roof[0].pipes[0].at", "value": "E 11' N 4' 6\""}


def test_a_scupper_stays_in_its_side() -> None:
    """Stepped past the end of a side of 60 ft it stops there; pointed near side 2 it goes to it."""
    text = (
        BOX + '    drains: [{name: S, kind: scupper, side: 1, from_start: 59\', width: 12"}]\nrules: {cut_step: 6"}\n'
    )
    found = sketch(ask(text))
    assert stepped(found, "roof[0].drains[0]", 9, 0)[0]["value"] == "60' 0\""
    edits = placed(found, "roof[0].drains[0]", "scupper", 0, 159 * FOOT, -12 * FOOT)
    assert [edit["value"] for edit in edits] == ["2", "12' 0\""]


def test_an_area_that_is_not_there_is_refused() -> None:
    """In words."""
    with pytest.raises(Refused):
        pointed(sketch(ask(BOX)), 5, 0.0, 0.0)


def test_sides_as_ranges() -> None:
    """Neighbours stand together."""
    assert ranges([5, 1, 2, 3, 9, 8]) == ["1-3", "5", "8-9"]


def sided(edges: str, sides: list[int], said: dict[str, Any]) -> Any:
    """The `edges` of a job after something was said of some sides."""
    text = BOX + edges
    made = side_edits(typed_job(text, file="x"), 0, sides, said)
    return typed_job(apply(text, edits_from(made), "x"), file="x")["roof"][0].get("edges")


WALL = {"kind": "wall", "height": "8'"}
SIDED = [
    ("", [1, 2, 4], [{"sides": "1-2", **WALL}, {"sides": "4", **WALL}]),
    ("    edges: [{sides: 1-4, kind: ridge}]\n", [2], None),
    ("    edges:\n      - {sides: 1, kind: ridge}  # kept\n", [1], [{"sides": "1", **WALL}]),
    ("    edges: [{sides: [1, 3], kind: ridge}]\n", [1, 3], [{"sides": "1", **WALL}, {"sides": "3", **WALL}]),
]


@pytest.mark.parametrize(("edges", "sides", "after"), SIDED)
def test_sides_said_once_are_said_of_each(edges: str, sides: list[int], after: list[dict[str, str]] | None) -> None:
    """Each side is in one entry, those not meant keep what was said of them."""
    found = sided(edges, sides, WALL)
    if after is None:
        by_side = {side: entry for entry in found for side in numbers(entry["sides"])}
        assert {side: entry["kind"] for side, entry in by_side.items()} == {
            1: "ridge",
            2: "wall",
            3: "ridge",
            4: "ridge",
        }
    else:
        assert found == after


def numbers(text: str) -> list[int]:
    """Sides of a range, by hand."""
    low, _, high = text.partition("-")
    return list(range(int(low), int(high or low) + 1))


def test_saying_nothing_takes_back_what_was_said() -> None:
    """The list goes with its last entry."""
    assert sided("    edges: [{sides: 1-4, kind: ridge}]\n", [1, 2, 3, 4], {}) is None


def test_faults_stand_at_their_fields() -> None:
    """A wrong slope at the slope of its area, with a value that can be put in; a missing place at the place."""
    text = BOX + "    slope: flat\n    falls: S\n    openings: [{name: C, kind: curb, size: E 2' x N 1'}]\n"
    steps = {step["key"]: step for step in form_json(ask(text))["steps"]}
    falls = {each["key"]: each for each in steps["falls"]["blocks"][0]["fields"]}
    assert [fault["value"] for fault in falls["slope"]["faults"]] == ["1/4 in 12"]
    openings = steps["standing"]["blocks"][0]["blocks"][0]["items"][0]
    assert [each["key"] for each in openings["fields"] if each["faults"]] == ["at"]
    assert steps["standing"]["missing"] == 1


def test_a_default_says_where_it_comes_from() -> None:
    """The rule's row of the table of defaults."""
    steps = {step["key"]: step for step in form_json(ask(BOX))["steps"]}
    rules = next(block for block in steps["rules"]["blocks"] if block["key"] == "rules")
    stagger = next(each for each in rules["fields"] if each["key"] == "end_lap_stagger")
    assert stagger["default"] == "3'"
    assert stagger["origin"] == "published: UFGS 07550 Modified Bituminous Membrane Roofing, p. 30"


def test_a_metric_job_is_told_in_metric() -> None:
    """A step of 1/2 in is 12.7 mm, and no example is in feet or inches."""
    steps = form_json(ask(BOX.replace("units: us", "units: metric")))["steps"]
    rules = next(block for block in steps[9]["blocks"] if block["key"] == "rules")
    assert next(each for each in rules["fields"] if each["key"] == "cut_step")["default"] == "12.7 mm"
    margin = next(each for each in rules["fields"] if each["key"] == "dew_point_margin")
    assert margin["default"] == "2.8 K"  # 5 F of difference, by 5/9
    openings = next(block for block in steps[2]["blocks"][0]["blocks"] if block["key"] == "openings")
    assert [each["example"] for each in openings["template"]["fields"][2:4]] == ["E 9 m N 6 m", "E 2.4 m x N 1.8 m"]


@pytest.mark.parametrize("units", ["us", "metric"])
def test_what_is_offered_to_begin_with_can_be_read(units: str) -> None:
    """After all of it is taken, nothing is left to put right."""
    text = BOX.replace("units: us", f"units: {units}")
    for key in ("edges", "falls", "sheets", "crew"):
        step = next(step for step in form_json(ask(text))["steps"] if step["key"] == key)
        (start,) = step["starts"]
        text = apply(text, edits_from(start["edits"]), "x.yaml")
    found = form_json(ask(text))
    assert found["missing"] == 0
    assert [step["starts"] for step in found["steps"]] == [[]] * len(found["steps"])
    assert Units(units).system == units


def test_a_sheet_is_kept_for_the_next_job_and_kept_once(tmp_path: Path) -> None:
    """The list is a file of its own with comments of one's own; a sheet of the same name takes the other's place."""
    job = typed_job("sheets:\n  cap: {width: 1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}\n", file="x")
    keep_sheet(tmp_path, job, "cap")
    path = tmp_path / "sheets.yml"
    path.write_text("# my own words\n" + path.read_text(encoding="utf-8"), encoding="utf-8")
    wider = typed_job("sheets:\n  cap: {width: 1.1 m, length: 10 m, side_lap: 80 mm, end_lap: 150 mm}\n", file="x")
    keep_sheet(tmp_path, wider, "cap")
    assert [(each["name"], each["values"]["width"]) for each in sheets_kept(tmp_path)] == [("cap", "1.1 m")]
    assert path.read_text(encoding="utf-8").startswith("# my own words\n")
    assert [each.name for each in tmp_path.iterdir()] == ["sheets.yml"]


def test_a_sheet_that_is_not_whole_is_not_kept(tmp_path: Path) -> None:
    """It needs its laps."""
    with pytest.raises(Refused):
        keep_sheet(tmp_path, typed_job("sheets:\n  cap: {width: 1 m}\n", file="x"), "cap")
    assert list(tmp_path.iterdir()) == []


def test_a_decimal_comma_stays_in_its_leg_and_is_offered_with_a_point() -> None:
    """Three legs are typed and three are shown; the second is walked again with what it offers."""
    area = first("    outline: E 30 m, N 20,5 m, W 30 m\n")
    assert [leg["text"] for leg in area["legs"]] == ["E 30 m", "N 20,5 m", "W 30 m"]
    assert (area["legs"][1]["write"], area["legs"][1]["is_bare"]) == ("N 20.5 m", True)
    assert area["legs"][1]["needs"] == "a length with its unit, its decimals behind a point"
    assert area["walk"]["words"].startswith("98' 5\" walked before leg 2, which can't be read")


def test_less_than_the_tape_shows_is_no_misclosure() -> None:
    """A bearing to the minute leaves 0.2 mm on 5 m: the walk ends at its start, and no leg takes any of it."""
    text = HEAD.replace("us", "metric") + "    outline: E 28 m, N 36 52 E 5 m, N 20 m, W 31 m, S 24 m\n"
    area = outline_json(sketch(ask(text)))["areas"][0]
    assert area["walk"]["words"] == "the walk ends at its start"
    assert [leg["change"] for leg in area["legs"]] == ["", "", "", "", ""]


def test_planes_are_drawn_with_the_way_their_water_runs() -> None:
    """Two of 20 ft each, one over the other; one that can't be read is left out."""
    planes = (
        "    planes:\n"
        "      - {plane: A, outline: \"E 60', N 20', W 60', S 20'\", falls: N, slope: 2 %}\n"
        "      - {plane: B, start: N 20', outline: \"E 60', N 20', W 60', S 20'\", falls: S, slope: 1/4 in 12}\n"
        '      - {plane: C, outline: "E 60\', N", falls: S, slope: 2 %}\n'
    )
    area = first("    outline: E 60', N 40', W 60', S 40'\n" + planes)
    assert [each["words"] for each in area["planes"]] == ["A 2 %", "B 1/4 in 12"]
    assert area["planes"][1]["corners"][0] == pytest.approx((0, -20 * FOOT), abs=0.1)
    assert [each["way"] for each in area["planes"]] == [[0, -1], [0, 1]]


def test_metal_is_offered_for_the_sides_that_nothing_is_said_of() -> None:
    """Of six sides 2 and 3 are walls: 1 and 4 to 6 are left; where all are said nothing is offered."""
    walk = "    outline: E 60', N 40', W 20', S 10', W 40', S 30'\n"
    job = HEAD + walk + '    edges:\n      - {sides: 2-3, kind: wall, height: 12"}\n'
    offered = [
        [edit["values"]["sides"] for start in step["starts"] for edit in start["edits"]]
        for text in (job, job.replace("sides: 2-3", "sides: 1-6"))
        for step in form_json(ask(text))["steps"]
        if step["key"] == "edges"
    ]
    assert offered == [["1", "4-6"], []]
