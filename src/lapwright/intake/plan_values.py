"""What is asked of a drawn plan and what it gives: areas by name, what stands in them, all in drawing coordinates."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from lapwright.faults import Mended
from lapwright.geometry.polygon import Point


@dataclass(frozen=True, slots=True)
class AreaLayers:
    """The layers that draw one area: of its outline, and of what stands in it."""

    area: str
    outline: str
    openings: tuple[str, ...] = ()
    pipes: tuple[str, ...] = ()
    drains: tuple[str, ...] = ()

    def layers(self) -> Iterator[str]:
        """All of them, the outline's first."""
        yield from (self.outline, *self.openings, *self.pipes, *self.drains)


@dataclass(frozen=True, slots=True)
class DrawnOpening:
    """An opening: south-west corner and size east by north of the upright rectangle round it [ticks].

    ring: its corners counter-clockwise, counted from `corner`, where it is not that rectangle itself.
    """

    name: str
    layer: str
    corner: Point
    size: Point
    ring: tuple[Point, ...] = ()

    @property
    def middle2(self) -> Point:
        """Twice its middle, so that it is a whole number."""
        return (2 * self.corner[0] + self.size[0], 2 * self.corner[1] + self.size[1])

    def spot(self) -> Point:
        """Where it stands, for people."""
        return self.corner


@dataclass(frozen=True, slots=True)
class DrawnSpot:
    """A place: centre and, where it is drawn as a circle, its diameter [ticks]."""

    name: str
    layer: str
    at: Point
    diameter: int | None = None

    @property
    def middle2(self) -> Point:
        """Twice its centre."""
        return (2 * self.at[0], 2 * self.at[1])

    def spot(self) -> Point:
        """Where it stands, for people."""
        return self.at


@dataclass(slots=True)
class LayerShapes:
    """What stands on one layer, in the drawing's order, and what was mended."""

    openings: list[DrawnOpening] = field(default_factory=list)
    spots: list[DrawnSpot] = field(default_factory=list)
    mended: list[Mended] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class DrawnOutline:
    """The corners of an outline in drawing coordinates [ticks], the courtyards in it, and what was mended."""

    corners: tuple[Point, ...]
    courtyards: tuple[DrawnOpening, ...] = ()
    mended: tuple[Mended, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawnArea:
    """One area as drawn."""

    area: str
    outline: tuple[Point, ...]
    openings: tuple[DrawnOpening, ...] = ()
    pipes: tuple[DrawnSpot, ...] = ()
    drains: tuple[DrawnSpot, ...] = ()


@dataclass(frozen=True, slots=True)
class DrawnPlan:
    """The areas in the order asked, and what was mended."""

    areas: tuple[DrawnArea, ...]
    mended: tuple[Mended, ...]
