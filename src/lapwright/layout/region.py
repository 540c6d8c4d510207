"""What one ply has to cover, in the slope frame: the outline moved to where the ply ends at each side.

At a metal edge the ply under the cap runs past and is turned down, the cap is held back.  At a wall or parapet a
ply leaves the deck at the foot of the cant, runs up the cant's face and on up the wall: laid flat it reaches
`cant * sqrt(2) - cant + up_wall` beyond the wall's line.  In three plies the base ends where the cap does, so that
its side laps can lie in line with the cap's and half-way between the interply's (docs/decisions/0002).
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from lapwright.defaults.values import Rules
from lapwright.geometry.offset import offset_sides
from lapwright.layout.frame import to_slope
from lapwright.layout.values import UV, Frame
from lapwright.roof.values import Area, Edge


@dataclass(frozen=True, slots=True)
class Region:
    """A ply's ground: outline and openings in the slope frame [ticks], and the same as one shape."""

    outline: tuple[UV, ...]
    openings: tuple[tuple[UV, ...], ...]
    shape: Any
    begins: int
    ends: int
    left: int
    right: int


def reach_beyond(edge: Edge, rules: Rules, *, under_cap: bool) -> int:
    """How far a ply reaches beyond a side's line, laid flat [ticks]; negative: held back.

    under_cap: the ply lies next under the cap.
    Source: common practice, no source (cap 1/2" back, base 2" past); the rest is the cant's geometry.
    Checked: tests/layout/test_place.py
    """
    if edge.kind == "metal_edge":
        return rules.base_over_edge_ticks if under_cap else -rules.cap_back_from_edge_ticks
    if edge.kind in ("parapet", "wall"):
        up_wall = rules.base_up_wall_ticks if under_cap else rules.cap_up_wall_ticks
        return round(rules.cant_ticks * (math.sqrt(2.0) - 1.0)) + up_wall
    return 0


def make_region(area: Area, frame: Frame, rules: Rules, *, under_cap: bool) -> Region:
    """The ground of one ply on one area.

    under_cap: the ply lies next under the cap.
    Raises: ValueError where holding the ply back leaves nothing of the area.
    Source: geometry
    """
    from shapely import Polygon  # shapely is heavy; the readers never need it
    from shapely.ops import unary_union

    corners = to_slope(frame, area.outline)
    moved = offset_sides(corners, [reach_beyond(edge, rules, under_cap=under_cap) for edge in area.edges])
    outline = tuple((round(u), round(v)) for u, v in moved)
    openings = tuple(to_slope(frame, opening.outline) for opening in area.openings)
    shape = Polygon(outline)
    if not shape.is_valid:
        shape = shape.buffer(0)
    if openings:
        shape = shape.difference(unary_union([Polygon(ring) for ring in openings]))
    if shape.is_empty:
        raise ValueError(f"nothing of area {area.name} is left when its plies are held back")
    left, begins, right, ends = (round(bound) for bound in shape.bounds)
    return Region(outline, openings, shape, begins, ends, left, right)
