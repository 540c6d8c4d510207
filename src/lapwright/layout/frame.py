"""The slope frame of an area: u along the courses, v from course to course, in whole ticks.

Courses run across the fall: u across it, v up it.  From `strap_at` on they run with it (*strapped*), since a sheet
laid across a steep slope slides off its lap: u up the fall, so that each later piece laps over the one below it, and
v across it to the left.  The layout is reckoned in this frame, where every course is a level band.
Lengths up the fall are slope lengths: plan length times sqrt(1 + slope²).
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from lapwright.defaults.values import Rules
from lapwright.layout.values import UV, Frame
from lapwright.roof.values import Area, Point


def make_frame(area: Area, rules: Rules) -> Frame:
    """The frame of an area, with u = 0 and v = 0 at its leftmost and lowest points as the courses run.

    Source: geometry, right-handed; across the fall u is to the right when looking up it. UFGS 07550 for the way courses
        run (strapped from 2 in 12)
    Checked: tests/layout/test_place.py, tests/layout/test_frame.py
    """
    uphill = (0.0 - area.falls[0], 0.0 - area.falls[1])
    is_strapped = area.slope >= rules.strap_at
    up = (0.0 - uphill[1], uphill[0]) if is_strapped else uphill
    across = (up[1], 0.0 - up[0])
    stretch = math.sqrt(1.0 + area.slope * area.slope)
    low_u = min(x * across[0] + y * across[1] for x, y in area.outline)
    low_v = min(x * up[0] + y * up[1] for x, y in area.outline)
    origin = (low_u * across[0] + low_v * up[0], low_u * across[1] + low_v * up[1])
    return Frame(origin=origin, across=across, up=up, stretch=stretch, is_strapped=is_strapped)


def to_slope(frame: Frame, points: Sequence[Point]) -> tuple[UV, ...]:
    """Plan points [ticks] in the slope frame, to the nearest tick.

    Source: geometry
    """
    return tuple((round(u), round(v)) for u, v in (frame.slope_uv(x, y) for x, y in points))
