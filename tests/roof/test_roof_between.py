"""Areas that overlap, touch, and share an edge."""

from __future__ import annotations

import math

import pytest
from plans import FOOT, RECTANGLE, area, edges

from lapwright.roof.between import SharedEdge, shared_edges
from lapwright.roof.build import make_area, problems
from lapwright.roof.problem import Problem

WING = [(120, 0), (160, 0), (160, 40), (120, 40)]


def test_areas_that_overlap() -> None:
    """By a foot, and by the width of a pencil line: one is told, naming both."""
    pushed = [(x - 1, y) for x, y in WING]
    assert problems([area(RECTANGLE), area(pushed, "Wing")]) == (
        Problem(
            "roof[1].outline",
            "areas that do not overlap; Wing overlaps Main (touching is allowed)",
            "a start or outline that keeps Wing off Main",
            "Wing",
        ),
    )
    hair = [(x - 1 / 96, y) for x, y in WING]
    assert [each.path for each in problems([area(RECTANGLE), area(hair, "Wing")])] == ["roof[1].outline"]


def test_one_area_inside_another() -> None:
    """No side crosses any, and yet they overlap."""
    assert [each.path for each in problems([area(RECTANGLE), area([(10, 10), (20, 10), (20, 20)], "B")])] == [
        "roof[1].outline"
    ]


@pytest.mark.parametrize("wing", [WING, [(120, 64), (160, 64), (160, 90)], [(200, 0), (210, 0), (210, 9)]])
def test_areas_that_touch_or_stand_apart(wing: list[tuple[float, float]]) -> None:
    """Along a side, at a corner, not at all."""
    assert problems([area(RECTANGLE), area(wing, "Wing")]) == ()


def test_rounding_is_no_overlap() -> None:
    """A skewed side shared with two short sides of a neighbour, whose middle corner falls between ticks."""
    far = (round(100 * FOOT * math.cos(0.3)), round(100 * FOOT * math.sin(0.3)))
    middle = (round(far[0] / 3), round(far[1] / 3))
    one = make_area("A", [(0, 0), far, (0, far[1])], falls=(1.0, 0.0), slope=0.02)
    two = make_area("B", [(0, 0), (far[0], 0), far, middle], falls=(1.0, 0.0), slope=0.02)
    assert problems([one, two]) == ()
    assert [(each.side, each.other_side) for each in shared_edges([one, two])] == [(1, 3), (1, 4)]


def test_shared_edge_by_hand() -> None:
    """Side 2 of the main roof, 64' long, and side 4 of the wing share 40'."""
    assert shared_edges([area(RECTANGLE), area(WING, "Wing")]) == (SharedEdge(0, 2, 1, 4, pytest.approx(40 * 0.3048)),)


def test_one_edge_of_two_kinds() -> None:
    """A parapet on one side and a ridge on the other can't be the same edge."""
    main = area(RECTANGLE, edges=edges(s2="ridge"))
    wing = area(WING, "Wing", edges=edges(s4="parapet"))
    assert problems([main, wing]) == (
        Problem(
            "roof[1].edges",
            "one kind for both, since they are one edge along 40'; where only part of a side is shared, a corner at "
            "that part's end",
            "{sides: 4, kind: ridge}",
            "side 4 of Wing is parapet, side 2 of Main is ridge",
        ),
    )


@pytest.mark.parametrize("kinds", [({}, {}), ({"s2": "ridge"}, {}), ({"s2": "step"}, {"s4": "step", "s1": "wall"})])
def test_kinds_that_agree(kinds: tuple[dict[str, str], dict[str, str]]) -> None:
    """None given, one given, both the same."""
    assert problems([area(RECTANGLE, edges=edges(**kinds[0])), area(WING, "Wing", edges=edges(**kinds[1]))]) == ()
