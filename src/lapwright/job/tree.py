"""The job file as a tree of texts: every scalar as typed, with the place where it stands.

`26-041`, `007`, `yes` and `1e3` stay texts; what they mean is decided by the key they stand under.  Paths are tuples
of keys and list places, written `roof[0].edges[1].height`.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

Path = tuple[str | int, ...]

_BREAK = re.compile(r"\r\n|\r|\n")
_PLAIN_KEY = re.compile(r"[^\s.\[\]\"]+")
_STEP = re.compile(r'\[([0-9]+)\]|\.?"((?:[^"\\]|\\.)*)"|\.?([^.\[\]"]+)')


@dataclass(frozen=True, slots=True)
class Text:
    """A scalar: what it says, from where to where it stands (offsets), as typed.

    is_spoilt: a fault was told about it already; nothing more is asked of it.
    """

    value: str
    start: int
    end: int
    typed: str
    is_quoted: bool = False
    is_spoilt: bool = False


@dataclass(frozen=True, slots=True)
class Pair:
    """A key and what stands under it."""

    key: Text
    value: Node


@dataclass(frozen=True, slots=True)
class Table:
    """Keys and values in file order.  is_cut: the file could not be read to its end; is_flow: it stands in braces."""

    pairs: Mapping[str, Pair]
    start: int
    end: int
    is_cut: bool = False
    is_flow: bool = False
    is_spoilt: bool = False


@dataclass(frozen=True, slots=True)
class Row:
    """A list in file order.  is_cut: the file could not be read to its end; is_flow: it stands in brackets."""

    items: tuple[Node, ...]
    start: int
    end: int
    is_cut: bool = False
    is_flow: bool = False
    is_spoilt: bool = False


Node = Text | Table | Row


class Spoilt:
    """Stands in the plain values for what is told already."""


SPOILT = Spoilt()


@dataclass(frozen=True, slots=True)
class Places:
    """Offsets to lines and columns, both from 1."""

    starts: tuple[int, ...]
    has_mark: bool

    def of(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset; a byte order mark takes no column."""
        line = bisect_right(self.starts, offset)
        column = offset - self.starts[line - 1] + 1
        return (line, max(1, column - 1) if line == 1 and self.has_mark else column)

    def line_start(self, offset: int) -> int:
        """Offset of the first character of the line that holds `offset`."""
        return self.starts[bisect_right(self.starts, offset) - 1]


def places(text: str) -> Places:
    """Where the lines of a text begin."""
    starts = (0, *(found.end() for found in _BREAK.finditer(text)))
    return Places(starts, text.startswith("\ufeff"))


EMPTY: Mapping[str, Pair] = MappingProxyType({})


def plain(node: Node) -> object:
    """The tree as dicts, lists and texts; what is told already is SPOILT."""
    if node.is_spoilt:
        return SPOILT
    if isinstance(node, Text):
        return node.value
    if isinstance(node, Row):
        return [plain(item) for item in node.items]
    return {name: plain(pair.value) for name, pair in node.pairs.items() if not pair.key.is_spoilt}


def step_into(node: Node, step: str | int) -> Node | None:
    """The node under one key or list place; None where there is none."""
    if isinstance(node, Table) and isinstance(step, str):
        pair = node.pairs.get(step)
        return pair.value if pair else None
    if isinstance(node, Row) and isinstance(step, int) and 0 <= step < len(node.items):
        return node.items[step]
    return None


def nearest(node: Node, path: Path) -> tuple[Node, Path]:
    """The node at a path, or the last one on the way to it, and the path as far as it goes."""
    for index, step in enumerate(path):
        below = step_into(node, step)
        if below is None:
            return node, path[:index]
        node = below
    return node, path


def key_at(node: Node, path: Path) -> Text | None:
    """The key that a path ends in."""
    if not path or not isinstance(path[-1], str):
        return None
    above, _ = nearest(node, path[:-1])
    pair = above.pairs.get(path[-1]) if isinstance(above, Table) else None
    return pair.key if pair else None


def written(path: Path) -> str:
    """A path as it is shown: `roof[0].slope`, `sheets."6.2 mm".width`."""
    shown = ""
    for step in path:
        if isinstance(step, int):
            shown += f"[{step}]"
        else:
            step = step if len(step) <= 60 else step[:59] + "…"
            name = step if _PLAIN_KEY.fullmatch(step) else '"' + step.replace("\\", "\\\\").replace('"', '\\"') + '"'
            shown += f".{name}" if shown else name
    return shown


def path_of(shown: str) -> Path:
    """The path that `written` shows.

    Raises: ValueError where the text is no path (a bug of the caller).
    """
    steps: list[str | int] = []
    position = 0
    while position < len(shown):
        found = _STEP.match(shown, position)
        if found is None:
            raise ValueError(f"not a path: {shown!r}")
        number, in_quotes, bare = found.groups()
        if number is not None:
            steps.append(int(number))
        else:
            steps.append(bare if bare is not None else re.sub(r"\\(.)", r"\1", in_quotes))
        position = found.end()
    return tuple(steps)
