"""The wind's zone at one point of a roof, by looking at every side and every corner: plain, slow, nothing drawn.

The definitions, not the way the room reckons them: zone 2 is all that lies within the outer distance of a side, or in
the square tip between two sides that meet at an inside corner; zone 1 the same with the inner distance; zone 3 lies
over both in the legs along the sides of an outside corner, and in the kite between them where the corner is blunt.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

Pt = tuple[float, float]
Ring = Sequence[Pt]


@dataclass(frozen=True)
class Widths:
    """Distances [m] of the bands and the corners' legs; the least turn [deg] of an outside corner."""

    outer: float
    inner: float
    leg_length: float
    leg_width: float
    least_turn_deg: float


def zone_at(point: Pt, rings: Sequence[Ring], widths: Widths) -> str | None:
    """The zone of a point: 1', 1, 2 or 3; None off the roof.  rings: each with the roof on its left."""
    if not inside(point, rings):
        return None
    if any(in_corner(point, ring, widths) for ring in rings):
        return "3"
    if any(in_band(point, ring, widths.outer) for ring in rings):
        return "2"
    if widths.inner <= widths.outer:
        return "1"
    return "1" if any(in_band(point, ring, widths.inner) for ring in rings) else "1'"


def inside(point: Pt, rings: Sequence[Ring]) -> bool:
    """Even-odd: a ray to the east crosses the rings an odd number of times."""
    x, y = point
    crossings = 0
    for ring in rings:
        for (ax, ay), (bx, by) in sides(ring):
            if (ay > y) != (by > y) and x < ax + (y - ay) * (bx - ax) / (by - ay):
                crossings += 1
    return crossings % 2 == 1


def in_band(point: Pt, ring: Ring, distance: float) -> bool:
    """Within a distance of a side, or in the tip of an inside corner."""
    return any(far(point, side) <= distance for side in sides(ring)) or any(
        in_polygon(point, tip) for tip in tips(ring, distance)
    )


def tips(ring: Ring, distance: float) -> list[list[Pt]]:
    """At each inside corner the kite between the two sides' bands."""
    found = []
    for before, corner, after in corners(ring):
        first, second = left(unit(before, corner)), left(unit(corner, after))
        if cross(first, second) < -1e-12:
            found.append(kite(corner, first, second, distance))
    return found


def in_corner(point: Pt, ring: Ring, widths: Widths) -> bool:
    """In a leg of an outside corner or in the kite between its legs."""
    for before, corner, after in corners(ring):
        arrive, leave = unit(before, corner), unit(corner, after)
        turn = math.degrees(math.atan2(cross(arrive, leave), dot(arrive, leave)))
        if turn < widths.least_turn_deg:
            continue
        back = (-arrive[0], -arrive[1])
        if in_leg(point, corner, back, left(arrive), widths) or in_leg(point, corner, leave, left(leave), widths):
            return True
        if in_polygon(point, kite(corner, left(arrive), left(leave), widths.leg_width)):
            return True
    return False


def in_leg(point: Pt, corner: Pt, along: Pt, inward: Pt, widths: Widths) -> bool:
    """In the rectangle of a leg."""
    off = (point[0] - corner[0], point[1] - corner[1])
    return 0 <= dot(off, along) <= widths.leg_length and 0 <= dot(off, inward) <= widths.leg_width


def kite(corner: Pt, first: Pt, second: Pt, distance: float) -> list[Pt]:
    """The corner, the feet of two normals, and where the two parallels meet."""
    share = distance / (1 + dot(first, second))
    return [
        corner,
        (corner[0] + first[0] * distance, corner[1] + first[1] * distance),
        (corner[0] + (first[0] + second[0]) * share, corner[1] + (first[1] + second[1]) * share),
        (corner[0] + second[0] * distance, corner[1] + second[1] * distance),
    ]


def in_polygon(point: Pt, polygon: Sequence[Pt]) -> bool:
    """On one side of all sides of a convex polygon, whichever way it is walked."""
    signs = [cross((b[0] - a[0], b[1] - a[1]), (point[0] - a[0], point[1] - a[1])) for a, b in sides(polygon)]
    return all(sign >= 0 for sign in signs) or all(sign <= 0 for sign in signs)


def far(point: Pt, side: tuple[Pt, Pt]) -> float:
    """Distance of a point from a side."""
    (ax, ay), (bx, by) = side
    dx, dy = bx - ax, by - ay
    along = ((point[0] - ax) * dx + (point[1] - ay) * dy) / (dx * dx + dy * dy)
    share = min(1.0, max(0.0, along))
    return math.dist(point, (ax + dx * share, ay + dy * share))


def sides(ring: Ring) -> list[tuple[Pt, Pt]]:
    """The sides of a ring."""
    return [(ring[k], ring[(k + 1) % len(ring)]) for k in range(len(ring))]


def corners(ring: Ring) -> list[tuple[Pt, Pt, Pt]]:
    """Each corner between its neighbours."""
    return [(ring[k - 1], ring[k], ring[(k + 1) % len(ring)]) for k in range(len(ring))]


def unit(a: Pt, b: Pt) -> Pt:
    """The direction from one point to another."""
    length = math.dist(a, b)
    return ((b[0] - a[0]) / length, (b[1] - a[1]) / length)


def left(way: Pt) -> Pt:
    """A direction turned to the left."""
    return (-way[1], way[0])


def dot(a: Pt, b: Pt) -> float:
    """Inner product."""
    return a[0] * b[0] + a[1] * b[1]


def cross(a: Pt, b: Pt) -> float:
    """How much the second lies to the left of the first."""
    return a[0] * b[1] - a[1] * b[0]
