"""Each rule broken by hand in one way: the checker finds that rule and no other."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from detailplan import BROKEN
from handplan import (
    BASE_END,
    BASE_ROWS,
    CAP_END,
    CAP_ROWS,
    CURB,
    DEPTH,
    PLIES,
    RULES,
    TICKS,
    Drawing,
    Json,
    Row,
    broken_rules,
    holed,
    joint_at,
    judge,
    metres,
    moved,
    write,
)

from lapwright.roof.values import Drain
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.names import rule_names

GOOD = Drawing()
SHAFT = holed("O-2", "shaft", 450, 36, 24, 41)


def cap(course: int, **changes: Any) -> Drawing:
    """The good drawing with a course of the cap (from 0) changed."""
    return moved(GOOD, "cap", course, replace(CAP_ROWS[course], **changes))


def base(course: int, **changes: Any) -> Drawing:
    """The good drawing with a course of the base (from 0) changed."""
    return moved(GOOD, "base", course, replace(BASE_ROWS[course], **changes))


def shifted(rows: tuple[Row, ...], by: float) -> tuple[Row, ...]:
    """Courses whose lap lines are moved up the fall; the first begins and the last ends where it did."""
    found = [replace(row, low=row.low + by, high=row.high + by) for row in rows]
    found[0], found[-1] = replace(found[0], low=rows[0].low), replace(found[-1], high=rows[-1].high)
    return tuple(found)


VALLEY = ((-1, 60), (54, DEPTH + 1))


def from_left(drawing: Drawing, start: float, **changes: Any) -> Drawing:
    """The drawing with all courses beginning at `start`."""
    plies = {
        name: tuple(replace(row, pieces=((start, row.pieces[0][1]), *row.pieces[1:])) for row in getattr(drawing, name))
        for name in ("base", "cap")
    }
    return replace(drawing, **plies, **changes)


def ripped(top_line: float) -> Drawing:
    """The cap's second course ripped so that the last one begins at `top_line`."""
    second = replace(CAP_ROWS[1], high=top_line + 3)
    return replace(GOOD, cap=(CAP_ROWS[0], second, replace(CAP_ROWS[2], low=top_line)))


@pytest.mark.parametrize(
    "drawing",
    [
        GOOD,
        replace(GOOD, slope=1 / 12, openings=(), depth=DEPTH),
        replace(GOOD, slope=1 / 48, openings=(), turned_deg=33.0),
        replace(GOOD, openings=(), turned_deg=-100.0),
        ripped(67.5),
        replace(
            cap(1, pieces=((0, 315), (309, 450), (474, CAP_END))),
            openings=(CURB, SHAFT),
        ),
        replace(GOOD, valley=VALLEY, given={"valley_back": '0"'}),
        from_left(GOOD, 3, valley=VALLEY),
        from_left(GOOD, -6, ridge=True),
    ],
    ids=[
        "flat",
        "sloped",
        "turned 33",
        "turned 100",
        "ripped below the top",
        "run split by a shaft",
        "valley",
        "held back",
        "ridge",
    ],
)
def test_a_right_plan_has_no_violation(drawing: Drawing) -> None:
    """Plans that were drawn so that they keep every rule pass, however the roof stands."""
    assert judge(write(drawing), drawing) == ()


