"""Rates: read with any unit of theirs, filled in, and carried with their origin."""

from __future__ import annotations

import datetime as dt

import pytest

from lapwright.crew.rates import RATE_NAMES, UNITS, make_crew, rate_si, rates_used, unknown_rates
from lapwright.defaults.table import table
from lapwright.units.unread import Unread

FOOT = 0.3048  # exact, by definition of the international foot


def test_area_rate_is_area_over_time() -> None:
    """65 sf/h is 65 square feet in 3600 s."""
    assert rate_si("65 sf/h") == pytest.approx(65 * FOOT**2 / 3600, rel=1e-15)


def test_speed_time_and_plain_number_are_read() -> None:
    """3 ft/min is 3 ft in 60 s, 30 min are 1800 s, 11 ft/h is 11 ft in 3600 s, 0.85 stays."""
    read = [rate_si(text) for text in ("3 ft/min", "30 min", "11 ft/h", "0.85")]
    assert read == pytest.approx([3 * FOOT / 60, 1800.0, 11 * FOOT / 3600, 0.85], rel=1e-15)


@pytest.mark.parametrize("text", ["65 sf/gallop", "many", "65 furlongs", ""])
def test_what_is_no_rate_is_not_read(text: str) -> None:
    """An unknown unit is refused."""
    with pytest.raises(Unread):
        rate_si(text)


def test_table_and_units_name_the_same_rates() -> None:
    """Every row of rates.csv has a unit to be kept in, and no unit is without a row."""
    assert tuple(table("rates")) == RATE_NAMES


def test_every_default_is_read_and_above_zero() -> None:
    """Each row can be read in SI."""
    assert [rate.name for rate in rates_used() if not rate.value > 0.0 or rate.unit != UNITS[rate.name]] == []


def test_crew_keeps_what_is_given_and_fills_the_rest() -> None:
    """A given rate replaces the default; the others are the table's."""
    crew = make_crew(6, 2, day=(dt.time(7), dt.time(16, 30)), weekdays=(0, 1), rates={"base": 0.002})
    assert (crew.rates["base"], crew.rates["set_up"], set(crew.rates)) == (0.002, 1800.0, set(RATE_NAMES))


def test_override_keeps_its_default_beside_it() -> None:
    """A rate from the job file says so and still shows the default."""
    rate = next(rate for rate in rates_used({"base": "80 sf/h"}) if rate.name == "base")
    assert (rate.origin.text, rate.origin.default, rate.origin.origin) == ("80 sf/h", "65 sf/h", "job file")


def test_unknown_names_are_told_in_their_order() -> None:
    """Names that are no rate, as given."""
    assert unknown_rates(("zeal", "base", "luck")) == ("zeal", "luck")
