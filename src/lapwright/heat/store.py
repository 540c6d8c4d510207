"""The warm store: how long cold rolls stand in it until they are warm through (question 6).

A roll that stands free warms from its own face; rolls of a wrapped pallet, or of an opened one whose air stands still,
warm as one block from the block's faces, which takes ten times as long.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from lapwright.defaults.table import table
from lapwright.heat.block import Block, block
from lapwright.heat.contact import Material, material
from lapwright.heat.rollclock import Wound, left_at_limit, wound_radius, wound_roll
from lapwright.heat.rollfilm import roll_film_w_m2k
from lapwright.verdict import Step

SOURCE = (
    "single and spaced rolls: exact series of a cylinder; pallets: product of three walls (Incropera et al., ch. 5);"
    " films of pallets are common practice, no source"
)
DAY_S = 86_400.0
Stack = Literal["single", "pallet"]
Wrapping = Literal["wrapped", "opened", "spaced"]


@dataclass(frozen=True, slots=True)
class StoreAsk:
    """Rolls carried into a warm store.

    cold_c, store_c, until_c [°C]; thickness, length of the sheet [m].  stack: one roll, or a pallet of rows by columns.
    wrapping of a pallet: wrapped; opened, so that a fan can blow through its gaps; spaced, each roll by itself.
    """

    cold_c: float
    store_c: float
    until_c: float
    thickness: float
    length: float
    stack: Stack
    rows: int = 5
    columns: int = 5
    wrapping: Wrapping = "wrapped"
    fans: bool = False


@dataclass(frozen=True, slots=True)
class StoreClock:
    """When the coldest place and the mean reach the limit [s], None never; the coldest place after a day [°C]."""

    core_s: float | None
    mean_s: float | None
    core_after_24h_c: float
    steps: tuple[Step, ...]
    source: str


def store_clock(ask: StoreAsk) -> StoreClock:
    """How long rolls need in the store.

    Holds for: a store as warm as it is asked to be all the time; a weak heater takes longer (see `store_plan`).
    Source: series of a cylinder and of three walls, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/rolls.csv store-*
    """
    left = left_at_limit(-ask.cold_c, -ask.store_c, -ask.until_c)
    if stands_free(ask):
        roll = free_roll(ask)
        core_s = roll.time_s(roll.core_left, left)
        mean_s = roll.time_s(roll.series.left_in_all, left)
        day_left = roll.core_left(roll.fourier(DAY_S))
        told = _roll_steps(ask, roll)
    else:
        stack = pallet_block(ask)
        core_s = stack.seconds_until(left, mean=False)
        mean_s = stack.seconds_until(left, mean=True)
        day_left = stack.last_left(DAY_S)
        told = _block_steps(ask, stack)
    after_c = ask.store_c + (ask.cold_c - ask.store_c) * day_left
    return StoreClock(core_s, mean_s, after_c, (*told, *_end_steps(ask, left, core_s, mean_s, after_c)), SOURCE)


def core_times_s(ask: StoreAsk, colds_c: Sequence[float]) -> tuple[float | None, ...]:
    """When the coldest place is at the limit [s], None never, by how cold the rolls come [°C].

    Holds for: as `store_clock`.
    Source: as `store_clock`
    Checked: tests/published/rolls.csv store-*
    """
    lefts = [left_at_limit(-cold_c, -ask.store_c, -ask.until_c) for cold_c in colds_c]
    if not stands_free(ask):
        stack = pallet_block(ask)
        return tuple(stack.seconds_until(left, mean=False) for left in lefts)
    rolls = [free_roll(replace(ask, cold_c=cold_c)) for cold_c in colds_c]
    return tuple(roll.time_s(roll.core_left, left) for roll, left in zip(rolls, lefts, strict=True))


def stands_free(ask: StoreAsk) -> bool:
    """Air moves along every roll: it stands alone or spaced, or a fan blows through an opened pallet.

    Source: arithmetic
    """
    return ask.stack == "single" or ask.wrapping == "spaced" or (ask.wrapping == "opened" and ask.fans)


def core_left(ask: StoreAsk) -> Callable[[float], float]:
    """What is left of the first difference at the coldest place, by seconds [1].

    Source: as `store_clock`
    Checked: tests/published/rolls.csv store-*
    """
    if not stands_free(ask):
        return pallet_block(ask).last_left
    roll = free_roll(ask)
    return lambda seconds: roll.core_left(roll.fourier(seconds))


def mean_left(ask: StoreAsk) -> Callable[[float], float]:
    """What is left of the first difference, the mean over all of the rolls, by seconds [1].

    Source: as `store_clock`
    Checked: tests/published/rolls.csv store-single-mean
    """
    if not stands_free(ask):
        return pallet_block(ask).mean_left
    roll = free_roll(ask)
    return lambda seconds: roll.series.left_in_all(roll.fourier(seconds))


def free_roll(ask: StoreAsk) -> Wound:
    """A roll in the store's air: still, in front of a fan, or in the gaps of an opened pallet with a fan.

    Source: films as `roll_film_w_m2k`, rows store_fan and flue_fan of defaults/rolls.csv
    Checked: tests/published/rolls.csv store-single-fan, store-flues
    """
    rows = table("rolls")
    if ask.stack == "pallet" and ask.wrapping == "opened":
        film = rows["flue_fan"].number()
    else:
        diameter = 2 * wound_radius(ask.thickness, ask.length)
        half_way_c = (ask.cold_c + ask.store_c) / 2
        film = roll_film_w_m2k(half_way_c, ask.store_c, wind_m_s=0.0, diameter=diameter)
        film = max(film, rows["store_fan"].number()) if ask.fans else film
    return wound_roll(ask.thickness, ask.length, 0.0, film_w_m2k=film)


def pallet_block(ask: StoreAsk) -> Block:
    """A pallet with its films: wrapped or with the wrap off, air still or a fan beside it.

    Source: rows pallet_*, store_fan of defaults/rolls.csv
    """
    rows = {name: row.number() for name, row in table("rolls").items()}
    sheet = _sheet()
    diameter = 2 * wound_radius(ask.thickness, ask.length)
    still, outside = rows["pallet_top"], rows["store_fan"] if ask.fans else rows["pallet_top"]
    wrap = 1 / rows["pallet_wrapped"] - 1 / still if ask.wrapping == "wrapped" else 0.0
    return block(
        (ask.rows * diameter, ask.columns * diameter, rows["roll_height"]),
        conductivity=rows["pallet_conductivity"],
        volumetric_heat=rows["pallet_solid"] * sheet.density * sheet.specific_heat,
        side_w_m2k=1 / (1 / outside + wrap),
        top_w_m2k=outside,
        bottom_w_m2k=rows["pallet_bottom"],
    )


def _sheet() -> Material:
    made_of = material("sheet")
    if made_of is None:
        raise LookupError("defaults/heat.csv has no sheet")
    return made_of


def _roll_steps(ask: StoreAsk, roll: Wound) -> tuple[Step, ...]:
    air = "in front of a fan" if ask.fans else "in still air"
    if ask.stack == "pallet" and ask.wrapping == "opened":
        air = "in the gaps of an opened pallet that a fan blows through"
    return (
        Step(
            "Radius of a roll as wound",
            "R = √(t·L/π)",
            {"t [m]": ask.thickness, "L [m]": ask.length},
            roll.radius,
            "m",
        ),
        Step(f"What reaches it {air}, with radiation", "h", {}, roll.film_w_m2k, "W/m2K"),
        Step("Biot number", "Bi = h·R/k", {"k [W/mK]": roll.made_of.conductivity}, roll.series.biot, "1"),
    )


def _block_steps(ask: StoreAsk, stack: Block) -> tuple[Step, ...]:
    rows = table("rolls")
    words = "wrapped" if ask.wrapping == "wrapped" else "opened, its air still"
    size = {"east [m]": stack.east, "north [m]": stack.north, "up [m]": stack.up}
    return (
        Step(f"Pallet of {ask.rows} by {ask.columns} rolls, {words}: warms as one block", "", size),
        Step(
            "Diffusivity of the block",
            "a = k/(share·ρ·c)",
            {"k [W/mK]": rows["pallet_conductivity"].number(), "share": rows["pallet_solid"].number()},
            stack.diffusivity_m2_s,
            "m²/s of heat",
        ),
        Step(
            "Biot numbers of the walls: east, north, bottom",
            "Bi = U·size/k",
            {"east": stack.across[0].biot_low, "north": stack.across[1].biot_low, "bottom": stack.across[2].biot_low},
        ),
    )


def _end_steps(
    ask: StoreAsk, left: float, core_s: float | None, mean_s: float | None, after_c: float
) -> tuple[Step, ...]:
    put_in = {"store [°C]": ask.store_c, "cold [°C]": ask.cold_c, "until [°C]": ask.until_c}
    times = (("coldest place", core_s), ("mean", mean_s))
    return (
        Step(
            "Share of the first difference left at the limit", "θ = (store - until)/(store - cold)", put_in, left, "1"
        ),
        *(
            Step(
                f"Time until the {name} is at the limit",
                "θ(t), series",
                {},
                "never" if time is None else time,
                "" if time is None else "s",
            )
            for name, time in times
        ),
        Step("Coldest place after a day", "store + (cold - store)·θ(24 h)", {}, after_c, "°C"),
    )
