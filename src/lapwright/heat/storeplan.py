"""The store for tomorrow's work: rolls, floor, heater, fuel, and when to switch it on (question 6)."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.heat.contact import material
from lapwright.heat.rollclock import wound_radius
from lapwright.heat.rollfilm import ZERO_C_K
from lapwright.heat.store import StoreAsk, mean_left, stands_free, store_clock
from lapwright.verdict import Step

SOURCE = "heat balance of the store; walls, floor, air changes, gaps and margins are common practice, no source"
FUELS = ("propane", "kerosene", "electric")
_HOUR_S = 3600.0
_JOULES = {"MJ/kg": (1e6, "kg"), "MJ/L": (1e6, "L")}


@dataclass(frozen=True, slots=True)
class StorePlanAsk:
    """What the store is to do.

    stand: how the rolls stand, from how cold, in how warm a store, to what limit.  rolls: laid tomorrow; next_rolls: on
    the day after.  width: of a roll [m].  air_c: the coldest outside while it heats.  begin_s, end_s: the crew's day,
    seconds after midnight.  walls_w_m2k: of walls and roof, None the default; fuel: one of FUELS, None: watts alone.
    """

    stand: StoreAsk
    rolls: int
    next_rolls: int
    width: float
    air_c: float
    begin_s: float
    end_s: float
    walls_w_m2k: float | None = None
    fuel: str | None = None


@dataclass(frozen=True, slots=True)
class StorePlan:
    """rolls held; floor [m²]; what the store loses and the rolls take up [W] and the heater for both, with a margin.

    warm_s: until the coldest place is at the limit, None never.  switch_on_s: seconds after midnight of the working
    day, negative before it, None never.  loss_w_k: heat lost for each kelvin.  energy_j: from there to the end of the
    day; fuel_amount in fuel_unit (kg, L or kWh), None where no fuel is named.
    """

    rolls: int
    pallets: int
    floor: float
    loss_w_k: float
    loss_w: float
    rolls_w: float
    heater_w: float
    warm_s: float | None
    switch_on_s: float | None
    energy_j: float | None
    fuel_amount: float | None
    fuel_unit: str
    steps: tuple[Step, ...]
    source: str


def store_plan(ask: StorePlanAsk) -> StorePlan:
    """The store for a day's rolls.

    Holds for: a heater that keeps the store warm; the store's own walls are warm after `store_lead`.
    Source: arithmetic on `store_clock` and on a heat balance, rows of defaults/rolls.csv
    Checked: tests/published/rolls.csv plan-*
    """
    stand = ask.stand
    rolls = math.ceil(ask.rolls * default_number("rolls", "store_more") - 1e-9) + ask.next_rolls
    diameter = 2 * wound_radius(stand.thickness, stand.length)
    pallets = 0 if is_spread(stand) else math.ceil(rolls / (stand.rows * stand.columns))
    floor = floor_m2(rolls, diameter, stand=stand)
    loss_w_k = store_loss_w_k(floor, walls_w_m2k=ask.walls_w_m2k, air_c=ask.air_c)
    loss_w = max(loss_w_k * (stand.store_c - ask.air_c), 0.0)
    heat_j = rolls * roll_heat_j_k(stand, ask.width) * max(stand.store_c - stand.cold_c, 0.0)
    left = mean_left(stand)
    rolls_w = heat_j * (1 - left(_HOUR_S)) / _HOUR_S
    heater_w = (loss_w + rolls_w) * default_number("rolls", "store_margin")
    warm_s = store_clock(stand).core_s
    switch_on_s = None if warm_s is None else ask.begin_s - warm_s - default_si("rolls", "store_lead")
    energy_j = None
    if warm_s is not None and switch_on_s is not None:
        energy_j = loss_w * (ask.end_s - switch_on_s) + heat_j * (1 - left(ask.end_s - switch_on_s))
    amount, unit = (None, "") if energy_j is None or ask.fuel is None else fuel_for(energy_j, ask.fuel)
    plan = StorePlan(
        rolls=rolls,
        pallets=pallets,
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
    return _with_steps(plan, ask, diameter)


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


def _with_steps(plan: StorePlan, ask: StorePlanAsk, diameter: float) -> StorePlan:
    stand = ask.stand
    more = default_number("rolls", "store_more")
    free = "each by itself" if stands_free(stand) else "as blocks"
    fuel = f"Fuel to the end of the day: {ask.fuel}"
    steps = (
        Step(
            "Rolls held: tomorrow's with more beside, and the next day's",
            "n·more + next",
            {"n": ask.rolls, "more": more, "next": ask.next_rolls},
            float(plan.rolls),
            "1",
        ),
        Step(f"Floor, rolls warming {free}", "", {"diameter [m]": diameter, "pallets": plan.pallets}, plan.floor, "m2"),
        Step(
            "What the store loses",
            "UA·(store - air)",
            {"UA [W/K]": plan.loss_w_k, "store [°C]": stand.store_c, "air [°C]": ask.air_c},
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
            {"until [°C]": stand.until_c},
            "never" if plan.warm_s is None else plan.warm_s,
            "" if plan.warm_s is None else "s",
        ),
        Step(
            "Switched on, counted from midnight of the working day",
            "begin - warm - lead",
            {"begin [s]": ask.begin_s, "lead [s]": default_si("rolls", "store_lead")},
            "never" if plan.switch_on_s is None else plan.switch_on_s,
            "" if plan.switch_on_s is None else "s",
        ),
        *(() if plan.fuel_amount is None else (Step(fuel, "E/(heat·used)", {}, plan.fuel_amount, plan.fuel_unit),)),
    )
    return replace(plan, steps=steps)
