"""Curves as SVG inside the page: lines told apart by their dashes and a word at their end, colours from its style."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lapwright.packet.figures.html import Markup, element
from lapwright.packet.figures.html import number as plain

WIDE, TALL = 320.0, 205.0
LEFT, TOP, FOOT = 40.0, 20.0, 36.0
LEAD, LETTER_WIDE = 10.0, 6.8  # of the words at the lines' ends: their lead, and what a letter takes
LETTER = 13.0  # least distance between the words at the lines' ends
DASHES = ("", "7 3", "2 3", "9 3 2 3", "5 5", "1 5")
STEPS = (1.0, 2.0, 5.0)


@dataclass(frozen=True, slots=True)
class Line:
    """A line with the word at its end; points from left to right, in the units of the axes."""

    word: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Curve:
    """Lines over one pair of axes.  table: id of the table behind them.  by_ratio: upward by the logarithm."""

    id: str
    title: str
    table: str
    along: str
    up: str
    lines: tuple[Line, ...]
    marks: tuple[float, ...]
    by_ratio: bool = False


@dataclass(frozen=True, slots=True)
class Frame:
    """From the axes' units to the drawing's."""

    left: float
    right: float
    low: float
    high: float
    by_ratio: bool
    end: float

    def x(self, value: float) -> float:
        """Across."""
        return LEFT + (value - self.left) / (self.right - self.left) * (self.end - LEFT)

    def y(self, value: float) -> float:
        """Downward."""
        low, high, at = (self.low, self.high, value)
        if self.by_ratio:
            low, high, at = math.log(low), math.log(high), math.log(max(value, low))
        return TALL - FOOT - (at - low) / (high - low) * (TALL - TOP - FOOT)


def curve(one: Curve) -> Markup:
    """The curve in a figure, with a way to the table behind it; nothing where there is nothing to draw."""
    lines = [line for line in one.lines if len(line.points) > 1]
    if not lines:
        return Markup("")
    places = sorted({x for line in lines for x, _ in line.points})
    ticks = upward(one, lines)
    end = WIDE - LEAD - LETTER_WIDE * max(len(line.word) for line in lines)
    frame = Frame(places[0], places[-1], ticks[0], ticks[-1], one.by_ratio, end)
    drawn = element(
        "svg",
        element("title", one.title, id=f"s-{one.id}"),
        *grid(one, frame, ticks),
        *drawn_lines(lines, frame),
        viewBox=f"0 0 {WIDE:.0f} {TALL:.0f}",
        role="img",
        aria_labelledby=f"s-{one.id}",
    )
    words = element("figcaption", f"{one.title}. ", element("a", "Its table", href=f"#{one.table}"), ".")
    return element("figure", drawn, words)


def upward(one: Curve, lines: Sequence[Line]) -> list[float]:
    """Marks of the upward axis, which hold every point."""
    values = [y for line in lines for _, y in line.points]
    low, high = min(values), max(values)
    if not one.by_ratio:
        step = round_step((high - min(low, 0.0)) / 5)
        first, last = math.floor(min(low, 0.0) / step), max(math.ceil(high / step), 1)
        return [place * step for place in range(first, last + 1)]
    low, tens = max(low, 1e-3), range(-3, 6)
    marks = [first * 10.0**ten for ten in tens for first in STEPS]
    begin = max(at for at, mark in enumerate(marks) if mark <= low)
    end = next((at for at, mark in enumerate(marks) if mark >= high), len(marks) - 1)
    return marks[begin : max(end, begin + 1) + 1]


def round_step(least: float) -> float:
    """The first of 1, 2, 5, 10, ... that is as large."""
    ten = 10.0 ** math.floor(math.log10(max(least, 1e-9)))
    return next(first * ten for first in (*STEPS, 10.0) if first * ten >= least)


def grid(one: Curve, frame: Frame, ticks: Sequence[float]) -> Iterator[Markup]:
    """Axes with their marks and words."""
    left, right = plain(LEFT), plain(frame.end)
    for tick in ticks:
        y = frame.y(tick)
        yield element("path", d=f"M{left} {plain(y)}H{right}", class_="grid")
        yield text(LEFT - 5, y + 4, f"{tick:.6g}", "end")
    for mark in one.marks:
        yield element("path", d=f"M{plain(frame.x(mark))} {plain(TOP)}V{plain(TALL - FOOT)}", class_="grid")
        yield text(frame.x(mark), TALL - FOOT + 14, f"{mark:.6g}", "middle")
    yield text(2, 11, one.up, "start")
    yield text((LEFT + frame.end) / 2, TALL - 5, one.along, "middle")


def drawn_lines(lines: Sequence[Line], frame: Frame) -> Iterator[Markup]:
    """Every line with its word, the words pushed apart."""
    ends = apart([frame.y(line.points[-1][1]) for line in lines])
    for place, (line, end) in enumerate(zip(lines, ends, strict=True)):
        path = "L".join(f"{plain(frame.x(x))} {plain(frame.y(y))}" for x, y in line.points)
        yield element("path", d=f"M{path}", class_="line", stroke_dasharray=DASHES[place % len(DASHES)] or None)
        last = frame.y(line.points[-1][1])
        x = frame.end
        yield element("path", d=f"M{plain(x)} {plain(last)}L{plain(x + 6)} {plain(end)}", class_="grid")
        yield text(x + 8, end + 4, line.word, "start")


def apart(heights: Sequence[float]) -> list[float]:
    """Heights moved so that none is nearer to another than a line of lettering, all inside the drawing."""
    order = sorted(range(len(heights)), key=lambda at: heights[at])
    found, least, most = list(heights), -math.inf, TALL - FOOT
    for at in order:
        found[at] = least = max(found[at], least)
        least += LETTER
    for at in reversed(order):
        found[at] = most = min(found[at], most)
        most -= LETTER
    return found


def text(x: float, y: float, words: str, anchor: str) -> Markup:
    """Lettering."""
    return element("text", words, x=plain(x), y=plain(y), text_anchor=anchor)
