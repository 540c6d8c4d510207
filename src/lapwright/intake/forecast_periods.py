"""Hourly periods of a forecast: times with their offsets, mixed units, wind in words."""

from __future__ import annotations

import math
from collections.abc import Iterator

from lapwright.faults import Mended, Refused
from lapwright.intake.forecast_intervals import HOUR, LONGEST, Span
from lapwright.intake.forecast_reply import Reply, fault, number_of, time_of
from lapwright.intake.forecast_units import share_scale, temperature_scale, wind_m_s

MOST_PERIODS = 1000
LONGEST_PERIOD_H = 1.0


def read_periods(
    hourly: Reply, *, file: str
) -> tuple[dict[str, list[tuple[Span, float]]], tuple[Span, ...], list[Mended]]:
    """Values by quantity with their spans in SI, spans in which thunder is named, and what was found.

    Raises: Refused where the periods are longer than hours: the forecast by half days has one temperature for twelve.
    """
    values: dict[str, list[tuple[Span, float]]] = {}
    thunder: list[Span] = []
    lost = 0
    for span, period in _periods(hourly):
        if span is None:
            lost += 1
            continue
        if span.hours > LONGEST_PERIOD_H:
            raise Refused([fault(file, f"periods of {span.hours:g} h", "the hourly forecast, a period for each hour")])
        for quantity, value in readings_of(period).items():
            values.setdefault(quantity, []).append((span, value))
        if "thunder" in str(period.get("shortForecast", "")).lower():
            thunder.append(span)
    notes = [Mended(file, "hourly periods", f"{lost} without times that can be read", "left out")] if lost else []
    return values, tuple(thunder), notes


def readings_of(period: Reply) -> dict[str, float]:
    """The readings of one period in SI, NaN where not said."""
    return {
        "air_c": _temperature_c(period.get("temperature"), period.get("temperatureUnit")),
        "dew_point_c": _temperature_c(period.get("dewpoint"), None),
        "humidity": _share(period.get("relativeHumidity")),
        "rain_chance": _share(period.get("probabilityOfPrecipitation")),
        "wind_m_s": wind_m_s(period.get("windSpeed")),
        "gust_m_s": wind_m_s(period.get("windGust")),
    }


def _temperature_c(value: object, unit: object) -> float:
    """A temperature [°C]: a bare number in the unit beside it, or a value with its own unit, which goes before."""
    scale = temperature_scale(value.get("unitCode", unit) if isinstance(value, dict) else unit)
    return math.nan if scale is None else scale(number_of(value))


def _share(value: object) -> float:
    scale = share_scale(value.get("unitCode")) if isinstance(value, dict) else None
    return math.nan if scale is None else scale(number_of(value))


def _periods(hourly: Reply) -> Iterator[tuple[Span | None, Reply]]:
    periods = hourly.get("periods")
    for period in periods[:MOST_PERIODS] if isinstance(periods, list) else ():
        if not isinstance(period, dict):
            continue
        begin, end = time_of(period.get("startTime")), time_of(period.get("endTime"))
        is_whole = begin is not None and 1900 < begin.year < 2200
        if is_whole and begin is not None and end is None:
            end = begin + HOUR
        ok = begin is not None and end is not None and is_whole and begin < end <= begin + LONGEST
        yield (Span(begin, end) if ok and begin is not None and end is not None else None), period
