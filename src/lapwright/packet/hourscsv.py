"""The hour table as a CSV file: one row per hour of the weather used, in the weather's own calendar.

Readings are SI and unrounded, so that a reader sees the very number that opened or shut the hour.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from lapwright.hours.values import OPERATIONS, SHUT, STATE_WORDS, HourTable
from lapwright.weather.values import Array, Flags, WeatherYear

READINGS = ("air_c", "dew_point_c", "wind_m_s", "rain_mm", "sun_w_m2", "surface_c")
COLUMNS = ("time", *READINGS, *OPERATIONS, "measure", "why")
NO_READING = "no reading"


def hours_csv(table: HourTable | None) -> bytes:
    """The hour table as UTF-8 text with a header row.

    An absent hour has empty readings, `shut` for every operation of the roof and why `no reading`.  A reading that
    is not there, and an operation that the roof lacks, is empty.  None, where the job names no weather, gives the
    header alone.
    """
    rows = [COLUMNS] if table is None else [COLUMNS, *zip(*columns(table), strict=True)]
    return "".join([",".join(row) + "\n" for row in rows]).encode()


def columns(table: HourTable) -> list[Sequence[str]]:
    """Every column as texts, in the order of COLUMNS."""
    weather, absent = table.weather, table.weather.absent
    readings = (
        weather.air_c,
        weather.dew_point_c,
        weather.wind_m_s,
        weather.rain_mm,
        table.sun_w_m2,
        table.surface_c,
    )
    measure = np.where(table.measure & ~absent, "yes", "").tolist()
    states = [state_column(table, operation) for operation in OPERATIONS]
    return [times(weather), *(reading_column(values, absent) for values in readings), *states, measure, why(table)]


def times(weather: WeatherYear) -> list[str]:
    """Start of each hour in ISO 8601 with the offset of local standard time."""
    minutes = round(weather.offset_h * 60)
    hours, rest = divmod(abs(minutes), 60)
    offset = f"{'-' if minutes < 0 else '+'}{hours:02d}:{rest:02d}"
    return [text + offset for text in np.datetime_as_string(weather.start, unit="s").tolist()]


def reading_column(values: Array, absent: Flags) -> list[str]:
    """Shortest texts that read back as the same numbers; empty where absent or not a number."""
    missing = (absent | ~np.isfinite(values)).tolist()
    return ["" if gone else repr(value) for value, gone in zip(values.tolist(), missing, strict=True)]


def state_column(table: HourTable, operation: str) -> list[str]:
    """State words of one operation; all empty where the roof lacks it."""
    states = table.states.get(operation)
    if states is None:
        return [""] * len(table.weather.start)
    shut_where_absent = np.where(table.weather.absent, SHUT, states)
    return [STATE_WORDS[code] for code in shut_where_absent.tolist()]


def why(table: HourTable) -> list[str]:
    """What shuts each hour, in words.

    The words are made once for each different row of reasons: a year has some hundred, not 8760.
    """
    codes = np.column_stack([*table.reason.values(), table.weather.absent]).astype(np.uint8)
    rows = np.ascontiguousarray(codes).view(f"V{codes.shape[1]}").ravel()
    _, first, which = np.unique(rows, return_index=True, return_inverse=True)
    absent = table.weather.absent
    texts = [quoted(NO_READING if absent[hour] else table.why(int(hour))) for hour in first]
    return [texts[code] for code in which.tolist()]


def quoted(text: str) -> str:
    """A CSV field; only `why` can hold a comma or a quote, the other columns are joined as they are ."""
    return '"' + text.replace('"', '""') + '"' if any(c in text for c in ',"\r\n') else text
