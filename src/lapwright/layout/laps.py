"""Laps, T-joints and corner cuts that follow from the pieces of a ply.

The later piece of a run lies on the one before it, the upper course on the lower one, so that no lap faces the
flow.  Where an end lap meets a side lap three sheets lie on each other: a T-joint, with the corner of the sheet
that is covered and the opposing corner of the one that covers it cut at 45°.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import accumulate, pairwise
from operator import itemgetter
from typing import TYPE_CHECKING

from lapwright.assembly.values import Sheet
from lapwright.layout.copies import changed
from lapwright.layout.ownshape import less_scraps
from lapwright.layout.plain import plain
from lapwright.layout.runs import Run
from lapwright.layout.values import CornerCut, Frame, Lap, Piece, TJoint

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

TICKS = 80_000.0


GRAZING = 800  # 10 mm: a shorter meeting is no lap


@plain
class Laid:
    """A piece and the run it is cut for."""

    piece: Piece
    run: Run


@dataclass(frozen=True, slots=True)
class Joined:
    """What one ply's pieces make: pieces with their corner cuts, laps, T-joints."""

    pieces: tuple[Piece, ...]
    laps: tuple[Lap, ...]
    tjoints: tuple[TJoint, ...]


def join(laid: Sequence[Laid], sheet: Sheet, frame: Frame, corner_cut: int) -> Joined:
    """Laps, T-joints and corner cuts of one ply on one area.

    laid: pieces with the runs they are cut for, whose shapes say where the sheets really lie.
    corner_cut: length of the 45° cut [ticks]; 0: corners are not cut in this ply.
    Source: common practice, no source (opposing corners cut, 5 1/2" by the selvage width)
    Checked: tests/layout/test_place.py
    """
    rows: dict[int, list[Laid]] = {}
    for one in laid:
        rows.setdefault(one.piece.course, []).append(one)
    sides = [lap for course in sorted(rows) for lap in side_laps(rows, course, frame)]
    ends = [lap for course in sorted(rows) for lap in end_laps(rows[course], sheet, frame)]
    beside = by_piece(sides)
    tjoints: list[TJoint] = []
    cuts: dict[str, list[CornerCut]] = {}
    for lap, under, over in ends:
        for side, place, level in meeting(beside, under, over):
            at = frame.plan(over.u0, level)
            tjoints.append(TJoint(f"{lap.id}/{place}", over.area, over.ply, at, (lap.id, side)))
            corner = (over.u0, over.v0) if place == "low" else (under.u1, under.v1)
            owner = over.id if place == "low" else under.id
            if corner_cut:
                cuts.setdefault(owner, []).append(CornerCut(corner, corner_cut, sheet.side_lap_ticks))
    cut = tuple(
        changed(one.piece, corner_cuts=tuple(cuts[one.piece.id])) if one.piece.id in cuts else one.piece for one in laid
    )
    return Joined(cut, tuple(side for side, *_ in sides) + tuple(lap for lap, *_ in ends), tuple(tjoints))


SideLap = tuple[Lap, Piece, Piece, int, int]
Span = tuple[int, int]


def side_laps(rows: dict[int, list[Laid]], course: int, frame: Frame) -> list[SideLap]:
    """Side laps between a course and the one below: lap, lower and upper piece, extent along the course."""
    found: list[SideLap] = []
    level = min(one.piece.v0 for one in rows[course])
    uppers, lowers = lying(rows[course], level), lying(rows.get(course - 1, []), level)
    across = Stretches([(lower.u0, lower.u1) for lower, _ in lowers])
    for upper, high in uppers:
        for lower, low in (lowers[k] for k in across.meeting(upper.u0, upper.u1)):
            if lower.v1 <= upper.v0:
                continue
            both = [(max(a, c), min(b, d)) for a, b in high for c, d in low]
            for k, (a, b) in enumerate(sorted([span for span in both if span[1] - span[0] > GRAZING])):
                line = (frame.plan(a, upper.v0), frame.plan(b, upper.v0))
                length, width = (b - a) / TICKS, (lower.v1 - upper.v0) / TICKS
                pair = (lower.id, upper.id)
                lap = Lap(side_id(lower, upper, k), "side", upper.area, upper.ply, pair, line, length, width)
                found.append((lap, lower, upper, a, b))
    return found


class Stretches:
    """Stretches along a line, kept so that those which meet another one are found without a look at all of them."""

    def __init__(self, spans: Sequence[Span]) -> None:
        """spans: in any order; they are told by their places in it."""
        self.order = sorted(range(len(spans)), key=lambda k: spans[k])
        self.begins = [spans[k][0] for k in self.order]
        self.ends = [spans[k][1] for k in self.order]
        self.reach = list(accumulate(self.ends, max))  # how far the stretches up to here go: it never falls

    def meeting(self, left: int, right: int) -> list[int]:
        """Places of the stretches that have more than an end in common with left..right, rising."""
        first, last = bisect_right(self.reach, left), bisect_left(self.begins, right)
        return sorted(self.order[k] for k in range(first, last) if self.ends[k] > left)


