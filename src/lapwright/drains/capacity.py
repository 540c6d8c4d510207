"""Will it drain: the water of the primary storm against the drains, scuppers and gutters that take it (Q4)."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.drains.flow import flow_m3_s
from lapwright.drains.outlets import PRIMARY_KINDS, passage, read_drain, ways_out
from lapwright.drains.paths import (
    FREE_KINDS,
    basins,
    free_length_m,
    holding_sides,
    low_sides,
    plan_area_m2,
    tributary_m2,
)
from lapwright.roof.values import Area, Drain
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "IPC 1106: flow off the plan and half of the walls; leaders, drains and scuppers by tables of plumbing codes and "
    "of the ASCE 7 commentary [from memory]; gutter by a level channel's momentum [from memory]"
)
CONFIRM = "the authority having jurisdiction for the rain; whoever designs the gutter and its leaders"
WALL_KINDS = ("parapet", "wall")
USES: Mapping[str, tuple[str, ...]] = {
    "drains.capacity-*": (
        "site.rain_primary",
        "roof[*].drains",
        "roof[*].drains[*].diameter",
        "roof[*].drains[*].width",
        "roof[*].drains[*].height",
        "roof[*].drains[*].side",
        "roof[*].drains[*].outlets",
        "roof[*].edges[*].kind",
        "roof[*].edges[*].height",
    ),
}


@dataclass(frozen=True, slots=True)
class Basin:
    """Areas that drain together, each with its index in the job file."""

    areas: tuple[tuple[int, Area], ...]

    @property
    def name(self) -> str:
        """The areas' names."""
        return " + ".join(area.name for _, area in self.areas)

    def drains(self, kinds: Sequence[str]) -> tuple[tuple[str, Area, Drain], ...]:
        """The ways out of some kinds, each with its job-file key and its area."""
        return tuple(
            (drain.entry(index, place), area, drain)
            for index, area in self.areas
            for place, drain in enumerate(area.drains)
            if drain.kind in kinds
        )

    def free_length_m(self) -> float:
        """Length of the sides over which water leaves it [m]; a step between two of its areas is none of them."""
        over_all = sum(free_length_m(area) for _, area in self.areas)
        if len(self.areas) == 1:
            return over_all
        return sum(free_length_m(area, but="step") for _, area in self.areas) or over_all

    def read_drains(self, reading: Reading) -> None:
        """Notes as missing the drains of a basin that has none at all."""
        has_any = any(area.drains for _, area in self.areas)
        for index, area in self.areas:
            if area.drains or not has_any:
                reading.take(f"{area.entry(index)}.drains", area.drains or None)


def basins_of(areas: Sequence[Area]) -> tuple[Basin, ...]:
    """The areas by the drains that they share.

    Source: arithmetic
    """
    return tuple(Basin(tuple((index, areas[index]) for index in group)) for group in basins(areas))


def check_drainage(areas: Sequence[Area], *, rain_primary: float | None) -> tuple[Check, ...]:
    """One check for each basin: every primary way out passes the share of the storm that comes to it [m³/s].

    rain_primary: rate of rain of the primary storm, as depth [m/s].  The worst way out is the check's demand and
    capacity.
    Holds for: gutters take what runs to their side, where the basin is one area; all else is shared alike.
    Source: IPC 1106 [in part read], tables of plumbing codes [from memory]
    Checked: tests/published/drains.csv flow-*, leader-*, scupper-*, gutter-*
    """
    return tuple(_basin_check(basin, rain_primary) for basin in basins_of(areas))


def walls_m2(reading: Reading, basin: Basin) -> float:
    """Area of parapets and walls along a basin [m²], their heights noted in `reading`.

    Source: arithmetic
    """
    total = 0.0
    for index, area in basin.areas:
        for edge in area.edges:
            kind = reading.take(f"{edge.entry(index)}.kind", edge.kind)
            if kind in WALL_KINDS:
                height = reading.take(f"{edge.entry(index)}.height", edge.height)
                total += math.dist(edge.start, edge.end) / TICKS_PER_METRE * (height or 0.0)
    return total


