"""Dates, clock times, directions and tables as the packet writes them."""

from __future__ import annotations

import datetime as dt
import math
import re
from collections.abc import Iterable, Sequence
from typing import Any

Json = dict[str, Any]
Row = Sequence[str]
WEEKDAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
COMPASS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")
LONGEST_TITLE = 60
LONG_WORD, PART = re.compile(r"\S{29,}"), 20


def date_words(date: dt.date | None, *, weekday: bool = True) -> str:
    """A date that no reader takes for another: `Mon 11 Jan 2027`; empty for none."""
    if date is None:
        return ""
    day = f"{date.day} {MONTHS[date.month - 1]} {date.year}"
    return f"{WEEKDAYS[date.weekday()]} {day}" if weekday else day


def clock(minutes: float) -> str:
    """Minutes after midnight as a clock time."""
    hours, rest = divmod(round(minutes), 60)
    return f"{hours:02d}:{rest:02d}"


def bearing(vector: tuple[float, float]) -> str:
    """A direction in plan as a compass point, or as a bearing from the meridian: `S`, `N 35° 30' E`."""
    east, north = vector
    angle = math.degrees(math.atan2(east, north)) % 360
    eighth = round(angle / 45)
    if abs(angle - 45 * eighth) < 1e-6:
        return COMPASS[eighth % 8]
    off = min(angle % 180, 180 - angle % 180)
    degrees, minutes = divmod(round(off * 60), 60)
    part = f" {minutes:02d}'" if minutes else ""
    return f"{'N' if north >= 0 else 'S'} {degrees}°{part} {'E' if east >= 0 else 'W'}"


def counted(number: int, word: str, many: str = "") -> str:
    """`1 piece`, `2 pieces`, `3 boxes`."""
    return f"{number} {word if number == 1 else many or plural(word)}"


def plural(word: str) -> str:
    """The plural of a thing that is counted."""
    return word + ("es" if word.endswith(("x", "s", "ch", "sh")) else "s")


def shortened(text: str, most: int = LONGEST_TITLE) -> str:
    """One line of at most `most` characters."""
    line = " ".join(text.split())
    return line if len(line) <= most else line[: most - 1] + "…"


def soft(value: Any) -> Any:  # noqa: ANN401  # any part of a page's data
    """The same data, with places to break in words that are longer than any column."""
    if isinstance(value, str):
        return LONG_WORD.sub(broken, value)
    if isinstance(value, dict):
        return {key: soft(one) for key, one in value.items()}
    return [soft(one) for one in value] if isinstance(value, list) else value


def broken(word: re.Match[str]) -> str:
    """A long word with zero-width spaces in it."""
    text = word.group()
    return "\u200b".join(text[at : at + PART] for at in range(0, len(text), PART))


def table(
    head: Row,
    rows: Iterable[Row],
    widths: Row,
    *,
    right: Sequence[int] = (),
    bold: Sequence[int] = (),
    starts: Sequence[int] = (),
    named: bool = False,
) -> Json:
    """A table of texts: headings, rows, column widths (`auto`, `2fr`, `18mm`).

    right: columns set to the right; bold: rows; starts: rows that begin a group, named: by their first cell.
    """
    return {
        "head": list(head),
        "rows": [list(row) for row in rows],
        "widths": list(widths),
        "right": list(right),
        "bold": list(bold),
        "starts": list(starts),
        "named": named,
    }


def without_empty(whole: Json) -> Json:
    """A table without its columns that have nothing in any row; the first one always stays."""
    kept = [at for at in range(len(whole["head"])) if at == 0 or any(row[at] for row in whole["rows"])]
    return {
        **whole,
        "head": [whole["head"][at] for at in kept],
        "rows": [[row[at] for at in kept] for row in whole["rows"]],
        "widths": [whole["widths"][at] for at in kept],
        "right": [kept.index(at) for at in whole["right"] if at in kept],
    }


def spans(values: Sequence[int]) -> list[tuple[int, int]]:
    """Whole numbers as runs: (first, last) of each."""
    runs: list[tuple[int, int]] = []
    for value in values:
        if runs and value == runs[-1][1] + 1:
            runs[-1] = (runs[-1][0], value)
        else:
            runs.append((value, value))
    return runs
