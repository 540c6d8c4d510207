"""Ground in the lap between two courses: who covers what of it neither has for its own."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING

from lapwright.layout.rows import LEAST, Row, between, parts_of

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


@dataclass(frozen=True, slots=True)
class Need:
    """What a course is needed for by itself.

    ground: what its sheets may lie on, without what it leaves to its neighbours beside openings; needed: what of it the
    course has to cover.  is_whole: it is one run over all of its ground, whatever its neighbours cover.
    """

    row: Row
    ground: BaseGeometry
    needed: BaseGeometry
    is_whole: bool = False


def with_shares(needs: Sequence[Need]) -> list[BaseGeometry]:
    """What each course of a ply, from the low edge up, has to cover, its share of the laps with it.

    Source: method of our own, docs/method/layout.md
    Checked: tests/layout/test_parted.py, tests/properties/test_layout.py
    """
    from shapely.ops import unary_union

    shares: list[list[BaseGeometry]] = [[] for _ in needs]
    for place, (below, above) in enumerate(pairwise(needs)):
        for part in uncovered(below, above):
            shares[place + goes_up(part, below, above)].append(part)
    return [
        unary_union([need.needed, *more]) if more else need.needed for need, more in zip(needs, shares, strict=True)
    ]


def uncovered(below: Need, above: Need) -> list[BaseGeometry]:
    """What of the lap between two courses neither has for its own.

    The upper one lies wherever it is needed for ground of its own, over the whole of its width, but not on ground that
    an opening parts from that.
    """
    from shapely.ops import unary_union

    row, other = below.row, above.row
    own = [part for part in parts_of(other.alone) if part.area > LEAST * LEAST]
    if below.is_whole or any(
        is_as_wide(part, below.ground) and (not other.near or fills_all(part, other)) for part in own
    ):
        return []
    shadow = unary_union([shadow_of(other, part, row.course.low - 1) for part in own])
    return parts_of(between(below.ground, row.free[1], row.course.high).difference(shadow))


def goes_up(part: BaseGeometry, below: Need, above: Need) -> bool:
    """The upper course goes on for a part of the lap, where the lower one would take a piece for it alone.

    So at a corner of the outline that stands out beside a lap.
    """
    if part.area <= LEAST * LEAST or any(adjoins(part, own) for own in beside(part, below)):
        return False
    return any(adjoins(part, own) for own in beside(part, above))


def beside(part: BaseGeometry, need: Need) -> list[BaseGeometry]:
    """What a course is needed for on the ground on which a part of it lies."""
    there = [ground for ground in parts_of(need.ground) if ground.intersection(part).area > LEAST * LEAST]
    found = [own for ground in there for own in parts_of(ground.intersection(need.needed))]
    return [own for own in found if own.area > LEAST * LEAST]


def adjoins(part: BaseGeometry, own: BaseGeometry) -> bool:
    """One lies along the course where the other does, or right beside it."""
    left, _, right, _ = part.bounds
    first, _, last, _ = own.bounds
    return bool(left <= last + LEAST and first <= right + LEAST)


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
