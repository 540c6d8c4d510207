"""The crew's checks."""

from __future__ import annotations

import datetime as dt

import numpy as np
from crew_jobs import TWO, ZONE, make_hours, make_roof, make_small, plain_crew, side_lap

from lapwright.crew.checks import crew_checks, unknown_crew_checks
from lapwright.crew.values import CrewSetting
from lapwright.crew.walk import walk
from lapwright.defaults.rules import make_rules
from lapwright.hours.values import HEAT, SHUT, HourTable
from lapwright.verdict import Check

SMALL = make_small(laps=(side_lap("01/1", "02/1", "cap", 20.0, 0.9),))


def checks(crew: CrewSetting, table: HourTable | None = None, **given: str) -> dict[str, Check]:
    """The three checks of the roof of 20 m by 2.3 m, by id."""
    hours, rules = make_hours() if table is None else table, make_rules(given)
    found = walk(SMALL, [make_roof()], TWO, hours, crew, rules=rules, time_zone=ZONE)
    return {check.id: check for check in crew_checks(found, SMALL, hours, crew, rules=rules)}


def statuses(found: dict[str, Check]) -> list[str]:
    """Verdicts of finish, cover and watch."""
    return [found[id].status for id in ("crew.finish", "crew.cover-within", "crew.fire-watch")]


def cold(table: HourTable, hour: np.ndarray) -> None:
    """Caps only with heat."""
    table.states["cap"][:] = HEAT


def shut(table: HourTable, hour: np.ndarray) -> None:
    """Bases never."""
    table.states["base"][:] = SHUT
    table.reason["base"][:] = 1


def test_a_finished_roof_passes_with_its_date() -> None:
    """Everything is down on the first day."""
    found = checks(plain_crew())
    assert statuses(found) == ["pass", "pass", "pass"]
    assert found["crew.finish"].steps[-1].result == "2027-01-11"


def test_without_a_start_the_day_is_a_number() -> None:
    """No date is taken from anywhere."""
    assert checks(plain_crew(start=None))["crew.finish"].steps[-1].result == "crew day 1"


def test_a_roof_that_cannot_be_finished_fails_with_the_reason() -> None:
    """The base is too cold for three years: 784 working days."""
    finish = checks(plain_crew(), make_hours(shut))["crew.finish"]
    days = sum((dt.date(2027, 1, 11) + dt.timedelta(days=k)).weekday() < 5 for k in range(1098))
    assert (finish.status, finish.steps[-1].text) == ("fail", f"Working days lost since: too cold {days}")


def test_longest_open_base_is_the_demand() -> None:
    """Base 2 lies open from 7:30 to 8:30; the rule allows three days."""
    cover = checks(plain_crew())["crew.cover-within"]
    assert (cover.demand, cover.capacity, cover.unit) == (3600.0, 259_200.0, "s")


def test_a_base_open_within_a_day_for_longer_than_allowed_fails() -> None:
    """No night to cover it: 60 min are more than the 30 min allowed."""
    assert checks(plain_crew(), cover_within="30 min")["crew.cover-within"].status == "fail"


def test_the_watch_is_measured_from_the_last_lap() -> None:
    """Two people, one watching: base till 7:30, cap, base till 8:10, cap with its lap till 8:50, work till 15:00."""
    watch = checks(plain_crew(2), make_hours(cold))["crew.fire-watch"]
    assert (watch.status, watch.demand, watch.capacity) == ("pass", 3600.0, (15 * 60 - 530) * 60.0)


def test_no_watch_length_leaves_the_watch_unknown() -> None:
    """Nothing is welded, so the rest is known; the watch itself has no silent default."""
    found = checks(plain_crew(2, fire_watch_s=None))
    assert statuses(found) == ["pass", "pass", "unknown"]
    assert found["crew.fire-watch"].supply == ("crew.fire_watch",)


def test_days_that_need_welding_cannot_be_planned_without_it() -> None:
    """Heat hours were left unused: all three are unknown and say what to supply."""
    found = checks(plain_crew(2, fire_watch_s=None), make_hours(cold))
    assert statuses(found) == ["unknown", "unknown", "unknown"]
    assert {check.supply for check in found.values()} == {("crew.fire_watch",)}


def test_keys_used_are_those_that_make_it_unknown() -> None:
    """With heat hours all three read the watch, without only the watch does."""
    warm, cool = checks(plain_crew(2)), checks(plain_crew(2), make_hours(cold))
    assert [len(warm[id].uses) for id in warm] == [0, 0, 1]
    assert [len(cool[id].uses) for id in cool] == [1, 1, 1]


def test_without_days_the_checks_are_unknown() -> None:
    """The same three, with the keys that are missing."""
    found = unknown_crew_checks(["weather", "crew"])
    assert all(check.confirm for check in found)
    assert [(check.id, check.status, check.supply) for check in found] == [
        (id, "unknown", ("weather", "crew")) for id in ("crew.finish", "crew.cover-within", "crew.fire-watch")
    ]
