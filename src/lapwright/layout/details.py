"""Strips, flashings and edge metal: every length that is not a field piece, cut from rolls or bought by length.

Girth of a base flashing: the wall above the cant, the cant's face, and the leg on the field.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from lapwright.assembly.values import Assembly, Ply, Sheet
from lapwright.defaults.values import Rules
from lapwright.layout.values import XY, Detail, Lap
from lapwright.roof.values import Area, Edge, Opening, Point

TICKS = 80_000.0
FOOT = 24_384
METAL_LENGTH = 10 * FOOT  # edge metal comes in 10' lengths: common practice, no source
FIELD_LEG = 6 * 2_032  # leg of the cap flashing on the field: common practice, no source
BACKER_LEG = 4 * 2_032  # leg of the flashing's backer ply on the field: common practice, no source
TALL = 0.6096  # over 24" a flashing is held part-way up: Professional Roofing, Feb 2006, flashing height


@dataclass(frozen=True, slots=True)
class Stand:
    """A stretch of wall to be flashed: what it belongs to, its line in plan [ticks], height [m]."""

    of: str
    start: Point
    end: Point
    height: float | None

    @property
    def length(self) -> float:
        """Length [ticks]."""
        return math.dist(self.start, self.end)


def make_details(area: Area, assembly: Assembly, rules: Rules) -> tuple[list[Detail], list[Lap]]:
    """Details of one area with the laps between them.

    Source: common practice, no source
    Checked: tests/layout/test_place.py
    """
    details: list[Detail] = []
    laps: list[Lap] = []
    for edge in area.edges:
        if edge.kind == "metal_edge":
            if len(assembly.plies) == 2:
                strips = strip_edge(area, edge, assembly.plies[0].sheet, rules)
                details += strips
                laps += strip_laps(strips, assembly.plies[0].sheet)
            details += metal_edge(area, edge)
    for stand in stands(area):
        for ply, leg in ((assembly.plies[0], BACKER_LEG), (assembly.plies[-1], FIELD_LEG)):
            flashing = flash(area, stand, ply, leg, rules)
            details += flashing
            laps += flashing_laps(flashing, ply.sheet)
    return details, laps


def stands(area: Area) -> Iterator[Stand]:
    """Every stretch of parapet, wall, curb and shaft of an area, in the order of the job file."""
    for edge in area.edges:
        if edge.kind in ("parapet", "wall"):
            yield Stand(f"side {edge.side}", edge.start, edge.end, edge.height)
    for opening in area.openings:
        yield from curb_stands(opening)


def curb_stands(opening: Opening) -> Iterator[Stand]:
    """The four faces of an opening, counter-clockwise from the south."""
    ring = opening.outline
    for name, start, end in zip(("S", "E", "N", "W"), ring, (*ring[1:], ring[0]), strict=True):
        yield Stand(f"{opening.name} {name}", start, end, opening.height)


def along(start: Point, end: Point, a: float, b: float) -> tuple[XY, XY]:
    """The part of a line between distances a and b from its start [ticks], in plan [m]."""
    length = math.dist(start, end)
    first, last = (
        ((start[0] + (end[0] - start[0]) * t) / TICKS, (start[1] + (end[1] - start[1]) * t) / TICKS)
        for t in (a / length, b / length)
    )
    return (first, last)


def lengths(total: float, longest: int, lap: int) -> list[tuple[float, float]]:
    """A line cut into the fewest lengths, each lapping the one before: from, to [ticks].

    A last length under a foot takes from the one before it, so that no sliver is left.
    Source: arithmetic
    """
    ends = [min(total, float(longest))]
    while ends[-1] < total:
        ends.append(min(total, ends[-1] - lap + longest))
    starts = [0.0, *[end - lap for end in ends[:-1]]]
    if len(ends) > 1 and total - starts[-1] < FOOT:
        starts[-1] = total - FOOT
        ends[-2] = starts[-1] + lap
    return list(zip(starts, ends, strict=True))


def strip_edge(area: Area, edge: Edge, sheet: Sheet, rules: Rules) -> list[Detail]:
    """The strip under edge metal of a two-ply roof, several strips to a width of the roll.

    The first strip cut from a length of roll takes that length; those beside it take none.
    """
    longest = min(rules.longest_piece_ticks, sheet.length_ticks)
    total = math.dist(edge.start, edge.end)
    found = []
    for k, (a, b) in enumerate(lengths(total, longest, sheet.end_lap_ticks), start=1):
        found.append(
            Detail(
                id=f"{area.name}/side {edge.side}/strip {k}",
                kind="strip",
                area=area.name,
                of=f"side {edge.side}",
                sheet=sheet.name,
                ply="strip",
                length=(b - a) / TICKS,
                width=rules.edge_strip_ticks / TICKS,
                line=along(edge.start, edge.end, a, b),
                takes_ticks=round_up(b - a, rules.cut_step_ticks),
            )
        )
    return found


def share_widths(details: Sequence[Detail], sheet: Sheet, strip: int) -> list[Detail]:
    """Strips side by side from one length of roll: only the longest of each set takes roll length."""
    abreast = max(1, sheet.width_ticks // strip) if strip else 1
    strips = sorted(
        (d for d in details if d.kind == "strip" and d.sheet == sheet.name), key=lambda d: (-d.takes_ticks, d.id)
    )
    beside = {d.id for k, d in enumerate(strips) if k % abreast}
    return [replace(d, takes_ticks=0) if d.id in beside else d for d in details]


def round_up(length: float, step: int) -> int:
    """A length in whole cutting steps, rounded up; a thousandth of a tick is rounding, not length."""
    return math.ceil((length - 1e-3) / step) * step


def strip_laps(strips: Sequence[Detail], sheet: Sheet) -> list[Lap]:
    """End laps between strips that follow each other along a side."""
    found = []
    for one, other in pairwise(strips):
        if one.line is None or other.line is None:
            continue
        at = other.line[0]
        across = crosswise(other.line, one.width)
        line = ((at[0] - across[0] / 2, at[1] - across[1] / 2), (at[0] + across[0] / 2, at[1] + across[1] / 2))
        width = sheet.end_lap_ticks / TICKS
        found.append(Lap(f"{other.id}/lap", "strip", one.area, "strip", (one.id, other.id), line, one.width, width))
    return found


def crosswise(line: tuple[XY, XY], width: float) -> XY:
    """A vector of length `width` across a line, to its left."""
    (x0, y0), (x1, y1) = line
    length = math.dist((x0, y0), (x1, y1))
    return (-(y1 - y0) / length * width, (x1 - x0) / length * width)


def metal_edge(area: Area, edge: Edge) -> list[Detail]:
    """Edge metal in 10' lengths along one side; corners and joint covers are ordered apart."""
    total = math.dist(edge.start, edge.end)
    return [
        Detail(
            id=f"{area.name}/side {edge.side}/metal {k}",
            kind="metal",
            area=area.name,
            of=f"side {edge.side}",
            sheet="",
            ply="",
            length=(b - a) / TICKS,
            width=(edge.metal.flange or 0.0) if edge.metal else 0.0,
            line=along(edge.start, edge.end, a, b),
        )
        for k, (a, b) in enumerate(lengths(total, METAL_LENGTH, 0), start=1)
    ]


