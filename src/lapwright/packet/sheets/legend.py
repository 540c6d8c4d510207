"""Legends: a small sample of what is drawn, and its word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.packet.drawing import Fill, Ink, Item, Line, Pattern, Ring, Stroke, Text, Weight, moved, rectangle
from lapwright.packet.lettering import clean, wrapped
from lapwright.packet.sheets import edges as edge_lines

LAYER = "SHEET"
SAMPLE_WIDTH, SAMPLE_HEIGHT, GAP = 9.0, 3.4, 2.0
LETTER, LINE_STEP = 2.0, 3.1


@dataclass(frozen=True, slots=True)
class Entry:
    """A sample, drawn in a box of 9 by 3.4 mm from its lower left, and the words beside it."""

    sample: tuple[Item, ...]
    words: str


def line_entry(words: str, *, line: Line = "solid", weight: Weight = "thin", ink: Ink = "ink") -> Entry:
    """A line across the box."""
    y = SAMPLE_HEIGHT / 2
    return Entry((Stroke(((0.0, y), (SAMPLE_WIDTH, y)), LAYER, line=line, weight=weight, ink=ink),), words)


def fill_entry(words: str, pattern: Pattern, *, ink: Ink = "ink", outline: Ink = "ink") -> Entry:
    """A hatched box."""
    box = rectangle(0.0, 0.0, SAMPLE_WIDTH, SAMPLE_HEIGHT)
    return Entry((Fill((box,), LAYER, pattern=pattern, ink=ink), Stroke(box, LAYER, closed=True, ink=outline)), words)


def clear_entry(words: str) -> Entry:
    """An empty box."""
    return Entry((Stroke(rectangle(0.0, 0.0, SAMPLE_WIDTH, SAMPLE_HEIGHT), LAYER, closed=True),), words)


def ring_entry(words: str, radius: float) -> Entry:
    """A ring in the middle of the box."""
    return Entry((Ring((SAMPLE_WIDTH / 2, SAMPLE_HEIGHT / 2), radius, LAYER),), words)


def text_entry(words: str, sample: str, *, height: float = LETTER) -> Entry:
    """Lettering as it stands on the sheet."""
    at = (SAMPLE_WIDTH / 2, SAMPLE_HEIGHT / 2)
    return Entry((Text(at, sample, height, LAYER, across="middle", up="middle"),), words)


def mark_entry(words: str, items: Sequence[Item]) -> Entry:
    """A mark drawn about (0, 0), moved to the middle of the box."""
    return Entry(moved(items, SAMPLE_WIDTH / 2, SAMPLE_HEIGHT / 2), words)


def edge_entry(kind: str | None) -> Entry:
    """An edge's lines, the roof below them."""
    y = SAMPLE_HEIGHT * 0.35
    items = edge_lines.kind_strokes(kind, (0.0, y), (SAMPLE_WIDTH, y), (0.0, 1.0), 1.0)
    return Entry(items, edge_lines.WORDS.get(kind, edge_lines.WORDS[None]))


def list_entry(words: str) -> Entry:
    """Words alone, over the whole width."""
    return Entry((), words)


def entry_lines(entry: Entry, width: float, letter: float = LETTER) -> list[str]:
    """The words of an entry, broken to fit beside its sample."""
    return wrapped(clean(entry.words), letter, width - words_from(entry))


def words_from(entry: Entry) -> float:
    """How far from the left the words of an entry begin [mm]."""
    return SAMPLE_WIDTH + GAP if entry.sample else 0.0


def entry_height(entry: Entry, width: float, letter: float = LETTER) -> float:
    """Height of an entry with the air below it [mm]."""
    step = letter * LINE_STEP / LETTER
    return max(SAMPLE_HEIGHT, len(entry_lines(entry, width, letter)) * step) + 1.3


def legend(
    entries: Sequence[Entry], at: tuple[float, float], *, width: float, height: float, letter: float = LETTER
) -> tuple[Item, ...]:
    """Entries one below the other from the upper left `at`, in as many columns of `width` as `height` asks for."""
    items: list[Item] = []
    x, top = at
    y = top
    step = letter * LINE_STEP / LETTER
    for entry in entries:
        tall = entry_height(entry, width, letter)
        if top - (y - tall) > height and y < top:
            x, y = x + width + GAP, top
        lines = entry_lines(entry, width, letter)
        block = max(SAMPLE_HEIGHT, len(lines) * step)
        items += moved(entry.sample, x, y - block / 2 - SAMPLE_HEIGHT / 2)
        first = y - block / 2 + (len(lines) - 1) * step / 2
        items += [
            Text((x + words_from(entry), first - k * step), line, letter, LAYER, up="middle")
            for k, line in enumerate(lines)
        ]
        y -= tall
    return tuple(items)
