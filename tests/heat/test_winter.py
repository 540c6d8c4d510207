"""The roll clock over many hours: the grid against exact clocks, and a roll left out against the series."""

import numpy as np
import pytest

from lapwright.heat.rollclock import RollAsk, roll_clock
from lapwright.heat.winter import month_clocks, outer_wraps_s, quantile_s, roll_left_out, wind_table

WARM = RollAsk(20.0, 0.0, 0.0, 10.0, 0.004, 10.0)
AIRS = np.array([-25.0, -10.0, -3.0, 2.0, 7.5, 9.5])
WINDS = np.array([0.5, 12.0, 4.0, 1.5, 6.0, 3.0])


def test_the_grid_tells_what_exact_clocks_tell() -> None:
    """Hour by hour, within a hundredth."""
    exact = [
        roll_clock(RollAsk(20.0, float(air), float(wind), 10.0, 0.004, 10.0)).outer_wrap_s
        for air, wind in zip(AIRS, WINDS, strict=True)
    ]
    assert outer_wraps_s(WARM, AIRS, WINDS) == pytest.approx(np.array(exact, dtype=float), rel=0.01)


def test_air_over_the_limit_takes_no_wrap() -> None:
    """Infinite in warm air, nought for a roll that is cold in the store, nothing for no hours."""
    assert outer_wraps_s(WARM, np.array([12.0]), np.array([5.0])).tolist() == [np.inf]
    cold = RollAsk(9.0, 0.0, 0.0, 10.0, 0.004, 10.0)
    assert outer_wraps_s(cold, np.array([0.0]), np.array([5.0])).tolist() == [0.0]
    assert outer_wraps_s(WARM, np.zeros(0), np.zeros(0)).tolist() == []


def test_months_stand_as_a_winter() -> None:
    """August first, then to July; a tenth, half and nine tenths are values of the sample; none where it is not lost."""
    lasts = np.array([100.0, 200.0, np.inf, 300.0])
    found = month_clocks(lasts, np.array([1, 1, 1, 11]))
    assert [(one.month, one.hours) for one in found] == [(11, 1), (1, 3)]
    assert (found[1].short_s, found[1].middle_s, found[1].long_s) == (100.0, 200.0, 200.0)
    assert quantile_s(np.array([np.inf]), 0.5) is None
    assert quantile_s(np.zeros(0), 0.5) is None


def test_a_table_by_wind_and_air_is_the_clock() -> None:
    """Rows by air, columns by wind."""
    ((calm, windy), (never, _)) = wind_table(WARM, (0.0, 8.0), (0.0, 15.0))
    assert calm == pytest.approx(roll_clock(WARM).outer_wrap_s, rel=0.01)
    assert windy is not None
    assert calm is not None
    assert windy < calm
    assert never is None


def test_a_roll_left_out_in_steady_weather_is_the_series() -> None:
    """With every hour alike, rings of cells lose what the series loses: share within a fiftieth, core within 1 %."""
    ask = RollAsk(20.0, -5.0, 5.0, 10.0, 0.004, 10.0)
    clock, left = roll_clock(ask), roll_left_out(ask, np.full(9, -5.0), np.full(9, 5.0))
    assert left.shares[0] == pytest.approx(dict(clock.warm_share)[3600.0], abs=0.02)
    assert left.all_s == pytest.approx(clock.core_s, rel=0.01)
    assert left.wrap_s == pytest.approx(clock.outer_wrap_s, abs=30.0)


def test_a_roll_left_out_on_a_warming_day_keeps_its_core() -> None:
    """An hour of frost, then air over the limit: the outer wrap is lost, the core never."""
    left = roll_left_out(WARM, np.array([-10.0, *[15.0] * 7]), np.full(8, 8.0))
    assert left.wrap_s is not None
    assert left.all_s is None
    assert left.shares[-1] > left.shares[0]
