"""Where the exposed edges of laps between details lie, from the places and sizes of the two details alone."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Ply
from lapwright.roof.values import Area
from lapwright.rulecheck.details import Row
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.read import GivenLap, GivenPlan
from lapwright.rulecheck.readdetail import GivenDetail
from lapwright.rulecheck.values import XY

STRIPS = ("strip", "tie_in")
ON_TOP = ("flashing", "gusset", "tie_in", "pipe_strip")
UNDER_TOP = ("strip", "strip_corner")
PANELS = ("target", "pipe_strip")
NEAR = 0.002  # lines of details are read that exactly along their face [m]
TURNED_UP = ("parapet", "wall", "curb", "skylight", "hatch", "shaft")


@dataclass(frozen=True, slots=True)
class Edge:
    """The exposed edge of a lap: the lap, the later of its details, the edge in plan [m].

    At a wall the edge begins as far up it as the field goes there, laid flat.
    """

    lap: GivenLap
    over: GivenDetail
    line: tuple[XY, XY]


def edges_of(
    plan: GivenPlan, areas: Sequence[Area], plies: Sequence[Ply], rows: Sequence[Row], rise: float
) -> Iterator[Edge]:
    """The edges of the listed laps between details along a face, at a corner or about a place.

    rise: how far beyond a wall's line the top ply goes [m].  Laps of details that do not say where they lie are left
    out.
    Source: docs/method/rulecheck.md
    """
    details = {one.id: one for one in plan.details}
    by_face = {(row.area, row.face.of): row for row in rows}
    sheets = {ply.ply: metres(ply.sheet.side_lap_ticks) for ply in plies}
    is_ccw = {area.name: _area2(area.outline) > 0 for area in areas}
    patches: dict[tuple[str, str, str, str], list[GivenDetail]] = {}
    for one in plan.details:
        patches.setdefault((one.area, one.of, one.kind, one.ply), []).append(one)
    for lap in plan.laps:
        under, over = (details.get(id) for id in lap.pieces)
        if under is None or over is None or under.kind == "valley":
            continue
        row = by_face.get((under.area, under.of))
        line = None
        if over.kind in PANELS:
            line = _between_panels(over, patches[over.area, over.of, over.kind, over.ply], sheets)
        elif row is not None and under.line is not None:
            line = _along_face(lap, under, over, row, rise, is_left=is_ccw.get(row.area, True))
        if line is not None:
            yield Edge(lap, over, line)


def bed_of(detail: GivenDetail, plies: Sequence[Ply]) -> str:
    """The ply that a detail lies on; empty where it lies on none.

    A drain's metal is set under the top ply, and the target that closes it too.
    Source: docs/method/rulecheck.md
    """
    top, under = plies[-1].ply, plies[-2].ply
    kind = detail.kind
    if kind == "target":
        return top if detail.ply == top else under
    return top if kind in ON_TOP else under if kind in UNDER_TOP else ""


def _along_face(
    lap: GivenLap, under: GivenDetail, over: GivenDetail, row: Row, rise: float, *, is_left: bool
) -> tuple[XY, XY] | None:
    """The edge square to a face: of the next piece, or of what lies over a corner."""
    face = row.face
    along = face.place(lap.line[0])[0] if over.line else _off_corner(under, over, row)
    if over.kind in STRIPS or over.kind == "strip_corner":
        back = ahead = (under.width or 0.0) / 2
    elif over.kind in ("flashing", "gusset"):
        back, ahead = (rise if face.kind in TURNED_UP else 0.0), under.parts.get("field", 0.0)
    else:
        return None
    if along is None or ahead <= 0.0 or not all(_reaches(one, row, along) for one in (under, over)):
        return None
    x, y = face.at(along)
    dx, dy = ((b - a) / face.length for a, b in zip(face.start, face.end, strict=True))
    # the roof lies left of a side walked the way the outline turns, right of an opening's face
    nx, ny = (-dy, dx) if face.of.startswith("side ") and is_left else (dy, -dx)
    return ((x - nx * back, y - ny * back), (x + nx * ahead, y + ny * ahead))


def _reaches(detail: GivenDetail, row: Row, along: float) -> bool:
    """A detail lies there along its face, or has no line of its own."""
    places = [row.face.place(point)[0] for point in detail.line or ()]
    return not places or min(places) - NEAR <= along <= max(places) + NEAR


def _off_corner(under: GivenDetail, over: GivenDetail, row: Row) -> float | None:
    """Where what lies half on either side of a corner ends on a piece, along its face."""
    if over.at is None or under.line is None or over.width is None or over.length is None:
        return None
    corner = row.face.place(over.at)[0]
    ends = sorted((row.face.place(point)[0] for point in under.line), key=lambda at: abs(at - corner))
    half = (over.width if over.kind == "gusset" else over.length) / 2
    reach = min(half / row.face.stretch, abs(ends[1] - ends[0]))
    return corner + math.copysign(reach, ends[1] - corner)


def _between_panels(
    over: GivenDetail, panels: Sequence[GivenDetail], laps: Mapping[str, float]
) -> tuple[XY, XY] | None:
    """The edge of a panel on the one before it; all of them lie about one place, side by side from the west."""
    widths = [one.width for one in panels]
    if over.at is None or over.length is None or None in widths or over.ply not in laps:
        return None
    known = [width for width in widths if width is not None]
    lap, number = laps[over.ply], [one.id for one in panels].index(over.id)
    total = sum(known) - lap * (len(known) - 1)
    left = over.at[0] - total / 2 + sum(known[:number]) - lap * number
    return ((left, over.at[1] - over.length / 2), (left, over.at[1] + over.length / 2))


def _area2(ring: Sequence[tuple[int, int]]) -> float:
    return sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True))
