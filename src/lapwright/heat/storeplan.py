"""The store for tomorrow's work: rolls, floor, heater, fuel, and when to switch it on (question 6)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.heat.contact import material
from lapwright.heat.rollclock import wound_radius
from lapwright.heat.rollfilm import ZERO_C_K
from lapwright.heat.store import StoreAsk, mean_left, store_clock
from lapwright.heat.values import StorePlan
from lapwright.verdict import Step
from lapwright.weather.values import Array
from lapwright.weather.wet import WHOLE_YEAR_H

SOURCE = "heat balance of the store; walls, floor, air changes, gaps and margins are common practice, no source"
FUELS = ("propane", "kerosene", "electric")
HELD = "n·more + next"  # the formula of the rolls of a sheet in the store
_HOUR_S = 3600.0
_JOULES = {"MJ/kg": (1e6, "kg"), "MJ/L": (1e6, "L")}


@dataclass(frozen=True, slots=True)
class StoreLoad:
    """Rolls of one sheet.

    stand: how they stand, from how cold, in how warm a store, to what limit.  rolls: laid tomorrow; next_rolls: on the
    day after.  width: of a roll [m].  sheet: its name.
    """

    stand: StoreAsk
    rolls: int
    next_rolls: int
    width: float
    sheet: str = ""

    @property
    def held(self) -> int:
        """Rolls in the store: tomorrow's with more beside, and the next day's."""
        return math.ceil(self.rolls * default_number("rolls", "store_more") - 1e-9) + self.next_rolls

    @property
    def diameter(self) -> float:
        """Of a roll [m]."""
        return 2 * wound_radius(self.stand.thickness, self.stand.length)

    @property
    def pallets(self) -> int:
        """Pallets that they stand on; none where they stand apart."""
        return 0 if is_spread(self.stand) else math.ceil(self.held / (self.stand.rows * self.stand.columns))

    @property
    def heat_j(self) -> float:
        """What warms them through to the store's temperature [J]."""
        rise_k = max(self.stand.store_c - self.stand.cold_c, 0.0)
        return self.held * roll_heat_j_k(self.stand, self.width) * rise_k


@dataclass(frozen=True, slots=True)
class StorePlanAsk:
    """What the store is to do.

    loads: its rolls, sheet by sheet, one at least.  air_c: the coldest outside while it heats.  begin_s, end_s: the
    crew's day, seconds after midnight.  walls_w_m2k: of walls and roof, None the default; fuel: one of FUELS, None:
    watts alone.
    """

    loads: tuple[StoreLoad, ...]
    air_c: float
    begin_s: float
    end_s: float
    walls_w_m2k: float | None = None
    fuel: str | None = None

    @property
    def store_c(self) -> float:
        """How warm the store is [°C]."""
        return self.loads[0].stand.store_c


