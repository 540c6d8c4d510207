"""Taking any one input of the example away makes exactly the checks that read it unknown, or the job is refused."""

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
from lapwright.plan import hourpart
from lapwright.plan.build import make_assembly, make_building
from lapwright.plan.fitness import make_ask
from lapwright.plan.make import lay_paper, plan_days
from lapwright.plan.roofs import build_roofs
from lapwright.plan.workers import Promise
from lapwright.verdict import Check

EXAMPLE = Path(__file__).resolve().parents[2] / "src/lapwright/plan/example/millrace.yaml"
TEXT = EXAMPLE.read_text(encoding="utf-8")
Steps = tuple[str | int, ...]


def tree() -> Any:
    """The example as nested texts."""
    return plain(compose(TEXT, file="millrace.yaml").root)


def leaves(node: Any, path: Steps = ()) -> Iterator[Steps]:
    """Paths of all texts."""
    if isinstance(node, dict):
        for name, value in node.items():
            yield from leaves(value, (*path, name))
    elif isinstance(node, list):
        for place, value in enumerate(node):
            yield from leaves(value, (*path, place))
    else:
        yield path


def words(path: Steps) -> str:
    """A path as faults and checks write it."""
    return "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in path).lstrip(".")


def without(path: Steps) -> Any:
    """The example without one key; a table that it leaves empty goes with it, as a person would take it out."""
    made = tree()
    node = made
    for step in path[:-1]:
        node = node[step]
    del node[path[-1]]
    return made if node or len(path) == 1 else without(path[:-1])


def typed(node: Any, depth: int = 0) -> str:
    """Nested texts as a job file, every text quoted."""
    pad = "  " * depth
    if isinstance(node, dict):
        if not node:
            return " {}\n"
        return "\n" + "".join(f"{pad}{key!r}:{typed(value, depth + 1)}" for key, value in node.items())
    if isinstance(node, list):
        return "\n" + "".join(f"{pad}-{typed(value, depth + 1)}" for value in node)
    return " '" + node.replace("'", "''") + "'\n"


READ_YEAR = hourpart.read_year


@cache
def year() -> Any:
    """The example's weather, read once."""
    job = read_job(TEXT, file="millrace.yaml")
    areas = build_roofs(job, EXAMPLE.parent).areas
    return READ_YEAR(make_ask(job, EXAMPLE.parent, areas, make_assembly(job)))


def checks_of(text: str, patch: pytest.MonkeyPatch) -> tuple[Check, ...]:
    """All checks of a job but those of the layout, whose inputs can't be left out."""
    job: Job = read_job(text, file="millrace.yaml")
    patch.setattr(plan_checks, "layout_checks", lambda *_: ())
    patch.setattr(hourpart, "read_year", lambda ask: year() if ask.year else None)
    roofs = build_roofs(job, EXAMPLE.parent)
    laid = lay_paper(job, roofs, EXAMPLE)
    weather = Promise(lambda: hourpart.judged(make_ask(job, EXAMPLE.parent, roofs.areas, laid.assembly)))
    planned, crew = plan_days(job, laid, weather, lambda _: None)
    return plan_checks.make_checks(job, planned, make_building(job), crew).checks


@cache
def whole() -> tuple[Check, ...]:
    """Checks of the example as it is."""
    with pytest.MonkeyPatch.context() as patch:
        return checks_of(TEXT, patch)


def test_with_every_input_given_no_check_is_unknown() -> None:
    """The example gives everything: nothing is unknown."""
    assert [check.id for check in whole() if check.status == "unknown"] == []


def test_many_keys_are_read_by_checks() -> None:
    """The checks of the example read a good share of its keys, so that the test below has something to bite on."""
    used = {key for check in whole() for key in check.uses}
    paths = {words(path) for path in leaves(tree())}
    assert len(used & paths) >= 40


# The two areas meet at this side, and sides that coincide are one edge: what is taken from one is told by the other.
TOLD_TWICE = ("roof[0].edges[2].kind", "roof[1].edges[0].kind")


@pytest.mark.parametrize("key", TOLD_TWICE)
def test_a_side_that_two_areas_share_needs_its_kind_once(key: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without the kind of a shared side in one of its areas nothing is unknown."""
    path = next(path for path in leaves(tree()) if words(path) == key)
    checks = checks_of(typed(without(path)).lstrip(), monkeypatch)
    assert [check.id for check in checks if check.status == "unknown"] == []


@pytest.mark.parametrize(
    "path", [pytest.param(path, id=words(path)) for path in leaves(tree()) if words(path) not in TOLD_TWICE]
)
def test_exactly_the_readers_turn_unknown(path: Steps, monkeypatch: pytest.MonkeyPatch) -> None:
    """Without one key, the checks that read it are unknown and no other.

    A side whose kind is taken away is asked about by checks that it did not have before.  A key that the layout can't
    do without refuses the job, and no check may claim to read it.
    """
    key = words(path)
    text = typed(without(path)).lstrip()
    readers = {check.id for check in whole() if key in check.uses}
    if is_refused(text):
        assert readers == set()
        return
    unknown = {check.id: check for check in checks_of(text, monkeypatch) if check.status == "unknown"}
    known_before = {check.id for check in whole()}
    asked_anew = {id for id, check in unknown.items() if id not in known_before and key in check.supply}
    assert set(unknown) - asked_anew == readers


def is_refused(text: str) -> bool:
    """The job can't be laid out without this key."""
    try:
        job = read_job(text, file="millrace.yaml")
        build_roofs(job, EXAMPLE.parent)
    except Refused as refused:
        assert refused.faults
        return True
    return False
