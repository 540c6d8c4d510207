"""Roofs at random: whole jobs for the layout, by a seed or as a hypothesis strategy.

Both ways make the same kinds of roof from whole numbers that a `Source` gives.  Lengths are steps of the tape, an inch
or a centimetre.  An outline is put together from boxes, may get a slanted side, and may be turned as a whole; openings
stand along east and north as job files have them.
"""

from __future__ import annotations

import math
import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from typing import Any

from hypothesis import strategies as st

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Area, Drain, Edge, Opening, Point
from lapwright.units.lengths import length_ticks as ticks

Source = Callable[[int, int], int]  # a whole number from the first to the second, both possible

ROOFS = 216  # seeds that the layout is judged on
KINDS = ("metal_edge", "parapet", "wall", "ridge", "valley", "step", "expansion", "tie_in")
SLOPES = (1 / 48, 1 / 48, 1 / 48, 1 / 24, 1 / 12, 1 / 6, 0.02)


@dataclass(frozen=True, slots=True)
class Tape:
    """How a job is measured: step of its lengths [ticks], grid of rips [ticks], steps to a foot or 30 cm."""

    name: str
    step: int
    grid: int
    foot: int


FEET = ticks("1'")
US = Tape("us", ticks('1"'), 127, 12)
METRIC = Tape("metric", ticks("1 cm"), 80, 30)


@dataclass(frozen=True, slots=True, repr=False)
class Roof:
    """A job: its areas, assembly, rules, and the grid of its tape."""

    seed: int
    areas: tuple[Area, ...]
    assembly: Assembly
    rules: Rules
    grid: int

    def __repr__(self) -> str:
        """What tells it apart from other roofs, in feet, short enough to read in a failure."""
        lines = [f"seed {self.seed}, {len(self.assembly.plies)} plies, {'US' if self.grid == US.grid else 'metric'}"]
        for area in self.areas:
            corners = ", ".join(f"({x / FEET:.3f}, {y / FEET:.3f})" for x, y in area.outline)
            lines.append(
                f"falls {area.falls}, slope {area.slope:.4f}, [{corners}], {[edge.kind for edge in area.edges]}"
            )
            lines += [
                f"{o.name} at {[x / FEET for x in o.corner]} size {[x / FEET for x in o.size]}" for o in area.openings
            ]
        return "Roof(" + "; ".join(lines) + ")"

    def _repr_pretty_(self, printer: Any, cycle: bool) -> None:
        """The same for hypothesis, which would print every field."""
        printer.text(repr(self))


def seeded_roof(seed: int) -> Roof:
    """The roof of a seed, large ones now and then."""
    chance = random.Random(seed)
    return make_roof(chance.randint, seed, most_feet=200, most_areas=3)


def unequal_roof(seed: int) -> Roof:
    """The roof of a seed with a narrower base, or with wider side laps in the cap, so that lap lines drift.

    12", or 300 mm, is asked between the plies' side laps, since half a course is less than 18" there.
    """
    roof = seeded_roof(seed)
    is_metric = roof.grid == METRIC.grid
    narrow, lap, offset = ("914 mm", "125 mm", "300 mm") if is_metric else ('36"', '4"', '12"')
    plies = []
    for ply in roof.assembly.plies:
        if seed % 2 and ply.sheet.name == "base-sa":
            plies.append(replace(ply, sheet=replace(ply.sheet, width_ticks=ticks(narrow))))
        elif seed % 2 == 0 and ply.sheet.name == "cap-sa":
            plies.append(replace(ply, sheet=replace(ply.sheet, side_lap_ticks=ticks(lap))))
        else:
            plies.append(ply)
    rules = replace(roof.rules, ply_offset_ticks=ticks(offset), ply_offset_at_rip_ticks=ticks(offset))
    return replace(roof, assembly=replace(roof.assembly, plies=tuple(plies)), rules=rules)


