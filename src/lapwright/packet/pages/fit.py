"""How much fits on a day sheet: both its sides at 10 pt, never less, never a third page.

The parts of a sheet are set down one after the other as the template does, with heights measured on printed sheets and
a little added; what is left on the back is for the piece and lap tables.  A test sets days of every size.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.packet.page import DAY_PLAN, body
from lapwright.packet.pages.words import Json, Row

# [mm] at 10 pt: a row of a table, a further line of a paragraph, a paragraph of one line with the space around it.
ROW, LINE, PARAGRAPH = 4.45, 4.3, 4.6
HEAD, STRIP, STRIP_ROW = 11.5, 13.5, 4.5
HOT, HOT_LINE = 19.0, 5.3
FIELDS = 55  # characters that the lines to write on take after the watch
COLUMN_HEADS = 4  # rows that headings and a line of counts take in each column
CHARACTERS = 0.53  # of text at 10 pt to a millimetre, on the safe side
READING_COLUMNS = 92.0  # of the readings table, beside the limits [mm]


@dataclass(frozen=True, slots=True)
class Caps:
    """The most rows of tasks and of what is near, and the most items of a list in words."""

    tasks: int
    near: int
    words: int


@dataclass(frozen=True, slots=True)
class Block:
    """A part of the sheet: its height [mm], and whether it goes over to the back whole where it does not fit."""

    height: float
    whole: bool = True


ROOMY, TIGHT = Caps(16, 14, 8), Caps(8, 5, 3)


def rows_left(parts: Json, paper: str) -> int:
    """Rows of the piece and lap tables, in two columns, that fit beside the other parts."""
    width, height = body(paper)
    page, used = 1, 0.0
    for block in blocks(parts, width):
        if used + block.height <= height:
            used += block.height
        elif block.whole:
            page, used = page + 1, block.height
        else:
            page, used = page + 1, used + block.height - height + ROW
    columns = [height - used] if page > 1 else [height - used, height]
    rows = sum(2 * max(0, math.floor(column / ROW) - COLUMN_HEADS) for column in columns)
    return max(4, rows) if page <= 2 else 4


def blocks(parts: Json, width: float) -> Iterator[Block]:
    """The parts over the piece and lap tables, in their order on the sheet."""
    wide = math.floor(width * CHARACTERS)
    strip, hot = parts["strip"], parts["hot"]
    yield Block(HEAD)
    if strip is not None:
        yield Block(STRIP + STRIP_ROW * len(strip["rows"]) + text_height("; ".join(strip["why"]), wide, lead=32))
    yield Block(DAY_PLAN + 3.2)
    for line in parts["tug"]:
        yield Block(text_height(line, wide, lead=10))
    limit_wide = math.floor((width - READING_COLUMNS) * CHARACTERS)
    limits = [lines(row[1], limit_wide) for row in parts["readings"]["rows"]]
    yield Block(ROW * (len(limits) + 1) + LINE * (sum(limits) - len(limits)), whole=False)
    if hot is not None:
        yield Block(HOT + HOT_LINE * (lines(hot["watch"] + " " * FIELDS, wide) + lines(hot["boards"], wide)))
    yield Block(text_height("; ".join(parts["tie_off"]), wide, lead=15))
    yield Block(text_height(" ".join(parts["cautions"]), wide))
    yield Block(table_height(parts["tasks"]))
    yield Block(text_height("; ".join(parts["details"]), wide, lead=10))
    yield Block(text_height("; ".join(parts["lost"]), wide, lead=10))
    if hot is not None:
        yield Block(table_height(hot["near"]) + ROW, whole=False)


def lines(text: str, wide: int) -> int:
    """Lines of `wide` characters that a text takes; at least one."""
    return max(1, math.ceil(len(text) / wide))


def text_height(text: str, wide: int, *, lead: int = 0) -> float:
    """Height of a paragraph, `lead` characters before it counted; none for an empty one."""
    return PARAGRAPH + LINE * (lines(" " * lead + text, wide) - 1) if text else 0.0


def table_height(table: Json) -> float:
    """Height of a table whose cells are one line high; none for an empty one."""
    return ROW * (len(table["rows"]) + 1) if table["rows"] else 0.0


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
    rest = ("", f"and {len(rows) - kept} more lines: {where}", *[""] * (len(rows[0]) - 2))
    return [*rows[:kept], rest], [at for at in starts if at < kept]
