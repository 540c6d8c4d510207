"""Laps, T-joints and corner cuts that follow from the pieces of a ply.

The later piece of a run lies on the one before it, the upper course on the lower one, so that no lap faces the
flow.  Where an end lap meets a side lap three sheets lie on each other: a T-joint, with the corner of the sheet
that is covered and the opposing corner of the one that covers it cut at 45°.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

from lapwright.assembly.values import Sheet
from lapwright.layout.region import Region
from lapwright.layout.values import CornerCut, Frame, Lap, Piece, TJoint

TICKS = 80_000.0


@dataclass(frozen=True, slots=True)
class Joined:
    """What one ply's pieces make: pieces with their corner cuts, laps, T-joints."""

    pieces: tuple[Piece, ...]
    laps: tuple[Lap, ...]
    tjoints: tuple[TJoint, ...]


def join(pieces: Sequence[Piece], sheet: Sheet, frame: Frame, region: Region, corner_cut: int) -> Joined:
    """Laps, T-joints and corner cuts of one ply on one area.

    corner_cut: length of the 45° cut [ticks]; 0: corners are not cut in this ply.
    Source: common practice, no source (opposing corners cut, 5 1/2" by the selvage width)
    Checked: tests/layout/test_place.py
    """
    rows: dict[int, list[Piece]] = {}
    for piece in pieces:
        rows.setdefault(piece.course, []).append(piece)
    sides = [lap for course in sorted(rows) for lap in side_laps(rows, course, sheet, frame, region)]
    ends = [lap for course in sorted(rows) for lap in end_laps(rows[course], sheet, frame, region)]
    tjoints: list[TJoint] = []
    cuts: dict[str, list[CornerCut]] = {}
    for lap, under, over in ends:
        for side, place in meeting(sides, under, over):
            level = over.v0 if place == "low" else over.v1 - sheet.side_lap_ticks
            at = frame.plan(over.u0, level)
            tjoints.append(TJoint(f"{lap.id}/{place}", over.area, over.ply, at, (lap.id, side)))
            corner = (over.u0, over.v0) if place == "low" else (under.u1, under.v1)
            owner = over.id if place == "low" else under.id
            if corner_cut:
                cuts.setdefault(owner, []).append(CornerCut(corner, corner_cut, sheet.side_lap_ticks))
    cut = tuple(replace(piece, corner_cuts=tuple(cuts.get(piece.id, ()))) for piece in pieces)
    return Joined(cut, tuple(side for side, *_ in sides) + tuple(lap for lap, *_ in ends), tuple(tjoints))


SideLap = tuple[Lap, Piece, Piece, int, int]


def side_laps(rows: dict[int, list[Piece]], course: int, sheet: Sheet, frame: Frame, region: Region) -> list[SideLap]:
    """Side laps between a course and the one below: lap, lower and upper piece, extent along the course."""
    found: list[SideLap] = []
    shown = shown_ends(rows[course]) | shown_ends(rows.get(course - 1, []))
    for upper in rows[course]:
        for lower in rows.get(course - 1, []):
            left, right = max(upper.u0, lower.u0), min(shown[upper.id], shown[lower.id])
            if right - left < 1 or lower.v1 <= upper.v0:
                continue
            for k, (a, b) in enumerate(level_parts(region, upper.v0, left, right)):
                line = (frame.plan(a, upper.v0), frame.plan(b, upper.v0))
                length, width = (b - a) / TICKS, (lower.v1 - upper.v0) / TICKS
                pair = (lower.id, upper.id)
                lap = Lap(side_id(lower, upper, k), "side", upper.area, upper.ply, pair, line, length, width)
                found.append((lap, lower, upper, a, b))
    return found


def side_id(lower: Piece, upper: Piece, k: int) -> str:
    """A side lap's id: the two courses, the two places in them, and which of their stretches."""
    again = "" if k == 0 else f"/{k + 1}"
    return f"{upper.area}/{upper.ply}/{lower.course:02d}-{upper.course:02d}/side {lower.place}-{upper.place}{again}"


def shown_ends(row: Sequence[Piece]) -> dict[str, int]:
    """Where each piece of a course is covered by the next one, or ends; so that no lap is counted twice."""
    ends = {piece.id: piece.u1 for piece in row}
    for piece, after in pairwise(row):
        ends[piece.id] = min(piece.u1, after.u0) if after.u0 > piece.u0 else piece.u1
    return ends


def level_parts(region: Region, level: int, left: int, right: int) -> list[tuple[int, int]]:
    """The stretches of a level line, between left and right, that lie on the ply's ground [ticks]."""
    from shapely import LineString

    shape: Any = region.shape.intersection(LineString([(left, level), (right, level)]))
    lines = [shape] if shape.geom_type == "LineString" else list(getattr(shape, "geoms", ()))
    spans = sorted(
        (round(line.bounds[0]), round(line.bounds[2]))
        for line in lines
        if line.geom_type == "LineString" and not line.is_empty
    )
    return [(a, b) for a, b in spans if b - a > 1]


def end_laps(row: Sequence[Piece], sheet: Sheet, frame: Frame, region: Region) -> list[tuple[Lap, Piece, Piece]]:
    """End laps of one course: lap, the piece under it, the piece over it."""
    found = []
    for under, over in pairwise(row):
        width = under.u1 - over.u0
        if width <= 0 or width > 2 * sheet.end_lap_ticks or not overlap_on_ground(region, under, over):
            continue
        name = f"{over.area}/{over.ply}/{over.course:02d}/end {under.place}-{over.place}"
        line = (frame.plan(over.u0, over.v0), frame.plan(over.u0, over.v1))
        lap = Lap(
            name, "end", over.area, over.ply, (under.id, over.id), line, (over.v1 - over.v0) / TICKS, width / TICKS
        )
        found.append((lap, under, over))
    return found


def overlap_on_ground(region: Region, under: Piece, over: Piece) -> bool:
    """The lap of two pieces lies on the ply's ground, not over an opening between two runs."""
    from shapely import box

    shared = region.shape.intersection(box(over.u0, over.v0, under.u1, over.v1))
    return bool(shared.area > 0)


def meeting(sides: Sequence[SideLap], under: Piece, over: Piece) -> list[tuple[str, str]]:
    """Side laps that the end lap between two pieces runs into: id, and `low` or `high` end of the end lap."""
    found = []
    for lap, lower, upper, left, right in sides:
        if upper is over and left <= over.u0 < right:
            found.append((lap.id, "low"))
        elif lower is over and left <= over.u0 < right:
            found.append((lap.id, "high"))
    return found
