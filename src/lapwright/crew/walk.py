"""The walk: the hours in order, the steps in order, day after day until the roof is done or three years have passed.

Q8, who does what on which day, and Q9, when is it done.  Each day goes as far as it can from where the last one ended
(docs/method/crew.md shows why a larger crew is then never later).
"""

from __future__ import annotations

import datetime as dt
import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from lapwright.assembly.values import Assembly
from lapwright.crew.block import Job, Opening, Placing, furthest
from lapwright.crew.calendar import Day, JobCalendar, make_calendar
from lapwright.crew.pace import make_lasts
from lapwright.crew.rates import RATE_NAMES, rate_of
from lapwright.crew.shift import Fitness, Shift, can_weld, heat_hours, make_fitness, make_shift
from lapwright.crew.steps import Step, make_steps
from lapwright.crew.values import CrewSetting
from lapwright.defaults.values import Rules
from lapwright.hours.values import HourTable
from lapwright.layout.values import Layout
from lapwright.roof.values import Area

REPEATS = 3
DAYS_A_YEAR = 366
DRYING = ("", "dry_frost", "dry_rain")


@dataclass(frozen=True, slots=True)
class WorkedDay:
    """A day on which something was put down.

    ordinal: of its date on the calendar walked.  first, last: steps done before it and after it.  lost: dates of the
    working days before it on which nothing could be done.
    """

    date: dt.date
    shift: Shift
    first: int
    last: int
    placings: tuple[Placing, ...]
    lost: tuple[dt.date, ...]


@dataclass(frozen=True, slots=True)
class Walk:
    """The days worked, and how the walk ended.

    steps: the work in its order.  lost: dates of working days lost after the last day worked.  heat_hours: clock hours
    of the working days walked in which laps must be welded.
    """

    steps: tuple[Step, ...]
    days: tuple[WorkedDay, ...]
    calendar: JobCalendar
    lost: tuple[dt.date, ...] = ()
    heat_hours: int = 0

    @property
    def is_finished(self) -> bool:
        """Everything is down."""
        return (self.days[-1].last if self.days else 0) == len(self.steps)


@dataclass(slots=True)
class Sky:
    """The hours of each date, and what the surface went through before."""

    fitness: Fitness
    calendar: JobCalendar
    look_back: int
    known: dict[dt.date, Day] = field(default_factory=dict)

    def day(self, date: dt.date) -> Day:
        """The hours of a date."""
        found = self.known.get(date)
        if found is None:
            found = self.known[date] = self.calendar.hours(date)
        return found

    def before(self, date: dt.date, hour: int) -> int:
        """The worst that the hours looked back at did to the surface: 0 dry, 1 dew or frost, 2 rain or snow."""
        worst = 0
        for _ in range(self.look_back):
            hour -= 1
            if hour < 0:
                date, hour = date - dt.timedelta(days=1), 23
            index = self.day(date)[hour]
            if index >= 0:
                worst = max(worst, self.fitness.wet[index])
        return worst


def walk(
    layout: Layout,
    areas: Sequence[Area],
    assembly: Assembly,
    table: HourTable,
    crew: CrewSetting,
    *,
    rules: Rules,
    time_zone: str,
) -> Walk:
    """Every day's work, from the first working day on.

    Source: method of our own, docs/method/crew.md
    Checked: tests/crew/test_crew_walk.py, tests/crew/test_crew_properties.py
    """
    rates = {name: rate_of(crew.rates, name) for name in RATE_NAMES}
    steps = make_steps(layout, areas, assembly, rates)
    calendar = make_calendar(table.weather, time_zone)
    primes = assembly.plies[0].attachment != "mechanically_fastened"
    job = Job(steps, make_lasts(crew), rates, primes)
    sky = Sky(make_fitness(table), calendar, math.ceil(rules.dry_after_wet_s / 3600.0))
    date = crew.start or calendar.first_date
    days: list[WorkedDay] = []
    lost: list[dt.date] = []
    at = heat = 0
    for _ in range(REPEATS * DAYS_A_YEAR):
        if at == len(steps):
            break
        if date.weekday() in crew.weekdays:
            worked = work_day(job, sky, date, at, crew)
            heat += heat_hours(sky.fitness, sky.day(date), crew)
            if worked is None:
                lost.append(date)
            else:
                days.append(WorkedDay(date, worked[0], at, worked[1], worked[2], tuple(lost)))
                at, lost = worked[1], []
        date += dt.timedelta(days=1)
    return Walk(steps, tuple(days), calendar, tuple(lost), heat)


def work_day(
    job: Job, sky: Sky, date: dt.date, at: int, crew: CrewSetting
) -> tuple[Shift, int, tuple[Placing, ...]] | None:
    """The day that gets furthest, welding or not; one without hot work where that gets as far.  None: nothing fits."""
    best: tuple[Shift, int, tuple[Placing, ...]] | None = None
    hours = sky.day(date)
    for welding in (False, True):
        if welding and not (can_weld(crew) and heat_hours(sky.fitness, hours, crew)):
            continue
        shift = make_shift(sky.fitness, hours, crew, welding=welding)
        end, placings = fill_day(job, sky, date, at, shift)
        if end > (best[1] if best else at):
            best = (shift, end, placings)
    return best


def fill_day(job: Job, sky: Sky, date: dt.date, at: int, shift: Shift) -> tuple[int, tuple[Placing, ...]]:
    """The stretches of a day, one after the other."""
    placings: tuple[Placing, ...] = ()
    for stretch in shift.stretches:
        waiting = job.steps[at - 1].open_ids if at else ()
        opening = Opening(
            set_up_min=job.rates["set_up"] / 60.0,
            dry_min=drying_min(job.rates, sky.before(date, int(stretch[0] // 60.0))),
            dried=waiting,
            is_first=not placings,
        )
        at, more = furthest(job, shift, stretch, at, opening)
        placings += more
        if at == len(job.steps):
            break
    return at, placings


def drying_min(rates: Mapping[str, float], before: int) -> float:
    """How long the crew dries and measures what lies there [min].  Source: common practice, no source"""
    return rates[DRYING[before]] / 60.0 if before else 0.0
