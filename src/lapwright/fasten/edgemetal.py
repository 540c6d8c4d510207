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
from lapwright.wind.edges import EdgePressure, edge_pressures
from lapwright.wind.uplift import CASE_KEYS, read_case
from lapwright.wind.values import Building, WindCase

SOURCE = (
    "least thickness by exposed face [from memory, low confidence]; pressures ASCE 7, wall zones 4 and 5, roof zones 2 "
    "and 3 [from memory]; resistance only by a test of the edge (ANSI/SPRI ES-1, IBC 1504)"
)
CONFIRM = "the engineer of record for the loads; the maker for the tested edge and its fastening"
USES: Mapping[str, tuple[str, ...]] = {
    "metal.gauge-*": (
        "roof[*].edges[*].kind",
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
    Holds for: metal at the roof's level with a face to 16 in; a coping on a parapet is not judged.
    Source: edge-metal tables by exposed face [from memory, low confidence]
    Checked: tests/published/fasten.csv gauge-*
    """
    return tuple(
        _side_check(area, edge, index=index, areas=areas, building=building)
        for index, area in enumerate(areas)
        for edge in area.edges
        if edge.kind in (None, "metal_edge")
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
        return reading.unknown(id, title, source=SOURCE)
    key = f"{edge.entry(index)}.metal"
    metal = edge.metal or Metal()
    kind = reading.take(f"{key}.kind", metal.kind if metal.kind in METALS else None)
    gauge = reading.take(f"{key}.gauge", metal.gauge)
    face = reading.take(f"{key}.face", metal.face)
    flange = reading.take(f"{key}.flange", metal.flange)
    case = read_case(reading, building, areas)
    if case is None or reading.missing:
        return reading.unknown(id, title, source=SOURCE)
    least = least_gauge(kind, face)
    if least is None:
        reading.take(f"{key}.face", None)
        return reading.unknown(id, title, source=SOURCE, why="The face is wider than the table goes: ask the maker")
    return Check(
        id=id,
        title=title,
        status="pass" if is_thick_enough(kind, gauge, least) else "fail",
        demand=least,
        capacity=gauge,
        unit="oz/sf" if METALS[kind] == "copper" else "gauge",
        steps=(
            _gauge_step(kind, face, least, gauge),
            *_load_steps(case, face=face, flange=flange),
            _nail_step(_length_m(edge)),
            *gap_steps(kind),
        ),
        source=SOURCE,
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


def _load_steps(case: WindCase, *, face: float, flange: float) -> tuple[Step, ...]:
    told = Step(
        text="The edge must be tested (RE-2 outward, RE-3 upward) to at least these loads; the factor on them is the "
        "specification's word, none is assumed here. Corner lengths differ: up 0.6 h, out the wall's own zone 5"
    )
    widths = {"face": face, "flange": flange}
    return (told, *(_load_step(pressure, widths[pressure.acts_on]) for pressure in edge_pressures(case)))


def _load_step(pressure: EdgePressure, width: float) -> Step:
    way, surface = ("Outward on the face", "wall") if pressure.acts_on == "face" else ("Upward on the flange", "roof")
    return Step(
        text=f"{way}, {surface} zone {pressure.zone}, working level (ASD), indoor air behind the metal",
        formula="load = |p| x width",
        values={
            "p [Pa]": pressure.asd_pa,
            "p with outside air behind [Pa]": pressure.external_pa,
            "width [m]": width,
            "load with outside air behind [N/m]": abs(pressure.external_pa) * width,
        },
        result=abs(pressure.asd_pa) * width,
        unit="N/m",
    )


def _nail_step(length: float) -> Step:
    row = table("fasten")["metal_nail_spacing"]
    spacing = default_si("fasten", "metal_nail_spacing")
    return Step(
        text=f"Nails of the flange in two staggered rows; a tested edge's own schedule governs [{row.origin}]",
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


def _length_m(edge: Edge) -> float:
    return math.dist(edge.start, edge.end) / TICKS_PER_METRE
