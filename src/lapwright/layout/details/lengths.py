"""Lines cut into lengths, squares cut into panels of a sheet's width: what every detail is made of."""

from __future__ import annotations

import math
from functools import cache

from lapwright.defaults.si import default_si
from lapwright.layout.values import XY
from lapwright.roof.values import Area, Point
from lapwright.units.factors import TICKS_PER_METRE

TICKS = float(TICKS_PER_METRE)
FOOT = 24_384
HAIR = 1e-3  # of a tick: rounding, not length


@cache
def detail_ticks(name: str, table: str = "details") -> int:
    """A default size in ticks.  Source: defaults/details.csv and coverage.csv, each row with its own"""
    return round(default_si(table, name) * TICKS)


def slope_length(area: Area, start: Point, end: Point) -> float:
    """Length of a line on the roof's plane [ticks]: up the fall it is longer than in plan.  Source: geometry"""
    dx, dy = end[0] - start[0], end[1] - start[1]
    rise = (dx * area.falls[0] + dy * area.falls[1]) * area.slope
    return math.sqrt(dx * dx + dy * dy + rise * rise)


def along(start: Point, end: Point, a: float, b: float) -> tuple[XY, XY]:
    """The part of a line between two shares of it, in plan [m]."""
    (x, y), (dx, dy) = start, (end[0] - start[0], end[1] - start[1])
    return ((x + dx * a) / TICKS, (y + dy * a) / TICKS), ((x + dx * b) / TICKS, (y + dy * b) / TICKS)


def lengths(total: float, longest: int, lap: int) -> list[tuple[float, float]]:
    """A line cut into the fewest lengths, each lapping the one before: from, to [ticks].

    A last length under a foot, or under half of a short one, takes from the one before it, so that no sliver is left.
    Source: arithmetic
    """
    ends = [min(total, float(longest))]
    while ends[-1] < total:
        ends.append(min(total, ends[-1] - lap + longest))
    starts = [0.0, *[end - lap for end in ends[:-1]]]
    short = min(FOOT, longest // 2)
    if len(ends) > 1 and total - starts[-1] < short:
        starts[-1] = total - short
        ends[-2] = starts[-1] + lap
    return list(zip(starts, ends, strict=True))


def butted(total: float, longest: int, gap: int) -> list[tuple[float, float]]:
    """Lengths as sold set end to end, with a gap of up to `gap` between them where that saves one: from, to [ticks].

    Source: UFGS 07600 (ends gapped 1/4 in)
    Checked: tests/layout/test_detail_metal.py
    """
    count = math.ceil((total + gap) / (longest + gap) - 1e-9)
    if count * longest >= total or count < 2:
        return lengths(total, longest, 0)
    step = (total - longest) / (count - 1)
    return [(k * step, k * step + longest) for k in range(count)]


def round_up(length: float, step: int) -> int:
    """A length in whole cutting steps, rounded up; a thousandth of a tick is rounding, not length."""
    return math.ceil((length - HAIR) / step) * step


def crosswise(line: tuple[XY, XY], width: float) -> XY:
    """A vector of length `width` across a line, to its left."""
    (x0, y0), (x1, y1) = line
    length = math.dist((x0, y0), (x1, y1))
    return (-(y1 - y0) / length * width, (x1 - x0) / length * width)
