"""Rules about the lists of laps and T-joints and about corner cuts: each as the pieces lie, none missing, none idle."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from shapely import LineString, Point

from lapwright.rulecheck.lie import EndLap, Lying, PlyLie
from lapwright.rulecheck.limits import metres
from lapwright.rulecheck.lines import SideLap, Span, end_laps_of, side_laps_of
from lapwright.rulecheck.read import GivenLap, GivenTJoint
from lapwright.rulecheck.values import XY, Violation

# Stretches of lap shorter than this many tolerances may be listed or not: a corner of the outline just grazes the edge.
GRAZES = 50.0


@dataclass(frozen=True, slots=True)
class Meeting:
    """An end of an exposed edge of an end lap at a side lap; is_sure: well within the ply's ground.

    A piece of the neighbouring course lies there, not its blank alone, which may reach past a turned opening.
    """

    lap: EndLap
    end: str
    at: XY
    is_sure: bool

    @property
    def cut(self) -> tuple[Lying, XY]:
        """The piece whose corner is cut there, and the corner.

        Of the two pieces the lower lies under the side lap above with its far end, the upper on the side lap below
        with its near end: these opposite corners are cut, so that no more than two sheets lie under the edge.
        """
        lap = self.lap
        if self.end == "low":
            return lap.over, (lap.joint, lap.over.v0)
        far = lap.u1 if lap.joint == lap.u0 else lap.u0
        return lap.under, (far, lap.under.v1)


class LapBook:
    """The laps of one ply as they lie, beside those that the plan lists for it."""

    def __init__(self, lie: PlyLie, laps: Sequence[GivenLap], tjoints: Sequence[GivenTJoint]) -> None:
        self.lie = lie
        name = (lie.area.name, lie.ply.ply)
        self.listed = [lap for lap in laps if (lap.area, lap.ply) == name and lap.kind in ("side", "end")]
        self.tjoints = [joint for joint in tjoints if (joint.area, joint.ply) == name]
        self.sides = side_laps_of(lie)
        self.ends = end_laps_of(lie)

    def meetings(self) -> Iterator[Meeting]:
        """Where end laps meet side laps, course by course."""
        edge = self.lie.ground.reach
        for lap in self.ends.values():
            for end, course, v in (
                ("low", lap.course - 1, lap.low),
                ("high", lap.course + 1, self._line(lap.course + 1)),
            ):
                if v is None or not self._is_under_or_over(lap, course, v):
                    continue
                spot = Point(lap.joint, v)
                near = edge.boundary.distance(spot) <= self.lie.limits.gap
                if near or (edge.contains(spot) and self._is_on_piece(course, spot)):
                    is_sure = not near and self._is_well_on(lap, course) and self._reaches(lap, end, spot)
                    yield Meeting(lap, end, (lap.joint, v), is_sure)

    def _reaches(self, lap: EndLap, end: str, spot: Point) -> bool:
        """Both pieces come up there, or down; no strip is cut away for being no deeper than the side lap under it.

        Nor is what lies there a scrap of a blank that an opening parts from the piece.
        """
        close, lie = self.lie.limits.close, self.lie
        if end == "high":
            return all(lie.seen[id].distance(spot) <= close for id in lap.ids)
        if any(lie.own[id].distance(spot) > close for id in lap.ids):
            return False
        return all(any(part.distance(spot) <= close for part in lie.wide[id]) for id in lap.ids)

    def _line(self, course: int) -> float | None:
        row = self.lie.rows.get(course)
        return row[0].v0 if row else None

    def _is_under_or_over(self, lap: EndLap, course: int, v: float) -> bool:
        """A piece of the neighbouring course lies there."""
        close = self.lie.limits.close
        return any(
            piece.u0 - close <= lap.joint <= piece.u1 + close and piece.v0 - close <= v <= piece.v1 + close
            for piece in self.lie.rows.get(course, ())
        )

    def _is_well_on(self, lap: EndLap, course: int) -> bool:
        """The edge is no hair's breadth from the end of the course that it meets."""
        close = self.lie.limits.close
        return any(piece.u0 + close < lap.joint < piece.u1 - close for piece in self.lie.rows.get(course, ()))

    def _is_on_piece(self, course: int, spot: Point) -> bool:
        """A piece of the course lies there."""
        close = self.lie.limits.close
        return any(self.lie.own[piece.id].distance(spot) <= close for piece in self.lie.rows.get(course, ()))


