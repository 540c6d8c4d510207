"""Feet of details: our plan of a curb and a drain is right, and each way to spoil a foot or its T-joint is told.

The roof of test_detail_joint_rule.py with a drain at (250", 60"); the curb's west face is at 160", so the foot of its
cap flashing lies at 154" and that of the drain's cap target at 274" on the east.

On the halved roof of test_planelap_rule.py a curb's north face stands 5" south of the valley at 240", so that its feet
there, at 239" and 241", lie on the valley's sheet: of the two from the east, 60' and a roll of 32'10" long, the second.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace

import pytest
from handplan import metres
from test_detail_joint_rule import AREA, INCH
from test_planelap_rule import SHEETS, Json, halves, plan_of

from lapwright.defaults.rules import make_rules
from lapwright.roof.values import Area, Drain, Opening
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.say import say
from lapwright.units.write import Units

ROOF = replace(AREA, drains=(Drain("D", "drain", at=(250 * INCH, 60 * INCH)),))
PLAN = json.dumps(plan_of((ROOF,)))
VALLEY = halves(1.0, (Opening("C", "curb", (100 * INCH, 211 * INCH), (24 * INCH, 24 * INCH), 8 * 0.0254),))
VALLEY_PLAN = json.dumps(plan_of(VALLEY))
NORTH = "Main South/C N/cap flashing 1/foot"
WEST, EAST_RIM = "Main/B W/cap flashing 1/foot", "Main/D/cap target 2/rim E"


def told(change: Callable[[Json], object], text: str = PLAN, areas: tuple[Area, ...] = (ROOF,)) -> list[str]:
    """What is said of our plan after a change."""
    plan = json.loads(text)
    change(plan)
    found = find_violations(plan, areas=areas, plies=SHEETS.plies, rules=make_rules({}))
    return [f"{one.rule}: {say(one, Units())}" for one in found]


def foot(plan: Json, id: str = WEST) -> Json:
    """A lap by its id."""
    return next(one for one in plan["laps"] if one["id"] == id)


def bare(plan: Json, id: str) -> None:
    """Take the T-joints of a lap out."""
    plan["tjoints"] = [one for one in plan["tjoints"] if id not in one["laps"]]


def left_out(id: str) -> Callable[[Json], None]:
    """A change that takes a foot out, with its T-joints."""

    def change(plan: Json) -> None:
        plan["laps"].remove(foot(plan, id))
        bare(plan, id)

    return change


def shifted(plan: Json) -> None:
    """The foot an inch nearer to the face; it still crosses the same lap there."""
    for place in (*foot(plan)["line"], *(one["at"] for one in plan["tjoints"] if WEST in one["laps"])):
        place[0] += metres(1)


def cut_short(plan: Json) -> None:
    """A foot of it is missing at its north end."""
    line = foot(plan)["line"]
    line[0 if line[0][1] > line[1][1] else 1][1] -= metres(12)
    foot(plan)["length"] -= metres(12)
    bare(plan, WEST)


def too_long(plan: Json) -> None:
    """It goes on past the piece, to the north."""
    line = foot(plan)["line"]
    line[0 if line[0][1] > line[1][1] else 1][1] += metres(3)
    foot(plan)["length"] += metres(3)


def off_the_rim(plan: Json) -> None:
    """The rim's line 3 to the east."""
    for place in (*foot(plan, EAST_RIM)["line"], *(one["at"] for one in plan["tjoints"] if EAST_RIM in one["laps"])):
        place[0] += metres(3)


