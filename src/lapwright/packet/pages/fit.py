"""How much fits on a day sheet: both its sides at 10 pt, never less, never a third page.

The parts of a sheet are set down one after the other as the template does, with heights measured on printed sheets and
a little added; what is left on the back is for the task, piece and lap tables.  A test sets days of every size.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.packet.page import DAY_PLAN, body
from lapwright.packet.pages.words import Json, Row

# [mm] at 10 pt: a row of a table, a further line of a paragraph, a paragraph of one line with the space around it.
ROW, LINE, PARAGRAPH = 4.42, 4.28, 4.4
HEAD, STRIP, STRIP_ROW = 11.6, 13.1, 4.5
HOT, HOT_LINE = 16.4, 5.3
BESIDE = 2.0  # the space about a table or drawing
FIELDS = 100.0  # what the places to write on take after the words about the watch [mm]
TASK_NAME = 36.0  # of the task table [mm]
NEAR_NAME, NEAR_FIXED = 24.0, 75.0  # of the table of what is near: its names, and all beside its list [mm]
COLUMN_HEADS = 5  # rows that headings and lines of counts take in each column
READING_NAME, READING_COLUMNS = 42.6, 94.0  # of the readings table: its names, and all beside the limits [mm]
EM = 10 * 25.4 / 72  # the size of the letters [mm]
# Mean widths of Inter's letters by kind [em]; a line is rarely filled to its end.
KINDS = (("iljI.,;:'|! ", 0.27), ("trf()-/", 0.38), ("mwMW", 0.88), ("0123456789", 0.63))
CAPITAL, LETTER, FILLED = 0.67, 0.58, 0.97
EM_OF = {letter: width for letters, width in KINDS for letter in letters}


@dataclass(frozen=True, slots=True)
class Caps:
    """The most things of a kind that are near, and the most items of a list in words."""

    near: int
    words: int


@dataclass(frozen=True, slots=True)
class Block:
    """A part of the sheet that goes over to the back whole where it does not fit: its height [mm].

    `again`: the height of what comes again over it on the back, the headings of its table [mm].
    """

    height: float
    again: float = 0.0


LADDER = (Caps(14, 8), Caps(8, 5), Caps(5, 3))
LEAST_TASKS = 12
BOUNDLESS = 1_000_000
AT_LENGTH = "see Days at length"


def rows_left(parts: Json, paper: str) -> int:
    """Rows of the task, piece and lap tables, in two columns, that fit beside the other parts."""
    width, height = body(paper)
    page, used = 1, 0.0
    for block in blocks(parts, width):
        if used + block.height <= height:
            used += block.height
        else:
            page, used = page + 1, block.again + block.height
    columns = [height - used] if page > 1 else [height - used, height]
    rows = sum(2 * max(0, math.floor(column / ROW) - COLUMN_HEADS) for column in columns)
    return max(4, rows) if page <= 2 else 4


def column_height(rows: int) -> float:
    """What a column of so many rows needs at least on one side, so that it does not begin with a row or two [mm].

    Three quarters of it: an estimate that is too high must not send it to a third page.
    """
    return 0.75 * ROW * (rows + COLUMN_HEADS)


def blocks(parts: Json, width: float) -> Iterator[Block]:
    """The parts over the task, piece and lap tables, in their order on the sheet."""
    strip, hot = parts["strip"], parts["hot"]
    yield Block(HEAD)
    if strip is not None:
        whole = STRIP + STRIP_ROW * len(strip["rows"])
        yield Block(whole + text_height("Shut in the crew's hours:", "; ".join(strip["why"]), width))
        yield Block(text_height("", strip["measure"], width))
    yield Block(DAY_PLAN + BESIDE)
    for line in parts["tug"]:
        yield Block(text_height("Contact.", line, width))
    yield from table_blocks(parts["readings"], (READING_NAME, width - READING_COLUMNS))
    if hot is not None:
        watch, boards = text_width(hot["watch"]) + FIELDS, text_width(hot["boards"])
        yield Block(HOT + HOT_LINE * (lines(watch, width - 4) + lines(boards, width - 4)))
    yield Block(text_height("", "; ".join(parts["tie_off"]), width))
    yield Block(text_height("", " ".join(parts["cautions"]), width))
    yield Block(text_height("Pattern.", " ".join(parts["pattern"]), width))
    yield Block(text_height("Details.", "; ".join(parts["details"]), width))
    yield Block(text_height("Lost.", "; ".join(parts["lost"]), width))
    if hot is not None:
        yield from table_blocks(hot["near"], (NEAR_NAME, width - NEAR_FIXED))


def table_blocks(table: Json, wide: tuple[float, float]) -> Iterator[Block]:
    """A table whose first two columns are so wide [mm]: its headings with its first row, then row after row."""
    above = BESIDE + ROW
    for row in table["rows"]:
        deep = max(lines(text_width(text), room) for text, room in zip(row[:2], wide, strict=True))
        yield Block(above + ROW + LINE * (deep - 1), again=ROW if above == 0.0 else 0.0)
        above = 0.0


def task_rows(tasks: Json) -> int:
    """Rows of the task table, names that take more than a line counted so."""
    return sum(lines(text_width(row[1]), TASK_NAME) for row in tasks["rows"])


def text_width(text: str) -> float:
    """Width of a text set on one line at 10 pt [mm], by the mean widths of its letters."""
    ems = sum(EM_OF.get(letter, CAPITAL if letter.isupper() else LETTER) for letter in text)
    return EM * ems


def lines(long: float, wide: float) -> int:
    """Lines of `wide` that a text `long` takes [mm]; at least one."""
    return max(1, math.ceil(long / (wide * FILLED)))


def text_height(lead: str, text: str, wide: float) -> float:
    """Height of a paragraph that begins with the words in `lead`; none where the text is empty."""
    return PARAGRAPH + LINE * (lines(text_width(f"{lead} {text}"), wide) - 1) if text else 0.0


def capped(whole: Json, most: int, rest: str) -> Json:
    """A table of at most `most` rows; the last one then says how many more there are."""
    rows: list[Any] = whole["rows"]
    if len(rows) <= most:
        return whole
    last = ["", f"and {len(rows) - most + 1} {rest}", *[""] * (len(whole["head"]) - 2)]
    return {**whole, "rows": [*rows[: most - 1], last], "bold": [at for at in whole["bold"] if at < most - 1]}


def listed(texts: Sequence[str], most: int) -> list[str]:
    """At most `most` texts, then how many more there are."""
    if len(texts) <= most:
        return list(texts)
    return [*texts[:most], f"and {len(texts) - most} more"]


def fitted(rows: list[Row], starts: list[int], room: int, where: str) -> tuple[list[Row], list[int]]:
    """As many rows as there is room for; the last one then says how many more there are, and where."""
    if len(rows) <= room:
        return rows, starts
    kept = max(0, room - 2)  # the last row takes two lines
    rest = ("", f"and {len(rows) - kept} more: {where}", *[""] * (len(rows[0]) - 2))
    return [*rows[:kept], rest], [at for at in starts if at < kept]