def lying(row: Sequence[Laid], level: int) -> list[tuple[Piece, list[Span]]]:
    """Each piece of a course with the stretches of a level line that it shows: where it lies and no later one does.

    So no lap is counted twice.  A piece that another one of the course lies above or below may not reach the line.
    """
    found: list[tuple[Piece, list[Span]]] = []
    after: list[Span] = []
    parts: dict[int, list[Span] | None] = {}  # of each run, by its identity; None where it is a whole rectangle
    here = [each for each in row if each.piece.v0 <= level <= each.piece.v1]
    reach = list(accumulate((each.piece.u1 for each in here), max))  # how far the pieces up to each go
    for one, furthest in zip(reversed(here), reversed(reach), strict=True):
        piece, run = one.piece, one.run
        if id(run) not in parts:
            is_whole = run.fills(piece.v0, piece.v1)  # all pieces of a run have the same edges
            parts[id(run)] = None if is_whole else level_parts(run.lies, level, run.left, run.right)
        shown = parts[id(run)]
        own = [(piece.u0, piece.u1)] if shown is None else shown_of(one, shown, level)
        after = [span for span in after if span[0] < furthest]
        found.append((piece, left_of(own, after)))
        after += own
    return found[::-1]


def shown_of(one: Laid, shown: Sequence[Span], level: int) -> list[Span]:
    """What a piece shows of what its run does at a level: no scrap that its end cuts off beside an opening."""
    piece = one.piece
    spans = within(shown, piece.u0, piece.u1)
    if spans in ([], [(piece.u0, piece.u1)]):
        return spans
    main = less_scraps(piece, one.run)
    return spans if main is None else level_parts(main, level, piece.u0, piece.u1)


def within(spans: Sequence[Span], left: int, right: int) -> list[Span]:
    """What lies of rising spans between two places, of more than a tick."""
    first, last = bisect_right(spans, left, key=itemgetter(1)), bisect_left(spans, right, key=itemgetter(0))
    cut = [(max(a, left), min(b, right)) for a, b in spans[first:last]]
    return [(a, b) for a, b in cut if b - a > 1]


def left_of(spans: Sequence[Span], taken: Sequence[Span]) -> list[Span]:
    """Spans less others."""
    result = list(spans)
    for low, high in taken:
        result = [part for a, b in result for part in ((a, min(b, low)), (max(a, high), b)) if part[1] - part[0] > 0]
    return result


def side_id(lower: Piece, upper: Piece, k: int) -> str:
    """A side lap's id: the two courses, the two places in them, and which of their stretches."""
    again = "" if k == 0 else f"/{k + 1}"
    return f"{upper.area}/{upper.ply}/{lower.course:02d}-{upper.course:02d}/side {lower.place}-{upper.place}{again}"


def level_parts(shape: BaseGeometry, level: int, left: int, right: int) -> list[Span]:
    """The stretches of a level line, between left and right, that lie on a shape, rising [ticks]."""
    from shapely import LineString, bounds

    cut = shape.intersection(LineString([(left, level), (right, level)]))
    lines = [part for part in getattr(cut, "geoms", [cut]) if part.geom_type == "LineString" and not part.is_empty]
    spans: list[tuple[int, int]] = []
    for a, b in sorted((round(first), round(last)) for first, _, last, _ in bounds(lines).tolist()):
        # an opening that ends on the line cuts the line in three that touch
        start, end = spans.pop() if spans and a <= spans[-1][1] else (a, b)
        spans.append((start, max(end, b)))
    return spans


def end_laps(row: Sequence[Laid], sheet: Sheet, frame: Frame) -> list[tuple[Lap, Piece, Piece]]:
    """End laps of one course: lap, the piece under it, the piece over it."""
    found = []
    for one, after in pairwise(row):
        under, over = one.piece, after.piece
        width = under.u1 - over.u0
        if one.run is not after.run or width <= 0:
            continue
        name = f"{over.area}/{over.ply}/{over.course:02d}/end {under.place}-{over.place}"
        line = (frame.plan(over.u0, over.v0), frame.plan(over.u0, over.v1))
        length = (over.v1 - over.v0) / TICKS
        lap = Lap(name, "end", over.area, over.ply, (under.id, over.id), line, length, width / TICKS)
        found.append((lap, under, over))
    return found


def by_piece(sides: Sequence[SideLap]) -> dict[str, list[SideLap]]:
    """Side laps by the pieces they lie between."""
    found: dict[str, list[SideLap]] = {}
    for side in sides:
        found.setdefault(side[1].id, []).append(side)
        found.setdefault(side[2].id, []).append(side)
    return found


def meeting(beside: Mapping[str, Sequence[SideLap]], under: Piece, over: Piece) -> list[tuple[str, str, int]]:
    """Side laps that the end lap of two pieces runs into: id, `low` or `high` end of the end lap, and level there.

    Where the piece over it is notched just there, the side lap of the piece under it ends at the end lap.
    """
    found: dict[str, tuple[str, int]] = {}
    for lap, _, upper, left, right in beside.get(over.id, ()):
        if left <= over.u0 < right:
            found["low" if upper is over else "high"] = (lap.id, upper.v0)
    for lap, _, upper, _, right in beside.get(under.id, ()):
        if right == over.u0:
            found.setdefault("low" if upper is under else "high", (lap.id, upper.v0))
    return [(id, place, level) for place, (id, level) in found.items()]
