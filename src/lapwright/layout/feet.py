"""Feet of details: the exposed edges with which flashings, strips and patches lie on a ply, as laps.

*Bed*: the ply that a detail lies on.  A flashing has one foot, the end of its leg; a strip the edge that lies on the
roof; a patch its rim, side by side; a gusset at an outside corner two that carry on the feet of the two faces.  Of
pieces that follow one another each shows its foot up to where the next one begins.  Along the line of a valley, where
the courses end short of it, what shows of the bed is the valley sheet.
"""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise

from lapwright.assembly.values import Assembly
from lapwright.geometry.polygon import sides_of, signed_area2
from lapwright.layout.plain import plain
from lapwright.layout.values import XY, Detail, Frame, Lap, Piece, PlyLayout
from lapwright.roof.values import Area, Point

TICKS = 80_000.0
UNDER_TOP = ("strip", "strip_corner")
ON_TOP = ("flashing", "gusset", "tie_in", "pipe_strip")
ROWS, PATCHES = ("flashing", "strip", "tie_in"), ("target", "pipe_strip")
PROBES = (0.5, 0.1, 0.9)  # shares of a foot at which the sheet under it is looked for
LEAST = 1e-6  # a shorter foot is none [m]
BELOW, BESIDE = 3, 6  # courses under a place, and pieces of a course that begin before it, of which one can lie there

Way = tuple[float, float]
Line = tuple[XY, XY]


@plain
class Foot:
    """An edge of a detail on its bed: how the lap's id ends, where it runs in plan [m], how far the detail reaches."""

    detail: Detail
    name: str
    line: Line
    width: float


@dataclass(slots=True)
class Rows:
    """The pieces of one ply on one area by courses, to be found by a place."""

    frame: Frame
    lows: list[int] = field(default_factory=list)
    courses: list[tuple[list[int], list[Piece]]] = field(default_factory=list)

    def at(self, point: XY) -> Piece | None:
        """The piece that lies on top at a plan point [m].

        Runs of one course may lie beside one another past an odd opening, one higher than the other.
        """
        u, v = self.frame.slope_uv(point[0] * TICKS, point[1] * TICKS)
        above = bisect_right(self.lows, v)
        for k in range(above - 1, max(-1, above - 1 - BELOW), -1):
            begins, pieces = self.courses[k]
            last = bisect_right(begins, u) - 1
            for place in range(last, max(-1, last - BESIDE), -1):
                one = pieces[place]
                if one.u0 <= u <= one.u1 and one.v0 <= v <= one.v1:
                    return one
        return None


def feet_laps(
    details: Sequence[Detail],
    plies: Sequence[PlyLayout],
    areas: Sequence[Area],
    frames: Mapping[str, Frame],
    assembly: Assembly,
) -> list[Lap]:
    """Every foot of a detail as a lap of the piece, or the valley sheet, under its middle and the detail.

    Source: common practice, no source; geometry
    Checked: tests/layout/test_feet.py
    """
    rows = {(ply.area, ply.ply): rows_of(ply, frames[ply.area]) for ply in plies}
    laps = {ply.ply: ply.sheet.side_lap_ticks / TICKS for ply in assembly.plies}
    ways = {area.name: ways_of(area) for area in areas}
    corners = {area.name: corner_faces(area) for area in areas}
    valleys = {ply: [one for one in details if one.kind == "valley" and one.ply == ply] for ply in laps}
    found: list[Lap] = []
    for group in alike(details):
        first = group[0]
        bed = bed_of(first, assembly)
        if bed is None:
            continue
        for foot in feet_of(group, ways[first.area], corners[first.area], laps):
            under = piece_under(foot.line, first.area, bed, rows) or valley_under(foot.line, valleys[bed])
            if under is not None:
                found.append(as_lap(foot, under, frames[under.area]))
    return found