def bare_roof(seed: int) -> Roof:
    """The roof of a seed without what details of the sheets under the cap come from, so that these are laid whole.

    Nothing goes through it and its sides are ridges; in three plies metal edges too, of the cap's strips alone.
    """
    roof = unequal_roof(seed) if seed % 4 == 3 else seeded_roof(seed)
    kinds = ("ridge", "metal_edge") if len(roof.assembly.plies) > 2 else ("ridge",)
    areas = []
    for area in roof.areas:
        edges = tuple(replace(edge, kind=kinds[edge.side % len(kinds)]) for edge in area.edges)
        areas.append(replace(area, edges=edges, openings=()))
    return replace(roof, areas=tuple(areas))


@st.composite
def small_roofs(draw: st.DrawFn) -> Roof:
    """Small roofs of one area; the simplest are plain rectangles."""
    return make_roof(lambda low, high: draw(st.integers(low, high)), 0, most_feet=45, most_areas=1)


def make_roof(pick: Source, seed: int, *, most_feet: int, most_areas: int) -> Roof:
    """A job of up to `most_areas` areas whose sides are 5' to `most_feet` long."""
    tape = METRIC if pick(0, 3) == 3 else US
    assembly, rules = _metric_job(pick) if tape is METRIC else _us_job(pick)
    count = 1 if pick(0, 3) < 3 else pick(1, most_areas)
    areas = []
    for number in range(count):
        share = most_feet if number == 0 else min(most_feet, 40)
        areas.append(_area(pick, tape, assembly, rules, number=number, most_feet=share))
    return Roof(seed, tuple(areas), assembly, rules, tape.grid)


def _us_job(pick: Source) -> tuple[Assembly, Rules]:
    """39 3/8" sheets with 3" laps."""
    width, lap, end = ticks('39 3/8"'), ticks('3"'), ticks('6"')
    base_length = ticks(("65' 7\"", "49' 3\"", "33' 6\"")[pick(0, 2)])
    cap_length = ticks(("32' 10\"", "33' 6\"", "34' 1\"")[pick(0, 2)])
    base = Sheet("base-sa", width, base_length, lap, end)
    cap = Sheet("cap-sa", width, cap_length, lap, end)
    given = ({}, {}, {"longest_piece": "24'"}, {"shortest_piece": "4'", "end_lap_stagger": "2'"})[pick(0, 3)]
    return _assembly(pick, base, cap), make_rules(given)


def _metric_job(pick: Source) -> tuple[Assembly, Rules]:
    """Sheets one metre wide with laps of 75 or 100 mm."""
    lap, offset = (("75 mm", "450 mm"), ("100 mm", "400 mm"))[pick(0, 1)]
    base = Sheet("base-sa", ticks("1 m"), ticks(("20 m", "15 m")[pick(0, 1)]), ticks(lap), ticks("150 mm"))
    cap = Sheet("cap-sa", ticks("1 m"), ticks(("10 m", "8 m")[pick(0, 1)]), ticks(lap), ticks("150 mm"))
    given = {
        "ply_offset": offset,
        "ply_offset_at_rip": "300 mm",
        "end_lap_stagger": "1 m",
        "end_lap_ply_offset": "1 m",
        "shortest_piece": "1.5 m",
        "longest_piece": "10 m",
        "narrowest_rip": "300 mm",
        "cut_step": "10 mm",
        "base_over_edge": "50 mm",
        "cap_back_from_edge": "10 mm",
        "cant": "100 mm",
        "base_up_wall": "50 mm",
    }
    return _assembly(pick, base, cap), make_rules(given)


def _assembly(pick: Source, base: Sheet, cap: Sheet) -> Assembly:
    plies = [Ply("base", base, "self_adhered"), Ply("cap", cap, "self_adhered")]
    if pick(0, 3) == 3:
        plies.insert(1, Ply("interply", base, "self_adhered"))
    return Assembly(tuple(plies))


