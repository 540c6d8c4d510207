"""How values are typed into a job file: in braces on a line, over several lines, or as a block; quoted where needed."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import TypeAlias

from lapwright.job.composing import compose
from lapwright.job.trap import quoted, single_quoted
from lapwright.job.tree import plain

# Texts, in tables and lists as deep as a job file goes.
Values: TypeAlias = "str | Mapping[str, Values] | Sequence[Values]"

WIDEST = 120

# What is certainly read back as it stands, and what certainly is not; anything else is tried.
_HARMLESS = re.compile(
    r"""-[0-9]+(?:\.[0-9]+)?|[A-Za-z0-9](?:(?:[A-Za-z0-9 .'"/%+_()=$-]|:(?=[A-Za-z0-9]))*[A-Za-z0-9.'"/%+_()=$-])?"""
)
_NEEDS_QUOTES = re.compile(r"""(?:["'%@`|>&*!?{}\[\], -].*|.*(?:#|: | $|:$).*)?""")
_ENDS_IN_BRACES = re.compile(r"[,\[\]{}]")
_PRINTABLE = re.compile(r"[ -~]*")
_KEY = re.compile(r"[\w.' -]*\w'?")


class Untypable(Exception):  # noqa: N818  # it is turned into a refusal that names the place
    """A text that no line of a job file can hold; `text` is what it was."""

    def __init__(self, text: str) -> None:
        self.text = text
        super().__init__(text)


def key_text(name: str) -> str:
    """A key as it is typed."""
    return name if _KEY.fullmatch(name) and not name.startswith(("-", "'")) else quoted(name)


@lru_cache(maxsize=4096)
def scalar(text: str, key: str = "", *, in_braces: bool) -> str:
    """A text as it is typed: behind a key, or as an item where there is no key.

    Raises: Untypable where it would not be read back, as with two lines.
    """
    if _HARMLESS.fullmatch(text):
        return text
    is_marked = _NEEDS_QUOTES.fullmatch(text) or (in_braces and _ENDS_IN_BRACES.search(text))
    if is_marked and _PRINTABLE.fullmatch(text):
        return quoted(text)
    for typed in (text, quoted(text), single_quoted(text)):
        row, wanted = _tried(typed, text, key, in_braces=in_braces)
        read = compose(row, file="")
        if read.cut_at is None and not read.faults and plain(read.root) == wanted:
            return typed
    raise Untypable(text)


def _tried(typed: str, text: str, key: str, *, in_braces: bool) -> tuple[str, object]:
    """A small file with the typed text between neighbours, and what it must be read as."""
    if key and in_braces:
        return f"a: {{a: 1, {key_text(key)}: {typed}, next of them: 1}}\n", {
            "a": {"a": "1", key: text, "next of them": "1"}
        }
    if key:
        return f"{key_text(key)}: {typed}\nnext of them: 1\n", {key: text, "next of them": "1"}
    if in_braces:
        return f"a: [1, {typed}, 1]\n", {"a": ["1", text, "1"]}
    return f"a:\n  - {typed}\n  - 1\n", {"a": [text, "1"]}


def has_walk(values: Values) -> bool:
    """There is an outline among them that is walked: it stands on a line of its own, never in braces."""
    if isinstance(values, str):
        return False
    if isinstance(values, Mapping):
        walk = values.get("outline")
        return (isinstance(walk, str) and "," in walk) or any(map(has_walk, values.values()))
    return any(map(has_walk, values))


def stands_in_braces(values: Values) -> bool:
    """Values that the job file has in braces: no walk in them, and no list of tables."""
    return not has_walk(values) and not _has_tables(values)


def _has_tables(values: Values) -> bool:
    if isinstance(values, str):
        return False
    if isinstance(values, Mapping):
        return any(map(_has_tables, values.values()))
    return any(isinstance(item, Mapping) or _has_tables(item) for item in values)


def in_braces(values: Values, column: int, line_end: str, key: str = "") -> str:
    """Values in braces or brackets that begin at a column: on one line where it is wide enough, else over several.

    Raises: Untypable.
    """
    if isinstance(values, str):
        return scalar(values, key, in_braces=True)
    one = _on_one_line(values, key)
    if column + len(one) <= WIDEST:
        return one
    is_table = isinstance(values, Mapping)
    lines, filled = [""], column + 1
    for piece in _pieces(values, column + 1, line_end):
        width = len(piece.split(line_end, 1)[0]) + 2
        if lines[-1] and filled + width > WIDEST:
            lines.append("")
            filled = column + 1
        lines[-1] += f"{', ' if lines[-1] else ''}{piece}"
        filled = column + 1 + len(lines[-1]) if line_end not in piece else WIDEST
    inner = f",{line_end}{' ' * (column + 1)}".join(lines)
    return f"{{{inner}}}" if is_table else f"[{inner}]"


def _on_one_line(values: Values, key: str = "") -> str:
    if isinstance(values, str):
        return scalar(values, key, in_braces=True)
    if isinstance(values, Mapping):
        return "{" + ", ".join(f"{key_text(name)}: {_on_one_line(value, name)}" for name, value in values.items()) + "}"
    return "[" + ", ".join(_on_one_line(item) for item in values) + "]"


def _pieces(values: Mapping[str, Values] | Sequence[Values], column: int, line_end: str) -> list[str]:
    """The entries of a table or a list, each as it would stand at the start of a line."""
    if isinstance(values, Mapping):
        heads = {name: f"{key_text(name)}: " for name in values}
        return [
            heads[name] + in_braces(value, column + len(heads[name]), line_end, name) for name, value in values.items()
        ]
    return [in_braces(item, column, line_end) for item in values]


def item_lines(values: Values, column: int, line_end: str, *, as_block: bool = False) -> list[str]:
    """The lines of a list's item whose dash stands at a column.

    as_block: a table has a line for each key, as an area has, even where it could stand in braces.

    Raises: Untypable.
    """
    head = " " * column + "- "
    if isinstance(values, str):
        return [head + scalar(values, in_braces=False)]
    is_block = isinstance(values, Mapping) and values and (as_block or not stands_in_braces(values))
    if not is_block or not isinstance(values, Mapping):
        return [head + in_braces(values, column + 2, line_end)]
    lines = table_lines(values, column + 2, line_end)
    return [head + lines[0].lstrip(" "), *lines[1:]]


def table_lines(values: Mapping[str, Values], column: int, line_end: str) -> list[str]:
    """The lines of a block whose keys stand at a column.

    Raises: Untypable.
    """
    lines: list[str] = []
    for name, value in values.items():
        head = " " * column + f"{key_text(name)}:"
        if isinstance(value, str):
            lines.append(f"{head} {scalar(value, name, in_braces=False)}")
        elif stands_in_braces(value):
            lines.append(f"{head} {in_braces(value, len(head) + 1, line_end, name)}")
        elif isinstance(value, Mapping):
            lines += [head, *table_lines(value, column + 2, line_end)]
        else:
            lines += [head, *(line for item in value for line in item_lines(item, column + 2, line_end))]
    return lines


def as_plain(values: Values) -> object:
    """Values as the tree shows them: dicts, lists and texts."""
    if isinstance(values, str):
        return values
    if isinstance(values, Mapping):
        return {name: as_plain(value) for name, value in values.items()}
    return [as_plain(item) for item in values]
