"""Will it stay on: the uplift class that each zone of the roof asks for, against the assembly's listed one (Q3)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import TypeVar

from lapwright.assembly.values import Assembly
from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step
from lapwright.wind.classes import HAIR, class_pa
from lapwright.wind.coefficients import ZONES
from lapwright.wind.pressure import has_relief, roof_pressures
from lapwright.wind.values import ENCLOSURES, EXPOSURES, RISK_CATEGORIES, STANDARDS, Building, Pressures, WindCase
from lapwright.wind.zones import LEAST_ZONE_M2, outlines_m, zone_areas_m2

T = TypeVar("T")
PLACES: Mapping[str, str] = {
    "1'": "the middle of the roof",
    "1": "the band inside the edge band",
    "2": "the band along the edges",
    "3": "the outside corners",
}
INNER_KINDS = ("ridge", "valley", "step", "expansion")
SOURCE = (
    "ASCE 7, edition as named in the job file: coefficients and least pressure from memory, velocity pressure "
    "reproduces 2018 IRC Table R301.2(2); class = twice the working-level pressure in steps of 15 psf [from memory]"
)
CONFIRM = "the engineer of record; the maker for the listed value and the fastening that goes with it"
CASE_KEYS = (
    "building.height",
    "building.exposure",
    "building.wind_speed",
    "building.risk_category",
    "building.enclosure",
    "building.standard",
    "site.elevation",
)
USES: Mapping[str, tuple[str, ...]] = {
    "wind.uplift-*": (*CASE_KEYS, "assembly.rated_uplift"),
    # Heights count only where parapets or walls run all round: Check.uses says whether they did.
    "wind.uplift-3": (*CASE_KEYS, "assembly.rated_uplift", "roof[*].edges[*].kind", "roof[*].edges[*].height"),
}


def check_uplift(areas: Sequence[Area], building: Building, assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each zone that the roof has: listed uplift against the class asked for [Pa].

    Holds for: one mean roof height, slopes to 7°, flat ground, no tornado loads.  While the zones can't be drawn for
        want of an input, every zone that the standard knows is unknown.
    Source: ASCE 7-16 figure 30.3-2A [from memory]; insurer's uplift classes [from memory]
    Checked: tests/published/wind.csv class-*, zones-*
    """
    reading = Reading()
    case = read_case(reading, building, areas)
    if case is None:
        zones = ZONES["old" if building.standard == "ASCE 7-10" else "low"]
        found: Mapping[str, float] = dict.fromkeys(zones, math.inf)
    else:
        found = zone_areas_m2(outlines_m(areas), height=case.height, standard=case.standard)
    lead = _lead_step(building)
    return tuple(
        replace(check, steps=(lead, *check.steps)) if check.status != "unknown" else check
        for zone, area in found.items()
        if area > LEAST_ZONE_M2
        for check in [_zone_check(zone, area, areas=areas, case=case, reading=_copy(reading), assembly=assembly)]
    )


def read_case(reading: Reading, building: Building, areas: Sequence[Area]) -> WindCase | None:
    """The wind case of a building, its keys noted in `reading`; None where one is missing or not one that we hold.

    Source: arithmetic
    """
    height = reading.take("building.height", building.height)
    exposure = reading.take("building.exposure", _known(building.exposure, EXPOSURES))
    speed = reading.take("building.wind_speed", building.wind_speed_m_s)
    reading.take("building.risk_category", _known(building.risk_category, RISK_CATEGORIES))
    enclosure = reading.take("building.enclosure", _known(building.enclosure, ENCLOSURES))
    standard = reading.take("building.standard", _known(building.standard, STANDARDS))
    elevation = 0.0
    if building.standard != "ASCE 7-10":
        elevation = reading.take("site.elevation", building.elevation)
    steepest = math.tan(math.radians(table("wind")["steepest_slope"].number()))
    for index, area in enumerate(areas):
        if area.slope > steepest:
            reading.take(f"{area.entry(index)}.slope (at most 7 deg)", None)
    if reading.missing:
        return None
    ten_feet = default_si("wind", "effective_area")
    return WindCase(standard, height, exposure, speed, ten_feet, enclosure, elevation)


