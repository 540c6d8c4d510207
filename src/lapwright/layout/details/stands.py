"""What base flashings stand against: every stretch of wall, parapet, curb, step and expansion joint, and their corners.

A *stand* is one straight face.  Where an opening is built against a wall, or two openings stand against one another,
there is no roof between them and nothing to flash.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.geometry.polygon import sides_of, signed_area2, turn
from lapwright.layout.details.lengths import slope_length
from lapwright.roof.values import Area, Edge, Opening, Point

UPRIGHT = ("parapet", "wall", "expansion")

Level = tuple[str, int]
Span = tuple[int, int]
Stretch = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Stand:
    """One straight face to be flashed.

    of: what it belongs to; kind: of the edge or opening.  start, end: its line in plan [ticks], the low end first, so
    that the flashing piece laid later lies up the fall.  field: unit vector from the face to the field.
    height [m] above the finished roof.  length: of the whole face along the roof's plane [ticks].  stretches: what of
    it is flashed, from its start, along the plane [ticks].
    """

    of: str
    kind: str
    start: Point
    end: Point
    field: tuple[float, float]
    height: float | None
    length: float
    stretches: tuple[Stretch, ...]

    def reaches(self, corner: Point) -> bool:
        """It is flashed right up to a corner at one of its ends."""
        if corner == self.start:
            return bool(self.stretches) and self.stretches[0][0] <= 1.0
        return corner == self.end and bool(self.stretches) and self.stretches[-1][1] >= self.length - 1.0


@dataclass(frozen=True, slots=True)
class Corner:
    """Where two flashed faces meet at an angle: its name, place [ticks], `inside` or `outside`, the faces."""

    of: str
    at: Point
    form: str
    stands: tuple[Stand, ...]


def is_upright(edge: Edge) -> bool:
    """The side is flashed: a parapet, a wall, the curb of an expansion joint, a step whose height the job gives."""
    return edge.kind in UPRIGHT or (edge.kind == "step" and edge.height is not None)


def stands_of(area: Area) -> tuple[Stand, ...]:
    """Every stand of an area, sides first, in the order of the job file."""
    curbs = [face for opening in (*area.openings, *area.beside) for _, face in _faces(opening)]
    taken = _by_line([*curbs, *((edge.start, edge.end) for edge in area.edges)])
    sense = 1.0 if signed_area2(area.outline) > 0 else -1.0
    found = [
        _stand(area, (f"side {edge.side}", edge.kind or ""), (edge.start, edge.end), edge.height, sense, taken)
        for edge in area.edges
        if is_upright(edge)
    ]
    # an opening may reach across a line onto another plane, where it is flashed with the rest of it
    ends = sides_of(area.whole) if area.whole else [(edge.start, edge.end) for edge in area.edges if not edge.meets]
    taken = _by_line([*curbs, *ends])
    for opening in area.openings:
        for name, face in _faces(opening):
            found.append(_stand(area, (f"{opening.name} {name}", opening.kind), face, opening.height, -1.0, taken))
    return tuple(one for one in found if one.stretches)


def corners_of(area: Area, stands: Sequence[Stand]) -> tuple[Corner, ...]:
    """Every corner between two stands.

    Walls that turn into the roof make an outside corner, as the corners of a curb are; the others are inside ones.
    Source: geometry
    Checked: tests/layout/test_detail_corners.py
    """
    by_name = {stand.of: stand for stand in stands}
    return (*_corners_of_sides(area, by_name), *_corners_of_openings(area, by_name))


def _corners_of_sides(area: Area, by_name: Mapping[str, Stand]) -> Iterator[Corner]:
    sense = 1 if signed_area2(area.outline) > 0 else -1
    for one, other in zip(area.edges, (*area.edges[1:], area.edges[0]), strict=True):
        bend = turn(one.start, other.start, other.end) * sense
        pair = [by_name.get(f"side {edge.side}") for edge in (one, other)]
        faces = tuple(stand for stand in pair if stand is not None and stand.reaches(other.start))
        if bend != 0 and len(faces) == 2:
            form = "inside" if bend > 0 else "outside"
            yield Corner(f"corner of sides {one.side} and {other.side}", other.start, form, faces)


def _corners_of_openings(area: Area, by_name: Mapping[str, Stand]) -> Iterator[Corner]:
    for opening in area.openings:
        ring, names = opening.outline, [f"{opening.name} {face}" for face in opening.faces]
        for k, name in enumerate(opening.corner_names):
            at = ring[k]
            pair = [by_name.get(names[i]) for i in (k - 1, k)]
            faces = tuple(stand for stand in pair if stand is not None and stand.reaches(at))
            if len(faces) == 2:
                is_outside = turn(ring[k - 1], at, ring[(k + 1) % len(ring)]) > 0
                yield Corner(f"{opening.name} {name}", at, "outside" if is_outside else "inside", faces)
            elif faces and (other := _stand_at(at, by_name, names)):
                yield Corner(f"{opening.name} {name}", at, "inside", (*faces, other))


def _stand_at(at: Point, by_name: Mapping[str, Stand], own: Sequence[str]) -> Stand | None:
    """The side of the roof, or the face of another opening, that an opening's corner stands against."""
    for stand in by_name.values():
        if turn(stand.start, stand.end, at) == 0 and stand.of not in own:
            place = math.dist(stand.start, at) / math.dist(stand.start, stand.end) * stand.length
            if any(abs(place - edge) <= 1.0 for stretch in stand.stretches for edge in stretch):
                return stand
    return None


