"""Outlines drawn a hair apart, brought together: corners near another area's outline are moved onto it, and told.

Two draughtsmen's lines that mean one edge seldom lie on one another; areas that share an edge have to.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import replace

from lapwright.faults import Mended, shorten
from lapwright.geometry.meets import meeting_boxes
from lapwright.geometry.polygon import Point, Side, sides_of
from lapwright.geometry.sweep import crossings
from lapwright.intake.plan_scale import How, without_repeats
from lapwright.intake.plan_values import DrawnOutline

Rank = tuple[int, float, Point]


def brought_together(
    outlines: Mapping[str, DrawnOutline], keys: Mapping[str, str], how: How
) -> tuple[dict[str, DrawnOutline], list[Mended]]:
    """The outlines with corners moved onto those of other areas that lie within `join_within`, and what was moved.

    Corners of a later area are moved to corners of an earlier one, else onto its sides; then corners of the earlier one
    onto sides of the later.  An outline that would cross itself by that is left as it is drawn.
    keys: how notes name each area's outline.
    """
    made = dict(outlines)
    notes: list[Mended] = []
    names = list(outlines)
    for place, later in enumerate(names):
        for earlier in names[:place]:
            for moved, onto, to_corners in ((later, earlier, True), (earlier, later, False)):
                corners, other = made[moved].corners, made[onto].corners
                found = _moved(corners, other, how.join, to_corners=to_corners)
                ring = without_repeats([found.get(k, corner) for k, corner in enumerate(corners)])
                if not found or len(ring) < 3 or crossings(ring):
                    continue
                made[moved] = replace(made[moved], corners=tuple(ring))
                notes.append(_told(keys[moved], onto, [(corners[k], to) for k, to in sorted(found.items())], how))
    return made, notes


def _moved(corners: Sequence[Point], other: Sequence[Point], within: int, *, to_corners: bool) -> dict[int, Point]:
    """Where corners go that lie near another outline, by their place; those that lie on it already stay."""
    sides = sides_of(other)
    reach = [((x - within, y - within), (x + within, y + within)) for x, y in corners]
    best: dict[int, Rank] = {}
    for k, j in meeting_boxes(reach, sides):
        for rank in _ranks(corners[k], sides[j], within, to_corners=to_corners):
            best[k] = min(best.get(k, rank), rank)
    return {k: at for k, (_, _, at) in best.items() if at != corners[k]}


def _ranks(corner: Point, side: Side, within: int, *, to_corners: bool) -> list[Rank]:
    """Where on a side a corner may go: to an end of it first, then straight onto it."""
    found: list[Rank] = [(0, math.dist(corner, end), end) for end in side] if to_corners else []
    (ax, ay), (bx, by) = side
    length2 = (bx - ax) ** 2 + (by - ay) ** 2
    along = (corner[0] - ax) * (bx - ax) + (corner[1] - ay) * (by - ay)
    if 0 < along < length2:
        on_it = (ax + round(along * (bx - ax) / length2), ay + round(along * (by - ay) / length2))
        found.append((1, math.dist(corner, on_it), corner if math.dist(corner, on_it) <= 1 else on_it))
    return [rank for rank in found if rank[1] <= within]


def _told(key: str, onto: str, moves: Sequence[tuple[Point, Point]], how: How) -> Mended:
    widest, corner = max((math.dist(*move), move[0]) for move in moves)
    found = (
        f"corners beside area {shorten(onto, 40)}: {len(moves)}, the farthest {how.gap(widest)} off at {how.at(corner)}"
    )
    return Mended(how.file, key, found, f"moved onto its outline, being no more than {how.shown.tape(how.join)} away")
