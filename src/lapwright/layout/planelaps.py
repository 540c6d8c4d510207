"""Laps between planes: over ridges, over lines that water runs across, and onto valley sheets, with their T-joints.

*Under* is what lies below the lap: a sheet of the plane laid first, or the valley sheet; *over* what runs out on it.
The exposed edge is the end of what lies over.  Along it the piece on top is the one laid last, on either side of the
lap; where that changes a side or an end lap runs in under it, three sheets thick.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from lapwright.assembly.values import Ply
from lapwright.defaults.values import Rules
from lapwright.geometry.polygon import signed_area2
from lapwright.layout.laps import GRAZING, TICKS, Laid
from lapwright.layout.ownshape import own_shape
from lapwright.layout.region import reach_beyond
from lapwright.layout.values import XY, Detail, Frame, Lap, Piece, TJoint
from lapwright.roof.values import Area, Edge

LISTED = 400  # 5 mm: a shorter stretch is not listed; half of what rulecheck asks for, which reckons it anew
HAIR = 1.0  # a tick: no distance
WITHIN = 80.0  # 1 mm within the ends of sheets is looked what lies there: less is shaved off nobody's corner
UP_WALL = 160_000.0  # 2 m: no sheet runs farther past the end of a side, up a wall or over an edge

Part = tuple[float, float, int]  # a stretch of a side by shares of it, and the place of what is seen there


@dataclass(frozen=True, slots=True)
class Plane:
    """One ply on one area as it lies: its pieces in the order of laying, with their runs."""

    area: Area
    frame: Frame
    ply: Ply
    laid: tuple[Laid, ...]


@dataclass(frozen=True, slots=True)
class Line:
    """A line beside a side, in a plane's slope frame [ticks]: its ends at shares 0 and 1, and how far it goes on."""

    start: tuple[float, float]
    end: tuple[float, float]
    first: float
    last: float

    @property
    def length(self) -> float:
        """From share 0 to share 1 [ticks]."""
        return math.dist(self.start, self.end)

    def at(self, share: float) -> tuple[float, float]:
        """The place of a share."""
        (u0, v0), (u1, v1) = self.start, self.end
        return (u0 + (u1 - u0) * share, v0 + (v1 - v0) * share)


@dataclass(frozen=True, slots=True)
class Shown:
    """What shows along a line: the ids of pieces, the words that tell them in a lap's id, and their stretches."""

    ids: tuple[str, ...]
    words: tuple[str, ...]
    parts: tuple[Part, ...]


@dataclass(frozen=True, slots=True)
class Crossing:
    """A lap between planes before its stretches: of what plane and ply, where, how wide [ticks], what shows of both."""

    kind: str
    over: Plane
    frame: Frame
    line: Line
    width: int
    under_shown: Shown
    over_shown: Shown
    name: str


def plane_laps(
    planes: Sequence[Plane], valley_sheets: Sequence[Detail], laps: Sequence[Lap], rules: Rules
) -> tuple[list[Lap], list[TJoint]]:
    """Every lap of field pieces over a line between two areas or onto a valley sheet, and every T-joint in them.

    planes: area by area in the order of laying.  laps: those of the plies and of the valley sheets.
    Source: common practice, no source
    Checked: tests/layout/test_planelaps.py
    """
    if not any(edge.meets for plane in planes for edge in plane.area.edges):
        return [], []
    between = {frozenset(lap.pieces): lap.id for lap in laps}
    found: list[Lap] = []
    joints: list[TJoint] = []
    for crossing in crossings(planes, valley_sheets, rules):
        made = list(stretches(crossing))
        found += [lap for lap, _ in made]
        joints += tjoints_of(crossing, made, between)
    return found, joints


def crossings(planes: Sequence[Plane], valley_sheets: Sequence[Detail], rules: Rules) -> Iterator[Crossing]:
    """Every line between planes with what shows on both sides of it, ply by ply."""
    by_key = {(plane.area.name, plane.ply.ply): (k, plane) for k, plane in enumerate(planes)}
    for k, plane in enumerate(planes):
        for edge in plane.area.edges:
            place, other = by_key.get((edge.meets, plane.ply.ply), (-1, plane))
            if place < 0:
                continue
            across = same_edge(edge, other.area)
            if edge.kind == "valley":
                own = [one for one in valley_sheets if one.ply == plane.ply.ply and lies_along(one, edge)]
                yield onto_valley(plane, edge, own, rules)
            elif edge.is_over or (edge.kind == "ridge" and place < k):
                yield onto_plane((plane, edge), (other, across), rules)


