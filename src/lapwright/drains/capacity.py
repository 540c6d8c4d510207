"""Will it drain: the water of the primary storm against the drains, scuppers and gutters that take it (Q4)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.drains.basin import Basin, basins_of, opening_steps, walls_m2
from lapwright.drains.catchment import Catchment, catchment, flows_m3_s
from lapwright.drains.flow import flow_m3_s
from lapwright.drains.outlets import PRIMARY_KINDS, Passage, passage, read_drain
from lapwright.drains.paths import plan_area_m2
from lapwright.drains.values import Loose, Share
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "flow off the plan and half of the walls: IPC 1106.4; leaders by the area tables of its editions before 2015, "
    "drains and scuppers by ASCE 7-10 commentary C8 [from memory]; gutter by a level channel's momentum [from memory]; "
    "the edition adopted at the place governs"
)
CONFIRM = "the authority having jurisdiction for the rain; whoever designs the drains, gutters and leaders"
MOST_TOLD = 6
USES: Mapping[str, tuple[str, ...]] = {
    "drains.capacity-*": (
        "site.rain_primary",
        "roof[*].drains",
        "roof[*].drains[*].at",
        "roof[*].drains[*].side",
        "roof[*].drains[*].from_start",
        "roof[*].drains[*].diameter",
        "roof[*].drains[*].width",
        "roof[*].drains[*].height",
        "roof[*].drains[*].outlets",
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
    ),
}


def check_drainage(areas: Sequence[Area], *, rain_primary: float | None) -> tuple[Check, ...]:
    """One check for each basin: every primary way out passes the water of its own part of the roof [m³/s].

    rain_primary: rate of rain of the primary storm, as depth [m/s].  Demand and capacity are those of the way out that
    is used most.
    Holds for: planes as given, water running straight down them, then along a low side to the nearest way out.
    Source: IPC 1106 [in part read], tables of plumbing codes [from memory]
    Checked: tests/published/drains.csv flow-*, leader-*, scupper-*, gutter-*
    """
    return tuple(_basin_check(basin, rain_primary) for basin in basins_of(areas))


def _basin_check(basin: Basin, rain: float | None) -> Check:
    id, title = f"drains.capacity-{basin.name}", f"Drainage of {basin.name}: the primary storm"
    reading = Reading()
    rain_m_s = reading.take("site.rain_primary", rain)
    basin.read_drains(reading)
    for key, _, drain in basin.drains(PRIMARY_KINDS):
        read_drain(reading, key, drain)
    walls = walls_m2(reading, basin)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    plan = sum(plan_area_m2(area) for _, area in basin.areas)
    flow = flow_m3_s(plan, rain_m_s, wall_m2=walls)
    step = Step(
        text="Flow of the basin: plan area and half of its parapets and walls, by the rain",
        formula="Q = (A + walls / 2) i",
        values={"A [m2]": plan, "walls [m2]": walls, "i [m/s rain]": rain_m_s},
        result=flow,
        unit="m3/s",
    )
    shared = catchment(basin, PRIMARY_KINDS)
    passages = _passages(basin, shared, rain_m_s)
    worst = max(passages, key=_use, default=None)
    demand, capacity = (worst.demand, worst.capacity) if worst is not None else (flow, 0.0)
    held = any(each.is_held for each in shared.loose)
    return Check(
        id=id,
        title=title,
        status="pass" if capacity >= demand and not held else "fail",
        demand=demand,
        capacity=capacity,
        unit="m3/s",
        steps=(
            step,
            *opening_steps(basin),
            *_share_steps(shared, rain_m_s),
            *_loose_steps(shared.loose, rain_m_s),
            *_told(passages),
        ),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _use(passage: Passage) -> float:
    """How much of what a way out passes is asked of it."""
    return passage.demand / passage.capacity if passage.capacity > 0 else math.inf


def _passages(basin: Basin, shared: Catchment, rain_m_s: float) -> list[Passage]:
    """Every way out to which water comes, with what comes to one outlet of it."""
    drains = {key: drain for key, _, drain in basin.drains(PRIMARY_KINDS)}
    flows = flows_m3_s(shared.shares, rain_m_s)
    return [
        passage(drains[share.key], flows[share.key] / share.outlets) for share in shared.shares if flows[share.key] > 0
    ]


def _share_steps(shared: Catchment, rain_m_s: float) -> list[Step]:
    """How the water is shared, then a line for each way out with its own part of the roof."""
    if not shared.shares:
        return [Step(text="No drain, scupper or gutter takes the primary storm: overflows don't count")]
    flows = flows_m3_s(shared.shares, rain_m_s)
    values = {
        share.name + (", each outlet" if share.kind == "gutter" else "") + " [m3/s]": flows[share.key] / share.outlets
        for share in shared.shares
    }
    told = Step(
        text="Each takes its own part of the roof: water runs down the fall, then along the low side or valley to the "
        "nearest way out; a gutter takes its side, its outlets alike",
        values=values if len(values) <= MOST_TOLD else {},
    )
    return [told, *(_share_step(share, rain_m_s, flows[share.key]) for share in shared.shares)]


def _share_step(share: Share, rain_m_s: float, flow: float) -> Step:
    return Step(
        text=f"{share.name}: its part of the roof with half of the walls above it"
        + (f", {share.outlets} outlets" if share.outlets > 1 else ""),
        formula="Q = (A + half walls) i",
        values={"A [m2]": share.plan_m2, "half walls [m2]": share.half_walls_m2, "i [m/s rain]": rain_m_s},
        result=flow,
        unit="m3/s",
    )


def _told(passages: Sequence[Passage]) -> list[Step]:
    """The steps of each way out; of many, those of the one that is used most."""
    if len(passages) <= MOST_TOLD:
        return [step for each in passages for step in each.steps]
    worst = max(passages, key=_use)
    lead = Step(text=f"Of {len(passages)} ways out, the one that is used most:")
    return [lead, *worst.steps]


def _loose_steps(loose: Sequence[Loose], rain_m_s: float) -> list[Step]:
    """Water that comes to no way out."""
    return [
        Step(
            text=f"Water that runs to {each.area} side {each.side} "
            + (
                "is held there and finds no outlet"
                if each.is_held
                else "sheds freely over the edge, gathered by nothing"
            ),
            result=(each.plan_m2 + each.half_walls_m2) * rain_m_s,
            unit="m3/s",
        )
        for each in loose
    ]
