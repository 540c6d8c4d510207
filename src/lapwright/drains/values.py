"""Where the water of a roof goes, as plain values for checks and drawings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Ring = tuple[tuple[float, float], ...]
Line = tuple[tuple[float, float], tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Share:
    """What comes to one way out: plan area and half of the walls that shed onto it [m²]; its part of the roof [m].

    key: the job file's entry; area, name: whose; outlets: how many share it (a gutter's).
    """

    key: str
    area: str
    name: str
    kind: str
    outlets: int = 1
    plan_m2: float = 0.0
    half_walls_m2: float = 0.0
    rings: tuple[tuple[Ring, ...], ...] = ()
    at: tuple[float, float] | None = None


@dataclass(frozen=True, slots=True)
class Loose:
    """Water that comes to a side and to no way out: over a free edge, or held; plan area and half of walls [m²]."""

    area: str
    side: int
    is_held: bool
    plan_m2: float
    half_walls_m2: float = 0.0


@dataclass(frozen=True, slots=True)
class DeadPlace:
    """Where water stands with no way out: a line along a side [m], how deep [m] until it reaches one.

    depth: None where there is no way at all.  why: in words.
    """

    area: str
    line: Line
    depth: float | None
    why: str


@dataclass(frozen=True, slots=True)
class Dammed:
    """An opening that stands across the fall: its name, the line of its upper face [m], how wide it is there [m]."""

    area: str
    name: str
    line: Line
    width: float


@dataclass(frozen=True, slots=True)
class WaterMap:
    """The water of one basin: what comes to each way out, what to none, where it stands, what stands in its way.

    flows: at the primary storm, by the way out's key [m³/s]; empty where the rain is not given.
    """

    name: str
    shares: tuple[Share, ...] = ()
    loose: tuple[Loose, ...] = ()
    dead: tuple[DeadPlace, ...] = ()
    dammed: tuple[Dammed, ...] = ()
    flows: Mapping[str, float] = field(default_factory=dict)
