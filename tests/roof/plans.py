"""Roofs for the tests of the room, in feet."""

from __future__ import annotations

from typing import Any

from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.values import Area, Drain, Opening, Pipe

FOOT = 24_384
INCH = 2_032
SOUTH = (0.0, -1.0)
EAST = (1.0, 0.0)
RECTANGLE = [(0, 0), (120, 0), (120, 64), (0, 64)]
ELL = [(0, 0), (100, 0), (100, 40), (40, 40), (40, 80), (0, 80)]


def area(corners: list[tuple[float, float]], name: str = "Main", **given: Any) -> Area:
    """An area by its corners in feet, falling 1/4 in 12 to the south unless told otherwise."""
    outline = [(round(x * FOOT), round(y * FOOT)) for x, y in corners]
    return make_area(name, outline, **{"falls": SOUTH, "slope": 0.25 / 12, **given})


def opening(name: str, x: float, y: float, w: float = 8, h: float = 6) -> Opening:
    """A curb, counted in feet from the area's first corner."""
    return Opening(name, "curb", (round(x * FOOT), round(y * FOOT)), (round(w * FOOT), round(h * FOOT)))


def pipe(name: str, x: float, y: float, inches: float = 4) -> Pipe:
    """A pipe, counted in feet from the area's first corner."""
    return Pipe(name, (round(x * FOOT), round(y * FOOT)), round(inches * INCH))


def drain(name: str, x: float, y: float, diameter: float | None = None) -> Drain:
    """A drain in the field, counted in feet from the area's first corner."""
    return Drain(name, "drain", at=(round(x * FOOT), round(y * FOOT)), diameter=diameter)


def edges(**kinds: str) -> list[EdgeRow]:
    """Rows of edges by side: s1="parapet"."""
    return [EdgeRow((int(side[1:]),), kind) for side, kind in kinds.items()]
