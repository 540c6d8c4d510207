"""A base sheet that is nailed: the load on its worst nail, zone by zone, against what one nail is allowed (Q3).

A self-adhered sheet has no nails and no check here.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Assembly, Nailing, Ply
from lapwright.defaults.table import table
from lapwright.fasten.nails import NailPattern, nail_pattern, widest_spacing
from lapwright.roof.values import Area
from lapwright.units.anything import si_scale
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Check, Reading, Step, judged
from lapwright.wind.case import CASE_KEYS, EDITION, lowest_parapet, read_case, with_edition
from lapwright.wind.coefficients import ZONES
from lapwright.wind.levels import Level, levels
from lapwright.wind.values import Building, ZonePressure
from lapwright.wind.zonemap import level_pressures
from lapwright.wind.zones import LEAST_ZONE_M2, zone_areas_m2

SOURCE = (
    f"tributary area of the worst fastener; working-level pressures of {EDITION} [coefficients from memory]; the value "
    "of one fastener only from the assembly's test report or a pull test on the deck"
)
CONFIRM = "the maker for pattern and value of the listed assembly; the engineer of record"
NAILING_KEYS = (
    "assembly.plies[*].attachment",
    "assembly.plies[*].nailing.laps",
    "assembly.plies[*].nailing.field",
    "assembly.plies[*].nailing.rows",
    "assembly.plies[*].nailing.zones.*",
    "assembly.plies[*].nailing.value",
    "assembly.deck.nailable",
    *CASE_KEYS,
)
USES: Mapping[str, tuple[str, ...]] = {
    "fasten.nails-*": NAILING_KEYS,
    "fasten.nails-*-3*": (*NAILING_KEYS, "roof[*].edges[*].kind", "roof[*].edges[*].height"),
}


@dataclass(frozen=True, slots=True)
class _Place:
    """Where a pattern holds: ply, zone and level, and what judges it."""

    ply: Ply
    index: int
    zone: str
    level: Level
    building: Building
    assembly: Assembly | None
    several: bool
    zone_m2: float


def check_base_nails(areas: Sequence[Area], building: Building, assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each zone of each ply that is mechanically fastened; none where every ply is self-adhered.

    Holds for: rows parallel to the laps, evenly spread; a zone without a pattern of its own has the ply's.
    Source: arithmetic: pressure times the worst tributary area
    Checked: tests/published/fasten.csv pattern-*
    """
    plies = assembly.plies if assembly is not None else ()
    found = levels(areas, building)
    return tuple(
        _zone_check(_Place(ply, index, zone, level, building, assembly, len(found) > 1, m2))
        for index, ply in enumerate(plies)
        if ply.attachment == "mechanically_fastened" or (ply.attachment is None and ply.nailing is not None)
        for level in found
        for zone, m2 in zones_of(level, building).items()
    )


def zones_of(level: Level, building: Building) -> Mapping[str, float]:
    """The zones that a level has with their areas [m²]; every zone of the figure while they can't be drawn.

    Source: ASCE 7-16 figure 30.3-2A [from memory]
    Checked: tests/published/wind.csv zones-*
    """
    case = read_case(Reading(), building, level)
    if case is None:
        return dict.fromkeys(ZONES["old" if building.standard == "ASCE 7-10" else "low"], math.nan)
    found = zone_areas_m2(level.outlines, height=case.height, standard=case.standard, yards=level.yards)
    return {zone: area for zone, area in found.items() if area > LEAST_ZONE_M2}


def zone_nailing(nailing: Nailing, zone: str) -> Nailing:
    """The pattern that holds in a zone: the zone's own where there is one, else the ply's.

    Source: arithmetic
    """
    own = nailing.zones.get(zone)
    if own is None:
        return nailing
    return Nailing(own.lap_spacing, own.field_spacing, own.field_rows, nailing.value_n)


def sheet_pattern(ply: Ply, nailing: Nailing) -> NailPattern | None:
    """The figures of a pattern on a ply's sheet; None where a spacing is not given.

    Source: arithmetic: tributary areas of evenly spaced rows
    Checked: tests/published/fasten.csv pattern-*
    """
    if nailing.lap_spacing is None or nailing.field_rows is None:
        return None
    if nailing.field_spacing is None and nailing.field_rows > 0:
        return None
    return nail_pattern(
        lap_spacing=nailing.lap_spacing,
        field_spacing=nailing.field_spacing or nailing.lap_spacing,
        field_rows=nailing.field_rows,
        width=ply.sheet.width_ticks / TICKS_PER_METRE,
        side_lap=ply.sheet.side_lap_ticks / TICKS_PER_METRE,
    )


