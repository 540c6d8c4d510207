"""What has to be warm today, since when, and how many rolls go up in a trip (questions 5 and 6)."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Ply
from lapwright.crew.morninghours import coldest, roll_lasts_s
from lapwright.crew.pace import Work, work_s
from lapwright.crew.rates import rate_of
from lapwright.crew.values import CrewSetting, MorningHour, Opened, OperationToday, WarmRolls
from lapwright.crew.work import kind_at
from lapwright.defaults.si import default_si
from lapwright.heat.rollclock import RollAsk
from lapwright.heat.store import Stack, StoreAsk, Wrapping, store_clock
from lapwright.heat.trip import TripAsk, plan_trip
from lapwright.hours.values import STATE_WORDS, WARM
from lapwright.units.factors import TICKS_PER_METRE


@dataclass(frozen=True, slots=True)
class WarmAsk:
    """The store and the way from it.

    store_c: how warm it is kept; cold_c: of the rolls when it goes on; distance: from its door to the work [m], None:
    not given.  cover_w_m2k: of a cover over rolls outside, speed_m_s, most: how they are carried; None: not given.
    own: how rolls stand in the job's store, in words and as asked of the store clock; None: not given.
    """

    store_c: float
    cold_c: float
    distance: float | None = None
    cover_w_m2k: float | None = None
    speed_m_s: float | None = None
    most: int | None = None
    own: tuple[str, Stand] | None = None


@dataclass(frozen=True, slots=True)
class Stand:
    """How rolls stand in a store; fields as in StoreAsk."""

    stack: Stack
    rows: int = 5
    columns: int = 5
    wrapping: Wrapping = "wrapped"
    fans: bool = False


SPACED, OPENED, WRAPPED = Stand("single"), Stand("pallet", wrapping="opened", fans=True), Stand("pallet")


def is_warm(today: OperationToday) -> bool:
    """The operation asks for warm rolls at some time of its window.

    Source: arithmetic
    """
    return bool(today.state) and STATE_WORDS.index(today.state) >= WARM


def roll_ask(ply: Ply, store_c: float) -> RollAsk | None:
    """A warm roll of a ply's sheet, to be laid no colder than its first limit; None where data are missing.

    Source: arithmetic
    """
    sheet = ply.sheet
    if sheet.thickness is None or sheet.apply_at_or_above_c is None:
        return None
    length = sheet.length_ticks / TICKS_PER_METRE
    return RollAsk(store_c, 0.0, 0.0, sheet.apply_at_or_above_c, sheet.thickness, length)


def shortest_lasting(
    plies: Sequence[Ply], store_c: float, *, air_c: float, wind_m_s: float
) -> tuple[Ply, RollAsk] | None:
    """The ply whose roll loses its outer wrap first in such air [°C] and wind [m/s]; None where none is known.

    Source: as `roll_clock`
    Checked: tests/crew/test_crew_warming.py
    """
    known = [(ply, ask) for ply in plies if (ask := roll_ask(ply, store_c)) is not None]
    lasting = [roll_lasts_s(ask, air_c=air_c, wind_m_s=wind_m_s) for _, ask in known]
    order = [math.inf if lasts_s is None else lasts_s for lasts_s in lasting]
    return min(zip(order, known, strict=True), key=lambda pair: pair[0])[1] if known else None


def warm_rolls(
    ply: Ply,
    today: OperationToday,
    hours: Sequence[MorningHour],
    opened: Opened | None,
    *,
    crew: CrewSetting,
    is_top: bool,
    ask: WarmAsk,
) -> WarmRolls | None:
    """The warm rolls of one ply; None where none are asked for, or data are missing.

    Source: method of our own, docs/method/morning.md
    Checked: tests/crew/test_crew_warming.py
    """
    roll = roll_ask(ply, ask.store_c)
    if roll is None or not is_warm(today) or today.first_min is None or today.last_min is None:
        return None
    at_worst = coldest(hours, today.first_min, today.last_min)
    if at_worst is None:
        return None
    lasts_s = roll_lasts_s(replace(roll, covered_u_w_m2k=ask.cover_w_m2k), air_c=at_worst[0], wind_m_s=at_worst[1])
    pace_s = roll_pace_s(ply, STATE_WORDS.index(today.state), crew, is_top=is_top)
    trip = plan_trip(TripAsk(lasts_s, pace_s, ask.distance or 0.0, ask.speed_m_s, None, ask.most))
    needed = today.first_min if opened is None else max(today.first_min, opened.begin_min)
    return WarmRolls(
        ply=ply.ply,
        sheet=ply.sheet.name,
        rolls=0 if opened is None else math.ceil(opened.rolls[ply.ply] - 1e-9),
        until_c=roll.until_c,
        store_c=ask.store_c,
        cold_c=ask.cold_c,
        needed_min=needed,
        stands=stands_of(roll, ask, needed),
        lasts_s=lasts_s,
        pace_s=pace_s,
        trip=trip.reaches,
        distance=ask.distance,
        most=None if ask.distance is None else trip.rolls,
        is_covered=ask.cover_w_m2k is not None,
    )


def roll_pace_s(ply: Ply, state: int, crew: CrewSetting, *, is_top: bool) -> float:
    """How often the crew needs a roll [s]: all hands on it, in hours of one state.

    Source: arithmetic on elapsed rates, common practice, no source
    """
    sheet = ply.sheet
    kind = "cap" if is_top else kind_at(1 if ply.ply == "base" else 2, 3)
    as_laid = sheet.width_ticks * sheet.length_ticks / TICKS_PER_METRE**2
    work = Work(ply.ply, ply.ply, kind, as_laid / rate_of(crew.rates, kind))
    return work_s(work, state, crew.people, welders=crew.welders, rates=crew.rates)


def stands_of(roll: RollAsk, ask: WarmAsk, needed_min: int) -> tuple[tuple[str, float | None, float | None], ...]:
    """Each way to stand: in words, until warm through [s], and since when [min].

    The job's own way and a wrapped pallet beside it; where it is not given rolls spaced, on an opened pallet with a
    fan, and on a wrapped one.
    Source: as `store_clock`; row store_lead of defaults/rolls.csv
    """
    ways: tuple[tuple[str, Stand], ...] = (
        ("spaced", SPACED),
        ("opened pallet, fan", OPENED),
        ("wrapped pallet", WRAPPED),
    )
    if ask.own is not None:
        ways = (ask.own,) if ask.own[1] == WRAPPED else (ask.own, ways[-1])
    lead_s = default_si("rolls", "store_lead")
    found = []
    for words, stand in ways:
        asked = StoreAsk(
            ask.cold_c, ask.store_c, roll.until_c, roll.thickness, roll.length,
            stand.stack, stand.rows, stand.columns, stand.wrapping, stand.fans,
        )  # fmt: skip
        core_s = store_clock(asked).core_s
        on_min = None if core_s is None else needed_min - (core_s + lead_s) / 60.0
        found.append((words, core_s, on_min))
    return tuple(found)
