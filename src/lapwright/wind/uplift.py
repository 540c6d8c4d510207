"""Will it stay on: the uplift class that each zone of the roof asks for, against the assembly's listed one (Q3)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from shapely.geometry.base import BaseGeometry

from lapwright.assembly.values import Assembly
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step
from lapwright.wind.case import CASE_KEYS, EDITION, lead_step, lowest_parapet, read_case, with_edition
from lapwright.wind.classes import HAIR, class_pa, required_class_psf
from lapwright.wind.coefficients import ZONES
from lapwright.wind.levels import Level, levels
from lapwright.wind.pressure import has_relief, roof_pressures
from lapwright.wind.values import Building, Pressures, WindCase
from lapwright.wind.zonemap import assumed_steps
from lapwright.wind.zones import LEAST_ZONE_M2, zone_shapes

PLACES: Mapping[str, str] = {
    "1'": "the middle of the roof",
    "1": "the band inside the edge band",
    "2": "the band along the edges",
    "3": "the outside corners",
}
SOURCE = (
    f"{EDITION}: coefficients and least pressure from memory, velocity pressure reproduces 2018 IRC Table R301.2(2); "
    "class = twice the working-level pressure in steps of 15 psf [from memory]"
)
CONFIRM = "the engineer of record; the maker for the listed value and the fastening that goes with it"
RATED = ("assembly.rated_uplift", "assembly.rated_uplift.*")
USES: Mapping[str, tuple[str, ...]] = {
    "wind.uplift-*": (*CASE_KEYS, *RATED),
    # Heights count only where parapets or walls run all round: Check.uses says whether they did.
    "wind.uplift-3*": (*CASE_KEYS, *RATED, "roof[*].edges[*].kind", "roof[*].edges[*].height"),
}


@dataclass(frozen=True, slots=True)
class _Judged:
    """What the zones of one level are judged by."""

    level: Level
    case: WindCase | None
    building: Building
    assembly: Assembly | None
    several: bool
    assumed: tuple[Step, ...] = ()


def check_uplift(areas: Sequence[Area], building: Building, assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each zone of each level of the roof: listed uplift against the class asked for [Pa].

    Holds for: slopes to 7°, no tornado loads, flat ground unless Kzt is given.  While the zones can't be drawn for want
        of an input, every zone that the standard knows is unknown.
    Source: ASCE 7-16 figure 30.3-2A [from memory]; insurer's uplift classes [from memory]
    Checked: tests/published/wind.csv class-*, zones-*
    """
    found = levels(areas, building)
    return tuple(check for level in found for check in _level_checks(level, building, assembly, several=len(found) > 1))


def _level_checks(level: Level, building: Building, assembly: Assembly | None, *, several: bool) -> list[Check]:
    reading = Reading()
    case = read_case(reading, building, level)
    judged = _Judged(level, case, building, assembly, several)
    if case is None:
        zones = ZONES["old" if building.standard == "ASCE 7-10" else "low"]
        found: Mapping[str, float] = dict.fromkeys(zones, math.inf)
    else:
        shapes: Mapping[str, BaseGeometry] = zone_shapes(
            level.outlines, height=case.height, standard=case.standard, yards=level.yards
        )
        found = {zone: float(shape.area) for zone, shape in shapes.items()}
        judged = replace(judged, assumed=assumed_steps(level, shapes, standard=case.standard, several=several))
    return [_zone_check(zone, area, judged, _copy(reading)) for zone, area in found.items() if area > LEAST_ZONE_M2]


def _zone_check(zone: str, area: float, judged: _Judged, reading: Reading) -> Check:
    level, case = judged.level, judged.case
    id = f"wind.uplift-{zone}{level.tag}"
    at = f" of {level.names}" if level.tag else ""
    title = f"Wind uplift{at}, zone {zone} ({PLACES[zone]})"
    parapet = lowest_parapet(reading, level, several=judged.several) if zone == "3" else 0.0
    rated = _rated(reading, zone, judged.assembly)
    if judged.building.enclosure == "open":
        why = "An open building takes another figure of the standard, with pressure on both faces: not reckoned here"
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM, why=why)
    if case is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
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
        steps=(
            lead_step(judged.building),
            *_steps(zone, area, level, pressures, parapet),
            _class_step(pressures.zones[zone].asd_pa, demand),
            *judged.assumed,
        ),
        source=with_edition(SOURCE, judged.building),
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _rated(reading: Reading, zone: str, assembly: Assembly | None) -> float:
    values = assembly.rated_uplift_pa if assembly is not None else {}
    by_zone = bool(values) and "all" not in values
    key = f"assembly.rated_uplift.{zone}" if by_zone else "assembly.rated_uplift"
    return reading.take(key, values.get(zone, values.get("all")))


def _steps(zone: str, area: float, level: Level, pressures: Pressures, parapet: float) -> tuple[Step, ...]:
    drawn = Step(
        text=f"Zone {zone} on this outline: {PLACES[zone]}",
        formula="bands along the edges and legs at outside corners, by the mean roof height",
        values={"areas": level.names, "h [m]": level.height},
        result=area,
        unit="m2",
    )
    relief: tuple[Step, ...] = ()
    if zone == "3":
        told = (
            "at least 3 ft: zone 3 as zone 2"
            if has_relief(parapet)
            else "under 3 ft, or 0 where not all round: no relief"
        )
        relief = (Step(text=f"Lowest parapet all round, {told} [from memory]", result=parapet, unit="m"),)
    return (drawn, *pressures.steps, *relief, *pressures.zone_steps[zone])


def _class_step(asd_pa: float, demand: float) -> Step:
    return Step(
        text=f"Uplift class asked for, class {required_class_psf(asd_pa)}: twice the working-level pressure, up to the "
        "next 15 psf, 60 psf at least",
        formula="class = 15 psf x ceil(2 |p| / 15 psf)",
        values={"p [Pa]": asd_pa},
        result=demand,
        unit="Pa",
    )


def _copy(reading: Reading) -> Reading:
    return Reading(list(reading.uses), list(reading.missing))
