"""Laps that pass openings inside a sheet, by hand, in inches: a lap of 6 that keeps 3 from the corners."""

from __future__ import annotations

import pytest
from roofs import inches

from lapwright.layout.pieces import held_joints
from lapwright.layout.runs import Hole

LAP = 6


def begins(*holes: tuple[float, ...], to_right: bool = False) -> list[float]:
    """Where the laps begin that pass holes with such corners along the course."""
    found = held_joints([Hole(tuple(map(inches, one))) for one in holes], inches(LAP), to_right=to_right)
    return [joint / inches(1) for joint in found]


def test_one_opening_is_passed_by_one_lap() -> None:
    """From 20 to 60: from 23 to 29, or from 51 to 57."""
    assert begins((20, 60)) == pytest.approx([23])
    assert begins((20, 60), to_right=True) == pytest.approx([51])


def test_a_short_opening_is_slit() -> None:
    """Of 7 a lap of 6 leaves less than the 2 that a slit asks for."""
    assert begins((20, 27)) == []


def test_openings_above_one_another_are_passed_by_one_lap() -> None:
    """From 20 to 60 and from 30 to 70 both are open from 30 to 60: from 33 to 39, or from 51 to 57."""
    assert begins((20, 60), (30, 70)) == pytest.approx([33])
    assert begins((30, 70), (20, 60), to_right=True) == pytest.approx([51])


def test_openings_side_by_side_have_a_lap_each() -> None:
    """From 20 to 60 and from 90 to 130."""
    assert begins((90, 130), (20, 60)) == pytest.approx([23, 93])


def test_of_an_opening_askew_the_corners_farthest_apart_count() -> None:
    """Corners at 20, 24, 50 and 54: between 24 and 50, 3 from the first."""
    assert begins((20, 24, 50, 54)) == pytest.approx([27])
