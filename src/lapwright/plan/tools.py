"""What a job says of its welding tools and their power, as the packet's tables; and the checks of the power."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from lapwright.crew.values import CrewDay, CrewSetting
from lapwright.defaults.si import default_number
from lapwright.defaults.table import table
from lapwright.heat.weld import SOURCE as WELD_SOURCE
from lapwright.heat.weld import WeldAsk, retest_step_k, weld_speed
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.packet.toolvalues import CordRow, CordTable, SupplyTable, Tools, WeldDay, WeldRow, WeldTable
from lapwright.packet.values import Paper
from lapwright.power.checks import CORD, cord_advice
from lapwright.power.cord import cord
from lapwright.power.supply import CAUTIONS, supply
from lapwright.power.values import CordAsk, Power, SupplyAsk
from lapwright.units.anything import si_scale

WELD_KEYS = ("proved_speed", "proved_sheet", "nozzle")
CORD_KEYS = ("load", "volts")
SUPPLY_KEYS = ("load", "volts", "motors", "others")


def with_tools(job: Job, paper: Paper) -> Paper:
    """A paper whose days are planned, with its tables of weld speeds, cords and power; none where nobody welds."""
    if job.crew.welders == 0:
        return paper
    lacking = {
        "weld": tuple(f"weld.{key}" for key in WELD_KEYS if getattr(job.weld, key) is None),
        "cord": tuple(f"power.{key}" for key in CORD_KEYS if getattr(job.power, key) is None),
        "supply": _supply_lacks(job),
    }
    advice = cord_advice(make_power(job))
    return replace(
        paper,
        warnings=(*paper.warnings, *(((f"{CORD}-drop", advice),) if advice else ())),
        tools=Tools(
            weld=None if lacking["weld"] else weld_table(job, paper.hours, paper.days, paper.crew),
            cord=None if lacking["cord"] else cord_table(job),
            supply=None if lacking["supply"] else supply_table(job),
            cautions=CAUTIONS,
            lacking={name: keys for name, keys in lacking.items() if keys},
        ),
    )


def _supply_lacks(job: Job) -> tuple[str, ...]:
    keys = tuple(f"power.{key}" for key in SUPPLY_KEYS if getattr(job.power, key) is None)
    others = (("crew.welders", job.crew.welders), ("site.elevation", job.site.elevation))
    return (*keys, *(key for key, value in others if value is None))


def make_weld_ask(job: Job) -> WeldAsk | None:
    """The job's test weld, for the sheet that it was made on; None where it is not whole."""
    typed = job.weld
    if typed.proved_speed is None or typed.proved_sheet is None or typed.nozzle is None:
        return None
    return WeldAsk(
        proved_speed_m_s=typed.proved_speed,
        proved_sheet_c=typed.proved_sheet,
        sheet_c=typed.proved_sheet,
        nozzle_c=typed.nozzle,
        proved_air_c=typed.proved_air,
        slowest_m_s=typed.slowest,
        fastest_m_s=typed.fastest,
    )


def speed_at(
    ask: WeldAsk, sheet_c: float, air_c: float, *, holds_nozzle: bool | None, lost: float = 0.0
) -> float | None:
    """The speed [m/s] on a sheet [°C] in air [°C]; None where the tool can't weld it.

    holds_nozzle: the tool keeps its nozzle to a set temperature; None, not given: the slower of both ways.
    lost: share of the volts lost since the test weld.
    """
    airs = {True: (None,), False: (air_c,), None: (None, air_c)}[holds_nozzle]
    speeds = [weld_speed(replace(ask, sheet_c=sheet_c, air_c=air, volts_lost_share=lost)).speed_m_s for air in airs]
    return None if None in speeds else min(speed for speed in speeds if speed is not None)


def weld_table(
    job: Job, hours: HourTable | None, days: Sequence[CrewDay], crew: CrewSetting | None
) -> WeldTable | None:
    """Speeds by sheet, as cold as the air, and by hour of every crew day on the planning weather."""
    ask, holds = make_weld_ask(job), job.weld.holds_nozzle
    if ask is None:
        return None
    shares = tuple(float(each) for each in table("weld")["shares"].value.split(", "))
    return WeldTable(
        proved_speed_m_s=ask.proved_speed_m_s,
        proved_sheet_c=ask.proved_sheet_c,
        proved_air_c=ask.proved_air_c,
        nozzle_c=ask.nozzle_c,
        holds_nozzle=holds,
        slowest_m_s=ask.slowest_m_s,
        fastest_m_s=ask.fastest_m_s,
        shares=shares,
        rows=tuple(
            WeldRow(sheet_c, tuple(speed_at(ask, sheet_c, sheet_c, holds_nozzle=holds, lost=share) for share in shares))
            for sheet_c in row_sheets_c(job.units)
        ),
        days=() if hours is None or crew is None else tuple(weld_day(ask, hours, day, crew, holds) for day in days),
        retest_k=retest_step_k(),
        source=WELD_SOURCE,
    )


