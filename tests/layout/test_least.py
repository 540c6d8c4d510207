"""Bounds over a job: what is shared between plies and areas, and what details need, by pencil."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from roofs import BASE, CAP, FOOT, THREE_PLIES, TWO_PLIES, inches
from test_sections import region

from lapwright.assembly.values import Assembly
from lapwright.defaults.rules import make_rules
from lapwright.layout.bounds import ply_bound
from lapwright.layout.cost import Costs
from lapwright.layout.least import (
    AreaNeed,
    JobLeast,
    Rolls,
    covers,
    dearer,
    first_rip,
    job_least,
    own_work,
    rips,
    whole_cost,
)
from lapwright.layout.region import Region
from lapwright.layout.values import Detail

RULES = make_rules({})
SQUARE = region([(0, 0), (30, 0), (30, 3), (0, 3)])


def needs(grounds: Sequence[Region], assembly: Assembly) -> list[AreaNeed]:
    """Areas whose plies all have the same ground."""
    return [
        AreaNeed(
            str(k), [ground] * len(assembly.plies), [ply_bound(ground, ply.sheet, RULES) for ply in assembly.plies]
        )
        for k, ground in enumerate(grounds)
    ]


def least(grounds: Sequence[Region], assembly: Assembly = TWO_PLIES, details: Sequence[Detail] = ()) -> JobLeast:
    """The bounds of a job."""
    return job_least(needs(grounds, assembly), assembly, RULES, Costs(), details)


def patch(kind: str, length: float, width: float) -> Detail:
    """A detail of the base sheet [m]."""
    return Detail("d", kind, "0", "side 1", "base-sa", "base", length, width)


def test_one_low_area() -> None:
    """30' by 3': a course of each ply, a roll of each: 240 of money; both are cut, 1 and 3 for the length each.

    3' are no full sheet of the cap, whose rip is 10; the base could lie as it comes, were the ground any wider.
    """
    found = least([SQUARE])
    assert (found.ply_rolls, found.rolls, found.end_laps, found.cost) == ((1, 1), 2, 0, 258)


def test_areas_share_rolls() -> None:
    """Two such areas: two courses of 360" of base fit one roll of 787"; caps of 366" do not fit one of 394".

    The second area's plies could be cut from what was opened for the first.
    """
    found = least([SQUARE, SQUARE])
    assert found.sheet_rolls == {"base-sa": 1, "cap-sa": 2}
    assert found.ply_rolls == (1, 1, 0, 0)


def test_plies_share_rolls() -> None:
    """Base and interply are of one sheet: 2 * 360" fit one roll; the interply opens none for itself."""
    found = least([SQUARE], THREE_PLIES)
    assert found.sheet_rolls == {"base-sa": 1, "cap-sa": 1}
    assert found.ply_rolls == (1, 0, 1)


def test_details_are_cut_from_the_sheet_too() -> None:
    """90 sq ft of ground and patches of 130 sq ft more than fill a base roll of 39 3/8" by 65' 7", 215.2 sq ft."""
    foot = 0.3048
    gusset = patch("gusset", 13 * foot, 10 * foot)
    assert least([SQUARE]).sheet_rolls["base-sa"] == 1
    assert least([SQUARE], details=[gusset]).sheet_rolls["base-sa"] == 2


@pytest.mark.parametrize(
    ("kind", "square_metres"), [("gusset", 10.0), ("flashing", 9.5), ("strip", 9.0), ("tie_in", 9.0)]
)
def test_laps_of_details_do_not_count(kind: str, square_metres: float) -> None:
    """5 m by 2 m, side laps 0.1 m, end laps 0.5 m: a gusset counts whole, a flashing laps across, a strip along."""
    assert covers(patch(kind, 5.0, 2.0), 0.1, 0.5) == pytest.approx(square_metres)


def test_the_sum_of_sheets_is_no_more_than_all_rolls() -> None:
    """97' by 109": each ply by itself could have three courses, 9 and 5 rolls; together they need 15."""
    found = least([region([(0, 0), (97, 0), (97, 9), (0, 9)])])
    assert sum(found.sheet_rolls.values()) <= found.rolls
    assert inches(109) > 9 * FOOT
    assert {BASE.name, CAP.name} == set(found.sheet_rolls)


