"""A roof's outline from one layer of a DXF drawing: a closed polyline, or lines joined end to end.

What is repaired on the way is told as Mended; what can't be an outline is refused with what to do.
"""

from __future__ import annotations

import logging
import math
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from io import StringIO
from typing import Any

from lapwright.defaults.table import table
from lapwright.faults import Mended, Refused, shorten
from lapwright.geometry.polygon import Point
from lapwright.intake.plan_chains import Chain, Joined, join_chains
from lapwright.intake.plan_scale import (
    Source,
    as_ticks,
    check_size,
    chosen,
    refusal,
    taken_in,
    unit_size,
    without_repeats,
)
from lapwright.intake.plan_tags import Drawing, Drawn, decoded, scanned
from lapwright.units.read import length_ticks
from lapwright.units.write import Units

INSUNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m", 21: "ftUS"}
LINES = ("LINE", "LWPOLYLINE", "POLYLINE")
ARC_SIDES_MOST = 2_000
SPLINE_FRAME = 16
XY = tuple[float, float]


@dataclass(frozen=True, slots=True)
class _Asked:
    """What was asked for: file and layer by name, how to show lengths."""

    file: str
    layer: str
    shown: Units

    @property
    def key(self) -> str:
        return f"layer {shorten(self.layer, 40)}"

    def in_unit(self, unit: str) -> str:
        """The job file's outline with the drawing's unit."""
        return f"{{dxf: {self.file}, layer: {self.layer}, units: {unit}}}"

    def refused(self, read: str, needs: str, write: str) -> Refused:
        return refusal(self.file, self.key, read, needs, write)

    def mended(self, found: str, done: str) -> Mended:
        return Mended(self.file, self.key, found, done)


def read_outline(
    source: Source, *, file: str, layer: str, units: str | None = None, shown: Units | None = None
) -> tuple[tuple[Point, ...], tuple[Mended, ...]]:
    """The corners of the one outline on a layer, in drawing coordinates [ticks], and what was repaired.

    Args:
        source: an open stream, bytes or text of a DXF drawing.
        file: its name, for faults and notes.  layer: whose lines are the outline.
        units: in, ft, ftUS, mm, cm or m; by default what the drawing says (INSUNITS).
        shown: how lengths are written in faults and notes; by default US.

    Holds for: outlines drawn in plan in model space.  Arcs are cut into straight sides.
    Raises: Refused; never another exception for a drawing that can't be read.
    Checked: tests/intake/test_plan_dxf.py
    """
    asked = _Asked(file, layer, shown or Units())
    drawing = scanned(decoded(taken_in(source, file=file), file=file), file=file)
    unit, notes = _unit(drawing, units, asked)
    size = unit_size(unit, file=file)
    entities = _entities(drawing, asked)
    joined, found = _outlines(_loaded(drawing, entities, asked), size, asked)
    outline, mended = _the_one(joined, entities, asked)
    check_size(outline, unit=unit, file=file, key=asked.key, rewrite=asked.in_unit)
    return tuple(outline), (*notes, *found, *mended)


def _unit(drawing: Drawing, units: str | None, asked: _Asked) -> tuple[str, list[Mended]]:
    """The drawing's unit: the job file's, else what the drawing says."""
    code = drawing.insunits
    said = INSUNITS.get(code) if code is not None else None
    if units is not None:
        if said is None or said == units:
            return units, []
        return units, [
            Mended(asked.file, "INSUNITS", f"the drawing says {said}", f"read in {units}, as the job file says")
        ]
    if said is None:
        read = "no unit (INSUNITS is absent)" if code is None else f"INSUNITS {code}"
        needs = "the unit of the drawing, one of in, ft, ftUS, mm, cm, m"
        raise refusal(asked.file, "units", read, needs, asked.in_unit("in"))
    return said, []


def _entities(drawing: Drawing, asked: _Asked) -> list[Drawn]:
    """What is drawn on the layer in model space."""
    names = list(drawing.layers)
    if asked.layer.casefold() not in [name.casefold() for name in names]:
        choices, close = chosen(asked.layer, names)
        raise asked.refused(asked.layer, f"a layer of the drawing: {choices}", f"layer: {close}")
    entities = drawing.on_layer(asked.layer)
    if not any(each.kind in LINES for each in entities):
        holds = _counted(each.kind for each in entities) or "nothing in model space"
        write = "the layer that holds the outline; an outline in a block is exploded first"
        raise asked.refused(holds, "a closed polyline, or lines end to end, on the layer", write)
    return entities


def _counted(kinds: Iterable[str]) -> str:
    return ", ".join(f"{count} {kind}" for kind, count in Counter(kinds).items())


