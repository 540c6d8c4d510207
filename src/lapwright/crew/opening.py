"""How much roof may be opened in a day and still be closed in it (questions 5 and 8).

Before a layout is asked where the work stands, the day alone says how much fits: equal courses, each a roll of the
uppermost ply laid with all that must lie under it, are opened, laid, welded, probed and tied off by the same rules by
which the crew's days are planned (docs/method/crew.md).  Edges, flashings and drains take time on top; they are not in
it.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from lapwright.assembly.values import Ply, Sheet
from lapwright.crew.block import Filling, Job, Opening, Placing, close, fill
from lapwright.crew.pace import Work, make_lasts
from lapwright.crew.rates import RATE_NAMES, rate_of
from lapwright.crew.shift import Fitness, Shift, can_weld, heat_hours, make_shift
from lapwright.crew.steps import Step
from lapwright.crew.travel import tool_time_s
from lapwright.crew.values import CrewSetting, Opened
from lapwright.crew.walk import drying_min
from lapwright.crew.work import kind_at
from lapwright.units.factors import TICKS_PER_METRE

MOST_COURSES = 1024
PASSING = ("probe laps", "tie-off")


@dataclass(frozen=True, slots=True)
class OpenAsk:
    """What is laid, by whom, and what is closed at its end.

    plies: bottom first.  before: worst that the surface went through, 0 dry, 1 dew, frost or not known, 2 rain or
    snow.  tie_off: length of the line to close [m].  within: first and last safe minute; everything lies between.
    upto: how many plies are laid that day, None: all; the upper ones then follow on another day.
    """

    plies: tuple[Ply, ...]
    crew: CrewSetting
    before: int
    tie_off: float
    within: tuple[int, int] = (0, 1440)
    upto: int | None = None

    @property
    def laid(self) -> tuple[Ply, ...]:
        """The plies laid that day, bottom first."""
        return self.plies[: self.upto]


def most_opened(ask: OpenAsk, fitness: Fitness, hours: Sequence[int]) -> Opened | None:
    """The most roof that can be opened and closed in one stretch of a day, welding or not; None where none fits.

    hours: index into the table of each clock hour 0..23, -1: no such hour.
    Source: method of our own, docs/method/morning.md
    Checked: tests/crew/test_crew_opening.py
    """
    rates = {name: rate_of(ask.crew.rates, name) for name in RATE_NAMES}
    steps = course_steps(ask, rates)
    job = Job(steps, make_lasts(ask.crew), rates, ask.plies[0].attachment != "mechanically_fastened")
    best: Opened | None = None
    for welding in (False, True):
        if welding and not (can_weld(ask.crew) and heat_hours(fitness, tuple(hours), ask.crew)):
            continue
        shift = make_shift(fitness, tuple(hours), ask.crew, welding=welding)
        for number, (begin, end) in enumerate(shift.stretches):
            stretch = (max(begin, float(ask.within[0])), min(end, float(ask.within[1])))
            found = in_stretch(job, shift, stretch, ask, is_first=number == 0)
            if found is not None and (best is None or found.area > best.area):
                best = found
    return best


def course_steps(ask: OpenAsk, rates: Mapping[str, float]) -> tuple[Step, ...]:
    """One course: each ply laid over the area that a roll of the uppermost covers; the day may end after it.

    Source: common practice, no source
    """
    area = covered_m2(ask.laid[-1].sheet)
    found = []
    for position, ply in enumerate(ask.laid, start=1):
        kind = kind_at(position, len(ask.plies))
        sheet = ply.sheet
        as_laid = area * (sheet.width_ticks * sheet.length_ticks / TICKS_PER_METRE**2) / covered_m2(sheet)
        laps, tool_s = laps_over(sheet, area, rates)
        is_top = position == len(ask.plies)
        work = Work(
            f"{ply.ply} of course",
            ply.ply,
            kind,
            as_laid / rates[kind],
            weld=laps if is_top else 0.0,
            tool_s=tool_s if is_top else 0.0,
            probe=laps if is_top else 0.0,
            opened=area if position == 1 else 0.0,
        )
        found.append(Step("", work, may_end=position == len(ask.laid), tie_off=(((0.0, 0.0), (ask.tie_off, 0.0)),)))
    return tuple(found)


def courses(course: Sequence[Step], count: int) -> tuple[Step, ...]:
    """So many courses, numbered: what is primed is named by its first and last.

    Source: arithmetic
    """
    return tuple(
        replace(step, work=replace(step.work, id=f"{step.work.id} {number}"))
        for number in range(count)
        for step in course
    )


def covered_m2(sheet: Sheet) -> float:
    """What a roll covers net of its laps [m²].

    Source: geometry
    """
    return sheet.pitch_ticks * (sheet.length_ticks - sheet.end_lap_ticks) / TICKS_PER_METRE**2


def laps_over(sheet: Sheet, area: float, rates: Mapping[str, float]) -> tuple[float, float]:
    """Length of the laps over an area [m], and the time at the tool along them [s].

    Source: geometry: a side lap along every covered width, an end lap across every covered length
    """
    side = area / (sheet.pitch_ticks / TICKS_PER_METRE)
    end = area / ((sheet.length_ticks - sheet.end_lap_ticks) / TICKS_PER_METRE)
    return side + end, tool_time_s("side", side, rates=rates) + tool_time_s("end", end, rates=rates)


def in_stretch(job: Job, shift: Shift, stretch: tuple[float, float], ask: OpenAsk, *, is_first: bool) -> Opened | None:
    """The most courses of one stretch, found by halving: fewer always fit where more do.

    Source: arithmetic
    """
    opening = Opening(job.rates["set_up"] / 60.0, drying_min(job.rates, ask.before), ("",), is_first)
    low = 0
    placings: tuple[Placing, ...] = ()
    high = MOST_COURSES
    while low < high:
        middle = (low + high + 1) // 2
        filling = Filling(shift, shift.begin, stretch[1])
        steps = courses(job.steps, middle)
        if fill(job, filling, stretch[0], steps, opening) and close(job, filling, steps):
            low, placings = middle, tuple(filling.placings)
        else:
            high = middle - 1
    if not low:
        return None
    return opened_by(placings, low, ask)


def opened_by(placings: Sequence[Placing], courses: int, ask: OpenAsk) -> Opened:
    """What placings come to."""
    area = courses * covered_m2(ask.laid[-1].sheet)
    first = ask.plies[0].ply
    spans = [(one.what, one.parts[0].begin, one.parts[-1].end) for one in placings]
    base_ends = [end for what, _, end in spans if what == first]
    closing = [begin for what, begin, _ in spans if what in PASSING]
    begins = [begin for what, begin, _ in spans if what not in ("set-up", "dry and measure")]
    welds = any(one.work and one.work.weld > 0 and part.state == 2 for one in placings for part in one.parts)
    return Opened(
        area=area,
        rolls={ply.ply: area / covered_m2(ply.sheet) for ply in ask.laid},
        begin_min=math.floor(min(begins)),
        last_base_min=math.floor(max(base_ends)),
        closing_min=math.floor(min(closing)),
        closed_min=math.ceil(spans[-1][2]),
        welds=welds,
        tie_off=ask.tie_off,
    )
