"""The raw layers of a forecast's grid: run-length values with coded units, laid on whole hours."""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import numpy as np

from lapwright.faults import Mended
from lapwright.intake.forecast_intervals import HourGrid, Span, at_ends, on_hours, span_of
from lapwright.intake.forecast_reply import Reply, number_of, plain
from lapwright.intake.forecast_units import Scale, depth_scale, share_scale, speed_scale, temperature_scale
from lapwright.weather.values import Array, Flags

MOST_VALUES = 5000
AMOUNTS = ("rain_mm", "snow_new_mm", "ice_mm")
OF_THE_HOUR = (*AMOUNTS, "rain_chance")
# the layer's name, our quantity, and how its unit is read
LAYERS: tuple[tuple[str, str, Callable[[object], Scale | None]], ...] = (
    ("temperature", "air_c", temperature_scale),
    ("dewpoint", "dew_point_c", temperature_scale),
    ("relativeHumidity", "humidity", share_scale),
    ("skyCover", "cloud", share_scale),
    ("probabilityOfPrecipitation", "rain_chance", share_scale),
    ("windSpeed", "wind_m_s", speed_scale),
    ("windGust", "gust_m_s", speed_scale),
    ("quantitativePrecipitation", "rain_mm", depth_scale),
    ("snowfallAmount", "snow_new_mm", depth_scale),
    ("iceAccumulation", "ice_mm", depth_scale),
)
FALLING = (
    "rain", "rain_showers", "drizzle", "freezing_rain", "freezing_drizzle", "snow", "snow_showers", "sleet",
    "ice_pellets", "hail", "thunderstorms",
)  # fmt: skip
# coverages that leave no doubt that it falls; the others are chances, which the probability says as a number
SURE = ("definite", "likely", "numerous", "widespread", "areas", "occasional", "frequent", "periods", "intermittent")


@dataclass(frozen=True, slots=True)
class Layers:
    """What the grid says: values by quantity with their spans, spans of named rain and of thunder, what was found."""

    values: Mapping[str, list[tuple[Span, float]]]
    rain: tuple[Span, ...]
    thunder: tuple[Span, ...]
    notes: tuple[Mended, ...]


def read_layers(grid: Reply, *, file: str) -> Layers:
    """The layers of a grid reply, in SI (depths in mm).

    A layer whose unit is not known is not used, a value whose time can't be read neither; both are told.
    """
    values: dict[str, list[tuple[Span, float]]] = {}
    notes: list[Mended] = []
    for name, quantity, scale_of in LAYERS:
        layer = grid.get(name)
        rows = list(_rows(layer))
        if not rows:
            continue
        scale = scale_of(layer.get("uom") if isinstance(layer, dict) else None)
        if scale is None:
            unit = plain(str(layer.get("uom"))) if isinstance(layer, dict) else ""
            notes.append(Mended(file, name, f"unit {unit[:40]} is not one of its kind", "taken as not reported"))
            continue
        read = [(span, scale(number_of(value))) for span, value in rows if span is not None]
        notes += _lost(file, name, len(rows) - len(read))
        values[quantity] = read
    rain, thunder = named_weather(grid)
    return Layers(values, rain, thunder, tuple(notes))


def laid(values: Mapping[str, list[tuple[Span, float]]], hours: HourGrid) -> dict[str, Array]:
    """Every quantity on the hours, NaN where nothing is said: amounts and chances of each hour, the rest at its end."""
    return {
        quantity: on_hours(spans, hours, is_amount=quantity in AMOUNTS)
        if quantity in OF_THE_HOUR
        else at_ends(spans, hours)
        for quantity, spans in values.items()
    }


def before(layers: Layers, earlier: Layers, first: dt.datetime) -> Layers:
    """Layers with what an earlier forecast said of the hours before this one's first, at most a day of them."""
    old = Span(first - dt.timedelta(days=1), first)
    values = {
        quantity: [*_cut(earlier.values.get(quantity, []), old, is_amount=quantity in AMOUNTS), *spans]
        for quantity, spans in layers.values.items()
    }
    rain = [span for span in map(old.part, earlier.rain) if span is not None]
    thunder = [span for span in map(old.part, earlier.thunder) if span is not None]
    return Layers(values, (*rain, *layers.rain), (*thunder, *layers.thunder), layers.notes)


def _cut(values: list[tuple[Span, float]], to: Span, *, is_amount: bool) -> list[tuple[Span, float]]:
    """Values with their spans cut to one; an amount is cut with its time."""
    found = []
    for span, value in values:
        part = to.part(span)
        if part is not None:
            found.append((part, value * part.hours / span.hours if is_amount else value))
    return found


def marked(spans: tuple[Span, ...], hours: HourGrid) -> Flags:
    """Hours that spans touch, (hours,)."""
    touched: Flags = np.isfinite(on_hours([(span, 1.0) for span in spans], hours))
    return touched


def named_weather(grid: Reply) -> tuple[tuple[Span, ...], tuple[Span, ...]]:
    """Spans in which rain or snow is named as sure, and in which thunderstorms are named at all."""
    rain: list[Span] = []
    thunder: list[Span] = []
    for span, several in _rows(grid.get("weather")):
        for one in several if span is not None and isinstance(several, list) else ():
            kind, coverage = (one.get("weather"), one.get("coverage")) if isinstance(one, dict) else (None, None)
            if span is not None and kind in FALLING and coverage in SURE:
                rain.append(span)
            if span is not None and kind == "thunderstorms":
                thunder.append(span)
    return tuple(rain), tuple(thunder)


def _rows(layer: object) -> Iterator[tuple[Span | None, Any]]:
    """The values of a layer with their spans (None: can't be read); a layer of another form has none."""
    rows = layer.get("values") if isinstance(layer, dict) else None
    for row in rows[:MOST_VALUES] if isinstance(rows, list) else ():
        if isinstance(row, dict):
            yield span_of(row.get("validTime")), row.get("value")


def _lost(file: str, name: str, count: int) -> list[Mended]:
    if not count:
        return []
    return [Mended(file, name, f"{count} values without a time that can be read", "left out")]
