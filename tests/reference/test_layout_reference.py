"""Our layout beside the best that a solver finds when it lays the same roof freely."""

from __future__ import annotations

from functools import cache

import pytest
from layout_ask import AIMS, Plan, RoofAsk, broken, tally
from layout_judge import violations
from layout_model import Answer, Limit, solve
from layout_ours import CENTS, ask, lay, plan_of, seeded_case

from lapwright.layout.values import Layout, PlyLayout

SEEDS = range(20)
SHORT = Limit(deterministic=0.5)  # a better plan is looked for, not proven
COUNTED = ("fewest_rolls", "fewest_laps")
BRIEF = 0.05  # share of the search where rules and bounds are asked, which hold however long we look


@cache
def asked(seed: int) -> tuple[RoofAsk, int]:
    """The roof of a seed given plainly, and its unit."""
    return ask(seeded_case(seed))


@cache
def ours(seed: int, aim: str) -> Layout:
    """Our layout of the roof of a seed, by the whole search where its cost is judged."""
    return lay(seeded_case(seed), aim, 1.0 if aim == "least_cost" and seed % 2 == 0 else BRIEF)


@cache
def solved(seed: int, aim: str) -> tuple[Answer, Plan]:
    """What the solver finds, starting from our layout, and its plan."""
    roof, unit = asked(seed)
    answer = solve(roof, aim, SHORT, plan_of(ours(seed, aim), unit))
    assert answer.plan is not None
    return answer, answer.plan


def one(plan: Plan, roof: RoofAsk, ply: PlyLayout) -> tuple[int, int]:
    """Rolls of a ply's sheet and end laps of the ply in a plan."""
    counts = dict(tally(roof, plan).rolls)
    laps = sum(len(course.pieces) - 1 for course in plan[ply.position - 1])
    return counts[ply.sheet], laps


@pytest.mark.parametrize("seed", SEEDS)
def test_our_layout_keeps_the_rules_as_the_reference_reads_them(seed: int) -> None:
    """What we lay could have been laid by the solver: both are under the same rules, whatever the aim."""
    roof, unit = asked(seed)
    assert {aim: broken(roof, plan_of(ours(seed, aim), unit)) for aim in AIMS} == {aim: [] for aim in AIMS}


@pytest.mark.parametrize("seed", (169, 209, 1048, 1058, 1104, 1161, 1172, 1261))
def test_a_short_slope_that_the_solver_can_lay_is_not_refused(seed: int) -> None:
    """The solver found plans for these; what we lay keeps the rules as the checker reads them."""
    plan = plan_of(ours(seed, "fewest_laps"), asked(seed)[1])
    assert violations(seeded_case(seed), plan, asked(seed)[1]) == []


@pytest.mark.parametrize("aim", COUNTED)
@pytest.mark.parametrize("seed", SEEDS)
def test_what_the_solver_lays_keeps_the_rules_as_the_checker_reads_them(seed: int, aim: str) -> None:
    """A plan of the solver's is a plan that can be laid: the rule checker finds nothing in it."""
    _, plan = solved(seed, aim)
    assert violations(seeded_case(seed), plan, asked(seed)[1]) == []


@pytest.mark.parametrize("aim", COUNTED)
@pytest.mark.parametrize("seed", SEEDS)
def test_no_plan_has_less_than_our_bounds(seed: int, aim: str) -> None:
    """A plan with fewer rolls or end laps than a bound of ours, by anybody, would make the bound wrong."""
    roof, _ = asked(seed)
    layout, (answer, plan) = ours(seed, aim), solved(seed, aim)
    for ply in layout.plies:
        rolls, laps = one(plan, roof, ply)
        assert laps >= ply.end_laps_at_least
        assert ply.end_laps >= ply.end_laps_at_least
        assert ply.rolls >= ply.rolls_at_least
        assert rolls >= ply.rolls_at_least or aim == "fewest_laps" or any(one.takes_ticks for one in layout.details)
    assert answer.worth is not None
    assert answer.worth <= AIMS[aim](roof, plan_of(layout, asked(seed)[1]))


@pytest.mark.parametrize("aim", AIMS)
@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed % 2 == 0])
def test_no_plan_is_below_what_all_plies_need_together(seed: int, aim: str) -> None:
    """Rolls, end laps and money of the solver's plan are no less than our bounds over the job, sides without details.

    The plan may lap side laps wider than asked, and pieces too.
    """
    roof, _ = asked(seed)
    layout = ours(seed, aim)
    bounds = {
        "fewest_rolls": layout.rolls_at_least,
        "fewest_laps": layout.end_laps_at_least,
        "least_cost": layout.cost_at_least * CENTS,
    }
    answer, _ = solved(seed, aim)
    assert answer.worth is not None
    assert answer.worth >= bounds[aim] - 0.01
    assert AIMS[aim](roof, plan_of(layout, asked(seed)[1])) >= bounds[aim] - 0.01


@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed % 2 == 0])
def test_no_plan_has_fewer_rolls_of_a_sheet_than_our_bound(seed: int) -> None:
    """Where there are no details and all rolls are for plies, the bound of each sheet holds for the solver's plan."""
    roof, _ = asked(seed)
    layout = ours(seed, "fewest_rolls")
    assert [detail.id for detail in layout.details if detail.takes_ticks] == []
    _, plan = solved(seed, "fewest_rolls")
    counts = dict(tally(roof, plan).rolls)
    assert {sheet: counts[sheet] >= least for sheet, least in layout.sheet_rolls_at_least.items()} == dict.fromkeys(
        counts, True
    )


@pytest.mark.parametrize("seed", [seed for seed in SEEDS if seed % 2 == 0])
def test_the_solver_betters_our_cost_by_a_hundredth_at_most(seed: int) -> None:
    """Beginning from our layout, with end laps and side laps under the cap as wide as it likes, without details.

    Plies come closer beside a ripped top only where ours must: elsewhere the rules do not allow it.
    """
    layout = ours(seed, "least_cost")
    is_eased = any(ply.exceptions for ply in layout.plies)
    roof, unit = ask(seeded_case(seed), is_eased=is_eased)
    plan = plan_of(layout, unit)
    answer = solve(roof, "least_cost", SHORT, plan)
    assert answer.worth is not None
    assert AIMS["least_cost"](roof, plan) <= 1.01 * answer.worth
