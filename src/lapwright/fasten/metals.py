"""Edge metal row by row of the job file: the sides that one row of `edges` names share their checks (Q3)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.roof.values import Area, Edge, Metal
from lapwright.verdict import Reading


@dataclass(frozen=True, slots=True)
class MetalGroup:
    """One row's metal and the sides that have it, each with the place of its area in the job file."""

    metal: Metal
    sides: tuple[tuple[int, Area, Edge], ...]

    @property
    def tag(self) -> str:
        """What ids of its checks end in: its first side."""
        _, area, edge = self.sides[0]
        return f"{area.name}-{edge.side}"

    @property
    def words(self) -> str:
        """The sides by their areas: `Main, sides 1, 3; Annex, side 2`."""
        by_area: dict[str, list[str]] = {}
        for _, area, edge in self.sides:
            by_area.setdefault(area.name, []).append(str(edge.side))
        return "; ".join(f"{name}, side{'s' * (len(sides) > 1)} {', '.join(sides)}" for name, sides in by_area.items())

    def tops(self, reading: Reading, names: Sequence[str]) -> tuple[float | None, ...]:
        """Heights above the roof [m] at which it lies on some areas: None at the roof's own level, else a coping's."""
        found: dict[float | None, None] = {}
        for index, area, edge in self.sides:
            if area.name in names:
                is_coping = edge.kind == "parapet"
                found[reading.take(f"{edge.entry(index)}.height", edge.height) if is_coping else None] = None
        return tuple(found)

    def read_kinds(self, reading: Reading) -> None:
        """Notes what the sides are, where that is not given."""
        for index, _, edge in self.sides:
            reading.take(f"{edge.entry(index)}.kind", edge.kind)

    def read(self, reading: Reading, key: str, field: str) -> Any:  # noqa: ANN401  # whatever the field holds
        """A value of the metal, noted under every entry of the job file that gives it."""
        value = getattr(self.metal, field)
        for index, _, edge in self.sides:
            reading.take(f"{edge.entry(index)}.metal.{key}", value)
        return value


def metal_groups(areas: Sequence[Area]) -> tuple[MetalGroup, ...]:
    """The metal of each row of edges in the order of the job file, copings and sides of no known kind among them.

    Source: arithmetic
    """
    found: dict[str, list[tuple[int, Area, Edge]]] = {}
    for index, area in enumerate(areas):
        for edge in area.edges:
            if edge.kind == "metal_edge" or (edge.kind in (None, "parapet") and edge.metal is not None):
                found.setdefault(edge.entry(index), []).append((index, area, edge))
    return tuple(MetalGroup(sides[0][2].metal or Metal(), tuple(sides)) for sides in found.values())
