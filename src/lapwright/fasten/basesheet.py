"""A base sheet that is nailed: the load on its worst nail in the worst zone, against what one nail is allowed (Q3).

A self-adhered sheet has no nails and no check here.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from lapwright.assembly.values import Assembly, Nailing, Ply
from lapwright.fasten.nails import NailPattern, nail_pattern
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Check, Reading, Step, judged
from lapwright.wind.pressure import roof_pressures
from lapwright.wind.uplift import CASE_KEYS, read_case
from lapwright.wind.values import Building, WindCase
from lapwright.wind.zones import LEAST_ZONE_M2, outlines_m, zone_areas_m2

SOURCE = (
    "tributary area of the worst fastener; working-level pressures of ASCE 7 [coefficients from memory]; the value of "
    "one fastener only from the assembly's test report or a pull test on the deck"
)
CONFIRM = "the maker for pattern and value of the listed assembly; the engineer of record"
USES: Mapping[str, tuple[str, ...]] = {
    "fasten.nails-*": (
        "assembly.plies[*].nailing.laps",
        "assembly.plies[*].nailing.field",
        "assembly.plies[*].nailing.rows",
        "assembly.plies[*].nailing.value",
        "assembly.deck.nailable",
        *CASE_KEYS,
    ),
}


def check_base_nails(areas: Sequence[Area], building: Building, assembly: Assembly | None) -> tuple[Check, ...]:
    """One check for each ply that is mechanically fastened; none where every ply is self-adhered.

    Holds for: rows parallel to the laps, evenly spread; the same pattern in every zone.
    Source: arithmetic: pressure times the worst tributary area
    Checked: tests/published/fasten.csv pattern-*
    """
    plies = assembly.plies if assembly is not None else ()
    return tuple(
        _ply_check(ply, index, areas=areas, building=building, assembly=assembly)
        for index, ply in enumerate(plies)
        if ply.attachment == "mechanically_fastened"
    )


def _ply_check(ply: Ply, index: int, *, areas: Sequence[Area], building: Building, assembly: Assembly | None) -> Check:
    id, title = f"fasten.nails-{ply.ply}", f"Nails of the {ply.ply} sheet: load on the worst one"
    reading = Reading()
    key, nailing = f"assembly.plies[{index}].nailing", ply.nailing or Nailing()
    laps = reading.take(f"{key}.laps", nailing.lap_spacing)
    field = reading.take(f"{key}.field", nailing.field_spacing)
    rows = reading.take(f"{key}.rows", nailing.field_rows)
    value_n = reading.take(f"{key}.value", nailing.value_n)
    deck = assembly.deck if assembly is not None else None
    nailable = reading.take("assembly.deck.nailable", deck.nailable if deck is not None else None)
    case = read_case(reading, building, areas)
    if case is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE)
    sheet = ply.sheet
    pattern = nail_pattern(
        lap_spacing=laps,
        field_spacing=field,
        field_rows=rows,
        width=sheet.width_ticks / TICKS_PER_METRE,
        side_lap=sheet.side_lap_ticks / TICKS_PER_METRE,
    )
    loads = _zone_loads(case, areas, pattern)
    demand = max(load for _, load in loads)
    return Check(
        id=id,
        title=title,
        status=judged(demand, value_n) if nailable else "fail",
        demand=demand,
        capacity=value_n,
        unit="N",
        steps=(_deck_step(nailable), *_pattern_steps(pattern), *(step for step, _ in loads)),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _deck_step(nailable: bool) -> Step:
    told = "The deck takes nails" if nailable else "The deck takes no nails: a nailed sheet can't go on it"
    return Step(text=told, values={"nailable": nailable})


def _pattern_steps(pattern: NailPattern) -> tuple[Step, ...]:
    density = Step(
        text="Nails to the square metre, one row at the laps and the rows between them",
        formula="(1 / laps + rows / field) / exposed width",
        values={"exposed width [m]": pattern.exposure, "row spacing [m]": pattern.row_spacing},
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


def _zone_loads(case: WindCase, areas: Sequence[Area], pattern: NailPattern) -> list[tuple[Step, float]]:
    pressures = roof_pressures(case)
    found = zone_areas_m2(outlines_m(areas), height=case.height, standard=case.standard)
    loads = []
    for zone, area in found.items():
        if area <= LEAST_ZONE_M2:
            continue
        asd_pa = pressures.zones[zone].asd_pa
        load = abs(asd_pa) * pattern.worst_m2
        step = Step(
            text=f"Load on the worst nail in zone {zone}, working level (ASD)",
            formula="|p| x roof held by it",
            values={"p [Pa]": asd_pa, "roof held [m2]": pattern.worst_m2},
            result=load,
            unit="N",
        )
        loads.append((step, load))
    return loads
