"""An area given as planes, each with its own fall: tapered insulation that falls to a line or to a drain.

Each plane becomes an area of its own, named after both (`Main North`).  Its sides are the area's own, with what is done
there, or *lines* between two planes: a *valley* where water runs to the line from both, a *ridge* where it runs to it
from none (hips among them), a *step* where it runs across from one onto the other.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lapwright.geometry.polygon import Side, place_of, sides_of, signed_area2
from lapwright.roof.between import same_line_ticks
from lapwright.roof.values import Area, Drain, Edge, Opening, Point
from lapwright.roof.walk import shared_out
from lapwright.units.factors import TICKS_PER_METRE

ALONG = 0.05  # about 3°: water that runs so nearly along a line does not run to it


@dataclass(frozen=True, slots=True)
class PlaneRow:
    """A plane as typed: name, corners in job coordinates [ticks], way water runs, slope."""

    name: str
    outline: tuple[Point, ...]
    falls: tuple[float, float]
    slope: float


def settled(outline: Sequence[Point], rows: Sequence[PlaneRow], reach: Sequence[float]) -> list[PlaneRow]:
    """The planes with each corner on the corner or side of the area, or of a plane before it, that it means.

    Two walks of one place end as far apart as they miss their starts, so what lies no further apart is one place.

    Args:
        outline: corners of the area [ticks].
        reach: of each plane, how far its walk and the area's miss their starts [ticks].

    Source: arithmetic
    Checked: tests/roof/test_roof_planes.py
    """
    known, sides = list(outline), list(sides_of(outline))
    found = []
    for row, far in zip(rows, reach, strict=True):
        corners = tuple(_settled(corner, known, sides, far) for corner in row.outline)
        # a plane whose corners would fall together is left as it was typed
        ring = corners if len(set(corners)) == len(corners) else row.outline
        known += [corner for corner in ring if corner not in known]
        sides += sides_of(ring)
        found.append(replace(row, outline=ring))
    return found


def _settled(corner: Point, known: Sequence[Point], sides: Sequence[Side], far: float) -> Point:
    nearest = min(known, key=lambda point: math.dist(point, corner))
    if math.dist(nearest, corner) <= far:
        return nearest
    feet = [_foot(corner, side) for side in sides]
    foot = min(feet, key=lambda point: math.dist(point, corner))
    return (round(foot[0]), round(foot[1])) if math.dist(foot, corner) <= far else corner


def _foot(point: Point, side: Side) -> tuple[float, float]:
    """The place on a side nearest to a point."""
    (ax, ay), (bx, by) = side
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    along = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length2 if length2 else 0.0
    share = min(1.0, max(0.0, along))
    return (ax + share * (bx - ax), ay + share * (by - ay))


def split_area(area: Area, rows: Sequence[PlaneRow]) -> tuple[Area, ...]:
    """The planes of an area as areas; those that others run onto come first, else in the order given.

    Without rows the area is the one plane.
    Holds for: planes without a problem (planefaults.py).
    Source: geometry; which line is what: common practice, no source
    Checked: tests/roof/test_roof_planes.py
    """
    if not rows:
        return (area,)
    rings = matched_rings(area, rows)
    planes = [Area(name_of(area, row), ring, (), row.falls, row.slope) for row, ring in zip(rows, rings, strict=True)]
    planes = [replace(plane, edges=tuple(_edges(area, plane, planes))) for plane in planes]
    return _lower_first(_with_things(area, planes))


def name_of(area: Area, row: PlaneRow) -> str:
    """`Main North`."""
    return f"{area.name} {row.name}"


def matched_rings(area: Area, rows: Sequence[PlaneRow]) -> list[tuple[Point, ...]]:
    """The planes' corners, those that mean the same place made the same, and one wherever another plane has one.

    Source: arithmetic
    """
    slack = same_line_ticks()
    known: list[Point] = list(area.outline)
    rings = []
    for row in rows:
        ring = [next((one for one in known if math.dist(one, corner) <= slack), corner) for corner in row.outline]
        known += [corner for corner in ring if corner not in known]
        rings.append(ring)
    return [tuple(point for side in sides_of(ring) for point in (side[0], *_between(side, known))) for ring in rings]


def _between(side: Side, known: Sequence[Point]) -> list[Point]:
    """The known corners on a side, between its ends, in order from its start."""
    found = [point for point in known if point not in side and on_side(point, side)]
    return sorted(found, key=lambda point: math.dist(side[0], point))


def on_side(point: Point, side: Side) -> bool:
    """A point lies on a side to within what counts as one line.

    Source: arithmetic
    """
    (ax, ay), (bx, by) = side
    slack, length = same_line_ticks(), math.dist(*side)
    along = ((point[0] - ax) * (bx - ax) + (point[1] - ay) * (by - ay)) / length
    off = ((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / length
    return -slack <= along <= length + slack and abs(off) <= slack


def _edges(area: Area, plane: Area, planes: Sequence[Area]) -> Iterator[Edge]:
    """A plane's sides with their kinds."""
    for number, side in enumerate(sides_of(plane.outline), start=1):
        own = next((edge for edge in area.edges if all(on_side(end, (edge.start, edge.end)) for end in side)), None)
        if own is not None:
            yield replace(own, side=number, start=side[0], end=side[1])
            continue
        other = next(
            one for one in planes if one is not plane and any({*side} == {*each} for each in sides_of(one.outline))
        )
        here, there = outflow(plane, side), outflow(other, side)
        kind = line_kind(here, there)
        yield Edge(number, kind, *side, meets=other.name, is_over=kind == "step" and here > 0)


