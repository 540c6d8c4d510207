"""A day or a week of hours: the surface with its spread against the limits, the longest safe windows, and a table.

Days and hours are those of the crew's clock, as everywhere on the sheet; the weather's own are of standard time.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, time
from typing import Any

import numpy as np

from lapwright.faults import Refused
from lapwright.hours.clock import crew_clock, day_span
from lapwright.hours.values import STATE_WORDS, HourTable
from lapwright.hours.windows import SafeWindow, longest_run, safe_windows
from lapwright.packet.pages.words import MONTHS
from lapwright.packet.pages.words import table as make_table
from lapwright.packet.sheets.hourspicture import WORDS, codes, operation_words
from lapwright.plan.colddays import roof_wind
from lapwright.plan.desk.stages import JobAsk, Stages
from lapwright.plan.views.hourreadings import MM_AN_INCH
from lapwright.plan.views.hourswhat import MINUTES, Looked, day_fault, look, table_of
from lapwright.plan.views.registry import Json, Tell
from lapwright.units.write import Units, decimals

MOST_DAYS = 7
WHOLE_DAY_MIN = 1440
FARTHEST_H = 3  # that a clock goes from standard time


@dataclass(frozen=True, slots=True)
class Span:
    """Days that are looked at: their places in the weather's days, their dates, their hours in the table.

    clock: of the crew at the begin of each of these hours.
    """

    days: range
    dates: tuple[date, ...]
    hours: range
    clock: tuple[datetime, ...]


def view(stages: Stages, ask: JobAsk, options: Mapping[str, str], tell: Tell) -> Json:
    """The option `days` (1 or 7) from the option `day`, its place among the weather's days; others as of `hours`.

    Raises: Refused with every fault, or where the weather has no such day
    """
    looked = look(stages, ask, options)
    table = table_of(looked)
    span = span_of(looked, table, options.get("day", "0"), options.get("days", "1"))
    found = [windows_of(looked, day, is_dried=bool(options.get("dried"))) for day in span.dates]
    return {
        "day": span.days.start,
        "title": title_of(span),
        "curve": curve(table, span, looked.units),
        "limits": limit_lines(table, looked.units),
        "windows": window_table(looked, span, found),
        "marks": marks(table, span, found),
        "clock_marks": clock_marks(looked, table, span, found),
        "measure": measure_words(looked, table, span),
        "table": hour_table(looked, table, span) if len(span.days) == 1 else week_table(table, span),
    }


def span_of(looked: Looked, table: HourTable, day: str, days: str) -> Span:
    """The days asked for, within the weather.

    Raises: Refused where there is no such day
    """
    of_hour = table.weather.start.astype("datetime64[D]")
    all_days = np.unique(of_hour)
    if not day.isdecimal() or len(day) > 6 or int(day) >= len(all_days):
        raise Refused([day_fault(day, len(all_days))])
    first = int(day)
    last = min(first + (MOST_DAYS if days == str(MOST_DAYS) else 1), len(all_days))
    chosen = all_days[first:last]
    begin, end = np.searchsorted(of_hour, chosen[0]), np.searchsorted(of_hour, chosen[-1], side="right")
    near = range(max(0, int(begin) - FARTHEST_H), min(len(of_hour), int(end) + FARTHEST_H))
    dates = tuple(chosen.tolist())
    clock = {
        hour: crew_clock(table.weather.start[hour], offset_h=looked.offset_h, zone=looked.zone).replace(tzinfo=None)
        for hour in near
    }
    hours = [hour for hour in near if dates[0] <= clock[hour].date() <= dates[-1]]
    return Span(range(first, last), dates, range(hours[0], hours[-1] + 1), tuple(clock[hour] for hour in hours))


def words_of(day: date) -> str:
    """`5 Jan`."""
    return f"{day.day} {MONTHS[day.month - 1]}"


def title_of(span: Span) -> str:
    """The days in words."""
    first, last = words_of(span.dates[0]), words_of(span.dates[-1])
    return first if first == last else f"{first} to {last}"


def windows_of(looked: Looked, day: date, *, is_dried: bool) -> Mapping[str, SafeWindow | None]:
    """The longest window of each operation in the crew's day, the whole day where none is given; none without hours."""
    minute = np.timedelta64(1, "m")
    begin: np.datetime64 = np.datetime64(day.isoformat(), "m")
    end: np.datetime64 = begin + WHOLE_DAY_MIN * minute
    if looked.job.crew.day is not None:
        begin, end = day_span(day, *looked.job.crew.day, offset_h=looked.offset_h, zone=looked.zone)
    whole = looked.whole
    if whole is None or begin < whole.weather.start[0] or end > whole.weather.start[-1] + MINUTES * minute:
        return {}
    return safe_windows(
        whole, begin, end, rules=looked.job.rules, units=looked.units, over_fresh_base=not is_dried, dried=is_dried
    )


