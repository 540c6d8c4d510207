"""Where water runs on a roof's planes: to which side, over it or held by it, and which areas share their drains (Q4).

A *low side* is one that water runs to.  It is *free* where nothing stands up along it; it *holds* water where a
parapet, a wall, a raised joint or the rise beyond a valley does.  A *basin* is the areas that drain together.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from itertools import pairwise

from lapwright.geometry.meets import coincident_sides
from lapwright.roof.falls import area_m2
from lapwright.roof.values import Area, Edge
from lapwright.units.factors import TICKS_PER_METRE

FREE_KINDS = ("metal_edge", "step", "tie_in")
PASSING_KINDS = ("valley", "step")
# Sides that run along the fall to within this (about one degree) take no water.
LEAST_LOWNESS = 0.02
# Two ends of a side within this share of its length in height run level.
LEVEL = 0.001
SEAM_SLACK = 80


def tributary_m2(area: Area) -> Mapping[int, float]:
    """Plan area [m²] whose water comes to each side first, by the side's number; sides without water are left out.

    Water runs straight down the fall, openings notwithstanding; the areas add up to the outline's.
    Source: arithmetic: the outline is cut into strips along the fall at every corner
    Checked: tests/drains/test_paths.py
    """
    fall_x, fall_y = area.falls
    ends = [(_in_fall(edge.start, fall_x, fall_y), _in_fall(edge.end, fall_x, fall_y)) for edge in area.edges]
    cuts = sorted({across for end in ends for across, _ in end})
    found: dict[int, float] = {}
    for left, right in pairwise(cuts):
        middle = (left + right) / 2
        crossed = sorted(
            (_down_at(start, end, middle), edge.side)
            for (start, end), edge in zip(ends, area.edges, strict=True)
            if min(start[0], end[0]) < middle < max(start[0], end[0])
        )
        for (high, _), (low, side) in zip(crossed[::2], crossed[1::2], strict=False):
            found[side] = found.get(side, 0.0) + (low - high) * (right - left)
    return {side: found[side] for side in sorted(found)}


def low_sides(area: Area) -> tuple[Edge, ...]:
    """The sides that water runs to, in walking order.

    Source: arithmetic: the outward normal has a part along the fall
    """
    turning = _turning(area)
    return tuple(edge for edge in area.edges if _lowness(edge, area.falls, turning) > LEAST_LOWNESS)


def holding_sides(area: Area) -> tuple[Edge, ...]:
    """The low sides that can hold water on the roof: closed, with no way along them down to a free side.

    Holds for: straight sides of known kind; a side of no known kind holds.
    Source: arithmetic: from a closed side's lower end water goes on along the next low side, or stays
    """
    lows = {edge.side: edge for edge in low_sides(area)}
    return tuple(
        edge for edge in lows.values() if edge.kind not in FREE_KINDS and not _escapes(edge, area, lows, frozenset())
    )


def free_length_m(area: Area, *, but: str = "") -> float:
    """Length of the free low sides [m], one kind of them left out.

    Source: arithmetic
    """
    free = [edge for edge in low_sides(area) if edge.kind in FREE_KINDS and edge.kind != but]
    return sum(edge_length_m(edge) for edge in free)


def edge_length_m(edge: Edge) -> float:
    """Length of a side [m].

    Source: arithmetic
    """
    return math.dist(edge.start, edge.end) / TICKS_PER_METRE


def basins(areas: Sequence[Area]) -> tuple[tuple[int, ...], ...]:
    """Indexes of the areas that drain together: those whose water meets in a valley or runs over a step into the next.

    Source: arithmetic
    """
    group = list(range(len(areas)))
    for one in range(len(areas)):
        for other in range(one):
            if _passes_water(areas[one], areas[other]):
                old, new = max(group[one], group[other]), min(group[one], group[other])
                group = [new if each == old else each for each in group]
    return tuple(tuple(index for index, of in enumerate(group) if of == first) for first in sorted(set(group)))


def plan_area_m2(area: Area) -> float:
    """Plan area inside the outline [m²], openings included: rain falls on them too.

    Source: arithmetic
    """
    corners = area.outline
    doubled = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*corners, corners[0]]))
    return abs(doubled) / 2 / TICKS_PER_METRE**2


def openings_m2(area: Area) -> float:
    """Plan area of an area's openings and courtyards [m²], which its flows count as roof.

    Source: arithmetic
    """
    return area_m2(area, net=False) - area_m2(area)


def _passes_water(one: Area, other: Area) -> bool:
    lows = ({edge.side for edge in low_sides(one)}, {edge.side for edge in low_sides(other)})
    for shared in coincident_sides(one.outline, other.outline, slack=SEAM_SLACK):
        first, second = one.edges[shared.first], other.edges[shared.second]
        if first.kind in PASSING_KINDS and (first.side in lows[0] or second.side in lows[1]):
            return True
    return False


def _escapes(edge: Edge, area: Area, lows: Mapping[int, Edge], seen: frozenset[int]) -> bool:
    """Water along a closed side finds a free side from its lower end, or from either end where it is level."""
    start, end = (_in_fall(point, *area.falls)[1] for point in (edge.start, edge.end))
    level = LEVEL * math.dist(edge.start, edge.end) / TICKS_PER_METRE
    count, place = len(area.edges), edge.side - 1
    before, after = area.edges[place - 1], area.edges[(place + 1) % count]
    onward = ([after] if end >= start - level else []) + ([before] if start >= end - level else [])
    for neighbour in onward:
        if neighbour.side not in lows or neighbour.side in seen:
            continue
        if neighbour.kind in FREE_KINDS or _escapes(neighbour, area, lows, seen | {edge.side}):
            return True
    return False


def _in_fall(point: tuple[int, int], fall_x: float, fall_y: float) -> tuple[float, float]:
    """A point as (across the fall, down the fall) [m]."""
    x, y = point[0] / TICKS_PER_METRE, point[1] / TICKS_PER_METRE
    return (x * fall_y - y * fall_x, x * fall_x + y * fall_y)


def _down_at(start: tuple[float, float], end: tuple[float, float], across: float) -> float:
    return start[1] + (end[1] - start[1]) * (across - start[0]) / (end[0] - start[0])


def _turning(area: Area) -> float:
    """1 where the outline is walked counter-clockwise, else -1."""
    corners = area.outline
    return math.copysign(1, sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*corners, corners[0]])))


def _lowness(edge: Edge, falls: tuple[float, float], turning: float) -> float:
    dx, dy = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
    return turning * (dy * falls[0] - dx * falls[1]) / math.hypot(dx, dy)
