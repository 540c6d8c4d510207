"""Elapsed rates of the crew: the defaults with their origin, and what a job puts in their place.

*Elapsed* rates hold for a whole day's work with its walking, lifting and looking; *travel* is the time at the tool
alone.  Rates are per person unless the table says otherwise.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Mapping
from types import MappingProxyType

from lapwright.crew.values import CrewSetting
from lapwright.defaults.table import Row, table
from lapwright.defaults.values import Origin, Rate
from lapwright.units.amounts import number
from lapwright.units.anything import quantity_si, si_scale
from lapwright.units.unread import Unread

# What a rate is, by the SI unit in which it is kept.
UNITS: Mapping[str, str] = MappingProxyType(
    {
        "accept_deck": "m2/s",
        "primer": "m2/s",
        "base": "m2/s",
        "interply": "m2/s",
        "cap": "m2/s",
        "pace_in_cold": "1",
        "weld": "m/s",
        "flashing": "m/s",
        "edge_strip": "m/s",
        "edge_metal": "m/s",
        "drain": "s",
        "pipe": "s",
        "probe": "m/s",
        "tie_off": "m/s",
        "set_up": "s",
        "clean_up": "s",
        "morning_break": "s",
        "noon_break": "s",
        "dry_frost": "s",
        "dry_rain": "s",
        "primer_dry": "s",
        "tool_side": "m/s",
        "tool_end": "m/s",
        "tool_end_passes": "1",
    }
)
RATE_NAMES = tuple(UNITS)
MAY_BE_ZERO = (
    "set_up",
    "clean_up",
    "morning_break",
    "noon_break",
    "dry_frost",
    "dry_rain",
    "primer_dry",
    "drain",
    "pipe",
)


def rate_si(text: str) -> float:
    """A rate as written, in SI: `65 sf/h`, `3 ft/min`, `30 min`, `0.85`.

    Raises: Unread where its unit is not known.
    Source: arithmetic
    Checked: tests/crew/test_crew_rates.py
    """
    amount, _, unit = text.strip().partition(" ")
    above, slash, below = unit.rpartition("/")
    try:
        return quantity_si(text)
    except Unread:
        if not unit:
            return number(amount)
        if not slash:
            raise
        return quantity_si(f"{amount} {above}") / si_scale(below)[0]


def default_rate(name: str) -> float:
    """The default of one rate, in SI.  Source: defaults/rates.csv, each row with its own"""
    row = table("rates")[name]
    return rate_si(row.text)


def rate_of(rates: Mapping[str, float], name: str) -> float:
    """A crew's rate in SI, or its default.

    Source: arithmetic
    """
    value = rates.get(name)
    return default_rate(name) if value is None else value


def make_crew(
    people: int,
    welders: int,
    *,
    day: tuple[dt.time, dt.time],
    weekdays: tuple[int, ...],
    start: dt.date | None = None,
    fire_watch_s: float | None = None,
    rates: Mapping[str, float] = MappingProxyType({}),
) -> CrewSetting:
    """A crew with every rate filled in: those given [SI], else the defaults.

    Source: defaults/rates.csv, each row with its own
    """
    filled = {name: rate_of(rates, name) for name in RATE_NAMES}
    return CrewSetting(people, welders, day[0], day[1], weekdays, start, fire_watch_s, MappingProxyType(filled))


def unknown_rates(names: tuple[str, ...]) -> tuple[str, ...]:
    """Those of the names that are no rate, in the order given.  Source: arithmetic"""
    return tuple(name for name in names if name not in UNITS)


def rates_used(given: Mapping[str, str] = MappingProxyType({})) -> tuple[Rate, ...]:
    """Every rate with its origin; `given` holds the job file's own texts by name.

    Raises: Unread where a text can't be read.
    Source: defaults/rates.csv, each row with its own
    """
    return tuple(_rate(row, given.get(row.name)) for row in table("rates").values())


def _rate(row: Row, given: str | None) -> Rate:
    text = row.text if given is None else given
    origin = Origin(
        key=f"crew.rates.{row.name}",
        text=text,
        default=row.text,
        origin=row.origin if given is None else "job file",
        source=row.source if given is None else "the job file",
        note=row.note,
    )
    return Rate(row.name, rate_si(text), UNITS[row.name], origin)
