"""What one ply has to cover, in the slope frame: the outline moved to where the ply ends at each side.

At a metal edge the ply under the cap runs past and is turned down, the cap is held back.  At a wall or parapet a
ply leaves the deck at the foot of the cant, runs up the cant's face and on up the wall: laid flat it reaches
`cant * sqrt(2) - cant + up_wall` beyond the wall's line.  In three plies the base ends where the cap does, so that
its side laps can lie in line with the cap's and half-way between the interply's (docs/decisions/0002).
At a valley that two planes share the ply is held back on the valley sheet; at a ridge it runs past the line, and where
water runs across a line onto the other plane the upper one's ply does.
At an opening it turns up as at a wall, so the hole in its ground is so much smaller than the opening; where nothing
is left of the hole, the sheet is slit like round a pipe.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from lapwright.defaults.si import default_si
from lapwright.defaults.values import Rules
from lapwright.geometry.offset import offset_sides
from lapwright.layout.frame import to_slope
from lapwright.layout.values import UV, Frame
from lapwright.roof.cutouts import cut_outs
from lapwright.roof.values import Area, Edge
from lapwright.units.factors import TICKS_PER_METRE

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

MITRE = 5.0  # corners of openings stay corners, also where the slope makes them a little sharp


@dataclass(frozen=True, slots=True)
class Region:
    """A ply's ground: outline and holes at openings in the slope frame [ticks], and the same as one shape."""

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
    Source: common practice, no source (cap 1/2" back, base 2" past, valleys, ridges); the rest is the cant's geometry.
    Checked: tests/layout/test_place.py
    """
    if edge.kind == "metal_edge":
        return rules.base_over_edge_ticks if under_cap else -rules.cap_back_from_edge_ticks
    if edge.kind in ("parapet", "wall"):
        return turn_up(rules, under_cap=under_cap)
    if edge.meets and edge.kind == "valley":
        return -rules.valley_back_ticks
    if edge.meets and (edge.kind == "ridge" or edge.is_over):
        return rules.over_ridge_ticks
    return 0


def turn_up(rules: Rules, *, under_cap: bool) -> int:
    """How far a ply reaches beyond the line of a wall or curb, laid flat [ticks].

    Source: the cant's geometry
    Checked: tests/layout/test_place.py, tests/layout/test_region.py
    """
    up_wall = rules.base_up_wall_ticks if under_cap else rules.cap_up_wall_ticks
    return round(rules.cant_ticks * (math.sqrt(2.0) - 1.0)) + up_wall


def holes_at_openings(area: Area, frame: Frame, reach: int) -> tuple[tuple[UV, ...], ...]:
    """The holes that a ply's ground has at openings, smaller than these by what it turns up; in order of the openings.

    Openings that touch make one hole.  One no deeper than `slit_depth` is none.
    """
    cuts = cut_outs(area)
    if not cuts:
        return ()
    from shapely import Polygon, STRtree
    from shapely.ops import unary_union

    rings = [Polygon(to_slope(frame, ring)) for cut in cuts for ring in cut.rings]
    whole = unary_union(rings).buffer(-reach, join_style="mitre", mitre_limit=MITRE)
    slit = default_si("roof", "slit_depth") * TICKS_PER_METRE
    parts = [
        part for part in getattr(whole, "geoms", [whole]) if part.bounds and part.bounds[3] - part.bounds[1] > slit
    ]
    tree = STRtree(rings)
    first = [int(tree.query(part, predicate="intersects").min()) for part in parts]
    order = sorted(range(len(parts)), key=lambda k: (first[k], parts[k].bounds))
    return tuple(tuple((round(u), round(v)) for u, v in parts[k].exterior.coords[:-1]) for k in order)


def make_region(area: Area, frame: Frame, rules: Rules, *, under_cap: bool) -> Region:
    """The ground of one ply on one area.

    under_cap: the ply lies next under the cap.
    Raises: ValueError where holding the ply back leaves nothing of the area.
    Source: geometry
    """
    from shapely import Polygon, prepare  # shapely is heavy; the readers never need it
    from shapely.ops import unary_union

    corners = to_slope(frame, area.outline)
    moved = offset_sides(corners, [reach_beyond(edge, rules, under_cap=under_cap) for edge in area.edges])
    outline = tuple((round(u), round(v)) for u, v in moved)
    openings = holes_at_openings(area, frame, turn_up(rules, under_cap=under_cap))
    within = filled(outline)
    prepare(within)
    shape = within
    if openings:
        shape = shape.difference(unary_union([Polygon(ring) for ring in openings]))
    if shape.is_empty:
        raise ValueError(f"nothing of area {area.name} is left when its plies are held back")
    openings = tuple(ring for ring in openings if within.intersects(Polygon(ring)))
    left, begins, right, ends = (round(bound) for bound in shape.bounds)
    return Region(outline, openings, shape, begins, ends, left, right)


def filled(outline: Sequence[UV]) -> BaseGeometry:
    """The ground within an outline, openings and all.  Source: geometry"""
    from shapely import Polygon

    shape = Polygon(outline)
    return shape if shape.is_valid else shape.buffer(0)
