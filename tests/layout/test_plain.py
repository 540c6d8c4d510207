"""Values made by the ten thousand, beside frozen dataclasses."""

from __future__ import annotations

from dataclasses import dataclass, replace

import pytest

from lapwright.layout.plain import plain


@plain
class Plain:
    """Two fields, one of them given."""

    name: str
    length: int = 3


@dataclass(frozen=True, slots=True)
class Frozen:
    """The same, frozen."""

    name: str
    length: int = 3


def test_plain_values_are_compared_and_hashed_by_their_fields() -> None:
    """As frozen ones are."""
    assert Plain("a") == Plain("a", 3) != Plain("a", 4)
    assert [hash(Plain("a")), hash(Plain("b", 7))] == [hash(Frozen("a")), hash(Frozen("b", 7))]
    assert replace(Plain("a"), length=5) == Plain("a", 5)
    assert repr(Plain("a")) == repr(Frozen("a")).replace("Frozen", "Plain")


def test_plain_values_have_no_other_fields() -> None:
    """They are slotted."""
    with pytest.raises(AttributeError):
        Plain("a").width = 3
