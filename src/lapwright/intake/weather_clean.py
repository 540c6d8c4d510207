"""Readings made fit to use: sentinels, absurd values and gaps found, short gaps bridged, all of it told.

Nothing is mended silently: each thing found gives one note with its count, its first place and what was done.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.defaults.table import table
from lapwright.faults import Mended
from lapwright.intake.weather_calendar import Calendar
from lapwright.intake.weather_rain import unmeasured_snow
from lapwright.weather.values import Array, Flags, WeatherYear

BRIDGED = ("air_c", "dew_point_c", "wind_m_s")
_WORDS = {
    "air_c": ("air temperature", "°C"),
    "dew_point_c": ("dew point", "°C"),
    "wind_m_s": ("wind", "m/s"),
    "gust_m_s": ("gusts", "m/s"),
    "rain_mm": ("rain", "mm"),
    "cloud": ("cloud", ""),
    "ghi_w_m2": ("sun", "W/m²"),
    "snow_depth_m": ("snow depth", "m"),
}
_NOT_REPORTED_AT_ALL = {
    "gust_m_s": "the hourly wind is taken for them",
    "snow_depth_m": "lying snow is not known",
    "ghi_w_m2": "taken from the height of the sun and the cloud",
}


@dataclass(frozen=True, slots=True)
class Station:
    """Where the weather was taken: name and origin in words, position [°], elevation [m], hours east of UTC."""

    name: str
    origin: str
    latitude: float
    longitude: float
    elevation: float
    offset_h: float


def limits() -> dict[str, tuple[float, float]]:
    """Lowest and highest reading that is used, by quantity, from defaults/hours.csv."""
    rows = table("hours")
    return {
        "air_c": (rows["air_lowest"].number(), rows["air_highest"].number()),
        "dew_point_c": (rows["dew_point_lowest"].number(), rows["dew_point_highest"].number()),
        "wind_m_s": (0.0, rows["wind_highest"].number()),
        "gust_m_s": (0.0, rows["gust_highest"].number()),
        "rain_mm": (0.0, rows["rain_hour_highest"].number()),
        "cloud": (0.0, 1.0),
        "ghi_w_m2": (0.0, rows["sun_highest"].number()),
        "snow_depth_m": (0.0, rows["snow_highest"].number()),
    }


def clean_year(
    station: Station,
    calendar: Calendar,
    readings: Mapping[str, Array],
    *,
    file: str,
    trace: Flags | None,
    told: list[Mended],
    thunder: Flags | None = None,
) -> tuple[WeatherYear, tuple[Mended, ...]]:
    """A year of weather from readings on its hours, NaN where not reported, with everything that was found in it.

    Args:
        readings: one array (hours,) for each quantity of WeatherYear.
        trace: rain or snow seen without a depth, (hours,).  thunder: heard or lightning seen, None: not told, (hours,).
        told: what the reader of the format found before.
    """
    start, absent = calendar.start, calendar.absent
    measured, snow = _without_unmeasured_snow(readings, trace, start, file=file)
    used, bridged, found = _used(measured, calendar, file=file)
    notes = [*told, *_absent_note(file, start, absent), *snow, *found]
    if trace is not None and trace.any():
        notes.append(_trace_note(file, trace, start))
    year = WeatherYear(
        name=station.name,
        origin=station.origin,
        latitude=station.latitude,
        longitude=station.longitude,
        elevation=station.elevation,
        offset_h=station.offset_h,
        start=start,
        absent=absent,
        bridged=bridged,
        trace=trace,
        thunder=thunder,
        notes=tuple(f"{note.place}: {note.found}; {note.done}" for note in notes),
        air_c=used["air_c"],
        dew_point_c=used["dew_point_c"],
        wind_m_s=used["wind_m_s"],
        gust_m_s=used["gust_m_s"],
        rain_mm=used["rain_mm"],
        cloud=used["cloud"],
        ghi_w_m2=used["ghi_w_m2"],
        snow_depth_m=used["snow_depth_m"],
    )
    return year, tuple(notes)


def _used(
    readings: Mapping[str, Array], calendar: Calendar, *, file: str
) -> tuple[dict[str, Array], Flags, list[Mended]]:
    """Readings that are used, the hours in which one was bridged, and what was found."""
    start, absent = calendar.start, calendar.absent
    used: dict[str, Array] = {}
    notes: list[Mended] = []
    for name, bounds in limits().items():
        used[name], note = _within(file, name, readings[name], bounds, start=start)
        notes += note
    used["dew_point_c"], note = _dew_under_air(file, used["dew_point_c"], used["air_c"], start)
    notes += note
    bridged = np.zeros(len(start), dtype=bool)
    for name, values in used.items():
        filled = bridge(values, absent) if name in BRIDGED else values
        notes += _gap_note(file, name, values, filled, start=start, absent=absent)
        bridged |= np.isnan(values) & np.isfinite(filled)
        used[name] = filled
    # a straight line may cross the air's; damp air is the safe side
    crosses = bridged & (used["dew_point_c"] > used["air_c"])
    used["dew_point_c"] = np.where(crosses, used["air_c"], used["dew_point_c"])
    return used, bridged, notes


def bridge(values: Array, absent: Flags) -> Array:
    """Readings with gaps of up to `bridge_longest` hours filled along a straight line, (hours,).

    A gap at the begin or the end of the year, and an absent hour, stay empty; an absent hour counts in its gap.
    """
    missing = np.isnan(values)
    if not missing.any() or missing.all():
        return values
    longest = int(table("hours")["bridge_longest"].number())
    index = np.arange(len(values))
    known = index[~missing]
    before = np.maximum.accumulate(np.where(missing, -1, index))
    after = np.minimum.accumulate(np.where(missing, len(values), index)[::-1])[::-1]
    is_short = missing & (before >= 0) & (after < len(values)) & (after - before - 1 <= longest) & ~absent
    line = np.interp(index, known, values[known])
    return np.where(is_short, line, values)


def _without_unmeasured_snow(
    readings: Mapping[str, Array], trace: Flags | None, start: NDArray[np.datetime64], *, file: str
) -> tuple[Mapping[str, Array], list[Mended]]:
    """Readings with the dry hours taken out that a gauge reports which does not measure snow."""
    seen = np.zeros(len(start), dtype=bool) if trace is None else trace
    unmeasured = unmeasured_snow(readings["rain_mm"], seen, readings["air_c"])
    if not unmeasured.any():
        return readings, []
    found = f"{unmeasured.sum()} dry hours in a freezing spell too long to be dry, first {_first(unmeasured, start)}"
    rain_mm = np.where(unmeasured, np.nan, readings["rain_mm"])
    return {**readings, "rain_mm": rain_mm}, [Mended(file, "rain", found, "taken as not reported: snow not measured")]


def _within(
    file: str, name: str, values: Array, bounds: tuple[float, float], *, start: NDArray[np.datetime64]
) -> tuple[Array, list[Mended]]:
    """Readings with those out of bounds taken out."""
    outside = (values < bounds[0]) | (values > bounds[1])
    if not outside.any():
        return values, []
    what, unit = _WORDS[name]
    worst = values[outside][np.argmax(np.abs(values[outside]))]
    found = (
        f"{outside.sum()} readings outside {bounds[0]:g} to {bounds[1]:g} {unit}".rstrip()
        + f" (as far as {worst:g}), first {_first(outside, start)}"
    )
    return np.where(outside, np.nan, values), [Mended(file, what, found, "taken as not reported")]


def _dew_under_air(
    file: str, dew_point_c: Array, air_c: Array, start: NDArray[np.datetime64]
) -> tuple[Array, list[Mended]]:
    """Dew points that stand over the air: a little is rounding, more can't be."""
    notes = []
    over = dew_point_c - air_c
    absurd = over > table("hours")["dew_point_over_air"].number() + 1e-9  # 0.5 K as read is a hair more in binary
    rounded = (over > 0) & ~absurd
    for where, how, done in (
        (rounded, "a little over the air", "set to the air temperature"),
        (absurd, "well over the air", "taken as not reported"),
    ):
        if where.any():
            notes.append(Mended(file, "dew point", f"{where.sum()} hours {how}, first {_first(where, start)}", done))
    return np.where(absurd, np.nan, np.where(rounded, air_c, dew_point_c)), notes


