"""How wide two overlapping polygons overlap: rounding, or more."""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.geometry.polygon import Point

GRID = 1e-3  # of the points' whole numbers: without a grid GEOS errs where sides nearly coincide


def overlap_is_thin(a: Sequence[Point], b: Sequence[Point], *, width: float) -> bool:
    """What two polygons share is nowhere wider than `width` [unit of the points].

    Holds for: outlines that do not cross themselves.
    Source: arithmetic; what vanishes when moved in by half the width
    """
    from shapely import Polygon, intersection  # heavy; asked only where an exact test has found an overlap

    shared = intersection(Polygon(a), Polygon(b), grid_size=GRID)
    return bool(shared.buffer(-width / 2, join_style="mitre").is_empty)
