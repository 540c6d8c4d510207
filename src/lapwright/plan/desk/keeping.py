"""Results kept by what they were made from, the longest unused given up first."""

from __future__ import annotations

import hashlib
from collections import OrderedDict
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any


def made_from(*values: object) -> str:
    """A key for plain values: equal where what they are written as is equal."""
    return hashlib.sha256("\0".join(map(repr, values)).encode()).hexdigest()


@dataclass(slots=True)
class Kept:
    """At most so many results; one that could not be made is not kept."""

    most: int = 8
    held: OrderedDict[Hashable, Any] = field(default_factory=OrderedDict)

    def take(self, key: Hashable, make: Callable[[], Any]) -> Any:  # noqa: ANN401  # whatever is made
        """The result under a key, made where it is not there.

        Raises: whatever `make` does.
        """
        if key in self.held:
            self.held.move_to_end(key)
            return self.held[key]
        made = make()
        self.held[key] = made
        while len(self.held) > self.most:
            self.held.popitem(last=False)
        return made

    def find(self, key: Hashable) -> Any | None:  # noqa: ANN401  # whatever was made
        """The result under a key; None where there is none."""
        return self.held.get(key)
