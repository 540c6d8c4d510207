"""The order of the work, from the layout alone: what is put down after what, and where a day may end.

The work goes piece by piece of the top ply, whatever the weather: before each, all that must lie under it (base,
interply, strip, edge metal, drains), after it all that can follow (flashings, pipes).  So no cap lies before its base
and no cap course before the metal that it covers.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from lapwright.assembly.values import Assembly
from lapwright.crew.pace import Work
from lapwright.crew.rows import PlyRows, area_rows, box_of, covers
from lapwright.crew.tieoff import Ground, Segment, make_ground, tie_off
from lapwright.crew.travel import laps_tool_s, tool_time_s
from lapwright.crew.work import TICKS, Placed, piece_work, placed_work
from lapwright.defaults.si import default_si
from lapwright.layout.values import Lap, Layout, Piece
from lapwright.roof.values import Area


@dataclass(frozen=True, slots=True)
class Step:
    """One piece of work in its order.

    may_end: the day may well end here: at a course edge of a ply, or at an end lap of a long course; elsewhere only
    where nothing better can be reached.  tie_off: the line to close if it does, in plan [m].  open_ids: pieces that
    then lie without the ply above them.
    """

    area: str
    work: Work
    may_end: bool
    tie_off: tuple[Segment, ...] = ()
    open_ids: tuple[str, ...] = ()


def make_steps(
    layout: Layout, areas: Sequence[Area], assembly: Assembly, rates: Mapping[str, float]
) -> tuple[Step, ...]:
    """The work of a job in its order; each area is finished before the next is opened.

    Source: common practice, no source (forerunners)
    Checked: tests/crew/test_crew_steps.py
    """
    by_name = {area.name: area for area in areas}
    pieces = piece_work(layout, assembly, rates)
    steps: list[Step] = []
    for name in dict.fromkeys(ply.area for ply in layout.plies):
        steps += area_steps(by_name[name], layout, pieces, rates)
    return close_laps(steps, layout.laps, assembly.plies[-1].ply, rates)


def area_steps(area: Area, layout: Layout, pieces: Mapping[str, Work], rates: Mapping[str, float]) -> list[Step]:
    """The steps of one area, without their laps."""
    rows = area_rows(layout, area.name)
    placed = placed_work(layout, area, rates)
    long_course = default_si("crew", "long_course") * TICKS
    top = rows[-1]
    before, after = assigned(top, placed)
    state = Laid(rows, make_ground(area, layout.frames[area.name]), covers(rows), [0] * len(rows))
    steps: list[Step] = []
    for k, piece in enumerate(top.pieces):
        is_last = k + 1 == len(top.pieces)
        first = before.get(k, [])
        for i, upto in enumerate(under_needed(rows, state.laid, piece, first, is_last=is_last)):
            while state.laid[i] < upto:
                one = rows[i].pieces[state.laid[i]]
                may_end = ends_course(rows[i], state.laid[i], long_course)
                state.put(i)
                steps.append(state.step(area.name, pieces[one.id], may_end=may_end))
        steps += [state.step(area.name, one.work) for one in first]
        state.put(len(rows) - 1)
        edge = sum(one.edge for one in first)
        cap = replace(pieces[piece.id], weld=edge, tool_s=tool_time_s("side", edge, rates=rates))
        works = [cap, *(one.work for one in after.get(k, []))]
        steps += [state.step(area.name, work) for work in works[:-1]]
        steps.append(state.step(area.name, works[-1], may_end=ends_course(top, k, long_course)))
    return steps


def ends_course(ply: PlyRows, k: int, long_course: float) -> bool:
    """The k-th piece is the last of its course, or its course is a long one [ticks].  Source: arithmetic"""
    piece = ply.pieces[k]
    if k + 1 == len(ply.pieces) or ply.pieces[k + 1].course != piece.course:
        return True
    row = [ply.pieces[i] for i in ply.rows[ply.lows.index(piece.v0)]]
    return max(one.u1 for one in row) - min(one.u0 for one in row) > long_course


@dataclass(slots=True)
class Laid:
    """How far each ply of an area is laid, and what that leaves open.

    laid: pieces of each ply so far.  line: the tie-off that this asks for.  waiting: pieces not yet covered.
    """

    rows: Sequence[PlyRows]
    ground: Ground
    over: Mapping[str, tuple[str, ...]]
    laid: list[int]
    line: tuple[Segment, ...] = ()
    waiting: tuple[str, ...] = ()
    down: set[str] = field(default_factory=set)

    def put(self, ply: int) -> None:
        """Lay the next piece of a ply."""
        piece = self.rows[ply].pieces[self.laid[ply]]
        self.laid[ply] += 1
        self.down.add(piece.id)
        under_top = (piece.id,) if ply < len(self.rows) - 1 else ()
        self.waiting = tuple(id for id in (*self.waiting, *under_top) if not self.down.issuperset(self.over[id]))
        if ply == 0:
            self.line = tie_off(self.ground, self.rows[0].pieces, self.laid[0])

    def step(self, area: str, work: Work, *, may_end: bool = False) -> Step:
        """The step that ends in this state."""
        return Step(area, work, may_end, self.line, self.waiting)


def under_needed(
    rows: Sequence[PlyRows], laid: Sequence[int], piece: Piece, first: Sequence[Placed], *, is_last: bool
) -> list[int]:
    """How many pieces of each ply under the top, bottom first, must be down before a piece of the top ply.

    Each ply is laid in its own order up to the last piece that the plies above and the metal need.
    """
    boxes = [box_of(piece), *(one.needs_base for one in first if one.needs_base)]
    found: list[int] = []
    for i in range(len(rows) - 2, -1, -1):
        upto = len(rows[i].pieces) if is_last else max(laid[i], rows[i].upto(boxes))
        boxes += [box_of(p) for p in rows[i].pieces[laid[i] : upto]]
        found.insert(0, upto)
    return found


def assigned(top: PlyRows, placed: Sequence[Placed]) -> tuple[dict[int, list[Placed]], dict[int, list[Placed]]]:
    """Placed work by its step: before the first piece that covers it, or after the last one that it touches."""
    before: dict[int, list[Placed]] = {}
    after: dict[int, list[Placed]] = {}
    last = len(top.pieces) - 1
    for one in placed:
        touched = top.meeting(one.box) if one.box else []
        if one.is_first:
            before.setdefault(min(touched, default=last), []).append(one)
        else:
            after.setdefault(max(touched, default=last), []).append(one)
    return before, after


def close_laps(steps: Sequence[Step], laps: Sequence[Lap], top: str, rates: Mapping[str, float]) -> tuple[Step, ...]:
    """Steps whose work carries the laps that it closes: each lap belongs to the later of the two it joins."""
    order = {step.work.id: k for k, step in enumerate(steps)}
    owned: dict[str, list[Lap]] = {}
    for lap in laps:
        ends = [id for id in lap.pieces if id in order]
        if len(ends) == 2:
            owned.setdefault(max(ends, key=order.__getitem__), []).append(lap)
    return tuple(replace(step, work=with_laps(step.work, owned.get(step.work.id, ()), top, rates)) for step in steps)


def with_laps(work: Work, laps: Sequence[Lap], top: str, rates: Mapping[str, float]) -> Work:
    """Work with the lengths of its laps: welded in `heat` hours, and probed where they lie on top."""
    if not laps:
        return work
    return replace(
        work,
        weld=work.weld + sum(lap.length for lap in laps),
        tool_s=work.tool_s + laps_tool_s(laps, rates=rates),
        probe=sum(lap.length for lap in laps if lap.ply == top or lap.kind == "flashing"),
        laps=tuple(lap.id for lap in laps),
    )
