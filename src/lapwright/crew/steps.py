"""The order of the work, from the layout alone: what is put down after what, and where a day may end.

The work goes piece by piece of the top ply, whatever the weather: before each, all that must lie under it (base,
interply, strip, edge metal, drains), after it all that can follow (flashings, pipes).  So no cap lies before its base
and no cap course before the metal that it covers.  A valley sheet lies before the courses of its ply that lap onto it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from lapwright.assembly.values import Assembly
from lapwright.crew.pace import Work
from lapwright.crew.rows import Box, PlyRows, area_rows, box_of, covers
from lapwright.crew.tieoff import Ground, Segment, make_ground, tie_off
from lapwright.crew.travel import laps_tool_s, tool_time_s
from lapwright.crew.valleys import ValleySheet, before_pieces, is_met, valley_sheets
from lapwright.crew.work import TICKS, Placed, piece_work, placed_work, reach
from lapwright.layout.values import Lap, Layout
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

    Of an area across a valley goes ahead what lies under the valley sheet of an upper ply.
    Source: common practice, no source (forerunners)
    Checked: tests/crew/test_crew_steps.py, tests/crew/test_crew_valleys.py
    """
    by_name = {area.name: area for area in areas}
    states: dict[str, Laid] = {}
    for name in dict.fromkeys(ply.area for ply in layout.plies):
        rows = area_rows(layout, name)
        before, after = assigned(rows[-1], placed_work(layout, by_name[name], rates))
        ground = make_ground(by_name[name], layout.frames[name])
        states[name] = Laid(rows, ground, covers(rows), before, after, [0] * len(rows))
    ahead = before_pieces(valley_sheets(layout, areas, rates), {name: state.rows for name, state in states.items()})
    work = Going(states, piece_work(layout, assembly, rates), ahead, rates)
    for name in states:
        work.finish(name)
    return close_laps(work.steps, layout.laps, assembly.plies[-1].ply, rates)


def ends_course(ply: PlyRows, k: int) -> bool:
    """The k-th piece is the last of its course, or its course is a long one.  Source: arithmetic"""
    piece = ply.pieces[k]
    if k + 1 == len(ply.pieces) or ply.pieces[k + 1].course != piece.course:
        return True
    row = [ply.pieces[i] for i in ply.rows[ply.lows.index(piece.v0)]]
    return max(one.u1 for one in row) - min(one.u0 for one in row) > reach("long_course") * TICKS


@dataclass(slots=True)
class Laid:
    """How far each ply of an area is laid, and what that leaves open.

    before, after: placed work by the place of the top piece that it goes before or after.  laid: pieces of each ply
    so far.  line: the tie-off that this asks for.  waiting: pieces not yet covered.
    """

    rows: Sequence[PlyRows]
    ground: Ground
    over: Mapping[str, tuple[str, ...]]
    before: Mapping[int, Sequence[Placed]]
    after: Mapping[int, Sequence[Placed]]
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

    @property
    def is_begun(self) -> bool:
        """Something of it is down, and not yet all of it."""
        return any(self.laid) and self.laid != [len(ply.pieces) for ply in self.rows]


@dataclass(slots=True)
class Going:
    """The work of a job as it goes on: how far each area is, what was done, the steps so far.

    ahead: valley sheets by the piece that they go before.
    """

    areas: Mapping[str, Laid]
    pieces: Mapping[str, Work]
    ahead: Mapping[tuple[str, int, int], Sequence[ValleySheet]]
    rates: Mapping[str, float]
    steps: list[Step] = field(default_factory=list)
    done: set[str] = field(default_factory=set)

    def finish(self, area: str) -> None:
        """Lay an area up to its last piece, each piece of the top ply with all that belongs to it."""
        state = self.areas[area]
        top = state.rows[-1]
        for k, piece in enumerate(top.pieces):
            first = state.before.get(k, ())
            boxes = [box_of(piece), *(one.needs_base for one in first if one.needs_base)]
            self.cover(area, len(state.rows) - 1, boxes, is_last=k + 1 == len(top.pieces))
            self.set_first(area, first)
            self.lay_valleys(area, len(state.rows) - 1, k)
            state.put(len(state.rows) - 1)
            edge = sum(one.edge for one in first)
            cap = replace(self.pieces[piece.id], weld=edge, tool_s=tool_time_s("side", edge, rates=self.rates))
            works = [cap, *(one.work for one in state.after.get(k, ()))]
            for work in works[:-1]:
                self.step(area, work)
            self.step(area, works[-1], may_end=ends_course(top, k))

    def cover(self, area: str, ply: int, boxes: Sequence[Box], *, is_last: bool = False) -> None:
        """Lay what must be down under boxes of a ply, from the bottom."""
        state = self.areas[area]
        for i, upto in enumerate(under_needed(state.rows[:ply], state.laid, boxes, is_last=is_last)):
            while state.laid[i] < upto:
                k = state.laid[i]
                self.lay_valleys(area, i, k)
                state.put(i)
                self.step(area, self.pieces[state.rows[i].pieces[k].id], may_end=ends_course(state.rows[i], k))

    def lay_valleys(self, area: str, ply: int, k: int) -> None:
        """Lay the valley sheets that go before a piece, each on all that lies under it on both sides."""
        for sheet in self.ahead.get((area, ply, k), ()):
            if sheet.work.id in self.done:
                continue
            self.done.add(sheet.work.id)
            for name, boxes in sheet.boxes.items():
                self.cover(name, ply, boxes)
                if ply == len(self.areas[name].rows) - 1:
                    before = self.areas[name].before
                    self.set_first(name, [one for at in sorted(before) for one in before[at] if is_met(one.box, boxes)])
            self.step(area, sheet.work)

    def set_first(self, area: str, placed: Sequence[Placed]) -> None:
        """Set metal, strips and drains that the top ply covers, each on its base, unless they are set."""
        for one in placed:
            if one.work.id not in self.done:
                self.done.add(one.work.id)
                self.cover(area, len(self.areas[area].rows) - 1, [one.needs_base] if one.needs_base else [])
                self.step(area, one.work)

    def step(self, area: str, work: Work, *, may_end: bool = False) -> None:
        """The step that ends as things now stand: what this area leaves open, and others that are begun."""
        open_areas = [state for name, state in self.areas.items() if name == area or state.is_begun]
        line = tuple(segment for state in open_areas for segment in state.line)
        waiting = tuple(id for state in open_areas for id in state.waiting)
        self.steps.append(Step(area, work, may_end, line, waiting))


def under_needed(
    rows: Sequence[PlyRows], laid: Sequence[int], boxes: Sequence[Box], *, is_last: bool = False
) -> list[int]:
    """How many pieces of each of the given plies, bottom first, must be down before what lies on boxes over them.

    Each ply is laid in its own order up to the last piece that the plies above and the metal need.
    """
    wanted = list(boxes)
    found: list[int] = []
    for i in range(len(rows) - 1, -1, -1):
        upto = len(rows[i].pieces) if is_last else max(laid[i], rows[i].upto(wanted))
        wanted += [box_of(p) for p in rows[i].pieces[laid[i] : upto]]
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
