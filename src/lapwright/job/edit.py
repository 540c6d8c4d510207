"""Changes one value of a job file in place: comments and every other character stay as they are."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from lapwright.faults import Fault, Refused
from lapwright.job.edits.draft import MOST_CHARACTERS, Draft, begin, composed, end_of, steps_of
from lapwright.job.edits.typed import WIDEST, Untypable, key_text, scalar
from lapwright.job.trap import quoted, single_quoted
from lapwright.job.tree import SPOILT, Node, Path, Table, Text, nearest, plain, written


def set_value(text: str, path: str | Path, value: str, *, file: str = "job.yaml") -> str:
    """The job file's text with one value replaced, or put in where its key was absent.

    Args:
        text: the whole file; it must have the form of a job file, its meaning is not asked.
        path: as faults show it, `roof[0].slope`; absent tables on the way are made, list items are not.
        value: what the value shall say; it is put in quotes where it has to be.

    Raises: Refused where the file can't be read, the path leads nowhere, or the value takes more than a line.
    """
    return changed(begin(text, file=file), steps_of(path, file=file), value).text


def set_many(text: str, changes: Iterable[tuple[str | Path, str]], *, file: str = "job.yaml") -> str:
    """The job file's text with several values set, one after another, or none.

    Args:
        text: the whole file, as of set_value.
        changes: paths and values, as of set_value.

    Raises: Refused with the faults of every change that can't be made.
    """
    draft = begin(text, file=file)
    faults: list[Fault] = []
    for path, value in changes:
        try:
            draft = changed(draft, steps_of(path, file=file), value)
        except Refused as refused:
            faults += refused.faults
    if faults:
        raise Refused(faults)
    return draft.text


def changed(draft: Draft, path: Path, value: str) -> Draft:
    """The draft with one value replaced or put in.

    Raises: Refused, as set_value.
    """
    there = nearest(draft.reading.root, path)
    told = [fault for fault in draft.reading.faults if fault.key != written(path)]
    for typed in _ways(draft, there, path, value):
        for text in _proposed(draft, there, path, typed):
            if len(text) > MOST_CHARACTERS:
                continue
            again = Draft(text, composed(text, draft.file), draft.file)
            is_sound = again.reading.cut_at is None and len(again.reading.faults) <= len(told)
            if is_sound and _only(draft.reading.root, again.reading.root, path, value):
                return again
    raise draft.refused(path, "a value of one line for a key that a job file can have", read=value)


def _ways(draft: Draft, there: tuple[Node, Path], path: Path, value: str) -> list[str]:
    """How the value may be typed, the likeliest way first; none where no line can hold it."""
    node, reached = there
    above = draft.at(reached[:-1]) if isinstance(node, Text) else node
    is_inside = not isinstance(above, Text | None) and above.is_flow
    key = path[-1] if isinstance(path[-1], str) else ""
    try:
        first = scalar(value, key, in_braces=is_inside or len(path) - len(reached) > 1)
    except Untypable:
        return []
    return list(dict.fromkeys((first, value, quoted(value), single_quoted(value))))


def _proposed(draft: Draft, there: tuple[Node, Path], path: Path, typed: str) -> Iterator[str]:
    """The ways to make the change: none where the path leads nowhere."""
    node, reached = there
    text, rest = draft.text, path[len(reached) :]
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
        yield _put_in(draft, node, names, typed)


def _pair(names: list[str], typed: str) -> str:
    inner = typed if len(names) == 1 else _braces(names[1:], typed)
    return f"{key_text(names[0])}: {inner}"


def _braces(names: list[str], typed: str) -> str:
    return "{" + _pair(names, typed) + "}"


def _put_in(draft: Draft, table: Table, names: list[str], typed: str) -> str:
    """The pair as the last of a table: in its braces, or on a line of its own at its indent."""
    text, line_end = draft.text, draft.line_end
    if not table.pairs:
        if table.is_flow:
            return text[: table.start + 1] + _pair(names, typed) + text[table.start + 1 :]
        gap = "" if not text or text.endswith(("\n", "\r")) else line_end
        return text + gap + line_end.join([*_lines(names, typed, 0), ""])
    column = draft.column(next(iter(table.pairs.values())).key.start)
    last = end_of(list(table.pairs.values())[-1].value)
    if table.is_flow:
        pair = _pair(names, typed)
        is_wide = draft.column(last) + len(pair) > WIDEST - 3
        return text[:last] + "," + (line_end + " " * column if is_wide else " ") + pair + text[last:]
    stop = draft.line_stop(last)
    lines = [*(draft.gap_above(column) if len(names) > 2 else []), *_lines(names, typed, column)]
    return text[:stop] + "".join(line_end + line for line in lines) + text[stop:]


def _lines(names: list[str], typed: str, column: int) -> list[str]:
    """A line for each table on the way that is made, save the last, which stands in braces."""
    heads = [f"{' ' * (column + 2 * place)}{key_text(name)}:" for place, name in enumerate(names[:-2])]
    return [*heads, " " * (column + 2 * len(heads)) + _pair(names[-2:], typed)]


def _only(before: Node, after: Node, path: Path, value: str) -> bool:
    """Nothing but the value at the path has changed."""
    made, reached = nearest(after, path)
    if reached != path or not isinstance(made, Text) or made.value != value or made.is_spoilt:
        return False
    return _without(plain(before), path) == _without(plain(after), path)


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
