"""Warm rolls for a job: what the heat room needs, gathered from hours, crew days and layout."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from lapwright.assembly.values import Ply, Sheet
from lapwright.crew.values import CrewSetting
from lapwright.crew.warming import roll_pace_s
from lapwright.defaults.si import default_si
from lapwright.heat.rollclock import RollAsk, wound_radius
from lapwright.heat.store import Stack, StoreAsk, Wrapping
from lapwright.heat.storeplan import StoreLoad, StorePlanAsk, rolls_come_c, store_plan, warm_through_s
from lapwright.heat.trip import TripAsk, plan_trip
from lapwright.heat.values import DayLeftOut, SheetWarmth, StoreDay, StoreSetting, Warmth
from lapwright.heat.winter import SHORT, month_clocks, outer_wraps_s, quantile_s, roll_left_out, wind_table
from lapwright.hours.values import WARM, HourTable
from lapwright.job.models import Job
from lapwright.job.store_models import StoreTyped
from lapwright.packet.values import Paper
from lapwright.plan.colddays import cold_hours, first_hour, is_cold_day, minutes, rolls_of, roof_wind
from lapwright.plan.fitness import Keys, crew_keys, hour_keys
from lapwright.roof.values import Area
from lapwright.units.anything import quantity_si
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.weather.values import Array

DAY_H, HOUR_S = 24, 3600.0
# Columns and rows of the printed table, in units that are round to the reader.
WINDS = {
    "us": ("0 mph", "5 mph", "10 mph", "15 mph", "20 mph"),
    "metric": ("0 m/s", "2 m/s", "4 m/s", "6 m/s", "8 m/s"),
}
AIR_STEPS = {
    "us": ("45 F", "40 F", "35 F", "30 F", "25 F", "20 F"),
    "metric": ("8 C", "5 C", "2 C", "-1 C", "-4 C", "-7 C"),
}
STANDS = {
    "single": "each roll by itself",
    "wrapped": "wrapped pallets",
    "opened": "opened pallets",
    "spaced": "spaced rolls",
}


def make_setting(typed: StoreTyped) -> StoreSetting:
    """The store as typed."""
    rows, columns = typed.pallet or (5, 5)
    return StoreSetting(
        store_c=typed.temperature,
        distance=typed.distance,
        heater_w=typed.heater,
        floor=typed.floor,
        fuel=typed.fuel,
        walls_w_m2k=typed.walls,
        cover_w_m2k=typed.cover,
        carry=typed.carry,
        speed_m_s=typed.pace,
        stack=typed.stack,
        rows=rows,
        columns=columns,
        wrapping=typed.wrapping,
        fans=typed.fans,
    )


def needs(job: Job, areas: Sequence[Area]) -> Keys:
    """Job-file keys that warm rolls hang on beside the store's own, with their values."""
    used = {ply.sheet: job.sheets[ply.sheet] for ply in job.assembly.plies}
    warm = {
        name: sheet
        for name, sheet in used.items()
        if sheet.warm_rolls_at_or_above is not None or sheet.with_heat_at_or_above is not None
    }
    thick = [(f"sheets.{name}.thickness", sheet.thickness) for name, sheet in warm.items()]
    return [*hour_keys(job, areas), *crew_keys(job), ("crew.fire_watch", job.crew.fire_watch), *thick]


def make_warmth(paper: Paper, setting: StoreSetting) -> Warmth | None:
    """Everything about warm rolls; None where the store's temperature, hours or days are missing."""
    hours, crew = paper.hours, paper.crew
    if setting.store_c is None or hours is None or crew is None or not paper.days:
        return None
    plies = warm_plies(paper)
    if not plies:
        return None
    table_ = hours.same_day()
    told = tuple(sheet_warmth(paper, table_, crew, ply, setting) for ply in plies)
    days = tuple(store_days(paper, hours, crew, {ply.sheet.name: ply.sheet for ply in plies}, setting))
    return Warmth(
        store_c=setting.store_c,
        stand=STANDS[setting.stack if setting.stack == "single" else setting.wrapping]
        + (", fans" if setting.fans else ""),
        sheets=told,
        days=days,
        left_out=left_out(paper, hours, crew, told, days, setting),
        distance=setting.distance,
        cover_w_m2k=setting.cover_w_m2k,
        fuel=setting.fuel,
    )


def warm_plies(paper: Paper) -> tuple[Ply, ...]:
    """Plies that may be laid with warm rolls, the first of each sheet; without a thickness a roll has no clock."""
    found: dict[str, Ply] = {}
    for ply in paper.assembly.plies:
        sheet = ply.sheet
        is_warm = sheet.warm_rolls_at_or_above_c is not None or sheet.with_heat_at_or_above_c is not None
        if is_warm and sheet.thickness and sheet.apply_at_or_above_c is not None:
            found.setdefault(sheet.name, ply)
    return tuple(found.values())


def roll_ask(sheet: Sheet, setting: StoreSetting) -> RollAsk:
    """A roll of a sheet from the store, the weather to be put in."""
    return RollAsk(
        stored_c=setting.store_c or 0.0,
        air_c=0.0,
        wind_m_s=0.0,
        until_c=sheet.apply_at_or_above_c or 0.0,
        thickness=sheet.thickness or 0.0,
        length=sheet.length_ticks / TICKS_PER_METRE,
        covered_u_w_m2k=setting.cover_w_m2k,
    )


