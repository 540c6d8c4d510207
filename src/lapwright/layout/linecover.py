"""What a ply's sheets cover and measure at least on slanted ground, its lines being the same across the whole roof.

Over a place across the fall a stretch of ground from *a* to *b* is covered by one sheet, and by one more for each side
lap that lies within it, from the low edge of the upper sheet, over *a*, to the high edge of the lower one, under *b*;
past an opening a sheet may serve the stretches on both sides of it.  Up the fall the sheets measure what the ground
does, their laps within it, and what the lowest begins under it and the highest ends over it: a piece is cut square,
and what is trimmed off past a slanted side goes to waste.
"""

from __future__ import annotations

import math
from collections.abc import Callable

from lapwright.assembly.values import Sheet
from lapwright.layout.groundends import ends_of
from lapwright.layout.region import Region
from lapwright.layout.sections import Ground

EXACT_STEPS, STEPS = 32, 6  # places told apart within a pitch: where laps are as asked, where they may be wider
LOOKS = 1_000  # places and widths of laps that are looked at, about
GAP = 96  # 1.2 mm: so much short of the high edge a sheet may end; what passes for the width of a cut

Node = tuple[int, int]  # the place of a line, and how many steps its lap is wider than asked, both rounded down


class Lines:
    """The lines of a ply by steps: its place is the step in which the high edge of the sheet under it lies."""

    def __init__(self, ground: Ground, region: Region, sheet: Sheet, *, is_exact: bool) -> None:
        """is_exact: no lap is wider than the sheet asks, as in a cap with granules; else as wide as they like.

        Holds for: courses that lie wherever the ground that they show goes on, each lapping the next where both lie.
        """
        self.ground, self.region, self.sheet, self.is_exact = ground, region, sheet, is_exact
        pitch = sheet.width_ticks - sheet.side_lap_ticks
        courses = max(1, (region.ends - region.begins) // pitch)
        most = LOOKS // courses if is_exact else math.isqrt(LOOKS // courses)
        self.steps = max(2, min(EXACT_STEPS if is_exact else STEPS, most))
        self.step = -(-pitch // self.steps)
        self.full = -(-sheet.width_ticks // self.step)
        self.first = region.begins + sheet.width_ticks + 1
        self.last = math.ceil((region.ends - GAP - self.first) / self.step)
        self.places = range(-2 * self.steps, self.last)
        self.wider = range(1 if is_exact else self.steps)
        self.through = {(place, more): self.width((place, more)) for place in self.places for more in self.wider}
        self.lapped = {place for place in self.places if self.through[place, 0] > 0.0}

    @property
    def is_broken(self) -> bool:
        """No ground goes on at some level between others at which it does: sheets need not lap there."""
        return bool(self.lapped) and len(self.lapped) < max(self.lapped) - min(self.lapped) + 1

    def top(self, place: int) -> int:
        """The level that a line at a place lies at or up to a step under [ticks]."""
        return self.first + place * self.step

    def begins(self, node: Node) -> tuple[int, int]:
        """Where the sheet over a line begins at least and at most [ticks]."""
        place, more = node
        most = self.top(place) - self.sheet.side_lap_ticks - more * self.step
        return most - (1 if self.is_exact else 2) * self.step, most

    def width(self, node: Node) -> float:
        """Width of the ground that goes on through the lap at a line, wherever in its step that lies [ticks]."""
        low, top = max(self.region.begins, self.begins(node)[0]), self.top(node[0])
        return float(sum(b - a for a, b in self.ground.stretches(low + 0.5, top + 0.5))) if low < top else 0.0

    def least(self, lap: Callable[[Node], float], past: Callable[[Node | None, Node | None], float]) -> float:
        """The least over all lines.

        lap: what a lap costs.  past: what a sheet costs between the line under it and the next; None for no line.
        Source: shortest ways, docs/method/layout.md, bounds
        """
        if self.last <= 0:
            return past(None, None)
        cost = {node: past(None, node) if node[0] <= 0 else math.inf for node in self.through}
        best = math.inf
        for node in self.through:
            paid = cost[node] + lap(node)
            reach = node[0] + (self.steps - node[1] if node[0] in self.lapped else self.full)
            if reach >= self.last:
                best = min(best, paid + past(node, None))
            for place in range(node[0] + 1, min(reach + 1, self.last)):
                for more in self.wider:
                    after = (place, more)
                    cost[after] = min(cost[after], paid + past(node, after))
        return best


def cover_least(ground: Ground, region: Region, sheet: Sheet, *, is_exact: bool) -> tuple[float, float]:
    """What the lines of a ply ask for beyond its ground.

    Returns: width of the ground that all side laps together go through at least [ticks]; area of sheet at least beyond
    that of the ground, of side laps and of what is trimmed off past the ends [ticks²].  0 where nothing is known.

    is_exact: no lap is wider than the sheet asks, as in a cap with granules.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_linecover.py
    """
    lines = Lines(ground, region, sheet, is_exact=is_exact)
    if lines.is_broken:
        return 0.0, 0.0
    tops, bottoms = ends_of(ground.edges)

    def wide(node: Node) -> float:
        return (sheet.side_lap_ticks + node[1] * lines.step) * lines.through[node]

    def past(node: Node | None, after: Node | None) -> float:
        """At the high end from the ends over the line below, at the low end from those under the sheet above."""
        low = region.begins - 1 if node is None else lines.top(node[0])
        high = region.ends - GAP if after is None else min(lines.top(after[0]) - lines.step, region.ends)
        over = tops.between(low, high)
        if node is not None and node[0] not in lines.lapped:
            return over  # the sheet over it may begin higher
        begins = region.begins if node is None else lines.begins(node)[1]
        until = region.ends + 1 if after is None else lines.begins(after)[0]
        return over + bottoms.between(-until, -begins)

    return lines.least(lambda node: lines.through[node], lambda node, after: 0.0), lines.least(wide, past)
