"""What openings take out of the roof in plan, with what lies behind one that stands against an edge.

A curb against a parapet leaves no roof between the two, so the ground beyond the edge goes with the curb: a *strip*
behind the side that touches, as long as the two touch.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from lapwright.geometry.polygon import Side, place_of, sides_of
from lapwright.roof.between import same_line_ticks
from lapwright.roof.values import Area, Opening, Point
from lapwright.units.factors import TICKS_PER_METRE

Ring = tuple[Point, ...]
BEHIND = TICKS_PER_METRE  # how deep a strip is: more than any ply runs past its edge


@dataclass(frozen=True, slots=True)
class CutOut:
    """What one opening takes out: its name and rings, its own first [ticks]."""

    name: str
    rings: tuple[Ring, ...]


def cut_outs(area: Area) -> tuple[CutOut, ...]:
    """What is taken out of an area's roof, opening by opening; those of neighbouring planes last.

    Source: geometry
    Checked: tests/roof/test_roof_cutouts.py
    """
    openings = (*area.openings, *area.beside)
    return tuple(CutOut(one.name, (one.outline, *strips_behind(area, one))) for one in openings)


def strips_behind(area: Area, opening: Opening) -> tuple[Ring, ...]:
    """The strips behind the sides of an opening that lie on the area's outline, and what lies behind its corners.

    Of a plane it is the outline of all planes together that counts: a curb in a corner where a valley begins has an
    edge of the one plane behind it, and one of the other.
    """
    if opening.ring:
        return ()  # one that is no upright rectangle stands clear of the outline
    strips = tuple(dict.fromkeys(_strips(area.whole or area.outline, opening)))
    (left, low), (right, high) = opening.outline[0], opening.outline[2]
    corners = []
    for x, beyond_x in ((left, left - BEHIND), (right, right + BEHIND)):
        for y, beyond_y in ((low, low - BEHIND), (high, high + BEHIND)):
            if any((x, beyond_y) in ring for ring in strips) and any((beyond_x, y) in ring for ring in strips):
                corners.append(box(min(x, beyond_x), min(y, beyond_y), max(x, beyond_x), max(y, beyond_y)))
    return (*strips, *corners)


def _strips(outline: Ring, opening: Opening) -> Iterator[Ring]:
    slack = same_line_ticks()
    (left, low), (right, high) = opening.outline[0], opening.outline[2]
    for (ax, ay), (bx, by) in sides_of(outline):
        x0, x1 = max(left, min(ax, bx)), min(right, max(ax, bx))
        y0, y1 = max(low, min(ay, by)), min(high, max(ay, by))
        if abs(ay - by) <= slack and x0 < x1:
            for level, beyond in ((low, low - BEHIND), (high, high + BEHIND)):
                if abs(ay - level) <= slack:
                    (start, _), (end, _) = _reaching(
                        outline, ((x0, level), (x1, level)), ((left, level), (right, level))
                    )
                    yield box(start, min(level, beyond), end, max(level, beyond))
        if abs(ax - bx) <= slack and y0 < y1:
            for level, beyond in ((left, left - BEHIND), (right, right + BEHIND)):
                if abs(ax - level) <= slack:
                    (_, start), (_, end) = _reaching(outline, ((level, y0), (level, y1)), ((level, low), (level, high)))
                    yield box(min(level, beyond), start, max(level, beyond), end)


def _reaching(outline: Ring, strip: Side, whole: Side) -> Side:
    """A strip's ends: those of the side, or the opening's corners where the roof does not go on between the two."""
    slack = same_line_ticks()
    start, end = (
        corner
        if math.dist(own, corner) <= slack
        or place_of(outline, ((own[0] + corner[0]) // 2, (own[1] + corner[1]) // 2)) < 0
        else own
        for own, corner in zip(strip, whole, strict=True)
    )
    return (start, end)


def box(left: int, low: int, right: int, high: int) -> Ring:
    """An upright rectangle, counter-clockwise from the south-west."""
    return ((left, low), (right, low), (right, high), (left, high))
