"""A trap: a place in the text that YAML reads silently as something else, or stops at; and what to write there."""

from __future__ import annotations

import re
from dataclasses import dataclass

DEEPEST = 20
LONGEST_TOLD = 200
TAB_NEEDS = "spaces instead of a tab (→)"

_TAPE_ONLY = re.compile(r"""[0-9][0-9 /.'"′″-]*""")


@dataclass(frozen=True, slots=True)
class Trap:
    """A place that YAML would misread: offset, what was read, what is wanted.

    is_spoilt: the value there is told here, its meaning is not judged again.
    """

    at: int
    read: str
    needs: str
    write: str
    is_spoilt: bool = True


def told(text: str) -> str:
    """A text no longer than a fault shows."""
    return text if len(text) <= LONGEST_TOLD else text[: LONGEST_TOLD - 1] + "…"


def quoted(value: str) -> str:
    """The text in quotes that YAML reads back unchanged."""
    if '"' in value or "\\" in value:
        return single_quoted(value)
    return f'"{value}"'


def single_quoted(value: str) -> str:
    """The text in single quotes; one inside is doubled."""
    return "'" + value.replace("'", "''") + "'"


def broken_quote(at: int, read: str, *, is_closed: bool, has_escape: bool) -> Trap:
    """A value that begins with a quotation mark and does not end as YAML wants it."""
    inner = read[1:].removesuffix(read[0]) if len(read) > 2 else read[1:]
    if has_escape:
        return Trap(at, read, "a text without \\ in double quotes", single_quoted(read[1:-1]))
    if _TAPE_ONLY.fullmatch(inner):
        return Trap(at, read, "a value that does not begin with a quotation mark", inner)
    if not is_closed:
        return Trap(at, read, "a closing quotation mark on the same line", quoted(inner))
    return Trap(at, read, "nothing behind the closing quotation mark", single_quoted(read))


def odd_start(at: int, read: str) -> Trap:
    """A value that begins with a sign YAML keeps for itself: % @ ` | >."""
    rest = read[1:].strip()
    write = quoted(read)
    if read[0] == "%" and _TAPE_ONLY.fullmatch(rest):
        write = f"{rest} %"
    elif read[0] == ">" and rest[:1].isdigit():
        write = rest
    return Trap(at, read, f"a value that does not begin with {read[0]}", write)


def anchor_or_tag(at: int, word: str, rest: str) -> Trap:
    """An anchor or a tag before a value."""
    name = "an anchor (&)" if word[0] == "&" else "a tag (!)"
    return Trap(at, word, f"the value alone, without {name}", rest)


def cut_short(at: int, read: str, *, comment: str) -> Trap:
    """A # that makes a comment of a value's end.  comment: the same line with the comment made plain, or empty."""
    needs = "quotes around a text with # in it; a comment of your own stands behind two spaces and has one after its #"
    return Trap(at, read, needs, f"{quoted(read)}, or {comment}" if comment else quoted(read))
