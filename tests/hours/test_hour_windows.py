"""The longest window of each day."""

import datetime as dt
from dataclasses import replace

import numpy as np
from hours_sample import CAP, rules, weather

from lapwright.heat.surface import default_setting
from lapwright.hours.table import RoofPlace, make_hour_table
from lapwright.hours.values import HEAT, OPEN, SHUT, HourTable
from lapwright.hours.windows import Window, longest_windows
from lapwright.units.write import Units


def with_states(states: list[int]) -> HourTable:
    """A table of the cap alone with these states."""
    found = make_hour_table(
        weather(len(states)),
        place=RoofPlace(40.0, -90.0),
        limits={"cap": CAP},
        rules=rules(),
        setting=default_setting(),
        units=Units("us"),
    )
    return replace(found, states={"cap": np.array(states, dtype=np.uint8)})


def test_the_longest_of_the_day_is_taken_and_midnight_ends_it() -> None:
    """Two hours, then three (one with heat), then four over midnight that are two and two."""
    day = [SHUT] * 24
    day[2:4] = [OPEN] * 2
    day[10:13] = [OPEN, HEAT, OPEN]
    day[22:24] = [OPEN] * 2
    next_day = [OPEN] * 2 + [SHUT] * 22
    assert longest_windows(with_states(day + next_day)) == (
        Window("cap", dt.date(2017, 6, 20), 10, 3),
        Window("cap", dt.date(2017, 6, 21), 24, 2),
    )


def test_of_two_equally_long_the_earlier_is_taken() -> None:
    """The morning goes before the afternoon."""
    day = [SHUT] * 24
    day[8], day[15] = OPEN, OPEN
    assert longest_windows(with_states(day)) == (Window("cap", dt.date(2017, 6, 20), 8, 1),)


def test_only_the_crew_s_hours_count() -> None:
    """From 7 to 16 an open day gives nine hours."""
    assert longest_windows(with_states([OPEN] * 24), from_hour=7, to_hour=16) == (
        Window("cap", dt.date(2017, 6, 20), 7, 9),
    )


def test_a_day_without_an_hour_has_no_window() -> None:
    """Nothing is invented."""
    assert longest_windows(with_states([SHUT] * 24)) == ()
