"""A job file while it is edited: its text with the tree read from it, changed only where the tree says it is right.

An edit proposes a text and says what the plain values must be afterwards.  The text is taken where it reads as just
that and has no new fault of form; so a comma in the wrong place can't slip through, whatever the file looks like.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import lru_cache

from lapwright.faults import Fault, Refused
from lapwright.job.composing import Reading, compose
from lapwright.job.trap import told
from lapwright.job.tree import Node, Path, Table, Text, nearest, path_of, plain, written

MOST_CHARACTERS = 1_000_000

LINE_END = re.compile(r"\r\n|\r|\n")
_EMPTY_LINE = re.compile(r"\r\n\r\n|\n\n|\r\r")


@dataclass(frozen=True, slots=True)
class Draft:
    """The whole text, what was read of it, and the file's name as faults show it."""

    text: str
    reading: Reading
    file: str

    def at(self, path: Path) -> Node | None:
        """The node exactly at a path."""
        node, reached = nearest(self.reading.root, path)
        return node if reached == path else None

    def column(self, offset: int) -> int:
        """Characters before an offset on its line; a byte order mark is none."""
        return self.reading.places.of(offset)[1] - 1

    def line_start(self, offset: int) -> int:
        """Offset of the first character of the line that holds `offset`."""
        return self.reading.places.line_start(offset)

    def line_stop(self, offset: int) -> int:
        """Offset behind the last character of the line that holds `offset`, before its line end."""
        found = LINE_END.search(self.text, offset)
        return found.start() if found else len(self.text)

    def past_line(self, offset: int) -> int:
        """Offset behind the line end of the line that holds `offset`."""
        found = LINE_END.search(self.text, offset)
        return found.end() if found else len(self.text)

    def has_own_line(self, offset: int) -> bool:
        """Nothing but spaces stands before an offset on its line."""
        return self.text[self.line_start(offset) : offset].strip(" ") == ""

    @property
    def line_end(self) -> str:
        """The line end of the file: that of its first line."""
        found = LINE_END.search(self.text)
        return found[0] if found else "\n"

    def gap_above(self, column: int) -> list[str]:
        """The empty line above a block that is put in, where the file's own blocks are kept apart so."""
        return [""] if column == 0 and _EMPTY_LINE.search(self.text) else []

    def behind_key(self, path: Path) -> int:
        """Offset behind the colon of the key that a path ends in."""
        above = self.at(path[:-1])
        assert isinstance(above, Table)  # the callers have found the key there
        colon = above.pairs[str(path[-1])].key.end
        while self.text.startswith(" ", colon):
            colon += 1
        return colon + 1

    def take(self, proposed: Iterable[str], wanted: object) -> Draft | None:
        """The first of the texts that reads as the plain values wanted, with no fault that was not there before."""
        for text in proposed:
            if len(text) <= MOST_CHARACTERS:
                again = composed(text, self.file)
                is_sound = again.cut_at is None and len(again.faults) <= len(self.reading.faults)
                if is_sound and plain(again.root) == wanted:
                    return Draft(text, again, self.file)
        return None

    def refused(self, path: Path, needs: str, *, read: str | None = None, write: str = "") -> Refused:
        """The refusal of an edit at a path, told where the path leads, or at the last place on the way to it."""
        node, reached = nearest(self.reading.root, path)
        line, column = self.reading.places.of(node.start)
        if read is None:
            read = " ".join(node.typed.split()) if isinstance(node, Text) and reached == path else ""
        return Refused([Fault(self.file, line, column, written(path), told(read), needs, write)])


@lru_cache(maxsize=4)
def composed(text: str, file: str) -> Reading:
    """What compose gives; the text that one edit leaves is the one that the next begins with."""
    return compose(text, file=file)


def begin(text: str, *, file: str) -> Draft:
    """A text ready to be edited.

    Raises: Refused where it is too long, or can't be read to its end.
    """
    if len(text) > MOST_CHARACTERS:
        needs = f"a job file of at most {MOST_CHARACTERS:,} characters; long outlines come from drawings"
        raise Refused([Fault(file, 0, 0, "", f"{len(text):,} characters", needs, "")])
    reading = composed(text, file)
    if reading.cut_at is not None:
        raise Refused(reading.faults or [_cut_off(reading, reading.cut_at, file)])
    return Draft(text, reading, file)


def _cut_off(reading: Reading, at: int, file: str) -> Fault:
    """The fault of a file that is sound and yet ends early: behind its closing mark nothing can be put."""
    line, column = reading.places.of(at)
    return Fault(file, line, column, "", "...", "a file without this line, so that keys can be added at its end", "")


def steps_of(path: str | Path, *, file: str) -> Path:
    """The steps of a path as faults show it.

    Raises: Refused where the text is no path, or an empty one.
    """
    try:
        steps = path_of(path) if isinstance(path, str) else path
    except ValueError:
        steps = ()
    if not steps:
        needs = "the path of a key, as faults show it"
        raise Refused([Fault(file, 0, 0, told(str(path)), "", needs, "roof[0].slope")])
    return steps


def end_of(node: Node) -> int:
    """Offset behind the last character of a value; a block ends with the last value in it."""
    while not isinstance(node, Text) and not node.is_flow:
        node = list(node.pairs.values())[-1].value if isinstance(node, Table) else node.items[-1]
    return node.end


def with_change(whole: object, path: Path, change: Callable[[object], object]) -> object:
    """Plain values, changed at a path that they have; what they were stays as it was."""
    if not path:
        return change(whole)
    step = path[0]
    if isinstance(whole, list):
        return [with_change(item, path[1:], change) if place == step else item for place, item in enumerate(whole)]
    assert isinstance(whole, dict)  # a path leads through lists and tables alone
    return {name: with_change(item, path[1:], change) if name == step else item for name, item in whole.items()}
