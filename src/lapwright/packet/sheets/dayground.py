"""What lies already on the plan of a day: the ground laid before, by stretches of courses, not piece by piece.

A large job has hundreds of days, and on each of its plans most of the roof is laid.  What all of these plans look up
is therefore noted once, and pieces of a course that lie end to end are drawn as one: on the plan of a day they are one
hatched ground.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from lapwright.crew.values import CrewDay
from lapwright.layout.values import Frame, Lap, Piece, TJoint
from lapwright.packet.drawing import Points
from lapwright.packet.sheets.clip import Box, clip_ring
from lapwright.packet.values import Paper
from lapwright.roof.values import Area

NEVER = math.inf


@dataclass(frozen=True, slots=True)
class Stretch:
    """Pieces of a course that lie end to end: their rectangle as laid, and what of it is roof [m]."""

    ply: str
    laid: Points
    ground: Points


@dataclass(frozen=True, slots=True)
class Row:
    """A course: its pieces from the left, the number of the day each is laid on, its stretches once all lie."""

    area: Area
    frame: Frame
    pieces: tuple[Piece, ...]
    days: tuple[float, ...]
    whole: tuple[Stretch, ...]


@dataclass(frozen=True, slots=True)
class Known:
    """What the plans of all days look up.

    rows: courses, lower plies first.  joints: T-joints by each of their laps, with their place in the layout.
    begun: the day on which each ply is begun.
    """

    pieces: Mapping[str, tuple[int, Piece]]
    laps: Mapping[str, Lap]
    joints: Mapping[str, Sequence[tuple[int, TJoint]]]
    rows: tuple[Row, ...]
    begun: Mapping[str, float]

    def pieces_of(self, day: CrewDay) -> list[Piece]:
        """The day's pieces, in laying order."""
        return [piece for _, piece in sorted((self.pieces[id] for id in day.pieces if id in self.pieces), key=first)]

    def laps_of(self, day: CrewDay) -> list[Lap]:
        """The laps closed on a day."""
        return [self.laps[id] for id in day.laps if id in self.laps]

    def joints_of(self, laps: Iterable[Lap]) -> list[TJoint]:
        """T-joints in which one of the laps ends, in the layout's order."""
        found = {place: joint for lap in laps for place, joint in self.joints.get(lap.id, ())}
        return [found[place] for place in sorted(found)]

    def plies_before(self, number: int) -> set[str]:
        """Plies of which something lies when a day begins."""
        return {ply for ply, day in self.begun.items() if day < number}

    def laid_before(self, number: int) -> Iterator[Stretch]:
        """What lies when a day begins, lower plies first."""
        for row in self.rows:
            if max(row.days) < number:
                yield from row.whole
            elif min(row.days) < number:
                laid = [piece for piece, day in zip(row.pieces, row.days, strict=True) if day < number]
                yield from stretches(row.area, row.frame, laid)


def first(pair: tuple[int, Piece]) -> int:
    """The place of a piece in the layout."""
    return pair[0]


def know(paper: Paper) -> Known:
    """What the days' plans of a paper look up."""
    layout = paper.layout
    day_of: dict[str, float] = {}
    for day in paper.days:
        for id in day.pieces:
            day_of.setdefault(id, day.number)
    joints: dict[str, list[tuple[int, TJoint]]] = {}
    for place, joint in enumerate(layout.tjoints):
        for id in joint.laps:
            joints.setdefault(id, []).append((place, joint))
    begun: dict[str, float] = {}
    for piece in layout.pieces:
        begun[piece.ply] = min(begun.get(piece.ply, NEVER), day_of.get(piece.id, NEVER))
    return Known(
        {piece.id: (place, piece) for place, piece in enumerate(layout.pieces)},
        {lap.id: lap for lap in layout.laps},
        joints,
        tuple(rows_of(paper, day_of)),
        begun,
    )


def rows_of(paper: Paper, day_of: Mapping[str, float]) -> Iterator[Row]:
    """The courses of a paper, lower plies first."""
    areas = {area.name: area for area in paper.areas}
    for ply in sorted(paper.layout.plies, key=lambda ply: ply.position):
        area, frame = areas[ply.area], paper.layout.frames[ply.area]
        courses: dict[int, list[Piece]] = {}
        for piece in ply.pieces:
            courses.setdefault(piece.course, []).append(piece)
        for row in courses.values():
            pieces = tuple(sorted(row, key=lambda piece: piece.u0))
            days = tuple(day_of.get(piece.id, NEVER) for piece in pieces)
            yield Row(area, frame, pieces, days, tuple(stretches(area, frame, pieces)))


def stretches(area: Area, frame: Frame, pieces: Iterable[Piece]) -> Iterator[Stretch]:
    """Pieces of one course, from the left, those end to end together."""
    boxes: list[tuple[str, Box]] = []
    for piece in pieces:
        ply, box = boxes[-1] if boxes else ("", (0.0, 0.0, 0.0, 0.0))
        if boxes and piece.u0 <= box[2] and (piece.v0, piece.v1) == (box[1], box[3]):
            boxes[-1] = (ply, (box[0], box[1], max(box[2], piece.u1), box[3]))
        else:
            boxes.append((piece.ply, (piece.u0, piece.v0, piece.u1, piece.v1)))
    corners = tuple(frame.slope_uv(*point) for point in area.outline)
    for ply, (u0, v0, u1, v1) in boxes:
        ring = tuple(frame.plan(u, v) for u, v in ((u0, v0), (u1, v0), (u1, v1), (u0, v1)))
        ground = clip_ring(corners, (u0, v0, u1, v1))
        yield Stretch(ply, ring, tuple(frame.plan(u, v) for u, v in ground))
