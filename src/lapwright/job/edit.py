"""Changes one value of a job file in place: comments and every other character stay as they are."""

from __future__ import annotations

import re
from collections.abc import Iterator

from lapwright.faults import Fault, Refused
from lapwright.job.composing import Reading, compose
from lapwright.job.trap import quoted, single_quoted
from lapwright.job.tree import SPOILT, Node, Path, Table, Text, nearest, path_of, plain, written

_LINE_END = re.compile(r"\r\n|\r|\n")


def set_value(text: str, path: str | Path, value: str, *, file: str = "job.yaml") -> str:
    """The job file's text with one value replaced, or put in where its key was absent.

    Args:
        text: the whole file; it must have the form of a job file, its meaning is not asked.
        path: as faults show it, `roof[0].slope`; absent tables on the way are made, list items are not.
        value: what the value shall say; it is put in quotes where it has to be.

    Raises: Refused where the file can't be read, the path leads nowhere, or the value takes more than a line.
    """
    steps = path_of(path) if isinstance(path, str) else path
    reading = compose(text, file=file)
    if reading.cut_at is not None:
        raise Refused(reading.faults)
    node, reached = nearest(reading.root, steps)
    told = [fault for fault in reading.faults if fault.key != written(steps)]
    for typed in (value, quoted(value), single_quoted(value)):
        for changed in _changes(text, reading, (node, reached), (steps, typed)):
            again = compose(changed, file=file)
            if again.cut_at is None and len(again.faults) <= len(told) and _only(reading, again, steps, value):
                return changed
    needs = "a value of one line for a key that a job file can have"
    line, column = reading.places.of(node.start)
    raise Refused([Fault(file, line, column, written(steps), value, needs, "")])


def _changes(text: str, reading: Reading, at: tuple[Node, Path], to: tuple[Path, str]) -> Iterator[str]:
    """The ways to make the change: none where the path leads nowhere."""
    (node, reached), (steps, typed) = at, to
    rest = steps[len(reached) :]
    names = [step for step in rest if isinstance(step, str)]
    if len(names) < len(rest) or (not rest and not isinstance(node, Text)):
        return
    if isinstance(node, Text):
        is_empty = node.start == node.end
        if not rest or is_empty:
            has_colon = text[: node.start].endswith((":", "-"))
            gap = (" " if has_colon else ": ") if is_empty else ""
            yield text[: node.start] + gap + (_braces(names, typed) if rest else typed) + text[node.end :]
    elif isinstance(node, Table) and rest:
        yield _put_in(text, reading, node, _pair(names, typed))


def _pair(names: list[str], typed: str) -> str:
    inner = typed if len(names) == 1 else _braces(names[1:], typed)
    return f"{_key(names[0])}: {inner}"


def _braces(names: list[str], typed: str) -> str:
    return "{" + _pair(names, typed) + "}"


def _key(name: str) -> str:
    return name if re.fullmatch(r"[\w.' -]*\w'?", name) and not name.startswith(("-", "'")) else quoted(name)


def _put_in(text: str, reading: Reading, table: Table, pair: str) -> str:
    """The pair as the last of a table: in its braces, or on a line of its own at its indent."""
    found = _LINE_END.search(text)
    line_end = found[0] if found else "\n"
    if not table.pairs:
        if table.is_flow:
            return text[: table.start + 1] + pair + text[table.start + 1 :]
        return text + ("" if not text or text.endswith(("\n", "\r")) else line_end) + pair + line_end
    pairs = list(table.pairs.values())
    last = _end(pairs[-1].value)
    if table.is_flow:
        return text[:last] + ", " + pair + text[last:]
    indent = pairs[0].key.start - reading.places.line_start(pairs[0].key.start)
    stop = _LINE_END.search(text, last)
    end = stop.start() if stop else len(text)
    return text[:end] + line_end + " " * indent + pair + text[end:]


def _end(node: Node) -> int:
    """Offset behind the last character of a value; a block ends with the last value in it."""
    while not isinstance(node, Text) and not node.is_flow:
        node = list(node.pairs.values())[-1].value if isinstance(node, Table) else node.items[-1]
    return node.end


def _only(before: Reading, after: Reading, steps: Path, value: str) -> bool:
    """Nothing but the value at the path has changed."""
    made, reached = nearest(after.root, steps)
    if reached != steps or not isinstance(made, Text) or made.value != value or made.is_spoilt:
        return False
    return _without(plain(before.root), steps) == _without(plain(after.root), steps)


def _without(whole: object, steps: Path) -> object:
    """Plain values without the one at a path, and without tables that hold nothing else."""
    if not steps:
        return None
    if isinstance(whole, list) and isinstance(steps[0], int) and steps[0] < len(whole):
        return [_without(item, steps[1:]) if place == steps[0] else item for place, item in enumerate(whole)]
    if not isinstance(whole, dict):
        return None if whole is SPOILT else whole
    below = _without(whole.get(steps[0]), steps[1:])
    rest = {name: item for name, item in whole.items() if name != steps[0]}
    return rest if below is None or below == {} else {**rest, steps[0]: below}
