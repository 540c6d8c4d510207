"""Which part of the roof each drain, scupper or gutter takes, by geometry, with half of the walls above it (Q4).

Water runs straight down the fall to a side.  A gutter there takes it.  Over a step it runs on down the next plane.
Along a side that holds it, or a valley, it runs to the nearest way out: on down along the side where that falls, never
back up along it, either way where it is level.  Ways out at the same distance share alike.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

import shapely
from shapely import Polygon

from lapwright.defaults.si import default_number
from lapwright.drains.basin import Basin, wall_m2
from lapwright.drains.outlets import ways_out
from lapwright.drains.paths import LEVEL, holding_sides
from lapwright.drains.strips import Plane, Strip, metres
from lapwright.drains.values import Loose, Share
from lapwright.geometry.overlay import united
from lapwright.roof.values import Area, Drain, Edge

XY = tuple[float, float]
SAME = 0.005
NUDGE = 0.02
CRUMB_M2 = 1e-4
WIDEST_OVER_STEP = 0.5


@dataclass(frozen=True, slots=True)
class Outlet:
    """A way out at a place [m]; a gutter has a side instead."""

    key: str
    area: Area
    drain: Drain
    at: XY | None


@dataclass(slots=True)
class _Taken:
    """What has come to one way out, or to a side without one, so far."""

    plan_m2: float = 0.0
    half_walls_m2: float = 0.0
    strips: list[tuple[Plane, Strip]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class Catchment:
    """How a basin's water is shared: by the ways out, in the job file's order, and what comes to none."""

    shares: tuple[Share, ...]
    loose: tuple[Loose, ...]


Target = tuple[str, ...] | tuple[str, int]  # keys of ways out that share alike, or a side by its area's name


def catchment(basin: Basin, kinds: Sequence[str], *, drawn: bool = False) -> Catchment:
    """What comes to each way out of some kinds; areas and half walls add up to the basin's.

    drawn: with the outlines of the parts.
    Holds for: planes as given, openings not in the way, walls of known height; where a basin has ways out besides
        gutters, they take what runs to a free side as well, the safe side.
    Source: arithmetic; half of the walls: IPC 1106.4
    Checked: tests/drains/test_catchment.py
    """
    outlets = outlets_of(basin, kinds)
    taken: dict[Target, _Taken] = {}
    for _, area in basin.areas:
        _run(area, basin, outlets, taken)
    found = {outlet.key: _Taken() for outlet in outlets}
    loose = []
    for target, got in taken.items():
        keys = [key for key in target if isinstance(key, str) and key in found]
        if not keys:
            loose.append((str(target[0]), int(target[1]), got))
            continue
        for key in keys:
            found[key].plan_m2 += got.plan_m2 / len(keys)
            found[key].half_walls_m2 += got.half_walls_m2 / len(keys)
            found[key].strips += got.strips
    held = {(area.name, edge.side) for _, area in basin.areas for edge in holding_sides(area)}
    return Catchment(
        shares=tuple(_share(outlet, found[outlet.key], drawn=drawn) for outlet in outlets),
        loose=tuple(
            Loose(name, side, (name, side) in held, got.plan_m2, got.half_walls_m2)
            for name, side, got in sorted(loose, key=lambda each: each[:2])
            if got.plan_m2 > CRUMB_M2
        ),
    )


def outlets_of(basin: Basin, kinds: Sequence[str]) -> tuple[Outlet, ...]:
    """The ways out of some kinds with their places, None where it is not given.

    Source: arithmetic
    """
    return tuple(Outlet(key, area, drain, place_m(area, drain)) for key, area, drain in basin.drains(kinds))


def place_m(area: Area, drain: Drain) -> XY | None:
    """Where a way out stands [m]; None for a gutter, and for a side that is not there.

    Source: arithmetic
    """
    if drain.at is not None:
        return metres(drain.at)
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if drain.kind == "gutter" or edge is None:
        return None
    start, end = metres(edge.start), metres(edge.end)
    length = math.dist(start, end)
    share = 0.5 if drain.from_start is None or length == 0 else drain.from_start / length
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def _run(area: Area, basin: Basin, outlets: Sequence[Outlet], taken: dict[Target, _Taken]) -> None:
    """Lets the water of one area run, and that of its walls."""
    plane = Plane(area)
    placed = [outlet for outlet in outlets if outlet.at is not None]
    edges = {edge.side: edge for edge in area.edges}
    strips = plane.strips(_cuts(plane, placed))
    targets = []
    for strip in strips:
        target = _target(plane, strip, basin, outlets, len(basin.areas))
        targets.append(target)
        got = taken.setdefault(target, _Taken())
        got.plan_m2 += strip.m2
        got.strips.append((plane, strip))
    share = default_number("drains", "wall_share")
    for edge in edges.values():
        half = wall_m2(edge) * share
        if half > 0:
            for target, part in _wall_parts(plane, edge, strips, targets):
                taken.setdefault(target, _Taken()).half_walls_m2 += half * part


def _cuts(plane: Plane, outlets: Sequence[Outlet]) -> list[float]:
    """Places across the fall where the nearest way out along a side may change."""
    cuts = []
    for edge in plane.area.edges:
        start, end = metres(edge.start), metres(edge.end)
        shares = [
            _even_share(start, end, one.at or start, other.at or start)
            for place, one in enumerate(outlets)
            for other in outlets[:place]
        ]
        if falls_along(plane, edge):
            shares += [_foot_share(start, end, one.at or start) for one in outlets]
        for share in shares:
            if share is not None:
                spot = (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)
                cuts.append(plane.turned(*spot)[0])
        if edge.kind == "step":
            cuts += _even(plane, edge)
    return cuts


def _even(plane: Plane, edge: Edge) -> list[float]:
    """Cuts along a step, so close that a strip lands where its middle does."""
    (first, _), (last, _) = plane.ends(edge)
    count = math.ceil(abs(last - first) / WIDEST_OVER_STEP)
    return [first + (last - first) * number / count for number in range(1, count)]


def _even_share(start: XY, end: XY, one: XY, other: XY) -> float | None:
    """How far along a side two places are equally far; None where that is nowhere on it."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    across = 2 * (dx * (other[0] - one[0]) + dy * (other[1] - one[1]))
    if abs(across) < SAME**2:
        return None
    far = sum((b - a) ** 2 for a, b in zip(start, other, strict=True))
    near = sum((b - a) ** 2 for a, b in zip(start, one, strict=True))
    share = (far - near) / across
    return share if 0 < share < 1 else None


