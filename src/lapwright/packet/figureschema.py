"""JSON Schema of `figures` in `plan.json`: what the page of figures has and no other key."""

from __future__ import annotations

from lapwright.packet.schemawords import COUNT, METRES, NUMBER, TEXT, WHOLE, Json, by_name, many, or_null, record, said

CELSIUS = said(NUMBER, "[°C]")
SECONDS = said(or_null(NUMBER), "[s]; null: never")
FLOW = said(or_null(NUMBER), "[m³/s]")
TRUTH: Json = {"type": "boolean"}
LACKING = said(many(TEXT), "keys of the job file to give")


def figures() -> Json:
    """The tables of the page."""
    return {
        "rolls": many(record(roll())),
        "store": many(record(store())),
        "chill": or_null(record(chill())),
        "ways_out": many(record(way_out())),
        "limits": many(record(limits())),
        "lacking": said(by_name(many(TEXT)), "keys of the job file that a table lacks"),
    }


def roll() -> Json:
    """One sheet's clock."""
    return {
        "sheet": TEXT,
        "stored_c": CELSIUS,
        "until_c": CELSIUS,
        "cover_w_m2k": said(or_null(NUMBER), "over rolls outside [W/m²K]; null: bare"),
        "airs_c": said(many(NUMBER), "rows of lasts_s"),
        "winds_m_s": said(many(NUMBER), "columns of lasts_s"),
        "lasts_s": said(many(many(SECONDS)), "what the outermost wrap lasts by air and wind"),
    }


def store() -> Json:
    """One sheet's hours in the store."""
    return {
        "sheet": TEXT,
        "store_c": CELSIUS,
        "until_c": CELSIUS,
        "stands": said(many(TEXT), "rows of core_s: how the rolls stand"),
        "own": said(WHOLE, "which row the job's store is, from 0"),
        "colds_c": said(many(NUMBER), "columns of core_s: how cold the rolls come"),
        "core_s": said(many(many(SECONDS)), "until the coldest place is at the limit"),
    }


def chill() -> Json:
    """Wind chill and frostbite."""
    return {
        "airs_c": said(many(NUMBER), "rows"),
        "winds_m_s": said(many(NUMBER), "columns"),
        "chills_c": many(many(NUMBER)),
        "frostbite_min": said(many(many(or_null(NUMBER))), "[min]; null: not within half an hour"),
    }


def way_out() -> Json:
    """One way out for water."""
    return {
        "area": TEXT,
        "name": TEXT,
        "kind": TEXT,
        "storm": {"enum": ["primary", "secondary"]},
        "outlets": COUNT,
        "flow_m3_s": said(FLOW, "to each outlet [m³/s]"),
        "asked_m3_s": said(FLOW, "of the part that is used most [m³/s]"),
        "passes_m3_s": said(FLOW, "what that part passes [m³/s]"),
        "head": said(or_null(METRES), "depth over its inlet [m]"),
        "load_pa": said(or_null(NUMBER), "rain load under sill and depth [Pa]"),
        "lacking": LACKING,
    }


def limits() -> Json:
    """One operation's limits."""
    return {
        "operation": TEXT,
        "apply_c": or_null(CELSIUS),
        "warm_c": or_null(CELSIUS),
        "heat_c": or_null(CELSIUS),
        "by_air": TRUTH,
        "by_surface": TRUTH,
        "lacking": LACKING,
    }
