"""How cold rolls come into the store."""

import numpy as np

from lapwright.heat.storeplan import rolls_come_c


def test_rolls_take_the_mean_of_three_days() -> None:
    """48 h of 0 °C and 24 h of 6 °C: 2 °C; older hours, and those of the day itself, do not count."""
    air_c = np.array([-30.0] * 10 + [0.0] * 48 + [6.0] * 24 + [20.0] * 8)
    assert rolls_come_c(air_c, 82) == 2.0


def test_where_days_are_not_known_the_coldest_known_hour_counts() -> None:
    """A forecast that begins 20 h before, and a log with a gap: the safe side."""
    assert rolls_come_c(np.array([-4.0] + [1.0] * 19 + [-9.0] * 5), 20) == -4.0
    gap = np.array([0.0] * 30 + [np.nan] + [6.0] * 41)
    assert rolls_come_c(gap, 72) == 0.0


def test_a_year_is_laid_end_to_end() -> None:
    """New Year's morning looks back on the last three days of December."""
    air_c = np.array([5.0] * (8760 - 72) + [-3.0] * 72)
    assert rolls_come_c(air_c, 0) == -3.0
    assert rolls_come_c(air_c[1:], 0) is None


def test_without_a_reading_it_is_not_known() -> None:
    """Nothing but gaps."""
    assert rolls_come_c(np.full(80, np.nan), 75) is None
