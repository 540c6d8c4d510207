"""Crew days for the day sheets, made from the walk: tasks by the clock, pieces, laps, tie-off, and what was lost."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from lapwright.assembly.values import Assembly
from lapwright.crew.block import Placing
from lapwright.crew.calendar import weather_date
from lapwright.crew.cover import exposures
from lapwright.crew.doing import whole_minutes
from lapwright.crew.lost import lost_words
from lapwright.crew.rates import rate_of
from lapwright.crew.values import CrewDay, CrewSetting, Task
from lapwright.crew.walk import Walk, WorkedDay, walk
from lapwright.defaults.values import Rules
from lapwright.hours.values import HEAT, OPEN, STATE_WORDS, HourTable
from lapwright.layout.values import XY, Layout
from lapwright.roof.values import Area

Contact = Callable[[str, int], float | None]
"""Contact temperature [°C] at first touch of a ply in an hour of the weather year; None where data are missing."""
STEPWISE = ("base", "interply", "cap")


def no_contact(_ply: str, _hour: int) -> float | None:
    """Where nothing is known of the contact temperature."""
    return None


def make_days(
    layout: Layout,
    areas: Sequence[Area],
    assembly: Assembly,
    hours: HourTable,
    crew: CrewSetting,
    *,
    rules: Rules,
    time_zone: str,
    contact: Contact = no_contact,
) -> tuple[CrewDay, ...]:
    """Who does what on which day, from the first working day on.

    Args:
        time_zone: of the site; the crew's clock.
        contact: asked for the `warm` and `heat` hours in which a ply is laid.

    Source: method of our own, docs/method/crew.md
    Checked: tests/crew/test_crew_days.py
    """
    found = walk(layout, areas, assembly, hours, crew, rules=rules, time_zone=time_zone)
    return days_of(found, layout, hours, crew, rules=rules, contact=contact)


def days_of(
    found: Walk, layout: Layout, hours: HourTable, crew: CrewSetting, *, rules: Rules, contact: Contact = no_contact
) -> tuple[CrewDay, ...]:
    """The crew days of a walk.

    Source: arithmetic
    """
    known = ({piece.id for piece in layout.pieces}, {detail.id for detail in layout.details})
    seen = exposures(found, layout, within_s=rules.cover_within_s)
    return tuple(
        crew_day(
            Sheeted(day, k + 1, tuple(one.id for one in seen if k in one.nights)),
            found,
            hours,
            crew,
            known=known,
            contact=contact,
        )
        for k, day in enumerate(found.days)
    )


@dataclass(frozen=True, slots=True)
class Sheeted:
    """A day worked with its number, and the pieces put under a temporary cover at its end."""

    day: WorkedDay
    number: int
    covered: tuple[str, ...]


def crew_day(
    sheeted: Sheeted,
    found: Walk,
    hours: HourTable,
    crew: CrewSetting,
    *,
    known: tuple[set[str], set[str]],
    contact: Contact,
) -> CrewDay:
    """One crew day.  known: ids of pieces and of details."""
    day = sheeted.day
    works = [step.work for step in found.steps[day.first : day.last]]
    tie_off: tuple[tuple[XY, XY], ...] = found.steps[day.last - 1].tie_off
    welds = weld_span(day.placings)
    return CrewDay(
        number=sheeted.number,
        date=day.date if crew.start else None,
        weather_date=weather_date(hours.weather, day.shift.hours, day.date),
        hours=day.shift.hours,
        tasks=day_tasks(sheeted, crew, welds),
        pieces=tuple(work.id for work in works if work.id in known[0]),
        details=tuple(work.id for work in works if work.id in known[1]),
        laps=tuple(lap for work in works for lap in work.laps),
        tie_off=tie_off,
        stop_welding_min=int(day.shift.weld_stop) if welds else None,
        lost=lost_words(day, found, hours, crew),
        contact_c=contacts(day, contact),
    )


def weld_span(placings: Iterable[Placing]) -> tuple[float, float] | None:
    """From the first sheet laid with heat to the last lap welded [min]; None where no lap is welded."""
    hot = [(part, one.work.weld) for one in placings if one.work for part in one.parts if part.state == HEAT]
    welded = [part.end for part, weld in hot if weld > 0.0]
    return (min(part.begin for part, _ in hot), max(welded)) if welded else None


def day_tasks(sheeted: Sheeted, crew: CrewSetting, welds: tuple[float, float] | None) -> tuple[Task, ...]:
    """Every task of a day in the order of its beginning; equal ones that follow each other are one."""
    day, tasks = sheeted.day, list[Task]()
    for one in day.placings:
        for task in tasks_of(one):
            if tasks and joins(tasks[-1], task):
                tasks[-1] = joined(tasks[-1], task)
            else:
                tasks.append(task)
    last = day.placings[-1].parts[-1].end
    tasks += [whole("break", span, hands_at(day, span[0])) for span in day.shift.breaks if span[0] < last]
    leaving = (last, last + whole_minutes(rate_of(crew.rates, "clean_up") / 60.0))
    tasks.append(whole("clean-up", leaving, hands_at(day, last)))
    if sheeted.covered:
        tasks.append(whole("cover open base", leaving, hands_at(day, last), sheeted.covered))
    if welds:
        tasks.append(whole("fire watch", (welds[0], welds[1] + (crew.fire_watch_s or 0.0) / 60.0), 1))
    return tuple(sorted(tasks, key=lambda task: (task.begin_min, task.end_min)))


def hands_at(day: WorkedDay, minute: float) -> int:
    """People free at a minute, without the fire watch."""
    return day.shift.hands[min(23, int(minute // 60.0))]


def tasks_of(one: Placing) -> list[Task]:
    """A placing as tasks, one for each part.  The time at the tool is that of the share welded."""
    found = []
    for part in one.parts:
        hot = one.work.tool_s * part.share if one.work and part.state == HEAT else 0.0
        state = STATE_WORDS[part.state] if one.work else ""
        found.append(Task(one.what, one.ids, round(part.begin), round(part.end), state, part.hands, hot))
    return found


def joins(one: Task, other: Task) -> bool:
    """The other goes on where the one ends, with the same people in the same state."""
    same = (one.what, one.state, one.people) == (other.what, other.state, other.people)
    return same and one.end_min == other.begin_min


def joined(one: Task, other: Task) -> Task:
    """Two tasks as one."""
    ids = tuple(dict.fromkeys((*one.ids, *other.ids)))
    return Task(one.what, ids, one.begin_min, other.end_min, one.state, one.people, one.tool_s + other.tool_s)


def whole(what: str, span: tuple[float, float], people: int, ids: tuple[str, ...] = ()) -> Task:
    """A task that lays nothing."""
    return Task(what, ids, round(span[0]), round(span[1]), "", people)


def contacts(day: WorkedDay, contact: Contact) -> Mapping[str, float | None]:
    """The lowest contact temperature of each ply laid in `warm` or `heat` hours; None where one is not known."""
    found: dict[str, float | None] = {}
    for ply, hour in ply_hours(day):
        value = contact(ply, day.shift.hours[hour])
        before = found.get(ply, value)
        found[ply] = None if value is None or before is None else min(before, value)
    return found


def ply_hours(day: WorkedDay) -> list[tuple[str, int]]:
    """Each ply and clock hour in which it is laid warm or with heat, in order, once."""
    seen = {
        (one.what, int(part.begin // 60.0)): None
        for one in day.placings
        if one.work and one.work.kind in STEPWISE and one.what != "edge strip"
        for part in one.parts
        if part.state != OPEN
    }
    return list(seen)
