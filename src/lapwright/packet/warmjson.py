"""Warm rolls in `plan.json`."""

from __future__ import annotations

from lapwright.heat.values import DayLeftOut, SheetWarmth, StoreDay, Warmth
from lapwright.packet.layoutjson import Json


def warm_entry(warmth: Warmth) -> Json:
    """What the page of warm rolls tells, whole."""
    return {
        "store_c": warmth.store_c,
        "stand": warmth.stand,
        "distance": warmth.distance,
        "cover_w_m2k": warmth.cover_w_m2k,
        "fuel": warmth.fuel,
        "sheets": [sheet_warm_entry(sheet) for sheet in warmth.sheets],
        "days": [store_entry(day) for day in warmth.days],
        "left_out": None if warmth.left_out is None else left_entry(warmth.left_out),
    }


def sheet_warm_entry(sheet: SheetWarmth) -> Json:
    """One sheet's rolls."""
    trip = sheet.trip
    return {
        "sheet": sheet.sheet,
        "until_c": sheet.until_c,
        "radius": sheet.radius,
        "pace_s": sheet.pace_s,
        "hours": sheet.hours,
        "short_s": sheet.short_s,
        "months": [
            {
                "month": one.month,
                "hours": one.hours,
                "short_s": one.short_s,
                "middle_s": one.middle_s,
                "long_s": one.long_s,
            }
            for one in sheet.months
        ],
        "winds_m_s": list(sheet.winds_m_s),
        "airs_c": list(sheet.airs_c),
        "lasts_s": [list(row) for row in sheet.lasts_s],
        "trip": None if trip is None else {"rolls": trip.rolls, "trip_s": trip.trip_s, "farthest": trip.farthest},
    }


def store_entry(day: StoreDay) -> Json:
    """The store for one day."""
    plan = day.plan
    return {
        "number": day.number,
        "rolls": dict(day.rolls),
        "cold_c": day.cold_c,
        "air_c": day.air_c,
        "held": plan.rolls,
        "pallets": plan.pallets,
        "floor": plan.floor,
        "loss_w": plan.loss_w,
        "rolls_w": plan.rolls_w,
        "heater_w": plan.heater_w,
        "warm_s": plan.warm_s,
        "switch_on_s": plan.switch_on_s,
        "energy_j": plan.energy_j,
        "fuel_amount": plan.fuel_amount,
        "fuel_unit": plan.fuel_unit,
    }


def left_entry(day: DayLeftOut) -> Json:
    """A roll set out in the morning and left."""
    found = day.found
    return {
        "number": day.number,
        "sheet": day.sheet,
        "begin_min": day.begin_min,
        "wrap_s": found.wrap_s,
        "half_s": found.half_s,
        "all_s": found.all_s,
        "shares": list(found.shares),
    }