def _area(pick: Source, tape: Tape, assembly: Assembly, rules: Rules, *, number: int, most_feet: int) -> Area:
    """One area; later ones stand far to the east of the first."""
    kinds = [KINDS[min(pick(0, 11), 7)] if pick(0, 1) else KINDS[pick(0, 1)] for _ in range(8)]
    along, up = _length(pick, tape, most_feet), _length(pick, tape, min(most_feet, 90))
    if pick(0, 1):
        along = _just_over(pick, tape, assembly, rules, kinds, along)
    corners = _slanted(pick, tape, _shape(pick, tape, along, up))
    bearing = _bearing(pick)
    turned, falls = _turned(pick, corners, bearing)
    east = number * 400 * tape.foot * tape.step
    outline = tuple((round(x * tape.step) + east, round(y * tape.step)) for x, y in turned)
    ends = (*outline[1:], outline[0])
    edges = tuple(
        Edge(side, kinds[(side - 1) % len(kinds)], a, b, height=0.5)
        for side, (a, b) in enumerate(zip(outline, ends, strict=True), start=1)
    )
    openings = _openings(pick, tape, outline)
    return Area(f"Area {number + 1}", outline, edges, falls, SLOPES[pick(0, len(SLOPES) - 1)], openings)


def _length(pick: Source, tape: Tape, most_feet: int) -> int:
    """A length from 5', short ones more often, in steps of the tape."""
    feet = 5 + pick(0, most_feet - 5) * pick(1, 8) // 8
    return feet * tape.foot + pick(0, tape.foot - 1)


