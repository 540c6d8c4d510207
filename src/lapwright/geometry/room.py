"""Room within a polygon of any shape: its roomiest place, whether a box fits, and what of a line lies inside."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

XY = tuple[float, float]
FINE = 1e-3  # of the polygon's greater extent: how near the roomiest place is found
HAIR = 1e-9  # of it: shorter stretches of a line are none


def holds(ring: Sequence[XY], box: tuple[float, float, float, float]) -> bool:
    """An upright box (least x, least y, greatest x, greatest y) lies within a polygon or on its sides.

    Source: arithmetic
    Checked: tests/geometry/test_room.py
    """
    from shapely import box as box_of

    return bool(_whole(ring).covers(box_of(*box)))


def roomiest(ring: Sequence[XY]) -> XY:
    """The middle of the largest circle that fits into a polygon.

    Source: arithmetic
    Checked: tests/geometry/test_room.py
    """
    from shapely import maximum_inscribed_circle

    radius = maximum_inscribed_circle(_whole(ring), tolerance=_extent(ring) * FINE)
    x, y = radius.coords[0]
    return (float(x), float(y))


def stretches_inside(ring: Sequence[XY], start: XY, end: XY) -> tuple[tuple[XY, XY], ...]:
    """The parts of a segment that lie within a polygon, from its start.

    Source: arithmetic
    Checked: tests/geometry/test_room.py
    """
    from shapely import LineString, Point

    cut = _whole(ring).intersection(LineString([start, end]))
    least = _extent(ring) * HAIR
    parts = [part for part in getattr(cut, "geoms", [cut]) if part.geom_type == "LineString" and part.length > least]
    found = []
    for part in parts:
        a, b = part.coords[0], part.coords[-1]
        near, far = sorted(
            ((float(x), float(y)) for x, y in (a, b)), key=lambda spot: Point(spot).distance(Point(start))
        )
        found.append((near, far))
    return tuple(sorted(found, key=lambda ends: Point(ends[0]).distance(Point(start))))


def _whole(ring: Sequence[XY]) -> Any:  # noqa: ANN401  # shapely has no types
    """The polygon; of one that touches itself its largest part."""
    from shapely import Polygon

    shape = Polygon(ring).buffer(0)
    return max(getattr(shape, "geoms", [shape]), key=lambda part: (part.area, [-bound for bound in part.bounds]))


def _extent(ring: Sequence[XY]) -> float:
    xs, ys = [x for x, _ in ring], [y for _, y in ring]
    return max(max(xs) - min(xs), max(ys) - min(ys))
