"""The live outline as plain values: drawn in millimetres, x to the right and y down, with the words beside it."""

from __future__ import annotations

import math
import re
from typing import Any

from lapwright.geometry.polygon import signed_area2
from lapwright.packet.sheets.edges import WORDS
from lapwright.plan.describe.sketch import AreaSketch, PlaneSketch, SideSketch, Sketch
from lapwright.plan.describe.walked import LegRow, Walked, way_words
from lapwright.plan.describe.words import option_words
from lapwright.roof.values import Drain, Point
from lapwright.units.examples import example_in
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.unread import pointed
from lapwright.units.write import TICKS_PER_MM, Units

Json = dict[str, Any]
_BARE = re.compile(r"[0-9]+(?:\.[0-9]+)?")  # a length whose unit was left out
MOST_DRAWN = 20_000  # corners of all areas together


def outline_json(found: Sketch) -> Json:
    """The areas as they are drawn, and the box that holds them: left, top, width, height [mm]."""
    areas = [area_json(area, found.units) for area in found.areas]
    points = [point for area in areas for point in (*area["corners"], *area["box"])]
    if not points:
        return {"areas": areas, "box": None}
    left, top = min(x for x, _ in points), min(y for _, y in points)
    right, low = max(x for x, _ in points), max(y for _, y in points)
    return {"areas": areas, "box": [left, top, max(right - left, 1), max(low - top, 1)]}


def area_json(area: AreaSketch, units: Units) -> Json:
    """One area."""
    corners = [drawn(corner) for corner in area.corners[:MOST_DRAWN]]
    closes = area.is_whole
    return {
        "place": area.place,
        "name": area.name or f"area {area.place + 1}",
        "source": area.source,
        "corners": corners,
        "is_whole": closes,
        "sides": _sides(area, units) if len(corners) > 1 else [],
        "legs": [leg_json(row, area.walk, side, units) for side, row in enumerate(_rows(area), start=1)],
        "walk": _walk(area, units),
        "points": [list(each) for each in area.typed],
        "size": units.area(abs(signed_area2(area.corners)) / 2 / TICKS_PER_METRE**2) if closes else "",
        "openings": [_opening(area, k, units) for k in range(len(area.openings))],
        "pipes": [_pipe(area, k, units) for k in range(len(area.pipes))],
        "drains": [each for k in range(len(area.drains)) if (each := _drain(area, k, units)) is not None],
        "fall": None if area.falls is None else {"way": [area.falls[0], -area.falls[1]], "words": area.slope},
        "planes": [plane_json(plane) for plane in area.planes],
        "box": [drawn(area.walk.end)] if area.walk is not None else [],
    }


def plane_json(plane: PlaneSketch) -> Json:
    """A plane: its outline, which way its water runs, and its words."""
    return {
        "corners": [drawn(corner) for corner in plane.corners[:MOST_DRAWN]],
        "way": [round(plane.falls[0], 4) + 0.0, round(-plane.falls[1], 4) + 0.0],
        "words": f"{plane.name} {plane.slope}".strip(),
    }


def drawn(point: Point) -> tuple[float, float]:
    """A place [ticks] on the drawing [mm]."""
    return (round(point[0] / TICKS_PER_MM, 1), round(-point[1] / TICKS_PER_MM, 1))


def undrawn(x: float, y: float) -> Point:
    """A place on the drawing [mm], in ticks."""
    return (round(x * TICKS_PER_MM), round(-y * TICKS_PER_MM))


def leg_json(row: LegRow, walk: Walked | None, side: int, units: Units) -> Json:
    """A leg as typed, with what is wrong with it and what closing the walk does to it."""
    change = ""
    if walk is not None and walk.closure is not None and walk.is_whole:
        found = next((each for each in walk.closure.changes if each.side == side), None)
        parts = ((found.east, "EW"), (found.north, "NS")) if found is not None else ()
        moved = " ".join(
            f"{way[0] if off > 0 else way[1]} {units.tape(abs(off))}"
            for off, way in parts
            if units.tape(abs(off)) != units.tape(0)
        )
        change = f"takes {moved} of the misclosure" if moved else ""
    is_bare = row.leg is None and _BARE.fullmatch(row.rest) is not None
    return {
        "text": row.text,
        "way": row.way,
        "rest": row.rest,
        "needs": row.needs,
        "write": row.rest + ("'" if units.is_us else " m") if is_bare else example_in(units, row.write),
        "is_bare": is_bare or (row.leg is None and row.write == pointed(row.text)),
        "change": change,
    }


def _rows(area: AreaSketch) -> tuple[LegRow, ...]:
    return area.walk.rows if area.walk is not None else ()


