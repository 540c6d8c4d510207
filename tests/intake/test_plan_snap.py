"""Outlines of areas drawn a hair apart, brought together within the tolerance, and told."""

from __future__ import annotations

from typing import Any

from drawnplans import ANNEX, BARE, FOOT, INCH, drawing, feet, notes, plan

from lapwright.intake.plan_values import AreaLayers

PAIR = (BARE, AreaLayers("Annex", ANNEX.outline))
HAIR = 1 / 304.8  # 1 mm in feet


def beside(*corners: tuple[float, float]) -> Any:
    """A drawing of the wide roof, and of another one beside it."""
    made = drawing("ROOF-MAIN")
    made.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "ROOF-ANNEX"})
    return made


def test_a_side_a_millimetre_off_is_moved_onto_the_other() -> None:
    """The corner near a corner goes there, the other one onto the side."""
    made = beside((120 + HAIR, HAIR), (160, 0), (160, 40), (120 + HAIR, 40))
    assert plan(made, *PAIR).areas[1].outline == feet((120, 0), (160, 0), (160, 40), (120, 40))
    assert notes(made, *PAIR) == [
        'layer ROOF-ANNEX: corners beside area Main: 2, the farthest 1.4 mm off at E 120\' 1/16" N 1/16"; '
        'moved onto its outline, being no more than 1" away'
    ]


def test_corners_of_the_earlier_area_are_moved_onto_the_later_ones_side() -> None:
    """A longer side 1 mm over the wide roof's top: its two corners there go up to it."""
    made = beside((-10, 64 + HAIR), (130, 64 + HAIR), (130, 90), (-10, 90))
    main, annex = plan(made, *PAIR).areas
    assert main.outline[2:] == ((120 * FOOT, 64 * FOOT + 80), (0, 64 * FOOT + 80))
    assert annex.outline[0] == (-10 * FOOT, 64 * FOOT + 80)


def test_what_is_farther_off_stays() -> None:
    """1 1/2" is no hair, nor is 1 mm where nothing is to be joined."""
    wide = beside((120.125, 0), (160, 0), (160, 40), (120.125, 40))
    assert plan(wide, *PAIR).areas[1].outline[0] == (120 * FOOT + 1.5 * INCH, 0)
    narrow = beside((120 + HAIR, 0), (160, 0), (160, 40), (120 + HAIR, 40))
    assert plan(narrow, *PAIR, join=0).areas[1].outline[0] == (120 * FOOT + 80, 0)
    assert notes(narrow, *PAIR, join=0) == notes(wide, *PAIR) == []


def test_a_lap_of_a_hair_is_taken_back() -> None:
    """An annex that reaches 1/2" into the roof ends at its side."""
    made = beside((120 - 1 / 24, 10), (160, 10), (160, 40), (120 - 1 / 24, 40))
    assert plan(made, *PAIR).areas[1].outline == feet((120, 10), (160, 10), (160, 40), (120, 40))


def test_an_outline_that_would_fold_is_left() -> None:
    """A triangle 1/2" deep along the roof's side has nothing left of it there."""
    made = beside((120, 10), (120 + 1 / 24, 30), (120, 50))
    assert plan(made, *PAIR, any_size=True).areas[1].outline == feet((120, 10), (120 + 1 / 24, 30), (120, 50))