def _zone_check(place: _Place) -> Check:
    ply, zone, level = place.ply, place.zone, place.level
    id = f"fasten.nails-{ply.ply}-{zone}{level.tag}"
    at = f" of {level.names}" if level.tag else ""
    title = f"Nails of the {ply.ply} sheet{at}, zone {zone}: load on the worst one"
    reading = Reading()
    key, given = f"assembly.plies[{place.index}].nailing", ply.nailing or Nailing()
    nailing = zone_nailing(given, zone)
    where = f"{key}.zones.{zone}" if zone in given.zones else key
    reading.take(f"assembly.plies[{place.index}].attachment", ply.attachment)
    reading.take(f"{where}.laps", nailing.lap_spacing)
    rows = reading.take(f"{where}.rows", nailing.field_rows)
    if rows != 0:
        reading.take(f"{where}.field", nailing.field_spacing)
    value_n = reading.take(f"{key}.value", nailing.value_n)
    deck = place.assembly.deck if place.assembly is not None else None
    nailable = reading.take("assembly.deck.nailable", deck.nailable if deck is not None else None)
    read_case(reading, place.building, level)
    if zone == "3":
        lowest_parapet(reading, level, several=place.several)
    pattern = sheet_pattern(ply, nailing)
    pressures = level_pressures(level, place.building, several=place.several)
    if pattern is None or pressures is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    pressure = pressures.zones[zone]
    demand = abs(pressure.asd_pa) * pattern.worst_m2
    return Check(
        id=id,
        title=title,
        status=judged(demand, value_n) if nailable else "fail",
        demand=demand,
        capacity=value_n,
        unit="N",
        steps=(
            _deck_step(nailable),
            *_pattern_steps(pattern, zone, place.zone_m2, is_own=zone in given.zones),
            *_load_steps(pressure, pattern, demand),
            *_spacing_steps(ply, pressure, pattern, value_n),
        ),
        source=with_edition(SOURCE, place.building),
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _deck_step(nailable: bool) -> Step:
    told = "The deck takes nails" if nailable else "The deck takes no nails: a nailed sheet can't go on it"
    return Step(text=told, values={"nailable": nailable})


def _pattern_steps(pattern: NailPattern, zone: str, zone_m2: float, *, is_own: bool) -> tuple[Step, ...]:
    density = Step(
        text=f"How many nails to an area in zone {zone}, by "
        + ("the pattern given for this zone" if is_own else "the ply's pattern, none is given for this zone")
        + ": one row at the laps and the rows between them",
        formula="(1 / laps + rows / field) / exposed width",
        values={"exposed width [m]": pattern.exposure, "row spacing [m]": pattern.row_spacing, "zone [m2]": zone_m2},
        result=pattern.per_m2,
        unit="1/m2",
    )
    worst = Step(
        text="Roof held by the worst nail, not the average one",
        formula="larger of laps x row spacing and field x row spacing",
        values={
            "lap nail [m2]": pattern.lap_nail_m2,
            "field nail [m2]": pattern.field_nail_m2,
            "average [m2]": pattern.average_m2,
        },
        result=pattern.worst_m2,
        unit="m2",
    )
    return density, worst


def _load_steps(pressure: ZonePressure, pattern: NailPattern, demand: float) -> tuple[Step, ...]:
    return (
        Step(
            text=f"Load on the worst nail in zone {pressure.zone}, working level (ASD)",
            formula="|p| x roof held by it",
            values={
                "p [Pa]": pressure.asd_pa,
                "roof held [m2]": pattern.worst_m2,
                "on the average nail, which hides the worst [N]": abs(pressure.asd_pa) * pattern.average_m2,
            },
            result=demand,
            unit="N",
        ),
    )


def _spacing_steps(ply: Ply, pressure: ZonePressure, pattern: NailPattern, value_n: float) -> tuple[Step, ...]:
    """The widest spacing that these rows allow here, and the least dense of the usual patterns that holds."""
    widest = Step(
        text="Widest spacing along a row at which one nail's allowable load holds, rows as they are",
        formula="value / (|p| x row spacing)",
        values={"value [N]": value_n, "p [Pa]": pressure.asd_pa, "row spacing [m]": pattern.row_spacing},
        result=widest_spacing(value_n, pressure_pa=abs(pressure.asd_pa), row_spacing=pattern.row_spacing),
        unit="m",
    )
    inch, _ = si_scale("in")
    row = table("fasten")["usual_patterns"]
    for words in row.value.split(", "):
        laps, rest = words.split("/")
        field, rows = rest.split("x")
        tried = sheet_pattern(ply, Nailing(float(laps) * inch, float(field) * inch, int(rows), value_n))
        if tried is not None and abs(pressure.asd_pa) * tried.worst_m2 <= value_n:
            told = f"Least dense of the usual patterns that holds here: {words} in, laps / rows x rows [{row.origin}]"
            return widest, Step(text=told, result=tried.per_m2, unit="1/m2")
    return widest, Step(text=f"None of the usual patterns holds here: {row.value} in [{row.origin}]")
