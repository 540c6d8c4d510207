"""Details of a plan drawn by hand: right as it is, and each rule broken alone."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest
from detailplan import BROKEN, detail, find, from_rip, write_detailed
from handplan import BASE_ROWS, CAP_ROWS, CURB, PLIES, RULES, TICKS, Drawing, Json, Row, judge, metres

from lapwright.roof.values import Drain, Opening, Pipe
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.faces import flashed_faces
from lapwright.rulecheck.limits import limits_of


def broken_rules(change: Any = None) -> list[str]:
    """Names of the rules that the plan breaks after a change, each once."""
    plan = write_detailed()
    if change is not None:
        change(plan)
    return list(dict.fromkeys(violation.rule for violation in judge(plan, Drawing())))


def test_the_plan_with_its_details_is_right() -> None:
    """Nothing is found in it."""
    assert [violation.text for violation in judge(write_detailed(), Drawing())] == []


@pytest.mark.parametrize(("rule", "change"), BROKEN, ids=[f"{k} {rule}" for k, (rule, _) in enumerate(BROKEN)])
def test_a_rule_broken_in_the_details(rule: str, change: Any) -> None:
    """A right plan in which one detail was edited against one rule breaks that rule alone."""
    assert broken_rules(change) == [rule]


def bare(plan: Json) -> None:
    """Details without places and sizes, as a plan of the field has them."""
    plan["details"] = [{"id": one["id"], "sheet": "", "roll": "", "kind": one["kind"]} for one in plan["details"]]
    plan["laps"] = [one for one in plan["laps"] if one["kind"] in ("side", "end")]
    plan["rolls"] = [one for one in plan["rolls"] if len(one["id"].split("/")) == 4 and "/O-1 " not in one["id"]]


def test_a_plan_of_the_field_alone_is_not_judged_by_its_details() -> None:
    """None given, or none with place and sizes: nothing is missed."""
    assert broken_rules(bare) == []
    assert broken_rules(lambda plan: (bare(plan), plan.update(details=[]))) == []


def test_a_row_of_fasteners_holds_a_tall_flashing() -> None:
    """30" of wall are right with one row part-way."""
    tall = next(change for rule, change in BROKEN if rule == "flashing_fixing")

    def held(plan: Json) -> None:
        tall(plan)
        face = find(plan, "Main/O-1 S/cap flashing 1")
        row = {"id": "Main/O-1 S/fixing 1", "kind": "fixing", "sheet": "", "roll": ""}
        plan["details"].append({**face, **row, "ply": "", "takes": 0.0, "sizes": {"length": 0.8, "width": 0.0}})

    assert broken_rules(held) == []


def test_details_may_come_from_beside_a_ripped_piece() -> None:
    """A strip of 210 and a gusset from the 388 by 15 11/16 that the starter leaves."""

    def ripped(plan: Json) -> None:
        from_rip(plan, "Main/side 1/strip 2")
        from_rip(plan, "Main/O-1 SW/base gusset upright")

    assert broken_rules(ripped) == []


def test_roof_before_a_face_is_found_a_hair_before_it() -> None:
    """A curb against the parapet hides its east face and as much of the parapet."""
    (x, y), (w, h) = CURB.corner, CURB.size
    curb = Opening("O-1", "curb", (600 * TICKS - w, y), (w, h))
    found = {face.of: face.bare for face in flashed_faces(Drawing(openings=(curb,)).area, limits_of(RULES))}
    assert set(found) == {"side 2", "O-1 S", "O-1 N", "O-1 W"}
    assert [span for spans in found["side 2"] for span in spans] == pytest.approx(
        [0.0, metres(y / TICKS), metres((y + h) / TICKS), metres(104.25)], abs=1e-9
    )
    assert x != curb.corner[0]


def test_a_tenth_of_a_face_left_bare_is_told_with_its_length() -> None:
    """The last piece of the parapet ends 10" short: that much is missing, there."""
    plan = write_detailed()
    one = find(plan, "Main/side 2/cap flashing 4")
    one["line"][1][1] -= metres(10)
    one["sizes"]["width"] -= metres(10)
    (violation,) = judge(plan, Drawing())
    assert (violation.rule, violation.read) == ("flashed", pytest.approx(metres(10)))
    assert violation.where == pytest.approx((metres(600), metres(94.25)))


