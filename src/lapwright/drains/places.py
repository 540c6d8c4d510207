"""Places where water stands: low sides that no way out serves, or only one that lies higher (Q4).

Found from the planes alone.  A cricket or a sump that the job file does not have as a plane is not there.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.defaults.si import default_si
from lapwright.defaults.table import table
from lapwright.drains.basin import Basin, basins_of
from lapwright.drains.catchment import Outlet, catchment, flows_m3_s, nearest_outlets, outlets_of
from lapwright.drains.outlets import PRIMARY_KINDS
from lapwright.drains.paths import holding_sides
from lapwright.drains.strips import Plane, metres
from lapwright.drains.values import Dammed, DeadPlace, WaterMap
from lapwright.geometry.polygon import counter_clockwise, sides_of
from lapwright.roof.values import Area, Edge
from lapwright.verdict import Check, Reading, Step

SOURCE = (
    "arithmetic on the planes as given; water gone within 48 h: positive drainage of the IBC, as Professional Roofing "
    "2166 tells it"
)
CONFIRM = "whoever designs the slopes, crickets and sumps"
USES: Mapping[str, tuple[str, ...]] = {
    "drains.places-*": ("roof[*].edges[*].kind", "roof[*].drains", "roof[*].drains[*].side"),
}
FACES_UP = -0.98
HOURS = (
    "All water must be gone within 48 hours, deflection counted; look after the first rain and mark what stands. Along "
    "a low side that runs level it gets to a way out only by crickets or its own depth"
)


def check_places(areas: Sequence[Area]) -> tuple[Check, ...]:
    """One check for each basin: nowhere does water stand deeper than a hair before it reaches a way out [m].

    Holds for: planes as given, undeflected.
    Source: arithmetic: how much lower a held low side lies than the way out nearest to it
    Checked: tests/drains/test_places.py
    """
    return tuple(_check(basin) for basin in basins_of(areas))


def water_maps(areas: Sequence[Area], *, rain_primary: float | None) -> tuple[WaterMap, ...]:
    """The water of each basin as it is drawn; flows where the rain is given.

    Source: arithmetic
    Checked: tests/drains/test_catchment.py
    """
    maps = []
    for basin in basins_of(areas):
        shared = catchment(basin, PRIMARY_KINDS, drawn=True)
        flows = {} if rain_primary is None else dict(flows_m3_s(shared.shares, rain_primary))
        maps.append(WaterMap(basin.name, shared.shares, shared.loose, dead_places(basin), dammed(basin), flows))
    return tuple(maps)


def dead_places(basin: Basin) -> tuple[DeadPlace, ...]:
    """The low sides along which water stands deeper than the least that counts.

    Source: arithmetic: how much lower a held low side lies than the way out nearest to it
    Checked: tests/drains/test_places.py
    """
    outlets = outlets_of(basin, PRIMARY_KINDS)
    least = default_si("drains", "standing_least")
    found = []
    for _, area in basin.areas:
        for edge in holding_sides(area):
            line = (metres(edge.start), metres(edge.end))
            if any(outlet.drain.kind == "gutter" and _is_at(outlet, area, edge) for outlet in outlets):
                continue
            placed = [outlet for outlet in outlets if outlet.at is not None]
            if not placed:
                found.append(DeadPlace(area.name, line, None, f"side {edge.side} holds water and has no way out"))
                continue
            depth = max(_depth(area, edge, end, placed) for end in line)
            if depth > least:
                why = f"side {edge.side} lies lower than the way out nearest to it"
                found.append(DeadPlace(area.name, line, depth, why))
    return tuple(found)


def dammed(basin: Basin) -> tuple[Dammed, ...]:
    """Openings that turn a wide face squarely up the fall: they want a cricket.

    Source: common practice, no source
    """
    widest = default_si("drains", "cricket_width")
    found = []
    for _, area in basin.areas:
        for opening in area.openings:
            for start, end in sides_of(counter_clockwise(opening.outline)):
                (ax, ay), (bx, by) = metres(start), metres(end)
                width = math.dist((ax, ay), (bx, by))
                out = ((by - ay) * area.falls[0] - (bx - ax) * area.falls[1]) / width if width else 0.0
                if out < FACES_UP and width > widest:
                    found.append(Dammed(area.name, opening.name, ((ax, ay), (bx, by)), width))
    return tuple(found)


def _check(basin: Basin) -> Check:
    id, title = f"drains.places-{basin.name}", f"Places of {basin.name} where water has no way out"
    reading = Reading()
    for index, area in basin.areas:
        for edge in area.edges:
            reading.take(f"{edge.entry(index)}.kind", edge.kind)
    if any(holding_sides(area) for _, area in basin.areas):
        basin.read_drains(reading)
    if reading.missing:
        return reading.unknown(id, title, source=SOURCE, confirm=CONFIRM)
    least = default_si("drains", "standing_least")
    dead = dead_places(basin)
    row = table("drains")["standing_least"]
    limit = Step(
        text=f"Depth that still counts as drained [{row.origin}]",
        result=least,
        unit="m",
    )
    places = tuple(
        Step(
            text=f"{place.area}: {place.why}; water stands there until it is let out",
            formula="slope x how much farther down the side lies than the way out, and its sill" if place.depth else "",
            result=place.depth,
            unit="m" if place.depth is not None else "",
        )
        for place in dead
    )
    deepest = max((place.depth for place in dead if place.depth is not None), default=None)
    return Check(
        id=id,
        title=title,
        status="fail" if dead else "pass",
        demand=0.0 if not dead else deepest,
        capacity=least,
        unit="m",
        steps=(
            limit,
            *(places or (Step(text="None found from the planes"),)),
            *_cricket_steps(basin),
            Step(text=HOURS),
        ),
        source=SOURCE,
        confirm=CONFIRM,
        uses=tuple(reading.uses),
    )


def _cricket_steps(basin: Basin) -> tuple[Step, ...]:
    found = dammed(basin)
    if not found:
        return ()
    names = ", ".join(f"{each.area} {each.name}" for each in found)
    row = table("drains")["cricket_width"]
    return (
        Step(
            text=f"Openings with a face squarely up the fall, wider than {row.text}, want a cricket [{row.origin}]: "
            + names,
            result=max(each.width for each in found),
            unit="m",
        ),
    )


def _is_at(outlet: Outlet, area: Area, edge: Edge) -> bool:
    return outlet.area is area and outlet.drain.side == edge.side


def _depth(area: Area, edge: Edge, point: tuple[float, float], outlets: Sequence[Outlet]) -> float:
    """How deep water stands at a place on a side before it reaches the way out nearest to it [m]."""
    plane = Plane(area)
    near = set(nearest_outlets(plane, edge, point, outlets))
    return min(_inlet_above(plane, point, outlet) for outlet in outlets if outlet.key in near)


def _inlet_above(plane: Plane, point: tuple[float, float], outlet: Outlet) -> float:
    """How much higher a way out's inlet is than a place on a plane [m]; over a valley both planes fall to the place."""
    own = Plane(outlet.area)
    at = outlet.at or point
    sill = outlet.drain.sill or 0.0
    here = plane.turned(*point)[1]
    if outlet.area is plane.area:
        return plane.area.slope * (here - plane.turned(*at)[1]) + sill
    up = own.turned(*point)[1] - own.turned(*at)[1]
    return outlet.area.slope * max(0.0, up) + sill
