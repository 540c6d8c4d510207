"""Where does water go when the drains are blocked: overflow, the depth that stands, the load handed on (Q4).

Nothing here judges the structure: heads and load are for the engineer of record.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from lapwright.defaults.si import default_si
from lapwright.defaults.values import Rules
from lapwright.drains.basin import Basin, basins_of, opening_steps, walls_m2
from lapwright.drains.catchment import catchment, flows_m3_s
from lapwright.drains.flow import flow_m3_s, rain_load_pa
from lapwright.drains.outlets import OVERFLOW_KINDS, Standing, read_drain, standing
from lapwright.drains.paths import FREE_KINDS, edge_length_m, holding_sides, plan_area_m2
from lapwright.drains.weir import scupper_head_m
from lapwright.roof.values import Area
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "secondary drainage where water could be trapped: IPC 1108; rain load 5.2 (ds + dh) psf: ASCE 7-10 equation 8.3-1; "
    "scuppers and drains: its commentary C8 [from memory]; the edition adopted at the place governs"
)
CONFIRM = "the engineer of record, who takes heads and load; the authority for what a reroof may keep"
USES: Mapping[str, tuple[str, ...]] = {
    "drains.overflow-*": (
        "site.rain_secondary",
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
        "roof[*].drains",
        "roof[*].drains[*].at",
        "roof[*].drains[*].side",
        "roof[*].drains[*].from_start",
        "roof[*].drains[*].diameter",
        "roof[*].drains[*].width",
        "roof[*].drains[*].height",
        "roof[*].drains[*].sill",
    ),
}
HAIR = 1e-9
# Less than this share of the water is nobody's.
WHOLE = 1e-3


def check_overflow(areas: Sequence[Area], rules: Rules, *, rain_secondary: float | None) -> tuple[Check, ...]:
    """One check for each basin: with the primary drains blocked, water leaves before it reaches the flashings' tops.

    rain_secondary: rate of rain of the secondary storm, as depth [m/s].  Demand: depth of water where it leaves [m];
    capacity: the rules' flashing height.
    Holds for: primary drains wholly blocked, each overflow taking its own part of the roof.
    Source: ASCE 7-16 chapter 8, IPC 1108 [from memory]
    Checked: tests/published/drains.csv overflow-*, load-*
    """
    return tuple(_basin_check(basin, rules.flashing_height, rain_secondary) for basin in basins_of(areas))


def _basin_check(basin: Basin, flashing_height: float, rain: float | None) -> Check:
    id, title = f"drains.overflow-{basin.name}", f"Overflow of {basin.name}: drains blocked, the secondary storm"
    reading = Reading()
    rain_m_s = reading.take("site.rain_secondary", rain)
    walls = walls_m2(reading, basin)
    holding = [(area, edge) for _, area in basin.areas for edge in holding_sides(area)]
    overflows = basin.drains(OVERFLOW_KINDS)
    if holding and not reading.missing:
        basin.read_drains(reading)
        for key, _, drain in overflows:
            read_drain(reading, key, drain)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    plan = sum(plan_area_m2(area) for _, area in basin.areas)
    flow = flow_m3_s(plan, rain_m_s, wall_m2=walls)
    flow_step = Step(
        text="Flow of the secondary storm, all primary drains taken as blocked",
        formula="Q = (A + walls / 2) i",
        values={"A [m2]": plan, "walls [m2]": walls, "i [m/s rain]": rain_m_s},
        result=flow,
        unit="m3/s",
    )
    if holding:
        where = "Water is held by " + "; ".join(f"{area.name} side {edge.side} ({edge.kind})" for area, edge in holding)
        flows = flows_m3_s(catchment(basin, OVERFLOW_KINDS).shares, rain_m_s)
        found = [standing(drain, flows[key]) for key, _, drain in overflows]
        reason = f"{where}; overflows given: {len(overflows)}, each with its own part of the roof, by geometry"
    else:
        found = [_over_the_edge(basin, flow, rain_m_s)]
        reason = "Nothing holds water: it runs over the free low edge, gutter or no gutter"
    return _judged(
        Check(id=id, title=title, status="fail", unit="m", source=SOURCE, confirm=CONFIRM, uses=tuple(reading.uses)),
        found,
        (flow_step, *opening_steps(basin), Step(text=reason)),
        flashing_height,
    )


def _over_the_edge(basin: Basin, flow: float, rain_m_s: float) -> Standing:
    """Over the side that takes most for its length; where water also comes along closed sides, over all if more."""
    sides = {(area.name, edge.side): edge for _, area in basin.areas for edge in area.edges}
    found = []
    for each in catchment(basin, ()).loose:
        edge = sides[each.area, each.side]
        if edge.kind in FREE_KINDS:
            over = flow_m3_s(each.plan_m2 + each.half_walls_m2, rain_m_s)
            found.append((over, edge_length_m(edge), f"{each.area} side {each.side}"))
    over_sides = sum(over for over, _, _ in found)
    if over_sides < flow * (1 - WHOLE):
        found.append((flow, basin.free_length_m(), "all free sides together"))
    over, length, where = max(found, key=lambda each: each[0] / each[1])
    head = scupper_head_m(over, width=length)
    step = Step(
        text=f"Depth on the free low edge that takes most for its length, {where}: a level crest flush with the roof "
        "[from memory]",
        formula="Q = 2.9 b H^1.5, gpm and in",
        values={"roof and half walls [m2]": over / rain_m_s, "Q [m3/s]": over, "b [m]": length},
        result=head,
        unit="m",
    )
    return Standing(0.0, head, (step,))


def _judged(check: Check, found: Sequence[Standing], lead: tuple[Step, ...], flashing_height: float) -> Check:
    """The check with its verdict: water leaves, and stands no higher than the flashings."""
    if not found:
        told = Step(text="No overflow drain or overflow scupper is given: blocked drains fill the roof")
        return replace(check, status="fail", steps=(*lead, told))
    steps = tuple(step for each in found for step in each.steps)
    heads = [(each.static_head, each.hydraulic_head) for each in found]
    if any(head is None for _, head in heads):
        return replace(check, status="fail", capacity=flashing_height, steps=(*lead, *steps))
    static, hydraulic = max(((ds, dh) for ds, dh in heads if dh is not None), key=sum)
    depth = static + hydraulic
    return replace(
        check,
        status="pass" if depth <= flashing_height + HAIR else "fail",
        demand=depth,
        capacity=flashing_height,
        steps=(*lead, *steps, _room_step(flashing_height, depth), *_load_steps(static, hydraulic)),
    )


def _room_step(flashing_height: float, depth: float) -> Step:
    """Water against the least that a flashing may stand above the roof."""
    return Step(
        text="Depth of water where it leaves, against the least that flashings stand above the roof",
        formula="ds + dh <= flashing_height",
        values={"flashing_height [m]": flashing_height},
        result=depth,
        unit="m",
    )


def _load_steps(static: float, hydraulic: float) -> tuple[Step, ...]:
    least, most = default_si("drains", "overflow_sill_least"), default_si("drains", "overflow_sill_most")
    load = Step(
        text="Rain load for the engineer of record; no verdict on the structure here",
        formula="R = 5.2 (ds + dh), psf and in",
        values={"ds [m]": static, "dh [m]": hydraulic},
        result=rain_load_pa(static, hydraulic),
        unit="Pa",
    )
    if static == 0 or least - HAIR <= static <= most + HAIR:
        return (load,)
    usual = Step(
        text="The overflow's inlet is not where it usually lies above the low point",
        values={"usual from [m]": least, "usual to [m]": most},
        result=static,
        unit="m",
    )
    return (load, usual)
