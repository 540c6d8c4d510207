"""The slope frame of an area: u across the fall, v up it, in whole ticks.

Courses run across the fall, so the layout is reckoned in this frame, where every course is a level band.
Lengths up the fall are slope lengths: plan length times sqrt(1 + slope²).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from lapwright.layout.values import UV, Frame
from lapwright.roof.values import Area, Point


def make_frame(area: Area) -> Frame:
    """The frame of an area, with u = 0 and v = 0 at its leftmost and lowest points.

    Source: geometry, right-handed, u to the right when looking up the fall.
    Checked: tests/layout/test_place.py
    """
    up = (0.0 - area.falls[0], 0.0 - area.falls[1])
    across = (up[1], 0.0 - up[0])
    stretch = math.sqrt(1.0 + area.slope * area.slope)
    low_u = min(x * across[0] + y * across[1] for x, y in area.outline)
    low_v = min(x * up[0] + y * up[1] for x, y in area.outline)
    origin = (low_u * across[0] + low_v * up[0], low_u * across[1] + low_v * up[1])
    return Frame(origin=origin, across=across, up=up, stretch=stretch)


def to_slope(frame: Frame, points: Sequence[Point]) -> tuple[UV, ...]:
    """Plan points [ticks] in the slope frame, to the nearest tick.

    Source: geometry
    """
    return tuple((round(u), round(v)) for u, v in (frame.slope_uv(x, y) for x, y in points))
