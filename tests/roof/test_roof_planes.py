"""Areas given as planes: lines between them, what lies in which, what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planefaults import plane_problems
from lapwright.roof.planes import PlaneRow, line_kind, settled, split_area
from lapwright.roof.values import Area, Drain, Opening, Pipe
from lapwright.units.write import Units

FOOT = 24_384
RECTANGLE = [(0, 0), (60 * FOOT, 0), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT)]
SOUTH = PlaneRow("South", ((0, 0), (60 * FOOT, 0), (60 * FOOT, 20 * FOOT), (0, 20 * FOOT)), (0.0, 1.0), 1 / 48)
NORTH = PlaneRow(
    "North", ((0, 20 * FOOT), (60 * FOOT, 20 * FOOT), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT)), (0.0, -1.0), 1 / 48
)
EDGES = [EdgeRow((1, 3), "parapet", 0.3), EdgeRow((2, 4), "metal_edge")]


def main(**things: object) -> Area:
    """60' by 40' with parapets to the south and north, metal to the east and west."""
    return make_area("Main", RECTANGLE, falls=(0.0, 1.0), slope=1 / 48, edges=EDGES, **things)


def kinds(area: Area) -> list[tuple[str | None, str]]:
    """Kind and neighbour of each side."""
    return [(edge.kind, edge.meets) for edge in area.edges]


def test_water_to_the_line_from_both_makes_a_valley() -> None:
    """Two planes fall to the line in the middle; outer sides keep what is done there."""
    south, north = split_area(main(), [SOUTH, NORTH])
    assert (south.name, north.name) == ("Main South", "Main North")
    assert kinds(south) == [("parapet", ""), ("metal_edge", ""), ("valley", "Main North"), ("metal_edge", "")]
    assert kinds(north) == [("valley", "Main South"), ("metal_edge", ""), ("parapet", ""), ("metal_edge", "")]
    assert (north.falls, north.edges[2].height) == ((0.0, -1.0), 0.3)


def test_water_away_from_the_line_makes_a_ridge() -> None:
    """The same planes falling outwards."""
    rows = [replace(SOUTH, falls=(0.0, -1.0)), replace(NORTH, falls=(0.0, 1.0))]
    south, north = split_area(main(), rows)
    assert kinds(south)[2] == ("ridge", "Main North")
    assert kinds(north)[0] == ("ridge", "Main South")
    assert not any(edge.is_over for edge in (*south.edges, *north.edges))


def test_water_across_the_line_makes_a_step_and_the_lower_plane_comes_first() -> None:
    """South falls onto North, which falls on at 1/2 in 12: South's plies run over North's, so North is laid first."""
    north, south = split_area(main(), [SOUTH, replace(NORTH, falls=(0.0, 1.0), slope=1 / 24)])
    assert (north.name, south.name) == ("Main North", "Main South")
    assert (south.edges[2].kind, south.edges[2].is_over) == ("step", True)
    assert (north.edges[0].kind, north.edges[0].is_over) == ("step", False)


@pytest.mark.parametrize(
    ("here", "there", "kind"),
    [(1.0, 1.0, "valley"), (0.7, 0.0, "valley"), (0.7, -0.7, "step"), (-1.0, -1.0, "ridge"), (-1.0, 0.0, "ridge")],
)
def test_what_a_line_is(here: float, there: float, kind: str) -> None:
    """To the line, along it, away from it."""
    assert line_kind(here, there) == line_kind(there, here) == kind


def test_a_corner_of_one_plane_on_the_side_of_another_splits_it() -> None:
    """South is two planes, so North's line has two parts, one for each."""
    west = PlaneRow("West", ((0, 0), (25 * FOOT, 0), (25 * FOOT, 20 * FOOT), (0, 20 * FOOT)), (0.0, 1.0), 1 / 48)
    east = PlaneRow(
        "East", ((25 * FOOT, 0), (60 * FOOT, 0), (60 * FOOT, 20 * FOOT), (25 * FOOT, 20 * FOOT)), (0.0, 1.0), 1 / 48
    )
    planes = {plane.name: plane for plane in split_area(main(), [west, east, NORTH])}
    assert kinds(planes["Main North"])[:2] == [("valley", "Main West"), ("valley", "Main East")]
    assert kinds(planes["Main West"])[1] == ("ridge", "Main East")