def rows_of(ply: PlyLayout, frame: Frame) -> Rows:
    """A ply's pieces by courses, from the low edge up and from the left."""
    found, courses = Rows(frame), dict[int, list[Piece]]()
    for piece in ply.pieces:
        courses.setdefault(piece.course, []).append(piece)
    for row in sorted(courses.values(), key=lambda row: min(piece.v0 for piece in row)):
        row.sort(key=lambda piece: piece.u0)
        found.lows.append(min(piece.v0 for piece in row))
        found.courses.append(([piece.u0 for piece in row], row))
    return found


def alike(details: Iterable[Detail]) -> Iterator[list[Detail]]:
    """Details that follow one another in the list and belong to the same, of one kind and ply, together."""
    group: list[Detail] = []
    for one in details:
        if group and (one.area, one.of, one.kind, one.ply) != (
            group[0].area,
            group[0].of,
            group[0].kind,
            group[0].ply,
        ):
            yield group
            group = []
        group.append(one)
    if group:
        yield group


def bed_of(detail: Detail | None, assembly: Assembly) -> str | None:
    """The ply that a detail lies on; a base target closes the drain's metal under the cap."""
    top, under = assembly.plies[-1].ply, assembly.plies[-2].ply
    if detail is None:
        return None
    if detail.kind == "target":
        return top if detail.ply == top else under
    return top if detail.kind in ON_TOP else under if detail.kind in UNDER_TOP else None


def ways_of(area: Area) -> dict[str, Way]:
    """The way from each side and each face of an opening to the roof, by what its details belong to.

    Source: geometry
    """
    sense = 1.0 if signed_area2(area.outline) > 0 else -1.0
    found = {f"side {edge.side}": leftward(edge.start, edge.end, sense) for edge in area.edges}
    for opening in area.openings:
        for name, (start, end) in zip(opening.faces, sides_of(opening.outline), strict=True):
            found[f"{opening.name} {name}"] = leftward(start, end, -1.0)
    return found


def leftward(start: Point, end: Point, sense: float) -> Way:
    """The unit vector to the left of a line; sense -1: to its right.  Source: geometry"""
    more = sense / math.dist(start, end)
    return (-(end[1] - start[1]) * more, (end[0] - start[0]) * more)


def corner_faces(area: Area) -> dict[str, tuple[str, str]]:
    """The two faces at each corner of the outline and of the openings, by what a gusset there belongs to."""
    found = {}
    for one, two in pairwise((*area.edges, area.edges[0])):
        found[f"corner of sides {one.side} and {two.side}"] = (f"side {one.side}", f"side {two.side}")
    for opening in area.openings:
        names = [f"{opening.name} {face}" for face in opening.faces]
        for k, name in enumerate(opening.corner_names):
            found[f"{opening.name} {name}"] = (names[k - 1], names[k])
    return found


def feet_of(
    group: Sequence[Detail],
    ways: Mapping[str, Way],
    corners: Mapping[str, tuple[str, str]],
    laps: Mapping[str, float],
) -> Iterator[Foot]:
    """The feet of details that follow one another.  laps: side lap of each ply's sheet [m]."""
    first = group[0]
    if first.kind in ROWS and first.of in ways:
        yield from row_feet(group, ways[first.of])
    elif first.kind in PATCHES and first.at is not None:
        yield from patch_feet(group, first.at, laps.get(first.ply, 0.0))
    elif first.kind == "gusset":
        for one in group:
            faces = corners.get(one.of, ("", ""))
            if one.form == "outside" and one.id.endswith("foot") and one.at and all(face in ways for face in faces):
                yield from gusset_feet(one, one.at, faces, ways)


def row_feet(group: Sequence[Detail], way: Way) -> Iterator[Foot]:
    """Feet of flashings or strips along a face; strips lie half on either side of the line."""
    for one, after in zip(group, (*group[1:], None), strict=True):
        if one.line is None:
            continue
        start, end = one.line
        if after is not None and after.line is not None and math.dist(start, after.line[0]) < math.dist(start, end):
            end = after.line[0]
        reach = one.parts["field"] if one.kind == "flashing" else one.width / 2
        dx, dy = way[0] * reach, way[1] * reach
        yield Foot(one, "foot", ((start[0] + dx, start[1] + dy), (end[0] + dx, end[1] + dy)), reach)


