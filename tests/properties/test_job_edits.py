"""Any sequence of edits: the file reads as plain dicts and lists say it must, and what is not edited stays."""

from __future__ import annotations

import difflib
from dataclasses import dataclass
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.faults import Refused
from lapwright.job.composing import compose
from lapwright.job.tree import Row, nearest, path_of, plain, written
from lapwright.plan.desk.edits import AddItem, DropValue, Edit, MoveItem, SetValue, apply

ROOT = Path(__file__).parents[2]
FILES = sorted([*ROOT.glob("examples/**/*.yaml"), *ROOT.glob("src/lapwright/plan/example/*.yaml")])

# Every way that a job file's lines can be laid out, with comments wherever they can stand.
ODD = """\
# first

job: {name: "Bay #4", number: 007}   # behind braces
crew:   # behind a key
  # before a key
  days: Mon-Fri   # behind a value

  # behind the last key
rates: {}
weather: {year: greensboro}
store:
  {temperature: 70 F,   # behind the first
   # between
   stack: pallet, walls: 1 W/m2K,   # behind the second line
   fuel: propane   # behind the last
  }
roof:
# at the dash's column
- area: Main   # behind a name
  # below a name
  outline: E 120', N 64', W 120', S 64'
  edges:
    - {sides: 1, kind: ridge}   # behind an item
    # between items
    - {sides: [2, 3-4], kind: parapet, metal: {gauge: 24,
       face: 5"}}
    -
      sides: 5   # its dash stands alone
  # behind the list

- planes: [{plane: A, slope: 2 %}, {plane: B,
            slope: 1 %}]
- plane: '#5'
sheets:
  '6.2 mm': {width: 1 m}
  "cap-sa":  {width: 39 3/8"}
  deep:
    - - a
      - b
    - c
# last
"""
SUBJECTS = {"odd": ODD, **{path.name: path.read_text(encoding="utf-8") for path in FILES}}
MANY = settings().max_examples > 100  # at night

NAMES = ("kind", "area", "weather", "outline", "edges", "prices", "1'", "Vat room", "6.2 mm", "new")
TEXTS = st.one_of(
    st.sampled_from(
        ["E 30' N 20'", "12' 6 1/2\"", "Bay #4", "a, b", "%", "'", '"4"', "{", "- x", "x: y", "", "a:", "~"]
    ),
    st.text(st.characters(exclude_categories=("C", "Zl", "Zp")), max_size=20),
)
WORDS = st.sampled_from(NAMES)
ITEMS = st.one_of(
    TEXTS,
    st.lists(TEXTS, max_size=3),
    st.recursive(
        st.dictionaries(WORDS, st.one_of(TEXTS, st.lists(TEXTS, max_size=12)), max_size=4),
        lambda below: st.dictionaries(WORDS, st.one_of(below, st.lists(below, min_size=1, max_size=2)), max_size=3),
        max_leaves=4,
    ),
)


@dataclass(frozen=True)
class Step:
    """An edit, and the plain values that must come of it; None where it must be refused."""

    edit: Edit
    wanted: Any


def paths_in(whole: Any, path: tuple[str | int, ...] = ()) -> list[tuple[tuple[str | int, ...], Any]]:
    """Every path of plain values below the top, with what stands there."""
    below = whole.items() if isinstance(whole, dict) else enumerate(whole) if isinstance(whole, list) else ()
    return [found for step, value in below for found in [((*path, step), value), *paths_in(value, (*path, step))]]


def at(whole: Any, path: tuple[str | int, ...]) -> Any:
    """What stands at a path."""
    for step in path:
        whole = whole[step]
    return whole


def copied(whole: Any) -> Any:
    """Plain values that share nothing with the others."""
    if isinstance(whole, dict):
        return {name: copied(value) for name, value in whole.items()}
    return [copied(value) for value in whole] if isinstance(whole, list) else whole


def has_walk(values: Any) -> bool:
    """An outline with a comma: it can't stand in braces."""
    if isinstance(values, dict):
        walk = values.get("outline")
        return (isinstance(walk, str) and "," in walk) or any(map(has_walk, values.values()))
    return isinstance(values, list) and any(map(has_walk, values))


def absent(table: dict[str, Any]) -> str:
    """A name that a table does not have yet."""
    return next(name for name in map("absent{}".format, count()) if name not in table)


def setting(draw: st.DrawFn, model: Any) -> Step:
    """A value replaced, or a key put into a table, or into tables that are not there yet."""
    value = draw(TEXTS)
    made = copied(model)
    texts = [path for path, there in paths_in(model) if isinstance(there, str)]
    tables = [(), *[path for path, there in paths_in(model) if isinstance(there, dict)]]
    if texts and draw(st.booleans()):
        path = draw(st.sampled_from(texts))
        at(made, path[:-1])[path[-1]] = value
        return Step(SetValue(written(path), value), made)
    above = draw(st.sampled_from(tables))
    names = draw(st.lists(WORDS, min_size=1, max_size=3))
    if names[0] in at(model, above):
        names = [absent(at(model, above)), *names]
    inner: Any = value
    for name in reversed(names[1:]):
        inner = {name: inner}
    at(made, above)[names[0]] = inner
    return Step(SetValue(written((*above, *names)), value), made)


