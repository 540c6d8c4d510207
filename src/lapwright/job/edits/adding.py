"""Puts an item behind the last one of a list of a job file, in its neighbours' style; makes the list where absent."""

from __future__ import annotations

import re
from collections.abc import Mapping

from lapwright.job.edits.draft import LINE_END, Draft, begin, end_of, steps_of, with_change
from lapwright.job.edits.entries import spans
from lapwright.job.edits.typed import Untypable, Values, as_plain, has_walk, in_braces, item_lines, key_text
from lapwright.job.tree import Node, Path, Row, Table, Text, key_at, nearest, plain

_COMMENT = re.compile(r" +#[^\r\n]*")


def add_item(text: str, path: str, values: Values, *, file: str = "job.yaml") -> str:
    """The job file's text with one more item in the list at a path.

    Args:
        text: the whole file; it must have the form of a job file, its meaning is not asked.
        path: of the list, as faults show it: `roof`, `roof[0].openings`; tables on the way and the list itself are made
            where they are absent, items of lists on the way are not.
        values: a text, or keys and values, nested as the item is; each is put in quotes where it has to be.  What has a
            walk or a list of tables in it gets a line for each key; other tables stand in braces.

    Raises: Refused where the file can't be read, something else stands at the path, or a value takes more than a line.
    """
    return added(begin(text, file=file), steps_of(path, file=file), values).text


def added(draft: Draft, path: Path, values: Values) -> Draft:
    """The draft with one more item in the list at a path.

    Raises: Refused, as add_item.
    """
    node, reached = nearest(draft.reading.root, path)
    names = [step for step in path[len(reached) :] if isinstance(step, str)]
    is_list = isinstance(node, Row) and reached == path
    if not is_list and (len(names) < len(path) - len(reached) or not _can_take(node, names)):
        raise draft.refused(path, "the path of a list, or of a key that can be made")
    if has_walk(values) and _is_in_braces(draft, node, reached):
        raise draft.refused(path, "a list on lines of its own; a walk can't stand in braces", read="")
    try:
        proposed = _into_list(draft, node, values) if isinstance(node, Row) else _made(draft, reached, names, values)
    except Untypable as found:
        raise draft.refused(path, "texts of one line each", read=found.text) from None
    made = draft.take([proposed], _wanted(draft, reached, names, as_plain(values)))
    if made is None:
        raise draft.refused(path, "an item that this list can take; change it in the text")
    return made


def _can_take(node: Node, names: list[str]) -> bool:
    """A key can be made in it: a table, or a key whose value was left out."""
    return (isinstance(node, Table) and bool(names)) or (isinstance(node, Text) and node.start == node.end)


def _is_in_braces(draft: Draft, node: Node, reached: Path) -> bool:
    """What is put there stands in braces or brackets."""
    if isinstance(node, Text) or not node.is_flow:
        return False
    return not (isinstance(node, Table) and _is_emptied(draft, node, reached))


def _is_emptied(draft: Draft, table: Table, reached: Path) -> bool:
    """Braces with nothing in them, behind a key on a line of its own: a block can stand in their place."""
    above = draft.at(reached[:-1]) if reached and isinstance(reached[-1], str) else None
    return not table.pairs and isinstance(above, Table) and not above.is_flow


def _wanted(draft: Draft, reached: Path, names: list[str], item: object) -> object:
    """The plain values with the item in its list."""

    def change(there: object) -> object:
        if isinstance(there, list):
            return [*there, item]
        made: object = [item]
        for name in reversed(names[1:]):
            made = {name: made}
        if not names:
            return made
        return {**(there if isinstance(there, dict) else {}), names[0]: made}

    return with_change(plain(draft.reading.root), reached, change)


