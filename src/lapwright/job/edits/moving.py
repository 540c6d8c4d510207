"""Moves an item of a job file's list to another place in it: the plies, the areas, the openings of an area.

An item takes its own lines and the comment behind it along; comments and empty lines between items stay where they are.
"""

from __future__ import annotations

from lapwright.job.edits.draft import Draft, begin, steps_of, with_change
from lapwright.job.edits.entries import spans
from lapwright.job.tree import Path, Row, plain


def move_item(text: str, path: str, to: int, *, file: str = "job.yaml") -> str:
    """The job file's text with one item at another place of its list.

    Args:
        text: the whole file; it must have the form of a job file, its meaning is not asked.
        path: of the item, as faults show it: `assembly.plies[1]`.
        to: the place it shall have in the list, from 0.

    Raises: Refused where the file can't be read, the path is no item's, or the list has no such place.
    """
    return moved(begin(text, file=file), steps_of(path, file=file), to).text


def moved(draft: Draft, path: Path, to: int) -> Draft:
    """The draft with one item at another place of its list.

    Raises: Refused, as move_item.
    """
    row, place = draft.at(path[:-1]), path[-1]
    if not isinstance(row, Row) or not isinstance(place, int) or place >= len(row.items):
        raise draft.refused(path, "the path of a list's item", read="", write="roof[1]")
    if not 0 <= to < len(row.items):
        raise draft.refused(path, f"a place in the list, from 0 to {len(row.items) - 1}", read=str(to))
    every = spans(draft, row)
    if not row.is_flow:
        every = [(start, draft.line_stop(end)) for start, end in every]
    order = [number for number in range(len(every)) if number != place]
    order.insert(to, place)
    text, position = "", 0
    for (start, end), number in zip(every, order, strict=True):
        text += draft.text[position:start] + draft.text[slice(*every[number])]
        position = end
    text += draft.text[position:]

    def reordered(items: object) -> object:
        assert isinstance(items, list)  # a list stands there
        return [items[number] for number in order]

    made = draft.take([text], with_change(plain(draft.reading.root), path[:-1], reordered))
    if made is None:
        raise draft.refused(path, "an item that can be moved by itself; change it in the text", read="")
    return made
