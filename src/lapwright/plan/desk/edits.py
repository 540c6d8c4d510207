"""Edits of a job as values: from a page's JSON, applied to the job file's text one after another, or none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from lapwright.faults import Fault, Refused
from lapwright.job.edit import changed
from lapwright.job.edits.adding import added
from lapwright.job.edits.draft import Draft, begin, steps_of
from lapwright.job.edits.dropping import dropped
from lapwright.job.edits.moving import moved
from lapwright.job.edits.typed import Values
from lapwright.job.reading import MOST_BYTES


@dataclass(frozen=True, slots=True)
class SetValue:
    """A value replaced, or put in where its key is absent.  path: as faults show it, `roof[0].edges[1].kind`."""

    path: str
    value: str


@dataclass(frozen=True, slots=True)
class DropValue:
    """A key or a list's item taken out."""

    path: str


@dataclass(frozen=True, slots=True)
class AddItem:
    """An item put behind the last of a list.  path: of the list, `roof[0].openings`."""

    path: str
    values: Values


@dataclass(frozen=True, slots=True)
class MoveItem:
    """An item put at another place of its list.  path: of the item, `assembly.plies[1]`; to: its place, from 0."""

    path: str
    to: int


@dataclass(frozen=True, slots=True)
class SetText:
    """The whole file as typed by hand; it may have faults, which are told when it is read."""

    text: str


Edit: TypeAlias = SetValue | DropValue | AddItem | MoveItem | SetText


def apply(text: str, edits: Sequence[Edit], file: str) -> str:
    """The job file's text after all the edits, in their order; where one can't be made, none is.

    Raises: Refused with the faults of the first edit that can't be made.
    """
    draft: Draft | None = None
    for edit in edits:
        if isinstance(edit, SetText):
            text, draft = _whole(edit.text, file), None
        else:
            draft = _edited(draft or begin(text, file=file), edit)
            text = draft.text
    return text


def _edited(draft: Draft, edit: SetValue | DropValue | AddItem | MoveItem) -> Draft:
    path = steps_of(edit.path, file=draft.file)
    if isinstance(edit, SetValue):
        return changed(draft, path, edit.value)
    if isinstance(edit, DropValue):
        return dropped(draft, path)
    if isinstance(edit, AddItem):
        return added(draft, path, edit.values)
    return moved(draft, path, edit.to)


def _whole(text: str, file: str) -> str:
    """A text that a file can hold."""
    try:
        size = len(text.encode("utf-8"))
    except UnicodeEncodeError as found:
        needs = "text that can be saved as UTF-8"
        raise Refused([Fault(file, 0, 0, "", f"U+{ord(text[found.start]):04X}", needs, "")]) from None
    if size > MOST_BYTES:
        needs = "a job file of at most 1 MB; long outlines come from drawings"
        raise Refused([Fault(file, 0, 0, "", f"{size:,} bytes", needs, "")])
    return text
