"""Corners where areas meet: a side that another area shares in part ends where that part ends, where that is asked."""

from __future__ import annotations

from drawnplans import EAST, FOOT, WIDE, drawing, feet, notes, plan

from lapwright.intake.plan_values import AreaLayers

HALL, SHED = AreaLayers("Hall", "ROOF-MAIN"), AreaLayers("Shed", "ROOF-SHED")


def beside(*corners: tuple[float, float]) -> object:
    """A hall of 120 ft by 64 ft and a shed with these corners."""
    made = drawing("ROOF-MAIN")
    made.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "ROOF-SHED"})
    return made


def test_a_side_shared_in_part_ends_where_that_part_ends() -> None:
    """The shed is 40 ft deep against the hall's 64 ft: the hall's east side becomes 40 ft and 24 ft."""
    read = plan(beside(*EAST), HALL, SHED, meets=True)
    assert read.areas[0].outline == feet((0, 0), (120, 0), (120, 40), (120, 64), (0, 64))
    assert read.areas[1].outline == feet(*EAST)


def test_it_is_told_where() -> None:
    """The corner is named in the drawing's own coordinates."""
    assert notes(beside(*EAST), HALL, SHED, meets=True) == [
        "layer ROOF-MAIN: sides of which another area shares a part, ending at E 120' 0\" N 40' 0\"; "
        "a corner put in there, as corners asks"
    ]


def test_nothing_is_put_in_where_it_is_not_asked() -> None:
    """Sides keep the numbers that they were drawn with."""
    assert plan(beside(*EAST), HALL, SHED).areas[0].outline == feet(*WIDE)


def test_a_part_in_the_middle_of_a_side_gets_two_corners() -> None:
    """A shed from 10 ft to 50 ft along the east side leaves 10 ft below it and 14 ft above."""
    read = plan(beside((120, 10), (160, 10), (160, 50), (120, 50)), HALL, SHED, meets=True)
    assert read.areas[0].outline == feet((0, 0), (120, 0), (120, 10), (120, 50), (120, 64), (0, 64))


def test_a_corner_that_only_touches_a_side_changes_nothing() -> None:
    """A shed that stands on the hall's side with one corner shares no edge with it."""
    read = plan(beside((120, 30), (140, 20), (140, 40)), HALL, SHED, meets=True)
    assert read.areas[0].outline == feet(*WIDE)


def test_a_side_that_runs_askew_is_cut_too() -> None:
    """Half of a side from (0, 0) to (30, 40) ft, of 50 ft, is shared: it ends at (15, 20) ft."""
    made = drawing()
    space = made.modelspace()
    space.add_lwpolyline([(0, 0), (30, 40), (0, 40)], close=True, dxfattribs={"layer": "ROOF-MAIN"})
    space.add_lwpolyline([(0, 0), (40, 0), (15, 20)], close=True, dxfattribs={"layer": "ROOF-SHED"})
    read = plan(made, HALL, SHED, meets=True)
    assert read.areas[0].outline == feet((0, 0), (15, 20), (30, 40), (0, 40))
    assert read.areas[1].outline == ((0, 0), (40 * FOOT, 0), (15 * FOOT, 20 * FOOT))
