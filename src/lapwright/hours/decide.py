"""For each hour and operation: open, warm, heat or shut, and what shuts it (question 5).

One reason is told for each shut hour and operation: the first that applies, in the order in which a superintendent
would ask.  Every reason stands in docs/method/hours.md.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.defaults.values import Rules
from lapwright.hours.limits import governing_c, held_for, lowest_c, needs_sheet_rule, shown, temperature_state
from lapwright.hours.readings import Readings
from lapwright.hours.values import SHUT, Limits
from lapwright.units.write import Units
from lapwright.weather.values import Flags

IN_THE_WIND = ("base", "interply", "cap", "flashing", "edge_metal")
ON_THE_BASE = ("cap", "side_lap", "end_lap")
LEAVES_OPEN = ("primer", "base", "interply", "cap")
NO_READING = "no reading"
LIMIT_NOT_GIVEN = "limit not given"
DARK = "dark"
FALLING = "rain or snow falling"
RAIN_NOT_REPORTED = "rain not reported"
SNOW_LYING = "snow lying"
FROST = "frost on the surface"
DEW = "dew on the surface"
ICY = "frost or ice not yet gone"
NOT_DRY = "surface not yet dry"
THUNDER = "thunder or lightning"
RAIN_DUE = "rain or snow due"
FALLS = " falls below "
WARM_UP = "cold and wind: no work by the warm-up schedule"


@dataclass(frozen=True, slots=True)
class Decision:
    """States, reasons and doubts of every hour; fields as in HourTable."""

    states: Mapping[str, NDArray[np.uint8]]
    reason: Mapping[str, NDArray[np.uint8]]
    reasons: tuple[str, ...]
    measure: Flags
    fresh_base: Mapping[str, NDArray[np.uint8]]
    dried: Mapping[str, NDArray[np.uint8]]
    dried_reason: Mapping[str, NDArray[np.uint8]]


@dataclass(frozen=True, slots=True)
class _Shut:
    """One thing that shuts hours: words, where it holds, the operations it shuts (None: all), if it can be dried."""

    words: str
    where: Flags
    operations: tuple[str, ...] | None = None
    can_be_dried: bool = False


def decide(readings: Readings, limits: Mapping[str, Limits], rules: Rules, units: Units) -> Decision:
    """State and reason of every hour for each operation in `limits`.

    Source: common practice, no source
    """
    told: dict[str, int] = {"": 0}
    states: dict[str, NDArray[np.uint8]] = {}
    reason: dict[str, NDArray[np.uint8]] = {}
    fresh_base: dict[str, NDArray[np.uint8]] = {}
    dried: dict[str, NDArray[np.uint8]] = {}
    dried_reason: dict[str, NDArray[np.uint8]] = {}
    measure = _near_wetting(readings, rules)
    for operation in shown(limits):
        asked = _asked(operation, readings, limits[operation], rules, units)
        wetted = _base_wet(readings, rules, units) if operation in ON_THE_BASE else []
        first, state = _first_told(asked + wetted, operation, told), _by_temperature(operation, readings, limits, rules)
        reason[operation] = first
        states[operation] = np.where(first > 0, SHUT, state).astype(np.uint8)
        if operation in ON_THE_BASE:
            is_shut = np.any([shut.where for shut in asked if _shuts(shut, operation)], axis=0)
            fresh_base[operation] = np.where(is_shut, SHUT, state).astype(np.uint8)
        left = _first_told([shut for shut in asked if not shut.can_be_dried], operation, told)
        dried_reason[operation] = left
        dried[operation] = np.where(left > 0, SHUT, state).astype(np.uint8)
        measure |= _straddled(operation, readings, limits[operation], rules)
    return Decision(states, reason, tuple(told), measure & ~readings.absent, fresh_base, dried, dried_reason)


def _asked(operation: str, readings: Readings, limits: Limits, rules: Rules, units: Units) -> list[_Shut]:
    """What may shut an operation, in the order asked, the wetted base left out."""
    everywhere = np.ones(readings.absent.shape, dtype=bool)
    not_given = [_Shut(LIMIT_NOT_GIVEN, everywhere)] if limits.apply_c is None else []
    return [
        _Shut(NO_READING, readings.absent),
        *not_given,
        *_not_reported(readings),
        _Shut(DARK, ~readings.daylight),
        *_thunder(readings, rules, units),
        *_wet(readings, rules, units),
        *_wind(readings, rules, units),
        *_people(readings, rules, units),
        *_too_cold(operation, readings, limits, rules, units),
        *_not_closed_in_time(operation, readings, limits, rules, units),
    ]


def _not_reported(readings: Readings) -> list[_Shut]:
    return [
        _Shut("air temperature not reported", np.isnan(readings.air_c)),
        _Shut("dew point not reported", np.isnan(readings.wetting_c)),
        _Shut("wind not reported", np.isnan(readings.wind_m_s)),
        _Shut("surface temperature not known", np.isnan(readings.surface_c)),
    ]


def _thunder(readings: Readings, rules: Rules, units: Units) -> list[_Shut]:
    wait = rules.lightning_wait_s
    return [
        _Shut(THUNDER, readings.thunder),
        _Shut(f"thunder within {units.duration(wait)}", readings.since_thunder_h * 3600 < wait),
    ]


def _wet(readings: Readings, rules: Rules, units: Units) -> list[_Shut]:
    at_wetting = readings.surface_c <= readings.wetting_c
    is_film = readings.film_mm > dry_mm()
    near = readings.surface_c < readings.wetting_c + rules.dew_point_margin_k
    margin = units.temperature_difference(rules.dew_point_margin_k)
    return [
        _Shut(FALLING, readings.falling),
        _Shut(RAIN_NOT_REPORTED, readings.rain_unknown),
        _Shut(SNOW_LYING, readings.snow_lying),
        _Shut(FROST, at_wetting & (readings.surface_c <= 0)),
        _Shut(DEW, at_wetting),
        _Shut(ICY, is_film & (readings.surface_c <= 0), can_be_dried=True),
        _Shut(NOT_DRY, is_film, can_be_dried=True),
        _Shut(f"surface within {margin} of dew or frost", near),
    ]


def _wind(readings: Readings, rules: Rules, units: Units) -> list[_Shut]:
    gust_stop = units.speed(rules.gust_stop_m_s)
    return [
        _Shut(f"gusts over {gust_stop}", readings.gust_m_s > rules.gust_stop_m_s),
        _Shut(f"wind over {gust_stop}", readings.wind_m_s > rules.gust_stop_m_s),
        _Shut(
            f"wind over {units.speed(rules.wind_sheets_m_s)} for sheets",
            readings.wind_m_s > rules.wind_sheets_m_s,
            IN_THE_WIND,
        ),
    ]


def _people(readings: Readings, rules: Rules, units: Units) -> list[_Shut]:
    stop = rules.wind_chill_stop_c
    return [
        _Shut(f"wind chill below {units.temperature(stop)}", readings.chill_c < stop),
        _Shut(WARM_UP, readings.work_min <= 0),
    ]


def _too_cold(operation: str, readings: Readings, limits: Limits, rules: Rules, units: Units) -> list[_Shut]:
    least_c = lowest_c(limits)
    if least_c is None:
        return []
    by_air, by_surface = held_for(operation, rules.limits_hold_for)
    air = (readings.air_c < least_c) & by_air
    surface = (readings.surface_c < least_c) & by_surface
    limit = units.temperature(least_c)
    return [
        _Shut(f"air and surface below {limit}", air & surface),
        _Shut(f"air below {limit}", air),
        _Shut(f"surface below {limit}", surface),
    ]


def _not_closed_in_time(operation: str, readings: Readings, limits: Limits, rules: Rules, units: Units) -> list[_Shut]:
    """What comes before that which is opened now can be closed: rain or snow, or cold before its laps are rolled."""
    close, roll = units.duration(rules.close_within_s), units.duration(rules.roll_within_s)
    due = _Shut(f"{RAIN_DUE} within {close}", readings.until_falling_h * 3600 < rules.close_within_s, LEAVES_OPEN)
    least_c = lowest_c(limits)
    if least_c is None or not needs_sheet_rule(operation):
        return [due]
    by_air, by_surface = held_for(operation, rules.limits_hold_for)
    limit = units.temperature(least_c)
    return [
        due,
        _Shut(f"air{FALLS}{limit} within {roll}", (readings.air_then_c < least_c) & by_air),
        _Shut(f"surface{FALLS}{limit} within {roll}", (readings.surface_then_c < least_c) & by_surface),
    ]


def dry_mm() -> float:
    """The film of water that counts as none [mm].

    Source: row film_dry of defaults/heat.csv
    """
    return table("heat")["film_dry"].number()


def _base_wet(readings: Readings, rules: Rules, units: Units) -> list[_Shut]:
    within = units.duration(rules.dry_after_wet_s)
    dry_after_h = rules.dry_after_wet_s / 3600
    return [
        _Shut(f"base wet within {within}", readings.since_wet_h < dry_after_h),
        _Shut(f"base may be wet, no reading within {within}", readings.since_unknown_h < dry_after_h),
    ]


def _shuts(shut: _Shut, operation: str) -> bool:
    return shut.operations is None or operation in shut.operations


def _first_told(asked: list[_Shut], operation: str, told: dict[str, int]) -> NDArray[np.uint8]:
    """Index of the first reason that holds in each hour, 0 where none does; new words join `told`."""
    first = np.zeros(asked[0].where.shape, dtype=np.uint8)
    for shut in asked:
        hits = shut.where & (first == 0) if _shuts(shut, operation) else np.zeros(first.shape, dtype=bool)
        if hits.any():
            first[hits] = told.setdefault(shut.words, len(told))
    return first


def _by_temperature(
    operation: str, readings: Readings, limits: Mapping[str, Limits], rules: Rules
) -> NDArray[np.uint8]:
    """State by temperature now, and for laps by the worse of now and when they must be rolled."""
    held = held_for(operation, rules.limits_hold_for)
    now = temperature_state(governing_c(readings.air_c, readings.surface_c, held), limits[operation])
    if not needs_sheet_rule(operation):
        return now
    air_c = np.where(np.isnan(readings.air_then_c), readings.air_c, readings.air_then_c)
    surface_c = np.where(np.isnan(readings.surface_then_c), readings.surface_c, readings.surface_then_c)
    then = temperature_state(governing_c(air_c, surface_c, held), limits[operation])
    return np.maximum(now, then)


def _straddled(operation: str, readings: Readings, limits: Limits, rules: Rules) -> Flags:
    """The coldest and the warmest surface of the spread give another state."""
    held = held_for(operation, rules.limits_hold_for)
    cold = temperature_state(governing_c(readings.air_c, readings.surface_low_c, held), limits)
    warm = temperature_state(governing_c(readings.air_c, readings.surface_high_c, held), limits)
    differs: Flags = cold != warm
    return differs


def _near_wetting(readings: Readings, rules: Rules) -> Flags:
    """The spread of the models holds wet and dry, or snow lay that the crew is taken to have cleared."""
    margin_c = readings.wetting_c + rules.dew_point_margin_k
    near: Flags = (readings.surface_low_c < margin_c) & (readings.surface_high_c >= margin_c)
    near |= ~readings.falling & (readings.film_low_mm <= dry_mm()) & (readings.film_high_mm > dry_mm())
    return near | readings.snow_cleared