def rolls_come_c(air_c: Array, first: int) -> float | None:
    """How cold rolls are that lay outside before an hour [°C]: the mean air of the days before it; None: no reading.

    Args:
        air_c: hourly, (hours,); a whole year is laid end to end.  first: the hour before which they come in.

    Where some of that time is not known, as in a forecast, the coldest hour that is known of it: the safe side.
    Source: common practice, no source; row cold_before of defaults/rolls.csv
    Checked: tests/heat/test_rolls_come.py
    """
    span = int(default_si("rolls", "cold_before") // _HOUR_S)
    at = np.arange(first - span, first)
    at = at % len(air_c) if len(air_c) >= WHOLE_YEAR_H else at[(at >= 0) & (at < len(air_c))]
    known = air_c[at][np.isfinite(air_c[at])]
    if not len(known):
        return None
    return float(known.mean()) if len(known) == span else float(known.min())


def store_plan(ask: StorePlanAsk) -> StorePlan:
    """The store for a day's rolls.

    Holds for: a heater that keeps the store warm; the store's own walls are warm after `store_lead`.
    Source: arithmetic on `store_clock` and on a heat balance, rows of defaults/rolls.csv
    Checked: tests/published/rolls.csv plan-*
    """
    floor = sum(floor_m2(load.held, load.diameter, stand=load.stand) for load in ask.loads)
    loss_w_k = store_loss_w_k(floor, walls_w_m2k=ask.walls_w_m2k, air_c=ask.air_c)
    loss_w = max(loss_w_k * (ask.store_c - ask.air_c), 0.0)
    rolls_w = sum(_taken_up_j(load, _HOUR_S) for load in ask.loads) / _HOUR_S
    heater_w = (loss_w + rolls_w) * default_number("rolls", "store_margin")
    warm_s = warm_through_s(ask.loads)
    switch_on_s = energy_j = None
    if warm_s is not None:
        switch_on_s = ask.begin_s - warm_s - default_si("rolls", "store_lead")
        run_s = ask.end_s - switch_on_s
        energy_j = loss_w * run_s + sum(_taken_up_j(load, run_s) for load in ask.loads)
    amount, unit = (None, "") if energy_j is None or ask.fuel is None else fuel_for(energy_j, ask.fuel)
    plan = StorePlan(
        rolls=sum(load.held for load in ask.loads),
        pallets=sum(load.pallets for load in ask.loads),
        floor=floor,
        loss_w_k=loss_w_k,
        loss_w=loss_w,
        rolls_w=rolls_w,
        heater_w=heater_w,
        warm_s=warm_s,
        switch_on_s=switch_on_s,
        energy_j=energy_j,
        fuel_amount=amount,
        fuel_unit=unit,
        steps=(),
        source=SOURCE,
    )
    return replace(plan, steps=_steps(plan, ask))


def warm_through_s(loads: Sequence[StoreLoad]) -> float | None:
    """Until the coldest place of the slowest roll is at its limit [s]; None never.

    Source: arithmetic: the longest of the times of `store_clock`
    """
    clocks = [store_clock(load.stand).core_s for load in loads]
    return None if None in clocks else max(one for one in clocks if one is not None)


def _taken_up_j(load: StoreLoad, seconds: float) -> float:
    return load.heat_j * (1 - mean_left(load.stand)(seconds))


def is_spread(stand: StoreAsk) -> bool:
    """Rolls stand apart from one another, not on pallets.

    Source: arithmetic
    """
    return stand.stack == "single" or stand.wrapping == "spaced"


def floor_m2(rolls: int, diameter: float, *, stand: StoreAsk) -> float:
    """Floor that so many rolls take, the way between them in it [m²].

    Source: geometry; rows store_gap, pallet_gap, store_aisle of defaults/rolls.csv
    Checked: tests/published/rolls.csv floor-*
    """
    if is_spread(stand):
        stood = rolls * (diameter + default_si("rolls", "store_gap")) ** 2
    else:
        gap = default_si("rolls", "pallet_gap")
        pallets = math.ceil(rolls / (stand.rows * stand.columns))
        stood = pallets * (stand.rows * diameter + gap) * (stand.columns * diameter + gap)
    return stood * (1 + default_number("rolls", "store_aisle"))


def store_loss_w_k(floor: float, *, walls_w_m2k: float | None, air_c: float) -> float:
    """Heat that a store of a square floor [m²] loses for each kelvin over the air outside [W/K].

    Source: heat through walls, roof and floor and with the air that changes; rows store_* of defaults/rolls.csv
    Checked: tests/published/rolls.csv loss-*
    """
    rows = {name: table("rolls")[name].number() for name in ("store_room", "store_walls", "store_floor", "store_airs")}
    walls = rows["store_walls"] if walls_w_m2k is None else walls_w_m2k
    around = 4 * math.sqrt(floor) * rows["store_room"] + floor
    gas = table("rolls")["gas_constant"].number() * (air_c + ZERO_C_K)
    density = default_si("heat", "sea_level_pressure") / gas
    changed = floor * rows["store_room"] * rows["store_airs"] / _HOUR_S
    return walls * around + rows["store_floor"] * floor + changed * density * table("rolls")["air_heat"].number()


def roll_heat_j_k(stand: StoreAsk, width: float) -> float:
    """Heat that warms one roll by a kelvin [J/K]; width of the roll [m].

    Source: arithmetic: density, specific heat and size of the sheet, defaults/heat.csv
    """
    sheet = material("sheet")
    if sheet is None:
        raise LookupError("defaults/heat.csv has no sheet")
    return sheet.density * sheet.specific_heat * stand.thickness * stand.length * width


def fuel_for(energy_j: float, fuel: str) -> tuple[float, str]:
    """How much of a fuel gives so much heat to the store: amount and its unit, kg, L or kWh.

    Source: lower heating values, rows *_heat and *_used of defaults/rolls.csv
    Checked: tests/published/rolls.csv fuel-*
    """
    needed = energy_j / default_number("rolls", f"{fuel}_used")
    if fuel == "electric":
        return needed / (1000 * _HOUR_S), "kWh"
    row = table("rolls")[f"{fuel}_heat"]
    size, unit = _JOULES[row.unit]
    return needed / (row.number() * size), unit


def _steps(plan: StorePlan, ask: StorePlanAsk) -> tuple[Step, ...]:
    more = default_number("rolls", "store_more")
    fuel = f"Fuel to the end of the day: {ask.fuel}"
    held = (
        Step(
            f"Rolls of {load.sheet} held: tomorrow's with more beside, and the next day's",
            HELD,
            {"n": load.rolls, "more": more, "next": load.next_rolls, "diameter [m]": load.diameter},
            float(load.held),
            "1",
        )
        for load in ask.loads
    )
    return (
        *held,
        Step("Floor, the way between them in it", "", {"pallets": plan.pallets}, plan.floor, "m2"),
        Step(
            "What the store loses",
            "UA·(store - air)",
            {"UA [W/K]": plan.loss_w_k, "store [°C]": ask.store_c, "air [°C]": ask.air_c},
            plan.loss_w,
            "W",
        ),
        Step("What the rolls take up in the first hour", "n·m·c·ΔT·(1 - θ(1 h))/1 h", {}, plan.rolls_w, "W"),
        Step(
            "Heater",
            "(loss + rolls)·margin",
            {"margin": default_number("rolls", "store_margin")},
            plan.heater_w,
            "W",
        ),
        Step(
            "Until the coldest place is at the limit",
            "",
            {"until [°C]": max(load.stand.until_c for load in ask.loads)},
            "never" if plan.warm_s is None else plan.warm_s,
            "" if plan.warm_s is None else "s",
        ),
        Step(
            "Switched on, counted from midnight of the working day; below 0 it is the day before",
            "begin - warm - lead",
            {"begin [s]": ask.begin_s, "lead [s]": default_si("rolls", "store_lead")},
            "never" if plan.switch_on_s is None else plan.switch_on_s,
            "" if plan.switch_on_s is None else "s",
        ),
        *(() if plan.fuel_amount is None else (Step(fuel, "E/(heat·used)", {}, plan.fuel_amount, plan.fuel_unit),)),
    )
