"""How much may be opened in a day: by pencil, and what must hold whatever the crew."""

from dataclasses import replace

import pytest
from crew_jobs import JANUARY_11, TWO, make_hours, plain_crew
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.crew.calendar import make_calendar
from lapwright.crew.opening import OpenAsk, covered_m2, most_opened
from lapwright.crew.shift import make_fitness
from lapwright.crew.values import CrewSetting, Opened
from lapwright.hours.values import HourTable


def opened(crew: CrewSetting, table: HourTable, **changed: object) -> Opened | None:
    """What may be opened on a Monday of January."""
    hours = make_calendar(table.weather, "America/New_York").hours(JANUARY_11)
    return most_opened(replace(OpenAsk(TWO.plies, crew, 0, 10.0), **changed), make_fitness(table), hours)


def test_a_roll_covers_its_net_size() -> None:
    """1 m by 20 m less 0.1 m side lap and 0.15 m end lap: 0.9 times 19.85 m."""
    assert covered_m2(TWO.plies[0].sheet) == pytest.approx(0.9 * 19.85, rel=1e-12)


def test_the_day_by_pencil() -> None:
    """Rates of 10 m² an hour for each of four people; every hour open; a day of 8 h without breaks or set-up.

    A course of 20 m² as laid: base 30 min, cap 30 min by four people.  Deck and primer at 1000 m²/h, dry at once,
    probing 1000 m/h, tie-off of 10 m at 10 m/h by four people 15 min.  In 480 min less those few: 7 courses take
    420 min, 8 would take 480.
    """
    found = opened(pencil_crew(), make_hours())
    assert found is not None
    assert found.area == pytest.approx(7 * 0.9 * 19.85)
    assert found.rolls == pytest.approx({"base": 7.0, "cap": 7.0})
    assert found.closed_min - found.closing_min <= 20
    assert found.last_base_min < found.closing_min <= found.closed_min <= 15 * 60


def test_nothing_is_opened_outside_the_safe_minutes() -> None:
    """Half the day, half the roof."""
    found = opened(pencil_crew(), make_hours(), within=(9 * 60, 13 * 60))
    assert found is not None
    assert found.begin_min >= 9 * 60
    assert found.closed_min <= 13 * 60
    assert found.area == pytest.approx(3 * 0.9 * 19.85)


def test_a_day_too_short_for_one_course_opens_nothing() -> None:
    """An hour is not enough for base, cap and tie-off."""
    assert opened(pencil_crew(), make_hours(), within=(9 * 60, 10 * 60)) is None


def test_the_base_alone_goes_twice_as_far() -> None:
    """The same day by pencil: a course of base takes 30 min; in 465 min less deck and primer 15 fit, not 16."""
    found = opened(pencil_crew(), make_hours(), upto=1)
    assert found is not None
    assert found.rolls == pytest.approx({"base": 15.0})


def pencil_crew() -> CrewSetting:
    """Four people at whole rates."""
    per_hour = {
        "accept_deck": 1000, "primer": 1000, "base": 10, "cap": 10, "interply": 10, "probe": 1000, "tie_off": 10,
        "weld": 1000,
    }  # fmt: skip
    nothing = dict.fromkeys(("set_up", "clean_up", "morning_break", "noon_break", "primer_dry"), 0.0)
    rates = {name: value / 3600 for name, value in per_hour.items()} | nothing | {"pace_in_cold": 1.0}
    crew = plain_crew()
    return replace(crew, people=4, rates={**crew.rates, **rates})


@settings(max_examples=30, deadline=None)
@given(people=st.integers(1, 8), later=st.integers(0, 300), tie_off=st.floats(1, 60))
def test_more_time_never_opens_less(people: int, later: int, tie_off: float) -> None:
    """Nor do more people, nor a shorter line to close."""
    table = make_hours()
    crew = replace(pencil_crew(), people=people)
    short = opened(crew, table, within=(7 * 60 + later, 15 * 60), tie_off=tie_off)
    whole = opened(crew, table, tie_off=tie_off)
    more = opened(replace(crew, people=people + 1), table, tie_off=tie_off)
    shorter = opened(crew, table, tie_off=tie_off / 2)
    areas = [0.0 if one is None else one.area for one in (short, whole, more, shorter)]
    assert areas[0] <= areas[1] <= min(areas[2], areas[3])
