"""Small roofs and default sheets for the layout's tests, in inches and feet, so that a pencil can follow."""

from __future__ import annotations

from dataclasses import replace

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.defaults.values import Rules
from lapwright.roof.values import Area, Edge, Opening, Point

INCH = 2_032
FOOT = 24_384
GRID = 127
BRIEF = 0.05  # share of the search for joints, where what is asked does not hang on how little is used

BASE = Sheet("base-sa", 39 * INCH + 762, 65 * FOOT + 7 * INCH, 3 * INCH, 6 * INCH, 0.0015, 10.0, -6.67)
CAP = Sheet("cap-sa", 39 * INCH + 762, 32 * FOOT + 10 * INCH, 3 * INCH, 6 * INCH, 0.004, 10.0, None, -6.67)
TWO_PLIES = Assembly((Ply("base", BASE, "self_adhered"), Ply("cap", CAP, "self_adhered")))
THREE_PLIES = Assembly((TWO_PLIES.plies[0], Ply("interply", BASE, "self_adhered"), TWO_PLIES.plies[1]))


def rules(**given: str) -> Rules:
    """The default rules with some overridden, as typed in a job file."""
    return make_rules(given)


def inches(value: float) -> int:
    """Inches in ticks."""
    return round(value * INCH)


def make_area(
    points: list[Point], kinds: list[str], falls: tuple[float, float] = (0.0, -1.0), openings: tuple[Opening, ...] = ()
) -> Area:
    """An area at 1/4 in 12 from its corners [ticks] and the kinds of its sides."""
    ends = [*points[1:], points[0]]
    edges = tuple(
        Edge(k, kind, a, b, height=0.3556)
        for k, (kind, a, b) in enumerate(zip(kinds, points, ends, strict=True), start=1)
    )
    return Area("Main", tuple(points), edges, falls, 1 / 48, openings)


def rectangle(width: int, height: int, kinds: list[str], openings: tuple[Opening, ...] = ()) -> Area:
    """A rectangle that falls south [ticks]; sides 1 S, 2 E, 3 N, 4 W."""
    return make_area([(0, 0), (width, 0), (width, height), (0, height)], kinds, openings=openings)


def flat(area: Area) -> Area:
    """The same area without slope, so that slope lengths are plan lengths."""
    return replace(area, slope=0.0)