def lowest_parapet(reading: Reading, areas: Sequence[Area]) -> float:
    """Height [m] of the lowest parapet or wall where one runs all round, else 0; its keys noted in `reading`.

    Heights are read only where they count: an edge without a parapet settles the question.
    Source: ASCE 7-16 figure 30.3-2A, note on parapets [from memory]
    Checked: tests/published/wind.csv parapet-*
    """
    outer = [
        (edge, edge.entry(index))
        for index, area in enumerate(areas)
        for edge in area.edges
        if reading.take(f"{edge.entry(index)}.kind", edge.kind) not in INNER_KINDS
    ]
    if any(edge.kind not in ("parapet", "wall") for edge, _ in outer):
        return 0.0
    heights = [reading.take(f"{key}.height", edge.height) for edge, key in outer]
    return min((height for height in heights if height is not None), default=0.0)


def _zone_check(
    zone: str, area: float, *, areas: Sequence[Area], case: WindCase | None, reading: Reading, assembly: Assembly | None
) -> Check:
    id, title = f"wind.uplift-{zone}", f"Wind uplift, zone {zone} ({PLACES[zone]})"
    parapet = lowest_parapet(reading, areas) if zone == "3" else 0.0
    rated = _rated(reading, zone, assembly)
    if case is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE)
    pressures = roof_pressures(replace(case, parapet=parapet))
    class_psf = pressures.zones[zone].class_psf
    assert class_psf is not None  # only the positive zone has none
    demand = class_pa(class_psf)
    return Check(
        id=id,
        title=title,
        status="pass" if rated >= demand * (1 - HAIR) else "fail",
        demand=demand,
        capacity=rated,
        unit="Pa",
        steps=(*_steps(zone, area, areas, pressures, parapet), _class_step(pressures.zones[zone].asd_pa, demand)),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _rated(reading: Reading, zone: str, assembly: Assembly | None) -> float:
    values = assembly.rated_uplift_pa if assembly is not None else {}
    by_zone = bool(values) and "all" not in values
    key = f"assembly.rated_uplift.{zone}" if by_zone else "assembly.rated_uplift"
    return reading.take(key, values.get(zone, values.get("all")))


def _steps(zone: str, area: float, areas: Sequence[Area], pressures: Pressures, parapet: float) -> tuple[Step, ...]:
    drawn = Step(
        text=f"Zone {zone} on this outline: {PLACES[zone]}",
        formula="bands along the edges and legs at outside corners, by the mean roof height",
        values={"areas": ", ".join(part.name for part in areas)},
        result=area,
        unit="m2",
    )
    relief: tuple[Step, ...] = ()
    if zone == "3":
        told = "at least 3 ft: zone 3 as zone 2" if has_relief(parapet) else "under 3 ft or not all round: no relief"
        relief = (Step(text=f"Lowest parapet all round, {told} [from memory]", result=parapet, unit="m"),)
    return (drawn, *pressures.steps, *relief, *pressures.zone_steps[zone])


def _lead_step(building: Building) -> Step:
    return Step(
        text=f"Wind speed as read off the map of {building.standard} for risk category {building.risk_category}; the "
        "category enters nowhere else",
        result=building.wind_speed_m_s,
        unit="m/s",
    )


def _class_step(asd_pa: float, demand: float) -> Step:
    return Step(
        text="Uplift class asked for: twice the working-level pressure, up to the next 15 psf, 60 psf at least",
        formula="class = 15 psf x ceil(2 |p| / 15 psf)",
        values={"p [Pa]": asd_pa},
        result=demand,
        unit="Pa",
    )


def _known(value: T | None, choices: tuple[T, ...]) -> T | None:
    return value if value in choices else None


def _copy(reading: Reading) -> Reading:
    return Reading(list(reading.uses), list(reading.missing))
