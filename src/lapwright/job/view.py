"""The tree asked by path, for what keys say about one another."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from typing import TypeVar

from lapwright.job.tree import Node, Path, Row, Table, Text, nearest
from lapwright.units.unread import Unread

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Cross:
    """A fault between keys: its path, what is needed, what to write.

    at_key: it is told at the key, else at the value.  read: what was read, where that is not the text there.
    """

    path: Path
    needs: str
    write: str
    at_key: bool = False
    read: str | None = None


@dataclass(frozen=True, slots=True)
class View:
    """The tree, asked by path; what is absent or told already is None."""

    root: Node
    found: list[Cross] = field(default_factory=list)

    def node(self, path: Path) -> Node | None:
        """The node exactly at a path."""
        node, reached = nearest(self.root, path)
        return node if reached == path and not node.is_spoilt else None

    def text(self, path: Path) -> str | None:
        """A text."""
        node = self.node(path)
        return node.value if isinstance(node, Text) else None

    def value(self, path: Path, reader: Callable[[str], T]) -> T | None:
        """A text as read; None where it can't be."""
        text = self.text(path)
        try:
            return reader(text) if text is not None else None
        except Unread:
            return None

    def rows(self, path: Path) -> Iterator[Path]:
        """The paths of a list's items."""
        node = self.node(path)
        if isinstance(node, Row):
            yield from ((*path, place) for place in range(len(node.items)))

    def is_whole(self, path: Path) -> bool:
        """No key of the table was told already."""
        node = self.node(path)
        return isinstance(node, Table) and not any(pair.key.is_spoilt for pair in node.pairs.values())

    def names(self, path: Path) -> list[str]:
        """The keys of a table."""
        node = self.node(path)
        return [name for name, pair in node.pairs.items() if not pair.key.is_spoilt] if isinstance(node, Table) else []

    def tell(self, path: Path, needs: str, write: str, *, at_key: bool = False, read: str | None = None) -> None:
        """Keeps a fault."""
        self.found.append(Cross(path, needs, write, at_key, read))
