"""What the side laps of one ply cover at least, its lines being the same across the whole roof.

Over a place across the fall a stretch of ground from *a* to *b* is covered by one sheet, and by one more for each side
lap that lies within it, from the low edge of the upper sheet, over *a*, to the high edge of the lower one, under *b*;
past an opening a sheet may serve the stretches on both sides of it.  So the length of sheet is that across the ground
once and, for each lap, the width of the ground that goes on through it.  Each line hangs on the one before it by no
more than a sheet's height: the least over all lines is a shortest way.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence

from lapwright.assembly.values import Sheet
from lapwright.layout.region import Region
from lapwright.layout.sections import Ground

MOST_STEPS, LEAST_STEPS = 8, 2  # places of a line that are told apart within a pitch; more give a nearer bound
LOOKS = 1_200  # places and widths of laps that are looked at, about
GAP = 96  # 1.2 mm: so much short of the high edge a sheet may end; what passes for the width of a cut


def laps_least(ground: Ground, region: Region, sheet: Sheet, *, is_exact: bool) -> float:
    """Width of ground that all side laps of a ply together go through at least [ticks]; 0 where nothing is known.

    Where no ground goes on through a level within the roof, sheets need not lap, and nothing is known.
    is_exact: no lap is wider than the sheet asks, as in a cap with granules; else they may be as wide as they like.
    Holds for: courses that lie wherever the ground that they show goes on, each lapping the next where both lie.
    Source: docs/method/layout.md, bounds
    Checked: tests/layout/test_linecover.py
    """
    lap, pitch = sheet.side_lap_ticks, sheet.width_ticks - sheet.side_lap_ticks
    courses = max(1, (region.ends - region.begins) // pitch)
    steps = max(LEAST_STEPS, min(MOST_STEPS, math.isqrt(LOOKS // courses)))
    step = -(-pitch // steps)
    first = region.begins + sheet.width_ticks + 1
    last = math.ceil((region.ends - GAP - first) / step)
    wider = 1 if is_exact else steps
    known: dict[tuple[int, int], float] = {}

    def through(place: int, more: int) -> float:
        """Width of the ground that goes on through a lap, its high edge no more than a step under a place."""
        top = first + place * step
        low = max(region.begins, top - lap - (1 if is_exact else more + 2) * step)
        if (low, top) not in known:
            spans = ground.stretches(low + 0.5, top + 0.5) if low < top else ()
            known[low, top] = float(sum(b - a for a, b in spans))
        return known[low, top]

    if is_broken([through(place, 0) for place in range(-2 * steps, last)]):
        return 0.0
    return shortest_way(last, (steps, -(-sheet.width_ticks // step), wider), through)


def is_broken(widths: Sequence[float]) -> bool:
    """No ground goes on somewhere between places where it does.  Source: arithmetic"""
    some = [k for k, width in enumerate(widths) if width > 0.0]
    return bool(some) and not all(widths[some[0] : some[-1] + 1])


def shortest_way(last: int, reach: tuple[int, int, int], through: Callable[[int, int], float]) -> float:
    """The least that lines cost from the first sheet to the place where a sheet covers the high edge.

    last: the lowest such place.  reach: places in a pitch, in a sheet's width, and by how many a lap is wider at most.
    The first sheet ends at 0 or lower; after a lap so much wider the next place is so much less than a pitch on, or a
    sheet's width where no ground goes on through the lap.  through: what a lap at a place costs, so much wider.
    Source: shortest ways, docs/method/layout.md, bounds
    """
    if last <= 0:
        return 0.0
    steps, full, wider = reach
    cost = {place: 0.0 if place <= 0 else math.inf for place in range(-2 * steps, last + full)}
    for place in range(-2 * steps, last):
        is_lapped = through(place, 0) > 0.0
        for more in range(wider):
            paid = cost[place] + through(place, more)
            for after in range(place + 1, place + (steps - more if is_lapped else full) + 1):
                cost[after] = min(cost[after], paid)
    return min(cost[place] for place in range(last, last + full))