def lap_violations(book: LapBook) -> Iterator[Violation]:
    """Laps that are not listed, listed where there is none, or listed otherwise than they lie.

    Source: docs/method/rulecheck.md
    """
    by_pair: dict[frozenset[str], list[GivenLap]] = {}
    for lap in book.listed:
        by_pair.setdefault(frozenset(lap.pieces), []).append(lap)
    for pair, laps in by_pair.items():
        kind = "side" if pair in book.sides else "end" if pair in book.ends else None
        for lap in laps:
            if kind is None:
                text = f"Lap {lap.id}: its pieces do not lie on one another; take it out."
                yield _lap(book, lap, text, "a lap", "none")
            elif lap.kind != kind:
                text = f"Lap {lap.id} is listed as {lap.kind} lap; it is one of kind {kind}."
                yield _lap(book, lap, text, lap.kind, kind)
    for pair, end in book.ends.items():
        yield from _end_listed(book, end, [lap for lap in by_pair.get(pair, ()) if lap.kind == "end"], pair in by_pair)
    for pair, side in book.sides.items():
        yield from _side_listed(
            book, side, [lap for lap in by_pair.get(pair, ()) if lap.kind == "side"], pair in by_pair
        )


def _end_listed(book: LapBook, end: EndLap, laps: Sequence[GivenLap], is_told: bool) -> Iterator[Violation]:
    lie, close = book.lie, book.lie.limits.close * 2  # both ends of a line are read
    where = (end.joint, (end.low + end.high) / 2)
    if len(laps) != 1:
        if laps or not is_told:
            text = f"The end lap of {end.left.id} and {end.right.id} is listed {len(laps)} times; list it once."
            yield lie.found("lap", end.ids, where, text, read=f"{len(laps)} times", needs="once")
        return
    lap = laps[0]
    (u0, v0), (u1, v1) = (lie.slope.uv(point) for point in lap.line)
    if max(abs(u0 - end.joint), abs(u1 - end.joint)) > close:
        is_hidden = max(abs(u - edge) for u in (u0, u1) for edge in [end.u0 + end.u1 - end.joint]) <= close
        rule = "end_lap_order" if is_hidden else "lap"
        text = f"Lap {lap.id}: its line is not the edge of {end.over.id}, which is laid later; draw it there."
        yield lie.found(rule, [lap.id, *end.ids], where, text, read=abs(u0 - end.joint), needs=0.0)
        return
    low, high = min(v0, v1), max(v0, v1)
    if low < end.low - close or high > end.high + close or high - low < _bare(lie, end) - close:
        text = f"Lap {lap.id}: its line is {{read}} long, the edge {{needs}}; draw it along the edge."
        yield lie.found("lap", [lap.id], where, text, read=high - low, needs=end.high - end.low)
    elif not _bare(lie, end) - close <= lap.length <= high - low + close:
        text = f"Lap {lap.id}: length {{read}}, but its line is {{needs}} long; write what it is."
        yield lie.found("lap", [lap.id], where, text, read=lap.length, needs=high - low)
    if abs(lap.width - (end.u1 - end.u0)) > close:
        text = f"Lap {lap.id}: width {{read}}, but the pieces overlap by {{needs}}; write what they do."
        yield lie.found("lap", [lap.id], where, text, read=lap.width, needs=end.u1 - end.u0)


def _bare(lie: PlyLie, end: EndLap) -> float:
    """Length of the exposed edge that lies on the ground, openings taken out."""
    edge = LineString([(end.joint, end.low), (end.joint, end.high)])
    return float(edge.intersection(lie.ground.reach).length)


