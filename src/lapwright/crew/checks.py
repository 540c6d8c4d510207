"""What the walk proves: when the roof is done, how long a base lies open, and that the fire watch is kept."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

from lapwright.crew.cover import exposures
from lapwright.crew.days import weld_span
from lapwright.crew.lost import day_reason, days_lost, tally
from lapwright.crew.shift import day_span
from lapwright.crew.values import CrewSetting
from lapwright.crew.walk import DAYS_A_YEAR, REPEATS, Walk
from lapwright.defaults.values import Rules
from lapwright.hours.values import HourTable
from lapwright.layout.values import Layout
from lapwright.verdict import Check, Step, judged, unknown

METHOD = "method of our own, docs/method/crew.md"
WATCH = "crew.fire_watch"
ROUNDING_S = 1e-6
TITLES: Mapping[str, str] = {
    "crew.finish": "The roof is finished within three repeats of the weather year",
    "crew.cover-within": "No base lies open longer than cover_within",
    "crew.fire-watch": "Welding stops so early that the fire watch is kept before the crew leaves",
}
CONFIRM: Mapping[str, str] = {
    "crew.finish": "the superintendent",
    "crew.cover-within": "the maker, for how long its base may lie open",
    "crew.fire-watch": "whoever permits the hot work: code, owner and programme",
}


def crew_checks(found: Walk, layout: Layout, hours: HourTable, crew: CrewSetting, *, rules: Rules) -> tuple[Check, ...]:
    """The three checks of the crew's days.

    Without `crew.fire_watch` days with welding can't be planned: the watch is unknown, and so are the others as soon
    as an hour fit for welding was left unused for it.
    Source: method of our own, docs/method/crew.md
    Checked: tests/crew/test_crew_checks.py
    """
    uses = (WATCH,) if found.heat_hours else ()
    if crew.fire_watch_s is None:
        ids = TITLES if found.heat_hours else ("crew.fire-watch",)
        missing = {id: watch_missing(id, found) for id in ids}
    else:
        missing = {"crew.fire-watch": fire_watch_check(found, crew)}
    finish = missing.get("crew.finish") or replace(finish_check(found, hours, crew), uses=uses)
    cover = missing.get("crew.cover-within") or replace(cover_check(found, layout, rules), uses=uses)
    return tuple(confirmed(check) for check in (finish, cover, missing["crew.fire-watch"]))


def confirmed(check: Check) -> Check:
    """A check with whom it is to be confirmed by.  Source: arithmetic"""
    return replace(check, confirm=CONFIRM[check.id])


def unknown_crew_checks(missing: Sequence[str]) -> tuple[Check, ...]:
    """The same checks where there are no days, for want of the job-file keys named.

    Source: arithmetic
    """
    return tuple(confirmed(unknown(id, title, missing, source=METHOD)) for id, title in TITLES.items())


def watch_missing(id: str, found: Walk) -> Check:
    """A check that waits for the length of the fire watch."""
    check = replace(unknown(id, TITLES[id], [WATCH], source=METHOD), uses=(WATCH,))
    if not found.heat_hours:
        return check
    text = f"{found.heat_hours} working hours fit for welded laps are left unused: days with welding can't be planned"
    return replace(check, steps=(*check.steps, Step(text)))


def finish_check(found: Walk, hours: HourTable, crew: CrewSetting) -> Check:
    """Everything is down, and when."""
    id = "crew.finish"
    lost = [date for day in found.days for date in day.lost]
    worked = Step("Crew days", result=float(len(found.days)), unit="1")
    if not found.is_finished:
        dates = found.lost or lost
        why = (
            tally([day_reason(found.calendar.hours(date), hours, crew) for date in dates])
            if dates
            else "no working day"
        )
        done = found.days[-1].last if found.days else 0
        after = REPEATS * DAYS_A_YEAR
        left = Step(f"{len(found.steps) - done} of {len(found.steps)} pieces of work are left after {after} days")
        return Check(
            id, TITLES[id], "fail", steps=(worked, left, Step(f"Working days lost since: {why}")), source=METHOD
        )
    steps = [worked]
    if lost:
        steps.append(Step(days_lost(lost, found, hours, crew)))
    steps.append(Step("Finished", result=finish_words(found, crew)))
    return Check(id, TITLES[id], "pass", steps=tuple(steps), source=METHOD)


def finish_words(found: Walk, crew: CrewSetting) -> str:
    """The date of the last day; its number where no start was given."""
    if not found.days:
        return "nothing to lay"
    return found.days[-1].date.isoformat() if crew.start else f"crew day {len(found.days)}"


def cover_check(found: Walk, layout: Layout, rules: Rules) -> Check:
    """The longest that any piece lay open without the ply above it or a temporary cover."""
    id = "crew.cover-within"
    seen = exposures(found, layout, within_s=rules.cover_within_s)
    lain = max(seen, key=lambda one: one.lies_s, default=None)
    worst = max(seen, key=lambda one: one.open_s, default=None)
    steps = []
    if lain is not None and worst is not None:
        steps.append(
            Step("Longest from a piece laid to its cover laid", values={"piece": lain.id}, result=lain.lies_s, unit="s")
        )
        if any(one.nights for one in seen):
            count = sum(1 for one in seen if one.nights)
            steps.append(Step("Pieces put under a temporary cover between working days", result=float(count), unit="1"))
        steps.append(Step("Longest that a piece lies open", values={"piece": worst.id}, result=worst.open_s, unit="s"))
    demand = worst.open_s if worst else 0.0
    origin = rules.origins.get("rules.cover_within")
    return Check(
        id,
        TITLES[id],
        judged(demand, rules.cover_within_s),
        demand=demand,
        capacity=rules.cover_within_s,
        unit="s",
        steps=tuple(steps) or (Step("No base was laid"),),
        source=origin.source if origin else METHOD,
    )


def fire_watch_check(found: Walk, crew: CrewSetting) -> Check:
    """On every day with welding, the time left after the last lap is at least the watch."""
    id = "crew.fire-watch"
    watch_s = crew.fire_watch_s or 0.0
    leaves = day_span(crew)[1]
    spans = [(weld_span(day.placings), day.date) for day in found.days]
    left = [((leaves - span[1]) * 60.0, date) for span, date in spans if span is not None]
    if not left:
        step = Step("No lap is welded on any day")
        return Check(id, TITLES[id], "pass", demand=watch_s, unit="s", steps=(step,), source=METHOD, uses=(WATCH,))
    least, date = min(left)
    steps = (
        Step("Days with welding", result=float(len(left)), unit="1"),
        Step(
            "Least time from the last lap welded to the crew's leaving",
            values={"date": date.isoformat()},
            result=least,
            unit="s",
        ),
    )
    status = judged(watch_s, least + ROUNDING_S)
    return Check(
        id, TITLES[id], status, demand=watch_s, capacity=least, unit="s", steps=steps, source=METHOD, uses=(WATCH,)
    )
