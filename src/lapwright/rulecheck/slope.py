"""Plan points of an area on its slope: u across the fall, v up it, in metres along the surface.

u grows to the right for one who looks up the fall; both are 0 at the area's leftmost and lowest corners.
"""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from lapwright.roof.values import Area
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.values import XY

Box = tuple[float, float, float, float]  # u0, v0, u1, v1


@dataclass(frozen=True, slots=True)
class Slope:
    """Way up the fall as a unit vector in plan; left, low: where u and v begin in plan metres; stretch of v."""

    up: XY
    left: float
    low: float
    stretch: float

    def uv(self, point: XY) -> XY:
        """A plan point on the slope."""
        u, v = _across_and_up(point, self.up)
        return (u - self.left, (v - self.low) * self.stretch)

    def plan(self, u: float, v: float) -> XY:
        """A point of the slope in plan."""
        across, up = u + self.left, v / self.stretch + self.low
        return (across * self.up[1] + up * self.up[0], -across * self.up[0] + up * self.up[1])


def slope_of(area: Area) -> Slope:
    """The slope that an area lies on."""
    down = math.hypot(*area.falls)
    up = (-area.falls[0] / down, -area.falls[1] / down)
    corners = [_across_and_up((metres(x), metres(y)), up) for x, y in area.outline]
    return Slope(up, min(u for u, _ in corners), min(v for _, v in corners), math.sqrt(1.0 + area.slope**2))


def box_of(points: Iterable[XY]) -> Box:
    """The upright box round points of the slope."""
    us, vs = zip(*points, strict=True)
    return (min(us), min(vs), max(us), max(vs))


def _across_and_up(point: XY, up: XY) -> XY:
    return (point[0] * up[1] - point[1] * up[0], point[0] * up[0] + point[1] * up[1])
