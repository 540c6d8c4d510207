"""Areas that drain together, their ways out and their walls (Q4)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.drains.paths import basins, free_length_m, openings_m2
from lapwright.roof.values import Area, Drain, Edge
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Reading, Step

WALL_KINDS = ("parapet", "wall")


@dataclass(frozen=True, slots=True)
class Basin:
    """Areas that drain together, each with its index in the job file."""

    areas: tuple[tuple[int, Area], ...]

    @property
    def name(self) -> str:
        """The areas' names."""
        return " + ".join(area.name for _, area in self.areas)

    def drains(self, kinds: Sequence[str]) -> tuple[tuple[str, Area, Drain], ...]:
        """The ways out of some kinds, each with its job-file key and its area."""
        return tuple(
            (drain.entry(index, place), area, drain)
            for index, area in self.areas
            for place, drain in enumerate(area.drains)
            if drain.kind in kinds
        )

    def free_length_m(self) -> float:
        """Length of the sides over which water leaves it [m]; a step between two of its areas is none of them."""
        over_all = sum(free_length_m(area) for _, area in self.areas)
        if len(self.areas) == 1:
            return over_all
        return sum(free_length_m(area, but="step") for _, area in self.areas) or over_all

    def read_drains(self, reading: Reading) -> None:
        """Notes as missing the drains of a basin that has none at all."""
        has_any = any(area.drains for _, area in self.areas)
        for index, area in self.areas:
            if area.drains or not has_any:
                reading.take(f"{area.entry(index)}.drains", area.drains or None)


def basins_of(areas: Sequence[Area]) -> tuple[Basin, ...]:
    """The areas by the drains that they share.

    Source: arithmetic
    """
    return tuple(Basin(tuple((index, areas[index]) for index in group)) for group in basins(areas))


def walls_m2(reading: Reading, basin: Basin) -> float:
    """Area of parapets and walls along a basin [m²], those of higher parts of the roof too, heights noted in `reading`.

    Source: arithmetic
    """
    total = 0.0
    for index, area in basin.areas:
        for edge in area.edges:
            kind = reading.take(f"{edge.entry(index)}.kind", edge.kind)
            if kind in WALL_KINDS:
                reading.take(f"{edge.entry(index)}.height", edge.height)
            elif edge.is_by_building:
                reading.take("building.height", edge.wall_over_m2)
            total += wall_m2(edge)
    return total


def opening_steps(basin: Basin) -> tuple[Step, ...]:
    """How much of the plan area is openings and courtyards, by which the cover's area is less; none without any.

    Source: arithmetic
    """
    openings = sum(openings_m2(area) for _, area in basin.areas)
    text = "Openings and courtyards in A, counted as roof: the safe side; the areas on the cover are without them"
    return (Step(text=text, result=openings, unit="m2"),) if openings > 0 else ()


def wall_m2(edge: Edge) -> float:
    """Parapet or wall along a side as typed, else the wall of a higher part of the roof over it [m²].

    Source: arithmetic
    """
    if edge.kind in WALL_KINDS:
        return math.dist(edge.start, edge.end) / TICKS_PER_METRE * (edge.height or 0.0)
    return edge.wall_over_m2 or 0.0
