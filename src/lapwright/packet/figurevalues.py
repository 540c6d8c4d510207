"""The figures for the roof: tables read on a phone while the weather changes.  Plain values, SI."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

Grid = tuple[tuple[float | None, ...], ...]


@dataclass(frozen=True, slots=True)
class RollTable:
    """What a sheet's outermost wrap lasts outside [s] by air (rows) and wind (columns); None: it is not lost."""

    sheet: str
    stored_c: float
    until_c: float
    cover_w_m2k: float | None
    airs_c: tuple[float, ...]
    winds_m_s: tuple[float, ...]
    lasts_s: Grid


@dataclass(frozen=True, slots=True)
class StoreTable:
    """Time until the coldest place of a sheet's rolls is at its limit [s]; None: never.

    By how they stand (rows, in words) and how cold they come (columns); own: the row of the job's store.
    """

    sheet: str
    store_c: float
    until_c: float
    stands: tuple[str, ...]
    own: int
    colds_c: tuple[float, ...]
    core_s: Grid


@dataclass(frozen=True, slots=True)
class ChillTable:
    """Wind chill [°C] and minutes until bare skin freezes (None: not within half an hour), by air and wind."""

    airs_c: tuple[float, ...]
    winds_m_s: tuple[float, ...]
    chills_c: tuple[tuple[float, ...], ...]
    frostbite_min: Grid


@dataclass(frozen=True, slots=True)
class WayOut:
    """One drain, scupper or gutter in the storm that it is for: primary, or secondary with the primaries blocked.

    flow_m3_s: that comes to it, to each of its outlets; None without the rain.  passes_m3_s: what it can take, of the
    part that is used most; asked_m3_s: of that part.  head [m] over its inlet; load_pa: rain load under sill and head.
    None: not known, or a gutter.  lacking: keys to give.
    """

    area: str
    name: str
    kind: str
    storm: str
    outlets: int
    flow_m3_s: float | None
    asked_m3_s: float | None = None
    passes_m3_s: float | None = None
    head: float | None = None
    load_pa: float | None = None
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class OperationLimits:
    """Lowest temperatures of an operation [°C] as usual, with warm rolls, with heat; None: not given.

    by_air, by_surface: which of the two must reach them.  lacking: the key to give.
    """

    operation: str
    apply_c: float | None
    warm_c: float | None
    heat_c: float | None
    by_air: bool
    by_surface: bool
    lacking: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FieldFigures:
    """Everything that the page of figures has beside the paper's own; lacking: keys to give, by table."""

    rolls: tuple[RollTable, ...] = ()
    store: tuple[StoreTable, ...] = ()
    chill: ChillTable | None = None
    ways_out: tuple[WayOut, ...] = ()
    limits: tuple[OperationLimits, ...] = ()
    lacking: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