def _stand(
    area: Area,
    named: tuple[str, str],
    face: tuple[Point, Point],
    height: float | None,
    sense: float,
    taken: Mapping[Level, Sequence[Span]],
) -> Stand:
    """A face as a stand; sense 1: the field lies left of it, -1: right."""
    (start, end), length = face, math.dist(*face)
    field = (-(end[1] - start[1]) / length * sense, (end[0] - start[0]) / length * sense)
    if _up(area, start) > _up(area, end) + 1e-6 * length:
        start, end = end, start
    whole = slope_length(area, start, end)
    more = whole / length
    stretches = tuple((a * more, b * more) for a, b in _bare(start, end, taken))
    return Stand(*named, start, end, field, height, whole, stretches)


def _up(area: Area, point: Point) -> float:
    """How far up the fall a point lies [ticks]."""
    return -(point[0] * area.falls[0] + point[1] * area.falls[1])


def _faces(opening: Opening) -> list[tuple[str, tuple[Point, Point]]]:
    """The faces of an opening, counter-clockwise; those of a rectangle from the south."""
    return list(zip(opening.faces, sides_of(opening.outline), strict=True))


def _by_line(faces: Sequence[tuple[Point, Point]]) -> dict[Level, list[Span]]:
    """Faces of openings and sides of the outline along the axes, by the line that they lie on."""
    found: dict[Level, list[Span]] = {}
    for start, end in faces:
        if level := _level(start, end):
            found.setdefault(level, []).append(_span(start, end, level))
    return found


def _level(start: Point, end: Point) -> Level | None:
    if start[0] == end[0]:
        return ("x", start[0])
    return ("y", start[1]) if start[1] == end[1] else None


def _span(start: Point, end: Point, level: Level) -> Span:
    k = 1 if level[0] == "x" else 0
    return (min(start[k], end[k]), max(start[k], end[k]))


def _bare(start: Point, end: Point, taken: Mapping[Level, Sequence[Span]]) -> Iterator[Stretch]:
    """What of a face has roof before it: the face less every other one that lies on it."""
    level, whole = _level(start, end), math.dist(start, end)
    if level is None:
        yield (0.0, whole)
        return
    own = _span(start, end, level)
    others = list(taken[level])
    others.remove(own)
    k = 1 if level[0] == "x" else 0
    at = own[0]
    parts: list[Span] = []
    for low, high in sorted(other for other in others if other[0] < own[1] and other[1] > own[0]):
        if low > at:
            parts.append((at, low))
        at = max(at, high)
    parts.append((at, own[1]))
    places = [(low, high) for low, high in parts if high > low]
    if start[k] == own[0]:
        yield from ((float(low - own[0]), float(high - own[0])) for low, high in places)
    else:
        yield from ((float(own[1] - high), float(own[1] - low)) for low, high in reversed(places))
