"""Valley sheets, each way in which one can be wrong, and texts."""

from __future__ import annotations

from dataclasses import replace

import pytest
from handplan import DEPTH, Drawing, Json, judge, metres, write

from lapwright.rulecheck.say import say
from lapwright.units.write import Units

GIVEN = {"valley_back": '0"'}
GOOD = Drawing(valley=((0, 60), (54, DEPTH)), given=GIVEN)


def said(plan: Json, drawing: Drawing = GOOD) -> list[str]:
    """What is said of a plan."""
    return [say(each, Units()) for each in judge(plan, drawing)]


def test_a_narrow_sheet_is_told() -> None:
    """36" instead of 39 3/8"."""
    plan = write(GOOD)
    plan["details"][0]["sizes"]["width"] = metres(36)
    assert said(plan) == ['The base on Main: the valley at side 4 has a sheet 36" wide, needs 39 3/8"; lay a full one.']


def test_a_short_lap_is_told() -> None:
    """The cap's second sheet begins 2" short of where it has to."""
    plan = write(GOOD)
    plan["details"][3]["line"][0] = list(GOOD.place(0, 56))
    assert said(plan) == [
        "The cap on Main: the valley at side 4: Main/side 4/cap valley 2 and Main/side 4/cap valley 1 "
        'lap 4", need 6"; lengthen one.'
    ]


@pytest.mark.parametrize("missing", [0, 1])
def test_a_gap_or_a_missing_end_is_told(missing: int) -> None:
    """Side 4 runs down the fall: without the lower sheet 50 1/4" of 104 1/4" are covered, without the upper none."""
    plan = write(GOOD)
    del plan["details"][missing]
    far = ("4' 2 1/4\"", '0"')[missing]
    assert said(plan) == [
        f"The base on Main: the valley at side 4 has a sheet over {far} of its 8' 8 1/4\"; "
        "lay one from end to end before the courses."
    ]


def test_sheets_of_another_line_or_ply_do_not_count() -> None:
    """A sheet 2" beside the line, and the cap's for the base."""
    plan = write(replace(GOOD, valley=((0, DEPTH),)))
    assert said(plan) == []
    plan["details"][0]["ply"] = "cap"
    assert len(said(plan)) == 1