def _walk(area: AreaSketch, units: Units) -> Json | None:
    if area.walk is None or not area.walk.rows:
        return None
    closure = area.walk.closure
    is_off = closure is not None and bool(closure.east or closure.north)
    gap = [drawn(area.walk.end), drawn(area.first)] if area.walk.end != area.first and not area.is_whole else []
    return {
        "words": area.walk.words(units),
        "is_whole": area.is_whole,
        "is_off": is_off and not area.is_whole,
        "is_begun": closure is None,
        "gap": gap,
    }


def _sides(area: AreaSketch, units: Units) -> list[Json]:
    last = len(area.corners) if area.is_whole else len(area.corners) - 1
    corners = [*area.corners, area.corners[0]]
    sense = 1 if signed_area2(area.corners) >= 0 else -1
    rows = _rows(area)
    found = []
    for side in range(1, min(last, MOST_DRAWN) + 1):
        start, end = corners[side - 1], corners[side]
        length = math.dist(start, end)
        said = area.sides.get(side, SideSketch())
        out = (0.0, 0.0) if not length else ((end[1] - start[1]) / length * sense, (end[0] - start[0]) / length * sense)
        typed = rows[side - 1].leg if side <= len(rows) else None
        words = units.tape(typed.length_ticks if typed is not None else round(length))
        found.append(
            {
                "side": side,
                "from": drawn(start),
                "to": drawn(end),
                "out": [round(out[0], 4), round(out[1], 4)],
                "length": words,
                "way": way_words(start, end),
                "kind": said.kind or "",
                "group": said.group,
                "words": edge_words(said),
            }
        )
    return found


def edge_words(said: SideSketch) -> str:
    """What is said of a side."""
    kind = WORDS.get(said.kind, said.kind or "")
    return f"{kind}, {said.height}" if said.height else kind


def _at(area: AreaSketch, point: Point) -> Point:
    return (area.first[0] + point[0], area.first[1] + point[1])


def _head(area: AreaSketch, list_name: str, k: int, said: str) -> Json:
    """Where something is spoken of, whether a drawing places it, and what is said of it that no drawing says."""
    drawn_ones = area.is_drawn.get(list_name, ())
    return {"path": area.keys[list_name][k], "is_drawn": k < len(drawn_ones) and drawn_ones[k], "said": said}


def _opening(area: AreaSketch, k: int, units: Units) -> Json:
    found = area.openings[k]
    head = _head(area, "openings", k, "" if found.height is None else units.length(found.height))
    east, north = (units.tape(each) for each in found.size)
    ring = [drawn(_at(area, corner)) for corner in found.outline]
    corner = drawn(_at(area, found.corner))
    words = f"{option_words(found.kind)}, E {east} x N {north}"
    return {**head, "name": found.name, "kind": found.kind, "ring": ring, "at": corner, "words": words}


def _pipe(area: AreaSketch, k: int, units: Units) -> Json:
    found = area.pipes[k]
    head = _head(area, "pipes", k, units.tape(found.diameter))
    radius = found.diameter / 2 / TICKS_PER_MM
    at = drawn(_at(area, found.at))
    return {**head, "name": found.name, "kind": "pipe", "at": at, "radius": radius, "words": "pipe"}


def _drain(area: AreaSketch, k: int, units: Units) -> Json | None:
    """A drain where it stands; one in a side from where to where along it; None for a side that is not there."""
    found = area.drains[k]
    said = "" if found.diameter is None else units.length(found.diameter)
    head: Json = {**_head(area, "drains", k, said), "name": found.name, "kind": found.kind, "line": []}
    head |= {"side": found.side or 0, "words": option_words(found.kind)}
    if found.at is not None:
        return {**head, "at": drawn(_at(area, found.at))}
    place = along_side(area, found)
    if place is None:
        return None
    start, middle, end = place
    return {**head, "at": drawn(middle), "line": [drawn(start), drawn(end)]}


def along_side(area: AreaSketch, found: Drain) -> tuple[Point, Point, Point] | None:
    """Start, middle and end [ticks] of a drain in a side; the whole side where it does not say where it stands."""
    last = len(area.corners) if area.is_whole else len(area.corners) - 1
    if found.side is None or not 1 <= found.side <= last:
        return None
    start, end = area.corners[found.side - 1], area.corners[found.side % len(area.corners)]
    length = math.dist(start, end)
    if found.from_start is None or not length:
        return start, ((start[0] + end[0]) // 2, (start[1] + end[1]) // 2), end

    def on(metres: float) -> Point:
        share = metres * TICKS_PER_METRE / length
        return (round(start[0] + (end[0] - start[0]) * share), round(start[1] + (end[1] - start[1]) * share))

    half = (found.width or 0.0) / 2
    return on(found.from_start - half), on(found.from_start), on(found.from_start + half)