def flashing_stand(height: float | None, rules: Rules) -> float:
    """How high a flashing stands above the finished roof [m].

    Up the whole face where that is no more than 24", else to the least height asked for; where the height is not
    given, the least height as well.
    Source: common practice, no source
    """
    return height if height is not None and height <= TALL else rules.flashing_height


def flash(area: Area, stand: Stand, ply: Ply, leg: int, rules: Rules) -> list[Detail]:
    """Flashing pieces of one ply along one face, cut across the roll so that its width runs along the wall."""
    sheet = ply.sheet
    cant = rules.cant_ticks
    parts = {
        "wall": max(0.0, flashing_stand(stand.height, rules) - cant / TICKS),
        "cant": cant * math.sqrt(2.0) / TICKS,
        "field": leg / TICKS,
    }
    girth = sum(parts.values())
    return [
        Detail(
            id=f"{area.name}/{stand.of}/{ply.ply} flashing {k}",
            kind="flashing",
            area=area.name,
            of=stand.of,
            sheet=sheet.name,
            ply=ply.ply,
            length=girth,
            width=(b - a) / TICKS,
            line=along(stand.start, stand.end, a, b),
            parts=parts,
            takes_ticks=round_up(girth * TICKS, rules.cut_step_ticks),
        )
        for k, (a, b) in enumerate(lengths(stand.length, sheet.width_ticks, sheet.side_lap_ticks), start=1)
    ]


def flashing_laps(pieces: Sequence[Detail], sheet: Sheet) -> list[Lap]:
    """Side laps between flashing pieces that follow each other along a face."""
    found = []
    for one, other in pairwise(pieces):
        if other.line is None:
            continue
        at = other.line[0]
        away = crosswise(other.line, other.parts["field"])
        line = (at, (at[0] + away[0], at[1] + away[1]))
        lap = Lap(
            f"{other.id}/lap",
            "flashing",
            one.area,
            one.ply,
            (one.id, other.id),
            line,
            one.length,
            sheet.side_lap_ticks / TICKS,
        )
        found.append(lap)
    return found
