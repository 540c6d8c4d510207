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
    """height: mean roof height [m]; elevation of the ground [m]; wind_speed_m_s: three-second gust of the map.

    topographic: Kzt; None stands for flat ground, 1, and the steps say so.
    """

    height: float | None = None
    exposure: str | None = None
    wind_speed_m_s: float | None = None
    risk_category: int | None = None
    enclosure: str | None = None
    standard: str | None = None
    elevation: float | None = None
    topographic: float | None = None


@dataclass(frozen=True, slots=True)
class WindCase:
    """Everything that a pressure depends on, none of it missing.

    height, elevation, parapet [m] (the lowest parapet, 0 unless one runs all round); area: effective wind area [m²];
    topographic: Kzt; is_flat_assumed: nobody gave it.
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
    is_flat_assumed: bool = True


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

    zones: in order 1', 1, 2, 3, positive, and behind parapets all round `positive at edges`, that of zones 2 and 3;
    steps: how qh came about; zone_steps: each zone's own.
    """

    kz: float
    ke: float
    qh_pa: float
    zones: Mapping[str, ZonePressure]
    steps: tuple[Step, ...] = field(default=())
    zone_steps: Mapping[str, tuple[Step, ...]] = field(default_factory=dict)


Ring = tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True)
class ZoneMap:
    """The zones of one level as drawn on its outline.

    names: of its areas; height [m]; shapes: by zone, polygons as rings [m], the first the outer one; areas_m2: by zone;
    pressures: by zone, empty where an input is missing; outer, inner, leg_length, leg_width [m]: of the bands and the
    corners' legs; notes: what was assumed where the standard is silent.
    """

    names: tuple[str, ...]
    height: float
    shapes: Mapping[str, tuple[tuple[Ring, ...], ...]]
    areas_m2: Mapping[str, float]
    pressures: Mapping[str, ZonePressure] = field(default_factory=dict)
    outer: float = 0.0
    inner: float = 0.0
    leg_length: float = 0.0
    leg_width: float = 0.0
    notes: tuple[str, ...] = ()
