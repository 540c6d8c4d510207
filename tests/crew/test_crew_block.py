"""What fits into one stretch."""

from __future__ import annotations

import numpy as np
from crew_jobs import TWO, flashing, make_hours, make_roof, make_small, plain_crew, side_lap

from lapwright.crew.block import Job, Opening, Placing, furthest
from lapwright.crew.pace import make_lasts
from lapwright.crew.shift import make_fitness, make_shift
from lapwright.crew.steps import make_steps
from lapwright.hours.values import SHUT, HourTable
from lapwright.layout.values import Layout

SMALL = make_small()
AT_ONCE = Opening(0.0, 0.0)


def block(
    stretch: tuple[float, float],
    *,
    layout: Layout = SMALL,
    at: int = 0,
    opening: Opening = AT_ONCE,
    shut: tuple[int, ...] = (),
    primes: bool = True,
    **rates: float,
) -> tuple[int, list[tuple[str, float, float]]]:
    """Steps done when the stretch ends, and what is done from when to when, by one person on PLAIN rates."""

    def change(table: HourTable, hour: np.ndarray) -> None:
        table.states["base"][np.isin(hour, shut)] = SHUT

    filled = {**plain_crew().rates, **rates}
    crew = plain_crew(**rates)
    job = Job(make_steps(layout, [make_roof()], TWO, filled), make_lasts(crew), filled, primes)
    shift = make_shift(make_fitness(make_hours(change)), tuple(range(24)), crew, welding=False)
    end, placings = furthest(job, shift, stretch, at, opening)
    return end, [timed(one) for one in placings]


def timed(one: Placing) -> tuple[str, float, float]:
    """Name of what is done, from when to when."""
    name = one.work.id.removeprefix("Main/") if one.work else one.what
    return name, one.parts[0].begin, one.parts[-1].end


def test_an_hour_takes_two_base_courses_and_a_cap_course() -> None:
    """10 + 20 + 20 min by the pencil; the third base course (20 min) would end at 8:10."""
    end, done = block((420.0, 480.0))
    laid = [one for one in done if "/" in one[0]]
    assert (end, laid) == (3, [("base/01/1", 420.0, 430.0), ("base/02/1", 430.0, 450.0), ("cap/01/1", 450.0, 470.0)])


def test_the_tie_off_must_fit_as_well() -> None:
    """20 m of tie-off at 60 m/h are 20 min: till 7:50 after two base courses, till 8:10 after the cap course."""
    end, done = block((420.0, 480.0), tie_off=60.0 / 3600.0)
    assert (end, done[-1]) == (2, ("tie-off", 450.0, 470.0))


def test_nothing_is_opened_that_cannot_be_closed() -> None:
    """The first base course and its tie-off take 30 min; a stretch of 25 is left alone."""
    assert block((420.0, 445.0), tie_off=60.0 / 3600.0) == (0, [])


def test_base_waits_for_the_primer() -> None:
    """44 m² of deck (0.4, 0.9 and 0.9 m over 20 m) primed at once, then an hour to dry."""
    end, done = block((420.0, 660.0), primer=44.0 / 3600.0, primer_dry=3600.0)
    by_name = {name: (begin, end) for name, begin, end in done}
    assert (end, by_name["prime"], by_name["base/01/1"]) == (6, (420.0, 480.0), (540.0, 550.0))


def test_only_what_is_covered_today_is_primed() -> None:
    """Till 10:00 only two base courses fit: 26 m² are primed in 36 min (35.5), and the base begins at 8:36."""
    end, done = block((420.0, 600.0), primer=44.0 / 3600.0, primer_dry=3600.0)
    by_name = {name: (begin, end) for name, begin, end in done}
    assert (end, by_name["prime"], by_name["base/01/1"]) == (3, (420.0, 456.0), (516.0, 526.0))


def test_the_cap_over_an_older_base_does_not_wait_for_todays_primer() -> None:
    """Two base courses are down: the first cap course goes on while the primer of the third dries."""
    _, done = block((420.0, 600.0), at=2, primer=18.0 / 600.0, primer_dry=3600.0)
    by_name = {name: (begin, end) for name, begin, end in done}
    assert [by_name[name] for name in ("prime", "cap/01/1", "base/03/1")] == [
        (420.0, 430.0),
        (430.0, 450.0),
        (490.0, 510.0),
    ]


def test_a_nailed_base_is_not_primed() -> None:
    """Without priming the base begins at once."""
    _, done = block((420.0, 480.0), primes=False, primer_dry=3600.0)
    assert done[0] == ("base/01/1", 420.0, 430.0)


def test_set_up_runs_before_the_stretch_and_drying_in_it() -> None:
    """Set-up from 7:00 to 7:30; dry from 8:00; then 20 min of drying."""
    _, done = block((480.0, 600.0), opening=Opening(30.0, 20.0))
    assert done[:2] == [("set-up", 420.0, 450.0), ("dry and measure", 480.0, 500.0)]


def test_a_later_stretch_finds_the_set_up_done() -> None:
    """It begins with its own drying."""
    _, done = block((480.0, 600.0), opening=Opening(30.0, 20.0, is_first=False))
    assert done[0] == ("dry and measure", 480.0, 500.0)


def test_a_long_day_ends_within_a_course_only_where_no_edge_is_reached() -> None:
    """Courses of 16 m in two pieces of 4 min, then of 8: 7 min take one piece, 10 or 17 min the course of two.

    Courses of 20 m are long (over 60 ft, 18.288 m): there 20 min also take the first piece of the next.
    """
    short, long = make_small(joints=(0.0, 8.0, 16.0)), make_small(joints=(0.0, 10.0, 20.0))
    assert [block((420.0, 420.0 + minutes), layout=short)[0] for minutes in (7.0, 10.0, 17.0)] == [1, 2, 2]
    assert [block((420.0, 420.0 + minutes), layout=long)[0] for minutes in (9.0, 12.0, 20.0)] == [1, 2, 3]


def test_every_lap_on_top_is_probed_before_the_day_ends() -> None:
    """20 m of cap lap at 60 m/h are 20 min, after the last piece; a base lap is not probed."""
    laps = (side_lap("01/1", "02/1", "cap", 20.0, 0.9), side_lap("01/1", "02/1", "base", 20.0, 0.4))
    _, done = block((420.0, 900.0), layout=make_small(laps=laps), probe=60.0 / 3600.0)
    assert done[-1] == ("probe laps", 520.0, 540.0)


def test_flashings_are_part_of_the_day() -> None:
    """Two flashings of 10 m (10 min each) after the last cap course, which ends at 8:40."""
    layout = make_small(details=(flashing(1, 0, 10), flashing(2, 10, 20)))
    _, done = block((420.0, 900.0), layout=layout)
    assert done[-2:] == [("side 3/cap flashing 1", 520.0, 530.0), ("side 3/cap flashing 2", 530.0, 540.0)]


def test_shut_hours_are_waited_out() -> None:
    """The base is shut from 8 to 9: the third base course, ready at 7:50, waits till 9:00."""
    _, done = block((420.0, 900.0), shut=(8,))
    by_name = {name: (begin, end) for name, begin, end in done}
    assert by_name["base/03/1"] == (540.0, 560.0)
