"""Edge metal against its test: what the test must show, and what it showed (Q3)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from lapwright.fasten.metals import MetalGroup, metal_groups
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step
from lapwright.wind.case import CASE_KEYS, EDITION, lowest_parapet, read_case, with_edition
from lapwright.wind.edges import EdgePressure, edge_pressures
from lapwright.wind.levels import levels
from lapwright.wind.values import Building

SOURCE = (
    f"loads: {EDITION}, wall zones 4 and 5, roof zones 2 and 3 [from memory]; resistance: the edge's own test, "
    "ANSI/SPRI ES-1 RE-2 and RE-3, which IBC 1504 asks for; the factor is the specification's"
)
CONFIRM = "the engineer of record for the loads and the factor; the maker for the test report"
USES: Mapping[str, tuple[str, ...]] = {
    "metal.test-*": (
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
        "roof[*].edges[*].metal.face",
        "roof[*].edges[*].metal.flange",
        "roof[*].edges[*].metal.test_factor",
        "roof[*].edges[*].metal.tested_outward",
        "roof[*].edges[*].metal.tested_upward",
        *CASE_KEYS,
    ),
}
HAIR = 1e-9


def check_edge_tests(areas: Sequence[Area], building: Building) -> tuple[Check, ...]:
    """One check for each row of edges with metal: its test reached the factor times the load in every zone it lies in.

    The worse of outward and upward is the check's demand and capacity [Pa].  Indoor air is taken to be behind the
    metal, the safe side.
    Source: ASCE 7-16 figures 30.3-1 and 30.3-2A [from memory]; the factor is an input
    Checked: tests/published/fasten.csv test-target-*
    """
    return tuple(_check(group, areas, building) for group in metal_groups(areas))


def target_pa(asd_pa: float, factor: float) -> float:
    """What a test must reach [Pa] for a working-level pressure [Pa] and a factor.

    Source: arithmetic
    Checked: tests/published/fasten.csv test-target-*
    """
    return abs(asd_pa) * factor


def _check(group: MetalGroup, areas: Sequence[Area], building: Building) -> Check:
    id, title = f"metal.test-{group.tag}", f"Edge metal of {group.words}: its test against the load"
    reading = Reading()
    group.read_kinds(reading)
    face, flange = group.read(reading, "face", "face"), group.read(reading, "flange", "flange")
    factor = group.read(reading, "test_factor", "test_factor")
    outward = group.read(reading, "tested_outward", "tested_outward_pa")
    upward = group.read(reading, "tested_upward", "tested_upward_pa")
    loads = _worst_loads(group, areas, building, reading)
    if reading.missing or not loads:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    tested = {"face": outward, "flange": upward}
    widths = {"face": face, "flange": flange}
    steps, used = [], []
    for load in loads:
        target = target_pa(load.asd_pa, factor)
        used.append((target, tested[load.acts_on]))
        steps.append(_step(load, factor, target, tested[load.acts_on], widths[load.acts_on]))
    demand, capacity = max(used, key=lambda pair: pair[0] / pair[1])
    return Check(
        id=id,
        title=title,
        status="pass" if all(got >= asked * (1 - HAIR) for asked, got in used) else "fail",
        demand=demand,
        capacity=capacity,
        unit="Pa",
        steps=tuple(steps),
        source=with_edition(SOURCE, building),
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _worst_loads(
    group: MetalGroup, areas: Sequence[Area], building: Building, reading: Reading
) -> tuple[EdgePressure, ...]:
    """The worst pressure in each zone over the levels on which this metal lies."""
    found = levels(areas, building)
    own = {area.name for _, area, _ in group.sides}
    worst: dict[tuple[str, str], EdgePressure] = {}
    for level in found:
        if own.isdisjoint(area.name for area in level.areas):
            continue
        case = read_case(reading, building, level)
        parapet = lowest_parapet(reading, level, several=len(found) > 1)
        if case is None:
            return ()
        for up in group.tops(reading, [area.name for area in level.areas]):
            top = None if up is None else case.height + up
            for load in edge_pressures(replace(case, parapet=parapet), top):
                key = (load.acts_on, load.zone)
                if key not in worst or load.asd_pa < worst[key].asd_pa:
                    worst[key] = load
    return tuple(worst.values())


def _step(load: EdgePressure, factor: float, target: float, tested: float, width: float) -> Step:
    way, surface = ("outward on the face", "wall") if load.acts_on == "face" else ("upward on the flange", "roof")
    return Step(
        text=f"What the test must reach {way}, {surface} zone {load.zone}, indoor air behind the metal (safe side)",
        formula="factor x |p|",
        values={
            "factor": factor,
            "p [Pa]": load.asd_pa,
            "width [m]": width,
            "to each length [N/m]": target * width,
            "tested [Pa]": tested,
        },
        result=target,
        unit="Pa",
    )
