"""Edits from JSON: what they are made of, what is refused, and that all are made or none."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.faults import Refused
from lapwright.plan.desk.edits import AddItem, DropValue, MoveItem, SetText, SetValue, apply
from lapwright.plan.desk.editsjson import edits_from

TEXT = "a: 1\nb: [x, y]  # kept\n"


def refusals(body: object) -> list[tuple[str, str, str]]:
    """Key, what was read and what is needed of each fault."""
    with pytest.raises(Refused) as refused:
        edits_from(body)
    return [(fault.key, fault.read, fault.needs) for fault in refused.value.faults]


def test_each_kind_of_edit() -> None:
    """By its name and its keys."""
    body: list[dict[str, Any]] = [
        {"edit": "set", "path": "roof[0].slope", "value": "2 %"},
        {"edit": "drop", "path": "crew.start"},
        {"edit": "add", "path": "roof", "values": {"area": "Main", "outline": [["0'", "0'"]]}},
        {"edit": "move", "path": "roof[1]", "to": 0},
        {"edit": "text", "text": "a: {"},
    ]
    assert edits_from(body) == (
        SetValue("roof[0].slope", "2 %"),
        DropValue("crew.start"),
        AddItem("roof", {"area": "Main", "outline": (("0'", "0'"),)}),
        MoveItem("roof[1]", 0),
        SetText("a: {"),
    )


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ({}, ("", "a table", "a list of at most 200 edits")),
        ([1] * 201, ("", "a list of 201", "a list of at most 200 edits")),
        ([None], ("[0]", "null", "a table with edit and path")),
        ([{"edit": "sett"}], ("[0].edit", "sett", "one of set, drop, add, move, text")),
        ([{"edit": ["set"]}], ("[0].edit", "a list", "one of set, drop, add, move, text")),
        ([{"edit": "drop"}], ("[0]", "", "the key path")),
        ([{"edit": "drop", "path": "a", "to": 1}], ("[0]", "to", "the keys edit, path")),
        ([{"edit": "drop", "path": "a["}], ("[0].path", "a[", "the path of a key, as faults show it")),
        ([{"edit": "drop", "path": ""}], ("[0].path", "", "the path of a key, as faults show it")),
        (
            [{"edit": "drop", "path": "a" * 1001}],
            ("[0].path", "1,001 characters", "a text of at most 1,000 characters"),
        ),
        (
            [{"edit": "set", "path": "a", "value": "x" * 10_001}],
            ("[0].value", "10,001 characters", "a text of at most 10,000 characters"),
        ),
        ([{"edit": "set", "path": "a", "value": 2.5}], ("[0].value", "2.5", "a text of at most 10,000 characters")),
        ([{"edit": "set", "path": "a", "value": True}], ("[0].value", "true", "a text of at most 10,000 characters")),
        ([{"edit": "move", "path": "a", "to": "1"}], ("[0].to", "a text", "a whole number from 0")),
        ([{"edit": "move", "path": "a", "to": True}], ("[0].to", "true", "a whole number from 0")),
        ([{"edit": "move", "path": "a", "to": -1}], ("[0].to", "-1", "a whole number from 0")),
        (
            [{"edit": "add", "path": "a", "values": {"b": ["x", {"c": 5}]}}],
            ("[0].values.b[1].c", "5", "texts of at most 10,000 characters, in tables and lists"),
        ),
        (
            [{"edit": "add", "path": "a", "values": ["x"] * 5_000}],
            ("[0].values", "", "at most 5,000 values in all edits, 20 deep"),
        ),
        (
            [{"edit": "text", "text": "x" * 1_000_001}],
            ("[0].text", "1,000,001 characters", "a text of at most 1,000,000 characters"),
        ),
    ],
)
def test_odd_shapes_and_sizes_are_refused(body: object, told: tuple[str, str, str]) -> None:
    """With where, what was read and what is needed."""
    assert refusals(body) == [told]


def test_every_odd_edit_is_told() -> None:
    """Not the first alone."""
    assert [key for key, _, _ in refusals([1, {"edit": "drop", "path": "a"}, {}])] == ["[0]", "[2].edit"]


def test_values_far_too_deep_are_refused() -> None:
    """Before anything runs out of room."""
    values: Any = "x"
    for _ in range(400):
        values = [values]
    assert refusals([{"edit": "add", "path": "a", "values": values}]) == [
        ("[0].values", "", "at most 5,000 values in all edits, 20 deep")
    ]


ANY = st.recursive(
    st.one_of(st.none(), st.booleans(), st.integers(), st.floats(), st.text(max_size=5)),
    lambda below: st.one_of(
        st.lists(below, max_size=3),
        st.dictionaries(st.sampled_from(["edit", "path", "value", "values", "to", "text"]), below, max_size=4),
        st.fixed_dictionaries(
            {"edit": st.sampled_from(["set", "drop", "add", "move", "text"]), "path": st.sampled_from(["a", "b[1]"])},
            optional={"value": below, "values": below, "to": below},
        ),
    ),
    max_leaves=12,
)


@given(st.lists(ANY, max_size=4))
def test_any_json_is_taken_or_refused(body: list[Any]) -> None:
    """And what is taken leaves a text, or is refused."""
    try:
        edits = edits_from(body)
        after = apply(TEXT, edits, "j")
    except Refused as refused:
        assert refused.faults
    else:
        assert len(edits) == len(body)
        assert isinstance(after, str)


def test_all_edits_or_none() -> None:
    """The second is told where the first has brought it; a text of one's own takes the place of all before it."""
    assert apply(TEXT, [SetValue("a", "2"), MoveItem("b[0]", 1), DropValue("a")], "j") == "b: [y, x]  # kept\n"
    with pytest.raises(Refused) as refused:
        apply(TEXT, [AddItem("c", "z"), DropValue("d")], "j")
    assert [fault.key for fault in refused.value.faults] == ["d"]
    assert apply(TEXT, [SetText("a: 5\n"), SetValue("a", "6")], "j") == "a: 6\n"
    assert apply(TEXT, [SetText("a: {")], "j") == "a: {"


@pytest.mark.parametrize(
    ("text", "read"), [("a: \ud800", "U+D800"), ("é" * 500_001, "1,000,002 bytes")], ids=["surrogate", "bytes"]
)
def test_a_text_that_no_file_holds_is_refused(text: str, read: str) -> None:
    """Before it is written anywhere."""
    with pytest.raises(Refused) as refused:
        apply(TEXT, [SetText(text)], "j")
    assert [fault.read for fault in refused.value.faults] == [read]


def test_edits_of_a_broken_text_tell_its_own_faults() -> None:
    """It is mended by hand first."""
    with pytest.raises(Refused) as refused:
        apply("a: {", [SetValue("a", "1")], "j")
    assert [fault.line for fault in refused.value.faults] == [1]
