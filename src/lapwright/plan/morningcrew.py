"""Whose morning it is: the crew and its day, what its work hangs on, and how much it may open."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Assembly
from lapwright.crew.morning import UNKNOWN, DayAsked, crew_hours, together
from lapwright.crew.opening import OpenAsk, most_opened
from lapwright.crew.rates import make_crew
from lapwright.crew.shift import Fitness, can_weld, make_fitness
from lapwright.crew.values import CrewSetting, Opened, OperationToday
from lapwright.hours.values import HourTable
from lapwright.job.models import Job
from lapwright.plan.fitness import rates_of
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE

WHOLE_DAY = (0, 24 * 60)


@dataclass(frozen=True, slots=True)
class AtWork:
    """A day's crew, roof and hours, as the openings of a morning are reckoned from them."""

    job: Job
    areas: Sequence[Area]
    assembly: Assembly
    table: HourTable
    day: DayAsked
    crew: CrewSetting

    @property
    def primes(self) -> bool:
        """The first ply is stuck, so that primer goes before it."""
        return self.assembly.plies[0].attachment != "mechanically_fastened"


def crew_span(job: Job) -> tuple[int, int]:
    """The crew's day [min]; the whole day where it is not given."""
    if job.crew.day is None:
        return WHOLE_DAY
    begin, end = job.crew.day
    return (60 * begin.hour + begin.minute, 60 * end.hour + end.minute)


def crew_of(job: Job) -> tuple[CrewSetting | None, tuple[str, ...]]:
    """The crew, or what is missing of it."""
    typed = job.crew
    missing = tuple(f"crew.{key}" for key in ("people", "welders", "day") if getattr(typed, key) is None)
    if typed.people is None or typed.welders is None or typed.day is None:
        return None, missing
    crew = make_crew(
        typed.people,
        typed.welders,
        day=typed.day,
        weekdays=typed.days or tuple(range(7)),
        start=typed.start,
        fire_watch_s=typed.fire_watch,
        rates=rates_of(job),
    )
    return crew, ()


def weld_keys(crew: CrewSetting | None, crew_keys: tuple[str, ...]) -> tuple[str, ...]:
    """What to supply before laps can be welded."""
    if crew is None:
        return crew_keys
    if can_weld(crew):
        return ()
    return ("crew.fire_watch",) if crew.fire_watch_s is None else ("crew.welders", "crew.people")


def limit_keys(job: Job) -> Mapping[str, tuple[str, ...]]:
    """The job-file key of each operation's limit."""
    sheets = {ply.ply: (f"sheets.{ply.sheet}.apply_at_or_above",) for ply in job.assembly.plies}
    cap = sheets.get("cap", ())
    mastic = ("materials.mastic.apply_at_or_above",)
    return {
        **sheets,
        **dict.fromkeys(("side_lap", "end_lap", "flashing"), cap),
        "primer": ("materials.primer.apply_at_or_above",),
        "mastic": mastic,
        "edge_metal": mastic,
    }


def thickness_keys(job: Job) -> tuple[str, ...]:
    """Sheets whose thickness is not given."""
    used = dict.fromkeys(ply.sheet for ply in job.assembly.plies)
    return tuple(f"sheets.{name}.thickness" for name in used if job.sheets[name].thickness is None)


def opened_today(
    work: AtWork, operations: Sequence[OperationToday], overall: OperationToday
) -> tuple[Opened | None, list[tuple[str, tuple[str, ...]]]]:
    """How much may be opened, or what keeps it from being known."""
    primed = [one for one in operations if one.operation == "primer" and one.verdict == UNKNOWN]
    missing = [overall] if overall.verdict == UNKNOWN else primed if work.primes else []
    if missing:
        return None, [("how much may be opened", missing[0].supply)]
    return opened_within(work, overall), []


def based_today(work: AtWork, operations: Sequence[OperationToday]) -> Opened | None:
    """How much may be opened and covered with all plies but the cap; None where nothing can, or it is not known."""
    lower = [ply.ply for ply in work.assembly.plies[:-1]]
    shared = together(operations, [*lower, "primer"] if work.primes else lower, work.day)
    return opened_within(work, shared, upto=len(lower))


def opened_within(work: AtWork, window: OperationToday, upto: int | None = None) -> Opened | None:
    """The most that fits between the first and the last minute of a window; None where there is none."""
    if window.verdict == UNKNOWN or window.first_min is None or window.last_min is None:
        return None
    fitness = make_fitness(work.table)
    within = (window.first_min, window.last_min)
    before = worst_before(work.job, fitness, work.day)
    line = tie_off_length(work.areas)
    ask = OpenAsk(work.assembly.plies, work.crew, before, line, within, upto)
    return most_opened(ask, fitness, work.day.hours)


def worst_before(job: Job, fitness: Fitness, day: DayAsked) -> int:
    """The worst that the surface went through within `dry_after_wet` before the crew's day; not known is as frost."""
    first = next((day.hours[hour] for hour in crew_hours(day) if day.hours[hour] >= 0), -1)
    look_back = int(job.rules.dry_after_wet_s // 3600)
    before = [fitness.wet[index] for index in range(first - look_back, first)]
    return max(before, default=0) if first >= 0 else 1


def tie_off_length(areas: Sequence[Area]) -> float:
    """The longest line across the fall at which a day's work may end [m]: the widest area's width."""
    widths = []
    for area in areas:
        east, north = area.falls
        across = [(-north * x + east * y) / TICKS_PER_METRE for x, y in area.outline]
        widths.append(max(across) - min(across))
    return max(widths, default=0.0)
