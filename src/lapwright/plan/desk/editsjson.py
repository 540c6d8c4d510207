"""Edits from JSON: `[{"edit": "set", "path": "roof[0].slope", "value": "2 %"}]`, refused where it is anything else.

| edit | keys beside it |
| --- | --- |
| set | path, value |
| drop | path |
| add | path, values: a text, or keys and values, nested |
| move | path, to: a whole number from 0 |
| text | text: the whole file |
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType
from typing import Any

from lapwright.faults import Fault, Refused
from lapwright.job.edits.draft import steps_of
from lapwright.job.edits.typed import Values
from lapwright.job.trap import DEEPEST, told
from lapwright.plan.desk.edits import AddItem, DropValue, Edit, MoveItem, SetText, SetValue

MOST_EDITS = 200
LONGEST_VALUE = 10_000
LONGEST_TEXT = 1_000_000
LONGEST_PATH = 1_000
MOST_VALUES = 5_000

_KEYS = {
    "set": ("path", "value"),
    "drop": ("path",),
    "add": ("path", "values"),
    "move": ("path", "to"),
    "text": ("text",),
}


def edits_from(body: object, *, file: str = "edits") -> tuple[Edit, ...]:
    """The edits that a JSON value holds, in their order.

    Args:
        body: what a JSON reader gave: a list of at most 200 tables, as above.
        file: what faults call it; their keys are `[3].value`.

    Raises: Refused with a fault for each edit that has another shape, or a size beyond the limits of this module.
    """
    if not isinstance(body, list) or len(body) > MOST_EDITS:
        read = f"a list of {len(body):,}" if isinstance(body, list) else _kind(body)
        raise Refused([Fault(file, 0, 0, "", read, f"a list of at most {MOST_EDITS} edits", "[]")])
    made: list[Edit] = []
    faults: list[Fault] = []
    counted = [0]
    for place, item in enumerate(body):
        try:
            made.append(_edit(_Item(file, f"[{place}]", item, counted)))
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    return tuple(made)


class _Item:
    """One edit's table while it is read.  counted: the values of all edits so far."""

    def __init__(self, file: str, key: str, item: object, counted: list[int]) -> None:
        self.file, self.key, self._counted = file, key, counted
        if not isinstance(item, dict):
            raise self.refused("", _kind(item), "a table with edit and path", '{"edit": "drop", "path": "crew.start"}')
        self.item: dict[str, Any] = item

    def refused(self, name: str, read: str, needs: str, write: str = "") -> Refused:
        """The refusal of what stands under one of its keys."""
        return Refused([Fault(self.file, 0, 0, f"{self.key}{name}", told(read), needs, write)])

    def text(self, name: str, longest: int) -> str:
        """A text no longer than `longest` characters."""
        value = self.item[name]
        if not isinstance(value, str) or len(value) > longest:
            read = f"{len(value):,} characters" if isinstance(value, str) else _kind(value)
            raise self.refused(f".{name}", read, f"a text of at most {longest:,} characters")
        return value

    def path(self) -> str:
        """A path as faults show it."""
        path = self.text("path", LONGEST_PATH)
        try:
            steps_of(path, file=self.file)
        except Refused:
            raise self.refused(".path", path, "the path of a key, as faults show it", "roof[0].slope") from None
        return path

    def place(self) -> int:
        """A place in a list."""
        value = self.item["to"]
        if not isinstance(value, int) or isinstance(value, bool) or not 0 <= value < MOST_VALUES:
            raise self.refused(".to", _kind(value), "a whole number from 0", "0")
        return value

    def values(self) -> Values:
        """A text, or tables and lists of texts."""

        def taken(value: object, key: str, deep: int) -> Values:
            self._counted[0] += 1
            if deep > DEEPEST or self._counted[0] > MOST_VALUES:
                raise self.refused(".values", "", f"at most {MOST_VALUES:,} values in all edits, {DEEPEST} deep")
            if isinstance(value, str) and len(value) <= LONGEST_VALUE:
                return value
            if isinstance(value, list):
                return tuple(taken(each, f"{key}[{place}]", deep + 1) for place, each in enumerate(value))
            if isinstance(value, dict) and all(isinstance(name, str) and len(name) <= LONGEST_PATH for name in value):
                below = {name: taken(each, f"{key}.{name}", deep + 1) for name, each in value.items()}
                return MappingProxyType(below)
            read = f"{len(value):,} characters" if isinstance(value, str) else _kind(value)
            raise self.refused(key, read, f"texts of at most {LONGEST_VALUE:,} characters, in tables and lists")

        return taken(self.item["values"], ".values", 0)


_MAKE: Mapping[str, Callable[[_Item], Edit]] = {
    "set": lambda item: SetValue(item.path(), item.text("value", LONGEST_VALUE)),
    "drop": lambda item: DropValue(item.path()),
    "add": lambda item: AddItem(item.path(), item.values()),
    "move": lambda item: MoveItem(item.path(), item.place()),
    "text": lambda item: SetText(item.text("text", LONGEST_TEXT)),
}


def _edit(item: _Item) -> Edit:
    name = item.item.get("edit")
    keys = _KEYS.get(name) if isinstance(name, str) else None
    if keys is None:
        raise item.refused(".edit", name if isinstance(name, str) else _kind(name), f"one of {', '.join(_KEYS)}", "set")
    for key in item.item:
        if key != "edit" and key not in keys:
            raise item.refused("", str(key), f"the keys edit, {', '.join(keys)}")
    for key in keys:
        if key not in item.item:
            raise item.refused("", "", f"the key {key}")
    return _MAKE[str(name)](item)


def _kind(value: object) -> str:
    """What a JSON value is, in words; a number as it stands."""
    if isinstance(value, str | list | dict):
        return "a text" if isinstance(value, str) else "a list" if isinstance(value, list) else "a table"
    if value is None or isinstance(value, bool):
        return "null" if value is None else str(value).lower()
    return repr(value) if isinstance(value, int | float) and abs(value) < LONGEST_TEXT else "something else"
