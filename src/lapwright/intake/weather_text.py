"""The text of a weather file: its bytes read within bounds, its lines counted, its cells looked at.

A weather file is refused whole where its form is broken (a line with a cell too few, a date that is none): a year
with a shifted column would be read as another climate.  Single readings that are missing or absurd are another matter
(`weather_clean`).
"""

from __future__ import annotations

import gzip
import io
import zlib
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import BinaryIO

from lapwright.faults import Fault, Refused

MOST_BYTES = 32 * 1024 * 1024
_GZIP = b"\x1f\x8b"
_WHAT_TO_BRING = "an EPW, TMY3 CSV, ISD-Lite or logger CSV file of one year"


@dataclass(frozen=True, slots=True)
class Lines:
    """The lines of a file, counted from 1, with its name for faults."""

    file: str
    text: tuple[str, ...]

    def fault(self, line: int, key: str, needs: str, *, read: str | None = None, write: str = "") -> Fault:
        """A fault at a line, quoting it unless told what was read; line 0 is the whole file."""
        shown = (self.text[line - 1] if 0 < line <= len(self.text) else "") if read is None else read
        return Fault(self.file, line, 1 if line else 0, key, shown, needs, write)


def lines_of(stream: BinaryIO, *, file: str) -> Lines:
    """The lines of a weather file, gzip undone, empty lines at its end left out.

    Raises: Refused where it is empty, too large, broken gzip or no text.
    """
    raw = _unzipped(stream, file=file)
    if len(raw) > MOST_BYTES:
        raise Refused([_whole(file, f"more than {MOST_BYTES // 1024**2} MB", _WHAT_TO_BRING)])
    if b"\x00" in raw:
        raise Refused([_whole(file, "bytes that are no text", _WHAT_TO_BRING)])
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        text = raw.decode("latin-1")  # older files spell place names so; readings are plain ASCII
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    while lines and not lines[-1].strip():
        lines.pop()
    if not lines:
        raise Refused([_whole(file, "an empty file", _WHAT_TO_BRING)])
    return Lines(file, tuple(lines))


def must(faults: Sequence[Fault]) -> None:
    """Refuse if there are faults."""
    if faults:
        raise Refused(faults)


def cell_faults(lines: Lines, first: int, *, least: int, most: int, needs: str) -> list[Fault]:
    """Faults of the comma-separated lines from line `first` on that have too few or too many cells, or a quote.

    A quote could join two lines into one, which no weather file needs.
    """
    faults = []
    for number, line in enumerate(lines.text[first - 1 :], start=first):
        if '"' in line or not least <= line.count(",") + 1 <= most:
            faults.append(lines.fault(number, "cells", needs))
    return faults


def number_faults(lines: Lines, line: int, cells: dict[str, str]) -> list[Fault]:
    """Faults of the cells of a heading that are no plain numbers."""
    return [lines.fault(line, key, "a number", read=cell) for key, cell in cells.items() if not is_number(cell)]


def is_number(cell: str) -> bool:
    """Whether a cell reads as a finite number."""
    try:
        value = float(cell)
    except ValueError:
        return False
    return value - value == 0


def column_faults(
    lines: Lines, first: int, cell_of: Callable[[str], str], name: str, bad: Sequence[int]
) -> list[Fault]:
    """Faults of one column whose rows `bad` (from 0, row 0 on line `first`) are no numbers."""
    return [lines.fault(first + row, name, "a number", read=cell_of(lines.text[first + row - 1])) for row in bad]


def joined(lines: Lines) -> io.StringIO:
    """The lines as an open text, for a library's reader."""
    return io.StringIO("\n".join(lines.text) + "\n")


def _unzipped(stream: BinaryIO, *, file: str) -> bytes:
    """Bytes of a file, never more than one over the bound: a small zip can hide a large text."""
    raw = stream.read(MOST_BYTES + 1)
    if raw[:2] != _GZIP:
        return raw
    try:
        with gzip.GzipFile(fileobj=io.BytesIO(raw)) as packed:
            return packed.read(MOST_BYTES + 1)
    except (OSError, EOFError, zlib.error):
        raise Refused([_whole(file, "a gzip file that breaks off or is damaged", "the whole file")]) from None


def _whole(file: str, read: str, needs: str) -> Fault:
    return Fault(file, 0, 0, "weather", read, needs, "")
