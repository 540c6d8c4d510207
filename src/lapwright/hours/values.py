"""The hour table as plain values."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from lapwright.hours.readings import Readings
from lapwright.weather.sun import SunHeights
from lapwright.weather.values import Array, Flags, WeatherYear

OPERATIONS = (
    "primer",
    "base",
    "interply",
    "cap",
    "side_lap",
    "end_lap",
    "flashing",
    "mastic",
    "edge_metal",
)
OPEN, WARM, HEAT, SHUT = 0, 1, 2, 3
STATE_WORDS = ("open", "warm", "heat", "shut")
# parts of reasons that say that something is missing, not that something is wrong
MISSING = ("no reading", "not reported", "not known", "not given")


@dataclass(frozen=True, slots=True)
class Limits:
    """The three temperature limits of one operation's material [°C]; None: not given."""

    apply_c: float | None
    warm_c: float | None
    heat_c: float | None


@dataclass(frozen=True, slots=True)
class HourTable:
    """States of every hour of a weather year.

    states: operation -> (hours,) of OPEN, WARM, HEAT, SHUT; only operations that the roof has.
    reason: operation -> (hours,) index into `reasons` ("" where not shut).  measure: (hours,) true where the
    spread of the models straddles a limit.  surface_*_c: surface being covered and its spread [°C].
    daylight: (hours,) the sun is up over the whole hour.  sun_w_m2: on the roof's plane.
    wet: (hours,) rain, dew or frost on the surface.  roof_wind_m_s: wind at the roof, (hours,), None: not worked out.
    since_wet_h: whole hours since the surface last was wet (infinite: never), (hours,).  fresh_base: states of the
    operations on the base over a base laid the same day, which cannot have been wetted before it was there.
    dried: states of every operation on a surface that the crew has dried, so that neither a film nor a wetted base
    shuts them; dried_reason: what does.  getting_wet: rain or snow falls, or dew or frost settles, which nobody can
    dry, (hours,).
    readings, sun_heights: what the hours were judged by, for windows by the minute; None: not kept.
    """

    weather: WeatherYear
    surface_c: Array
    surface_low_c: Array
    surface_high_c: Array
    sun_w_m2: Array
    frost_point_c: Array
    daylight: Flags
    wet: Flags
    measure: Flags
    states: Mapping[str, NDArray[np.uint8]]
    reason: Mapping[str, NDArray[np.uint8]]
    reasons: tuple[str, ...]
    limits: Mapping[str, Limits]
    roof_wind_m_s: Array | None = None
    since_wet_h: Array | None = None
    fresh_base: Mapping[str, NDArray[np.uint8]] = field(default_factory=dict)
    dried: Mapping[str, NDArray[np.uint8]] = field(default_factory=dict)
    dried_reason: Mapping[str, NDArray[np.uint8]] = field(default_factory=dict)
    getting_wet: Flags | None = None
    readings: Readings | None = None
    sun_heights: SunHeights | None = None

    def same_day(self) -> HourTable:
        """The table as it stands over a base laid the same day, or dried and measured."""
        return replace(self, states={name: self.fresh_base.get(name, states) for name, states in self.states.items()})

    def as_dried(self) -> HourTable:
        """The table as it stands on a surface that the crew dries before it lays; the crew plans by it."""
        states = {**self.states, **self.fresh_base, **self.dried}
        return replace(self, states=states, reason={**self.reason, **self.dried_reason})

    def is_unknown(self, operation: str) -> Flags:
        """Shut because nobody knows, a reading or a limit being missing, and not because of what is known, (hours,)."""
        silent = np.array([any(part in text for part in MISSING) for text in self.reasons], dtype=bool)
        unknown: Flags = self.weather.absent | ((self.states[operation] == SHUT) & silent[self.reason[operation]])
        return unknown

    def why(self, hour: int) -> str:
        """What shuts the hour, operation by operation with equal reasons joined; "" if nothing is shut."""
        by_reason: dict[str, list[str]] = {}
        for operation, index in self.reason.items():
            text = self.reasons[int(index[hour])]
            if text:
                by_reason.setdefault(text, []).append(operation)
        if len(by_reason) == 1 and len(next(iter(by_reason.values()))) == len(self.states):
            return next(iter(by_reason))
        return "; ".join(f"{', '.join(ops)}: {text}" for text, ops in by_reason.items())
