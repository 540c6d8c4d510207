"""Pointing on the outline: where a place lies in tape distances, how far from the nearest sides, and steps of it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Fault, Refused
from lapwright.plan.describe.outline import along_side, drawn, undrawn
from lapwright.plan.describe.sketch import AreaSketch, Sketch
from lapwright.plan.describe.typed import read_or
from lapwright.roof.values import Drain, Point
from lapwright.units.read import length_ticks
from lapwright.units.write import Units

Json = dict[str, Any]
SIDES_SHOWN = 2
NEARLY_PARALLEL = 0.1  # sine of the angle between two sides that tell the same distance
IN_SIDES = ("scupper", "overflow_scupper", "gutter")


@dataclass(frozen=True, slots=True)
class Near:
    """A side near to a place: its number, the nearest point on it [ticks], how far that is, and its direction."""

    side: int
    foot: Point
    away: float
    way: tuple[float, float]


def pointed(found: Sketch, place: int, x: float, y: float) -> Json:
    """A place pointed at on the drawing [mm], taken to the cut step: as a job file has it, and to the nearest sides.

    Raises: Refused for an area that is not there.
    """
    area = area_at(found, place)
    spot = snapped(area, undrawn(x, y), step_of(found))
    return spot_json(area, spot, found.units)


def spot_json(area: AreaSketch, spot: Point, units: Units) -> Json:
    """A place [ticks] of an area: `at` from its first corner, distances to two sides, place along the nearest side."""
    near = nearest_sides(area, spot)
    shown = [
        {"side": each.side, "words": units.tape(round(each.away)), "line": [drawn(spot), drawn(each.foot)]}
        for each in two_ways(near)
    ]
    words = ", ".join(f"{each['words']} from side {each['side']}" for each in shown)
    side: Json = {}
    if near:
        start = area.corners[near[0].side - 1]
        side = {"side": str(near[0].side), "from_start": units.tape(round(math.dist(start, near[0].foot)))}
        side["words"] = f"side {side['side']}, {side['from_start']} from its start"
    return {"at": position_text(area, spot, units), "spot": drawn(spot), "words": words, "near": shown, "side": side}


def stepped(found: Sketch, path: str, east: int, north: int) -> list[Json]:
    """The edits that move what stands at a path by so many cut steps east and north; none where it can't be moved.

    One that stands in a side moves along it, east or north being forth.
    Raises: Refused for a path at which nothing stands.
    """
    step = step_of(found)
    for area in found.areas:
        for key in ("openings", "pipes", "drains"):
            for k, own in enumerate(area.keys.get(key, ())):
                if own == path:
                    thing = getattr(area, key)[k]
                    at = thing.corner if key == "openings" else thing.at
                    if at is not None:
                        moved = (at[0] + east * step, at[1] + north * step)
                        return [_set(f"{path}.at", position_text(area, _add(area.first, moved), found.units))]
                    return _along(area, thing, path, (east + north) * step, found.units)
    raise _absent("path", path, "something that stands on the roof")


def _along(area: AreaSketch, thing: Drain, path: str, by: int, units: Units) -> list[Json]:
    """The edit that moves a drain along its side by ticks, not past its ends."""
    place = along_side(area, thing)
    if place is None or thing.side is None or thing.from_start is None:
        return []
    start, end = area.corners[thing.side - 1], area.corners[thing.side % len(area.corners)]
    there = round(math.dist(start, place[1])) + by
    return [_set(f"{path}.from_start", units.tape(max(0, min(there, round(math.dist(start, end))))))]


def placed(found: Sketch, path: str, kind: str, place: int, x: float, y: float) -> list[Json]:
    """The edits that put what stands at a path where it is pointed at.  kind: a drain's, which may stand in a side.

    Raises: Refused for an area that is not there.
    """
    area = area_at(found, place)
    spot = spot_json(area, snapped(area, undrawn(x, y), step_of(found)), found.units)
    if kind not in IN_SIDES:
        return [_set(f"{path}.at", spot["at"])]
    if not spot["side"]:
        return []
    edits = [_set(f"{path}.side", spot["side"]["side"])]
    return edits if kind == "gutter" else [*edits, _set(f"{path}.from_start", spot["side"]["from_start"])]


def area_at(found: Sketch, place: int) -> AreaSketch:
    """An area by its place.

    Raises: Refused
    """
    if not 0 <= place < len(found.areas):
        raise _absent("area", str(place), "the place of an area of the roof")
    return found.areas[place]


def step_of(found: Sketch) -> int:
    """The cut step [ticks]: the job's, else the default."""
    default = length_ticks(table("rules")["cut_step"].text)
    step = read_or(found.cut_step, length_ticks, default)
    return step if step > 0 else default


def snapped(area: AreaSketch, spot: Point, step: int) -> Point:
    """The place nearest to a spot that lies whole steps from the area's first corner."""
    east, north = (round((spot[k] - area.first[k]) / step) * step for k in (0, 1))
    return _add(area.first, (east, north))


def position_text(area: AreaSketch, spot: Point, units: Units) -> str:
    """A place as a job file has it: `E 30' N 20'` from the area's first corner."""
    parts = []
    for off, letters in ((spot[0] - area.first[0], "EW"), (spot[1] - area.first[1], "NS")):
        parts.append(f"{letters[0] if off >= 0 else letters[1]} {_plain(units.tape(abs(off)))}")
    return " ".join(parts)


def _plain(tape: str) -> str:
    """A tape length without the inches that are none."""
    return tape.removesuffix(' 0"') if "'" in tape else tape


def nearest_sides(area: AreaSketch, spot: Point) -> list[Near]:
    """The sides of an outline, the nearest first."""
    if not area.is_whole:
        return []
    corners = [*area.corners, area.corners[0]]
    found = []
    for side in range(1, len(corners)):
        (ax, ay), (bx, by) = corners[side - 1], corners[side]
        length = math.hypot(bx - ax, by - ay)
        if not length:
            continue
        way = ((bx - ax) / length, (by - ay) / length)
        along = max(0.0, min(length, (spot[0] - ax) * way[0] + (spot[1] - ay) * way[1]))
        foot = (round(ax + way[0] * along), round(ay + way[1] * along))
        found.append(Near(side, foot, math.dist(spot, foot), way))
    return sorted(found, key=lambda each: (each.away, each.side))


def two_ways(near: Sequence[Near]) -> list[Near]:
    """The nearest side, and the nearest of those that do not run as it does."""
    shown: list[Near] = []
    for each in near:
        if all(abs(each.way[0] * one.way[1] - each.way[1] * one.way[0]) > NEARLY_PARALLEL for one in shown):
            shown.append(each)
        if len(shown) == SIDES_SHOWN:
            break
    return shown


def _add(one: Point, other: Point) -> Point:
    return (one[0] + other[0], one[1] + other[1])


def _set(path: str, value: str) -> Json:
    return {"edit": "set", "path": path, "value": value}


def _absent(key: str, read: str, needs: str) -> Refused:
    return Refused([Fault("", 0, 0, key, read, needs, "")])
