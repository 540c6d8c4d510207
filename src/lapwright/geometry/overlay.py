"""Shapes cut with one another on a fine grid, in metres.

The library's overlay without a grid (GEOS 3.14.1) may lose a surface, or keep one that it should take away, where one
of the shapes has several parts that lie apart; random roofs found it.  On a grid of a tenth of a micrometre it did not.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import shapely
from shapely import LineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

GRID = 1e-7


def common(one: BaseGeometry, other: BaseGeometry) -> BaseGeometry:
    """What two shapes have in common."""
    return shapely.intersection(one, other, grid_size=GRID)


def less(one: BaseGeometry, other: BaseGeometry) -> MultiPolygon:
    """A surface without another."""
    return surfaces([shapely.difference(one, other, grid_size=GRID)])


def united(shapes: Iterable[BaseGeometry]) -> BaseGeometry:
    """Shapes as one."""
    return shapely.union_all(list(shapes), grid_size=GRID)


def surfaces(shapes: Iterable[BaseGeometry]) -> MultiPolygon:
    """Shapes that do not overlap as one, without the lines and points that overlays leave where things only touch."""
    parts = [part for shape in shapes for part in shapely.get_parts(shapely.get_parts(shape))]
    return MultiPolygon([part for part in parts if isinstance(part, Polygon) and not part.is_empty])


def lines_within(lines: Sequence[LineString], shape: BaseGeometry) -> Any:  # noqa: ANN401  # an array of shapes
    """What of each line lies in a shape: an array of shapes, in order."""
    return shapely.intersection(list(lines), shape, grid_size=GRID)
