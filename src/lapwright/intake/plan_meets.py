"""Corners put in where areas meet: a side of which another area shares only a part ends where that part ends.

Sides that coincide are one edge and have one kind.  A draughtsman draws the long side of a hall in one line, whatever
is built against a part of it; each part has to be a side, so that each can be an edge of its own.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from lapwright.faults import Mended, shorten
from lapwright.geometry.meets import meeting_boxes
from lapwright.geometry.polygon import Point, sides_of
from lapwright.intake.plan_scale import How
from lapwright.intake.plan_values import DrawnOutline

OFF_TICKS = 2.0  # a corner brought onto a side that runs askew lies off it by rounding
MOST_NAMED = 5


def cornered(
    outlines: Mapping[str, DrawnOutline], keys: Mapping[str, str], how: How
) -> tuple[dict[str, DrawnOutline], list[Mended]]:
    """The outlines with a corner wherever one of another area's lies on a side and a side of that area runs along it.

    keys: how notes name each area's outline.
    """
    made: dict[str, DrawnOutline] = {}
    notes: list[Mended] = []
    for name, outline in outlines.items():
        put_in: dict[int, set[Point]] = {}
        for other, beside in outlines.items():
            if other != name:
                for side, corner in _ends(outline.corners, beside.corners):
                    put_in.setdefault(side, set()).add(corner)
        if not put_in:
            made[name] = outline
            continue
        made[name] = replace(outline, corners=tuple(_with(outline.corners, put_in)))
        added = [how.at(corner) for side in sorted(put_in) for corner in _along(outline.corners, side, put_in[side])]
        more = f" and {len(added) - MOST_NAMED} more" if len(added) > MOST_NAMED else ""
        found = f"sides of which another area shares a part, ending at {', '.join(added[:MOST_NAMED])}{more}"
        notes.append(Mended(how.file, shorten(keys[name], 60), found, "a corner put in there, as corners asks"))
    return made, notes


def _ends(own: Sequence[Point], other: Sequence[Point]) -> Iterator[tuple[int, Point]]:
    """Corners of another outline within a side of this one that a side of theirs runs along; the side's place first."""
    sides = sides_of(own)
    count = len(other)
    reach = [((x - 1, y - 1), (x + 1, y + 1)) for x, y in other]
    for k, j in meeting_boxes(reach, sides):
        corner, side = other[k], sides[j]
        if _is_within(corner, side) and any(_runs_along(corner, other[(k + step) % count], side) for step in (-1, 1)):
            yield j, corner


def _is_within(corner: Point, side: tuple[Point, Point]) -> bool:
    """On a side, and not at one of its ends."""
    (ax, ay), (bx, by) = side
    length = math.dist(*side)
    along = ((corner[0] - ax) * (bx - ax) + (corner[1] - ay) * (by - ay)) / length
    return OFF_TICKS < along < length - OFF_TICKS and _off(corner, side) <= OFF_TICKS


def _off(point: Point, side: tuple[Point, Point]) -> float:
    (ax, ay), (bx, by) = side
    return abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / math.dist(*side)


def _runs_along(corner: Point, beside: Point, side: tuple[Point, Point]) -> bool:
    """The way from a corner on a side to the corner beside it follows the side's line, for more than a little.

    An end of the side that lies on that way stands off it by no more than rounding: both ways are tried, since a short
    one says little of a long one's line.
    """
    if math.dist(corner, beside) <= OFF_TICKS:
        return False
    nearer = [end for end in side if _is_within(end, (corner, beside)) or end == beside]
    return _off(beside, side) <= OFF_TICKS or bool(nearer)


def _along(corners: Sequence[Point], side: int, added: set[Point]) -> list[Point]:
    start = corners[side]
    return sorted(added, key=lambda corner: (math.dist(start, corner), corner))


def _with(corners: Sequence[Point], put_in: Mapping[int, set[Point]]) -> Iterator[Point]:
    for place, corner in enumerate(corners):
        yield corner
        yield from _along(corners, place, put_in.get(place, set()))
