"""Plan points of an area on its slope: u along the courses, v from course to course, in metres along the surface.

Where courses run across the fall, u grows to the right for one who looks up it and v up it.  Where they run with it,
u grows up the fall and v to the left.  Both are 0 at the area's leftmost and lowest corners as the courses run.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from lapwright.roof.values import Area
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.values import XY

Box = tuple[float, float, float, float]  # u0, v0, u1, v1


@dataclass(frozen=True, slots=True)
class Slope:
    """The way of v as a unit vector in plan; left, low: where u and v begin in plan metres; their stretches."""

    up: XY
    left: float
    low: float
    stretch_u: float
    stretch_v: float

    @property
    def is_strapped(self) -> bool:
        """Courses run with the fall."""
        return self.stretch_u > self.stretch_v

    def uv(self, point: XY) -> XY:
        """A plan point on the slope."""
        u, v = _across_and_up(point, self.up)
        return ((u - self.left) * self.stretch_u, (v - self.low) * self.stretch_v)

    def plan(self, u: float, v: float) -> XY:
        """A point of the slope in plan."""
        across, up = u / self.stretch_u + self.left, v / self.stretch_v + self.low
        return (across * self.up[1] + up * self.up[0], -across * self.up[0] + up * self.up[1])


def slope_of(area: Area, limits: Limits) -> Slope:
    """The slope that an area lies on, as its courses run."""
    down = math.hypot(*area.falls)
    up = (-area.falls[0] / down, -area.falls[1] / down)
    stretches = (1.0, math.sqrt(1.0 + area.slope**2))
    if area.slope >= limits.strap_at:
        # laid with the fall: what goes across is now the way up
        up, stretches = (-up[1], up[0]), (stretches[1], stretches[0])
    corners = [_across_and_up((metres(x), metres(y)), up) for x, y in area.outline]
    return Slope(up, min(u for u, _ in corners), min(v for _, v in corners), *stretches)


def box_of(points: Iterable[XY]) -> Box:
    """The upright box round points of the slope."""
    us, vs = zip(*points, strict=True)
    return (min(us), min(vs), max(us), max(vs))


def _across_and_up(point: XY, up: XY) -> XY:
    return (point[0] * up[1] - point[1] * up[0], point[0] * up[0] + point[1] * up[1])