def same_edge(edge: Edge, other: Area) -> Edge:
    """The side of the area beyond that is one line with this one."""
    return min(
        (one for one in other.edges if one.meets),
        key=lambda one: math.dist(one.start, edge.end) + math.dist(one.end, edge.start),
    )


def lies_along(sheet: Detail, edge: Edge) -> bool:
    """A valley sheet lies in the valley that a side is."""
    if sheet.line is None:
        return False
    (ax, ay), (bx, by) = edge.start, edge.end
    offs = [abs((bx - ax) * (y * TICKS - ay) - (by - ay) * (x * TICKS - ax)) for x, y in sheet.line]
    shares = [share_of(edge, at) for at in sheet.line]
    return max(offs) / math.dist(edge.start, edge.end) < GRAZING and min(shares) < 1.0 and max(shares) > 0.0


def share_of(edge: Edge, at: XY) -> float:
    """How far along a side a plan point [m] lies, as a share of it.  Source: geometry"""
    (ax, ay), (bx, by) = edge.start, edge.end
    dx, dy = bx - ax, by - ay
    return ((at[0] * TICKS - ax) * dx + (at[1] * TICKS - ay) * dy) / (dx * dx + dy * dy)


def onto_plane(upper: tuple[Plane, Edge], lower: tuple[Plane, Edge], rules: Rules) -> Crossing:
    """The pieces of one plane that run out over the line onto those of the other.

    The line is drawn on the plane below, as far from the side as the sheets over it reach.
    """
    (over, edge), (under, across) = upper, lower
    reach, beyond = (reach_beyond(one, rules, under_cap=False) for one in (edge, across))
    line = beside(under, across, -reach)
    over_line = beside(over, edge, reach - WITHIN)
    flipped = tuple((1.0 - b, 1.0 - a, k) for a, b, k in reversed(seen_along(over, over_line)))
    name = f"{edge.kind} side {edge.side}"
    below, above = shown(under, seen_along(under, line)), shown(over, flipped)
    return Crossing("side", over, under.frame, line, reach + beyond, below, above, name)


def onto_valley(plane: Plane, edge: Edge, sheets: Sequence[Detail], rules: Rules) -> Crossing:
    """The pieces of a plane that end on the sheets of a valley."""
    back = rules.valley_back_ticks
    line = beside(plane, edge, -back)
    spans = [sorted(share_of(edge, at) for at in sheet.line or ()) for sheet in sheets]
    below = Shown(
        tuple(one.id for one in sheets),
        tuple(one.id.rpartition(" ")[2] for one in sheets),
        on_top([(a, b, k) for k, (a, b) in enumerate(spans)]),
    )
    over, width = (
        shown(plane, seen_along(plane, beside(plane, edge, -back - WITHIN))),
        plane.ply.sheet.width_ticks // 2 - back,
    )
    return Crossing("strip", plane, plane.frame, line, width, below, over, f"valley side {edge.side}")


def beside(plane: Plane, edge: Edge, off: float) -> Line:
    """The line so far outward of a side [ticks], and how far sheets may go on along it at its ends."""
    (u0, v0), (u1, v1) = (plane.frame.slope_uv(*point) for point in (edge.start, edge.end))
    length = math.dist((u0, v0), (u1, v1))
    sense = off / length * (1 if signed_area2(plane.area.outline) > 0 else -1)
    du, dv = (v1 - v0) * sense, -(u1 - u0) * sense
    first, last = (past(plane.area, edge, end) / length for end in (edge.start, edge.end))
    return Line((u0 + du, v0 + dv), (u1 + du, v1 + dv), -first, 1.0 + last)


def past(area: Area, edge: Edge, end: tuple[int, int]) -> float:
    """How far past an end of a side its sheets are looked for [ticks]: none where the next side is one of planes."""
    meets = any(one.meets and one.side != edge.side and end in (one.start, one.end) for one in area.edges)
    return 0.0 if meets else UP_WALL


def shown(plane: Plane, parts: Sequence[Part]) -> Shown:
    """The pieces of a plane that show, told by area, course and place."""
    pieces = [one.piece for one in plane.laid]
    return Shown(tuple(one.id for one in pieces), tuple(map(words_of, pieces)), tuple(parts))


def words_of(piece: Piece) -> str:
    """A piece of another plane, as the id of a lap names it."""
    return f"{piece.area} {piece.course:02d}-{piece.place}"


