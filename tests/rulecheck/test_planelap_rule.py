"""Laps between planes: our plan of a ridge and of a valley is right, and each way to spoil one is told."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from typing import Any

import pytest
from handplan import metres

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.layout.place import make_layout
from lapwright.packet.layoutjson import counts_entry, detail_entry, lap_entry, ply_entry, roll_entry, tjoint_entry
from lapwright.packet.planjson import area_entry
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Area, Opening
from lapwright.rulecheck.check import find_violations
from lapwright.rulecheck.say import say
from lapwright.units.write import Units

Json = dict[str, Any]
FOOT = 24_384
RULES = make_rules({})
SHEETS = Assembly(
    (
        Ply("base", Sheet("base-sa", 80_010, 787 * 2_032, 6_096, 12_192)),
        Ply("cap", Sheet("cap-sa", 80_010, 394 * 2_032, 6_096, 12_192)),
    )
)


def halves(south: float, openings: tuple[Opening, ...] = ()) -> tuple[Area, ...]:
    """60' by 40' that falls to (1) or from (-1) a level line across its middle."""
    low = ((0, 0), (60 * FOOT, 0), (60 * FOOT, 20 * FOOT), (0, 20 * FOOT))
    high = ((0, 20 * FOOT), (60 * FOOT, 20 * FOOT), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT))
    whole = [(0, 0), (60 * FOOT, 0), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT)]
    area = make_area(
        "Main", whole, falls=(0.0, 1.0), slope=0.0, edges=[EdgeRow((1, 2, 3, 4), "tie_in")], openings=openings
    )
    rows = [PlaneRow("South", low, (0.0, south), 0.0), PlaneRow("North", high, (0.0, -south), 0.0)]
    return split_area(area, rows)


def plan_of(areas: tuple[Area, ...]) -> Json:
    """Our plan of a roof."""
    layout = make_layout(areas, SHEETS, RULES, grid=127, patience=0.05)
    return {
        "areas": [area_entry(area) for area in areas],
        "plies": [ply_entry(ply, layout.frames[ply.area]) for ply in layout.plies],
        "details": [detail_entry(detail) for detail in layout.details],
        "laps": [lap_entry(lap) for lap in layout.laps],
        "tjoints": [tjoint_entry(joint) for joint in layout.tjoints],
        "rolls": [roll_entry(roll) for roll in layout.rolls],
        "layout": [counts_entry(ply) for ply in layout.plies],
    }


def told(south: float, change: Callable[[Json], object]) -> list[str]:
    """What is said of our plan after a change."""
    areas = halves(south)
    plan = json.loads(json.dumps(plan_of(areas)))
    change(plan)
    found = find_violations(plan, areas=areas, plies=SHEETS.plies, rules=RULES)
    return [f"{one.rule}: {say(one, Units())}" for one in found]


def lap(plan: Json, words: str) -> Json:
    """The first lap of the cap whose name has these words."""
    return next(one for one in plan["laps"] if one["ply"] == "cap" and words in one["id"])


def drop(plan: Json, words: str) -> None:
    """Take such a lap out, and the T-joints in it."""
    gone = lap(plan, words)
    plan["laps"].remove(gone)
    plan["tjoints"] = [one for one in plan["tjoints"] if gone["id"] not in one["laps"]]


def shift(plan: Json, words: str, inches: float) -> None:
    """Such a lap's line so far up the roof."""
    for point in lap(plan, words)["line"]:
        point[1] += metres(inches)


def test_our_plans_are_right() -> None:
    """Nothing is found at a ridge or a valley."""
    assert [told(south, lambda plan: None) for south in (1, -1)] == [[], []]


@pytest.mark.parametrize(("south", "words"), [(1, "/valley side"), (-1, "/ridge side")])
def test_each_way_to_spoil_a_lap_between_planes_is_told(south: float, words: str) -> None:
    """Left out, of another width or length, drawn elsewhere, of pieces that do not meet: that alone is told.

    A lap drawn elsewhere takes the T-joints with it that feet of details on it make.
    """
    changes: tuple[Callable[[Json], object], ...] = (
        lambda plan: lap(plan, words).update(width=metres(9)),
        lambda plan: lap(plan, words).update(length=lap(plan, words)["length"] - metres(0.3)),
        lambda plan: shift(plan, words, 1.0),
        lambda plan: plan["laps"].append({**lap(plan, words), "id": "idle", "pieces": idle(lap(plan, words))}),
    )
    rules = [{text.partition(":")[0] for text in told(south, change)} for change in changes]
    assert rules == [{"plane_lap"}, {"plane_lap"}, {"plane_lap", "tjoint"}, {"plane_lap"}]


def idle(given: Json) -> list[str]:
    """The same lower piece, or sheet, with a piece two courses off."""
    area = "Main South" if "North" in given["pieces"][1] else "Main North"
    under = given["pieces"][0]
    return (
        [under, "Main North/cap/04/1"] if "valley" in under else [under, f"{area}/cap/04/1".replace("South", "North")]
    )


@pytest.mark.parametrize(("south", "words"), [(1, "/valley side"), (-1, "/ridge side")])
def test_a_lap_between_planes_left_out_is_told(south: float, words: str) -> None:
    """With the T-joints in it."""
    found = told(south, lambda plan: drop(plan, words))
    assert [text.partition(":")[0] for text in found if text.startswith("plane_lap")] == ["plane_lap"]
    assert {text.partition(":")[0] for text in found} <= {"plane_lap", "tjoint"}


def test_texts() -> None:
    """A lap left out, one too wide, a T-joint left out and one too many, as people read them."""
    joint = "/under"

    def one_less(plan: Json) -> None:
        plan["tjoints"].remove(next(one for one in plan["tjoints"] if one["ply"] == "cap" and joint in one["id"]))

    def one_more(plan: Json) -> None:
        found = next(one for one in plan["tjoints"] if one["ply"] == "cap" and joint in one["id"])
        plan["tjoints"].append({**found, "id": "idle", "at": [found["at"][0] + 1.0, found["at"][1]]})

    words = "ridge side 1 1 on Main South 07-2"
    assert told(-1, lambda plan: lap(plan, words).update(width=metres(9))) == [
        f'plane_lap: Lap Main North/cap/07/{words}: width 9", but it is 12"; write what it is.'
    ]
    (found,) = told(-1, one_less)
    said = (
        r"tjoint: The cap on Main North over side 1: lap "
        r"Main South/cap/07/end \d-\d ends in that lap; list the T-joint\."
    )
    assert re.fullmatch(said, found)
    assert told(-1, one_more) == [
        "tjoint: T-joint idle: no lap ends in a lap between planes there; take it out or move it."
    ]
