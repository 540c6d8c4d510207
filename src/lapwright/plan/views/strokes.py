"""Drawn items as plain values, for a page that draws them at any scale; the same list that the packet draws from."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from lapwright.packet.drawing import Fill, Item, Ring, Stroke

Json = dict[str, Any]
DECIMALS = 4  # of a metre: a tenth of a millimetre


def numbers(points: Iterable[Sequence[float]]) -> list[float]:
    """Points [m] as one list: x, y, x, y, …"""
    return [round(value, DECIMALS) for point in points for value in point[:2]]


def drawn(items: Iterable[Item]) -> list[Json]:
    """Strokes, hatched shapes and circles in painting order; lettering is left to the page."""
    found: list[Json] = []
    for item in items:
        if isinstance(item, Stroke):
            points = numbers([*item.points, item.points[0]] if item.closed else item.points)
            found.append({"k": "line", "p": points, "w": item.weight, "l": item.line, "i": item.ink})
        elif isinstance(item, Fill):
            found.append({"k": "fill", "p": [numbers(ring) for ring in item.rings], "h": item.pattern, "i": item.ink})
        elif isinstance(item, Ring):
            filled = item.filled or ""
            at = numbers([item.at])
            found.append({"k": "ring", "p": at, "r": item.radius, "w": item.weight, "i": item.ink, "f": filled})
    return found
