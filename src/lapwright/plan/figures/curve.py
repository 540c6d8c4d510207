"""A small curve in plain text: dots over an axis, with the numbers of its corners."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from lapwright.plan.figures.figure import Curve
from lapwright.units.write import Units, sensible

ACROSS, UPWARD = 56, 9
DOT, STEM = "•", "·"


def curve_lines(curve: Curve, units: Units) -> Iterator[str]:
    """The curve, its highest and lowest value beside it, where it begins and ends below."""
    along, up = [point[0] for point in curve.points], [point[1] for point in curve.points]
    left, right, low, high = min(along), max(along), min(up), max(up)
    rows = [[" "] * ACROSS for _ in range(UPWARD)]
    for column in range(ACROSS):
        at = left + (right - left) * column / (ACROSS - 1)
        height = _place(_between(curve.points, at), low, high, UPWARD)
        for below in range(height):
            rows[UPWARD - 1 - below][column] = STEM
        rows[UPWARD - 1 - height][column] = DOT
    top, bottom = _words(units, high, curve.up_unit), _words(units, low, curve.up_unit)
    wide = max(len(top), len(bottom))
    yield f"  {' ' * wide}   {curve.up}"
    for number, row in enumerate(rows):
        label = top if number == 0 else bottom if number == UPWARD - 1 else ""
        yield f"  {label.rjust(wide)} | {''.join(row)}".rstrip()
    yield f"  {' ' * wide} +{'-' * (ACROSS + 1)}"
    first, last = _words(units, left, curve.along_unit), _words(units, right, curve.along_unit)
    middle = curve.along.center(max(ACROSS - len(first) - len(last), len(curve.along) + 2))
    yield f"  {' ' * wide}   {first}{middle}{last}".rstrip()


def _place(value: float, low: float, high: float, count: int) -> int:
    """Which of `count` rows a value falls in, the lowest 0."""
    return 0 if high <= low else min(int((value - low) / (high - low) * count), count - 1)


def _between(points: tuple[tuple[float, float], ...], at: float) -> float:
    """The curve's height at a place, straight between its points."""
    for (x0, y0), (x1, y1) in pairwise(points):
        if x0 <= at <= x1:
            return y0 if x1 == x0 else y0 + (y1 - y0) * (at - x0) / (x1 - x0)
    return points[-1][1]


def _words(units: Units, value: float, unit: str) -> str:
    return units.number_and_unit(value, unit) if unit else sensible(value)