PIPED = replace(
    Drawing().area,
    pipes=(Pipe("V-1", (100 * TICKS, 30 * TICKS), 4 * TICKS),),
    drains=(
        Drain("D-1", "drain", at=(200 * TICKS, 30 * TICKS)),
        Drain("S-1", "scupper", side=2, width=0.3, height=0.15),
        Drain("S-2", "scupper", side=2),
        Drain("G-1", "gutter", side=1),
    ),
)


def things(*left_out: str) -> Json:
    """The plan with what its drains, scuppers and pipe ask for, less some."""
    plan = write_detailed()
    patches = {"V-1": "pipe strip", "D-1": "target", "S-1": "scupper strip"}
    things = {"V-1": "pipe flashing", "D-1": "drain metal", "S-1": "scupper metal", "S-2": "scupper metal"}
    names = [(of, name, "") for of, name in things.items()]
    names += [(of, name, ply) for of, name in patches.items() for ply in ("base", "cap")]
    for of, name, ply in names:
        made = detail(f"{ply} {name}".strip(), name.replace(" ", "_"), of, ("", ply), (20, 20), ((0, 0), (0, 0)))
        plan["details"] += [{**made, "line": None}] if f"{of} {ply} {name}" not in left_out else []
    return plan


@pytest.mark.parametrize(
    ("left_out", "lacks"),
    [
        ((), []),
        (("V-1  pipe flashing",), ["pipe flashing"]),
        (("V-1 cap pipe strip", "D-1 base target"), ["pipe strip of the cap", "target of the base"]),
        (("D-1  drain metal", "D-1 cap target"), ["drain metal, target of the cap"]),
        (("S-1 base scupper strip", "S-2  scupper metal"), ["scupper strip of the base", "scupper metal"]),
    ],
)
def test_drains_scuppers_and_pipes_have_what_belongs_to_them(left_out: tuple[str, ...], lacks: list[str]) -> None:
    """What is left out is named; of a scupper whose size is not given no strips are asked, of a gutter nothing."""
    found = find_violations(things(*left_out), areas=[PIPED], plies=PLIES, rules=RULES)
    found = [one for one in found if one.rule not in ("end_lap_drain", "end_lap_stagger")]
    assert [(one.rule, one.needs) for one in found] == [("drain_flashed", needs) for needs in lacks]


def begins(row: Row, at: float) -> Row:
    """A course that begins elsewhere."""
    (_, end), *rest = row.pieces
    return replace(row, pieces=((at, end), *rest))


CORNERED = Drawing(
    base=tuple(begins(row, -2) for row in BASE_ROWS), cap=tuple(begins(row, 0.5) for row in CAP_ROWS), metal=True
)


def cornered(*left_out: str) -> list[tuple[str, object, object]]:
    """What is found with metal on the left side too, less some of what belongs to the corner.

    Side 4 runs down 104 1/4 to the corner, which has a piece of metal, two covers over its joints and a strip of 18
    over the strips that meet there.
    """
    line = ((0, 104.25), (0, 0))
    more = [
        detail("metal 1", "metal", "side 4", ("", ""), (104.25, 4), line),
        detail("cleat 1", "cleat", "side 4", ("", ""), (104.25, 0), line),
        detail("strip 1", "strip", "side 4", ("base-sa", "strip"), (104.25, 9), line),
    ]
    of, nowhere = "corner of sides 4 and 1", ((0, 0), (0, 0))
    for name, kind, made, sizes in (
        ("metal corner", "metal_corner", ("", ""), (0, 0)),
        ("joint cover 1", "joint_cover", ("", ""), (0, 0)),
        ("joint cover 2", "joint_cover", ("", ""), (0, 0)),
        ("corner strip", "strip_corner", ("base-sa", "strip"), (18, 9)),
    ):
        piece = detail(name, kind, of, made, sizes, nowhere)
        more += [{**piece, "line": None, "at": [0.0, 0.0]}] if name not in left_out else []
    return [(one.rule, one.read, one.needs) for one in judge(write_detailed(CORNERED, *more), CORNERED)]


@pytest.mark.parametrize(
    ("left_out", "found"),
    [
        ((), []),
        (("metal corner",), [("edge_joints", "0 metal corner", "1")]),
        (("corner strip",), [("edge_joints", "0 strip corner", "1")]),
        (("joint cover 1",), [("edge_joints", "1 joint cover", "2")]),
        (("joint cover 2",), [("edge_joints", "1 joint cover", "2")]),
    ],
)
def test_a_corner_of_metal_has_what_belongs_to_it(left_out: tuple[str, ...], found: list[Any]) -> None:
    """Whichever of its pieces is taken away, that one is told and nothing else."""
    assert cornered(*left_out) == found