def test_what_stands_in_a_plane_goes_with_it() -> None:
    """A curb across the line is the plane's that has most of it and is cut out of the other; so with drains."""
    curb = Opening("C", "curb", (10 * FOOT, 18 * FOOT), (4 * FOOT, 6 * FOOT))
    area = main(
        openings=[curb],
        pipes=[Pipe("P", (9 * FOOT, 9 * FOOT), 9_000)],
        drains=[Drain("D", "drain", at=(30 * FOOT, 20 * FOOT), diameter=0.1)],
    )
    south, north = split_area(area, [SOUTH, NORTH])
    assert ([one.name for one in north.openings], [one.name for one in south.beside]) == (["C"], ["C"])
    assert (south.openings, north.beside) == ((), ())
    assert ([one.name for one in south.pipes], north.pipes) == (["P"], ())
    assert ([one.name for one in south.drains], [one.name for one in north.near]) == (["D"], ["D"])


def test_scuppers_and_gutters_find_their_plane() -> None:
    """Side 2 runs north: a scupper 29' along it is 9' along North's; a gutter of four outlets is cut in two halves."""
    scupper = Drain("S", "scupper", side=2, from_start=29 * 0.3048, width=0.3, height=0.1)
    gutter = Drain("G", "gutter", side=4, width=0.15, outlets=4)
    south, north = split_area(main(drains=[scupper, gutter]), [SOUTH, NORTH])
    assert [(one.name, one.side, one.outlets) for one in south.drains] == [("G", 4, 2)]
    found = {one.name: one for one in north.drains}
    assert (found["S"].side, found["S"].from_start) == (2, pytest.approx(9 * 0.3048, abs=1e-9))
    assert (found["G"].side, found["G"].outlets) == (4, 2)


def told(*rows: PlaneRow) -> list[tuple[str, str, str]]:
    """What is not right: path, needs, read."""
    return [(one.path, one.needs, one.read) for one in plane_problems(main(), rows, "roof[0].planes", Units())]


def test_planes_that_fill_the_area_have_no_problem() -> None:
    """Also where they are off by a tick."""
    off = replace(NORTH, outline=tuple((x, y + 1 if y == 20 * FOOT else y) for x, y in NORTH.outline))
    assert told(SOUTH, NORTH) == told(SOUTH, off) == []
    assert len(split_area(main(), [SOUTH, off])[1].edges) == 4


def test_planes_that_lie_on_one_another_beyond_or_leave_a_gap() -> None:
    """Each is told in words."""
    low = replace(NORTH, outline=((0, 19 * FOOT), (60 * FOOT, 19 * FOOT), *NORTH.outline[2:]))
    assert told(SOUTH, low) == [
        (
            "roof[0].planes[1].outline",
            "planes that do not overlap; North overlaps South (touching is needed)",
            "North",
        )
    ]
    wide = replace(NORTH, outline=((0, 20 * FOOT), (61 * FOOT, 20 * FOOT), *NORTH.outline[2:]))
    assert told(SOUTH, wide) == [
        (
            "roof[0].planes[1].outline",
            "a plane wholly inside area Main; 10 sf of it lie outside, at E 60' 3\" N 30' 0\" among them",
            "North reaches beyond it",
        )
    ]
    high = replace(NORTH, outline=((0, 21 * FOOT), (60 * FOOT, 21 * FOOT), *NORTH.outline[2:]))
    assert told(SOUTH, high) == [
        (
            "roof[0].planes",
            "planes that fill area Main; 60 sf of it are in none, at E 30' 0\" N 20' 6\" among them",
            "planes: 2",
        )
    ]


def test_planes_are_laid_on_the_corners_that_they_mean() -> None:
    """Two walks that miss by 10 ticks each end 20 apart: corners and a place on a side come onto the area's, and the
    second plane onto the first; a corner farther off stays as it was typed.
    """
    off = PlaneRow(
        "South", ((0, 0), (60 * FOOT + 19, 0), (60 * FOOT + 12, 20 * FOOT), (-5, 20 * FOOT)), (0.0, 1.0), 0.02
    )
    other = PlaneRow(
        "North",
        ((0, 20 * FOOT + 8), (60 * FOOT, 20 * FOOT - 9), (60 * FOOT - 40, 40 * FOOT), (0, 40 * FOOT)),
        (0.0, -1.0),
        0.02,
    )
    south, north = settled(RECTANGLE, [off, other], [20, 20])
    assert south.outline == ((0, 0), (60 * FOOT, 0), (60 * FOOT, 20 * FOOT), (0, 20 * FOOT))
    assert north.outline[:2] == ((0, 20 * FOOT), (60 * FOOT, 20 * FOOT))
    # its third corner is 40 off the area's corner: its foot on the side beside it is 0 away, so it stays there
    assert north.outline[2:] == ((60 * FOOT - 40, 40 * FOOT), (0, 40 * FOOT))
    assert settled(RECTANGLE, [off], [0]) == [off]
