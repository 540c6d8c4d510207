"""Which part of a blank a piece really is, where openings and bites of the outline cut into it.

A *tongue* beside an opening or an edge counts only where it is wider than the side lap, since the neighbouring course
covers that much.  So the parts of a blank are told apart where it is no wider than that: its *wide parts*.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from shapely import Polygon, box, union_all
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry as Shape


def depth(shape: Shape) -> float:
    """How far a shape reaches up the fall; 0 where it is empty.

    Source: geometry
    """
    return 0.0 if shape.is_empty else float(shape.bounds[3] - shape.bounds[1])


def breadth(shape: Shape) -> float:
    """How far a shape reaches across the fall; 0 where it is empty.

    Source: geometry
    """
    return 0.0 if shape.is_empty else float(shape.bounds[2] - shape.bounds[0])


def polygons(shape: Shape, least: float) -> tuple[Shape, ...]:
    """The polygons of a shape that are deeper than `least`, the largest first.

    Source: geometry
    """
    parts = [part for part in getattr(shape, "geoms", [shape]) if part.geom_type == "Polygon" and depth(part) > least]
    return tuple(sorted(parts, key=lambda part: -part.area))


def wide_parts(shape: Shape, lap: float, least: float) -> tuple[Shape, ...]:
    """Where a shape is deeper than `lap`: of each such place all but its topmost `lap`; the broadest part first.

    Parts no broader than `least` are left out.
    Source: geometry; what is no deeper lies straight below some side of the shape, no farther than that
    """
    if shape.is_empty:
        return ()
    left, low, right, high = shape.bounds
    if shape.area > (right - left) * (high - low) - least * least:  # a rectangle, as most are
        return (box(left, low, right, high - lap),) if high - low > lap and right - left > least else ()
    sides = [
        Polygon([a, b, (b[0], b[1] - lap), (a[0], a[1] - lap)])
        for part in getattr(shape, "geoms", [shape])
        for ring in (part.exterior, *part.interiors)
        for a, b in pairwise(ring.coords)
        if a[0] != b[0]
    ]
    found = shape.difference(union_all(sides))
    parts = [part for part in getattr(found, "geoms", [found]) if part.geom_type == "Polygon"]
    real = [part for part in parts if breadth(part) > least and part.area > least * least]
    return tuple(sorted(real, key=lambda part: -breadth(part)))


def are_alike(parts: Sequence[Shape]) -> bool:
    """Of parts, the broadest first, the second is more than half as broad.

    Source: docs/method/rulecheck.md
    """
    return len(parts) > 1 and breadth(parts[1]) > breadth(parts[0]) / 2


def likeliest(parts: Sequence[Shape], mates: Sequence[Shape], others: Sequence[Shape]) -> tuple[Shape, ...]:
    """Parts of a blank, those first that lie with a piece it is to meet, then those that no other piece is.

    mates: pieces that it is listed to meet; others: the others of its course; both only where they are told apart.
    Source: docs/method/rulecheck.md
    """

    def rank(part: Shape) -> tuple[bool, bool]:
        is_taken = any(part.intersection(other).area > part.area / 2 for other in others)
        return (not any(part.intersects(mate) for mate in mates), is_taken)

    return tuple(sorted(parts, key=rank))


def swept_up(part: Shape, lap: float) -> Shape:
    """What a shape passes over when it is moved up the fall by `lap`: a wide part with its topmost strip again.

    Source: geometry
    """
    corners = list(part.exterior.coords)
    sides = [Polygon([a, b, (b[0], b[1] + lap), (a[0], a[1] + lap)]) for a, b in pairwise(corners) if a[0] != b[0]]
    return union_all([part, translate(part, 0.0, lap), *(side.buffer(0) for side in sides)])