def _into_list(draft: Draft, row: Row, values: Values) -> str:
    text, every = draft.text, spans(draft, row)
    if row.is_flow and not every:
        return _put(text, row.start + 1, in_braces(values, draft.column(row.start) + 1, draft.line_end))
    end = every[-1][1]
    if not row.is_flow:
        is_block = _is_area(values) or any(isinstance(item, Table) and not item.is_flow for item in row.items)
        lines = item_lines(values, draft.column(row.start), draft.line_end, as_block=is_block)
        return _put_lines(draft, end, lines)
    if len(every) == 1 or not draft.has_own_line(every[-1][0]):
        return _put(text, end, f", {in_braces(values, draft.column(end) + 2, draft.line_end)}")
    column = draft.column(every[-1][0])
    line = draft.line_end + " " * column + in_braces(values, column, draft.line_end)
    comment = _COMMENT.match(text, end)
    return _put(_put(text, comment.end(), line), end, ",") if comment else _put(text, end, f",{line}")


def _made(draft: Draft, reached: Path, names: list[str], values: Values) -> str:
    """The text with a list of one item, made in what stands at `reached`."""
    holder = draft.at(reached)
    if isinstance(holder, Table) and holder.is_flow:
        if not _is_emptied(draft, holder, reached):
            return _in_its_braces(draft, holder, names, values)
        behind = draft.behind_key(reached)
        emptied = draft.text[:behind] + draft.text[holder.end :]
        lines = _list_lines(names, values, _key_column(draft, reached) + 2, draft.line_end)
        return _put_lines(draft, behind, lines, text=emptied)
    if isinstance(holder, Table) and holder.pairs:
        first = next(iter(holder.pairs.values())).key.start
        lines = _list_lines(names, values, draft.column(first), draft.line_end)
        return _put_lines(draft, end_of(holder), [*draft.gap_above(draft.column(first)), *lines])
    if isinstance(holder, Table):
        lines = _list_lines(names, values, 0, draft.line_end)
        gap = "" if not draft.text or draft.text.endswith(("\n", "\r")) else draft.line_end
        return draft.text + gap + draft.line_end.join([*lines, ""])
    assert isinstance(holder, Text)  # a key whose value was left out
    above = draft.at(reached[:-1])
    if not isinstance(above, Table) or above.is_flow:
        return draft.text
    lines = _list_lines(names, values, _key_column(draft, reached) + 2, draft.line_end)
    return _put_lines(draft, holder.start, lines)


def _key_column(draft: Draft, path: Path) -> int:
    """Column of the key that a path ends in."""
    key = key_at(draft.reading.root, path)
    assert key is not None  # the callers have found it there
    return draft.column(key.start)


def _list_lines(names: list[str], values: Values, column: int, line_end: str) -> list[str]:
    """The lines of a list of one item under keys, one below the other."""
    heads = [f"{' ' * (column + 2 * place)}{key_text(name)}:" for place, name in enumerate(names)]
    return [*heads, *item_lines(values, column + 2 * len(names), line_end, as_block=_is_area(values))]


def _is_area(values: Values) -> bool:
    """An area of the roof has a line for each key, however few there are yet."""
    return isinstance(values, Mapping) and "area" in values


def _in_its_braces(draft: Draft, table: Table, names: list[str], values: Values) -> str:
    inner: Values = [values]
    for name in reversed(names[1:]):
        inner = {name: inner}
    every = spans(draft, table)
    at = every[-1][1] if every else table.start + 1
    head = f"{', ' if every else ''}{key_text(names[0])}: "
    return _put(draft.text, at, head + in_braces(inner, draft.column(at) + len(head), draft.line_end, names[0]))


def _put(text: str, at: int, more: str) -> str:
    return text[:at] + more + text[at:]


def _put_lines(draft: Draft, offset: int, lines: list[str], *, text: str | None = None) -> str:
    """The text with lines behind the line that holds an offset.  text: the draft's, changed behind the offset."""
    text = draft.text if text is None else text
    found = LINE_END.search(text, offset)
    return _put(text, found.start() if found else len(text), "".join(draft.line_end + line for line in lines))
