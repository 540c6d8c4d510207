"""Ground in the lap between two courses: who covers what of it neither has for its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from lapwright.layout.rows import LEAST, Row, between, parts_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def with_uncovered(needed: BaseGeometry, ground: BaseGeometry, row: Row, above: Row) -> BaseGeometry:
    """What a course is needed for, with what the one above leaves of the lap between them.

    That one lies wherever it is needed for ground of its own, over the whole of its width, but not on ground that an
    opening parts from that.
    """
    from shapely.ops import unary_union

    own = [part for part in parts_of(above.alone) if part.area > LEAST * LEAST]
    if any(is_as_wide(part, ground) and (not above.near or fills_all(part, above)) for part in own):
        return needed
    shadow = unary_union([shadow_of(above, part, row.course.low - 1) for part in own])
    bare = between(ground, row.free[1], row.course.high).difference(shadow)
    return needed if bare.is_empty else needed.union(bare)


def fills_all(part: BaseGeometry, row: Row) -> bool:
    """A part is as wide as all ground of its course, which openings part nowhere."""
    return row.ground.geom_type == "Polygon" and is_as_wide(part, row.ground)


def is_as_wide(part: BaseGeometry, whole: BaseGeometry) -> bool:
    """A part reaches along the course as far as a whole, both ways."""
    left, _, right, _ = part.bounds
    first, _, last, _ = whole.bounds
    return bool(left <= first and last <= right)


def shadow_of(row: Row, own: BaseGeometry, low: int) -> BaseGeometry:
    """What a course lies over, down to a level, over the width of a part that it is needed for."""
    from shapely import box
    from shapely.ops import unary_union

    left, _, right, _ = own.bounds
    blank = box(left, low, right, row.course.high + 1)
    parts = parts_of(row.ground.intersection(blank)) if row.near else []
    loose = [part for part in parts if part.intersection(own).area <= LEAST * LEAST < part.area]
    return blank.difference(unary_union(loose)) if loose else blank
