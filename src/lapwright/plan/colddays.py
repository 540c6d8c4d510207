"""Which hours and days of a job need warm rolls, and how many rolls they take."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.assembly.values import Sheet
from lapwright.crew.values import CrewDay, CrewSetting
from lapwright.hours.values import HEAT, WARM, HourTable
from lapwright.packet.values import Paper
from lapwright.weather.values import Array

WARM_STATES = ("warm", "heat")


@dataclass(frozen=True, slots=True)
class ColdHours:
    """Working hours in which a sheet is laid with warm rolls: (hours,) each.

    air_c [°C]; wind_m_s at the roof; month: 1 to 12.
    """

    air_c: Array
    wind_m_s: Array
    month: NDArray[np.int64]


def cold_hours(hours: HourTable, crew: CrewSetting, ply: str) -> ColdHours:
    """The working hours of the weather's year in which a ply needs warm rolls."""
    start = hours.weather.start
    hour = (start - start.astype("datetime64[D]")).astype("timedelta64[h]").astype(np.int64)
    weekday = (start.astype("datetime64[D]").astype(np.int64) + 3) % 7
    state = hours.states[ply]
    is_work = (hour >= crew.day_from.hour) & (hour < crew.day_to.hour) & np.isin(weekday, crew.weekdays)
    chosen = is_work & ((state == WARM) | (state == HEAT))
    month = start.astype("datetime64[M]").astype(np.int64) % 12 + 1
    return ColdHours(hours.weather.air_c[chosen], roof_wind(hours)[chosen], month[chosen])


def roof_wind(hours: HourTable) -> Array:
    """Wind by which hours are judged [m/s], (hours,): the roof's, or the station's where it is stronger."""
    station_m_s = hours.weather.wind_m_s
    return station_m_s if hours.roof_wind_m_s is None else np.maximum(station_m_s, hours.roof_wind_m_s)


def rolls_of(paper: Paper, day: CrewDay, sheets: Mapping[str, Sheet]) -> dict[str, int]:
    """Rolls that a day's pieces are cut from, by sheet."""
    of_piece = {piece.id: (piece.roll, piece.sheet) for piece in paper.layout.pieces}
    used = {of_piece[id] for id in day.pieces if id in of_piece}
    found = Counter(sheet for _, sheet in sorted(used) if sheet in sheets)
    return dict(found)


def is_cold_day(day: CrewDay) -> bool:
    """Some of its work asks for warm rolls."""
    return any(task.state in WARM_STATES for task in day.tasks)


def first_hour(day: CrewDay, crew: CrewSetting) -> int:
    """Place in the weather's year of the hour in which a day's work begins; -1: none."""
    return day.hours[crew.day_from.hour]


def minutes(crew: CrewSetting, end: int) -> int:
    """When the crew's day begins (0) or ends (1), minutes after midnight."""
    clock = (crew.day_from, crew.day_to)[end]
    return 60 * clock.hour + clock.minute
