"""Valley sheets in the order of the work: in each ply the sheet lies first, and the courses of both planes lap onto it.

So a valley sheet goes down before the first piece of its ply that reaches it, on whichever side of the valley, and
after all that lies under it: the plies below on both sides, and for the top ply metal and drains.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.crew.pace import Work
from lapwright.crew.rates import rate_of
from lapwright.crew.rows import Box, PlyRows
from lapwright.crew.work import TICKS, box_around, kind_at
from lapwright.layout.values import Detail, Frame, Layout
from lapwright.roof.values import Area


@dataclass(frozen=True, slots=True)
class ValleySheet:
    """One length of a valley sheet.

    of: the area, the side and the ply that it belongs to.  ply: its place from the bottom, from 0.  boxes: what it
    lies on, by area, in that area's slope frame: small ones along the line, since it seldom runs along the courses.
    """

    work: Work
    of: tuple[str, str, str]
    ply: int
    boxes: Mapping[str, tuple[Box, ...]]


def valley_sheets(layout: Layout, areas: Sequence[Area], rates: Mapping[str, float]) -> tuple[ValleySheet, ...]:
    """Every length of valley sheet, in the order in which they lap one another: the low end first.

    Source: common practice, no source (rate of a strip, by its length)
    Checked: tests/crew/test_crew_valleys.py
    """
    laid = dict.fromkeys(ply.area for ply in layout.plies)
    places = {(ply.area, ply.ply): ply.position - 1 for ply in layout.plies}
    count = max((ply.position for ply in layout.plies), default=0)
    meets = {(area.name, f"side {edge.side}"): edge.meets for area in areas for edge in area.edges}
    found = []
    for one in layout.details:
        place = places.get((one.area, one.ply))
        if one.kind != "valley" or place is None:
            continue
        sides = (one.area, meets.get((one.area, one.of), ""))
        boxes = {name: boxes_on(one, layout.frames[name]) for name in sides if name in laid}
        work = Work(one.id, "valley sheet", kind_at(place + 1, count), one.length / rate_of(rates, "edge_strip"))
        found.append(ValleySheet(work, (one.area, one.of, one.ply), place, boxes))
    return tuple(found)


def boxes_on(detail: Detail, frame: Frame) -> tuple[Box, ...]:
    """The boxes along a sheet's line, each no longer than half its width; none where its place is not said."""
    if detail.line is None:
        return ()
    (x0, y0), (x1, y1) = detail.line
    half = detail.width / 2.0
    steps = max(1, math.ceil(math.dist((x0, y0), (x1, y1)) / half))
    spots = [(x0 + (x1 - x0) * k / steps, y0 + (y1 - y0) * k / steps) for k in range(steps + 1)]
    uvs = [frame.slope_uv(x * TICKS, y * TICKS) for x, y in spots]
    return tuple(box_around(ends, half) for ends in pairwise(uvs))


def before_pieces(
    sheets: Sequence[ValleySheet], rows: Mapping[str, Sequence[PlyRows]]
) -> dict[tuple[str, int, int], list[ValleySheet]]:
    """The valley sheets that go down before a piece, by area, ply and place in the laying order of that ply.

    With a length go those below it in the same valley, which it laps; one that no piece reaches goes before the first
    piece of its own area.
    Source: geometry
    Checked: tests/crew/test_crew_valleys.py
    """
    found: dict[tuple[str, int, int], list[ValleySheet]] = {}
    for k, sheet in enumerate(sheets):
        below = [one for one in sheets[:k] if one.of == sheet.of]
        for key in reached(sheet, rows):
            found.setdefault(key, []).extend([*below, sheet])
    return found


def reached(sheet: ValleySheet, rows: Mapping[str, Sequence[PlyRows]]) -> Iterator[tuple[str, int, int]]:
    """For either side of the valley the first piece of the ply that the sheet's boxes reach."""
    firsts = {
        name: min((k for box in boxes for k in rows[name][sheet.ply].meeting(box)), default=None)
        for name, boxes in sheet.boxes.items()
    }
    if all(first is None for first in firsts.values()):
        firsts = dict.fromkeys([*firsts][:1], 0)
    for name, first in firsts.items():
        if first is not None:
            yield name, sheet.ply, first


def is_met(box: Box | None, boxes: Sequence[Box]) -> bool:
    """A box overlaps one of others.  Source: geometry"""
    if box is None:
        return False
    return any(box[0] < b and box[1] > a and box[2] < d and box[3] > c for a, b, c, d in boxes)
