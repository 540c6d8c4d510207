"""Every piece of work of a job with its size: sheets, strips, metal, flashings, drains and pipes."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache

from lapwright.assembly.values import Assembly
from lapwright.crew.pace import Work
from lapwright.crew.rates import rate_of
from lapwright.crew.rows import Box
from lapwright.defaults.si import default_si
from lapwright.layout.values import Detail, Frame, Layout, Piece, PlyLayout
from lapwright.roof.values import Area, Drain

TICKS = 80_000.0
RUNS = ("metal", "strip", "tie_in", "flashing")  # what is put down along a line, at a rate
PATCHES = ("strip_corner", "gusset", "target", "pipe_strip", "scupper_strip")


@dataclass(frozen=True, slots=True)
class Placed:
    """Work that belongs to a place.

    box: what it touches, in the slope frame; None: anywhere.  is_first: it goes down before the cap that covers it,
    else after.  needs_base: the part that must have a base under it before.  edge: length of metal [m] along which the
    cap that covers it is welded in `heat` hours.
    """

    work: Work
    box: Box | None
    is_first: bool = False
    needs_base: Box | None = None
    edge: float = 0.0


def piece_work(layout: Layout, assembly: Assembly, rates: Mapping[str, float]) -> dict[str, Work]:
    """The work of laying each piece, by its id.

    Source: common practice, no source (rate per area of sheet as laid)
    Checked: tests/crew/test_crew_work.py
    """
    laps = {ply.ply: ply.sheet.side_lap_ticks for ply in assembly.plies}
    return {piece.id: lay(piece, ply, laps[ply.ply], assembly, rates) for ply in layout.plies for piece in ply.pieces}


def lay(piece: Piece, ply: PlyLayout, side_lap: int, assembly: Assembly, rates: Mapping[str, float]) -> Work:
    """The work of one piece; a sheet of the bottom ply newly covers its width less the side lap."""
    kind = kind_at(ply.position, len(assembly.plies))
    length, width = (piece.u1 - piece.u0) / TICKS, (piece.v1 - piece.v0) / TICKS
    opened = length * max(0.0, width - side_lap / TICKS) if ply.position == 1 else 0.0
    return Work(piece.id, ply.ply, kind, length * width / rate_of(rates, kind), opened=opened)


def kind_at(position: int, plies: int) -> str:
    """What a sheet is, by its ply's place from the bottom.  Source: common practice, no source"""
    return "cap" if position == plies else "base" if position == 1 else "interply"


def placed_work(layout: Layout, area: Area, rates: Mapping[str, float]) -> tuple[Placed, ...]:
    """The work of an area's details, drains and pipes; valley sheets are in valleys.py.

    Source: common practice, no source
    Checked: tests/crew/test_crew_work.py
    """
    frame = layout.frames[area.name]
    own = [detail for detail in layout.details if detail.area == area.name]
    found = [detail_work(detail, frame, rates) for detail in own if detail.kind in (*RUNS, *PATCHES)]
    found += drain_work(area, frame, rates)
    for pipe in area.pipes:
        work = Work(f"{area.name}/{pipe.name}", "pipe", "flashing", rate_of(rates, "pipe"))
        found.append(Placed(work, box_at(frame, pipe.at)))
    return tuple(found)


def detail_work(detail: Detail, frame: Frame, rates: Mapping[str, float]) -> Placed:
    """A strip or length of metal goes before the cap that covers it, a flashing after.

    A length of metal needs a base under all of it; a strip is rolled out as far as the metal goes.  Patches take no
    time of their own: the rates of flashings, drains and pipes hold for them with all that belongs to them.
    """
    if detail.kind == "metal":
        work = Work(detail.id, "edge metal", "edge_metal", detail.length / rate_of(rates, "edge_metal"))
        near, under = box_along(detail, frame, reach("near_edge")), box_along(detail, frame, reach("under_metal"))
        return Placed(work, near, is_first=True, needs_base=under, edge=detail.length)
    if detail.kind == "strip":
        work = Work(detail.id, "edge strip", "base", detail.length / rate_of(rates, "edge_strip"))
        return Placed(work, box_along(detail, frame, reach("near_edge")), is_first=True)
    if detail.kind == "tie_in":
        work = Work(detail.id, "tie-in strip", "flashing", detail.length / rate_of(rates, "edge_strip"))
        return Placed(work, box_along(detail, frame, reach("near_edge")))
    if detail.kind in PATCHES:
        return Placed(Work(detail.id, "flashing", "flashing", 0.0), patch_box(detail, frame))
    work = Work(detail.id, "flashing", "flashing", detail.width / rate_of(rates, "flashing"))
    return Placed(work, box_along(detail, frame, reach("near_wall")))


def drain_work(area: Area, frame: Frame, rates: Mapping[str, float]) -> Iterator[Placed]:
    """Drains and scuppers are set on the base before the cap; a gutter is no work of this crew."""
    for drain in area.drains:
        at = drain_place(area, drain)
        if drain.kind == "gutter" or at is None:
            continue
        work = Work(f"{area.name}/{drain.name}", "drain", "edge_metal", rate_of(rates, "drain"))
        box = box_at(frame, at)
        yield Placed(work, box, is_first=True, needs_base=box)


def drain_place(area: Area, drain: Drain) -> tuple[float, float] | None:
    """Where a drain sits, in plan [ticks]; None where it is not said."""
    if drain.at is not None:
        return drain.at
    edge = next((edge for edge in area.edges if edge.side == drain.side), None)
    if edge is None or drain.from_start is None:
        return None
    length = math.dist(edge.start, edge.end)
    share = min(1.0, drain.from_start * TICKS / length)
    return (
        edge.start[0] + share * (edge.end[0] - edge.start[0]),
        edge.start[1] + share * (edge.end[1] - edge.start[1]),
    )


def box_around(points: Sequence[tuple[float, float]], beyond: float) -> Box:
    """The box around slope-frame points [ticks] and so far `beyond` [m]."""
    more = beyond * TICKS
    us, vs = [u for u, _ in points], [v for _, v in points]
    return (round(min(us) - more), round(max(us) + more), round(min(vs) - more), round(max(vs) + more))


def box_along(detail: Detail, frame: Frame, beyond: float) -> Box | None:
    """The box around a detail's line; None where it has none."""
    if detail.line is None:
        return None
    return box_around([frame.slope_uv(x * TICKS, y * TICKS) for x, y in detail.line], beyond)


def patch_box(detail: Detail, frame: Frame) -> Box | None:
    """The box around what a patch covers; None where its place is not said."""
    if detail.at is None:
        return None
    x, y = detail.at
    return box_around([frame.slope_uv(x * TICKS, y * TICKS)], max(detail.width, detail.length) / 2 + reach("near_pipe"))


def box_at(frame: Frame, at: tuple[float, float]) -> Box:
    """The box of a pipe or drain."""
    return box_around([frame.slope_uv(*at)], reach("near_pipe"))


@cache
def reach(name: str) -> float:
    """How far around a line or place something belongs to it [m].  Source: defaults/crew.csv, each row with its own"""
    return default_si("crew", name)