def window_table(looked: Looked, span: Span, found: list[Mapping[str, SafeWindow | None]]) -> Json:
    """The windows of each day by the crew's clock; operations that have the same in one row."""
    head = ("Day", "Operation", "First safe minute", "Last safe minute", "How", "Before it", "After it")
    rows: list[list[str]] = []
    starts: list[int] = []
    for day, own in zip(span.dates, found, strict=True):
        starts.append(len(rows))
        same: dict[tuple[str, ...], list[str]] = {}
        for name, window in own.items():
            same.setdefault(window_cells(looked, window), []).append(operation_words(name))
        if not own:
            same[("unknown", "unknown", "the weather does not hold the whole of the crew's day", "", "")] = ["all"]
        rows += [
            [words_of(day) if k == 0 else "", ", ".join(names), *cells] for k, (cells, names) in enumerate(same.items())
        ]
    return make_table(head, rows, ["auto"] * len(head), starts=starts)


def window_cells(looked: Looked, window: SafeWindow | None) -> tuple[str, ...]:
    """A window in words."""
    if window is None:
        return ("none", "none", "", "", "")
    first, last = (
        f"{crew_clock(at, offset_h=looked.offset_h, zone=looked.zone):%H:%M}" for at in (window.first, window.last)
    )
    how = STATE_WORDS[window.worst] + (", measure first" if window.measure else "")
    return (first, last, how, window.opens_after, window.shuts_for)


def marks(table: HourTable, span: Span, found: list[Mapping[str, SafeWindow | None]]) -> dict[str, list[list[float]]]:
    """First and last safe minute of each window by operation, in hours after the span's first."""
    begin = table.weather.start[span.hours.start]
    hour = np.timedelta64(3600, "s")
    shown: dict[str, list[list[float]]] = {name: [] for name in table.states}
    for own in found:
        for name, window in own.items():
            if window is not None:
                shown[name].append([round(float((at - begin) / hour), 3) for at in (window.first, window.last)])
    return shown


def clock_marks(
    looked: Looked, table: HourTable, span: Span, found: list[Mapping[str, SafeWindow | None]]
) -> dict[str, list[list[float]]]:
    """The same in hours of the crew's clock after the first date's midnight."""
    midnight = datetime.combine(span.dates[0], time())
    shown: dict[str, list[list[float]]] = {name: [] for name in table.states}
    for own in found:
        for name, window in own.items():
            if window is not None:
                ends = (
                    crew_clock(at, offset_h=looked.offset_h, zone=looked.zone).replace(tzinfo=None)
                    for at in (window.first, window.last)
                )
                shown[name].append([round((at - midnight).total_seconds() / 3600, 3) for at in ends])
    return shown


