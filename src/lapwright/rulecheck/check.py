"""Is a plan right?  Every rule of the layout, judged from the plan alone, by nobody who had a hand in making it.

Answers the checks of "What goes where?" for any plan, ours or one that was changed by hand.  Nothing of the room that
lays out is used here: the frame, the ground, the laps are worked out once more from the job's areas and plies.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace
from itertools import pairwise
from typing import Any

from lapwright.assembly.values import Ply
from lapwright.defaults.values import Rules
from lapwright.roof.values import Area
from lapwright.rulecheck.coverage import coverage_violations, overhang_violations, run_violations
from lapwright.rulecheck.cutting import roll_violations
from lapwright.rulecheck.detailjoints import detail_joint_violations, detail_lap_ids
from lapwright.rulecheck.detaillaps import detail_lap_violations
from lapwright.rulecheck.details import (
    fixing_violations,
    girth_violations,
    is_detailed,
    name_violations,
    row_violations,
    rows_of,
    size_violations,
)
from lapwright.rulecheck.edgeworks import joint_violations
from lapwright.rulecheck.edgeworks import stagger_violations as flashing_stagger
from lapwright.rulecheck.endlaps import (
    end_lap_ply_violations,
    end_lap_violations,
    opening_violations,
    shortest_violations,
    stagger_violations,
)
from lapwright.rulecheck.feet import foot_violations
from lapwright.rulecheck.ground import ground_of
from lapwright.rulecheck.ids import count_violations, id_violations, job_violations, reference_violations
from lapwright.rulecheck.keepclear import end_lap_drain_violations, end_lap_valley_violations
from lapwright.rulecheck.laplist import LapBook, corner_cut_violations, lap_violations, tjoint_violations
from lapwright.rulecheck.lie import Bed, PlyLie
from lapwright.rulecheck.limits import Limits, limits_of, metres
from lapwright.rulecheck.names import RULES
from lapwright.rulecheck.patches import patch_violations
from lapwright.rulecheck.planelaps import plane_lap_ids, plane_lap_violations
from lapwright.rulecheck.read import GivenPlan, read_plan
from lapwright.rulecheck.sequence import order_violations, ply_order_violations, weather_lap_violations
from lapwright.rulecheck.shape import blank_violations, course_violations, length_violations, width_violations
from lapwright.rulecheck.sidelaps import ply_offset_violations, side_lap_violations, wide_lap_violations
from lapwright.rulecheck.slope import slope_of
from lapwright.rulecheck.valleys import valley_violations
from lapwright.rulecheck.values import Violation

OF_A_PLY = (
    blank_violations,
    course_violations,
    coverage_violations,
    overhang_violations,
    run_violations,
    opening_violations,
    side_lap_violations,
    wide_lap_violations,
    end_lap_violations,
    stagger_violations,
    end_lap_drain_violations,
    end_lap_valley_violations,
    shortest_violations,
    length_violations,
    width_violations,
    weather_lap_violations,
)
OF_TWO_PLIES = (ply_offset_violations, end_lap_ply_violations, ply_order_violations)
OF_LISTS = (lap_violations, tjoint_violations, corner_cut_violations)


def find_violations(
    plan: Mapping[str, Any], *, areas: Sequence[Area], plies: Sequence[Ply], rules: Rules
) -> tuple[Violation, ...]:
    """Every broken rule of a plan, rule by rule in the order of `rule_names`.

    Args:
        plan: what plan.json holds, SI; hand-edited perhaps.
        areas, plies, rules: of the job that the plan is for; plies bottom first.

    Holds for: outlines that do not cross themselves; courses across the fall, or with it from strap_at on.
    Raises: Unreadable where a part that is judged is missing or not of its kind.
    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_broken.py
    """
    given = read_plan(plan)
    limits = limits_of(rules)
    lies = _lies(given, areas, plies, limits)
    books, across = _books(given, lies)
    found = [*job_violations(given, areas, plies, limits), *id_violations(given, lies), *reference_violations(given)]
    for lie in lies:
        found += [one for judge in OF_A_PLY for one in judge(lie)]
    for under, lie in _one_over_the_other(lies):
        found += [one for judge in OF_TWO_PLIES for one in judge(lie, under)]
    for book in books:
        found += [one for judge in OF_LISTS for one in judge(book)]
    found += [*plane_lap_violations(without_details(given), lies, across), *valley_violations(given, lies)]
    found += [*detail_violations(given, areas, plies, rules, limits, (books, across)), *order_violations(lies)]
    found += [*roll_violations(given, lies, plies, limits), *count_violations(given, books)]
    place = {rule: number for number, rule in enumerate(RULES)}
    return tuple(sorted(found, key=lambda one: place[one.rule]))


def without_details(given: GivenPlan) -> GivenPlan:
    """A plan without the T-joints of its details.

    Source: docs/method/rulecheck.md
    """
    ours = detail_lap_ids(given)
    return replace(given, tjoints=tuple(joint for joint in given.tjoints if not ours.intersection(joint.laps)))


def detail_violations(
    given: GivenPlan,
    areas: Sequence[Area],
    plies: Sequence[Ply],
    rules: Rules,
    limits: Limits,
    listed: tuple[Sequence[LapBook], frozenset[str]],
) -> Iterator[Violation]:
    """Everything about details, where the plan gives them their places and sizes.

    listed: the laps of each ply, and the ids of those between planes.
    Source: docs/method/rulecheck.md
    Checked: tests/rulecheck/test_details.py
    """
    if not is_detailed(given):
        return
    books, across = listed
    rows, cant = rows_of(given, areas, plies, limits), metres(rules.cant_ticks)
    yield from name_violations(given, areas)
    for row in rows:
        yield from row_violations(row, limits)
        yield from girth_violations(row, limits, rules.flashing_height, cant)
    yield from fixing_violations(given, rows, limits, cant)
    yield from joint_violations(given, areas, plies, limits)
    yield from flashing_stagger(given, rows, plies, metres(rules.flashing_lap_stagger_ticks))
    yield from patch_violations(given, areas, plies, limits)
    yield from size_violations(given, plies, rows, limits)
    yield from detail_lap_violations(given, plies, rows, limits)
    yield from foot_violations(given, plies, rows, books, limits)
    yield from detail_joint_violations(given, areas, plies, rows, books, across, limits)


def _lies(given: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], limits: Limits) -> list[PlyLie]:
    """Each ply of the job on each area, as the plan has it; what the plan does not have is left out."""
    listed = frozenset(frozenset(lap.pieces) for lap in given.laps if lap.kind == "end")
    found = []
    for area in areas:
        slope = slope_of(area, limits)
        for place, ply in enumerate(plies, start=1):
            told = [one for one in given.plies if (one.area, one.ply) == (area.name, ply.ply)]
            if told:
                is_cap, is_under_cap = place == len(plies), place == len(plies) - 1
                ground = ground_of(area, slope, limits, is_cap=is_cap, is_under_cap=is_under_cap)
                found.append(PlyLie(Bed(area, ply, slope, ground, limits, is_cap), told[0], listed))
    return found


def _books(given: GivenPlan, lies: Sequence[PlyLie]) -> tuple[list[LapBook], frozenset[str]]:
    """The laps and T-joints of each ply within its area, and the ids of the laps between planes."""
    across = plane_lap_ids(given)
    others = across | detail_lap_ids(given)
    laps = [lap for lap in given.laps if lap.id not in across]
    joints = [joint for joint in given.tjoints if not others.intersection(joint.laps)]
    return [LapBook(lie, laps, joints) for lie in lies], across


def _one_over_the_other(lies: Sequence[PlyLie]) -> Iterator[tuple[PlyLie, PlyLie]]:
    """Each ply with the next one over it on the same area."""
    return ((under, over) for under, over in pairwise(lies) if under.area is over.area)
