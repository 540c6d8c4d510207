"""What the wind's checks read of a job: the building at one level, and the parapets round it (Q3)."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TypeVar

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.verdict import Reading, Step
from lapwright.wind.levels import Level, is_outer
from lapwright.wind.values import ENCLOSURES, EXPOSURES, RISK_CATEGORIES, STANDARDS, Building, WindCase

T = TypeVar("T")
EDITION = "ASCE 7 in the edition of the job file"
CASE_KEYS = (
    "building.height",
    "roof[*].roof_height",
    "building.exposure",
    "building.wind_speed",
    "building.risk_category",
    "building.enclosure",
    "building.standard",
    "site.elevation",
)


def read_case(reading: Reading, building: Building, level: Level) -> WindCase | None:
    """The wind case of a building at one level, its keys noted in `reading`.

    None where one is missing or not one that we hold: a roof over 7°, an open building (another figure serves it).
    Source: arithmetic
    """
    for index, area in level.members:
        own = area.roof_height is not None
        key = f"{area.entry(index)}.roof_height" if own else "building.height"
        reading.take(key, area.roof_height if own else building.height)
    height = level.height or 0.0
    exposure = reading.take("building.exposure", _known(building.exposure, EXPOSURES))
    speed = reading.take("building.wind_speed", building.wind_speed_m_s)
    reading.take("building.risk_category", _known(building.risk_category, RISK_CATEGORIES))
    enclosure = reading.take("building.enclosure", _known(building.enclosure, ENCLOSURES))
    standard = reading.take("building.standard", _known(building.standard, STANDARDS))
    elevation = 0.0
    if building.standard != "ASCE 7-10":
        elevation = reading.take("site.elevation", building.elevation)
    steepest = math.tan(math.radians(table("wind")["steepest_slope"].number()))
    for index, area in level.members:
        if area.slope > steepest:
            reading.take(f"{area.entry(index)}.slope (at most 7 deg)", None)
    if reading.missing:
        return None
    ten_feet = default_si("wind", "effective_area")
    case = WindCase(standard, height, exposure, speed, ten_feet, enclosure, elevation)
    if building.topographic is None:
        return case
    return replace(case, topographic=building.topographic, is_flat_assumed=False)


def lowest_parapet(reading: Reading, level: Level, *, several: bool = False) -> float:
    """Height [m] of the lowest parapet or wall where one runs all round a level, else 0; its keys noted in `reading`.

    several: the roof has other levels.  Heights are read only where they count: an edge without a parapet, or a
    courtyard without one round it, settles the question.
    Source: ASCE 7-16 figure 30.3-2A, note on parapets [from memory]
    Checked: tests/published/wind.csv parapet-*
    """
    outer = []
    for index, area in level.members:
        for edge in area.edges:
            kind = reading.take(f"{edge.entry(index)}.kind", edge.kind)
            if is_outer(area, kind, edge.meets, level, several=several):
                outer.append((edge, edge.entry(index)))
    if level.yards or any(edge.kind not in ("parapet", "wall") for edge, _ in outer):
        return 0.0
    heights = [reading.take(f"{key}.height", edge.height) for edge, key in outer]
    return min((height for height in heights if height is not None), default=0.0)


def with_edition(source: str, building: Building) -> str:
    """The source of a check with the edition that the job names.

    Source: arithmetic
    """
    return source if building.standard not in STANDARDS else source.replace(EDITION, building.standard or "")


def lead_step(building: Building) -> Step:
    """What the speed is, and what the pressures leave out.

    Source: arithmetic
    """
    tornado = " Tornado loads, which 7-22 asks of categories 3 and 4, are not reckoned." * (
        building.standard == "ASCE 7-22"
    )
    return Step(
        text=f"Wind speed as read off the map of {building.standard} for risk category {building.risk_category}; the "
        f"category enters nowhere else.{tornado}",
        result=building.wind_speed_m_s,
        unit="m/s",
    )


def _known(value: T | None, choices: tuple[T, ...]) -> T | None:
    return value if value in choices else None
