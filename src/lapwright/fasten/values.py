"""What is fastened, as plain values for the order and the drawings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Ring = tuple[tuple[float, float], ...]
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class FastenerNeed:
    """Fasteners or adhesive to order: what, how many or how long [m], of which zone, how counted, of which pieces.

    kind: nails, screws or ribbon.
    """

    kind: str
    item: str
    zone: str
    amount: float
    basis: str
    ids: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RowLine:
    """A stretch of a row of fasteners in one zone: a line in plan [m], spacing along it [m], on a lap or between."""

    line: Line
    zone: str
    spacing: float
    is_lap: bool


@dataclass(frozen=True, slots=True)
class Pattern:
    """A ply's pattern in one zone as drawn: spacings [m], rows between laps, exposed width, overall width [m]."""

    zone: str
    lap_spacing: float
    field_spacing: float
    field_rows: int
    exposure: float
    width: float


@dataclass(frozen=True, slots=True)
class FastenMap:
    """A nailed ply as drawn: its patterns by zone, and every stretch of its rows."""

    ply: str
    patterns: Mapping[str, Pattern] = field(default_factory=dict)
    rows: tuple[RowLine, ...] = ()
