"""What has to be flashed: every face of a wall, parapet, curb or expansion joint that has roof before it.

Worked out from the job alone: a hair before the face, is there roof?
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import LineString, Polygon, STRtree
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.roof.values import Area
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.values import XY

FLASHED = ("parapet", "wall", "expansion")
METAL = "metal_edge"

Span = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Face:
    """One straight line with details along it.

    of: as details name it; kind: of the edge or opening; start, end: in plan [m]; stretch: length on the roof over that
    in plan.  height [m] above the finished roof.  bare: where there is roof before it, from its start, in plan [m].
    """

    of: str
    kind: str
    start: XY
    end: XY
    stretch: float
    height: float | None
    bare: tuple[Span, ...]

    @property
    def length(self) -> float:
        """In plan [m]."""
        return math.dist(self.start, self.end)

    def place(self, at: XY) -> tuple[float, float]:
        """How far along and how far off the face's line a point lies [m]."""
        (x0, y0), (x1, y1), length = self.start, self.end, self.length
        dx, dy = (x1 - x0) / length, (y1 - y0) / length
        return ((at[0] - x0) * dx + (at[1] - y0) * dy, (at[1] - y0) * dx - (at[0] - x0) * dy)

    def at(self, along: float) -> XY:
        """The point so far along."""
        share = along / self.length
        return (
            self.start[0] + (self.end[0] - self.start[0]) * share,
            self.start[1] + (self.end[1] - self.start[1]) * share,
        )


def sides_of(area: Area, kinds: Sequence[str]) -> Iterator[Face]:
    """Sides of some kinds as they are, whole.

    Source: the job
    """
    for edge in area.edges:
        if edge.kind is not None and edge.kind in kinds:
            start, end = _metres(edge.start), _metres(edge.end)
            bare = ((0.0, math.dist(start, end)),)
            yield Face(f"side {edge.side}", edge.kind, start, end, _stretch(area, start, end), edge.height, bare)


def flashed_faces(area: Area, limits: Limits) -> Iterator[Face]:
    """Every face that has to be flashed, with where there is roof before it.

    Source: docs/method/rulecheck.md
    """
    outline = Polygon([_metres(point) for point in area.outline])
    holes = [Polygon([_metres(point) for point in one.outline]) for one in (*area.openings, *area.beside)]
    tree = STRtree(holes)
    is_left = outline.exterior.is_ccw
    # an opening is flashed as a whole by the plane that has it, also where it reaches onto another one
    roof = Polygon([_metres(point) for point in area.whole]) if area.whole else outline
    for edge in area.edges:
        if edge.kind in FLASHED or (edge.kind == "step" and edge.height is not None):
            ends = (_metres(edge.start), _metres(edge.end))
            inward = ends if is_left else ends[::-1]
            bare = _bare(ends, inward, outline, tree, limits.gap)
            yield from _face(area, f"side {edge.side}", edge.kind or "", ends, edge.height, bare)
    for opening in area.openings:
        ring = [_metres(point) for point in opening.outline]
        for k, name in enumerate(opening.faces):
            ends = (ring[k], ring[(k + 1) % len(ring)])
            bare = _bare(ends, ends[::-1], roof, tree, limits.gap)
            yield from _face(area, f"{opening.name} {name}", opening.kind, ends, opening.height, bare)


def _face(
    area: Area, of: str, kind: str, ends: tuple[XY, XY], height: float | None, bare: tuple[Span, ...]
) -> Iterator[Face]:
    if bare:
        yield Face(of, kind, *ends, _stretch(area, *ends), height, bare)


def _bare(ends: tuple[XY, XY], leftward: tuple[XY, XY], outline: Shape, tree: STRtree, off: float) -> tuple[Span, ...]:
    """Where roof lies a hair to the left of the face as `leftward` walks it, from the face's own start."""
    (x0, y0), (x1, y1) = leftward
    length = math.dist((x0, y0), (x1, y1))
    out = (-(y1 - y0) / length * off, (x1 - x0) / length * off)
    line: Shape = LineString([(x + out[0], y + out[1]) for x, y in ends]).intersection(outline)
    for k in tree.query(line):
        line = line.difference(tree.geometries[k])
    start = (ends[0][0] + out[0], ends[0][1] + out[1])
    spans = [
        tuple(sorted(math.dist(start, point) for point in (part.coords[0], part.coords[-1])))
        for part in getattr(line, "geoms", [line])
        if isinstance(part, LineString) and part.length > 3 * off
    ]
    return tuple(sorted((low, high) for low, high in spans))


def _stretch(area: Area, start: XY, end: XY) -> float:
    """Length on the slope over length in plan."""
    length = math.dist(start, end)
    along = ((end[0] - start[0]) * area.falls[0] + (end[1] - start[1]) * area.falls[1]) / length
    return math.sqrt(1.0 + (along * area.slope) ** 2)


def _metres(point: tuple[int, int]) -> XY:
    return (metres(point[0]), metres(point[1]))
