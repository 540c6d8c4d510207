"""Areas by the height of their roof: each height has its own pressures and its own zones (Q3).

A *level* is the areas of one mean roof height.  Where a level meets another, its side there counts as an edge,
whichever of the two is higher: the figures for one height know nothing of a neighbour, and an edge asks for more.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.wind.values import Building

SAME_HEIGHT = 0.001
INNER_KINDS = ("ridge", "valley", "step", "expansion")
YARD_KINDS = ("shaft",)
Outline = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Level:
    """Areas of one height [m] with their indexes in the job file; height None where none is given.

    tag: what ids of its checks end in, empty where the roof has one level.
    """

    members: tuple[tuple[int, Area], ...]
    height: float | None
    tag: str = ""

    @property
    def areas(self) -> tuple[Area, ...]:
        """The areas alone."""
        return tuple(area for _, area in self.members)

    @property
    def names(self) -> str:
        """The areas' names."""
        return ", ".join(area.name for area in self.areas)

    @property
    def outlines(self) -> tuple[Outline, ...]:
        """The areas' outlines [m]."""
        return tuple(ring_m(area.outline) for area in self.areas)

    @property
    def yards(self) -> tuple[Outline, ...]:
        """Outlines of shafts and courtyards, open to the sky [m]."""
        return tuple(
            ring_m(opening.outline) for area in self.areas for opening in area.openings if opening.kind in YARD_KINDS
        )


def ring_m(points: Sequence[tuple[int, int]]) -> Outline:
    """Corners in metres.

    Source: arithmetic
    """
    return tuple((x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in points)


def levels(areas: Sequence[Area], building: Building) -> tuple[Level, ...]:
    """The areas by height, in the order of the job file; an area without its own has the building's.

    Source: arithmetic
    """
    found: list[tuple[float | None, list[tuple[int, Area]]]] = []
    for index, area in enumerate(areas):
        height = area.roof_height if area.roof_height is not None else building.height
        members = next((group for at, group in found if _is_same(at, height)), None)
        if members is None:
            found.append((height, [(index, area)]))
        else:
            members.append((index, area))
    several = len(found) > 1
    return tuple(Level(tuple(group), height, f"-{group[0][1].name}" if several else "") for height, group in found)


def is_outer(area: Area, kind: str | None, meets: str, level: Level, *, several: bool) -> bool:
    """A side of this kind is an edge of its level: it has no roof of the same height on its other side.

    several: the roof has more than one level; then a side counts as inner only where it is known to meet its own.
    Source: arithmetic
    """
    if kind not in INNER_KINDS:
        return True
    return several and meets not in {other.name for other in level.areas if other is not area}


def _is_same(one: float | None, other: float | None) -> bool:
    if one is None or other is None:
        return one is other
    return abs(one - other) < SAME_HEIGHT
