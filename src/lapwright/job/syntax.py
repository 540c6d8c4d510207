"""YAML events from ruamel.yaml in our own words: its errors become a stop that says what to write."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from lapwright.job.trap import quoted

if TYPE_CHECKING:
    from ruamel.yaml.error import MarkedYAMLError


@dataclass(frozen=True, slots=True)
class Event:
    """One step of reading: a scalar, the start of a table or list, or the end of one; offsets into the text."""

    kind: Literal["scalar", "table", "row", "end"]
    start: int
    end: int
    value: str = ""
    is_quoted: bool = False
    is_flow: bool = False


@dataclass(frozen=True, slots=True)
class Stop:
    """Where reading could not go on: offset, what was read, what is needed; since: where the failed part begins."""

    at: int
    since: int
    read: str
    needs: str
    write: str


# How ruamel.yaml's `problem` begins -> what is needed; {line} is where the part began.
_WORDS = (
    ("expected ',' or '}'", "a comma between keys, and a }} that closes the {{ of line {line}"),
    ("expected ',' or ']'", "a comma between items, and a ] that closes the [ of line {line}"),
    ("expected <block end>", "the keys of a block at one indent"),
    ("sequence entries are not allowed", "a list that begins on the line below its key"),
    ("expected the node content", "a value"),
)
_OTHER = "a key, a colon, a space and a value"
_TWO_COLONS = re.compile(r"(?:- +)*([^:\s]+): +(.*: .*|.*:)")
_KEYS = re.compile(r"[a-z_]+: .*")
_KEY_AND_REST = re.compile(r"(?:- +)?([A-Za-z_]+)[: ] *(.*)")


def events(text: str) -> Iterator[Event | Stop]:
    """The events of one document; where it can't be read, a Stop as the last.

    Holds for: texts whose traps are blanked (linescan.find_traps).
    """
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError

    try:
        for event in YAML(typ="safe", pure=True).parse(text):
            made = _event(event)
            if made is not None:
                yield made
    except MarkedYAMLError as error:
        yield _stop(error, text)


def _event(event: object) -> Event | None:
    from ruamel.yaml import events as e

    if isinstance(event, e.ScalarEvent):
        start, end = event.start_mark.index, event.end_mark.index
        return Event("scalar", start, end, event.value, is_quoted=event.style in ("'", '"'))
    if isinstance(event, (e.MappingStartEvent, e.SequenceStartEvent)):
        kind: Literal["table", "row"] = "table" if isinstance(event, e.MappingStartEvent) else "row"
        return Event(kind, event.start_mark.index, event.end_mark.index, is_flow=bool(event.flow_style))
    if isinstance(event, (e.MappingEndEvent, e.SequenceEndEvent)):
        return Event("end", event.start_mark.index, event.end_mark.index)
    return None


def _stop(error: MarkedYAMLError, text: str) -> Stop:
    at = min(error.problem_mark.index, len(text)) if error.problem_mark else len(text)
    context, problem, mark = error.context or "", error.problem or "", error.context_mark
    # a block's context mark is where the block begins: all that was read since is sound
    since = min(at, mark.index) if mark and ("flow" in context or "scanning" in context) else at
    if problem.startswith("could not find expected ':'"):
        line = _line_at(text, since)
        found = _KEY_AND_REST.fullmatch(line)
        write = f"{found[1]}: {found[2]}" if found and found[2] else ""
        return Stop(since, since, line, "a colon and a space behind the key", write)
    line = _line_at(text, at)
    if problem.startswith("mapping values are not allowed"):
        return Stop(at, since, line, *_colon(line))
    words = next((needs for begin, needs in _WORDS if problem.startswith(begin)), _OTHER)
    return Stop(at, since, line, words.format(line=mark.line + 1 if mark else 1), "")


def _line_at(text: str, at: int) -> str:
    start = max(text.rfind("\n", 0, at), text.rfind("\r", 0, at)) + 1
    return re.split(r"[\r\n]", text[start : start + 400], maxsplit=1)[0].strip()


def _colon(line: str) -> tuple[str, str]:
    """What is needed where a colon can't be, and what to write."""
    found = _TWO_COLONS.fullmatch(line)
    if found is None:
        return "a key at the indent of its neighbours, and no value at the end of the line above", ""
    if _KEYS.fullmatch(found[2]):
        return "braces around keys on one line", f"{found[1]}: {{{found[2].removesuffix('}')}}}"
    return "quotes around a value with a colon in it", f"{found[1]}: {quoted(found[2])}"