def patch_feet(panels: Sequence[Detail], at: XY, lap: float) -> Iterator[Foot]:
    """The rim of a patch about a place, side by side; of its panels each shows what no later one lies on."""
    total = sum(one.width for one in panels) - lap * (len(panels) - 1)
    half, west = panels[0].length / 2, at[0] - total / 2
    south, north = at[1] - half, at[1] + half
    for k, one in enumerate(panels):
        is_first, is_last = k == 0, k == len(panels) - 1
        east = west + one.width - (0.0 if is_last else lap)
        yield Foot(one, "rim S", ((west, south), (east, south)), half)
        if is_last:
            yield Foot(one, "rim E", ((east, south), (east, north)), total / 2)
        yield Foot(one, "rim N", ((east, north), (west, north)), half)
        if is_first:
            yield Foot(one, "rim W", ((west, north), (west, south)), total / 2)
        west = east


def gusset_feet(gusset: Detail, at: XY, faces: Sequence[str], ways: Mapping[str, Way]) -> Iterator[Foot]:
    """What a gusset at the foot of an outside corner closes: each face's foot carried on until the two meet.

    No farther than half the gusset, where the corner is sharp.
    Source: geometry
    """
    half = gusset.width / 2
    for face, other in (faces, faces[::-1]):
        (nx, ny), (mx, my) = ways[face], ways[other]
        both, turned = nx * mx + ny * my, abs(nx * my - ny * mx)
        if turned < LEAST:
            continue
        on = min(half, half * (1.0 - both) / turned)
        dx, dy = ((m - both * n) / turned for m, n in ((mx, nx), (my, ny)))
        x, y = at[0] + nx * half, at[1] + ny * half
        yield Foot(gusset, f"foot {face}", ((x, y), (x + dx * on, y + dy * on)), half)


def piece_under(line: Line, area: str, bed: str, rows: Mapping[tuple[str, str], Rows]) -> Piece | None:
    """The piece of a ply under the middle of a foot, or near an end of it; of its own area before others."""
    own = rows[area, bed]
    others = [one for (name, ply), one in rows.items() if ply == bed and name != area]
    for at in probed(line):
        for one in (own, *others):
            found = one.at(at)
            if found is not None:
                return found
    return None


def probed(line: Line) -> Iterator[XY]:
    """The middle of a foot, then places near its ends.  Source: arithmetic"""
    (x0, y0), (x1, y1) = line
    yield from ((x0 + (x1 - x0) * share, y0 + (y1 - y0) * share) for share in PROBES)


def valley_under(line: Line, sheets: Sequence[Detail]) -> Detail | None:
    """The valley sheet under the middle of a foot, or near an end of it; of two that lap, the upper.

    Source: geometry; the sheet's width is taken in plan, where it is no wider than on the slope
    """
    for at in probed(line):
        for one in reversed(sheets):
            if one.line is not None and is_within(at, one.line, one.width / 2):
                return one
    return None


def is_within(at: XY, line: Line, off: float) -> bool:
    """A point lies beside a line and no farther off it, to within a hair at its ends.  Source: geometry"""
    (x0, y0), (x1, y1) = line
    dx, dy, long = x1 - x0, y1 - y0, math.dist(*line)
    along = ((at[0] - x0) * dx + (at[1] - y0) * dy) / long
    return -LEAST <= along <= long + LEAST and abs((at[1] - y0) * dx - (at[0] - x0) * dy) <= off * long


def as_lap(foot: Foot, under: Piece | Detail, frame: Frame) -> Lap:
    """A foot as a lap; its length is that on the slope, of a patch, which is drawn by its sizes, as it is drawn."""
    one = foot.detail
    kind = "strip" if one.kind in ("strip", "tie_in") else "flashing"
    (u0, v0), (u1, v1) = (frame.slope_uv(x * TICKS, y * TICKS) for x, y in foot.line)
    long = math.dist(*foot.line) if one.kind in PATCHES else math.dist((u0, v0), (u1, v1)) / TICKS
    return Lap(f"{one.id}/{foot.name}", kind, one.area, one.ply, (under.id, one.id), foot.line, long, foot.width)
