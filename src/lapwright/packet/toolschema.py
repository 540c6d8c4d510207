"""JSON Schema of `tools` in `plan.json`: weld speeds, cords, power."""

from __future__ import annotations

from lapwright.packet.schemawords import COUNT, METRES, NUMBER, TEXT, WHOLE, Json, by_name, many, or_null, record, said

SPEED = said(NUMBER, "[m/s]")
CELSIUS = said(NUMBER, "[°C]")
WATTS = said(NUMBER, "[W]")
AMPS = said(NUMBER, "[A]")
SHARE = said(NUMBER, "of one")
FLOW = said(NUMBER, "[m³/s]")
TRUTH: Json = {"type": "boolean"}


def tools() -> Json:
    """The tables; null where `lacking` names the keys to give."""
    return {
        "weld": or_null(said(record(weld()), "computed from the test weld, not published")),
        "cord": or_null(record(cord())),
        "supply": or_null(record(supply())),
        "lacking": said(by_name(many(TEXT)), "keys of the job file that a table lacks"),
    }


def weld() -> Json:
    """Weld speeds by sheet and by hour."""
    hour = {"clock": WHOLE, "sheet_c": or_null(CELSIUS), "speed_m_s": or_null(SPEED)}
    return {
        "proved_speed_m_s": SPEED,
        "proved_sheet_c": CELSIUS,
        "proved_air_c": or_null(CELSIUS),
        "nozzle_c": CELSIUS,
        "holds_nozzle": or_null(TRUTH),
        "slowest_m_s": or_null(SPEED),
        "fastest_m_s": or_null(SPEED),
        "volts_lost_shares": many(SHARE),
        "rows": many(
            record({"sheet_c": CELSIUS, "speeds_m_s": said(many(or_null(SPEED)), "null: it can't be welded so")})
        ),
        "days": many(record({"number": COUNT, "hours": many(record(hour))})),
        "retest_k": said(NUMBER, "a new test weld is due after so much [K]"),
        "source": TEXT,
    }


def cord() -> Json:
    """What cords leave of one tool."""
    row = {
        "gauge": TEXT,
        "drop_shares": many(SHARE),
        "heat_lost_shares": many(SHARE),
        "longest_3_pct_m": METRES,
        "longest_5_pct_m": METRES,
        "carries_a": AMPS,
        "overloaded": TRUTH,
    }
    own = {"gauge": TEXT, "length_m": METRES, "drop_share": SHARE, "heat_lost_share": SHARE}
    return {
        "load_w": WATTS,
        "volts_v": said(NUMBER, "[V]"),
        "current_a": AMPS,
        "lengths_m": many(METRES),
        "rows": many(record(row)),
        "own": or_null(record(own)),
        "source": TEXT,
    }


def supply() -> Json:
    """Generator, circuits, fuel."""
    return {
        "supply": or_null(TEXT),
        "tools": WHOLE,
        "running_w": WATTS,
        "starting_w": WATTS,
        "needed_w": said(NUMBER, "continuous rating at this height of ground [W]"),
        "size_w": WATTS,
        "generator_w": or_null(WATTS),
        "circuit_a": or_null(AMPS),
        "fuel_low_m3_s": FLOW,
        "fuel_high_m3_s": FLOW,
        "source": TEXT,
    }
