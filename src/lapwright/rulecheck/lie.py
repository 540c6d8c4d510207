"""How the pieces of one ply lie on one area: boxes on the slope, end laps, which of them openings hold.

*Own* shape of a piece: what is left of its blank when it is cut to the ends of its run and round openings.
*Joint*: the exposed edge of an end lap across the fall, the end of the piece that is laid later.
*Held*: an end lap within the extent of an opening that lies wholly inside the sheet's width; it has to be there.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import combinations, permutations

from shapely import MultiPolygon, intersection
from shapely import box as boxes_of
from shapely.geometry.base import BaseGeometry as Shape

from lapwright.assembly.values import Ply, Sheet
from lapwright.roof.values import Area
from lapwright.rulecheck.ground import Ground, Hole
from lapwright.rulecheck.limits import Limits, metres
from lapwright.rulecheck.read import GivenCourse, GivenPiece, GivenPly
from lapwright.rulecheck.slope import Box, Slope, box_of
from lapwright.rulecheck.values import XY, Violation
from lapwright.rulecheck.wide import are_alike, depth, likeliest, polygons, swept_up, wide_parts


@dataclass(frozen=True, slots=True)
class Lying:
    """A piece and the box of its blank on the slope."""

    given: GivenPiece
    box: Box

    @property
    def id(self) -> str:
        """The piece's id."""
        return self.given.id

    @property
    def u0(self) -> float:
        """Its left end."""
        return self.box[0]

    @property
    def v0(self) -> float:
        """Its low edge."""
        return self.box[1]

    @property
    def u1(self) -> float:
        """Its right end."""
        return self.box[2]

    @property
    def v1(self) -> float:
        """Its high edge."""
        return self.box[3]


@dataclass(frozen=True, slots=True)
class EndLap:
    """Two pieces of a course that meet: strip u0..u1 where both lie; `holder` is the opening that holds it."""

    course: int
    left: Lying
    right: Lying
    under: Lying
    over: Lying
    u0: float
    u1: float
    joint: float
    holder: str | None

    @property
    def ids(self) -> tuple[str, str]:
        """Ids of both pieces, left first."""
        return (self.left.id, self.right.id)

    @property
    def low(self) -> float:
        """The lower end of the exposed edge."""
        return self.over.v0

    @property
    def high(self) -> float:
        """The upper end of the exposed edge."""
        return self.over.v1


@dataclass(frozen=True, slots=True)
class Bed:
    """Where a ply is to lie, from the job alone: area, ply, slope, ground, rules, and whether it is the cap."""

    area: Area
    ply: Ply
    slope: Slope
    ground: Ground
    limits: Limits
    is_cap: bool