def test_work_of_ground_with_an_opening() -> None:
    """97' by 12' with a curb: 2 + 3 + 2 + 3 laps in each ply, since neighbours can't both have three pieces.

    A T-joint at either end of the two at the third level; the base's pieces are cut: 10 laps and 4 courses.
    With an end lap at 4, a T-joint at 2, a cut at 1 each.
    """
    ground = region([(0, 0), (97, 0), (97, 12), (0, 12)], [(96, 11), (96.5, 11), (96.5, 11.5), (96, 11.5)])
    (need,) = needs([ground], TWO_PLIES)
    laps = sum(bound.end_laps for bound in need.bounds)
    joints = sum(bound.t_joints for bound in need.bounds)
    pieces = need.bounds[0].end_laps + 4
    assert own_work(need, laps, TWO_PLIES, RULES, Costs())[0] == 4 * laps + 2 * joints + pieces
    assert own_work(need, laps + 3, TWO_PLIES, RULES, Costs())[0] == 4 * (laps + 3) + 2 * joints + pieces
    assert (laps, joints, pieces) == (20, 8, 14)


def test_work_counts_where_too_little_is_known_of_all_plies_together() -> None:
    """46' by 10.5', 67' by 16.7', 50' by 20.7' with a step on either side, three plies: rolls alone were counted.

    Whatever else a layout costs, it has so many rolls at 120 and so many end laps at 4.
    """
    ground = region(
        [(0, 0), (46, 0), (46, 10.5), (67, 10.5), (67, 27), (50, 27), (50, 48), (-6, 48), (-6, 25), (0, 25)]
    )
    found = least([ground], THREE_PLIES)
    assert found.end_laps > 40
    assert found.cost >= 120 * found.rolls + 4 * found.end_laps


def test_rolls_keep_their_weighed_sums() -> None:
    """10 and 19 rolls keep a sum of 28.72 but not 2 * 10 + 19 = 39.29: one more of either does, the cheaper counts."""
    counts = {"base-sa": 10, "cap-sa": 19}
    weighed = Rolls({}, (({"base-sa": 1.0, "cap-sa": 1.0}, 28.72), ({"base-sa": 2.0, "cap-sa": 1.0}, 39.29)))
    assert dearer(counts, weighed, {"base-sa": 1.0, "cap-sa": 1.0}) == 30
    assert dearer(counts, weighed, {"base-sa": 100.0, "cap-sa": 7.0}) == 1000 + 20 * 7
    assert dearer(counts, weighed, {"base-sa": 7.0, "cap-sa": 100.0}) == 77 + 1900


def test_of_each_share_the_rest_of_the_rolls_is_paid_whole() -> None:
    """1000 of rolls and 50 of work, or three quarters of 1000 and 310 of work and a quarter of what is used."""
    assert whole_cost(1000.0, [(50.0, 90.0, 310.0, 900.0)]) == 1060
    assert whole_cost(1000.0, [(25.0, 0.0, 0.0, 0.0), (50.0, 0.0, 0.0, 0.0)]) == 1075


@pytest.mark.parametrize(("surfacing", "money"), [(None, 10), ("granules", 10), ("film", 0)])
def test_only_granules_ask_for_a_rip(surfacing: str | None, money: int) -> None:
    """A cap of another surfacing may lap wider, so that full sheets reach any edge."""
    base, cap = TWO_PLIES.plies
    assembly = Assembly((base, replace(cap, sheet=replace(cap.sheet, surfacing=surfacing))))
    (need,) = needs([region([(0, 0), (30, 0), (30, 30), (0, 30)])], assembly)
    assert first_rip(need, assembly, Costs()) == money


def test_a_ply_under_the_cap_is_ripped_too_where_lines_ask_for_it() -> None:
    """30' up the cap's top is 32 5/8" wide; a whole sheet of the base there would begin 6 3/4" under its line."""
    (need,) = needs([region([(0, 0), (30, 0), (30, 30), (0, 30)])], TWO_PLIES)
    assert rips(need, TWO_PLIES, RULES, Costs()) == 2 * 10
