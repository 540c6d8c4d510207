"""What has to be warm today: rolls, since when, and how often a roll is needed."""

import math
from dataclasses import replace

import pytest
from crew_jobs import SHEET, plain_crew

from lapwright.assembly.values import Ply
from lapwright.crew.morning import WAIT
from lapwright.crew.values import MorningHour, Opened, OperationToday
from lapwright.crew.warming import WarmAsk, roll_pace_s, shortest_lasting, warm_rolls
from lapwright.hours.values import WARM

CAP = Ply("cap", replace(SHEET, length_ticks=10 * 80_000, thickness=0.004, apply_at_or_above_c=10.0))
TODAY = OperationToday("cap", WAIT, 8 * 60, 15 * 60, 15 * 60, "warm", ("warm",) * 24)
ASK = WarmAsk(store_c=21.1, cold_c=-6.7, distance=None)


def hour(clock: int, air_c: float, wind_m_s: float) -> MorningHour:
    """A full hour with nothing but air and wind."""
    return MorningHour(
        clock, air_c, air_c, air_c, air_c, 10.0, wind_m_s, math.nan, 0.0, air_c, None, math.inf, math.nan, None, False
    )


HOURS = (hour(7, -30.0, 9.0), hour(8, -3.9, 4.4704), hour(12, 2.0, 1.0), hour(15, 1.0, 1.0), hour(16, -30.0, 9.0))
OPENED = Opened(50.0, {"cap": 5.4}, 8 * 60 + 30, 13 * 60, 14 * 60, 15 * 60, False, 10.0)


def test_the_worst_hour_of_the_window_counts_and_no_other() -> None:
    """70 °F into 25 °F at 10 mph: the outermost wrap of a 4 mm roll lasts 7.3 min (6.0 to 8.7 over its properties)."""
    found = warm_rolls(CAP, TODAY, HOURS, OPENED, crew=plain_crew(), is_top=True, ask=ASK)
    assert found is not None
    assert found.lasts_s is not None
    assert 6.0 * 60 <= found.lasts_s <= 8.7 * 60


def test_rolls_are_whole_and_needed_when_the_deck_is_opened() -> None:
    """5.4 rolls are six; they go up from 08:30."""
    found = warm_rolls(CAP, TODAY, HOURS, OPENED, crew=plain_crew(), is_top=True, ask=ASK)
    assert found is not None
    assert (found.rolls, found.needed_min) == (6, 8 * 60 + 30)


def test_the_store_goes_on_hours_before_for_spaced_rolls_and_days_before_for_a_pallet() -> None:
    """From 20 °F in a store of 70 °F to 50 °F at the core: about 10 h spaced, about six days on a wrapped pallet."""
    found = warm_rolls(CAP, TODAY, HOURS, OPENED, crew=plain_crew(), is_top=True, ask=ASK)
    assert found is not None
    by_name = {name: (core_s, on_min) for name, core_s, on_min in found.stands}
    assert by_name["spaced"][0] == pytest.approx(10.3 * 3600, rel=0.05)
    assert 5 * 86400 <= (by_name["wrapped pallet"][0] or 0) <= 7 * 86400
    spaced_s, on_min = by_name["spaced"]
    assert on_min == pytest.approx(8 * 60 + 30 - (spaced_s or 0) / 60 - 60)  # an hour to warm the store itself


def test_open_hours_ask_for_no_warm_rolls() -> None:
    """Nor does an operation without a window, nor a sheet without its thickness."""
    none = [
        warm_rolls(CAP, replace(TODAY, state="open"), HOURS, OPENED, crew=plain_crew(), is_top=True, ask=ASK),
        warm_rolls(CAP, replace(TODAY, first_min=None, state=""), HOURS, None, crew=plain_crew(), is_top=True, ask=ASK),
        warm_rolls(
            replace(CAP, sheet=replace(CAP.sheet, thickness=None)), TODAY, HOURS, OPENED, crew=plain_crew(),
            is_top=True, ask=ASK,
        ),
    ]  # fmt: skip
    assert none == [None, None, None]


def test_a_roll_is_needed_as_often_as_the_crew_lays_one() -> None:
    """10 m² at 5 m²/h for each of two people, at 85 % of the pace in the cold: 10/(2·5·0.85) h."""
    crew = plain_crew()
    crew = replace(crew, people=2, rates={**crew.rates, "cap": 5 / 3600, "pace_in_cold": 0.85})
    assert roll_pace_s(CAP, WARM, crew, is_top=True) == pytest.approx(3600 / 0.85)


def test_the_roll_that_is_lost_first_is_told_of() -> None:
    """At 25 °F and 10 mph a 4 mm roll to 50 °F lasts 7.3 min; one of 3 mm to 32 °F, half as near, longer still."""
    mild = replace(CAP, ply="base", sheet=replace(CAP.sheet, thickness=0.003, apply_at_or_above_c=0.0))
    found = shortest_lasting((mild, CAP), 21.1, air_c=-3.9, wind_m_s=4.47)
    assert found is not None
    assert found[0].ply == "cap"
    thin = replace(mild, sheet=replace(mild.sheet, apply_at_or_above_c=CAP.sheet.apply_at_or_above_c))
    again = shortest_lasting((CAP, thin), 21.1, air_c=-3.9, wind_m_s=4.47)
    assert again is not None
    assert again[0].ply == "base"
    assert shortest_lasting((), 21.1, air_c=-3.9, wind_m_s=4.47) is None
