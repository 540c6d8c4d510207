"""Edge metal: thick enough for its face, what the wind does to it, how it is nailed and how it moves (Q3)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.defaults.si import default_number, default_si
from lapwright.defaults.table import table
from lapwright.fasten.nails import metal_nails
from lapwright.fasten.thermal import METALS, gap_steps
from lapwright.roof.values import Area, Edge, Metal
from lapwright.units.anything import si_scale
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Check, Reading, Step
from lapwright.wind.case import CASE_KEYS, EDITION, read_case, with_edition
from lapwright.wind.edges import EdgePressure, EdgeStretches, edge_pressures, edge_stretches, parapet_pressures
from lapwright.wind.levels import levels
from lapwright.wind.values import Building, WindCase

SOURCE = (
    f"least thickness by exposed face [from memory, low confidence]; pressures {EDITION}, wall zones 4 and 5, roof "
    "zones 2 and 3 [from memory]; resistance only by a test of the edge (ANSI/SPRI ES-1, IBC 1504)"
)
CONFIRM = "the engineer of record for the loads; the maker for the tested edge and its fastening"
USES: Mapping[str, tuple[str, ...]] = {
    "metal.gauge-*": (
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
        "roof[*].edges[*].metal.kind",
        "roof[*].edges[*].metal.gauge",
        "roof[*].edges[*].metal.face",
        "roof[*].edges[*].metal.flange",
        *CASE_KEYS,
    ),
}
HAIR = 1e-9


def check_edge_metal(areas: Sequence[Area], building: Building) -> tuple[Check, ...]:
    """One check for each side with a metal edge: its gauge, with the loads that its test must show beside it.

    A side of no known kind is unknown.
    Holds for: faces to 16 in; the coping of a parapet takes the pressure at its top.
    Source: edge-metal tables by exposed face [from memory, low confidence]
    Checked: tests/published/fasten.csv gauge-*
    """
    return tuple(
        _side_check(area, edge, index=index, areas=areas, building=building)
        for index, area in enumerate(areas)
        for edge in area.edges
        if edge.kind in (None, "metal_edge") or (edge.kind == "parapet" and edge.metal is not None)
    )


def least_gauge(kind: str, face: float) -> int | None:
    """The thinnest metal for an exposed face [m]: a gauge number (copper: ounces to the square foot).

    None where the face is wider than the table.
    Source: edge-metal tables by exposed face [from memory, low confidence]
    Checked: tests/published/fasten.csv gauge-*
    """
    row = table("fasten")[f"least_gauge.{METALS[kind]}"]
    inch, _ = si_scale(row.unit.rpartition(" to ")[2])
    for part in row.value.split(", "):
        number, _, widest = part.partition(" to ")
        if face <= float(widest) * inch + HAIR:
            return int(number)
    return None


def is_thick_enough(kind: str, gauge: int, least: int) -> bool:
    """A gauge number is thicker the smaller it is; copper's weight the heavier it is.

    Source: definition of the gauge numbers
    """
    return gauge >= least if METALS[kind] == "copper" else gauge <= least


def _side_check(area: Area, edge: Edge, *, index: int, areas: Sequence[Area], building: Building) -> Check:
    id = f"metal.gauge-{area.name}-{edge.side}"
    title = f"Edge metal of {area.name}, side {edge.side}: thickness for its face, loads for its test"
    reading = Reading()
    reading.take(f"{edge.entry(index)}.kind", edge.kind)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    key = f"{edge.entry(index)}.metal"
    metal = edge.metal or Metal()
    kind = reading.take(f"{key}.kind", metal.kind if metal.kind in METALS else None)
    gauge = reading.take(f"{key}.gauge", metal.gauge)
    face = reading.take(f"{key}.face", metal.face)
    flange = reading.take(f"{key}.flange", metal.flange)
    up = reading.take(f"{edge.entry(index)}.height", edge.height) if edge.kind == "parapet" else None
    found = levels(areas, building)
    level = next(each for each in found if area.name in {one.name for one in each.areas})
    case = read_case(reading, building, level)
    if case is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    least = least_gauge(kind, face)
    if least is None:
        reading.take(f"{key}.face", None)
        return reading.unknown(
            id, title, source=SOURCE, confirm=CONFIRM, why="The face is wider than the table goes: ask the maker"
        )
    return Check(
        id=id,
        title=title,
        status="pass" if is_thick_enough(kind, gauge, least) else "fail",
        demand=least,
        capacity=gauge,
        unit="oz/sf" if METALS[kind] == "copper" else "gauge",
        steps=(
            _gauge_step(kind, face, least, gauge),
            *_load_steps(case, up, face=face, flange=flange),
            _corner_step(edge_stretches(edge, level, standard=case.standard), case),
            _nail_step(_length_m(edge), metal),
            _cleat_step(_length_m(edge), metal),
            *gap_steps(kind),
        ),
        source=with_edition(SOURCE, building),
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _gauge_step(kind: str, face: float, least: int, gauge: int) -> Step:
    row = table("fasten")[f"least_gauge.{METALS[kind]}"]
    said = "ounces to the square foot, more is thicker" if METALS[kind] == "copper" else "a smaller number is thicker"
    return Step(
        text=f"Least thickness of {METALS[kind]} for the exposed face; {said} [{row.origin}; {row.note}]",
        formula=row.value + " in",
        values={"face [m]": face, "given": gauge},
        result=float(least),
        unit="",
    )


def _load_steps(case: WindCase, up: float | None, *, face: float, flange: float) -> tuple[Step, ...]:
    top = None if up is None else case.height + up
    told = Step(
        text="The edge must be tested (RE-2 outward, RE-3 upward) to at least these loads; the factor on them is the "
        "specification's word, none is assumed here"
    )
    widths = {"face": face, "flange": flange}
    loads = (_load_step(pressure, widths[pressure.acts_on]) for pressure in edge_pressures(case, top))
    return (told, *loads, *(_parapet_steps(case, top) if top is not None else ()))


def _parapet_steps(case: WindCase, top: float) -> tuple[Step, ...]:
    """What the parapet itself takes: for the engineer, no verdict here."""
    return tuple(
        Step(
            text=f"Pressure on the parapet itself, {each.zone}, working level (ASD), pushed in and pulled out; for the "
            "engineer [from memory]",
            formula="0.6 qp (wall in front + roof edge behind); 0.6 qp (wall behind + wall in front)",
            values={"top [m]": top, "qp [Pa]": each.qp_pa, "pushed in [Pa]": each.case_a_pa},
            result=each.case_b_pa,
            unit="Pa",
        )
        for each in parapet_pressures(case, top)
    )


def _load_step(pressure: EdgePressure, width: float) -> Step:
    way, surface = ("Outward on the face", "wall") if pressure.acts_on == "face" else ("Upward on the flange", "roof")
    return Step(
        text=f"{way}, {surface} zone {pressure.zone}, working level (ASD), indoor air behind the metal",
        formula="load = |p| x width",
        values={
            "p [Pa]": pressure.asd_pa,
            "width [m]": width,
            "p with outside air [Pa]": pressure.external_pa,
            "load with outside air [N/m]": abs(pressure.external_pa) * width,
        },
        result=abs(pressure.asd_pa) * width,
        unit="N/m",
    )


def _corner_step(stretches: EdgeStretches, case: WindCase) -> Step:
    return Step(
        text="How much of this side lies in roof zone 3 (upward) and in wall zone 5 (outward), both at outside corners "
        "only: they differ in length [from memory]",
        formula="roof: legs of 0.6 h to 60 ft; wall: the smaller of a tenth of the width and 0.4 h, from each corner",
        values={
            "h [m]": case.height,
            "in wall zone 5 [m]": stretches.wall_corner,
            "reach of wall zone 5 [m]": stretches.wall_reach,
        },
        result=stretches.roof_corner,
        unit="m",
    )


def _nail_step(length: float, metal: Metal) -> Step:
    row, guide = table("fasten")["metal_nail_spacing"], table("fasten")["metal_nail_guide"]
    given = metal.nail_spacing
    spacing = default_si("fasten", "metal_nail_spacing") if given is None else given
    said = f"none given, so the usual one [{row.origin}]" if given is None else "as given"
    return Step(
        text=f"Nails of the flange in two staggered rows, spacing {said}; a tested edge's own schedule governs, and a "
        f"guide specification has {guide.text} at most [{guide.origin}]",
        formula="2 x (ceil(length / spacing) + 1)",
        values={
            "length [m]": length,
            "spacing in a row [m]": spacing,
            "offset of the rows [m]": default_si("fasten", "metal_nail_offset"),
            "rows": default_number("fasten", "metal_nail_rows"),
        },
        result=float(metal_nails(length, spacing)),
        unit="nails",
    )


def _cleat_step(length: float, metal: Metal) -> Step:
    row = table("fasten")["cleat_nail_spacing"]
    given = metal.cleat_spacing
    spacing = default_si("fasten", "cleat_nail_spacing") if given is None else given
    said = f"none given, so at most the usual one [{row.origin}]" if given is None else "as given"
    return Step(
        text=f"Nails of the continuous cleat, one row, spacing {said}; the cleat of the face's gauge or heavier",
        formula="ceil(length / spacing) + 1",
        values={"length [m]": length, "spacing [m]": spacing},
        result=float(math.ceil(length / spacing - HAIR) + 1),
        unit="nails",
    )


def _length_m(edge: Edge) -> float:
    return math.dist(edge.start, edge.end) / TICKS_PER_METRE
