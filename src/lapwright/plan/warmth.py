"""Warm rolls for a job: what the heat room needs, gathered from hours, crew days and layout."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

import numpy as np

from lapwright.assembly.values import Sheet
from lapwright.crew.rates import rate_of
from lapwright.crew.values import CrewSetting
from lapwright.heat.rollclock import RollAsk, wound_radius
from lapwright.heat.store import Stack, StoreAsk, Wrapping
from lapwright.heat.storeplan import StoreLoad, StorePlanAsk, store_plan
from lapwright.heat.trip import TripAsk, plan_trip
from lapwright.heat.values import DayLeftOut, SheetWarmth, StoreDay, StoreSetting, Warmth
from lapwright.heat.winter import SHORT, month_clocks, outer_wraps_s, quantile_s, roll_left_out, wind_table
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.job.store_models import StoreTyped
from lapwright.packet.values import Paper
from lapwright.plan.colddays import cold_hours, first_hour, is_cold_day, minutes, rolls_of, roof_wind
from lapwright.plan.fitness import Keys, crew_keys, hour_keys
from lapwright.roof.values import Area
from lapwright.units.anything import quantity_si
from lapwright.units.factors import TICKS_PER_METRE

BEFORE_H = 72  # hours before a day over which rolls that lie outside take the air's mean
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
    sheets = warm_sheets(paper)
    if not sheets:
        return None
    table_ = hours.same_day()
    told = tuple(sheet_warmth(paper, table_, crew, ply, sheet, setting) for ply, sheet in sheets.items())
    days = tuple(store_days(paper, hours, crew, {sheet.name: sheet for sheet in sheets.values()}, setting))
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


def warm_sheets(paper: Paper) -> dict[str, Sheet]:
    """Sheets that may be laid with warm rolls, by the first ply of each; without a thickness a roll has no clock."""
    found: dict[str, Sheet] = {}
    for ply in paper.assembly.plies:
        sheet = ply.sheet
        is_warm = sheet.warm_rolls_at_or_above_c is not None or sheet.with_heat_at_or_above_c is not None
        if is_warm and sheet.thickness and sheet.apply_at_or_above_c is not None and sheet not in found.values():
            found[ply.ply] = sheet
    return found


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


def sheet_warmth(
    paper: Paper, hours: HourTable, crew: CrewSetting, ply: str, sheet: Sheet, setting: StoreSetting
) -> SheetWarmth:
    """One sheet's clock over the winter, its table and its trips."""
    ask = roll_ask(sheet, setting)
    cold = cold_hours(hours, crew, ply)
    lasts = outer_wraps_s(ask, cold.air_c, cold.wind_m_s)
    short_s = quantile_s(lasts, SHORT)
    area = sheet.pitch_ticks / TICKS_PER_METRE * ask.length
    rate = rate_of(crew.rates, ply) * crew.people * rate_of(crew.rates, "pace_in_cold")
    units = paper.head.units
    winds = tuple(quantity_si(text) for text in WINDS[units])
    airs = tuple(air for air in map(quantity_si, AIR_STEPS[units]) if air < ask.until_c)
    trip = None
    if setting.distance is not None and len(lasts):
        trip = plan_trip(
            TripAsk(short_s, area / rate, setting.distance, speed_m_s=setting.speed_m_s, most=setting.carry)
        )
    return SheetWarmth(
        sheet=sheet.name,
        until_c=ask.until_c,
        radius=wound_radius(ask.thickness, ask.length),
        pace_s=area / rate,
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
        before = np.arange(first_hour(day, crew) - BEFORE_H, first_hour(day, crew)) % len(hours.weather.air_c)
        around = np.arange(first_hour(day, crew) - 24, first_hour(day, crew) + 10) % len(hours.weather.air_c)
        cold_c = float(np.nanmean(hours.weather.air_c[before]))
        air_c = float(np.nanmin(hours.weather.air_c[around]))
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
        plan = store_plan(
            StorePlanAsk(
                loads,
                air_c,
                begin_s=60.0 * minutes(crew, 0),
                end_s=60.0 * minutes(crew, 1),
                walls_w_m2k=setting.walls_w_m2k,
                fuel=setting.fuel,
            )
        )
        yield StoreDay(day.number, counted[place], cold_c, air_c, plan)


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
    span = [index for index in day.hours[crew.day_from.hour : crew.day_to.hour + 1] if index >= 0]
    air_c, wind_m_s = hours.weather.air_c[span], roof_wind(hours)[span]
    if not len(span) or np.isnan(air_c).any() or np.isnan(wind_m_s).any():
        return None
    sheet = sheets[-1].sheet
    found = roll_left_out(roll_ask(paper.sheets[sheet], setting), air_c, wind_m_s)
    return DayLeftOut(day.number, sheet, minutes(crew, 0), found)
