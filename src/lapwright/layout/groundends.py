"""How the ends of a ply's ground are spread up the fall: how much of it ends between two levels."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import numpy as np

from lapwright.layout.sections import Edges, rising

Row = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, slots=True)
class Ends:
    """Strips across the fall: of each its width, and the lowest and highest level at which the ground ends there."""

    width: Row
    low: Row
    high: Row

    def between(self, low: Row | np.float64, high: Row | np.float64) -> Row:
        """Area from the ends over one level up to another one over them [ticks²]; 0 where that is the lower.

        low, high: levels of any shape, one of them a single one perhaps.
        Source: geometry
        Checked: tests/layout/test_groundends.py
        """
        return between(high - low, self.at(low), self.at(high))

    def at(self, level: Row | np.float64) -> tuple[Row, Row]:
        """Width over which the ground ends at a level or under it [ticks], and area from there up to it [ticks²].

        Source: geometry
        """
        run = np.maximum(self.high - self.low, 1e-3)
        up = np.asarray(level, dtype=float)[..., None] - self.low
        part = np.clip(up, 0.0, run)
        count, under = part / run, part * part / (2 * run) + np.maximum(0.0, up - run)
        return count @ self.width, under @ self.width


def between(run: Row | np.float64, low: tuple[Row, Row], high: tuple[Row, Row]) -> Row:
    """Area from the ends over one level up to another one [ticks²], of what `Ends.at` says of both; 0 for no run.

    run: from the lower level up to the higher one.
    Source: geometry
    """
    found: Row = np.where(run > 0.0, np.maximum(0.0, high[1] - low[1] - run * low[0]), 0.0)
    return found


def ends_of(edges: Edges) -> tuple[Ends, Ends]:
    """The high ends of the ground, and its low ones upside down, with levels below 0.

    Source: geometry
    Checked: tests/layout/test_groundends.py
    """
    marks = rising(edges[:, [0, 2]])
    left_u, right_u = np.minimum(edges[:, 0], edges[:, 2]), np.maximum(edges[:, 0], edges[:, 2])
    rows: list[tuple[float, ...]] = []
    for left, right in pairwise(marks):
        over = edges[(left_u <= left) & (right_u >= right)]
        if right - left < 1.0 or not len(over):
            continue
        rise = (over[:, 3] - over[:, 1]) / (over[:, 2] - over[:, 0])
        one, two = (over[:, 1] + (u - over[:, 0]) * rise for u in (left, right))
        top, bottom = int(np.argmax(one + two)), int(np.argmin(one + two))
        rows.append((right - left, one[top], two[top], -one[bottom], -two[bottom]))
    width, *levels = np.asarray(rows, dtype=float).reshape(-1, 5).T
    tops, bottoms = levels[:2], levels[2:]
    return Ends(width, np.minimum(*tops), np.maximum(*tops)), Ends(width, np.minimum(*bottoms), np.maximum(*bottoms))
