"""The building as the wind sees it, and the pressures that come of it, as plain values.  None means not given.

strength: the level of the standard's wind speed.  working level: 0.6 of it (ASD).  class: the tested uplift [psf] that
an insurer's listing is named by.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from lapwright.verdict import Step

STANDARDS = ("ASCE 7-10", "ASCE 7-16", "ASCE 7-22")
EXPOSURES = ("B", "C", "D")
ENCLOSURES = ("enclosed", "partially_enclosed", "partially_open")
RISK_CATEGORIES = (1, 2, 3, 4)


@dataclass(frozen=True, slots=True)
class Building:
    """height: mean roof height [m]; elevation of the ground [m]; wind_speed_m_s: three-second gust of the map."""

    height: float | None = None
    exposure: str | None = None
    wind_speed_m_s: float | None = None
    risk_category: int | None = None
    enclosure: str | None = None
    standard: str | None = None
    elevation: float | None = None


@dataclass(frozen=True, slots=True)
class WindCase:
    """Everything that a pressure depends on, none of it missing.

    height, elevation, parapet [m] (the lowest parapet, 0 unless one runs all round); area: effective wind area [m²];
    topographic: Kzt.
    """

    standard: str
    height: float
    exposure: str
    speed_m_s: float
    area: float
    enclosure: str = "enclosed"
    elevation: float = 0.0
    topographic: float = 1.0
    parapet: float = 0.0


@dataclass(frozen=True, slots=True)
class ZonePressure:
    """Net pressure on one zone [Pa], negative for uplift; class_psf: None where the wind presses down."""

    zone: str
    gcp: float
    strength_pa: float
    asd_pa: float
    class_psf: int | None


@dataclass(frozen=True, slots=True)
class Pressures:
    """Pressures of one case.

    zones: in order 1', 1, 2, 3, positive; steps: how qh came about; zone_steps: each zone's own.
    """

    kz: float
    ke: float
    qh_pa: float
    zones: Mapping[str, ZonePressure]
    steps: tuple[Step, ...] = field(default=())
    zone_steps: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)
