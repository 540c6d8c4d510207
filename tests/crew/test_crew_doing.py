"""Putting a piece of work into a day."""

from __future__ import annotations

import numpy as np
from crew_jobs import make_hours, plain_crew

from lapwright.crew.doing import done, lasting, passed, whole_minutes
from lapwright.crew.shift import Part, Shift, make_fitness, make_shift
from lapwright.hours.values import HEAT, OPEN, SHUT, HourTable

DAY = tuple(range(24))


def shift_of(*, shut: tuple[int, ...] = (), heat: tuple[int, ...] = (), people: int = 2, **rates: float) -> Shift:
    """A day from 7 to 15, open but for some hours; the base follows."""

    def change(table: HourTable, hour: np.ndarray) -> None:
        table.states["base"][np.isin(hour, shut)] = SHUT
        table.states["base"][np.isin(hour, heat)] = HEAT

    return make_shift(make_fitness(make_hours(change)), DAY, plain_crew(people, **rates), welding=bool(heat))


def minutes(whole: float):  # a piece of work that lasts as long in any state
    """How long a piece of work lasts."""
    return lambda _state, _hands: whole


def test_work_begins_at_once_and_ends_on_a_whole_minute() -> None:
    """10.2 min from 7:00 end at 7:11."""
    assert done(shift_of(), "base", 420.0, 900.0, minutes(10.2)) == (Part(420.0, 431.0, OPEN, 2, 1.0),)


def test_work_pauses_for_a_break() -> None:
    """30 min from 8:50 with a break from 9:00 to 9:15: 10 min before it, 20 after."""
    found = done(shift_of(morning_break=900.0), "base", 530.0, 900.0, minutes(30.0))
    assert [(part.begin, part.end) for part in found or ()] == [(530.0, 540.0), (555.0, 575.0)]


def test_work_is_not_left_half_done_over_a_shut_hour() -> None:
    """30 min from 8:50 with 9 to 10 shut begin at 10:00."""
    found = done(shift_of(shut=(9,)), "base", 530.0, 900.0, minutes(30.0))
    assert [(part.begin, part.end) for part in found or ()] == [(600.0, 630.0)]


def test_work_that_fits_before_the_shut_hour_is_done() -> None:
    """10 min from 8:50 end as the hour shuts."""
    found = done(shift_of(shut=(9,)), "base", 530.0, 900.0, minutes(10.0))
    assert [(part.begin, part.end) for part in found or ()] == [(530.0, 540.0)]


def test_pace_changes_with_the_hour() -> None:
    """60 min of open work begun at 8:30, twice as long in heat from 9: half of it open, then 60 min in heat."""

    def lasts(state: int, _hands: int) -> float:
        return 120.0 if state == HEAT else 60.0

    found = done(shift_of(heat=(9, 10)), "base", 510.0, 900.0, lasts)
    assert [(part.begin, part.end, part.state, part.share) for part in found or ()] == [
        (510.0, 540.0, OPEN, 0.5),
        (540.0, 600.0, HEAT, 0.5),
    ]


def test_no_welding_after_its_stop() -> None:
    """Heat from 13 on and a stop at 14:00: 50 min from 13:20 do not fit, 40 do."""
    shift = shift_of(heat=(13, 14))
    assert done(shift, "base", 800.0, 900.0, minutes(50.0)) is None
    assert done(shift, "base", 800.0, 900.0, minutes(40.0)) is not None


def test_what_does_not_fit_before_the_limit_is_none() -> None:
    """30 min from 14:40 pass 15:00."""
    assert done(shift_of(), "base", 880.0, 900.0, minutes(30.0)) is None


def test_all_hands_share_what_any_minute_is_fit_for() -> None:
    """90 person-minutes by two people and 30 min of set-up, both over a break of 15 min at 9:00."""
    shift = shift_of(morning_break=900.0)
    found = [passed(shift, 520.0, 900.0, 90.0), lasting(shift, 520.0, 900.0, 30.0)]
    assert [parts[-1].end for parts in found if parts] == [580.0, 565.0]


def test_nothing_to_do_takes_no_time() -> None:
    """No minutes make no parts."""
    assert (passed(shift_of(), 420.0, 900.0, 0.0), lasting(shift_of(), 420.0, 900.0, 0.0)) == ((), ())


def test_what_passes_the_limit_is_none() -> None:
    """40 person-minutes by two, and 20 minutes, from 14:45."""
    assert (passed(shift_of(), 885.0, 900.0, 40.0), lasting(shift_of(), 885.0, 900.0, 20.0)) == (None, None)


def test_minutes_are_rounded_up_but_not_for_rounding() -> None:
    """A hair over a whole minute is that minute."""
    assert [whole_minutes(value) for value in (60.0, 60.0 + 1e-12, 60.1)] == [60.0, 60.0, 61.0]