DRAWN = {
    # 10" between the pieces of a course
    "coverage": base(1, pieces=((0, 250), (260, BASE_END))),
    # 1" past the metal instead of 2"
    "base_over_edge": base(0, low=-1),
    # 3/4" up the cant's back less than asked
    "up_wall": base(1, pieces=((0, 266), (260, BASE_END - 0.75))),
    # 2" beyond the top of the cant
    "overhang": cap(0, pieces=((0, 360), (354, CAP_END + 2))),
    # straight on across a shaft that spans the sheet
    "run": replace(GOOD, openings=(CURB, SHAFT)),
    # no end lap at the curb, the neighbours' laps moved out of the way
    "opening_lap": replace(
        GOOD, cap=(joint_at(CAP_ROWS[0], 320), joint_at(CAP_ROWS[1], 380), joint_at(CAP_ROWS[2], 320))
    ),
    # 2.85" instead of 3"
    "side_lap": cap(1, low=37.025, high=76.4),
    "end_lap": cap(0, pieces=((0, 357), (354, CAP_END))),
    # 31" from 309"
    "end_lap_stagger": moved(GOOD, "cap", 2, joint_at(CAP_ROWS[2], 340)),
    # 24" from the cap's 354"
    "end_lap_ply_offset": moved(GOOD, "base", 3, joint_at(BASE_ROWS[3], 330)),
    # 17" beyond the end of the first cap course's end lap, 354" to 360"
    "end_lap_drain": replace(GOOD, drains=(Drain("D", "drain", at=(377 * TICKS, 20 * TICKS), diameter=0.1),)),
    # the valley sheet reaches 19 11/16" into the area
    "end_lap_valley": replace(
        cap(0, pieces=((0, 25), (19, 400), (394, CAP_END))),
        valley=VALLEY,
        given={"valley_back": '0"', "shortest_piece": "1'"},
    ),
    # from side to side, but not over the ridge on the left
    "over_ridge": replace(GOOD, ridge=True),
    # 4 1/4" of the valley without a sheet
    "valley": replace(GOOD, valley=((0, 60), (54, 100)), given={"valley_back": '0"'}),
    # base lines at 18 1/4", 54 5/8": 17 3/4" from the cap's 36 7/8"
    "ply_offset": replace(GOOD, base=shifted(BASE_ROWS, -0.4375)),
    # 66" is 10 15/16" from the base's 55 1/16"
    "ply_offset_at_rip": ripped(66),
    "shortest_piece": cap(0, pieces=((0, 57), (51, 400), (394, CAP_END))),
    "longest_piece": moved(GOOD, "base", 0, joint_at(BASE_ROWS[0], 180)),
    # 103 1/4" leaves the base's last course 11 13/16"
    "narrowest_rip": replace(
        GOOD,
        depth=103.25,
        base=(*BASE_ROWS[:3], replace(BASE_ROWS[3], high=103.25)),
        cap=(*CAP_ROWS[:2], replace(CAP_ROWS[2], high=103.25)),
    ),
    "sheet_width": cap(1, high=76.75),
    # all lap lines 6" lower, the first courses that much narrower
    "first_course": replace(
        GOOD,
        base=shifted(BASE_ROWS, -6),
        cap=shifted(CAP_ROWS, -6),
    ),
    "cut_step": replace(GOOD, cuts={"Main/cap/01/1": 360.25}),
    "laying_order": replace(GOOD, order=(*(("base", k) for k in range(4)), ("cap", 1), ("cap", 0), ("cap", 2))),
}


@pytest.mark.parametrize("rule", DRAWN)
def test_a_rule_broken_in_the_drawing(rule: str) -> None:
    """A plan drawn against one rule, with lists that agree with the drawing, breaks that rule alone."""
    assert broken_rules(DRAWN[rule]) == [rule]


def test_the_cap_laps_no_farther_than_its_selvage() -> None:
    """All lap lines 1" lower under a full first course of the cap: its second course lies 4" on it, 1" on granules."""
    first, *others = shifted(CAP_ROWS, -1)
    drawing = replace(GOOD, base=shifted(BASE_ROWS, -1), cap=(replace(first, high=CAP_ROWS[0].high), *others))
    assert broken_rules(drawing) == ["side_lap"]


@pytest.mark.parametrize(("surfacing", "found"), [("granules", ["side_lap"]), ("film", []), ("smooth", [])])
def test_a_cap_without_granules_may_lap_wider(surfacing: str, found: list[str]) -> None:
    """The same laps on a cap whose sheet says what its upper face carries."""
    first, *others = shifted(CAP_ROWS, -1)
    drawing = replace(GOOD, base=shifted(BASE_ROWS, -1), cap=(replace(first, high=CAP_ROWS[0].high), *others))
    plies = [replace(ply, sheet=replace(ply.sheet, surfacing=surfacing)) for ply in PLIES]
    violations = find_violations(write(drawing), areas=[drawing.area], plies=plies, rules=RULES)
    assert list(dict.fromkeys(violation.rule for violation in violations)) == found


def find(items: list[Json], id: str) -> Json:
    """The item with an id."""
    return next(item for item in items if item["id"] == id)


def pieces(plan: Json) -> list[Json]:
    """All pieces of a plan."""
    return [piece for ply in plan["plies"] for piece in ply["pieces"]]


