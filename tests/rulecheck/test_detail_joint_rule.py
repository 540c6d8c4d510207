"""T-joints of details: our plan of a curb and a drain is right, and each way to spoil its list is told.

The roof is 300" by 172", metal on the south and tie-ins on the other sides.  A curb of 60" by 36" has its south face at
77", before the cap's side lap at 73 1/4": each ply's lap of two pieces there and its two gussets cross it, 6 in all.
"""

from __future__ import annotations

import json
from collections.abc import Callable

import pytest
from handplan import metres
from test_planelap_rule import SHEETS, Json, plan_of

from lapwright.defaults.rules import make_rules
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.values import Opening
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.say import say
from lapwright.units.write import Units

INCH = 2_032
CURB = Opening("B", "curb", (160 * INCH, 77 * INCH), (60 * INCH, 36 * INCH), 0.2032)
CORNERS = [(0, 0), (300 * INCH, 0), (300 * INCH, 172 * INCH), (0, 172 * INCH)]
EDGES = [EdgeRow((1,), "metal_edge"), EdgeRow((2, 3, 4), "tie_in")]
AREA = make_area("Main", CORNERS, falls=(0.0, -1.0), slope=0.0, edges=EDGES, openings=(CURB,))
PLAN = json.dumps(plan_of((AREA,)))
OURS = [one for one in json.loads(PLAN)["tjoints"] if one["kind"] == "detail" and "/foot" not in one["laps"][0]]
NAME = "Main/B S/cap flashing 2/lap"


def told(change: Callable[[Json], object]) -> list[str]:
    """What is said of our plan after a change."""
    plan = json.loads(PLAN)
    change(plan)
    found = find_violations(plan, areas=(AREA,), plies=SHEETS.plies, rules=make_rules({}))
    return [f"{one.rule}: {say(one, Units())}" for one in found]


def joint(plan: Json) -> Json:
    """The T-joint of the cap flashing's lap."""
    return next(one for one in plan["tjoints"] if NAME in one["laps"])


def test_our_plan_is_right_and_lists_six() -> None:
    """Nothing is found; all six are there."""
    assert told(lambda plan: None) == []
    assert len(OURS) == 6


@pytest.mark.parametrize("number", range(6))
def test_each_of_them_is_missed_when_it_is_taken_out(number: int) -> None:
    """The lap that crosses one of the field is named."""
    gone = OURS[number]
    words = f"tjoint: Lap {gone['laps'][0]} crosses a lap of the field; list the T-joint."
    assert told(lambda plan: plan["tjoints"].remove(gone)) == [words]


def moved(plan: Json) -> None:
    """A fifth of an inch up the lap."""
    x, y = joint(plan)["at"]
    joint(plan)["at"] = [x, y + metres(0.2)]


def twice(plan: Json) -> None:
    """Once more by another name."""
    plan["tjoints"].append({**joint(plan), "id": "again"})


def named_wrong(plan: Json) -> None:
    """With a lap of the cap that lies elsewhere."""
    joint(plan)["laps"][1] = "Main/cap/01-02/side 1-1"


@pytest.mark.parametrize(
    ("change", "text"),
    [
        (moved, "its lap crosses no lap of the field there; take it out or move it."),
        (twice, "is listed in its place already; list it once."),
        (named_wrong, "does not name the two laps that cross there; name both."),
    ],
    ids=["moved", "twice", "named wrong"],
)
def test_a_spoiled_one_is_told(change: Callable[[Json], object], text: str) -> None:
    """What is wrong with it, and what to do."""
    found = told(change)
    assert len(found) == 1
    assert found[0].endswith(text)
