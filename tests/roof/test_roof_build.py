"""Areas from what was typed, and the order in which what is wrong with them is told."""

from __future__ import annotations

from plans import ELL, FOOT, RECTANGLE, SOUTH, area, drain, edges, opening, pipe

from lapwright.roof.build import EdgeRow, edge_problems, make_area, problems
from lapwright.roof.problem import Problem
from lapwright.roof.values import Area, Drain, Edge, Metal


def test_sides_get_their_kinds() -> None:
    """Sides are numbered in walking order; a side without a row has no kind."""
    metal = Metal("galvanised", 24, 0.127, 0.1016)
    made = area(RECTANGLE, edges=[EdgeRow((1,), "metal_edge", None, metal), EdgeRow((2, 4), "parapet", 0.762)])
    assert [(edge.side, edge.kind, edge.height, edge.metal) for edge in made.edges] == [
        (1, "metal_edge", None, metal),
        (2, "parapet", 0.762, None),
        (3, None, None, None),
        (4, "parapet", 0.762, None),
    ]
    assert made.edges[1] == Edge(2, "parapet", (120 * FOOT, 0), (120 * FOOT, 64 * FOOT), 0.762)


def test_a_repeated_last_corner_is_dropped() -> None:
    """A list of points may come back to the first one."""
    assert area([*RECTANGLE, (0, 0)]) == area(RECTANGLE)
    assert len(area(RECTANGLE).edges) == 4


def test_positions_count_from_the_first_corner() -> None:
    """An area placed 200' east carries its openings, pipes and drains along; a drain on a side stays on it."""
    placed = area(
        [(x + 200, y) for x, y in RECTANGLE],
        openings=[opening("RTU-1", 30, 20)],
        pipes=[pipe("V-1", 70, 40)],
        drains=[drain("D-1", 60, 2), Drain("G-1", "gutter", side=1)],
    )
    assert placed.openings[0].corner == (230 * FOOT, 20 * FOOT)
    assert placed.pipes[0].at == (270 * FOOT, 40 * FOOT)
    assert [each.at for each in placed.drains] == [(260 * FOOT, 2 * FOOT), None]


def test_nothing_typed_is_an_area_without_corners() -> None:
    """An empty outline makes an area that has a problem, not an exception."""
    empty = make_area("Main", [], falls=SOUTH, slope=0.02)
    assert problems([empty]) == (
        Problem("roof[0].outline", "an outline of at least 3 corners", "E 120', N 64', W 120', S 64'", "corners: 0"),
    )


def test_rows_of_edges_that_name_a_side_wrongly() -> None:
    """A side that is not there, and one named in two rows."""
    rows = [EdgeRow((1, 2), "parapet"), EdgeRow((2, 5), "wall"), EdgeRow((3, 3, 4), "ridge")]
    assert list(edge_problems(rows, 4, "roof[0].edges")) == [
        Problem(
            "roof[0].edges[1].sides",
            "each side in one row only; side 2 is in edges[0] too",
            "the sides that no other row names",
            "side 2",
        ),
        Problem("roof[0].edges[1].sides", "sides from 1 to 4", "sides: 1-4", "side 5"),
    ]


def test_a_sound_roof_has_no_problems() -> None:
    """Two areas side by side, one edge between them, with everything in its place."""
    main = area(
        ELL,
        edges=edges(s1="metal_edge", s2="ridge"),
        openings=[opening("RTU-1", 30, 20), opening("RTU-2", 38, 20)],
        pipes=[pipe("V-1", 70, 10)],
        drains=[drain("D-1", 60, 2), Drain("S-1", "scupper", side=1, from_start=3.0, width=0.3)],
    )
    wing = area([(100, 0), (150, 0), (150, 40), (100, 40)], "Wing", edges=edges(s4="ridge"))
    assert problems([main, wing]) == ()


def test_all_problems_at_once_area_by_area() -> None:
    """Within each area in the order of the job file, then between areas; no farther into a crossing outline."""
    crossing: Area = area([(0, 0), (10, 10), (10, 0), (0, 10)], "Twist", openings=[opening("RTU-9", 500, 500)])
    main = area(
        RECTANGLE, openings=[opening("RTU-1", 118, 20)], pipes=[pipe("V-1", 130, 4)], drains=[drain("D", -1, 0)]
    )
    wing = area([(100, 0), (150, 0), (150, 40), (100, 40)], "Wing", drains=[Drain("G", "gutter", side=5)])
    assert [each.path for each in problems([crossing, main, wing])] == [
        "roof[0].outline",
        "roof[1].openings[0]",
        "roof[1].pipes[0]",
        "roof[1].drains[0]",
        "roof[2].drains[0].side",
        "roof[2].outline",
    ]
