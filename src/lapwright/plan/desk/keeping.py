"""Results kept by what they were made from, the longest unused given up first."""

from __future__ import annotations

import hashlib
import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable
from concurrent.futures import Future
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
        self.put(key, made)
        return made

    def put(self, key: Hashable, made: Any) -> None:  # noqa: ANN401  # whatever was made
        """A result that was made elsewhere."""
        self.held[key] = made
        while len(self.held) > self.most:
            self.held.popitem(last=False)

    def find(self, key: Hashable) -> Any | None:  # noqa: ANN401  # whatever was made
        """The result under a key; None where there is none."""
        return self.held.get(key)


@dataclass(slots=True)
class Shared:
    """Results that several threads ask for: each is made once, by the first, while the others wait for it alone."""

    kept: Kept
    lock: threading.Lock = field(default_factory=threading.Lock)

    def take(self, key: Hashable, make: Callable[[], Any]) -> Any:  # noqa: ANN401  # whatever is made
        """The result under a key, made where it is not there.

        Raises: whatever `make` does, for all who waited for it.
        """
        mine: Future[Any] = Future()
        with self.lock:
            found: Future[Any] = self.kept.take(key, lambda: mine)
        if found is mine:
            try:
                mine.set_result(make())
            except BaseException as error:
                with self.lock:
                    self.kept.held.pop(key, None)
                mine.set_exception(error)
        return found.result()

    def find(self, key: Hashable) -> Any | None:  # noqa: ANN401  # whatever was made
        """The result under a key; None where there is none, or it is being made."""
        with self.lock:
            found: Future[Any] | None = self.kept.find(key)
        return found.result() if found is not None and found.done() else None
