"""Taking any one input of the job with a courtyard away turns exactly the checks that read it unknown (Q3, Q4).

It has what the bundled example lacks: drains, overflow scuppers, a nailed base, boards held by zone, two heights.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from lapwright.faults import Refused
from lapwright.job.composing import compose
from lapwright.job.models import Job
from lapwright.job.reading import read_job
from lapwright.job.tree import plain
from lapwright.plan import checks as plan_checks
from lapwright.plan.build import make_assembly, make_building
from lapwright.plan.roofs import build_roofs
from lapwright.verdict import Check

JOB = Path(__file__).resolve().parents[2] / "examples/cloister-wing.yaml"
TEXT = JOB.read_text(encoding="utf-8")
READ_HERE = (
    "site",
    "building",
    "work",
    "edges",
    "drains",
    "openings",
    "slope",
    "falls",
    "assembly",
    "modulus",
    "expans",
)
# An area without a height of its own has the building's: its checks are then those of one level.
HAS_A_DEFAULT = ("roof[1].roof_height",)
Steps = tuple[str | int, ...]


def leaves(node: Any, path: Steps = ()) -> Iterator[Steps]:
    """Paths of all texts."""
    if isinstance(node, (dict, list)):
        for name, value in node.items() if isinstance(node, dict) else enumerate(node):
            yield from leaves(value, (*path, name))
    else:
        yield path


def words(path: Steps) -> str:
    """A path as faults and checks write it."""
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(".")


def tree() -> Any:
    """The job as nested texts."""
    return plain(compose(TEXT, file=JOB.name).root)


def flow(node: Any) -> str:
    """Nested texts in one line, every text quoted."""
    if isinstance(node, dict):
        return "{" + ", ".join(f"{flow(key)}: {flow(value)}" for key, value in node.items()) + "}"
    if isinstance(node, list):
        return "[" + ", ".join(map(flow, node)) + "]"
    return "'" + node.replace("'", "''") + "'"


def without(path: Steps) -> str:
    """The job file without one key; a table that it leaves empty goes with it."""
    made = node = tree()
    for step in path[:-1]:
        node = node[step]
    del node[path[-1]]
    if not node and len(path) > 1:
        return without(path[:-1])
    return "\n".join(f"{key}: {flow(value)}" for key, value in made.items()) + "\n"


def checks_of(text: str) -> tuple[Check, ...]:
    """The checks of wind, fastening, drainage and deck; nothing is laid out.

    Raises: Refused
    """
    job: Job = read_job(text, file=JOB.name)
    areas, assembly, building = build_roofs(job, JOB.parent).areas, make_assembly(job), make_building(job)
    return (
        *plan_checks.check_uplift(areas, building, assembly),
        *plan_checks.check_edge_metal(areas, building),
        *plan_checks.check_edge_tests(areas, building),
        *plan_checks.check_cold_pull(areas, assembly),
        *plan_checks.check_base_nails(areas, building, assembly),
        *plan_checks.check_boards(areas, building, assembly),
        *plan_checks.check_slope(areas, work=job.work),
        *plan_checks.check_places(areas),
        *plan_checks.check_drainage(areas, rain_primary=job.site.rain_primary),
        *plan_checks.check_overflow(areas, job.rules, rain_secondary=job.site.rain_secondary),
        *plan_checks.check_pallets(assembly.deck, tuple(ply.sheet for ply in assembly.plies)),
        *plan_checks.check_flashing_heights(areas, job.rules),
    )


@cache
def whole() -> tuple[Check, ...]:
    """The checks of the job as it is."""
    return checks_of(TEXT)


def test_with_every_input_given_no_check_of_structure_is_unknown() -> None:
    """The job gives everything."""
    assert len(whole()) >= 40
    assert {check.status for check in whole()} == {"pass"}


PATHS = [path for path in leaves(tree()) if any(word in words(path) for word in READ_HERE)]


@pytest.mark.parametrize(
    "path", [pytest.param(path, id=words(path)) for path in PATHS if words(path) not in HAS_A_DEFAULT]
)
def test_exactly_the_checks_that_read_it_turn_unknown(path: Steps) -> None:
    """Without one key its readers are unknown, none of them vanishes, and no other check changes its mind for it."""
    readers = {check.id for check in whole() if words(path) in check.uses}
    try:
        found = checks_of(without(path))
    except Refused:
        assert readers == set()
        return
    known = {check.id for check in whole()}
    assert known <= {check.id for check in found}
    assert {check.id for check in found if check.status == "unknown" and check.id in known} == readers
