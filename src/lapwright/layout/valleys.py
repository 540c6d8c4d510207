"""Valley sheets: in each ply one lies in the valley first, full width, and the courses of both planes lap onto it.

Its pieces are laid from the low end up, each over the one below it, so that their end laps shed water down the valley.
A valley between two areas is made once, by the one that comes first.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.assembly.values import Assembly, Ply
from lapwright.defaults.values import Rules
from lapwright.layout.region import reach_beyond
from lapwright.layout.values import XY, Detail, Lap
from lapwright.roof.values import Area, Edge, Point

TICKS = 80_000.0
BLUNTEST = 0.5  # sine: where a valley runs into an edge at less than 30° its sheet is cut to fit by hand
HAIR = 1e-3


@dataclass(frozen=True, slots=True)
class Valley:
    """A valley's line from its low end to its high end [ticks, plan], the area and side that make it, its stretch."""

    area: Area
    edge: Edge
    low: Point
    high: Point
    stretch: float

    @property
    def plan_length(self) -> float:
        """Plan length [ticks]."""
        return math.dist(self.low, self.high)

    def at(self, along: float) -> XY:
        """The plan point [m] so far [ticks on the slope] from the low end."""
        share = along / (self.stretch * self.plan_length)
        x, y = ((a + (b - a) * share) / TICKS for a, b in zip(self.low, self.high, strict=True))
        return (x, y)


def make_valleys(areas: Sequence[Area], assembly: Assembly, rules: Rules) -> tuple[list[Detail], list[Lap]]:
    """The sheets of every valley with the laps between their pieces, bottom ply first.

    Source: common practice, no source
    Checked: tests/layout/test_valleys.py
    """
    details: list[Detail] = []
    laps: list[Lap] = []
    last = len(assembly.plies) - 2
    for valley in valleys(areas):
        for place, ply in enumerate(assembly.plies):
            found = list(sheets_in(valley, ply, rules, under_cap=place == last))
            details += found
            laps += list(sheet_laps(found, ply))
    return details, laps


def valleys(areas: Sequence[Area]) -> Iterator[Valley]:
    """Every valley that two areas share, once."""
    place = {area.name: k for k, area in enumerate(areas)}
    for k, area in enumerate(areas):
        for edge in area.edges:
            if edge.kind == "valley" and edge.meets and k < place.get(edge.meets, -1):
                yield valley_of(area, edge)


def valley_of(area: Area, edge: Edge) -> Valley:
    """A valley's line turned so that it begins at its low end; one that lies level begins where the side does.

    Source: arithmetic
    """
    run = (edge.end[0] - edge.start[0], edge.end[1] - edge.start[1])
    drop = area.slope * (run[0] * area.falls[0] + run[1] * area.falls[1])
    low, high = (edge.end, edge.start) if drop > 0 else (edge.start, edge.end)
    return Valley(area, edge, low, high, math.hypot(1.0, drop / math.hypot(*run)))


def sheets_in(valley: Valley, ply: Ply, rules: Rules, *, under_cap: bool) -> Iterator[Detail]:
    """The pieces of one ply's valley sheet, from the low end up; past an edge it ends where the ply does."""
    below, above = (past_end(valley, end, rules, under_cap=under_cap) for end in (valley.low, valley.high))
    total = valley.plan_length * valley.stretch + below + above
    longest = min(rules.longest_piece_ticks, ply.sheet.length_ticks) // rules.cut_step_ticks * rules.cut_step_ticks
    spans = lengths_up(total, longest, rules.shortest_piece_ticks, ply.sheet.end_lap_ticks)
    for k, (a, b) in enumerate(spans, start=1):
        yield Detail(
            id=f"{valley.area.name}/side {valley.edge.side}/{ply.ply} valley {k}",
            kind="valley",
            area=valley.area.name,
            of=f"side {valley.edge.side}",
            sheet=ply.sheet.name,
            ply=ply.ply,
            length=(b - a) / TICKS,
            width=ply.sheet.width_ticks / TICKS,
            line=(valley.at(a - below), valley.at(b - below)),
            takes_ticks=math.ceil((b - a - HAIR) / rules.cut_step_ticks) * rules.cut_step_ticks,
        )


def past_end(valley: Valley, end: Point, rules: Rules, *, under_cap: bool) -> float:
    """How far a valley sheet runs past one end of the line: as the ply does at the edge that it runs into [ticks]."""
    reach = 0.0
    way = (valley.high[0] - valley.low[0], valley.high[1] - valley.low[1])
    for edge in valley.area.edges:
        if edge is valley.edge or edge.meets or end not in (edge.start, edge.end):
            continue
        side = (edge.end[0] - edge.start[0], edge.end[1] - edge.start[1])
        sine = abs(way[0] * side[1] - way[1] * side[0]) / (math.hypot(*way) * math.hypot(*side))
        reach = max(reach, reach_beyond(edge, rules, under_cap=under_cap) / max(sine, BLUNTEST))
    return reach


def lengths_up(total: float, longest: int, shortest: int, lap: int) -> list[tuple[float, float]]:
    """A line cut into the fewest lengths, each lapping the one before: from, to [ticks].

    A last length under the shortest takes from the one before it.
    Source: arithmetic
    Checked: tests/layout/test_valleys.py
    """
    ends = [min(total, float(longest))]
    while ends[-1] < total:
        ends.append(min(total, ends[-1] - lap + longest))
    starts = [0.0, *[end - lap for end in ends[:-1]]]
    if len(ends) > 1 and total - starts[-1] < shortest:
        starts[-1] = total - shortest
        ends[-2] = starts[-1] + lap
    return list(zip(starts, ends, strict=True))


def sheet_laps(pieces: Sequence[Detail], ply: Ply) -> Iterator[Lap]:
    """End laps between the pieces of a valley sheet; the exposed edge is the low end of the upper one."""
    for below, above in pairwise(pieces):
        if above.line is None:
            continue
        (x0, y0), (x1, y1) = above.line
        length = math.dist((x0, y0), (x1, y1))
        half = (-(y1 - y0) / length * above.width / 2, (x1 - x0) / length * above.width / 2)
        line = ((x0 - half[0], y0 - half[1]), (x0 + half[0], y0 + half[1]))
        width = ply.sheet.end_lap_ticks / TICKS
        yield Lap(f"{above.id}/lap", "strip", above.area, above.ply, (below.id, above.id), line, above.width, width)