def dropping(draw: st.DrawFn, model: Any) -> Step:
    """A key or an item taken out; what can't be empty goes with it."""
    path = whole = draw(st.sampled_from([path for path, _ in paths_in(model)]))
    made = copied(model)
    del at(made, path[:-1])[path[-1]]
    while len(whole) > 1:
        whole = whole[:-1]
        left = at(made, whole)
        if left == [] or (left == {} and whole[-1] in ("weather", "areas", "outline")):
            del at(made, whole[:-1])[whole[-1]]
        else:
            break
    return Step(DropValue(written(path)), made)


def adding(draw: st.DrawFn, model: Any) -> Step:
    """An item put behind the others of a list, or into a list that is not there yet."""
    values = draw(ITEMS)
    made = copied(model)
    lists = [path for path, there in paths_in(model) if isinstance(there, list)]
    if lists and draw(st.booleans()):
        path = draw(st.sampled_from(lists))
        at(made, path).append(values)
        return Step(AddItem(written(path), values), made)
    above = draw(st.sampled_from([(), *[path for path, there in paths_in(model) if isinstance(there, dict)]]))
    names = draw(st.lists(WORDS, min_size=1, max_size=2))
    if names[0] in at(model, above):
        names = [absent(at(model, above)), *names]
    inner: Any = [values]
    for name in reversed(names[1:]):
        inner = {name: inner}
    at(made, above)[names[0]] = inner
    return Step(AddItem(written((*above, *names)), values), made)


def moving(draw: st.DrawFn, model: Any) -> Step:
    """An item at another place of its list."""
    lists = [path for path, there in paths_in(model) if isinstance(there, list) and there]
    if not lists:
        return Step(MoveItem("none[0]", 0), None)
    path = draw(st.sampled_from(lists))
    made = copied(model)
    items = at(made, path)
    place, to = draw(st.integers(0, len(items) - 1)), draw(st.integers(0, len(items)))
    if to == len(items):
        return Step(MoveItem(written((*path, place)), to), None)
    items.insert(to, items.pop(place))
    return Step(MoveItem(written((*path, place)), to), made)


KINDS = (setting, dropping, adding, moving)


def stands_in_braces(text: str, path: str) -> bool:
    """What is put there comes into braces or brackets, so that no walk can stand in it."""
    return bool(getattr(nearest(compose(text, file="j").root, path_of(path))[0], "is_flow", False))


def other_ends(text: str) -> str:
    """The text with the line ends of another system."""
    return text.replace("\n", "\r\n")


def edited(text: str, model: Any, step: Step) -> tuple[str, Any]:
    """The text after one edit, and the plain values it must have; as they were where the edit is refused."""
    is_walk = isinstance(step.edit, AddItem) and has_walk(step.edit.values)
    try:
        after = apply(text, [step.edit], "j")
    except Refused as refused:
        assert refused.faults[0].key
        assert step.wanted is None or (is_walk and stands_in_braces(text, step.edit.path)), refused.text()
        return text, model
    assert step.wanted is not None, "an edit that can't be made was made"
    return after, step.wanted


def sequences(draw: st.DrawFn, text: str, most: int) -> tuple[object, object]:
    """Edits one after another: after each, the file reads as the plain values; so does one with other line ends.

    Gives what the file reads as at last, and what it should.
    """
    model = plain(compose(text, file="j").root)
    for _ in range(draw(st.integers(1, most))):
        if not model:
            break
        step = draw(st.sampled_from(KINDS))(draw, model)
        after, model = edited(text, model, step)
        read = compose(after, file="j")
        assert (plain(read.root), read.faults, read.cut_at) == (model, (), None if model else read.cut_at)
        kept_lines(text, after, step.edit)
        if after != text and most > 3:
            assert apply(other_ends(text), [step.edit], "j") == other_ends(after)
        text = after
    return plain(compose(text, file="j").root), model


def kept_lines(before: str, after: str, edit: Edit) -> None:
    """Lines that the edit is not about stay byte for byte; the one that it is about keeps its comment."""
    old, new = before.splitlines(keepends=True), after.splitlines(keepends=True)
    changes = difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes()
    gone = [line for kind, start, stop, _, _ in changes if kind != "equal" for line in old[start:stop]]
    come = [line for kind, _, _, start, stop in changes if kind != "equal" for line in new[start:stop]]
    if isinstance(edit, MoveItem):
        node, _ = nearest(compose(before, file="j").root, path_of(edit.path)[:-1])
        assert isinstance(node, Row)
        bare = [sorted(line.strip(" -\r\n") for line in lines) for lines in (old, new)]
        assert node.is_flow or bare[0] == bare[1]
    if isinstance(edit, SetValue | AddItem):
        comments = [line[line.rindex("   #") :].rstrip("\r\n") for line in gone if "   #" in line]
        assert len([line for line in gone if line.strip()]) <= 1
        assert [comment for comment in comments if not any(comment in line for line in come)] == []


@settings(max_examples=2000 if MANY else 200, deadline=None)
@given(st.data())
def test_any_edits_of_an_odd_file(data: st.DataObject) -> None:
    """Of a file that has every layout of lines."""
    read, needed = sequences(data.draw, ODD, 4)
    assert read == needed


@settings(max_examples=100 if MANY else 8, deadline=None)
@pytest.mark.parametrize("name", SUBJECTS)
@given(st.data())
def test_any_edits_of_an_example(name: str, data: st.DataObject) -> None:
    """Of every example's job file."""
    read, needed = sequences(data.draw, SUBJECTS[name], 3)
    assert read == needed