def _loaded(drawing: Drawing, entities: Sequence[Drawn], asked: _Asked) -> list[Any]:
    """The layer's lines and polylines as ezdxf reads them."""
    from ezdxf.filemanagement import read  # heavy: only for jobs with a drawing
    from ezdxf.lldxf.const import DXFError

    if not logging.getLogger("ezdxf").handlers:  # else its remarks about a drawing land on the terminal
        logging.getLogger("ezdxf").addHandler(logging.NullHandler())
    lines = [each for each in entities if each.kind in LINES]
    most = 10 * int(table("roof")["corners_most"].number())
    if sum(each.last - each.first for each in lines) > 16 * most:
        raise asked.refused(
            f"{len(lines):,} lines", "the outline alone on its layer", "a layer of its own for the outline"
        )
    try:
        return list(read(StringIO(drawing.part(lines))).modelspace())
    except (DXFError, ArithmeticError, AttributeError, LookupError, TypeError, ValueError):
        # ezdxf says what is wrong with a broken drawing in any of these ways; all mean that it can't be read
        needs = "a whole DXF drawing"
        raise asked.refused("lines that break off or hold no numbers", needs, "the drawing saved once more") from None


def _outlines(entities: Iterable[Any], size: Fraction, asked: _Asked) -> tuple[Joined, list[Mended]]:
    """Closed and open outlines in ticks, and notes about arcs and loose lines."""
    closed: list[Chain] = []
    loose: list[Chain] = []
    arcs = straight = lines = 0
    flat = float(length_ticks(table("roof")["arc_flat"].value) / size)
    for entity in entities:
        corners, is_closed = _corners(entity, asked)
        points: list[XY] = []
        for here, there in zip(corners, corners[1:] + corners[:1], strict=True):
            points.append(here[:2])
            is_side = there is not corners[0] or is_closed
            if is_side and here[2]:
                between = arc_points(here[:2], there[:2], here[2], within=flat)
                points += between
                arcs, straight = arcs + 1, straight + len(between) + 1
        chain = [as_ticks(x, y, size) for x, y in points]
        lines += entity.dxftype() == "LINE"
        (closed if is_closed else loose).append(chain)
    within = length_ticks(table("roof")["line_join"].value)
    joined = join_chains(loose, within=within)
    joined.closed = [without_repeats(chain) for chain in closed + joined.closed]
    return joined, list(_joining_notes(joined, lines, (arcs, straight), asked))


def _joining_notes(joined: Joined, lines: int, arcs: tuple[int, int], asked: _Asked) -> Iterable[Mended]:
    """What was done to loose lines, small gaps and arcs (how many, into how many sides)."""
    rows = table("roof")
    if arcs[0]:
        yield asked.mended(f"arcs: {arcs[0]}", f"cut into {arcs[1]} straight sides within {rows['arc_flat'].value}")
    if joined.twice:
        yield asked.mended(f"lines drawn twice: {joined.twice}", "read once")
    gap = f"widest gap closed {joined.widest / 80:.2g} mm"
    if lines:
        done = f"joined end to end where ends lie within {rows['line_join'].value}"
        yield asked.mended(f"single lines: {lines}", f"{done}; {gap}" if joined.widest else done)
    elif joined.widest:
        yield asked.mended("lines whose ends do not quite meet", f"joined; {gap}")


def _corners(entity: Any, asked: _Asked) -> tuple[list[tuple[float, float, float]], bool]:  # noqa: ANN401  # no types
    """Corners in plan with the bulge of the side that starts there, and whether the outline is closed."""
    kind = entity.dxftype()
    if kind == "LINE":
        corners = [(entity.dxf.start.x, entity.dxf.start.y, 0.0), (entity.dxf.end.x, entity.dxf.end.y, 0.0)]
        is_closed = False
    elif kind == "LWPOLYLINE":
        corners = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
        is_closed = bool(entity.closed)
    elif entity.is_2d_polyline or entity.is_3d_polyline:
        vertices = [each for each in entity.vertices if not each.dxf.flags & SPLINE_FRAME]
        corners = [(each.dxf.location.x, each.dxf.location.y, each.dxf.get("bulge", 0.0)) for each in vertices]
        is_closed = bool(entity.is_closed)
    else:
        raise asked.refused("a POLYLINE that is a mesh", "a closed polyline in plan", "the outline as a polyline")
    if not all(math.isfinite(number) for corner in corners for number in corner):
        raise asked.refused(
            "a coordinate that is no number (NaN or infinite)", "finite coordinates", "the side redrawn"
        )
    if kind != "LINE" and not (kind == "POLYLINE" and entity.is_3d_polyline):
        corners = _from_above(corners, entity.dxf.extrusion, asked)
    return corners, is_closed


