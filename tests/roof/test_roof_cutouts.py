"""What openings take out of the roof, counted by hand."""

from __future__ import annotations

from dataclasses import replace

from lapwright.roof.build import make_area
from lapwright.roof.cutouts import cut_outs
from lapwright.roof.values import Opening

RECTANGLE = [(0, 0), (800_000, 0), (800_000, 400_000), (0, 400_000)]


def test_an_opening_in_the_field_takes_out_itself() -> None:
    """One rectangle."""
    curb = Opening("C", "curb", (100_000, 50_000), (80_000, 40_000))
    area = make_area("Main", RECTANGLE, falls=(0.0, -1.0), slope=0.02, openings=[curb])
    assert [(cut.name, cut.rings) for cut in cut_outs(area)] == [("C", (curb.outline,))]


def test_an_opening_in_a_corner_takes_out_what_is_behind_both_its_sides() -> None:
    """In the south-west corner: strips 1 m deep behind its south and west sides, and the corner between."""
    curb = Opening("C", "curb", (0, 0), (80_000, 40_000))
    area = make_area("Main", RECTANGLE, falls=(0.0, -1.0), slope=0.02, openings=[curb])
    (cut,) = cut_outs(area)
    assert set(cut.rings[1:]) == {
        ((0, -80_000), (80_000, -80_000), (80_000, 0), (0, 0)),
        ((-80_000, 0), (0, 0), (0, 40_000), (-80_000, 40_000)),
        ((-80_000, -80_000), (0, -80_000), (0, 0), (-80_000, 0)),
    }


def test_openings_of_neighbouring_planes_are_taken_out_too() -> None:
    """What the area itself has comes first."""
    own, other = Opening("C", "curb", (9, 9), (8, 8)), Opening("D", "curb", (99, 9), (8, 8))
    area = make_area("Main", RECTANGLE, falls=(0.0, -1.0), slope=0.02, openings=[own])
    assert [cut.name for cut in cut_outs(replace(area, beside=(other,)))] == ["C", "D"]


def test_an_opening_in_a_corner_where_planes_meet_has_the_edges_of_both_behind_it() -> None:
    """In the north-east corner, where a valley begins: the strip behind the next plane's edge too."""
    curb = Opening("C", "curb", (720_000, 360_000), (80_000, 40_000))
    east = [(800_000, 0), (800_000, 400_000), (400_000, 200_000)]
    area = make_area("Main East", east, falls=(-1.0, 0.0), slope=0.02)
    (cut,) = cut_outs(replace(area, openings=(curb,), whole=tuple(RECTANGLE)))
    assert set(cut.rings[1:]) == {
        ((800_000, 360_000), (880_000, 360_000), (880_000, 400_000), (800_000, 400_000)),
        ((720_000, 400_000), (800_000, 400_000), (800_000, 480_000), (720_000, 480_000)),
        ((800_000, 400_000), (880_000, 400_000), (880_000, 480_000), (800_000, 480_000)),
    }
