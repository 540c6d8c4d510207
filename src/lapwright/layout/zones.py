"""Sets of whole numbers told by bounds on their differences, for the search of `rips`.

A *zone* of variables v0 … v(k-1) holds the points that keep every bound v_a - v_b ≤ D[a][b]; the variable after the
last one is fixed at 0, so bounds on a single variable are differences too.  Stored row by row in one tuple, closed:
no bound can be made tighter by way of another.  Whole numbers stay exact, since a difference of two never needs halves.
"""

from __future__ import annotations

from collections.abc import Sequence
from operator import lt

Zone = tuple[int, ...]


def make_zone(spans: Sequence[tuple[int, int]]) -> Zone:
    """The points whose variables lie each in its span, both ends meant.  Source: arithmetic"""
    lows = [*(low for low, _ in spans), 0]
    highs = [*(high for _, high in spans), 0]
    size = len(lows)
    return tuple(0 if a == b else highs[a] - lows[b] for a in range(size) for b in range(size))


def bounded(zone: Zone, size: int, a: int, b: int, most: int) -> Zone | None:
    """What of a zone keeps v_a - v_b ≤ most; None where nothing does.

    size: variables and the fixed one.
    Source: closing a system of difference bounds by one more (shortest paths over one edge), arithmetic
    """
    if zone[a * size + b] <= most:
        return zone
    if zone[b * size + a] + most < 0:
        return None
    onward = zone[b * size : (b + 1) * size]
    found: list[int] = []
    for i in range(0, size * size, size):
        via = zone[i + a] + most
        found += [
            via + step if via + step < bound else bound for step, bound in zip(onward, zone[i : i + size], strict=True)
        ]
    return tuple(found)


def raised(zone: Zone, size: int, a: int, least: int, most: int) -> Zone:
    """The points that have v_a raised by `least` to `most`.

    Source: arithmetic; the bounds stay closed since `most` is no less than `least`
    """
    found = list(zone)
    for b in range(size):
        if b != a:
            found[a * size + b] += most
            found[b * size + a] -= least
    return tuple(found)


def holds(outer: Zone, inner: Zone) -> bool:
    """Every point of one closed zone lies in another.  Source: arithmetic"""
    return not any(map(lt, outer, inner))


def span_of(zone: Zone, size: int, a: int) -> tuple[int, int]:
    """Least and greatest value of a variable.  Source: arithmetic"""
    fixed = size - 1
    return (-zone[fixed * size + a], zone[a * size + fixed])
