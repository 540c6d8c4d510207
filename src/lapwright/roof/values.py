"""The roof in plan, as plain values.

Plan coordinates are whole ticks (1/80 mm): x east, y north, from the job's origin.
Dimensions that never enter the layout (heights, sills, metal) are metres.
"""

from __future__ import annotations

from dataclasses import dataclass, field

Point = tuple[int, int]

FACES = ("S", "E", "N", "W")
CORNERS = ("SW", "SE", "NE", "NW")


@dataclass(frozen=True, slots=True)
class Metal:
    """Edge metal: kind of metal, gauge number, face and flange [m].

    test_factor: what the specification asks of the edge's test, as a factor on the load.  tested_outward_pa,
    tested_upward_pa: what the edge held in its test.  nail_spacing, cleat_spacing [m]: as its report has them.
    nail_shear_n: allowable load of one nail of the flange along the roof [N].
    """

    kind: str | None = None
    gauge: int | None = None
    face: float | None = None
    flange: float | None = None
    test_factor: float | None = None
    tested_outward_pa: float | None = None
    tested_upward_pa: float | None = None
    nail_spacing: float | None = None
    cleat_spacing: float | None = None
    nail_shear_n: float | None = None


@dataclass(frozen=True, slots=True)
class Edge:
    """One side of an outline, numbered from 1 in walking order.

    kind: metal_edge, parapet, wall, ridge, valley, step, expansion or tie_in; None if not given.
    height [m] above the finished roof, for parapets and walls.
    key: the entry of the job file that speaks of this side, such as roof[0].edges[1]; empty if none does.
    meets: the area on its other side, where the whole side is one edge with a side of that area; else empty.
    is_over: water runs out across the line onto the other plane, so that what lies here runs on over it.
    wall_over_m2: wall of a higher part of the roof that rises over it [m²]; None where that part's height is not known.
    is_by_building: that wall is reckoned from the building's height, which one of the two parts has.
    """

    side: int
    kind: str | None
    start: Point
    end: Point
    height: float | None = None
    metal: Metal | None = None
    key: str = ""
    meets: str = ""
    is_over: bool = False
    wall_over_m2: float | None = 0.0
    is_by_building: bool = False

    def entry(self, area_index: int) -> str:
        """The job-file entry that speaks of this side; where none does, the side by its number."""
        return self.key or f"roof[{area_index}].edges[side {self.side}]"


@dataclass(frozen=True, slots=True)
class Opening:
    """A hole through the roof; `corner` is the south-west corner of the upright rectangle round it, size (east, north).

    kind: curb, skylight, hatch or shaft.  height [m] above the finished roof.
    ring: its corners counter-clockwise, counted from `corner`, where it is not that rectangle itself.
    key: the entry of the job file that speaks of it; empty if unknown.
    """

    name: str
    kind: str
    corner: Point
    size: tuple[int, int]
    height: float | None = None
    ring: tuple[Point, ...] = ()
    key: str = field(default="", compare=False)

    @property
    def outline(self) -> tuple[Point, ...]:
        """Corners, counter-clockwise, those of a rectangle from the south-west [ticks]."""
        (x, y), (w, h) = self.corner, self.size
        if self.ring:
            return tuple((x + east, y + north) for east, north in self.ring)
        return ((x, y), (x + w, y), (x + w, y + h), (x, y + h))

    @property
    def faces(self) -> tuple[str, ...]:
        """Names of its faces, each from one corner of the outline to the next."""
        count = len(self.ring) or len(FACES)
        return FACES if count == len(FACES) else tuple(f"face {k}" for k in range(1, count + 1))

    @property
    def corner_names(self) -> tuple[str, ...]:
        """Names of the corners of the outline; a face starts at the corner of its own place."""
        count = len(self.ring) or len(CORNERS)
        return CORNERS if count == len(CORNERS) else tuple(f"corner {k}" for k in range(1, count + 1))

    def entry(self, area_index: int, place: int) -> str:
        """The job-file entry that speaks of this opening."""
        return self.key or f"roof[{area_index}].openings[{place}]"


@dataclass(frozen=True, slots=True)
class Pipe:
    """A pipe through the roof: centre [ticks] and outside diameter [ticks]."""

    name: str
    at: Point
    diameter: int


@dataclass(frozen=True, slots=True)
class Drain:
    """A way out for water.  Lengths [m]; `at` is the centre [ticks] of a drain in the field.

    kind: drain, scupper, overflow_drain, overflow_scupper or gutter.
    key: the entry of the job file that speaks of it; empty if unknown.
    """

    name: str
    kind: str
    at: Point | None = None
    side: int | None = None
    from_start: float | None = None
    diameter: float | None = None
    width: float | None = None
    height: float | None = None
    sill: float | None = None
    outlets: int | None = None
    key: str = field(default="", compare=False)

    def entry(self, area_index: int, place: int) -> str:
        """The job-file entry that speaks of this drain."""
        return self.key or f"roof[{area_index}].drains[{place}]"


@dataclass(frozen=True, slots=True)
class Area:
    """One plane of the roof.

    outline: corners in walking order [ticks], not repeated at the end; either turning sense.
    falls: unit vector (east, north) of the way water runs.  slope: rise over run.
    beside: openings of neighbouring planes that reach into this one; cut out here, made there.
    near: drains of neighbouring planes.  whole: outline of all planes together; empty where the area is one plane.
    key: the entry of the job file that speaks of it; empty if unknown.
    roof_height: its mean height above the ground [m]; None where it has the building's.
    """

    name: str
    outline: tuple[Point, ...]
    edges: tuple[Edge, ...]
    falls: tuple[float, float]
    slope: float
    openings: tuple[Opening, ...] = ()
    pipes: tuple[Pipe, ...] = ()
    drains: tuple[Drain, ...] = ()
    beside: tuple[Opening, ...] = ()
    near: tuple[Drain, ...] = ()
    whole: tuple[Point, ...] = ()
    key: str = field(default="", compare=False)
    roof_height: float | None = None

    def entry(self, area_index: int) -> str:
        """The job-file entry that speaks of this area."""
        return self.key or f"roof[{area_index}]"


@dataclass(frozen=True, slots=True)
class LegChange:
    """What closing a walk did to one leg: the side and its change east and north [ticks]."""

    side: int
    east: int
    north: int


@dataclass(frozen=True, slots=True)
class Closure:
    """How a walk closed: misclosure east and north, length walked [ticks], each leg's change."""

    area: str
    east: int
    north: int
    walked: int
    changes: tuple[LegChange, ...] = field(default=())
