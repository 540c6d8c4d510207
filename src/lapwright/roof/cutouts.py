"""What openings take out of the roof in plan, with what lies behind one that stands against an edge.

A curb against a parapet leaves no roof between the two, so the ground beyond the edge goes with the curb: a *strip*
behind the side that touches, as long as the two touch.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from lapwright.geometry.polygon import sides_of
from lapwright.roof.between import same_line_ticks
from lapwright.roof.values import Area, Opening, Point
from lapwright.units.factors import TICKS_PER_METRE

Ring = tuple[Point, ...]
BEHIND = TICKS_PER_METRE  # how deep a strip is: more than any ply runs past its edge


@dataclass(frozen=True, slots=True)
class CutOut:
    """What one opening takes out: its name and upright rectangles, its own first [ticks]."""

    name: str
    rings: tuple[Ring, ...]


def cut_outs(area: Area) -> tuple[CutOut, ...]:
    """What is taken out of an area's roof, opening by opening; those of neighbouring planes last.

    Source: geometry
    Checked: tests/roof/test_roof_cutouts.py
    """
    openings = (*area.openings, *area.beside)
    return tuple(CutOut(one.name, (one.outline, *strips_behind(area, one))) for one in openings)


def strips_behind(area: Area, opening: Opening) -> Iterator[Ring]:
    """The strips behind the sides of an opening that lie on the area's outline."""
    slack = same_line_ticks()
    (left, low), (right, high) = opening.outline[0], opening.outline[2]
    for (ax, ay), (bx, by) in sides_of(area.outline):
        x0, x1 = max(left, min(ax, bx)), min(right, max(ax, bx))
        y0, y1 = max(low, min(ay, by)), min(high, max(ay, by))
        if abs(ay - by) <= slack and x0 < x1:
            if abs(ay - low) <= slack:
                yield box(x0, low - BEHIND, x1, low)
            if abs(ay - high) <= slack:
                yield box(x0, high, x1, high + BEHIND)
        if abs(ax - bx) <= slack and y0 < y1:
            if abs(ax - left) <= slack:
                yield box(left - BEHIND, y0, left, y1)
            if abs(ax - right) <= slack:
                yield box(right, y0, right + BEHIND, y1)


def box(left: int, low: int, right: int, high: int) -> Ring:
    """An upright rectangle, counter-clockwise from the south-west."""
    return ((left, low), (right, low), (right, high), (left, high))