def _side_listed(book: LapBook, side: SideLap, laps: Sequence[GivenLap], is_told: bool) -> Iterator[Violation]:
    lie = book.lie
    spans = sorted(_across(lie, lap) for lap in laps)
    where = (side.choices[0][0] if side.choices[0] else (side.low.u0, side.low.u1))[0], side.v
    if not any(_fits(lie, spans, side, choice) for choice in side.choices):
        if is_told and not laps:
            return
        read, needs = (sum((b - a for a, b in one), 0.0) for one in (spans, max(side.choices, key=len)))
        what = "is not listed as it lies" if laps else "is not listed"
        text = (
            f"The side lap of {side.low.id} and {side.high.id} {what}: {{read}} of {{needs}}; list each stretch of it."
        )
        yield lie.found("lap", [*(lap.id for lap in laps), *side.ids], where, text, read=read, needs=needs)
        return
    for lap in laps:
        yield from _side_sizes(book, side, lap)


def _side_sizes(book: LapBook, side: SideLap, lap: GivenLap) -> Iterator[Violation]:
    lie, close = book.lie, book.lie.limits.close * 2
    (start, end), levels = _across(lie, lap), [lie.slope.uv(point)[1] for point in lap.line]
    where = ((start + end) / 2, side.v)
    if max(abs(v - side.v) for v in levels) > close:
        text = f"Lap {lap.id}: its line is not the low edge of {side.high.id}; draw it there."
        yield lie.found("lap", [lap.id], where, text, read=max(abs(v - side.v) for v in levels), needs=0.0)
    for name, read, needs in (
        ("length", lap.length, end - start),
        ("width", lap.width, side.low.v1 - side.high.v0),
    ):
        if abs(read - needs) > close:
            text = f"Lap {lap.id}: {name} {{read}}, but it is {{needs}}; write what it is."
            yield lie.found("lap", [lap.id], where, text, read=read, needs=needs)


def _fits(lie: PlyLie, spans: Sequence[Span], side: SideLap, choice: Sequence[Span]) -> bool:
    """The listed stretches are those of one way to look at the edge; grazing ones may be there or not."""
    close = lie.limits.close * 2
    real = [span for span in choice if span[1] - span[0] > GRAZES * close]
    listed = [span for span in spans if span[1] - span[0] > GRAZES * close]
    ends = [pair for one, two in zip(listed, real, strict=False) for pair in zip(one, two, strict=True)]
    return len(real) == len(listed) and all(_is_end(lie, read, needs, side.v) for read, needs in ends)


def _is_end(lie: PlyLie, read: float, needs: float, v: float) -> bool:
    """An end of a stretch is where it should be.

    Where the ply's end runs nearly along the lap, a hair up the fall is a long way across it.
    """
    close = lie.limits.close * 2
    if abs(read - needs) <= close:
        return True
    return abs(read - needs) <= GRAZES * close and lie.ground.reach.boundary.distance(Point(read, v)) <= close


def _across(lie: PlyLie, lap: GivenLap) -> Span:
    us = [lie.slope.uv(point)[0] for point in lap.line]
    return (min(us), max(us))


def _lap(book: LapBook, lap: GivenLap, text: str, read: str, needs: str) -> Violation:
    (x0, y0), (x1, y1) = lap.line
    return Violation("lap", (lap.id, *lap.pieces), ((x0 + x1) / 2, (y0 + y1) / 2), read, needs, text)