def sheet_warmth(paper: Paper, hours: HourTable, crew: CrewSetting, ply: Ply, setting: StoreSetting) -> SheetWarmth:
    """The clock of a ply's sheet over the winter, its table and its trips."""
    sheet = ply.sheet
    ask = roll_ask(sheet, setting)
    cold = cold_hours(hours, crew, ply.ply)
    lasts = outer_wraps_s(ask, cold.air_c, cold.wind_m_s)
    short_s = quantile_s(lasts, SHORT)
    pace_s = roll_pace_s(ply, WARM, crew, is_top=ply is paper.assembly.plies[-1])
    units = paper.head.units
    winds = tuple(quantity_si(text) for text in WINDS[units])
    airs = tuple(air for air in map(quantity_si, AIR_STEPS[units]) if air < ask.until_c)
    trip = None
    if setting.distance is not None and len(lasts):
        trip = plan_trip(TripAsk(short_s, pace_s, setting.distance, speed_m_s=setting.speed_m_s, most=setting.carry))
    return SheetWarmth(
        sheet=sheet.name,
        until_c=ask.until_c,
        radius=wound_radius(ask.thickness, ask.length),
        pace_s=pace_s,
        hours=len(lasts),
        months=month_clocks(lasts, cold.month),
        short_s=short_s,
        winds_m_s=winds,
        airs_c=airs,
        lasts_s=wind_table(ask, winds, airs),
        trip=trip,
    )


def store_days(
    paper: Paper, hours: HourTable, crew: CrewSetting, sheets: Mapping[str, Sheet], setting: StoreSetting
) -> Iterator[StoreDay]:
    """The store for each day that needs warm rolls."""
    counted = [rolls_of(paper, day, sheets) for day in paper.days]
    for place, day in enumerate(paper.days):
        if not is_cold_day(day) or not counted[place] or first_hour(day, crew) < 0:
            continue
        following = counted[place + 1] if place + 1 < len(counted) else {}
        begin_s, end_s = 60.0 * minutes(crew, 0), 60.0 * minutes(crew, 1)
        first, run_h = first_hour(day, crew), math.ceil((end_s - begin_s) / HOUR_S)
        day_before_c = coldest_c(hours.weather.air_c, first - DAY_H, first + run_h)
        cold_c = rolls_come_c(hours.weather.air_c, first)
        cold_c = day_before_c if cold_c is None else cold_c
        loads = tuple(
            StoreLoad(
                stand_ask(sheets[name], setting, cold_c),
                counted[place].get(name, 0),
                following.get(name, 0),
                sheets[name].width_ticks / TICKS_PER_METRE,
                name,
            )
            for name in sheets
            if counted[place].get(name, 0) or following.get(name, 0)
        )
        warm_s = warm_through_s(loads)
        on_h = DAY_H if warm_s is None else max(DAY_H, math.ceil((warm_s + default_si("rolls", "store_lead")) / HOUR_S))
        air_c = coldest_c(hours.weather.air_c, first - on_h, first + run_h)
        plan = store_plan(StorePlanAsk(loads, air_c, begin_s, end_s, setting.walls_w_m2k, setting.fuel))
        yield StoreDay(day.number, counted[place], cold_c, air_c, plan)


def coldest_c(air_c: Array, first: int, past: int) -> float:
    """The lowest air known in some hours of the year [°C], end laid to begin; NaN where there is none."""
    known = air_c[np.arange(first, past) % len(air_c)]
    known = known[np.isfinite(known)]
    return float(known.min()) if len(known) else math.nan


def stand_ask(sheet: Sheet, setting: StoreSetting, cold_c: float) -> StoreAsk:
    """How the rolls of a sheet stand in the store."""
    stack: Stack = "pallet" if setting.stack == "pallet" else "single"
    ways: Mapping[str, Wrapping] = {"wrapped": "wrapped", "opened": "opened", "spaced": "spaced"}
    ask = roll_ask(sheet, setting)
    return StoreAsk(
        cold_c=cold_c,
        store_c=ask.stored_c,
        until_c=ask.until_c,
        thickness=ask.thickness,
        length=ask.length,
        stack=stack,
        rows=setting.rows,
        columns=setting.columns,
        wrapping=ways[setting.wrapping],
        fans=setting.fans,
    )


def left_out(
    paper: Paper,
    hours: HourTable,
    crew: CrewSetting,
    sheets: Sequence[SheetWarmth],
    days: Sequence[StoreDay],
    setting: StoreSetting,
) -> DayLeftOut | None:
    """A roll of the sheet laid last, set out as the coldest of the cold days begins and left till it ends."""
    if not days:
        return None
    coldest = min(days, key=lambda day: day.air_c)
    day = next(one for one in paper.days if one.number == coldest.number)
    past = math.ceil(minutes(crew, 1) / 60)
    span = [index for index in day.hours[crew.day_from.hour : past] if index >= 0]
    air_c, wind_m_s = hours.weather.air_c[span], roof_wind(hours)[span]
    if not len(span) or np.isnan(air_c).any() or np.isnan(wind_m_s).any():
        return None
    sheet = sheets[-1].sheet
    found = roll_left_out(roll_ask(paper.sheets[sheet], setting), air_c, wind_m_s)
    return DayLeftOut(day.number, sheet, minutes(crew, 0), found)