def drop(items: list[Json], id: str) -> None:
    """Take the item with an id out."""
    items.remove(find(items, id))


def rename(plan: Json, old: str, new: str) -> None:
    """Give a piece another id wherever it is named."""
    find(pieces(plan), old)["id"] = new
    for holder in (*plan["laps"], *plan["rolls"]):
        holder["pieces"] = [new if id == old else id for id in holder["pieces"]]


def cut_from(plan: Json, id: str, roll: str) -> None:
    """Cut a piece from another roll; the roll that is left without pieces is never opened."""
    piece = find(pieces(plan), id)
    drop(plan["rolls"], piece["roll"])
    other = find(plan["rolls"], roll)
    other["pieces"].append(id)
    other["used"] += piece["cut_length"]
    other["left"] -= piece["cut_length"]
    piece["roll"] = roll
    counts = next(count for count in plan["layout"] if count["ply"] == id.split("/")[1])
    counts["rolls"] -= 1


def overdraw(plan: Json) -> None:
    """Three base pieces of 226", 384" and 226" from one roll of 787"."""
    for id in ("Main/base/01/2", "Main/base/03/1"):
        cut_from(plan, id, "roll of Main/base/01/1")


def list_twice(plan: Json) -> None:
    """A piece is listed in a second roll, which is long enough for it."""
    roll = find(plan["rolls"], "roll of Main/base/02/1")
    roll["pieces"].append("Main/base/01/1")
    roll["used"] += metres(226)
    roll["left"] -= metres(226)


def unlist(plan: Json) -> None:
    """A piece is in no roll's list."""
    roll = find(plan["rolls"], "roll of Main/base/01/1")
    roll.update(pieces=[], used=0.0, left=metres(787))
    plan["layout"][0]["rolls"] -= 1


def other_sheet(plan: Json) -> None:
    """A roll of the cap is said to be one of base."""
    roll = find(plan["rolls"], "roll of Main/cap/01/1")
    roll.update(sheet="base-sa", left=metres(787) - roll["used"])


def swap_numbers(plan: Json) -> None:
    """The base's last piece and the cap's first change places in the laying order."""
    one, two = find(pieces(plan), "Main/base/01/2"), find(pieces(plan), "Main/cap/01/1")
    one["sequence"], two["sequence"] = two["sequence"] + 5, one["sequence"]


def move_lap(plan: Json, id: str, by: float) -> None:
    """A lap's line is drawn somewhere else across the fall."""
    for point in find(plan["laps"], id)["line"]:
        point[0] += metres(by)


def idle_lap(plan: Json) -> None:
    """A lap between two pieces that are two courses apart."""
    lap = find(plan["laps"], "Main/base/01-02/side 1-1")
    plan["laps"].append({**lap, "id": "Main/base/01-03/side 1-1", "pieces": ["Main/base/01/1", "Main/base/03/1"]})


def idle_joint(plan: Json) -> None:
    """A T-joint 10" beside the end lap."""
    joint = plan["tjoints"][0]
    x, y = joint["at"]
    plan["tjoints"].append({**joint, "id": "another", "at": [x + metres(10), y]})


def cut_of(plan: Json, id: str) -> Json:
    """The first corner cut of a piece."""
    found: Json = find(pieces(plan), id)["corner_cuts"][0]
    return found


