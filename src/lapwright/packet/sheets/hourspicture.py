"""The year of hours as a picture, one operation a picture; and a month of it, larger.

States are told apart by hatch and word: open clear, warm dotted, heat hatched, shut solid, and where a reading or a
limit is missing unknown, hatched the other way.  The year stands in rows of
months: each row has its days side by side and the 24 hours of a day from below upwards, so that a date can be found
and a morning told from an afternoon.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray

from lapwright.hours.values import STATE_WORDS, HourTable
from lapwright.packet.drawing import Fill, Ink, Item, Pattern, Plate, Stroke, Text, rectangle
from lapwright.packet.lettering import fitted, text_width
from lapwright.packet.sheets.legend import Entry, clear_entry, fill_entry, legend

LAYER = "HOURS"
# Hatch and ink by state; an open hour is left clear.
HATCH: Mapping[str, tuple[Pattern, Ink]] = MappingProxyType(
    {"warm": ("dots", "ink"), "heat": ("heat", "ink"), "shut": ("solid", "grey"), "unknown": ("back", "ink")}
)
MEANING: Mapping[str, str] = MappingProxyType(
    {
        "open": "open",
        "warm": "warm: rolls from the warm store",
        "heat": "heat: warm rolls, laps welded",
        "shut": "shut",
        "unknown": "unknown: no reading or limit",
    }
)
WORDS = (*STATE_WORDS, "unknown")
UNKNOWN = len(STATE_WORDS)
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
HOURS, DAYS = 24, 31
LETTER, HEAD = 2.0, 3.2
LEFT, RIGHT, TOP, FOOT, GAP = 12.0, 22.0, 17.0, 7.0, 2.0
ENTRY = 56.0


@dataclass(frozen=True, slots=True)
class Row:
    """Where a month is drawn [mm]: left, low, width of a day, height of 24 hours."""

    left: float
    low: float
    day: float
    height: float


def operation_words(operation: str) -> str:
    """An operation's name as it is said."""
    return operation.replace("_", " ")


def year_picture(table: HourTable, operation: str, *, width: float, height: float) -> Plate:
    """Every hour of the year for one operation, on paper of `width` by `height` [mm]."""
    month_of = months(table)
    found = [int(month) for month in np.unique(month_of)]
    tall = (height - TOP - FOOT - GAP * (len(found) - 1)) / max(len(found), 1)
    day = (width - LEFT - RIGHT) / DAYS
    items: list[Item] = []
    for place, month in enumerate(found):
        row = Row(LEFT, height - TOP - place * (tall + GAP) - tall, day, tall)
        items += month_items(table, operation, month_of == month, row)
        items += month_words(table, operation, month_of == month, row, MONTHS[month - 1])
    items += day_numbers(day, height - TOP)
    return framed(table, operation, np.unique(codes(table, operation)), items, (width, height))


def month_picture(table: HourTable, operation: str, month: int, *, width: float, height: float) -> Plate:
    """The hours of one month (1..12) for one operation."""
    chosen = months(table) == month
    row = Row(LEFT, FOOT, (width - LEFT - RIGHT) / DAYS, height - TOP - FOOT)
    items = month_items(table, operation, chosen, row) + month_words(table, operation, chosen, row, MONTHS[month - 1])
    items += day_numbers(row.day, height - TOP)
    return framed(table, operation, np.unique(codes(table, operation)[chosen]), items, (width, height))


def framed(
    table: HourTable, operation: str, shown: NDArray[np.int64], items: list[Item], size: tuple[float, float]
) -> Plate:
    """The picture with its title, the legend of the states shown, and origin."""
    width, height = size
    title = f"Hours for {operation_words(operation)}"
    head: list[Item] = [Text((0.0, height - HEAD), title, HEAD, LAYER)]
    entries = state_entries(shown)
    step = min(ENTRY, width / max(len(entries), 1))
    for place, entry in enumerate(entries):
        head += legend((entry,), (place * step, height - 6.2), width=step, height=height)
    weather = fitted(table.weather.name, LETTER, width / 3)
    words = f"Weather: {weather}. A day's 24 hours stand from midnight at its foot; marks at 6, 12, 18 h."
    head.append(Text((0.0, 1.0), words, LETTER, LAYER))
    return Plate(width, height, (*items, *head), title)


def months(table: HourTable) -> NDArray[np.int64]:
    """The month (1..12) of each hour, (hours,)."""
    return table.weather.start.astype("datetime64[M]").astype(np.int64) % 12 + 1


def codes(table: HourTable, operation: str) -> NDArray[np.int64]:
    """The place in WORDS of each hour, (hours,)."""
    return np.where(table.is_unknown(operation), UNKNOWN, table.states[operation])


def month_grid(table: HourTable, operation: str, chosen: NDArray[np.bool_]) -> NDArray[np.int64]:
    """Places in WORDS of a month by day and hour, (31, 24); -1 where the year has no such hour."""
    start = table.weather.start[chosen]
    day_starts = start.astype("datetime64[D]")
    day = (day_starts - start.astype("datetime64[M]").astype("datetime64[D]")).astype(np.int64)
    hour = (start - day_starts).astype("timedelta64[h]").astype(np.int64)
    grid = np.full((DAYS, HOURS), -1, np.int64)
    grid[day, hour] = codes(table, operation)[chosen]
    return grid