def _foot_share(start: XY, end: XY, place: XY) -> float | None:
    """How far along a side a place lies, square to it; None where that is nowhere on it."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    share = ((place[0] - start[0]) * dx + (place[1] - start[1]) * dy) / (dx * dx + dy * dy)
    return share if 0 < share < 1 else None


def _target(plane: Plane, strip: Strip, basin: Basin, outlets: Sequence[Outlet], depth: int) -> Target:
    """Where the water of a strip goes."""
    return _from_side(plane, strip.low_side, plane.foot(strip), basin, outlets, depth)


def _from_side(plane: Plane, side: int, foot: XY, basin: Basin, outlets: Sequence[Outlet], depth: int) -> Target:
    area = plane.area
    edge = next(each for each in area.edges if each.side == side)
    gutters = [
        outlet.key for outlet in outlets if outlet.drain.kind == "gutter" and outlet.area is area
        and outlet.drain.side == side
    ]  # fmt: skip
    if gutters:
        return tuple(gutters)
    if edge.kind == "step" and depth > 0:
        onward = _beyond(plane, foot, basin)
        if onward is not None:
            below, strip = onward
            return _target(below, strip, basin, outlets, depth - 1)
    nearest = nearest_outlets(plane, edge, foot, [outlet for outlet in outlets if outlet.at is not None])
    return nearest or (area.name, side)


def _beyond(plane: Plane, foot: XY, basin: Basin) -> tuple[Plane, Strip] | None:
    """The plane that water runs onto over a step, and its strip under a point; None where there is none."""
    fall_x, fall_y = plane.area.falls
    x, y = foot[0] + fall_x * NUDGE, foot[1] + fall_y * NUDGE
    for _, other in basin.areas:
        if other is plane.area:
            continue
        below = Plane(other)
        across, down = below.turned(x, y)
        for strip in below.strips((across - NUDGE, across + NUDGE)):
            if strip.left <= across <= strip.right and min(strip.high) <= down <= max(strip.low):
                return below, strip
    return None


def nearest_outlets(plane: Plane, edge: Edge, foot: XY, outlets: Sequence[Outlet]) -> tuple[str, ...]:
    """Keys of the ways out nearest to a place on a side: where that falls along itself, of those not back up along it.

    Source: arithmetic
    Checked: tests/drains/test_catchment.py
    """
    choice = list(outlets)
    if falls_along(plane, edge):
        here = downhill(plane, edge, foot)
        below = [outlet for outlet in outlets if downhill(plane, edge, outlet.at or foot) >= here - SAME]
        choice = below or choice
    far = [(math.dist(foot, outlet.at or foot), outlet.key) for outlet in choice]
    least = min((distance for distance, _ in far), default=0.0)
    return tuple(key for distance, key in far if distance <= least + SAME)


def falls_along(plane: Plane, edge: Edge) -> bool:
    """Water that comes to a side runs on along it.

    Source: arithmetic
    """
    (_, first), (_, last) = plane.ends(edge)
    return abs(last - first) > LEVEL * math.dist(metres(edge.start), metres(edge.end))


def downhill(plane: Plane, edge: Edge, place: XY) -> float:
    """How far down along a side that falls a place in plan lies, measured square to it [m].

    Source: arithmetic
    """
    (_, first), (_, last) = plane.ends(edge)
    start, end = metres(edge.start), metres(edge.end)
    (x0, y0), (x1, y1) = (start, end) if last > first else (end, start)
    return ((place[0] - x0) * (x1 - x0) + (place[1] - y0) * (y1 - y0)) / math.dist(start, end)


def _wall_parts(
    plane: Plane, edge: Edge, strips: Sequence[Strip], targets: Sequence[Target]
) -> list[tuple[Target, float]]:
    """Where the water of a wall goes, in shares of its length: with the strips at its foot."""
    (first, d0), (last, d1) = plane.ends(edge)
    if abs(last - first) > NUDGE:
        return [
            (target, (strip.right - strip.left) / abs(last - first))
            for strip, target in zip(strips, targets, strict=True)
            if edge.side in (strip.high_side, strip.low_side)
        ]
    lower = max(d0, d1) - NUDGE
    touching = [
        (abs(((strip.left + strip.right) / 2) - first), target)
        for strip, target in zip(strips, targets, strict=True)
        if min(abs(strip.left - first), abs(strip.right - first)) < NUDGE
        and min(strip.high) - NUDGE <= lower <= max(strip.low) + NUDGE
    ]
    return [(min(touching, key=lambda pair: pair[0])[1], 1.0)] if touching else []


def _share(outlet: Outlet, got: _Taken, *, drawn: bool) -> Share:
    return Share(
        key=outlet.key,
        area=outlet.area.name,
        name=outlet.drain.name,
        kind=outlet.drain.kind,
        outlets=ways_out(outlet.drain),
        plan_m2=got.plan_m2,
        half_walls_m2=got.half_walls_m2,
        rings=_outline(got.strips) if drawn else (),
        at=outlet.at,
    )


def _outline(strips: Sequence[tuple[Plane, Strip]]) -> tuple[tuple[tuple[XY, ...], ...], ...]:
    """Strips as polygons of rings [m], the hairs between them closed."""
    whole = united(Polygon(plane.ring(strip)).buffer(SAME, join_style="mitre") for plane, strip in strips)
    closed = whole.buffer(-SAME, join_style="mitre").simplify(SAME)
    return tuple(
        tuple(tuple((float(x), float(y)) for x, y in ring.coords[:-1]) for ring in (part.exterior, *part.interiors))
        for part in shapely.get_parts(closed)
        if isinstance(part, Polygon)
    )


def flows_m3_s(shares: Sequence[Share], rain_m_s: float) -> Mapping[str, float]:
    """Flow to each way out by its key [m³/s], all outlets of a gutter together.

    Source: IPC 1106.4
    Checked: tests/published/drains.csv catchment-*
    """
    return {share.key: (share.plan_m2 + share.half_walls_m2) * rain_m_s for share in shares}
