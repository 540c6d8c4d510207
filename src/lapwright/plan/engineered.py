"""What is drawn of wind, nails, water and material on the roof, and what of them the order needs."""

from __future__ import annotations

from collections.abc import Sequence

from lapwright.deck.moisture import moisture_limits
from lapwright.deck.staging import staging_map
from lapwright.drains.places import water_maps
from lapwright.fasten.boards import board_needs
from lapwright.fasten.edgemetal import least_gauge
from lapwright.fasten.metals import metal_groups
from lapwright.fasten.rows import fasten_maps, nail_needs
from lapwright.fasten.thermal import METALS, gap_table
from lapwright.fasten.values import FastenerNeed
from lapwright.job.models import Job
from lapwright.packet.values import Engineered, Paper
from lapwright.plan.build import make_building
from lapwright.roof.values import Area
from lapwright.units.write import Units
from lapwright.wind.zonemap import zone_maps


def make_engineered(job: Job, laid: Paper) -> Engineered:
    """What stands on the plans of wind, water and loads, as far as the job gives it."""
    areas, assembly, building = laid.areas, laid.assembly, make_building(job)
    kinds = dict.fromkeys(
        METALS[kind] for kind in (one.metal.kind for one in metal_groups(areas)) if kind is not None and kind in METALS
    )
    return Engineered(
        zones=zone_maps(areas, building),
        nails=fasten_maps(areas, building, assembly.plies, laid.layout),
        water=water_maps(areas, rain_primary=job.site.rain_primary),
        staging=staging_map(areas, assembly.deck, rolls=len(laid.layout.rolls)),
        moisture=moisture_limits(assembly),
        gaps=tuple((kind, gap_table(kind, metric=job.units == "metric")) for kind in kinds),
        gauges=least_gauges(areas),
    )


def least_gauges(areas: Sequence[Area]) -> tuple[tuple[str, float, int | None], ...]:
    """For each kind of edge metal and face [m] of a job, the least gauge that its calculation sheet asks for."""
    given = ((one.metal.kind, one.metal.face) for one in metal_groups(areas))
    return tuple(
        (kind, face, least_gauge(kind, face))
        for kind, face in dict.fromkeys(given)
        if kind in METALS and kind is not None and face is not None
    )


def fastener_needs(job: Job, laid: Paper) -> tuple[FastenerNeed, ...]:
    """Nails, screws and ribbons to order, zone by zone."""
    units, building = Units(job.units), make_building(job)
    return (
        *nail_needs(laid.engineered.nails, laid.layout, units),
        *board_needs(laid.areas, building, laid.assembly, units),
    )
