"""Edges of a roof by line type and word: no kind is told apart by a colour.

metal edge: one full line; parapet: two lines; wall: a line with slanting ticks outside; ridge: dash-dot; valley:
dash-dot-dot; step: a full and a dashed line; expansion joint: two dashed lines; tie-in: dashed; not given: dotted.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from types import MappingProxyType

from lapwright.geometry.polygon import signed_area2
from lapwright.packet.drawing import Item, Line, Pt, Stroke, Weight
from lapwright.roof.values import Area, Edge

WORDS: Mapping[str | None, str] = MappingProxyType(
    {
        "metal_edge": "metal edge",
        "parapet": "parapet",
        "wall": "wall",
        "ridge": "ridge",
        "valley": "valley",
        "step": "step",
        "expansion": "expansion joint",
        "tie_in": "tie-in",
        None: "edge not given",
    }
)
# For each kind: lines as (distance outside the edge [mm], line type, weight).
LINES: Mapping[str | None, tuple[tuple[float, Line, Weight], ...]] = MappingProxyType(
    {
        "metal_edge": ((0.0, "solid", "outline"),),
        "parapet": ((0.0, "solid", "medium"), (1.3, "solid", "medium")),
        "wall": ((0.0, "solid", "heavy"),),
        "ridge": ((0.0, "centre", "heavy"),),
        "valley": ((0.0, "phantom", "heavy"),),
        "step": ((0.0, "solid", "heavy"), (1.2, "hidden", "medium")),
        "expansion": ((-0.6, "hidden", "heavy"), (0.6, "hidden", "heavy")),
        "tie_in": ((0.0, "hidden", "outline"),),
        None: ((0.0, "dotted", "heavy"),),
    }
)
TICK, TICK_STEP = 1.5, 2.6


def layer_of(kind: str | None) -> str:
    """The layer of an edge's lines: METAL goes with EDGES as a draughtsman would look for it."""
    return "EDGES-" + {"metal_edge": "metal", None: "not given"}.get(kind, kind or "").replace("_", " ")


def turning(area: Area) -> float:
    """1 where the outline is walked counter-clockwise, -1 where clockwise; reckon it once for an area."""
    return 1.0 if signed_area2(area.outline) > 0 else -1.0


def outward(start: Pt, end: Pt, sense: float) -> Pt:
    """Unit vector out of the roof across a side; `sense` is the outline's turning."""
    length = math.dist(start, end)
    if length == 0:
        return (0.0, 0.0)
    return (sense * (end[1] - start[1]) / length, -sense * (end[0] - start[0]) / length)


def edge_strokes(edge: Edge, start: Pt, end: Pt, *, sense: float, mm: float) -> tuple[Item, ...]:
    """The lines of one side; start and end in the drawing's coordinates, `mm` a millimetre of paper in them."""
    return kind_strokes(edge.kind, start, end, outward(edge.start, edge.end, sense), mm)


def kind_strokes(kind: str | None, start: Pt, end: Pt, out: Pt, mm: float) -> tuple[Item, ...]:
    """The lines of an edge of a kind, `out` pointing out of the roof."""
    layer = layer_of(kind)
    strokes: list[Item] = []
    for distance, line, weight in LINES.get(kind, LINES[None]):
        shift = (out[0] * distance * mm, out[1] * distance * mm)
        points = tuple((x + shift[0], y + shift[1]) for x, y in (start, end))
        strokes.append(Stroke(points, layer, line=line, weight=weight))
    if kind == "wall":
        strokes += wall_ticks(start, end, out, mm)
    return tuple(strokes)


def wall_ticks(start: Pt, end: Pt, out: Pt, mm: float) -> list[Stroke]:
    """Slanting ticks outside a wall's line."""
    length = math.dist(start, end)
    if length == 0:
        return []
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    count = max(1, math.floor(length / (TICK_STEP * mm)))
    step = length / count
    size = TICK * mm
    strokes = []
    for k in range(count):
        x, y = start[0] + along[0] * (k + 0.4) * step, start[1] + along[1] * (k + 0.4) * step
        tip = (x + (out[0] + along[0] * 0.6) * size, y + (out[1] + along[1] * 0.6) * size)
        strokes.append(Stroke(((x, y), tip), layer_of("wall"), weight="thin"))
    return strokes
