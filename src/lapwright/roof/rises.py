"""Sides over which the wall of a higher part of the roof rises: the rain on it runs onto the lower part (Q4)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from lapwright.roof.between import shared_edges
from lapwright.roof.values import Area

SAME_HEIGHT = 0.001


def with_rises(areas: Sequence[Area], *, height: float | None) -> tuple[Area, ...]:
    """The areas with each side knowing the wall of a higher part over it.

    height: mean height of the building's roof [m], which areas without their own have; None: not given.
    Holds for: walls as high as the mean heights of two parts differ, over the length that their sides share.
    Source: arithmetic
    Checked: tests/roof/test_rises.py
    """
    found = list(areas)
    for shared in shared_edges(areas):
        one, other = (shared.area, shared.side), (shared.other_area, shared.other_side)
        for (low, side), (high, _) in ((one, other), (other, one)):
            own, its = areas[low].roof_height, areas[high].roof_height
            if own is not None or its is not None:
                wall = _wall_m2(own, its, height, shared.length)
                found[low] = _under(found[low], side, wall, is_by_building=own is None or its is None)
    return tuple(found)


def _wall_m2(low: float | None, high: float | None, height: float | None, length: float) -> float | None:
    """Wall between two parts over the lower one [m²]: 0 where the other is no higher, None where that is not known."""
    low, high = (height if each is None else each for each in (low, high))
    if low is None or high is None:
        return None
    return (high - low) * length if high - low > SAME_HEIGHT else 0.0


def _under(area: Area, side: int, wall: float | None, *, is_by_building: bool) -> Area:
    """The area with a wall more over one of its sides."""
    edge = area.edges[side - 1]
    whole = None if wall is None or edge.wall_over_m2 is None else edge.wall_over_m2 + wall
    under = replace(edge, wall_over_m2=whole, is_by_building=edge.is_by_building or is_by_building)
    return replace(area, edges=tuple(under if each is edge else each for each in area.edges))
