"""The roof and its plies to scale, in metres: what plans, day sheets and the DXF have in common.

Sizes of marks (drains, T-joints) are millimetres of paper; `mm` says how many metres one of them is at the drawing's
scale.  Layers are named by ply and kind.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping

from lapwright.geometry.room import stretches_inside
from lapwright.layout.values import CornerCut, Frame, Lap, Layout, Piece, PlyLayout, TJoint
from lapwright.packet.drawing import Fill, Item, Points, Pt, Ring, Stroke, Weight, rectangle
from lapwright.packet.sheets.clip import Box
from lapwright.packet.sheets.edges import edge_strokes, outward, turning
from lapwright.roof.values import Area, Drain, Opening, Pipe, Point

TICKS = 80_000
PIPE_LEAST, DRAIN, TJOINT, SCUPPER, GUTTER_OFF = 0.9, 1.5, 0.75, 1.8, 2.4


def metres(point: Point) -> Pt:
    """A plan point [ticks] in metres."""
    return (point[0] / TICKS, point[1] / TICKS)


def outline(area: Area) -> Points:
    """An area's corners [m]."""
    return tuple(metres(point) for point in area.outline)


def clear_outside(areas: Iterable[Area], box: Box) -> Item:
    """Paper over everything in the box [m] that is on no area: what a ply's sheets reach over their edges."""
    left, low, right, high = box
    sheet = rectangle(left, low, right - left, high - low)
    return Fill((sheet, *map(outline, areas)), "ROOF-OUTLINE", ink="paper")


def roof_items(area: Area, mm: float) -> list[Item]:
    """Outline, edges, openings, pipes and drains of one area."""
    items: list[Item] = [Stroke(outline(area), "ROOF-OUTLINE", weight="hair", closed=True, name=area.name)]
    sense = turning(area)
    for edge in area.edges:
        items += edge_strokes(edge, metres(edge.start), metres(edge.end), sense=sense, mm=mm)
    for opening in area.openings:
        items += opening_items(opening)
    for pipe in area.pipes:
        items += pipe_items(pipe, mm)
    for drain in area.drains:
        items += drain_items(area, drain, mm)
    return items


def opening_items(opening: Opening) -> list[Item]:
    """Its hatched shape on clear paper; a shaft and a skylight are crossed through, within the shape."""
    ring = tuple(metres(point) for point in opening.outline)
    items: list[Item] = [
        Fill((ring,), "OPENINGS", ink="paper"),
        Fill((ring,), "OPENINGS", pattern="cross", ink="grey"),
        Stroke(ring, "OPENINGS", weight="heavy", closed=True, name=opening.name),
    ]
    crossed = {"shaft": 2, "skylight": 1}.get(opening.kind, 0)
    for start, end in diagonals(ring)[:crossed]:
        items += [Stroke(part, "OPENINGS", weight="thin") for part in stretches_inside(ring, start, end)]
    return items


def diagonals(ring: Points) -> tuple[tuple[Pt, Pt], tuple[Pt, Pt]]:
    """From corner to opposite corner of four, else of the upright box round the shape."""
    if len(ring) != 4:
        xs, ys = [x for x, _ in ring], [y for _, y in ring]
        ring = rectangle(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))
    return ((ring[0], ring[2]), (ring[1], ring[3]))


def pipe_items(pipe: Pipe, mm: float) -> list[Item]:
    """A ring of the pipe's size, never too small to see, with a cross through it."""
    x, y = metres(pipe.at)
    radius = max(pipe.diameter / 2 / TICKS, PIPE_LEAST * mm)
    reach = radius + 0.7 * mm
    return [
        Ring((x, y), radius, "PIPES", weight="medium", filled="paper", name=pipe.name),
        Stroke(((x - reach, y), (x + reach, y)), "PIPES", weight="hair"),
        Stroke(((x, y - reach), (x, y + reach)), "PIPES", weight="hair"),
    ]


def drain_items(area: Area, drain: Drain, mm: float) -> list[Item]:
    """The mark of a way out for water; none where its place is not given."""
    if drain.kind == "gutter":
        return gutter_items(area, drain, mm)
    at = drain_place(area, drain)
    if at is None:
        return []
    if drain.kind in ("scupper", "overflow_scupper"):
        return scupper_items(area, drain, at, mm)
    size = DRAIN * mm
    items: list[Item] = []
    if drain.kind == "overflow_drain":
        square = rectangle(at[0] - size * 1.25, at[1] - size * 1.25, size * 2.5, size * 2.5)
        items += [
            Fill((square,), "DRAINS", ink="paper"),
            Stroke(square, "DRAINS", weight="medium", closed=True, name=drain.name),
            Ring(at, size * 0.7, "DRAINS", weight="medium"),
        ]
        return items
    return [
        Ring(at, size, "DRAINS", weight="medium", filled="paper", name=drain.name),
        Ring(at, size * 0.45, "DRAINS", weight="thin", filled="ink"),
    ]