def _gap_note(
    file: str, name: str, values: Array, filled: Array, *, start: NDArray[np.datetime64], absent: Flags
) -> list[Mended]:
    """What is missing of a quantity in the hours that are there, and what became of it."""
    missing = np.isnan(values) & ~absent
    if not missing.any():
        return []
    what, _ = _WORDS[name]
    present = int((~absent).sum())
    if missing.sum() == present:
        return [Mended(file, what, "not reported", _NOT_REPORTED_AT_ALL.get(name, "not known in any hour"))]
    bridged = int((missing & np.isfinite(filled)).sum())
    left = int(missing.sum()) - bridged
    done = [f"{bridged} bridged in a straight line"] if bridged else []
    done += [f"{left} stay unknown"] if left else []
    found = f"{missing.sum()} of {present} hours not reported, first {_first(missing, start)}"
    return [Mended(file, what, found, ", ".join(done))]


def _absent_note(file: str, start: NDArray[np.datetime64], absent: Flags) -> list[Mended]:
    if not absent.any():
        return []
    found = f"{absent.sum()} of {len(absent)} hours are not in the file, first {_first(absent, start)}"
    return [Mended(file, "hours", found, "kept as hours without a reading")]


def _trace_note(file: str, trace: Flags, start: NDArray[np.datetime64]) -> Mended:
    found = f"{trace.sum()} hours with rain or snow but no depth (a trace), first {_first(trace, start)}"
    return Mended(file, "rain", found, "not counted as dry")


def _first(where: Flags, start: NDArray[np.datetime64]) -> str:
    """The first hour that is meant, as a date and time."""
    return str(start[int(np.argmax(where))]).replace("T", " ")