def row_sheets_c(units: str = "us") -> list[float]:
    """Temperatures of the table's rows [°C], the warmest first, round in the job's units."""
    rows = table("weld")
    names = [f"{name}{'_metric' if units == 'metric' else ''}" for name in ("coldest_row", "warmest_row", "row_step")]
    low, high, step = (int(rows[name].number()) for name in names)
    scale, offset = si_scale(rows[names[0]].unit)
    return [value * scale + offset for value in range(high, low - 1, -step)]


def weld_day(ask: WeldAsk, hours: HourTable, day: CrewDay, crew: CrewSetting, holds: bool | None) -> WeldDay:
    """One crew day's hours: the surface is the sheet, as the laps lie on the roof."""
    clocks = range(crew.day_from.hour, crew.day_to.hour + (1 if crew.day_to.minute else 0))
    sheets: dict[int, float | None] = {}
    speeds: dict[int, float | None] = {}
    for clock in clocks:
        hour = day.hours[clock]
        sheet_c = float(hours.surface_c[hour]) if hour >= 0 else np.nan
        air_c = float(hours.weather.air_c[hour]) if hour >= 0 else np.nan
        is_known = not (np.isnan(sheet_c) or np.isnan(air_c))
        sheets[clock] = sheet_c if is_known else None
        speeds[clock] = speed_at(ask, sheet_c, air_c, holds_nozzle=holds) if is_known else None
    return WeldDay(day.number, sheets, speeds)


def cord_table(job: Job) -> CordTable | None:
    """What cords of every gauge and length leave of the job's tool, and what its own cord leaves."""
    load, volts = job.power.load, job.power.volts
    if load is None or volts is None:
        return None
    row = table("power")[f"table_lengths_{job.units}"]
    scale, _ = si_scale(row.unit)
    lengths = tuple(float(each) * scale for each in row.value.split(", "))
    gauges = tuple(table("power")["table_gauges"].value.split(", "))
    gauge, length, wire_c = job.power.gauge, job.power.length, default_number("power", "wire_at")
    own = None if gauge is None or length is None else cord(CordAsk(load, volts, length, gauge, wire_c))
    return CordTable(
        load_w=load,
        volts=volts,
        amps=load / volts,
        lengths=lengths,
        rows=tuple(_cord_row(load, volts, lengths, each, wire_c) for each in gauges),
        own_gauge=gauge,
        own_length=length,
        own_drop_share=None if own is None else own.drop_share,
        own_heat_lost=None if own is None else own.heat_lost_share,
        source="" if own is None else own.source,
    )


def _cord_row(load: float, volts: float, lengths: Sequence[float], gauge: str, wire_c: float) -> CordRow:
    found = [cord(CordAsk(load, volts, length, gauge, wire_c)) for length in lengths]
    return CordRow(
        gauge=gauge,
        drop_shares=tuple(each.drop_share for each in found),
        heat_lost=tuple(each.heat_lost_share for each in found),
        longest_3=found[0].longest_3,
        longest_5=found[0].longest_5,
        carries_a=found[0].carries_a,
        is_overloaded=found[0].is_overloaded,
    )


def supply_table(job: Job) -> SupplyTable | None:
    """Generator, circuits and fuel for what the job says runs at the same time."""
    power, tools, elevation = job.power, job.crew.welders, job.site.elevation
    if power.load is None or power.volts is None or power.motors is None or power.others is None:
        return None
    if tools is None or elevation is None:
        return None
    found = supply(SupplyAsk(tools, power.load, power.volts, power.motors, power.others, elevation))
    return SupplyTable(
        supply=power.supply,
        tools=tools,
        running_w=found.running_w,
        starting_w=found.starting_w,
        here_w=found.here_w,
        size_w=found.size_w,
        generator_w=power.generator,
        breaker_a=found.breaker_a,
        fuel_low_m3_s=found.fuel_low_m3_s,
        fuel_high_m3_s=found.fuel_high_m3_s,
        steps=found.steps,
        source=found.source,
    )


def make_power(job: Job) -> Power:
    """The power of a job as its checks take it."""
    typed = job.power
    return Power(
        load_w=typed.load,
        volts=typed.volts,
        gauge=typed.gauge,
        length=typed.length,
        supply=typed.supply,
        generator_w=typed.generator,
        motors_w=typed.motors,
        others_w=typed.others,
        tools=job.crew.welders,
        elevation=job.site.elevation,
    )
