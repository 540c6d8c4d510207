"""The morning of the first day as `plan.json` has it; the schema beside.  Times are seconds after midnight."""

from __future__ import annotations

import math
from typing import Any

from lapwright.crew.values import Morning, MorningHour, Opened, OperationToday, WarmRolls

Json = dict[str, Any]


def morning_entry(morning: Morning) -> Json:
    """Verdicts, hours, what may be opened, what has to be warm."""
    return {
        "date": morning.date,
        "weather": morning.weather,
        "weather_date": morning.weather_date,
        "forecast": morning.is_forecast,
        "overall": operation_entry(morning.overall),
        "operations": [operation_entry(one) for one in morning.operations],
        "hours": [hour_entry(one) for one in morning.hours],
        "opened": None if morning.opened is None else opened_entry(morning.opened),
        "based": None if morning.based is None else opened_entry(morning.based),
        "warm": [warm_entry(one) for one in morning.warm],
        "unknown": [{"what": what, "supply": list(keys)} for what, keys in morning.unknown],
    }


def operation_entry(one: OperationToday) -> Json:
    """One operation, or all plies together."""
    return {
        "operation": one.operation,
        "verdict": one.verdict,
        "state": one.state or None,
        "first_s": seconds(one.first_min),
        "last_s": seconds(one.last_min),
        "before": one.before,
        "after": one.after,
        "why": one.why,
        "supply": list(one.supply),
    }


def hour_entry(one: MorningHour) -> Json:
    """One full hour of the crew's clock; null where there is no reading, or where a roll lasts for ever."""
    return {
        "clock": one.hour,
        "air_c": known(one.air_c),
        "surface_c": known(one.surface_c),
        "surface_low_c": known(one.surface_low_c),
        "surface_high_c": known(one.surface_high_c),
        "wind_m_s": known(one.wind_m_s),
        "gust_m_s": known(one.gust_m_s),
        "rain_chance": known(one.rain_chance),
        "wind_chill_c": known(one.chill_c),
        "roll_s": None if one.roll_s is None else known(one.roll_s),
        "weld_m_s": one.weld_m_s,
        "measure": one.measure,
    }


def opened_entry(opened: Opened) -> Json:
    """How much may be opened."""
    return {
        "area_m2": opened.area,
        "rolls": dict(opened.rolls),
        "begin_s": seconds(opened.begin_min),
        "last_base_s": seconds(opened.last_base_min),
        "closing_s": seconds(opened.closing_min),
        "closed_s": seconds(opened.closed_min),
        "tie_off_m": opened.tie_off,
    }


def warm_entry(one: WarmRolls) -> Json:
    """The warm rolls of one ply; switched on before midnight: negative."""
    return {
        "ply": one.ply,
        "sheet": one.sheet,
        "rolls": one.rolls,
        "until_c": one.until_c,
        "store_c": one.store_c,
        "cold_c": one.cold_c,
        "needed_s": seconds(one.needed_min),
        "stands": [
            {"stand": name, "warm_s": warm_s, "switch_on_s": None if on_min is None else 60 * on_min}
            for name, warm_s, on_min in one.stands
        ],
        "lasts_s": one.lasts_s,
        "pace_s": one.pace_s,
        "trips": [{"rolls": rolls, "within_m": within} for rolls, within in one.trip],
    }


def seconds(minutes: int | None) -> int | None:
    """Minutes after midnight as seconds."""
    return None if minutes is None else 60 * minutes


def known(value: float) -> float | None:
    """A reading; null for none."""
    return value if math.isfinite(value) else None
