"""How the ends of a ply's ground are spread up the fall: how much of it ends between two levels."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import pairwise
from typing import Any

import numpy as np

from lapwright.layout.sections import Edges

Row = np.ndarray[Any, np.dtype[np.float64]]


@dataclass(frozen=True, slots=True)
class Ends:
    """Strips across the fall: of each its width, and the lowest and highest level at which the ground ends there."""

    width: Row
    low: Row
    high: Row
    known: dict[float, tuple[float, float]] = field(default_factory=dict, repr=False)

    def between(self, low: float, high: float) -> float:
        """Area from the ends over one level up to another one over them [ticks²]; 0 where that is the lower.

        Source: geometry
        Checked: tests/layout/test_groundends.py
        """
        if high <= low:
            return 0.0
        (count, under), (_, more) = self.at(low), self.at(high)
        return max(0.0, more - under - (high - low) * count)

    def at(self, level: float) -> tuple[float, float]:
        """Width over which the ground ends at a level or under it [ticks], and area from there up to it [ticks²].

        Source: geometry
        """
        if level not in self.known:
            run = np.maximum(self.high - self.low, 1e-3)
            part = np.clip(level - self.low, 0.0, run)
            above = np.maximum(0.0, level - self.low - run)
            self.known[level] = (
                float(np.sum(self.width * part / run)),
                float(np.sum(self.width * (part * part / (2 * run) + above))),
            )
        return self.known[level]


def ends_of(edges: Edges) -> tuple[Ends, Ends]:
    """The high ends of the ground, and its low ones upside down, with levels below 0.

    Source: geometry
    Checked: tests/layout/test_groundends.py
    """
    marks = np.unique(edges[:, [0, 2]])
    left_u, right_u = np.minimum(edges[:, 0], edges[:, 2]), np.maximum(edges[:, 0], edges[:, 2])
    rows: list[tuple[float, ...]] = []
    for left, right in pairwise(marks.tolist()):
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
