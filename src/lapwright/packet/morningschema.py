"""JSON Schema of the morning in `plan.json`."""

from __future__ import annotations

from lapwright.packet.schemawords import DATE, NUMBER, TEXT, WHOLE, Json, by_name, many, or_null, record, said

CELSIUS = said(or_null(NUMBER), "[°C]")
SPEED = said(or_null(NUMBER), "[m/s]")
CLOCK = said(or_null(NUMBER), "after midnight of the day [s]")
LASTS = said(or_null(NUMBER), "[s]")
YES_NO: Json = {"type": "boolean"}


def morning() -> Json:
    """The morning of a day."""
    return {
        "date": DATE,
        "weather": TEXT,
        "weather_date": DATE,
        "forecast": YES_NO,
        "overall": record(operation()),
        "operations": many(record(operation())),
        "hours": many(record(hour())),
        "opened": said(or_null(record(opened())), "with all plies"),
        "based": said(or_null(record(opened())), "with all plies but the cap, which follows on another day"),
        "warm": many(record(warm())),
        "unknown": many(record({"what": TEXT, "supply": many(TEXT)})),
    }


def operation() -> Json:
    """One operation."""
    return {
        "operation": TEXT,
        "verdict": {"enum": ["go", "wait", "stop", "unknown"]},
        "state": {"enum": ["open", "warm", "heat", None]},
        "first_s": CLOCK,
        "last_s": CLOCK,
        "before": TEXT,
        "after": TEXT,
        "why": TEXT,
        "supply": many(TEXT),
    }


def hour() -> Json:
    """One full hour of the crew's clock."""
    return {
        "clock": WHOLE,
        "air_c": CELSIUS,
        "surface_c": CELSIUS,
        "surface_low_c": CELSIUS,
        "surface_high_c": CELSIUS,
        "wind_m_s": SPEED,
        "gust_m_s": SPEED,
        "rain_chance": said(or_null(NUMBER), "of one"),
        "wind_chill_c": CELSIUS,
        "roll_s": LASTS,
        "weld_m_s": SPEED,
        "measure": YES_NO,
    }


def opened() -> Json:
    """How much may be opened."""
    return {
        "area_m2": NUMBER,
        "rolls": by_name(NUMBER),
        "begin_s": CLOCK,
        "last_base_s": CLOCK,
        "closing_s": CLOCK,
        "closed_s": CLOCK,
        "tie_off_m": NUMBER,
    }


def warm() -> Json:
    """The warm rolls of one ply."""
    return {
        "ply": TEXT,
        "sheet": TEXT,
        "rolls": WHOLE,
        "until_c": CELSIUS,
        "store_c": CELSIUS,
        "cold_c": CELSIUS,
        "needed_s": CLOCK,
        "stands": many(record({"stand": TEXT, "warm_s": LASTS, "switch_on_s": CLOCK})),
        "lasts_s": LASTS,
        "pace_s": LASTS,
        "trips": many(record({"rolls": WHOLE, "within_m": NUMBER})),
    }
