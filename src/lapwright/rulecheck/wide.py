"""Which part of a blank a piece really is, where openings and bites of the outline cut into it.

A *tongue* beside an opening or an edge counts only where it is wider than the side lap, since the neighbouring course
covers that much.  So the parts of a blank are told apart where it is no wider than that: its *wide parts*.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from shapely import Polygon, union_all
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
    Holds for: openings that are deeper than half the lap.
    Source: geometry; a chord is longer than the lap where the shape and the shape moved down by the lap meet
    """
    found = shape
    for share in (0.5, 1.0):
        found = found.intersection(translate(shape, 0.0, -lap * share))
    parts = [part for part in getattr(found, "geoms", [found]) if part.geom_type == "Polygon" and breadth(part) > least]
    return tuple(sorted(parts, key=lambda part: -breadth(part)))


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