def _just_over(pick: Source, tape: Tape, assembly: Assembly, rules: Rules, kinds: Sequence[str], along: int) -> int:
    """A width whose run is just over what a whole number of pieces reach, near the given one."""
    ply = assembly.plies[pick(0, len(assembly.plies) - 1)]
    most = min(ply.sheet.length_ticks, rules.longest_piece_ticks)
    count = max(1, along * tape.step // most)
    reach = count * most - (count - 1) * ply.sheet.end_lap_ticks
    ends = sum(_past_edge(kinds[side], ply, assembly, rules) for side in (1, 3))
    return math.ceil((reach - ends) / tape.step) + pick(0, tape.foot // 2)


def _past_edge(kind: str, ply: Ply, assembly: Assembly, rules: Rules) -> float:
    """How far a ply runs past an edge [ticks]; docs/method/layout.md, ground of a ply."""
    is_under_cap = ply is assembly.plies[-2]
    if kind == "metal_edge":
        return rules.base_over_edge_ticks if is_under_cap else -rules.cap_back_from_edge_ticks
    if kind in ("parapet", "wall"):
        up = rules.base_up_wall_ticks if is_under_cap else rules.cap_up_wall_ticks
        return rules.cant_ticks * (math.sqrt(2) - 1) + up
    return 0


def _shape(pick: Source, tape: Tape, along: int, up: int) -> list[tuple[float, float]]:
    """A rectangle, or one with a bite out of a corner, out of a side, or out of two corners; counter-clockwise."""
    kind = pick(0, 5)
    least = 5 * tape.foot
    wide, deep = max(along, 3 * least), max(up, 2 * least)
    if kind < 3:
        return [(0, 0), (along, 0), (along, up), (0, up)]
    x, y = pick(least, wide - 2 * least), pick(least, deep - least)
    z = pick(x + least, wide - least)
    if kind == 3:  # L: the north-east corner out
        return [(0, 0), (wide, 0), (wide, y), (x, y), (x, deep), (0, deep)]
    if kind == 4:  # U: a bite out of the north side
        return [(0, 0), (wide, 0), (wide, deep), (z, deep), (z, y), (x, y), (x, deep), (0, deep)]
    return [(x, 0), (z, 0), (z, y), (wide, y), (wide, deep), (0, deep), (0, y), (x, y)]  # T


def _slanted(pick: Source, tape: Tape, corners: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """The corners, one in four times with the first of them pushed outwards to the south-west."""
    if pick(0, 3) < 3:
        return corners
    (x, y), *rest = corners
    return [(x - pick(0, 8 * tape.foot), y - pick(1, 8 * tape.foot)), *rest]


def _bearing(pick: Source) -> float:
    """How far the fall is turned from a side, counter-clockwise [degrees]; as often as not it runs along one."""
    return 0.0 if pick(0, 2) < 2 else (1.0, 7.5, 20.0, 35.5, 45.0, 60.0, 82.0, 89.0)[pick(0, 7)]


def _turned(
    pick: Source, corners: list[tuple[float, float]], bearing: float
) -> tuple[list[tuple[float, float]], tuple[float, float]]:
    """The outline as it stands, and its fall: by quarter turns, some by any angle so that openings stand askew."""
    quarter = 90 * pick(0, 3)
    whole = pick(1, 89) if pick(0, 5) == 5 else 0
    turned = [_rotate(corner, whole) for corner in corners]
    return turned, _rotate((0.0, -1.0), quarter + whole + bearing)


def _rotate(point: tuple[float, float], degrees: float) -> tuple[float, float]:
    sine, cosine = math.sin(math.radians(degrees)), math.cos(math.radians(degrees))
    if degrees % 90 == 0:
        sine, cosine = float(round(sine)), float(round(cosine))
    return (point[0] * cosine - point[1] * sine, point[0] * sine + point[1] * cosine)


def _openings(pick: Source, tape: Tape, outline: Sequence[Point]) -> tuple[Opening, ...]:
    """Openings of 6" to 12', at least 1' from every edge and 18" from one another; those that fit of up to six."""
    from shapely import Polygon, box

    count = (0, 1, 3, 4, 6)[pick(0, 4)]
    foot = tape.foot * tape.step
    room = Polygon(outline).buffer(-foot - tape.step)
    found: list[Opening] = []
    left, low, right, high = (int(each) for each in Polygon(outline).bounds)
    for number in range(count * 6):
        size = tuple(_size(pick, tape) for _ in "en")
        corner = tuple(a + pick(0, max(1, (b - a) // tape.step)) * tape.step for a, b in ((left, right), (low, high)))
        shape = box(corner[0], corner[1], corner[0] + size[0], corner[1] + size[1])
        is_apart = all(shape.distance(_box(one)) > 1.5 * foot for one in found)
        if room.contains(shape) and is_apart and len(found) < count:
            found.append(Opening(f"O-{number + 1}", "curb", corner, size, 0.3))
    return tuple(found)


def _box(opening: Opening) -> Any:
    from shapely import Polygon

    return Polygon(opening.outline)


def _size(pick: Source, tape: Tape) -> int:
    """6" to 12', most of them small [ticks]."""
    steps = pick(tape.foot // 2, (2 * tape.foot, 4 * tape.foot, 12 * tape.foot)[pick(0, 2)])
    return steps * tape.step


def is_concave(area: Area) -> bool:
    """The outline has a corner that turns inwards."""
    corners = area.outline
    turns = [
        (b[0] - a[0]) * (c[1] - b[1]) - (b[1] - a[1]) * (c[0] - b[0])
        for a, b, c in zip(corners, (*corners[1:], corners[0]), (*corners[2:], *corners[:2]), strict=True)
    ]
    return min(turns) < 0 < max(turns)


def is_skewed(area: Area) -> bool:
    """Some side runs neither along the fall nor across it."""
    for edge in area.edges:
        x, y = edge.end[0] - edge.start[0], edge.end[1] - edge.start[1]
        along = abs(x * area.falls[0] + y * area.falls[1]) / math.hypot(x, y)
        if 1e-3 < along < 1 - 1e-6:
            return True
    return False


def has_openings(area: Area) -> bool:
    """Three or more."""
    return len(area.openings) >= 3


def has_run_just_over(area: Area, roof: Roof) -> bool:
    """Some level of some ply's ground has a stretch up to a foot longer than a whole number of pieces reach."""
    from shapely import LineString, Polygon

    for ply in roof.assembly.plies:
        most = min(ply.sheet.length_ticks, roof.rules.longest_piece_ticks)
        shape = Polygon(area.outline)
        x, y = -area.falls[1], area.falls[0]
        middle, span = shape.centroid, shape.length
        for step in range(-8, 9):
            at = span / 40 * step
            cx, cy = middle.x + area.falls[0] * at, middle.y + area.falls[1] * at
            line = LineString([(cx - x * span, cy - y * span), (cx + x * span, cy + y * span)])
            cut = line.intersection(shape)
            for part in getattr(cut, "geoms", [cut]):
                ends = sum(_past_edge(_kind_at(area, point), ply, roof.assembly, roof.rules) for point in part.coords)
                length = part.length + ends
                step_length = most - ply.sheet.end_lap_ticks
                over = (length - ply.sheet.end_lap_ticks) % step_length
                if length > most and 0 < over <= ticks("1'"):
                    return True
    return False


def _kind_at(area: Area, point: tuple[float, float]) -> str:
    """Kind of the side that a point of the outline lies on."""
    from shapely import LineString, Point

    return min(area.edges, key=lambda edge: LineString([edge.start, edge.end]).distance(Point(point))).kind or ""


def classes_of(roof: Roof) -> tuple[str, ...]:
    """What a roof is, of the classes that are counted; one can be in several."""
    found = {
        "concave": any(is_concave(area) for area in roof.areas),
        "skewed": any(is_skewed(area) for area in roof.areas),
        "three or more openings": any(has_openings(area) for area in roof.areas),
        "run just over a whole number of rolls": any(has_run_just_over(area, roof) for area in roof.areas),
    }
    return tuple(name for name, is_so in found.items() if is_so)


def odd_roof(seed: int) -> Roof:
    """The odd roof of a seed."""
    chance = random.Random(seed)
    return make_odd_roof(chance.randint, seed, most_feet=120)


@st.composite
def small_odd_roofs(draw: st.DrawFn) -> Roof:
    """Small odd roofs; the simplest are rectangles of two planes."""
    return make_odd_roof(lambda low, high: draw(st.integers(low, high)), 0, most_feet=40)


def make_odd_roof(pick: Source, seed: int, *, most_feet: int) -> Roof:
    """A job whose area is planes to a line or to a point, or one plane, steep perhaps.

    It has drains, and openings that may stand against an edge, touch one another, or be courtyards.
    """
    tape = METRIC if pick(0, 3) == 3 else US
    assembly, rules = _metric_job(pick) if tape is METRIC else _us_job(pick)
    step = tape.step
    wide = max(_length(pick, tape, most_feet), 12 * tape.foot) * step
    deep = max(_length(pick, tape, min(most_feet, 60)), 12 * tape.foot) * step
    corners = ((0, 0), (wide, 0), (wide, deep), (0, deep))
    kinds = [EdgeRow((side,), ("metal_edge", "parapet", "wall", "tie_in")[pick(0, 3)], 0.3) for side in (1, 2, 3, 4)]
    slope = (1 / 48, 1 / 48, 1 / 24, 2 / 12, 4 / 12)[pick(0, 4)]
    middle = (
        pick(4 * tape.foot, wide // step - 4 * tape.foot) * step,
        pick(4 * tape.foot, deep // step - 4 * tape.foot) * step,
    )
    rows = _plane_rows(pick, corners, middle, slope)
    area = make_area(
        "Main",
        corners,
        falls=rows[0].falls,
        slope=slope,
        edges=kinds,
        openings=_odd_openings(pick, tape, wide, deep),
        drains=_drains(pick, tape, (wide, deep), middle),
    )
    return Roof(seed, split_area(area, rows if len(rows) > 1 else ()), assembly, rules, tape.grid)


def _plane_rows(pick: Source, corners: tuple[Point, ...], middle: Point, slope: float) -> list[PlaneRow]:
    """One plane; two either side of a line; or four to a point; falling inwards or outwards, or on across the line."""
    (wide, deep), (x, y) = corners[2], middle
    inwards = ((0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0))
    signs = (1.0, 1.0) if (way := pick(0, 3)) < 2 else (-1.0, -1.0) if way == 2 else (1.0, -1.0)
    kind = pick(0, 3)
    if kind == 0:
        low, high = ((0, 0), (wide, 0), (wide, y), (0, y)), ((0, y), (wide, y), (wide, deep), (0, deep))
        return [
            PlaneRow("South", low, (0.0, signs[0]), slope),
            PlaneRow("North", high, (0.0, 0.0 - signs[1]), slope),
        ]
    if kind == 1:
        one, two = ((0, 0), (x, 0), (wide - x, deep), (0, deep)), ((x, 0), (wide, 0), (wide, deep), (wide - x, deep))
        return [
            PlaneRow("West", one, (signs[0], 0.0), slope),
            PlaneRow("East", two, (0.0 - signs[1], 0.0), slope),
        ]
    if kind == 2:
        return [
            PlaneRow(f"P{k + 1}", (corners[k], corners[(k + 1) % 4], middle), (dx * signs[0], dy * signs[0]), slope)
            for k, (dx, dy) in enumerate(inwards)
        ]
    return [PlaneRow("Main", corners, inwards[pick(0, 3)], slope)]


def _drains(pick: Source, tape: Tape, size: Point, middle: Point) -> list[Drain]:
    """One at the point, or a few in the field."""
    spots = [middle] if pick(0, 1) else []
    for _ in range(pick(0, 2)):
        east, north = (pick(1, each // tape.step - 1) * tape.step for each in size)
        spots.append((east, north))
    return [Drain(f"D-{k}", "drain", at=spot, diameter=0.1) for k, spot in enumerate(spots, start=1)]


def _odd_openings(pick: Source, tape: Tape, wide: int, deep: int) -> list[Opening]:
    """Up to three: in the field, against one or two edges, as large as a courtyard, or touching the one before."""
    foot = tape.foot * tape.step
    found: list[Opening] = []
    for number in range(pick(0, 3)):
        most = (12 * tape.foot, 4 * tape.foot)[min(1, pick(0, 3))]
        size = tuple(pick(tape.foot, most) * tape.step for _ in "en")
        room = [limit - part for limit, part in zip((wide, deep), size, strict=True)]
        if min(room) < 4 * foot:
            continue
        corner = [pick(1, each // tape.step - 1) * tape.step for each in room]
        where = pick(0, 5)
        if where in (1, 3):
            corner[0] = (0, room[0])[pick(0, 1)]
        if where in (2, 3):
            corner[1] = (0, room[1])[pick(0, 1)]
        if where == 4 and found:
            corner = [found[-1].corner[0] + found[-1].size[0], found[-1].corner[1]]
        opening = Opening(
            f"O-{number + 1}", "shaft" if max(size) > 8 * foot else "curb", (corner[0], corner[1]), size, 0.3
        )
        inside = corner[0] <= room[0] and corner[1] <= room[1]
        edges = (corner[0], corner[1], room[0] - corner[0], room[1] - corner[1])
        is_apart = all(_box(one).distance(_box(opening)) > 1.5 * foot for one in (found[:-1] if where == 4 else found))
        overlaps = any(_box(one).intersection(_box(opening)).area for one in found)
        if inside and is_apart and not overlaps and not any(0 < edge < foot for edge in edges):
            found.append(opening)
    return found
