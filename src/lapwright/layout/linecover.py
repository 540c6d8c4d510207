"""What a ply's sheets cover and measure at least on slanted ground, its lines being the same across the whole roof.

Over a place across the fall a stretch of ground from *a* to *b* is covered by one sheet, and by one more for each side
lap that lies within it, from the low edge of the upper sheet, over *a*, to the high edge of the lower one, under *b*;
past an opening a sheet may serve the stretches on both sides of it.  Up the fall the sheets measure what the ground
does, their laps within it, and what the lowest begins under it and the highest ends over it: a piece is cut square,
and what is trimmed off past a slanted side goes to waste.  Only beside another piece of its course, past an opening or
a bite of the outline, may a piece be ripped narrower than its course: what is trimmed off counts where there is none.
"""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from lapwright.assembly.values import Sheet
from lapwright.layout.groundends import Row, between, ends_of
from lapwright.layout.region import Region
from lapwright.layout.sections import Ground

EXACT_STEPS, STEPS = 24, 5  # places told apart within a pitch: where laps are as asked, where they may be wider
LOOKS = 400  # places and widths of laps that are looked at, about
GAP = 96  # 1.2 mm: so much short of the high edge a sheet may end; what passes for the width of a cut


class SteppedLines:
    """The lines of a ply by steps, and by how much the lap there is wider than asked.

    A line's place is the step in which the high edge of the sheet under it lies; arrays have a row for each place and
    a column for each step that the lap is wider.  top: the level that a place goes up to [ticks]; least, most: where
    the sheet over the line begins; through: width of the ground that goes on through the lap, wherever in its step that
    lies.
    """

    def __init__(self, ground: Ground, region: Region, sheet: Sheet, *, is_exact: bool) -> None:
        """is_exact: no lap is wider than the sheet asks, as in a cap with granules; else as wide as they like.

        Holds for: courses that lie wherever the ground that they show goes on, each lapping the next where both lie.
        """
        pitch = sheet.width_ticks - sheet.side_lap_ticks
        courses = max(1, (region.ends - region.begins) // pitch)
        most = LOOKS // courses if is_exact else math.isqrt(LOOKS // courses)
        self.steps = max(2, min(EXACT_STEPS if is_exact else STEPS, most))
        self.step = -(-pitch // self.steps)
        self.full = -(-sheet.width_ticks // self.step)
        first = region.begins + sheet.width_ticks + 1
        self.last = math.ceil((region.ends - GAP - first) / self.step)
        self.place = np.arange(-2 * self.steps, self.last)
        more = np.arange(1 if is_exact else self.steps)
        self.top = (first + self.place * self.step).astype(float)
        self.wide = (sheet.side_lap_ticks + more * self.step).astype(float)
        self.most = self.top[:, None] - self.wide
        self.least = self.most - (1 if is_exact else 2) * self.step
        self.through = np.zeros(self.most.shape)
        for at in np.ndindex(*self.through.shape):
            low, top = max(region.begins, int(self.least[at])), int(self.top[at[0]])
            if low < top:
                self.through[at] = sum(b - a for a, b in ground.stretches(low + 0.5, top + 0.5))
        self.is_lapped = self.through[:, 0] > 0.0

    @property
    def is_broken(self) -> bool:
        """No ground goes on at some level between others at which it does: sheets need not lap there."""
        rows = np.flatnonzero(self.is_lapped)
        return len(rows) > 0 and len(rows) < int(rows[-1]) - int(rows[0]) + 1

    def shortest(self, lap: Row, first: Row, last: Row, past: Callable[[int, int, slice], Row]) -> float:
        """The least over all lines.

        lap: what a lap costs.  first, last: what the sheet under a line costs where that is the first, and the one
        over it where it is the last.  past: by row and column of a line what the sheet over it costs, by the
        rows of the next line.
        Source: shortest ways, docs/method/layout.md, bounds
        """
        cost = np.where(self.place[:, None] <= 0, first, math.inf)
        best = math.inf
        for row, column in np.ndindex(*cost.shape):
            paid = cost[row, column] + lap[row, column]
            reach = self.steps - column if self.is_lapped[row] else self.full
            if self.place[row] + reach >= self.last:
                best = min(best, float(paid + last[row, column]))
            rows = slice(row + 1, row + 1 + reach)
            np.minimum(cost[rows], paid + past(row, column, rows), out=cost[rows])
        return best


def cover_least(ground: Ground, region: Region, sheet: Sheet, *, is_exact: bool) -> tuple[float, float]:
    """What the lines of a ply ask for beyond its ground.

    Returns: width of the ground that all side laps together go through at least [ticks]; area of sheet at least beyond
    that of the ground, of side laps and of what is trimmed off past the ends [ticks²].  0 where nothing is known.

    is_exact: no lap is wider than the sheet asks, as in a cap with granules.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_linecover.py
    """
    tops, bottoms = ends_of(ground.edges)
    begins, ends = np.float64(region.begins), np.float64(region.ends)
    # a piece beside another of its course, past an opening or a bite, may be ripped narrower than the course
    is_whole = not region.openings and bool(region.shape.convex_hull.area - region.shape.area < GAP * GAP)
    lines = SteppedLines(ground, region, sheet, is_exact=is_exact)
    if lines.last <= 0:
        trimmed = tops.between(begins - 1, ends - GAP) + bottoms.between(-ends - 1, -begins)
        return 0.0, float(trimmed) if is_whole else 0.0
    if lines.is_broken:
        return 0.0, 0.0
    none = np.zeros(lines.through.shape)
    through = lines.shortest(lines.through, none, none, lambda row, column, rows: none[rows])
    if not is_whole:
        return through, through * sheet.side_lap_ticks
    under, top = lines.top - lines.step, lines.top  # where the sheet under a line ends: at least, at most
    least, most = -lines.least, -lines.most  # where the one over it begins, upside down
    over_line, under_line, at_least, at_most = tops.at(top), tops.at(under), bottoms.at(least), bottoms.at(most)
    first = tops.between(begins - 1, under)[:, None] + bottoms.between(least, -begins)
    lapped = lines.is_lapped[:, None]  # where it is not, the sheet over a line may begin higher
    last = tops.between(top, ends - GAP)[:, None] + np.where(lapped, bottoms.between(-ends - 1, most), 0.0)

    def past(row: int, column: int, rows: slice) -> Row:
        """At the high end from the ends over the line below, at the low end from those under the sheet above."""
        run = under[rows] - top[row]
        low, high = (over_line[0][row], over_line[1][row]), (under_line[0][rows], under_line[1][rows])
        found = between(run, low, high)[:, None]
        if lines.is_lapped[row]:
            run = most[row, column] - least[rows]
            low, high = (at_least[0][rows], at_least[1][rows]), (at_most[0][row, column], at_most[1][row, column])
            found = found + between(run, low, high)
        return found

    return through, lines.shortest(lines.through * lines.wide, first, last, past)
