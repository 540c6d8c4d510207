"""A small roof laid by hand for the order's tests: feet and gallons that a pencil can follow."""

from __future__ import annotations

from dataclasses import replace

from lapwright.assembly.values import Assembly, Board, Ply, Sheet
from lapwright.defaults.rules import make_rules
from lapwright.layout.details.make import make_details
from lapwright.layout.values import CornerCut, Detail, Frame, Lap, Layout, Piece, PlyLayout, Roll, TJoint
from lapwright.order.lines import Needs, Want
from lapwright.roof.values import Area, Drain, Edge, Metal, Opening, Pipe
from lapwright.units.write import Units

INCH = 2_032
FOOT = 24_384
M_PER_FOOT = 0.3048  # by definition
METAL = Metal("galvanised", 24, 5 * M_PER_FOOT / 12, 4 * M_PER_FOOT / 12)
BASE = Sheet("base-sa", 39 * INCH + 762, 65 * FOOT + 7 * INCH, 3 * INCH, 6 * INCH)
CAP = Sheet("cap-sa", 39 * INCH + 762, 32 * FOOT + 10 * INCH, 3 * INCH, 6 * INCH, surfacing="granules")
BOARDED = Assembly(
    (Ply("base", BASE, "self_adhered"), Ply("cap", CAP, "self_adhered")), cover_board=Board("gypsum", 0.0127, "adhered")
)


def feet(value: float) -> float:
    """Feet in metres."""
    return value * M_PER_FOOT


def make_area(
    points: list[tuple[float, float]],
    kinds: list[str],
    *,
    metal: Metal | None = METAL,
    openings: tuple[Opening, ...] = (),
    pipes: tuple[Pipe, ...] = (),
    drains: tuple[Drain, ...] = (),
) -> Area:
    """A level area from its corners [ft] and the kinds of its sides."""
    ring = [(round(x * FOOT), round(y * FOOT)) for x, y in points]
    edges = tuple(
        Edge(k, kind, a, b, metal=metal if kind == "metal_edge" else None)
        for k, (kind, a, b) in enumerate(zip(kinds, ring, [*ring[1:], ring[0]], strict=True), start=1)
    )
    return Area("Main", tuple(ring), edges, (0.0, -1.0), 0.0, openings, pipes, drains)


def metal_details(area: Area, side: int, lengths: list[float], width: float = 4.0) -> tuple[Detail, ...]:
    """Lengths of metal along a side [ft], flange [in]."""
    return tuple(
        Detail(
            f"{area.name}/side {side}/metal {k}",
            "metal",
            area.name,
            f"side {side}",
            "",
            "",
            feet(long),
            feet(width / 12),
        )
        for k, long in enumerate(lengths, start=1)
    )


def details_of(area: Area, *kinds: str) -> tuple[Detail, ...]:
    """What the layout makes of an area's edges, drains and pipes: the details of some kinds."""
    made = make_details(area, BOARDED, make_rules({})).details
    return tuple(one for one in made if one.kind in kinds)


def flashing(face: str, k: int, left: float, right: float, *, ply: str = "base", sheet: str = "base-sa") -> Detail:
    """A flashing piece along a face from left to right [ft]: 8" of wall, 6" of cant, 4" of field."""
    parts = {"wall": feet(8 / 12), "cant": feet(6 / 12), "field": feet(4 / 12)}
    line = ((feet(left), 0.0), (feet(right), 0.0))
    width = feet(right - left)
    return Detail(
        f"Main/{face}/{ply} flashing {k}", "flashing", "Main", face, sheet, ply, feet(1.5), width, "", line, parts
    )


def end_lap(k: int) -> Lap:
    """An end lap of the cap, 3 ft long."""
    ids = (f"Main/cap/01/{k}", f"Main/cap/01/{k + 1}")
    return Lap(f"Main/cap/01/end {k}", "end", "Main", "cap", ids, ((0.0, 0.0), (0.0, feet(3))), feet(3), feet(0.5))


def piece(ply: str, place: int, *, length: float = 30.0, cuts: int = 0) -> Piece:
    """A field piece of 30 ft, with so many corners cut 3" by 4" (5" along the cut)."""
    corners = tuple(CornerCut((0, 0), 4 * INCH, 3 * INCH) for _ in range(cuts))
    sheet = "base-sa" if ply == "base" else "cap-sa"
    long = round(length * FOOT)
    return Piece(
        id=f"Main/{ply}/01/{place}", area="Main", ply=ply, course=1, place=place, u0=0, u1=long, v0=0, v1=39 * INCH,
        cut_length=long, sheet=sheet, roll=f"{sheet} 1", sequence=place, corner_cuts=corners,
    )  # fmt: skip


def make_layout(
    *,
    pieces: tuple[Piece, ...] = (),
    details: tuple[Detail, ...] = (),
    laps: tuple[Lap, ...] = (),
    rolls: tuple[Roll, ...] = (),
    tjoints: tuple[TJoint, ...] = (),
) -> Layout:
    """A layout with only what a test needs."""
    plies = tuple(
        PlyLayout("Main", ply, k, "", (), tuple(one for one in pieces if one.ply == ply), 0, 0, None, None)
        for k, ply in enumerate(("base", "cap"), start=1)
    )
    return Layout({"Main": Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)}, plies, details, laps, tjoints, rolls)


def make_needs(
    area: Area,
    layout: Layout,
    *,
    assembly: Assembly = BOARDED,
    coverage: dict[str, float] | None = None,
    cold: bool = False,
    **rules: str,
) -> Needs:
    """What an order is made from, in US units."""
    return Needs((area,), assembly, layout, make_rules(rules), Units("us"), coverage or {}, cold)


def nailed(assembly: Assembly) -> Assembly:
    """The same with a nailed base."""
    base = replace(assembly.plies[0], attachment="mechanically_fastened")
    return replace(assembly, plies=(base, *assembly.plies[1:]))


def by_item(wants: list[Want]) -> dict[str, Want]:
    """Wants by what is wanted."""
    return {want.item: want for want in wants}
