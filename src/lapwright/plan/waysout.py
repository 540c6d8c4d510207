"""Each way out for water with the flow that comes to it, how deep it stands there, and what that weighs."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from lapwright.drains.basin import basins_of
from lapwright.drains.catchment import catchment, flows_m3_s
from lapwright.drains.flow import rain_load_pa
from lapwright.drains.outlets import NEEDS, OVERFLOW_KINDS, PRIMARY_KINDS, passage, standing
from lapwright.drains.pipes import drain_head_m
from lapwright.drains.values import Share
from lapwright.drains.weir import scupper_head_m
from lapwright.job.models import Job
from lapwright.packet.figurevalues import WayOut
from lapwright.packet.values import Paper
from lapwright.roof.values import Area, Drain

Flows = Mapping[str, float]


def ways_out(job: Job, paper: Paper) -> tuple[WayOut, ...]:
    """Ways out for the primary storm, then those for the secondary one with the primaries blocked."""
    drains = {
        key: (area, drain)
        for basin in basins_of(paper.areas)
        for key, area, drain in basin.drains((*PRIMARY_KINDS, *OVERFLOW_KINDS))
    }
    return (*_primary(paper, drains), *_secondary(job, paper.areas, drains))


def _primary(paper: Paper, drains: Mapping[str, tuple[Area, Drain]]) -> Iterator[WayOut]:
    """As the plan of drainage has them."""
    for water in paper.engineered.water:
        for share in water.shares:
            yield _judged(share, drains[share.key][1], "primary", water.flows.get(share.key), "site.rain_primary")


def _secondary(job: Job, areas: Sequence[Area], drains: Mapping[str, tuple[Area, Drain]]) -> Iterator[WayOut]:
    """Overflows, each with its own part of the roof."""
    rain = job.site.rain_secondary
    if not any(drain.kind in OVERFLOW_KINDS for _, drain in drains.values()):
        return
    for basin in basins_of(areas):
        shares = catchment(basin, OVERFLOW_KINDS).shares
        flows: Flows = {} if rain is None else flows_m3_s(shares, rain)
        for share in shares:
            yield _judged(share, drains[share.key][1], "secondary", flows.get(share.key), "site.rain_secondary")


def _judged(share: Share, drain: Drain, storm: str, flow: float | None, rain_key: str) -> WayOut:
    """One way out at the whole flow that comes to it [m³/s]."""
    no_rain = (rain_key,) if flow is None else ()
    lacking = (*no_rain, *(f"{share.key}.{name}" for name in NEEDS[drain.kind] if getattr(drain, name) is None))
    each = None if flow is None else flow / share.outlets
    if each is None or lacking:
        return WayOut(share.area, share.name, drain.kind, storm, share.outlets, each, lacking=lacking)
    head = _head(drain, each)
    found = passage(drain, each) if drain.kind in PRIMARY_KINDS else None
    return WayOut(
        area=share.area,
        name=share.name,
        kind=drain.kind,
        storm=storm,
        outlets=share.outlets,
        flow_m3_s=each,
        asked_m3_s=None if found is None else found.demand,
        passes_m3_s=None if found is None else found.capacity,
        head=head,
        load_pa=None if head is None else rain_load_pa(drain.sill or 0.0, head),
    )


def _head(drain: Drain, flow: float) -> float | None:
    """Depth over its inlet [m]; None for a gutter, and beyond the table of drains."""
    if drain.kind in OVERFLOW_KINDS:
        return standing(drain, flow).hydraulic_head
    if drain.kind == "drain" and drain.diameter is not None:
        return drain_head_m(flow, drain.diameter)
    if drain.kind == "scupper" and drain.width is not None and drain.height is not None:
        return scupper_head_m(flow, width=drain.width, height=drain.height)
    return None
