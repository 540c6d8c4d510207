"""How wide a line of lettering runs, from the advance widths of the fonts that come with the package.

The widths stand in `fonts/widths.csv` (1/1024 of the em, read from the fonts themselves), so that labels are placed
the same on every machine and no font library is needed.
"""

from __future__ import annotations

import csv
from collections.abc import Mapping
from functools import lru_cache
from importlib.resources import files

# Both cuts of the drawing font: a capital stands 736 of 1024 units high.
CAPITAL_OF_EM = 736 / 1024
UNKNOWN_ADVANCE = 700


@lru_cache(maxsize=1)
def advances() -> Mapping[int, tuple[int, int]]:
    """Advance widths by code point: regular and narrow [1/1024 em]."""
    text = files("lapwright.packet.fonts").joinpath("widths.csv").read_text("utf-8")
    return {int(row["code"]): (int(row["regular"]), int(row["narrow"])) for row in csv.DictReader(text.splitlines())}


def text_width(text: str, height: float, *, narrow: bool = False) -> float:
    """Width of a line whose capitals are `height` high, in the unit of `height`."""
    return advance(text, 1 if narrow else 0) / 1024 * height / CAPITAL_OF_EM


@lru_cache(maxsize=8192)
def advance(text: str, cut: int) -> int:
    """Width of a line in one cut of the font, 0 regular or 1 narrow [1/1024 em]."""
    table = advances()
    return sum(table[ord(c)][cut] if ord(c) in table else UNKNOWN_ADVANCE for c in text)


def clean(text: str) -> str:
    """One printable line: control characters, line breaks and halves of code points become spaces."""
    return "".join(c if c.isprintable() else " " for c in text)


def wrapped(text: str, height: float, width: float, *, narrow: bool = False) -> list[str]:
    """The text broken at spaces into lines no wider than `width`; a word too long for one is broken."""
    lines: list[str] = []
    for word in text.split():
        for part in broken(word, height, width, narrow=narrow):
            trial = f"{lines[-1]} {part}" if lines else part
            if lines and text_width(trial, height, narrow=narrow) <= width:
                lines[-1] = trial
            else:
                lines.append(part)
    return lines


def broken(word: str, height: float, width: float, *, narrow: bool = False) -> list[str]:
    """A word in pieces no wider than `width`; whole where it fits."""
    if text_width(word, height, narrow=narrow) <= width:
        return [word]
    pieces = [""]
    for letter in word:
        if pieces[-1] and text_width(pieces[-1] + letter, height, narrow=narrow) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def fitted(text: str, height: float, width: float) -> str:
    """One printable line no wider than `width`, its end left off with two dots where it is too long."""
    line = clean(text)
    if text_width(line, height) <= width:
        return line
    while line and text_width(line + "..", height) > width:
        line = line[:-1]
    return line.rstrip() + ".."