def _from_above(
    corners: list[tuple[float, float, float]],
    up: Any,  # noqa: ANN401  # ezdxf's vector
    asked: _Asked,
) -> list[tuple[float, float, float]]:
    """Corners of a polyline drawn from above or, mirrored, from below."""
    if abs(up.x) > 1e-9 or abs(up.y) > 1e-9 or up.z == 0 or not math.isfinite(up.z):
        raise asked.refused(
            "a polyline drawn on a tilted plane", "an outline drawn in plan", "the outline drawn from above"
        )
    if up.z > 0:
        return corners
    return [(-x, y, -bulge) for x, y, bulge in corners]  # the drawing's rule for a plane seen from below


def arc_points(start: XY, end: XY, bulge: float, *, within: float) -> list[XY]:
    """Points on an arc between its ends, so many that chords stay within a distance of it.

    bulge: tangent of a quarter of the arc's angle, above 0 counter-clockwise.
    Source: DXF reference, LWPOLYLINE group code 42 [from memory]; arithmetic of the circle
    Checked: tests/intake/test_plan_dxf.py
    """
    chord = math.dist(start, end)
    radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
    if radius == 0 or not math.isfinite(radius):
        return []
    angle = 4 * math.atan(bulge)
    step = 2 * math.acos(1 - within / radius) if within < radius else math.pi / 2
    count = min(ARC_SIDES_MOST, math.ceil(abs(angle) / step))
    aside = (1 - bulge * bulge) / (4 * bulge)  # of the centre from the chord's middle, to its left, in chords
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    centre = (middle[0] - (end[1] - start[1]) * aside, middle[1] + (end[0] - start[0]) * aside)
    from_x, from_y = start[0] - centre[0], start[1] - centre[1]
    found = []
    for number in range(1, count):
        cosine, sine = math.cos(angle * number / count), math.sin(angle * number / count)
        found.append((centre[0] + from_x * cosine - from_y * sine, centre[1] + from_x * sine + from_y * cosine))
    return found


def _the_one(joined: Joined, entities: Sequence[Drawn], asked: _Asked) -> tuple[list[Point], list[Mended]]:
    """The one outline that is there; left-outs and a small gap closed are told."""
    notes = []
    closed = [chain for chain in joined.closed if len(chain) > 2]
    different = {frozenset(chain): chain for chain in reversed(closed)}
    if len(different) < len(closed):
        notes.append(asked.mended(f"the same outline drawn {len(closed)} times", "read once"))
    if len(different) > 1:
        needs = "one closed outline on the layer"
        raise asked.refused(f"closed outlines: {len(different)}", needs, "each area's outline on a layer of its own")
    left_out = [each.kind for each in entities if each.kind not in LINES]
    if different:
        left_out += ["open line"] * len(joined.still_open)
        outline = closed[0]
    else:
        outline, mended = _closed_by_hand(joined.still_open, asked)
        notes += mended
    if left_out:
        notes.append(asked.mended(f"also on the layer: {_counted(left_out)}", "left out"))
    return outline, notes


def _closed_by_hand(chains: Sequence[Chain], asked: _Asked) -> tuple[list[Point], list[Mended]]:
    """An open line whose ends lie close together, closed."""
    if not chains:
        raise asked.refused("lines without a length", "a closed polyline on the layer", "the outline redrawn")
    if len(chains) > 1:
        gap = min(_gaps(chains[:50]))
        read = (
            f"open lines: {len(chains)}; the two ends nearest to one another are {asked.shown.tape(round(gap))} apart"
        )
        raise asked.refused(read, "one closed outline on the layer", "the lines drawn until their ends meet")
    gap = math.dist(chains[0][0], chains[0][-1])
    limit = table("roof")["open_end"].value
    chain = without_repeats(chains[0][:-1])
    if len(chain) < 3 or gap > length_ticks(limit):
        read = f"an open line, its ends {asked.shown.tape(round(gap))} apart"
        raise asked.refused(read, f"a closed outline, or ends within {limit}", "the polyline closed in the drawing")
    return chain, [asked.mended(f"ends {asked.shown.tape(round(gap))} apart", "the last end set on the first")]


def _gaps(chains: Sequence[Chain]) -> Iterable[float]:
    """Distances between ends of different lines."""
    for place, one in enumerate(chains):
        for two in chains[:place]:
            yield from (math.dist(a, b) for a in (one[0], one[-1]) for b in (two[0], two[-1]))