def outflow(plane: Area, side: Side) -> float:
    """How squarely water runs out of a plane across one of its sides: 1 straight at it, 0 along it, -1 away from it.

    Source: arithmetic
    """
    sense = 1 if signed_area2(plane.outline) > 0 else -1
    own = side if side in sides_of(plane.outline) else (side[1], side[0])
    (ax, ay), (bx, by) = own
    return sense * ((by - ay) * plane.falls[0] - (bx - ax) * plane.falls[1]) / math.dist(*own)


def line_kind(here: float, there: float) -> str:
    """What a line between two planes is, by how water runs to it from either.

    Source: common practice, no source
    """
    most, least = max(here, there), min(here, there)
    if most > ALONG:
        return "valley" if least >= -ALONG else "step"
    return "ridge"


def _with_things(area: Area, planes: Sequence[Area]) -> list[Area]:
    """The planes with the openings, pipes and drains that lie in them."""
    openings = [(_most_of(one, planes), one) for one in area.openings]
    pipes = [(_place_in(one.at, planes), one) for one in area.pipes]
    drains = [placed for drain in area.drains for placed in _placed(area, drain, planes)]
    return [
        replace(
            plane,
            openings=tuple(one for k, one in openings if k == place),
            beside=tuple(one for k, one in openings if k != place),
            pipes=tuple(one for k, one in pipes if k == place),
            drains=tuple(one for k, one in drains if k == place),
            near=tuple(one for k, one in drains if k != place and one.at is not None),
            whole=area.outline,
            roof_height=area.roof_height,
        )
        for place, plane in enumerate(planes)
    ]


def _most_of(opening: Opening, planes: Sequence[Area]) -> int:
    """The plane that has the most of an opening, the first of equals."""
    from shapely import Polygon

    shape = Polygon(opening.outline)
    shares = [shape.intersection(Polygon(plane.outline)).area for plane in planes]
    return shares.index(max(shares))


def _place_in(point: Point, planes: Sequence[Area]) -> int:
    """The first plane that a point lies in or on."""
    return next((k for k, plane in enumerate(planes) if place_of(plane.outline, point) >= 0), 0)


def _placed(area: Area, drain: Drain, planes: Sequence[Area]) -> Iterator[tuple[int, Drain]]:
    """The planes that have a drain; a gutter is cut where the planes change, its outlets shared out by length."""
    if drain.at is not None:
        yield (_place_in(drain.at, planes), drain)
        return
    if drain.side is None:
        yield (0, drain)
        return
    whole = sides_of(area.outline)[drain.side - 1]
    parts = [
        (k, number, side)
        for k, plane in enumerate(planes)
        for number, side in enumerate(sides_of(plane.outline), start=1)
        if all(on_side(end, whole) for end in side)
    ]
    if drain.from_start is not None:
        way = drain.from_start * TICKS_PER_METRE / math.dist(*whole)
        spot = tuple(a + (b - a) * way for a, b in zip(*whole, strict=True))
        k, number, side = min(parts, key=lambda part: _off(spot, part[2]))
        yield (k, replace(drain, side=number, from_start=math.dist(side[0], spot) / TICKS_PER_METRE))
        return
    outlets = shared_out(drain.outlets or 0, [round(math.dist(*side)) for _, _, side in parts])
    for (k, number, _), share in zip(parts, outlets, strict=True):
        yield (k, replace(drain, side=number, outlets=share if drain.outlets is not None else None))


def _off(spot: Sequence[float], side: Side) -> float:
    """How much longer the way between a side's ends gets over a spot."""
    return math.dist(side[0], spot) + math.dist(spot, side[1]) - math.dist(*side)


def _lower_first(planes: Sequence[Area]) -> tuple[Area, ...]:
    """The planes with each after those that water runs onto from it; round a ring, as given."""
    left, found = list(planes), []
    while left:
        waiting = {plane.name for plane in left}
        free = [plane for plane in left if not any(edge.is_over and edge.meets in waiting for edge in plane.edges)]
        found.append(free[0] if free else left[0])
        left.remove(found[-1])
    return tuple(found)