def _basin_check(basin: Basin, rain: float | None) -> Check:
    id, title = f"drains.capacity-{basin.name}", f"Drainage of {basin.name}: the primary storm"
    reading = Reading()
    rain_m_s = reading.take("site.rain_primary", rain)
    basin.read_drains(reading)
    drains = basin.drains(PRIMARY_KINDS)
    for key, _, drain in drains:
        read_drain(reading, key, drain)
    walls = walls_m2(reading, basin)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE)
    plan = sum(plan_area_m2(area) for _, area in basin.areas)
    flow = flow_m3_s(plan, rain_m_s, wall_m2=walls)
    step = Step(
        text="Flow of the basin: plan area and half of its parapets and walls, by the rain",
        formula="Q = (A + walls / 2) i",
        values={"A [m2]": plan, "walls [m2]": walls, "i [m/s rain]": rain_m_s},
        result=flow,
        unit="m3/s",
    )
    shares, told, is_whole = _shares(basin, drains, flow)
    passages = [passage(drain, share) for (_, _, drain), share in zip(drains, shares, strict=True) if share > 0]
    worst = max(passages, key=lambda each: each.demand / each.capacity if each.capacity > 0 else math.inf, default=None)
    demand, capacity = (worst.demand, worst.capacity) if worst is not None else (flow, 0.0)
    return Check(
        id=id,
        title=title,
        status="pass" if is_whole and capacity >= demand else "fail",
        demand=demand,
        capacity=capacity,
        unit="m3/s",
        steps=(step, *told, *(each for found in passages for each in found.steps)),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _shares(
    basin: Basin, drains: Sequence[tuple[str, Area, Drain]], flow: float
) -> tuple[tuple[float, ...], tuple[Step, ...], bool]:
    """Flow to one outlet of each way out, how it was shared, and whether all of the water finds one."""
    count = sum(ways_out(drain) for _, _, drain in drains)
    if not drains:
        told = "No drain, scupper or gutter takes the primary storm: overflows don't count"
        return (), (Step(text=told),), False
    if len(basin.areas) > 1:
        told = "Areas that meet in a valley or over a step: the flow is shared alike by all their outlets (assumed)"
        return tuple(flow / count for _ in drains), (Step(text=told, result=flow / count, unit="m3/s"),), True
    return _shares_of_area(basin.areas[0][1], [drain for _, _, drain in drains], flow)


def _shares_of_area(
    area: Area, drains: Sequence[Drain], flow: float
) -> tuple[tuple[float, ...], tuple[Step, ...], bool]:
    """Gutters take what runs to their side, drains and scuppers share the rest; without any, it must find a way."""
    whole = plan_area_m2(area)
    to_side = {side: found / whole * flow for side, found in tributary_m2(area).items()}
    gutters = [drain for drain in drains if drain.kind == "gutter"]
    others = [drain for drain in drains if drain.kind != "gutter"]
    rest = {side: part for side, part in to_side.items() if side not in {drain.side for drain in gutters}}
    held = {edge.side for edge in holding_sides(area)} & set(rest)
    if not others:
        over_edge = {edge.side for edge in low_sides(area) if edge.kind in FREE_KINDS} & set(rest)
        steps = (*_loose_steps(over_edge, held, rest),)
        rest = {side: part for side, part in rest.items() if side not in over_edge}
    else:
        steps = ()
    each = sum(rest.values()) / sum(ways_out(drain) for drain in others or gutters)
    shares = tuple(
        (_own_share(drain, gutters, to_side) if drain.kind == "gutter" else 0.0)
        + (each if drain in (others or gutters) else 0.0)
        for drain in drains
    )
    return shares, (_share_step(shares, drains, to_side), *steps), bool(others) or not held


def _own_share(gutter: Drain, gutters: Sequence[Drain], to_side: Mapping[int, float]) -> float:
    beside = sum(ways_out(other) for other in gutters if other.side == gutter.side)
    return to_side.get(gutter.side or 0, 0.0) / beside


def _share_step(shares: Sequence[float], drains: Sequence[Drain], to_side: Mapping[int, float]) -> Step:
    values: dict[str, object] = {f"to side {side} [m3/s]": part for side, part in to_side.items()}
    values |= {f"{drain.name}, each outlet [m3/s]": share for drain, share in zip(drains, shares, strict=True)}
    told = "A gutter takes what runs to its side, outlet by outlet; what is left is shared alike (assumed)"
    return Step(text=told, values=values)


def _loose_steps(over_edge: set[int], held: set[int], rest: Mapping[int, float]) -> list[Step]:
    said = ((over_edge, "sheds freely over the edge, gathered by nothing"), (held, "is held there and finds no outlet"))
    return [
        Step(text=f"Water that runs to side {side} {what}", result=rest[side], unit="m3/s")
        for sides, what in said
        for side in sorted(sides)
    ]