def test_our_plan_is_right() -> None:
    """Nothing is found, and the two feet that are spoiled below are there with a T-joint each at least."""
    assert told(lambda plan: None) == []
    named = {id for one in json.loads(PLAN)["tjoints"] for id in one["laps"]}
    assert {WEST, EAST_RIM} <= named


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (left_out(WEST), 'Main, B W: 36" of the foot of its flashing is not listed; list it.'),
        (left_out(EAST_RIM), "Main, D: a side of the rim of its target is not listed; list it."),
        (
            lambda plan: foot(plan).update(length=metres(35)),
            f'Lap {WEST}: length 35", but it is 36"; write what it is.',
        ),
        (shifted, f'Lap {WEST} lies 5" off B W, its detail ends at 6"; draw it there.'),
        (too_long, f"Lap {WEST} is longer than Main/B W/cap flashing 1; draw it as long as that shows."),
        (cut_short, 'Main, B W: 12" of the foot of its flashing is not listed; list it.'),
        (off_the_rim, f"Lap {EAST_RIM} does not lie on the rim of what it is of; draw it there."),
    ],
    ids=["left out", "rim left out", "length", "shifted", "too long", "cut short", "off the rim"],
)
def test_a_spoiled_foot_is_told(change: Callable[[Json], object], words: str) -> None:
    """What is wrong with it, and what to do."""
    found = told(change)
    assert f"foot: {words}" in found
    assert {one.partition(":")[0] for one in found} == {"foot"}


def test_a_foot_on_another_piece_is_told() -> None:
    """It names the piece under it."""
    found = told(lambda plan: foot(plan).update(pieces=["Main/cap/05/1", "Main/B W/cap flashing 1"]))
    assert found == [
        f"foot: Lap {WEST}: Main/B W/cap flashing 1 does not lie on Main/cap/05/1 there; name the piece under it."
    ]


def test_a_tjoint_of_a_foot_is_missed() -> None:
    """The foot crosses the cap's lap at 109 5/8."""
    found = told(lambda plan: bare(plan, WEST))
    assert found == [f"tjoint: Lap {WEST} crosses a lap of the field; list the T-joint."]


def test_a_plan_that_lists_no_foot_is_one_without_them() -> None:
    """It is not judged by this rule."""

    def without(plan: Json) -> None:
        gone = {one["id"] for one in plan["laps"] if "/foot" in one["id"] or "/rim" in one["id"]}
        plan["laps"] = [one for one in plan["laps"] if one["id"] not in gone]
        plan["tjoints"] = [one for one in plan["tjoints"] if not gone.intersection(one["laps"])]

    assert told(without) == []


def test_a_foot_on_a_valley_sheet_is_right() -> None:
    """Our plan of a curb beside a valley: nothing is found, and the foot lies on the sheet."""
    assert told(lambda plan: None, VALLEY_PLAN, VALLEY) == []
    assert foot(json.loads(VALLEY_PLAN), NORTH)["pieces"][0] == "Main South/side 3/cap valley 2"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (left_out(NORTH), 'Main South, C N: 24" of the foot of its flashing is not listed; list it.'),
        (
            lambda plan: foot(plan, NORTH)["pieces"].__setitem__(0, "Main South/side 3/base valley 1"),
            f"Lap {NORTH}: Main South/C N/cap flashing 1 does not lie on Main South/side 3/base valley 1 there; "
            "name the piece under it.",
        ),
        (
            lambda plan: foot(plan, NORTH)["pieces"].__setitem__(0, "Main South/cap/01/1"),
            f"Lap {NORTH}: Main South/C N/cap flashing 1 does not lie on Main South/cap/01/1 there; name the piece "
            "under it.",
        ),
    ],
    ids=["left out", "another ply's sheet", "a piece that ends short of it"],
)
def test_a_spoiled_foot_on_a_valley_sheet_is_told(change: Callable[[Json], object], words: str) -> None:
    """Left out, or on another sheet."""
    assert told(change, VALLEY_PLAN, VALLEY) == [f"foot: {words}"]


def test_a_tjoint_over_the_end_lap_of_a_valley_sheet_is_missed() -> None:
    """The sheet's second piece begins at 332" (60' less a roll of 32'10" and its lap of 6"); a curb stands 320" on."""
    areas = halves(1.0, (Opening("C", "curb", (320 * INCH, 211 * INCH), (24 * INCH, 24 * INCH), 8 * 0.0254),))
    plan = json.dumps(plan_of(areas))
    assert told(lambda plan: None, plan, areas) == []
    found = told(lambda plan: bare(plan, NORTH), plan, areas)
    assert found == [f"tjoint: Lap {NORTH} crosses a lap of the field; list the T-joint."]
