"""Where the entries of a table or a list stand in the text: keys with their values, items with their dashes."""

from __future__ import annotations

from lapwright.job.edits.draft import Draft, end_of
from lapwright.job.tree import Row, Table

Span = tuple[int, int]


def spans(draft: Draft, holder: Table | Row) -> list[Span]:
    """From where to where each entry stands: from its key, or from its dash in a block; comments are not in it."""
    if isinstance(holder, Table):
        return [(pair.key.start, end_of(pair.value)) for pair in holder.pairs.values()]
    if holder.is_flow:
        return [(item.start, item.end) for item in holder.items]
    return [(dash, end_of(item)) for dash, item in zip(_dashes(draft, holder), holder.items, strict=True)]


def _dashes(draft: Draft, row: Row) -> list[int]:
    """Offsets of the dashes: one column, each on the line of its item or above it, behind the item before."""
    found, column = [row.start], draft.column(row.start)
    for before, item in zip(row.items, row.items[1:], strict=False):
        line, stop = draft.line_start(item.start), end_of(before)
        while line > stop and not (draft.text.startswith("-", line + column) and draft.has_own_line(line + column)):
            line = draft.line_start(line - 1)
        found.append(line + column)
    return found


def place_in(holder: Table | Row, step: str | int) -> int:
    """Which entry of its holder a step names, from 0."""
    return step if isinstance(step, int) else list(holder.pairs if isinstance(holder, Table) else ()).index(step)
