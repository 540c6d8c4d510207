"""Where material may stand on the roof, as plain values for the drawing."""

from __future__ import annotations

from dataclasses import dataclass

Ring = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class Spot:
    """Where one pallet's rolls are spread: a number, the square's corners [m], the area it is in, its side [m]."""

    number: int
    area: str
    ring: Ring
    side: float


@dataclass(frozen=True, slots=True)
class StagingMap:
    """Spots for spread pallets, and how many pallets found no room."""

    spots: tuple[Spot, ...] = ()
    without_room: int = 0
    live_load_pa: float = 0.0
    snow_pa: float = 0.0
    pallet_kg: float = 0.0
