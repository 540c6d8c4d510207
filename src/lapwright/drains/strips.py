"""A plane cut into strips along its fall: what lies between two cuts runs straight down to one place on one side (Q4).

Terms.  *Across* and *down* [m]: coordinates of a plane across its fall and along it.  *Strip*: the roof between two
cuts, from the side where it begins to the side where it ends.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from lapwright.roof.values import Area, Edge
from lapwright.units.factors import TICKS_PER_METRE

XY = tuple[float, float]
THINNEST = 1e-9


@dataclass(frozen=True, slots=True)
class Strip:
    """A strip: cuts left and right (across), the sides where it begins and ends, how far down they are at each cut."""

    left: float
    right: float
    high_side: int
    low_side: int
    high: tuple[float, float]
    low: tuple[float, float]

    @property
    def m2(self) -> float:
        """Plan area."""
        return (sum(self.low) - sum(self.high)) / 2 * (self.right - self.left)


@dataclass(frozen=True, slots=True)
class Plane:
    """An area with its coordinates across and along the fall."""

    area: Area

    def turned(self, x: float, y: float) -> XY:
        """A plan point [m] as (across, down)."""
        fall_x, fall_y = self.area.falls
        return (x * fall_y - y * fall_x, x * fall_x + y * fall_y)

    def plan(self, across: float, down: float) -> XY:
        """The plan point [m] of (across, down)."""
        fall_x, fall_y = self.area.falls
        return (across * fall_y + down * fall_x, down * fall_y - across * fall_x)

    def ends(self, edge: Edge) -> tuple[XY, XY]:
        """The ends of a side as (across, down)."""
        start, end = metres(edge.start), metres(edge.end)
        return self.turned(*start), self.turned(*end)

    def strips(self, cuts: Iterable[float] = ()) -> list[Strip]:
        """The strips between the corners and further cuts; their areas add up to the outline's.

        Source: arithmetic: between two neighbouring corners the sides crossed are the same, two and two
        Checked: tests/drains/test_catchment.py
        """
        sides = [(self.ends(edge), edge.side) for edge in self.area.edges]
        corners = {across for ends, _ in sides for across, _ in ends}
        low, high = min(corners), max(corners)
        places = sorted(corners | {cut for cut in cuts if low < cut < high})
        found = []
        for left, right in pairwise(places):
            if right - left < THINNEST:
                continue
            middle = (left + right) / 2
            crossed = sorted(
                (down_at(ends, middle), side, ends)
                for ends, side in sides
                if min(ends[0][0], ends[1][0]) < middle < max(ends[0][0], ends[1][0])
            )
            for (_, top, top_ends), (_, foot, foot_ends) in zip(crossed[::2], crossed[1::2], strict=False):
                found.append(
                    Strip(
                        left,
                        right,
                        top,
                        foot,
                        (down_at(top_ends, left), down_at(top_ends, right)),
                        (down_at(foot_ends, left), down_at(foot_ends, right)),
                    )
                )
        return found

    def ring(self, strip: Strip) -> tuple[XY, ...]:
        """The corners of a strip in plan [m]."""
        return (
            self.plan(strip.left, strip.high[0]),
            self.plan(strip.right, strip.high[1]),
            self.plan(strip.right, strip.low[1]),
            self.plan(strip.left, strip.low[0]),
        )

    def foot(self, strip: Strip) -> XY:
        """Where the middle of a strip ends, in plan [m]."""
        return self.plan((strip.left + strip.right) / 2, sum(strip.low) / 2)


def metres(point: tuple[float, float]) -> XY:
    """A plan point [ticks] in metres.

    Source: arithmetic
    """
    return (point[0] / TICKS_PER_METRE, point[1] / TICKS_PER_METRE)


def down_at(ends: tuple[XY, XY], across: float) -> float:
    """How far down a side is at a place across the fall.

    Source: arithmetic
    """
    (a0, d0), (a1, d1) = ends
    return d0 if math.isclose(a0, a1) else d0 + (d1 - d0) * (across - a0) / (a1 - a0)
