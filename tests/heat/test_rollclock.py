"""The roll clock: the series against rings of cells, and what it says where nothing happens."""

from dataclasses import replace

import numpy as np
import pytest

from lapwright.heat.radial import rings, step_rings
from lapwright.heat.rollclock import RollAsk, left_at_limit, roll_clock, wound_roll
from lapwright.heat.rollfilm import roll_film_w_m2k

COLD = RollAsk(21.1, -3.9, 4.47, 10.0, 0.004, 10.0)


@pytest.mark.parametrize("core", [0.0, 0.075])
@pytest.mark.parametrize("wind_m_s", [0.0, 4.47])
def test_rings_and_series_tell_the_same_times(wind_m_s: float, core: float) -> None:
    """In weather that stays, rings of cells cross the limit when the series does, within a hundredth."""
    clock = roll_clock(replace(COLD, wind_m_s=wind_m_s, core=core))
    sheet = wound_roll(0.004, 10.0, core, film_w_m2k=clock.film_w_m2k).made_of
    roll = rings(clock.radius, core / 2, sheet, cells=240)
    steps, step_s = 6000, 5.0
    cells_c = step_rings(
        roll,
        np.full(240, 21.1),
        air_c=np.full(steps, -3.9),
        film_w_m2k=np.full(steps, clock.film_w_m2k),
        step_s=step_s,
    )
    wrap_s = np.interp(-10.0, -roll.mean_of_outer(cells_c, 0.004), step_s * np.arange(1, steps + 1))
    core_s = np.interp(-10.0, -cells_c[:, 0], step_s * np.arange(1, steps + 1))
    share = float(roll.share_above(cells_c, 10.0)[int(3600 / step_s) - 1])
    assert clock.outer_wrap_s == pytest.approx(wrap_s, rel=0.01)
    assert clock.core_s == pytest.approx(core_s, rel=0.003)
    assert dict(clock.warm_share)[3600.0] == pytest.approx(share, abs=0.01)


def test_a_film_by_the_moment_changes_little_in_still_air() -> None:
    """With the still film taken anew at each step's face the outer wrap lasts as long within a tenth."""
    clock = roll_clock(replace(COLD, wind_m_s=0.0))
    sheet = wound_roll(0.004, 10.0, 0.0, film_w_m2k=8.0).made_of
    roll, now_c, step_s, seconds = rings(clock.radius, 0.0, sheet), np.full(120, 21.1), 20.0, 0.0
    while float(roll.mean_of_outer(now_c, 0.004)) > 10.0:
        film = roll_film_w_m2k(float(now_c[-1]), -3.9, wind_m_s=0.0, diameter=2 * clock.radius)
        (now_c,) = step_rings(roll, now_c, air_c=np.array([-3.9]), film_w_m2k=np.array([film]), step_s=step_s)
        seconds += step_s
    assert clock.outer_wrap_s == pytest.approx(seconds, rel=0.1)


def test_the_order_of_loss_is_from_the_outside_in() -> None:
    """Face, outermost wrap, two wraps, core."""
    clock = roll_clock(COLD)
    times = [clock.surface_s, clock.outer_wrap_s, clock.outer_two_wraps_s, clock.core_s]
    assert times == sorted(times)
    assert clock.warm_share[0] == (0.0, 1.0)
    assert clock.warm_share[-1] == (clock.core_s, 0.0)
    shares = [share for _, share in clock.warm_share]
    assert shares == sorted(shares, reverse=True)


def test_air_at_the_limit_never_takes_the_roll_below_it() -> None:
    """A time never reached is None, and the steps say so."""
    clock = roll_clock(replace(COLD, air_c=10.0))
    assert (clock.surface_s, clock.outer_wrap_s, clock.core_s) == (None, None, None)
    assert [step.result for step in clock.steps][-1] == "never"
    assert clock.warm_share[-1] == (86400.0, 1.0)


def test_a_roll_that_is_cold_in_the_store_has_no_time() -> None:
    """Stored at the limit or below it, it is lost at the door, even in warm air."""
    clock = roll_clock(replace(COLD, stored_c=10.0, air_c=30.0))
    assert (clock.surface_s, clock.core_s, clock.warm_share) == (0.0, 0.0, ((0.0, 0.0),))


def test_a_cover_never_cools_a_roll() -> None:
    """A cover with a U over the bare film counts as none."""
    assert roll_clock(replace(COLD, covered_u_w_m2k=500.0)).outer_wrap_s == roll_clock(COLD).outer_wrap_s


@pytest.mark.parametrize(("start", "air", "expected"), [(20, 0, 0.5), (20, 10, 0), (20, 30, 0), (10, 0, 1), (5, 20, 1)])
def test_what_is_left_at_the_limit(start: float, air: float, expected: float) -> None:
    """Limit 10 °C."""
    assert left_at_limit(start, air, 10.0) == expected
