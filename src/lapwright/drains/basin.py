"""Areas that drain together, their ways out and their walls (Q4)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from lapwright.drains.paths import basins, free_length_m
from lapwright.roof.values import Area, Drain
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Reading

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
    """Area of parapets and walls along a basin [m²], their heights noted in `reading`.

    Source: arithmetic
    """
    total = 0.0
    for index, area in basin.areas:
        for edge in area.edges:
            kind = reading.take(f"{edge.entry(index)}.kind", edge.kind)
            if kind in WALL_KINDS:
                height = reading.take(f"{edge.entry(index)}.height", edge.height)
                total += math.dist(edge.start, edge.end) / TICKS_PER_METRE * (height or 0.0)
    return total