def drain_place(area: Area, drain: Drain) -> Pt | None:
    """Where a drain or scupper stands [m]; the middle of the side for a gutter."""
    if drain.at is not None:
        return metres(drain.at)
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if edge is None:
        return None
    start, end = metres(edge.start), metres(edge.end)
    length = math.dist(start, end)
    if length == 0:
        return start
    if drain.kind == "gutter":
        share = 0.5
    elif drain.from_start is None:
        return None
    else:
        share = drain.from_start / length
    return (start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share)


def scupper_items(area: Area, drain: Drain, at: Pt, mm: float) -> list[Item]:
    """A triangle pointing out through the edge: filled, or open for an overflow."""
    edge = next(edge for edge in area.edges if edge.side == drain.side)
    out = outward(edge.start, edge.end, turning(area))
    along = (-out[1], out[0])
    size = SCUPPER * mm
    base = [
        (at[0] + along[0] * side * size - out[0] * size, at[1] + along[1] * side * size - out[1] * size)
        for side in (-1, 1)
    ]
    ring = (base[0], base[1], (at[0] + out[0] * size * 1.4, at[1] + out[1] * size * 1.4))
    ink: Item = Fill((ring,), "DRAINS", ink="ink" if drain.kind == "scupper" else "paper")
    return [ink, Stroke(ring, "DRAINS", weight="medium", closed=True, name=drain.name)]


def gutter_items(area: Area, drain: Drain, mm: float) -> list[Item]:
    """Two dashed lines outside its side."""
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if edge is None:
        return []
    out = outward(edge.start, edge.end, turning(area))
    items: list[Item] = []
    for off, name in ((1.2 * mm, ""), (GUTTER_OFF * mm, drain.name)):
        points = tuple((x + out[0] * off, y + out[1] * off) for x, y in (metres(edge.start), metres(edge.end)))
        items.append(Stroke(points, "DRAINS", line="hidden", weight="thin", name=name))
    return items


def piece_ring(frame: Frame, piece: Piece) -> Points:
    """The rectangle of a piece as laid [m]."""
    return tuple(
        frame.plan(u, v)
        for u, v in ((piece.u0, piece.v0), (piece.u1, piece.v0), (piece.u1, piece.v1), (piece.u0, piece.v1))
    )


def cut_line(frame: Frame, piece: Piece, cut: CornerCut) -> Points:
    """The line of a corner cut: from along the piece's length to across its width [m]."""
    u, v = cut.corner
    inward = 1 if u == piece.u0 else -1
    upward = 1 if v == piece.v0 else -1
    return (frame.plan(u + inward * cut.along, v), frame.plan(u, v + upward * cut.across))


def ply_prefix(ply: str) -> str:
    """What the layers of a ply begin with."""
    return ply.upper()


def lap_items(laps: Iterable[Lap]) -> list[Item]:
    """Exposed edges: side laps thin, end laps heavier."""
    items: list[Item] = []
    for lap in laps:
        if lap.kind in ("side", "end"):
            layer = f"{ply_prefix(lap.ply)}-{'SIDE' if lap.kind == 'side' else 'END'}-LAPS"
            weight: Weight = "thin" if lap.kind == "side" else "heavy"
            items.append(Stroke(lap.line, layer, weight=weight, name=lap.id))
    return items


def joint_items(
    frames: Mapping[str, Frame], pieces: Iterable[Piece], joints: Iterable[TJoint], mm: float
) -> list[Item]:
    """Corner cuts to scale, and a ring at each T-joint."""
    items: list[Item] = [
        Stroke(
            cut_line(frames[piece.area], piece, cut), f"{ply_prefix(piece.ply)}-CORNER-CUTS", name=f"{piece.id}/cut {k}"
        )
        for piece in pieces
        for k, cut in enumerate(piece.corner_cuts, start=1)
    ]
    items += [Ring(joint.at, TJOINT * mm, f"{ply_prefix(joint.ply)}-TJOINTS", name=joint.id) for joint in joints]
    return items


def blank_items(layout: Layout, ply: PlyLayout) -> list[Item]:
    """The sheets as cut: every piece's rectangle and every course's low edge, for the draughtsman."""
    frame, prefix = layout.frames[ply.area], ply_prefix(ply.ply)
    items: list[Item] = [
        Stroke(piece_ring(frame, piece), f"{prefix}-PIECES", closed=True, name=piece.id) for piece in ply.pieces
    ]
    for course in ply.courses:
        row = [piece for piece in ply.pieces if piece.course == course.index]
        if row:
            ends = (frame.plan(min(p.u0 for p in row), course.low), frame.plan(max(p.u1 for p in row), course.low))
            items.append(Stroke(ends, f"{prefix}-COURSES", line="centre", weight="hair", name=f"course {course.index}"))
    return items
