"""The part of the schema of `plan.json` about warm rolls."""

from __future__ import annotations

from lapwright.packet.schemawords import COUNT, METRES, NUMBER, TEXT, WHOLE, Json, by_name, many, or_null, record, said

CELSIUS = said(NUMBER, "[°C]")
SECONDS = said(or_null(NUMBER), "[s]; null: never")


def warm() -> Json:
    """Warm rolls: sheet by sheet, day by day."""
    return {
        "store_c": CELSIUS,
        "stand": said(TEXT, "how the rolls stand in the store"),
        "distance": or_null(METRES),
        "cover_w_m2k": said(or_null(NUMBER), "over rolls outside [W/m²K]; null: bare"),
        "fuel": or_null(TEXT),
        "sheets": many(record(sheet())),
        "days": many(record(day())),
        "left_out": or_null(record(left_out())),
    }


def sheet() -> Json:
    """One sheet's rolls."""
    month = {
        "month": COUNT,
        "hours": said(WHOLE, "cold working hours"),
        "short_s": said(SECONDS, "what the outermost wrap lasts: a tenth of the hours is worse [s]; null: not lost"),
        "middle_s": said(SECONDS, "half of the hours is worse [s]; null: not lost"),
        "long_s": said(SECONDS, "nine tenths of the hours are worse [s]; null: not lost"),
    }
    trip = {
        "rolls": WHOLE,
        "trip_s": said(NUMBER, "carried and handled [s]"),
        "farthest": said(or_null(METRES), "for one roll a trip [m]; null: no bound"),
    }
    return {
        "sheet": TEXT,
        "until_c": CELSIUS,
        "radius": METRES,
        "pace_s": said(NUMBER, "the crew needs a roll so often [s]"),
        "hours": said(WHOLE, "cold working hours in the year"),
        "short_s": said(SECONDS, "over all of them, a tenth is worse [s]; null: not lost"),
        "months": many(record(month)),
        "winds_m_s": said(many(NUMBER), "columns of lasts_s"),
        "airs_c": said(many(NUMBER), "rows of lasts_s"),
        "lasts_s": said(many(many(SECONDS)), "what the outermost wrap lasts by air and wind"),
        "trip": or_null(record(trip)),
    }


def day() -> Json:
    """The store for one day."""
    return {
        "number": COUNT,
        "rolls": said(by_name(WHOLE), "laid, by sheet"),
        "cold_c": said(NUMBER, "rolls come at [°C]"),
        "air_c": said(NUMBER, "coldest outside [°C]"),
        "held": said(WHOLE, "rolls in the store"),
        "pallets": WHOLE,
        "floor": said(NUMBER, "[m²]"),
        "loss_w": NUMBER,
        "rolls_w": NUMBER,
        "heater_w": NUMBER,
        "warm_s": SECONDS,
        "switch_on_s": said(SECONDS, "after midnight of the day, negative before it [s]; null: never"),
        "energy_j": or_null(NUMBER),
        "fuel_amount": or_null(NUMBER),
        "fuel_unit": TEXT,
    }


def left_out() -> Json:
    """A roll set out in the morning and left."""
    return {
        "number": COUNT,
        "sheet": TEXT,
        "begin_min": said(WHOLE, "minutes after midnight"),
        "wrap_s": SECONDS,
        "half_s": SECONDS,
        "all_s": SECONDS,
        "shares": said(many(NUMBER), "share of its length still warm after each hour"),
    }