def seen_along(plane: Plane, line: Line) -> tuple[Part, ...]:
    """Which pieces are on top along a line, by shares of it, in order.

    Source: geometry
    """
    found: list[Part] = []
    for k, one in enumerate(plane.laid):
        span = within(line, one.piece)
        if span is None:
            continue
        is_whole = one.run.fills(one.piece.v0, one.piece.v1)
        found += [(a, b, k) for a, b in ([span] if is_whole else lying(line, one, span))]
    return on_top(found)


def within(line: Line, piece: Piece) -> tuple[float, float] | None:
    """The shares of a line between which it runs through a piece's rectangle; None where it does not."""
    first, last = line.first, line.last
    (u0, v0), (u1, v1) = line.start, line.end
    for at, way, low, high in ((u0, u1 - u0, piece.u0, piece.u1), (v0, v1 - v0, piece.v0, piece.v1)):
        if abs(way) < HAIR:
            if not low <= at <= high:
                return None
            continue
        a, b = sorted(((low - at) / way, (high - at) / way))
        first, last = max(first, a), min(last, b)
    return (first, last) if last > first else None


def lying(line: Line, laid: Laid, span: tuple[float, float]) -> list[tuple[float, float]]:
    """The shares of a line that lie on a piece which is notched or trimmed."""
    from shapely import LineString

    ends = (line.at(span[0]), line.at(span[1]))
    cut = LineString(ends).intersection(own_shape(laid.piece, laid.run))
    parts = [one for one in getattr(cut, "geoms", [cut]) if one.geom_type == "LineString" and not one.is_empty]
    found = []
    for part in parts:
        shares = sorted(math.dist(line.at(span[0]), at) / line.length + span[0] for at in part.coords)
        found.append((shares[0], shares[-1]))
    return sorted(found)


def on_top(parts: Sequence[Part]) -> tuple[Part, ...]:
    """Of stretches that lie on one another the one laid last, in order along the line.  Source: arithmetic"""
    found: list[Part] = []
    for part in sorted(parts, key=lambda part: part[2]):
        low, high, _ = part
        left = [(a, b, k) for c, d, k in found for a, b in ((c, min(d, low)), (max(c, high), d)) if b > a]
        found = [*left, part]
    joined: list[Part] = []
    for low, high, k in sorted(found):
        if joined and joined[-1][2] == k and low - joined[-1][1] <= 0.0:
            joined[-1] = (joined[-1][0], high, k)
        else:
            joined.append((low, high, k))
    return tuple(joined)


def stretches(crossing: Crossing) -> Iterator[tuple[Lap, Part]]:
    """The laps of a crossing in order along it, each with its stretch; the last of a part is its number over."""
    under, over, line = crossing.under_shown, crossing.over_shown, crossing.line
    pieces = [one.piece for one in crossing.over.laid]
    times: dict[str, int] = {}
    i = j = 0
    while i < len(under.parts) and j < len(over.parts):
        (a, b, below), (c, d, above) = under.parts[i], over.parts[j]
        low, high = max(a, c), min(b, d)
        if (high - low) * line.length > LISTED:
            piece = pieces[above]
            name = f"{piece.area}/{piece.ply}/{piece.course:02d}/{crossing.name} {piece.place} on {under.words[below]}"
            times[name] = times.get(name, 0) + 1
            again = f"/{times[name]}" if times[name] > 1 else ""
            ends = (crossing.frame.plan(*line.at(low)), crossing.frame.plan(*line.at(high)))
            pair, long = (under.ids[below], over.ids[above]), (high - low) * line.length / TICKS
            width = crossing.width / TICKS
            yield Lap(name + again, crossing.kind, piece.area, piece.ply, pair, ends, long, width), (low, high, above)
        i, j = (i + 1, j) if b <= d else (i, j + 1)


def tjoints_of(
    crossing: Crossing, made: Sequence[tuple[Lap, Part]], between: Mapping[frozenset[str], str]
) -> Iterator[TJoint]:
    """Where another piece begins along the lap, under it or over it: a side or an end lap ends there.

    between: laps by the two that they join.
    """
    for (one, (_, ends, _)), (two, (begins, _, _)) in pairwise(made):
        if abs(begins - ends) * crossing.line.length > GRAZING:
            continue
        at = crossing.frame.plan(*crossing.line.at(begins))
        for which, place in (("under", 0), ("over", 1)):
            lap = between.get(frozenset((one.pieces[place], two.pieces[place])))
            if lap is not None:
                yield TJoint(f"{two.id}/{which}", two.area, two.ply, at, (two.id, lap))
