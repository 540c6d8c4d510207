"""Defaults as plain values: each keeps where it comes from to the end.

origin is one of `published`, `maker`, `common practice`, `from memory`, or `job file` where the user
overrode it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Origin:
    """Where a value comes from.

    key: as in the job file; text: the value as written; default: the default as written; source in words;
    gave_way: why a default that the job file leaves as it is does not hold, empty where it does.
    """

    key: str
    text: str
    default: str
    origin: str
    source: str
    note: str = ""
    gave_way: str = ""

    @property
    def is_overridden(self) -> bool:
        """The job file gave it."""
        return self.origin == "job file"


@dataclass(frozen=True, slots=True)
class Rules:
    """The rules of a job.  Lengths of the layout in ticks of 1/80 mm, others SI."""

    ply_offset_ticks: int
    ply_offset_at_rip_ticks: int
    end_lap_stagger_ticks: int
    end_lap_ply_offset_ticks: int
    shortest_piece_ticks: int
    longest_piece_ticks: int
    narrowest_rip_ticks: int
    cut_step_ticks: int
    base_over_edge_ticks: int
    cap_back_from_edge_ticks: int
    edge_strip_ticks: int
    cant_ticks: int
    base_up_wall_ticks: int
    cap_up_wall_ticks: int
    corner_cut_ticks: int
    end_lap_drain_ticks: int
    valley_back_ticks: int
    over_ridge_ticks: int
    strap_at: float
    flashing_lap_stagger_ticks: int
    flashing_height: float
    spare_rolls: int
    limits_hold_for: str
    dew_point_margin_k: float
    wind_sheets_m_s: float
    gust_stop_m_s: float
    dry_after_wet_s: float
    cover_within_s: float
    close_within_s: float
    roll_within_s: float
    lightning_wait_s: float
    snow_cleared_within_s: float
    wind_chill_stop_c: float
    origins: Mapping[str, Origin]


@dataclass(frozen=True, slots=True)
class Rate:
    """A rate or allowance: value in SI `unit`, with its origin."""

    name: str
    value: float
    unit: str
    origin: Origin