def month_items(table: HourTable, operation: str, chosen: NDArray[np.bool_], row: Row) -> list[Item]:
    """The hatches of a month, its frame, its days and the marks of its hours."""
    grid = month_grid(table, operation, chosen)
    step = row.height / HOURS
    items: list[Item] = []
    for code, word in enumerate(WORDS):
        rings = tuple(
            rectangle(row.left + day * row.day, row.low + first * step, count * row.day, (last - first) * step)
            for day, count, first, last in blocks(grid == code)
        )
        if rings and word in HATCH:
            pattern, ink = HATCH[word]
            items.append(Fill(rings, LAYER, pattern=pattern, ink=ink))
            if word != "shut":  # a single hour is lower than the hatch's spacing: its outline shows it
                items += [Stroke(ring, LAYER, weight="hair", closed=True) for ring in rings]
    days = int(np.flatnonzero((grid >= 0).any(axis=1)).max(initial=-1)) + 1
    for day in range(1, days):
        x = row.left + day * row.day
        items.append(Stroke(((x, row.low), (x, row.low + row.height)), LAYER, weight="hair"))
    for hour in (6, 12, 18):
        y = row.low + hour * step
        items.append(Stroke(((row.left - (1.6 if hour == 12 else 0.8), y), (row.left, y)), LAYER))
    items.append(Stroke(rectangle(row.left, row.low, days * row.day, row.height), LAYER, weight="medium", closed=True))
    return items


def blocks(cells: NDArray[np.bool_]) -> Iterator[tuple[int, int, int, int]]:
    """Rectangles that cover the true cells of (days, hours): first day, days, first hour, hour after the last.

    Runs of hours that are the same on neighbouring days become one rectangle.
    """
    open_runs: dict[tuple[int, int], int] = {}
    by_day = hour_runs(cells)
    for day in range(cells.shape[0] + 1):
        runs = set(by_day.get(day, ()))
        for run in sorted(set(open_runs) - runs):
            first = open_runs.pop(run)
            yield (first, day - first, *run)
        for run in runs - set(open_runs):
            open_runs[run] = day


def hour_runs(cells: NDArray[np.bool_]) -> dict[int, list[tuple[int, int]]]:
    """Runs of true hours by day: first hour, hour after the last."""
    padded = np.zeros((cells.shape[0], cells.shape[1] + 2), np.int8)
    padded[:, 1:-1] = cells
    steps = np.diff(padded, axis=1)
    found: dict[int, list[tuple[int, int]]] = {}
    for (day, first), (_, last) in zip(np.argwhere(steps == 1), np.argwhere(steps == -1), strict=True):
        found.setdefault(int(day), []).append((int(first), int(last)))
    return found


def month_words(table: HourTable, operation: str, chosen: NDArray[np.bool_], row: Row, name: str) -> list[Item]:
    """The month's name at its left; hours in each state but shut at its right."""
    states = codes(table, operation)[chosen]
    items: list[Item] = [
        Text((0.0, row.low + row.height / 2), name, 2.6, LAYER, up="middle"),
    ]
    counts = [(word, int(np.count_nonzero(states == code))) for code, word in enumerate(WORDS) if word != "shut"]
    used = [f"{count} h {word}" for word, count in counts if count]
    x = row.left + DAYS * row.day + 1.8
    step = min(3.2, row.height / max(len(used), 1))
    top = row.low + row.height / 2 + step * (len(used) - 1) / 2
    items += [
        Text((x, top - k * step), words, min(LETTER, step * 0.8), LAYER, up="middle") for k, words in enumerate(used)
    ]
    return items


def day_numbers(day: float, top: float) -> list[Item]:
    """The days of the month over the picture; every second or fifth where they would touch."""
    step = next((n for n in (1, 2, 5) if text_width("31", LETTER) + 1.0 <= n * day), 10)
    shown = [number for number in range(1, DAYS + 1) if number == 1 or number % step == 0]
    return [Text((LEFT + (n - 0.5) * day, top + 1.0), str(n), LETTER, LAYER, across="middle") for n in shown]


def state_entries(shown: NDArray[np.int64]) -> list[Entry]:
    """The legend: the states that are in the picture, by their places in WORDS."""
    words = [WORDS[int(code)] for code in shown]
    return [
        fill_entry(MEANING[word], HATCH[word][0], ink=HATCH[word][1]) if word in HATCH else clear_entry(MEANING[word])
        for word in words
    ]


def hour_plates(table: HourTable, operations: tuple[str, ...], *, width: float, height: float) -> tuple[Plate, ...]:
    """One picture of the year for each of the operations that the roof has."""
    return tuple(
        year_picture(table, operation, width=width, height=height)
        for operation in operations
        if operation in table.states
    )
