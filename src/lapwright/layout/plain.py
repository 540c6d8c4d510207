"""Values that are made by the ten thousand: frozen to whoever checks types, not at every field that is set.

A frozen dataclass sets each of its fields by way of a call that refuses it to everybody else, so that a value of eight
fields takes four times as long to make.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeVar, dataclass_transform

Value = TypeVar("Value")


@dataclass_transform(frozen_default=True, field_specifiers=(field,))
def plain(kind: type[Value]) -> type[Value]:
    """A slotted dataclass whose values are compared and hashed by their fields, as those of a frozen one are.

    Holds for: what nothing changes once it is made; the type checker says so of every assignment.
    Source: arithmetic
    Checked: tests/layout/test_plain.py
    """
    return dataclass(slots=True, unsafe_hash=True)(kind)