class PlyLie:
    """One ply on one area, with everything that the rules ask about it.

    listed: pairs of pieces that the plan lists an end lap for.
    """

    def __init__(self, bed: Bed, given: GivenPly, listed: frozenset[frozenset[str]]) -> None:
        self.area, self.ply, self.slope, self.ground = bed.area, bed.ply, bed.slope, bed.ground
        self.limits, self.is_cap = bed.limits, bed.is_cap
        self.given, self.listed = given, listed
        boxes = [box_of([bed.slope.uv(corner) for corner in piece.blank]) for piece in given.pieces]
        self.lying = tuple(Lying(piece, found) for piece, found in zip(given.pieces, boxes, strict=True))

    @property
    def name(self) -> str:
        """For people: `base on Main`."""
        return f"{self.ply.ply} on {self.area.name}"

    @property
    def sheet(self) -> Sheet:
        """The sheet of the job, not of the plan."""
        return self.ply.sheet

    @property
    def width(self) -> float:
        """Width of a full sheet [m]."""
        return metres(self.sheet.width_ticks)

    @property
    def side_lap(self) -> float:
        """Side lap that the sheet asks [m]."""
        return metres(self.sheet.side_lap_ticks)

    @property
    def end_lap(self) -> float:
        """End lap that the sheet asks [m]."""
        return metres(self.sheet.end_lap_ticks)

    @cached_property
    def courses(self) -> tuple[GivenCourse, ...]:
        """Courses by index; of two with one index the first."""
        found: dict[int, GivenCourse] = {}
        for course in self.given.courses:
            found.setdefault(course.index, course)
        return tuple(found[index] for index in sorted(found))

    @cached_property
    def rows(self) -> Mapping[int, tuple[Lying, ...]]:
        """Pieces of each course from the left."""
        found: dict[int, list[Lying]] = {}
        for lying in sorted(self.lying, key=lambda each: (each.given.course, each.u0, each.u1, each.id)):
            found.setdefault(lying.given.course, []).append(lying)
        return {course: tuple(row) for course, row in found.items()}

    @cached_property
    def end_laps(self) -> tuple[EndLap, ...]:
        """Pieces of a course that lie on one another or just touch, course by course from the left."""
        return tuple(lap for course, row in self.rows.items() for lap in self._meetings(course, row))

    @cached_property
    def parts(self) -> Mapping[str, tuple[Shape, ...]]:
        """By piece: the parts of its blank that lie on the ply's ground, the largest first."""
        if not self.lying:
            return {}
        u0, v0, u1, v1 = zip(*(lying.box for lying in self.lying), strict=True)
        kept = intersection(boxes_of(u0, v0, u1, v1), self.ground.reach)
        return {lying.id: polygons(shape, self.limits.gap) for lying, shape in zip(self.lying, kept, strict=True)}

    @cached_property
    def wide(self) -> Mapping[str, tuple[Shape, ...]]:
        """By piece: its wide parts, the broadest, which it is, first; all of it where it has none.

        What is nowhere wide comes before what is, where it goes from end to end of its blank and no other part does.
        Where two are much alike it is the one that lies with a piece that it is listed to meet; then the one that no
        other piece of the course is.
        """
        found = {}
        for lying in self.lying:
            whole = MultiPolygon(self.parts[lying.id])
            parts = wide_parts(whole, self.side_lap + self.limits.gap, self.limits.gap)
            found[lying.id] = (*self._slim(lying, parts), *parts) or self.parts[lying.id]
        clear = {id: parts[0] for id, parts in found.items() if parts and not are_alike(parts)}
        for row in self.rows.values():
            for id in [lying.id for lying in row if lying.id not in clear]:
                mates = {one for pair in self.listed if id in pair for one in pair - {id} if one in clear}
                others = {lying.id for lying in row if lying.id in clear} - mates
                found[id] = likeliest(found[id], [clear[one] for one in mates], [clear[one] for one in others])
        return found

    def _slim(self, lying: Lying, wide: Sequence[Shape]) -> list[Shape]:
        """The parts of a piece that are nowhere wide, if they alone fill its blank from end to end."""
        full = [part for part in self.parts[lying.id] if len(self.parts[lying.id]) > 1 and self.fills(lying, part)]
        return [] if any(part.intersects(one) for part in full for one in wide) else full

    @cached_property
    def main(self) -> Mapping[str, Shape]:
        """By piece: the part of its blank that it is; empty where it lies off the ground."""
        found = {}
        for lying in self.lying:
            parts = self.parts[lying.id]
            found[lying.id] = next((part for part in parts if part.intersects(self.wide[lying.id][0])), MultiPolygon())
        return found

    @cached_property
    def own(self) -> Mapping[str, Shape]:
        """By piece: the part that it is, if that fills its blank from end to end; else all of them."""
        found = {}
        for lying in self.lying:
            main = self.main[lying.id]
            is_full = not main.is_empty and self.fills(lying, main)
            found[lying.id] = main if is_full else MultiPolygon(self.parts[lying.id])
        return found

    @cached_property
    def seen(self) -> Mapping[str, Shape]:
        """By piece: its own shape without the wide parts that a piece of another run is."""
        found = dict(self.own)
        for row in self.rows.values():
            for lying, other in permutations(row, 2):
                if len(self.wide[lying.id]) < 2 or not self.wide[other.id] or self._meet(lying, other):
                    continue
                for part in self.wide[lying.id][1:]:
                    if part.intersection(self.wide[other.id][0]).area > 0.0:
                        found[lying.id] = found[lying.id].difference(swept_up(part, self.side_lap + self.limits.gap))
        return found

    def fills(self, lying: Lying, shape: Shape) -> bool:
        """The shape reaches both ends of the piece's blank."""
        left, _, right, _ = shape.bounds
        return bool(left - lying.u0 <= self.limits.gap and lying.u1 - right <= self.limits.gap)

    def _meetings(self, course: int, row: Sequence[Lying]) -> Iterator[EndLap]:
        for left, right in combinations(row, 2):
            if left.u1 - right.u0 < -self.limits.gap or not self._meet(left, right):
                continue
            under, over = sorted((left, right), key=lambda each: each.given.sequence)
            joint = right.u0 if over is right else left.u1
            u0, u1 = right.u0, min(left.u1, right.u1)
            yield EndLap(course, left, right, under, over, u0, u1, joint, self._holder(over, joint, (u0, u1)))

    def _meet(self, left: Lying, right: Lying) -> bool:
        """The pieces meet where they lie, not only their blanks, which may cross over a bite of the outline.

        Where no more than the width of a side lap is left beside an opening or an edge, nobody needs an end lap; one
        that is listed there all the same is taken for one.
        """
        shapes = [(self.wide[left.id][0], self.wide[right.id][0])] if self.wide[left.id] and self.wide[right.id] else []
        if frozenset((left.id, right.id)) in self.listed:
            shapes.append((self.own[left.id], self.own[right.id]))
        gap = self.limits.gap
        return any(depth(one.buffer(gap).intersection(two)) > 3 * gap for one, two in shapes)

    def _holder(self, piece: Lying, joint: float, strip: tuple[float, float]) -> str | None:
        """The opening that holds an end lap; one that is inside only as lengths are read, if it is passed clear."""
        close, course, room = self.limits.close, piece.given.course, self.end_lap + self.limits.cut_step
        for hole in self.holes_inside(course, piece.v0, piece.v1, surely=False):
            is_here = hole.box[0] - close <= joint <= hole.box[2] + close
            if is_here and (
                hole.is_passed(strip, room, close) or hole in self.holes_inside(course, piece.v0, piece.v1, surely=True)
            ):
                return hole.name
        return None

    def holes_inside(self, course: int, low: float, high: float, *, surely: bool) -> Iterator[Hole]:
        """Openings wholly inside a sheet of a course, but for those so short that they are slit.

        surely: without those that may be passed by an end lap, but need none: inside only as lengths are read, or cut
        free at a corner over the neighbouring course.
        """
        close = self.limits.close if surely else -self.limits.close
        covered = tuple(self.side_lap if course + step in self.rows else 0.0 for step in (-1, 1))
        for hole in self.ground.holes:
            is_slit = hole.box[2] - hole.box[0] < self.end_lap + self.limits.slit + close
            if not is_slit and hole.is_within(low, high, covered, close, surely=surely):
                yield hole

    def found(
        self,
        rule: str,
        ids: Sequence[str],
        where: XY | None,
        text: str,
        *,
        read: float | str | None = None,
        needs: float | str | None = None,
    ) -> Violation:
        """A violation in this ply; `where` on the slope."""
        spot = None if where is None else self.slope.plan(*where)
        return Violation(rule, tuple(ids), spot, read, needs, text)


def middle(box: Box) -> XY:
    """The middle of a box."""
    return ((box[0] + box[2]) / 2, (box[1] + box[3]) / 2)
