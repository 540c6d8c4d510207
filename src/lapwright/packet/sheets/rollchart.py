"""The roll clock over the job's winter as a chart: minutes that the outermost wrap lasts, month by month.

A bar stands over each month with cold working hours, from what a tenth of them stay under to what nine tenths stay
under; its lower half hatched, its upper half dotted, the middle a heavy line.  Minutes go by their logarithm.  The trip
from the store is a dashed line across: what stands under it is lost on the way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.heat.values import MonthClock, SheetWarmth, Warmth
from lapwright.packet.drawing import Fill, Item, Plate, Stroke, Text, rectangle
from lapwright.packet.lettering import fitted, text_width
from lapwright.packet.sheets.legend import Entry, fill_entry, legend, line_entry

LAYER = "WARM"
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
TITLE = "Minutes that the outermost wrap of a warm roll lasts outside"
MARKS_MIN = (1, 2, 5, 10, 30, 60, 120, 240, 480)
LETTER, HEAD = 2.0, 2.8
LEFT, RIGHT, TOP, FOOT, GAP = 9.0, 1.0, 11.0, 11.0, 7.0
LEGEND, ENTRY = 7.5, 62.0
BAR = 0.56


def roll_chart(warmth: Warmth, *, width: float, height: float) -> Plate:
    """A panel for each sheet, side by side, on paper of `width` by `height` [mm]."""
    told = [sheet for sheet in warmth.sheets if sheet.months]
    each = (width - GAP * (len(told) - 1)) / max(len(told), 1)
    items: list[Item] = []
    for place, sheet in enumerate(told):
        left = place * (each + GAP)
        items += panel(sheet, (left + LEFT, FOOT + LEGEND, each - LEFT - RIGHT, height - TOP - FOOT - LEGEND))
        words = f"{sheet.sheet}: {sheet.hours} cold working hours a year"
        items.append(Text((left, height - TOP + 5.5), fitted(words, HEAD, each), HEAD, LAYER))
    for place, entry in enumerate(entries(told)):
        items += legend((entry,), (place * ENTRY, LEGEND - 2.0), width=ENTRY, height=5.0)
    return Plate(width, height, tuple(items), TITLE)


def entries(told: list[SheetWarmth]) -> tuple[Entry, ...]:
    """What the hatches and lines mean."""
    found = [
        fill_entry("from a tenth to half of the hours", "heat"),
        fill_entry("from half to nine tenths", "dots"),
    ]
    if any(sheet.trip is not None for sheet in told):
        found.append(line_entry("trip from the store's door", line="hidden", weight="medium", ink="accent"))
    return tuple(found)


def panel(sheet: SheetWarmth, box: tuple[float, float, float, float]) -> Iterator[Item]:
    """One sheet's months in a box: left, low, width, height [mm]."""
    left, low, wide, tall = box
    least, most = span(sheet)
    yield Stroke(rectangle(left, low, wide, tall), LAYER, weight="medium", closed=True)
    for mark in MARKS_MIN:
        y = low + tall * share(60.0 * mark, least, most)
        if least <= 60 * mark <= most:
            yield Stroke(((left, y), (left + wide, y)), LAYER, weight="hair", ink="grey")
            words = f"{mark}" if mark < 120 else f"{mark // 60} h"
            yield Text((left - 1.2, y), words, LETTER, LAYER, across="right", up="middle")
    yield Text((left - 1.2, low + tall + 2.2), "min", LETTER, LAYER, across="right")
    step = wide / len(sheet.months)
    for place, month in enumerate(sheet.months):
        yield from column(month, (left + place * step, low, step, tall), least, most)
    if sheet.trip is not None and least <= sheet.trip.trip_s <= most:
        y = low + tall * share(sheet.trip.trip_s, least, most)
        yield Stroke(((left, y), (left + wide, y)), LAYER, line="hidden", weight="medium", ink="accent")
    for row, words in enumerate(("tenth", "half")):
        yield Text((left - 1.2, low - 6.4 - 3.1 * row), words, LETTER, LAYER, across="right")


def column(month: MonthClock, box: tuple[float, float, float, float], least: float, most: float) -> Iterator[Item]:
    """One month: its bar, its name, its numbers."""
    left, low, step, tall = box
    middle_x, half = left + step / 2, step * BAR / 2
    short, middle, long = (
        low + tall * share(one, least, most) for one in (month.short_s, month.middle_s, month.long_s)
    )
    for foot, head, pattern in ((short, middle, "heat"), (middle, long, "dots")):
        if head - foot > 0.05:
            ring = rectangle(middle_x - half, foot, 2 * half, head - foot)
            yield Fill((ring,), LAYER, pattern="heat" if pattern == "heat" else "dots")
            yield Stroke(ring, LAYER, closed=True)
    yield Stroke(((middle_x - half - 0.8, middle), (middle_x + half + 0.8, middle)), LAYER, weight="outline")
    yield Text((middle_x, low - 3.2), f"{MONTHS[month.month - 1]}", LETTER, LAYER, across="middle")
    for row, time in enumerate((month.short_s, month.middle_s)):
        words = minute_words(time)
        size = LETTER if text_width(words, LETTER) < step else LETTER * step / text_width(words, LETTER)
        yield Text((middle_x, low - 6.4 - 3.1 * row), words, size, LAYER, across="middle")


def minute_words(seconds: float | None) -> str:
    """Whole minutes, cut off and not rounded up; hours from two on; a bar for what is not lost."""
    if seconds is None:
        return "-"
    if seconds < 120 * 60:
        return f"{int(seconds // 60)}" if seconds >= 600 else f"{int(seconds // 6) / 10:g}"
    return f"{int(seconds // 3600)} h"


def span(sheet: SheetWarmth) -> tuple[float, float]:
    """Least and greatest time of the scale [s]: marks that hold every bar and the trip."""
    times = [time for month in sheet.months for time in (month.short_s, month.long_s) if time is not None]
    times += [] if sheet.trip is None else [sheet.trip.trip_s]
    least = max((mark for mark in MARKS_MIN if 60 * mark <= min(times, default=60.0)), default=MARKS_MIN[0])
    most = min((mark for mark in MARKS_MIN if 60 * mark >= max(times, default=60.0)), default=MARKS_MIN[-1])
    return 60.0 * least, 60.0 * max(most, 4 * least)


def share(seconds: float | None, least: float, most: float) -> float:
    """How far up the scale a time stands, 0 to 1; at its head what is not lost."""
    if seconds is None:
        return 1.0
    return min(max(math.log(max(seconds, 1.0) / least) / math.log(most / least), 0.0), 1.0)
