"""Deck, boards, plies and sheets as plain values.

A product is data: whatever its data sheet says, typed by the user.  None means not given.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field


@dataclass(frozen=True, slots=True)
class Sheet:
    """A roll good.  Width, length and laps in ticks of 1/80 mm; thickness [m]; limits [°C].

    modulus_n_m: load to a width for a strain of one, in the cold [N/m]; expansion_per_k: in the cold [1/K].
    """

    name: str
    width_ticks: int
    length_ticks: int
    side_lap_ticks: int
    end_lap_ticks: int
    thickness: float | None = None
    apply_at_or_above_c: float | None = None
    warm_rolls_at_or_above_c: float | None = None
    with_heat_at_or_above_c: float | None = None
    surfacing: str | None = None
    modulus_n_m: float | None = None
    expansion_per_k: float | None = None

    @property
    def pitch_ticks(self) -> int:
        """Exposed width of a full course."""
        return self.width_ticks - self.side_lap_ticks

    @property
    def is_granular(self) -> bool:
        """Granules lie beyond its selvage, so that no lap may be wider; where nothing is said they are taken for so."""
        return self.surfacing in (None, "granules")


@dataclass(frozen=True, slots=True)
class ZonePattern:
    """How a ply is nailed in one zone: spacing along the laps and along the rows between [m], how many such rows."""

    lap_spacing: float | None = None
    field_spacing: float | None = None
    field_rows: int | None = None


@dataclass(frozen=True, slots=True)
class Nailing:
    """How a ply is nailed: spacing along the laps and along the rows between them [m], how many such rows.

    value_n: allowable load of one fastener through this sheet into this deck [N], from the assembly's report.
    zones: patterns of zones that differ, by the zone's name.
    """

    lap_spacing: float | None = None
    field_spacing: float | None = None
    field_rows: int | None = None
    value_n: float | None = None
    zones: Mapping[str, ZonePattern] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BoardFastening:
    """How boards are held, from the assembly's report.

    board_m2: one board [m²]; per_board: fasteners in it by zone; value_n: allowable load of one [N].  ribbons: spacing
    of ribbons of adhesive by zone [m]; ribbon_value_n_m: allowable load along one [N/m].
    """

    board_m2: float | None = None
    per_board: Mapping[str, int] = field(default_factory=dict)
    value_n: float | None = None
    ribbons: Mapping[str, float] = field(default_factory=dict)
    ribbon_value_n_m: float | None = None


@dataclass(frozen=True, slots=True)
class Ply:
    """One layer of sheet: its name (base, interply, cap), sheet and attachment; nailing where it is fastened."""

    ply: str
    sheet: Sheet
    attachment: str | None = None
    nailing: Nailing | None = None


@dataclass(frozen=True, slots=True)
class Deck:
    """kind: concrete, steel, plywood, plank or gypsum; live_load [Pa]; snow: load of snow and ice left on it [Pa]."""

    kind: str | None = None
    nailable: bool | None = None
    live_load_pa: float | None = None
    snow_pa: float | None = None


@dataclass(frozen=True, slots=True)
class Board:
    """Insulation or cover board: kind, thickness [m], attachment; fastening as its report has it."""

    kind: str | None = None
    thickness: float | None = None
    attachment: str | None = None
    fastening: BoardFastening | None = None


@dataclass(frozen=True, slots=True)
class Assembly:
    """The build-up, plies bottom first.

    rated_uplift_pa: listed (ultimate) value by zone name; key "all" where one value serves all.
    """

    plies: tuple[Ply, ...]
    deck: Deck | None = None
    insulation: Board | None = None
    cover_board: Board | None = None
    rated_uplift_pa: Mapping[str, float] = field(default_factory=dict)