EDITED = [
    ("area", lambda plan: plan["areas"][0]["outline"][2].__setitem__(0, 15.0)),
    ("area", lambda plan: plan["areas"][0].update(name="Annex")),
    ("area", lambda plan: plan["plies"][0].update(sheet="cap-sa")),
    ("area", lambda plan: plan["plies"][1].update(position=3)),
    ("id", lambda plan: rename(plan, "Main/cap/01/1", "Main/cap/01/3")),
    ("id", lambda plan: rename(plan, "Main/cap/01/1", "left of the cap")),
    ("id", lambda plan: find(pieces(plan), "Main/cap/01/1").update(place=4)),
    ("reference", lambda plan: plan["rolls"][0]["pieces"].append("Main/cap/07/1")),
    ("reference", lambda plan: plan["tjoints"][0]["laps"].append("Main/base/09/end 1-2")),
    (
        "reference",
        lambda plan: plan["laps"].append({**plan["laps"][0], "kind": "strip", "pieces": ["a", "b"], "id": "s"}),
    ),
    ("blank", lambda plan: find(pieces(plan), "Main/cap/01/1").update(length=metres(359))),
    ("blank", lambda plan: find(pieces(plan), "Main/cap/01/1").update(width=1.0)),
    ("blank", lambda plan: find(pieces(plan), "Main/cap/01/1")["blank"][0].__setitem__(1, metres(0.5) + 0.0009)),
    ("course", lambda plan: plan["plies"][1]["courses"][1].update(high=metres(76.5))),
    ("course", lambda plan: plan["plies"][1]["courses"][2].update(index=4)),
    ("cut_step", lambda plan: reroll(plan, "Main/cap/01/1", 359)),
    ("roll", list_twice),
    ("roll", unlist),
    ("roll_sheet", other_sheet),
    ("roll_drawn", overdraw),
    ("roll_count", lambda plan: plan["rolls"][0].update(used=1.0, left=metres(787) - 1.0)),
    ("roll_count", lambda plan: plan["rolls"][0].update(left=0.5)),
    ("laying_order", swap_numbers),
    ("end_lap_order", lambda plan: move_lap(plan, "Main/cap/01/end 1-2", 6)),
    ("lap", lambda plan: drop(plan["laps"], "Main/base/01-02/side 1-1")),
    ("lap", lambda plan: find(plan["laps"], "Main/base/01-02/side 1-1").update(length=1.0)),
    ("lap", lambda plan: find(plan["laps"], "Main/base/01-02/side 1-1").update(width=0.1)),
    ("lap", lambda plan: find(plan["laps"], "Main/cap/01/end 1-2").update(width=0.1)),
    ("lap", lambda plan: find(plan["laps"], "Main/cap/01/end 1-2").update(length=0.5)),
    ("lap", lambda plan: move_lap(plan, "Main/cap/01/end 1-2", 2)),
    ("lap", lambda plan: find(plan["laps"], "Main/base/01-02/side 1-1").update(kind="end")),
    ("lap", idle_lap),
    ("tjoint", lambda plan: plan["tjoints"].pop()),
    ("tjoint", idle_joint),
    ("tjoint", lambda plan: plan["tjoints"][0].update(laps=["Main/base/01/end 1-2", "Main/base/01/end 1-2"])),
    ("corner_cut", lambda plan: find(pieces(plan), "Main/cap/01/1").update(corner_cuts=[])),
    ("corner_cut", lambda plan: cut_of(plan, "Main/cap/01/1").update(along=metres(5))),
    ("corner_cut", lambda plan: cut_of(plan, "Main/cap/01/1").update(across=metres(4))),
    (
        "corner_cut",
        lambda plan: find(pieces(plan), "Main/cap/01/2")["corner_cuts"].append(cut_of(plan, "Main/cap/01/1")),
    ),
    ("count", lambda plan: plan["layout"][0].update(end_laps=5)),
    ("count", lambda plan: plan["layout"][1].update(rolls=7)),
    ("count", lambda plan: plan["layout"].pop()),
    ("bound", lambda plan: plan["layout"][0].update(end_laps_at_least=5)),
    ("bound", lambda plan: plan["layout"][1].update(rolls_at_least=7)),
]


def reroll(plan: Json, id: str, cut: float) -> None:
    """Another cut length, drawn from the roll accordingly."""
    piece = find(pieces(plan), id)
    piece["cut_length"] = metres(cut)
    find(plan["rolls"], piece["roll"]).update(used=metres(cut), left=metres(394 - cut))


@pytest.mark.parametrize(("rule", "change"), EDITED, ids=[f"{k} {rule}" for k, (rule, _) in enumerate(EDITED)])
def test_a_rule_broken_in_the_file(rule: str, change: Any) -> None:
    """A right plan in which one entry was edited against one rule breaks that rule alone."""
    assert broken_rules(GOOD, change) == [rule]


# broken in test_details.py, test_feet_rule.py and test_planelap_rule.py, on roofs of their own
PLACES = ("drain_flashed", "foot", "plane_lap")


def test_every_rule_has_a_plan_that_breaks_it() -> None:
    """No rule is listed that nothing was seen to break."""
    assert sorted({*DRAWN, *(rule for rule, _ in (*EDITED, *BROKEN)), *PLACES}) == sorted(rule_names())
