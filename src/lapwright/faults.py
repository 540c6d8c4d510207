"""What is said to people when their input can't be used, and what was mended in it.

A *fault* is about the user's input: where it stands, what was read, what is needed, what to
write instead.  Faults are collected and told all at once.  A *mended* note says what an import
changed so that nothing is mended silently.  Bugs are ordinary exceptions and are never caught.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

MOST_TOLD = 20


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing in the input that can't be used.

    line and column count from 1; 0 means the whole file.  `write` can be pasted.
    """

    file: str
    line: int
    column: int
    key: str
    read: str
    needs: str
    write: str

    def text(self) -> str:
        """The fault as a terminal shows it."""
        place = self.file if self.line == 0 else f"{self.file}:{self.line}:{self.column}"
        head = f"{place}  {self.key}" if self.key else place
        rows = [head]
        if self.read:
            rows.append(f"  read:   {shorten(self.read)}")
        rows.append(f"  needs:  {self.needs}")
        if self.write:
            rows.append(f"  write:  {self.write}")
        return "\n".join(rows)

    def as_json(self) -> dict[str, str | int]:
        """The fault as a plain mapping: the one shape that crosses a wire."""
        return {
            "file": self.file,
            "line": self.line,
            "column": self.column,
            "key": self.key,
            "read": self.read,
            "needs": self.needs,
            "write": self.write,
        }


@dataclass(frozen=True, slots=True)
class Mended:
    """Something an import repaired: what was found, what was done, and where."""

    file: str
    place: str
    found: str
    done: str

    def text(self) -> str:
        """The note as a terminal shows it."""
        return f"{self.file}  {self.place}: {self.found}; {self.done}"


class Refused(Exception):  # noqa: N818  # the trade's word; it is told, not debugged
    """The input can't be used.  Carries every fault found, in file order."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults: tuple[Fault, ...] = tuple(sorted(faults, key=place_of))
        super().__init__("; ".join(f"{f.key}: needs {f.needs}" for f in self.faults))

    def text(self) -> str:
        """The first faults and a count of the rest, as a terminal shows them."""
        told = [fault.text() for fault in self.faults[:MOST_TOLD]]
        rest = len(self.faults) - MOST_TOLD
        if rest > 0:
            told.append(f"and {rest} more")
        return "\n\n".join(told)


def place_of(fault: Fault) -> tuple[str, int, int, str]:
    """Sort key: file, line, column, key."""
    return (fault.file, fault.line, fault.column, fault.key)


def shorten(text: str, most: int = 120) -> str:
    """Printable single line of at most `most` characters, so that hostile text stays tame."""
    line = "".join(c if c.isprintable() else "·" for c in text)
    return line if len(line) <= most else line[: most - 1] + "…"