def curve(table: HourTable, span: Span, units: Units) -> Json:
    """Air, dew point and surface with its spread at the end of each hour, in the unit shown."""
    part = slice(span.hours.start, span.hours.stop)
    zero, one = (units.converted(step, "degC")[0] for step in (0.0, 1.0))

    def shown(values_c: Any) -> list[float | None]:  # noqa: ANN401  # an array of the table
        return [
            round(float(value * (one - zero) + zero), 1) if np.isfinite(value) else None for value in values_c[part]
        ]

    lines = {
        "air": shown(table.weather.air_c),
        "dew": shown(table.weather.dew_point_c),
        "surface": shown(table.surface_c),
        "low": shown(table.surface_low_c),
        "high": shown(table.surface_high_c),
    }
    known = [value for line in lines.values() for value in line if value is not None]
    limits = [line["at"] for line in limit_lines(table, units)]
    bottom, top = (round(each(known + limits, default=0.0)) for each in (min, max))
    step = 10 if units.is_us else 5
    first, last = step * (bottom // step), step * -(-(top + 1) // step)
    return {
        **lines,
        "unit": units.converted(0.0, "degC")[1],
        "from": first,
        "to": last,
        "ticks": list(range(first, last + 1, step)),
        "hours": [f"{at:%H}" for at in span.clock],
        "measure": np.flatnonzero(table.measure[part]).tolist(),
        "days": [[int(place), words_of(day)] for place, day in zip(day_places(span), span.dates, strict=True)],
    }


def day_places(span: Span) -> list[int]:
    """Where each day begins, in hours after the span's first."""
    return [sum(at.date() < day for at in span.clock) for day in span.dates]


def limit_lines(table: HourTable, units: Units) -> list[Json]:
    """Each limit once: where it lies in the unit shown, and the operations that it is of."""
    found: dict[tuple[float, str], list[str]] = {}
    for name, limits in table.limits.items():
        for word, limit_c in (("open", limits.apply_c), ("warm rolls", limits.warm_c), ("with heat", limits.heat_c)):
            if limit_c is not None:
                found.setdefault((round(units.converted(limit_c, "degC")[0], 1), word), []).append(name)
    return [
        {"at": at, "words": f"{word} from {at:g}: {', '.join(map(operation_words, names))}", "operations": names}
        for (at, word), names in sorted(found.items(), reverse=True)
    ]


def measure_words(looked: Looked, table: HourTable, span: Span) -> str:
    """Hours in which only an instrument can tell."""
    at = [hour for hour in span.hours if bool(table.measure[hour])]
    if not at:
        return ""
    return (
        f"Measure first in {len(at)} of these {len(span.hours)} hours, marked on the curve: the models of the surface "
        "differ across a limit."
    )


def hour_table(looked: Looked, table: HourTable, span: Span) -> Json:
    """A day hour by hour: readings, then each operation's state and what shuts it."""
    units = looked.units
    degree, wind = units.converted(0.0, "degC")[1], units.converted(0.0, "m/s")[1]
    head = ["Hour", f"Air {degree}", f"Dew point {degree}", f"Surface {degree}", "Spread", f"Wind {wind}"]
    head += [f"Rain {'in' if units.is_us else 'mm'}", "Measure", *(operation_words(name) for name in table.states)]
    state_of = {name: codes(table, name) for name in table.states}
    rows = []
    for hour, clock in zip(span.hours, span.clock, strict=True):
        cells = [cell(table, name, hour, WORDS[int(state_of[name][hour])]) for name in state_of]
        measure = "first" if bool(table.measure[hour]) else ""
        rows.append([f"{clock:%H}:00", *readings_of(table, hour, units), measure, *cells])
    return make_table(head, rows, ["auto"] * len(head), right=range(1, 7))


def readings_of(table: HourTable, hour: int, units: Units) -> list[str]:
    """Readings of an hour as cells."""

    def degrees(value_c: Any) -> str:  # noqa: ANN401  # a number of an array
        return decimals(units.converted(float(value_c), "degC")[0], 0) if np.isfinite(value_c) else "-"

    weather = table.weather
    wind, rain_mm = float(roof_wind(table)[hour]), float(weather.rain_mm[hour])
    rain = rain_mm / MM_AN_INCH if units.is_us else rain_mm
    return [
        degrees(weather.air_c[hour]),
        degrees(weather.dew_point_c[hour]),
        degrees(table.surface_c[hour]),
        f"{degrees(table.surface_low_c[hour])} to {degrees(table.surface_high_c[hour])}",
        decimals(units.converted(wind, "m/s")[0], 0) if np.isfinite(wind) else "-",
        decimals(rain, 2) if np.isfinite(rain) else "-",
    ]


def cell(table: HourTable, name: str, hour: int, word: str) -> str:
    """An operation's state in an hour, and what shuts it."""
    if word in STATE_WORDS[:3]:
        return word
    return f"{word}: {table.reasons[int(table.reason[name][hour])]}".removesuffix(": ")


def week_table(table: HourTable, span: Span) -> Json:
    """Days by operations: the longest run of whole hours that are not shut, by the crew's clock."""
    head = ["Day", *(operation_words(name) for name in table.states)]
    shut = WORDS.index("shut")
    rows = []
    for day in span.dates:
        of_day = [(hour, clock.hour) for hour, clock in zip(span.hours, span.clock, strict=True) if clock.date() == day]
        at, clock = np.array(of_day, dtype=np.int64).reshape(-1, 2).T
        cells = []
        for name in table.states:
            run = longest_run(codes(table, name)[at] < shut)
            cells.append("none" if run is None else f"{clock[run.start]:02d}:00 to {clock[run.stop - 1] + 1:02d}:00")
        rows.append([words_of(day), *cells])
    return make_table(head, rows, ["auto"] * len(head))