def tjoint_violations(book: LapBook) -> Iterator[Violation]:
    """T-joints that are not listed, listed where there is none, or that name other laps.

    Source: docs/method/rulecheck.md
    """
    lie, close = book.lie, book.lie.limits.close * 2
    laps = {lap.id: lap for lap in book.listed}
    left = [(joint, lie.slope.uv(joint.at)) for joint in book.tjoints]
    for meeting in book.meetings():
        here = [
            (joint, at) for joint, at in left if math.dist(at, meeting.at) <= close and _names(joint, laps, meeting)
        ]
        near = here or [(joint, at) for joint, at in left if math.dist(at, meeting.at) <= close]
        if near:
            left.remove(near[0])
        if not near and meeting.is_sure:
            ids, end = meeting.lap.ids, meeting.end
            text = f"The {end} end of the end lap of {ids[0]} and {ids[1]} meets a side lap; list the T-joint."
            yield lie.found("tjoint", ids, meeting.at, text, read="not listed", needs="a T-joint")
        elif near and not _laps_right(near[0][0], laps, meeting, lie):
            joint = near[0][0]
            text = f"T-joint {joint.id} does not name the end lap and the side lap that meet there; name both."
            yield lie.found("tjoint", [joint.id], meeting.at, text, read=", ".join(joint.laps), needs="both laps")
    for joint, at in left:
        text = f"T-joint {joint.id}: no end lap meets a side lap there; take it out or move it."
        yield lie.found("tjoint", [joint.id], at, text, read="a T-joint", needs="none")


def _names(joint: GivenTJoint, laps: Mapping[str, GivenLap], meeting: Meeting) -> bool:
    """One of the laps that a T-joint names is the meeting's end lap."""
    pairs = [frozenset(laps[id].pieces) for id in joint.laps if id in laps and laps[id].kind == "end"]
    return frozenset(meeting.lap.ids) in pairs


def _laps_right(joint: GivenTJoint, laps: Mapping[str, GivenLap], meeting: Meeting, lie: PlyLie) -> bool:
    """A T-joint names the end lap and a side lap whose line goes through it."""
    close = lie.limits.close * 2
    named = [laps[id] for id in joint.laps if id in laps]
    sides = [lap for lap in named if lap.kind == "side"]
    u, v = meeting.at
    for lap in sides:
        start, end = _across(lie, lap)
        level = lie.slope.uv(lap.line[0])[1]
        if start - close <= u <= end + close and abs(level - v) <= close:
            return len(named) == 2 and _names(joint, laps, meeting)
    return False


def corner_cut_violations(book: LapBook) -> Iterator[Violation]:
    """Corners of the cap that are not cut at a T-joint, cut elsewhere, or cut to another size.

    Source: docs/method/rulecheck.md
    """
    lie, close = book.lie, book.lie.limits.close * 2
    along, across = lie.limits.corner_cut, metres(lie.sheet.side_lap_ticks)
    asked = {(piece.id, corner): is_sure for (piece, corner), is_sure in _corners(book)}
    of_piece: dict[str, list[tuple[str, tuple[float, float]]]] = {}
    for key in asked:
        of_piece.setdefault(key[0], []).append(key)
    for lying in lie.lying:
        for cut in lying.given.corner_cuts:
            at = lie.slope.uv(cut.corner)
            here = [key for key in of_piece.get(lying.id, ()) if math.dist(key[1], at) <= close]
            if not here:
                text = f"Piece {lying.id}: a corner is cut where there is no T-joint; leave it whole."
                yield lie.found("corner_cut", [lying.id], at, text, read="a cut", needs="none")
            for key in here:
                asked[key] = False
            for name, read, needs in (("along", cut.along, along), ("across", cut.across, across)):
                if here and abs(read - needs) > close:
                    text = f"Piece {lying.id}: a corner is cut {{read}} {name} the sheet, needs {{needs}}; cut it so."
                    yield lie.found("corner_cut", [lying.id], at, text, read=read, needs=needs)
    for (id, corner), is_missing in asked.items():
        if is_missing and lie.is_cap:
            text = f"Piece {id}: the corner at the T-joint is not cut; cut it."
            yield lie.found("corner_cut", [id], corner, text, read="whole", needs="a cut")


def _corners(book: LapBook) -> Iterator[tuple[tuple[Lying, XY], bool]]:
    return ((meeting.cut, meeting.is_sure) for meeting in book.meetings())
