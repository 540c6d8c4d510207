"""A value of a plan file with the path that leads to it; what is not of its kind is told by that path."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from lapwright.rulecheck.values import XY, Unreadable

MOST_METRES = 1e6  # plans in millimetres or with a slip of the pen; far above any roof
MOST_COUNT = 10**9


class Node:
    """A value of the plan and the path that leads to it."""

    __slots__ = ("path", "value")

    def __init__(self, value: object, path: str) -> None:
        self.value: Any = value
        self.path = path

    def at(self, key: str) -> Node:
        """What stands under a key; it has to be there."""
        if not isinstance(self.value, Mapping):
            raise Unreadable(self.path, "an object")
        if key not in self.value:
            raise Unreadable(self._under(key), "a value; the key is missing")
        return Node(self.value[key], self._under(key))

    def maybe(self, key: str) -> Node | None:
        """What stands under a key, or None where there is no such key or null."""
        if not isinstance(self.value, Mapping):
            raise Unreadable(self.path, "an object")
        found = self.value.get(key)
        return None if found is None else Node(found, self._under(key))

    def _under(self, key: str) -> str:
        return f"{self.path}.{key}" if self.path else key

    def each(self, count: int | None = None) -> list[Node]:
        """The items of a list, `count` of them where that is given."""
        if isinstance(self.value, str | bytes) or not isinstance(self.value, Sequence):
            raise Unreadable(self.path, "a list")
        if count is not None and len(self.value) != count:
            raise Unreadable(self.path, f"a list of {count}")
        return [Node(item, f"{self.path}[{place}]") for place, item in enumerate(self.value)]

    def text(self) -> str:
        """A text."""
        if not isinstance(self.value, str):
            raise Unreadable(self.path, "a text")
        return self.value

    def number(self) -> float:
        """A length [m]: a finite number of a size that a plan can have."""
        if isinstance(self.value, bool) or not isinstance(self.value, int | float):
            raise Unreadable(self.path, "a number of metres")
        if not abs(self.value) <= MOST_METRES:  # false for NaN, and whole numbers of any size compare
            raise Unreadable(self.path, "a number of metres, finite and below 1,000 km")
        return float(self.value)

    def whole(self) -> int:
        """A count or an index."""
        value = self.value
        if isinstance(value, bool) or not isinstance(value, int | float) or not abs(value) <= MOST_COUNT:
            raise Unreadable(self.path, "a whole number")
        if value != int(value):
            raise Unreadable(self.path, "a whole number")
        return int(value)

    def point(self) -> XY:
        """A plan point [m]."""
        x, y = self.each(2)
        return (x.number(), y.number())
