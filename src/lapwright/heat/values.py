"""Warm rolls as plain values: trips, the clock over a winter, the store, what the packet tells of them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from lapwright.verdict import Step


@dataclass(frozen=True, slots=True)
class Trip:
    """rolls: in a trip, at most what is carried at once; 0 where not even one keeps its outer wrap.

    farthest: distance at which one roll a trip still does it [m], None without bound.  reaches: (rolls, distance [m])
    for each number that gets anywhere warm; empty without bound.  trip_s: on the way and handled.
    """

    rolls: int
    farthest: float | None
    reaches: tuple[tuple[int, float], ...]
    trip_s: float
    steps: tuple[Step, ...]
    source: str


@dataclass(frozen=True, slots=True)
class MonthClock:
    """What the outermost wrap lasts in a month's cold working hours [s], None: it is not lost.

    hours: how many there are.  short_s: a tenth of them is worse; middle_s: half; long_s: nine tenths.
    """

    month: int
    hours: int
    short_s: float | None
    middle_s: float | None
    long_s: float | None


@dataclass(frozen=True, slots=True)
class LeftOut:
    """A roll set out at a day's first hour and left: when its outer wrap, half its length, all of it are lost [s].

    None: not within the hours looked at.  shares: of its length still warm after each whole hour.
    """

    wrap_s: float | None
    half_s: float | None
    all_s: float | None
    shares: tuple[float, ...]


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


@dataclass(frozen=True, slots=True)
class SheetWarmth:
    """One sheet's rolls in the cold.

    until_c: below it a warm roll is lost [°C]; pace_s: the crew needs a roll so often.  months: over the cold working
    hours; short_s: a tenth of all those hours is worse.  winds_m_s, airs_c: of the columns and rows of lasts_s [s].
    trip: with what it lasts in the tenth.
    """

    sheet: str
    until_c: float
    radius: float
    pace_s: float
    hours: int
    months: tuple[MonthClock, ...]
    short_s: float | None
    winds_m_s: tuple[float, ...]
    airs_c: tuple[float, ...]
    lasts_s: tuple[tuple[float | None, ...], ...]
    trip: Trip | None


@dataclass(frozen=True, slots=True)
class StoreDay:
    """A day that needs warm rolls: its number, rolls laid by sheet, how cold they come [°C], the coldest air [°C]."""

    number: int
    rolls: Mapping[str, int]
    cold_c: float
    air_c: float
    plan: StorePlan


@dataclass(frozen=True, slots=True)
class DayLeftOut:
    """A roll of a sheet set out when a day's work begins (minutes after midnight) and left."""

    number: int
    sheet: str
    begin_min: int
    found: LeftOut


@dataclass(frozen=True, slots=True)
class StoreSetting:
    """The store as typed, defaults in place: temperature [°C], distance [m], heater [W], floor [m²]; None not given."""

    store_c: float | None
    distance: float | None
    heater_w: float | None
    floor: float | None
    fuel: str | None = None
    walls_w_m2k: float | None = None
    cover_w_m2k: float | None = None
    carry: int | None = None
    speed_m_s: float | None = None
    stack: str = "single"
    rows: int = 5
    columns: int = 5
    wrapping: str = "wrapped"
    fans: bool = False


@dataclass(frozen=True, slots=True)
class Warmth:
    """What the packet tells of warm rolls.

    store_c [°C]; stand: how they stand in the store, in words; cover_w_m2k: over rolls outside, None bare; fuel of the
    heater, None not given; distance from the store's door to the work [m], None not given.
    """

    store_c: float
    stand: str
    sheets: tuple[SheetWarmth, ...]
    days: tuple[StoreDay, ...]
    left_out: DayLeftOut | None
    distance: float | None
    cover_w_m2k: float | None = None
    fuel: str | None = None

    @property
    def most(self) -> StoreDay | None:
        """The day that needs the greatest heater, the first of equals."""
        return max(self.days, key=lambda day: day.plan.heater_w, default=None)
