"""Plans that people or programs spoiled: always violations or a refusal with its path, never anything else."""

from __future__ import annotations

import copy
from collections.abc import Iterator
from typing import Any

import pytest
from handplan import Drawing, Json, judge, write
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.rulecheck.say import say
from lapwright.rulecheck.values import Unreadable
from lapwright.units.write import Units

GOOD = write(Drawing())
JUNK = [
    None,
    True,
    "",
    "x",
    [],
    {},
    [[]],
    float("nan"),
    float("inf"),
    -1,
    0,
    0.5,
    10**400,
    1e300,
    -1e-9,
    [1, 2, 3],
    "1",
]


def paths(value: Any, path: tuple[Any, ...] = ()) -> Iterator[tuple[Any, ...]]:
    """Every place in a plan."""
    items = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, below in items:
        yield (*path, key)
        yield from paths(below, (*path, key))


PATHS = list(paths(GOOD))


def spoiled(path: tuple[Any, ...], junk: Any) -> Json:
    """The good plan with something else in one place."""
    plan = copy.deepcopy(GOOD)
    place: Any = plan
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = junk
    return plan


def is_judged(plan: Any) -> bool:
    """The checker answers: violations that can be told, or a refusal that names a path."""
    try:
        return all(say(found, units) for found in judge(plan, Drawing()) for units in (Units(), Units("metric")))
    except Unreadable as found:
        return bool(found.needs) and f"{found.path}: needs {found.needs}" == str(found)


@settings(max_examples=300, deadline=None)
@given(st.sampled_from(PATHS), st.sampled_from(JUNK))
def test_junk_anywhere_is_answered(path: tuple[Any, ...], junk: Any) -> None:
    """Any value put in any place gives violations or a refusal."""
    assert is_judged(spoiled(path, junk))


@settings(max_examples=100, deadline=None)
@given(st.sampled_from(PATHS), st.sampled_from(PATHS), st.sampled_from(JUNK))
def test_a_key_left_out_is_answered(path: tuple[Any, ...], other: tuple[Any, ...], junk: Any) -> None:
    """Any key or item taken out, after something else was spoiled, gives violations or a refusal."""
    plan = spoiled(other, junk)
    place: Any = plan
    for key in path[:-1]:
        place = place[key] if (key in place if isinstance(place, dict) else isinstance(place, list)) else None
        if not isinstance(place, dict | list):
            return
    if isinstance(place, dict):
        place.pop(path[-1], None)
    elif path[-1] < len(place):
        del place[path[-1]]
    assert is_judged(plan)


@settings(max_examples=100, deadline=None)
@given(st.recursive(st.sampled_from(JUNK), lambda inner: st.lists(inner, max_size=3) | st.dictionaries(
    st.sampled_from(list(GOOD)), inner, max_size=7), max_leaves=10))  # fmt: skip
def test_anything_at_all_is_answered(plan: Any) -> None:
    """What is no plan is refused."""
    assert is_judged(plan)


def at(plan: Any, path: tuple[Any, ...]) -> Any:
    """What stands in a place of a plan."""
    for key in path:
        plan = plan[key]
    return plan


LENGTHS = [path for path in PATHS if isinstance(at(GOOD, path), float)]
LISTED = [path for path in PATHS if isinstance(path[-1], int) and isinstance(at(GOOD, path), dict)]


@settings(max_examples=200, deadline=None, derandomize=True)
@given(st.sampled_from(LENGTHS), st.sampled_from([0.02, -0.02]))
def test_any_length_changed_by_20_mm_is_noticed(path: tuple[Any, ...], by: float) -> None:
    """No number of metres in a right plan can be another without a rule being broken."""
    assert judge(spoiled(path, at(GOOD, path) + by), Drawing()) != ()


@settings(max_examples=150, deadline=None, derandomize=True)
@given(st.sampled_from(LISTED))
def test_anything_taken_out_is_noticed(path: tuple[Any, ...]) -> None:
    """No area, ply, course, piece, corner cut, lap, T-joint, roll or count can be missing."""
    plan = copy.deepcopy(GOOD)
    del at(plan, path[:-1])[path[-1]]
    assert judge(plan, Drawing()) != ()


@pytest.mark.parametrize(
    ("path", "junk", "told"),
    [
        (("plies",), None, "plies: needs a list"),
        (("plies", 0), 7, "plies[0]: needs an object"),
        (("plies", 1, "pieces", 0, "blank", 2, 1), "far", "plies[1].pieces[0].blank[2][1]: needs a number of metres"),
        (("plies", 1, "pieces", 0, "blank"), [[0, 0]], "plies[1].pieces[0].blank: needs a list of 4"),
        (
            ("plies", 1, "pieces", 0, "length"),
            float("nan"),
            "plies[1].pieces[0].length: needs a number of metres, finite and below 1,000 km",
        ),
        (
            ("rolls", 0, "used"),
            10**400,
            "rolls[0].used: needs a number of metres, finite and below 1,000 km",
        ),
        (("plies", 1, "courses", 0, "index"), 1.5, "plies[1].courses[0].index: needs a whole number"),
        (("laps", 3, "pieces"), ["one"], "laps[3].pieces: needs a list of 2"),
        (("layout", 0, "end_laps"), None, "layout[0].end_laps: needs a whole number"),
        (("rolls", 0, "sheet"), 4, "rolls[0].sheet: needs a text"),
    ],
)
def test_a_refusal_names_the_path(path: tuple[Any, ...], junk: Any, told: str) -> None:
    """Where it stands and what is needed there, word for word."""
    with pytest.raises(Unreadable) as found:
        judge(spoiled(path, junk), Drawing())
    assert str(found.value) == told


def test_a_missing_key_is_told_by_its_path() -> None:
    """The key that is not there is named."""
    plan = copy.deepcopy(GOOD)
    del plan["plies"][0]["pieces"][1]["roll"]
    with pytest.raises(Unreadable, match=r"^plies\[0\]\.pieces\[1\]\.roll: needs a value; the key is missing$"):
        judge(plan, Drawing())


def test_an_empty_plan_lacks_its_plies() -> None:
    """A plan without areas, plies and lists is told to lack them, once each."""
    empty = {key: [] for key in GOOD}
    assert [each.rule for each in judge(empty, Drawing())] == ["area"] * 3
