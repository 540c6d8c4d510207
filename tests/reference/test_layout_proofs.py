"""Where our bound on end laps is under what we lay, the solver proves that no layout has fewer."""

from __future__ import annotations

import pytest
from layout_ask import AIMS
from layout_model import Limit, solve
from layout_ours import Case, ask, lay, plan_of, rectangle, seeded_case

ROOFS = {
    # of three courses beside and on one another each pair leaves room, but a chain of them does not
    "92' 10\" below 110'": seeded_case(75),
    "59' 9\" below 29' 10\"": seeded_case(111),
    # ten courses with the fewest pieces, whose joints have to follow those of the other ply at one distance
    "156' 1\" of five courses": rectangle(156 + 1 / 12, 4.1),
}


@pytest.mark.parametrize("case", ROOFS.values(), ids=ROOFS)
def test_no_layout_has_fewer_end_laps(case: Case) -> None:
    """The solver, free in course lines and joints, proves our number the least within its limit."""
    roof, unit = ask(case)
    plan = plan_of(lay(case, "fewest_laps"), unit)
    answer = solve(roof, "fewest_laps", Limit(deterministic=60.0), plan)
    assert answer.is_proven
    assert answer.worth == AIMS["fewest_laps"](roof, plan)
