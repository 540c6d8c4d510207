"""What is wrong within one area: whole texts, and what is allowed."""

from __future__ import annotations

import math

import pytest
from plans import ELL, FOOT, RECTANGLE, area, drain, opening, pipe

from lapwright.roof.build import make_area, problems
from lapwright.roof.problem import Problem
from lapwright.roof.values import Drain, Opening
from lapwright.units.write import Units

WALK = "E 120', N 64', W 120', S 64'"
CORNERS_ONLY = "an outline whose sides meet only where one ends and the next starts"
IN_ORDER = "the corners in walking order, none passed twice"


@pytest.mark.parametrize(
    ("corners", "needs", "write", "read"),
    [
        ([(0, 0), (10, 0)], "an outline of at least 3 corners", WALK, "corners: 2"),
        ([(0, 0), (10, 0), (20, 0)], "an outline that encloses an area", WALK, "all corners on one line"),
        (
            [(0, 0), (10, 0), (10, 0), (5, 8)],
            "sides with a length",
            "leave side 2 out",
            'side 2 has none, at E 10\' 0" N 0"',
        ),
        (
            [(5, 5), (15, 15), (15, 5), (5, 15)],
            CORNERS_ONLY,
            IN_ORDER,
            "sides 1 and 3 cross or touch at E 5' 0\" N 5' 0\"",
        ),
        (
            [(0, 0), (10, 0), (4, 0), (4, 8)],
            CORNERS_ONLY,
            IN_ORDER,
            'sides 1 and 2 cross or touch at E 10\' 0" N 0"',
        ),
    ],
)
def test_outlines(corners: list[tuple[float, float]], needs: str, write: str, read: str) -> None:
    """Too few corners, no area, a side without a length, sides that cross, a side that runs back."""
    assert problems([area(corners)]) == (Problem("roof[0].outline", needs, write, read),)


def test_too_many_corners() -> None:
    """A circle of 5,001 corners is asked for in fewer."""
    turn = 2 * math.pi / 5_001
    outline = [(round(1e7 * math.cos(i * turn)), round(1e7 * math.sin(i * turn))) for i in range(5_001)]
    made = make_area("Main", outline, falls=(0.0, -1.0), slope=0.02)
    assert problems([made]) == (
        Problem(
            "roof[0].outline",
            "an outline of at most 5,000 corners",
            "the roof's own corners; arcs in fewer straight sides",
            "corners: 5,001",
        ),
    )


def test_opening_over_the_edge_can_be_pushed_in() -> None:
    """A curb 6' past the east side: the nearest place that would do is written; in metric for a metric job."""
    made = area(RECTANGLE, openings=[opening("RTU-1", 118, 20)])
    needs = "an opening wholly inside area Main (touching its outline is allowed)"
    assert problems([made]) == (
        Problem(
            "roof[0].openings[0]",
            needs,
            "at: E 112' 0\" N 20' 0\"",
            "RTU-1 from E 118' 0\" N 20' 0\" to E 126' 0\" N 26' 0\"",
        ),
    )
    assert problems([made], units=Units("metric")) == (
        Problem(
            "roof[0].openings[0]",
            needs,
            "at: E 34138 mm N 6096 mm",
            "RTU-1 from E 35966 mm N 6096 mm to E 38405 mm N 7925 mm",
        ),
    )


def test_opening_in_the_notch_of_an_ell() -> None:
    """Outside though inside the bounding box: no place is guessed."""
    made = area(ELL, openings=[opening("RTU-1", 60, 60)])
    assert [(each.path, each.write) for each in problems([made])] == [("roof[0].openings[0]", "another at or size")]


@pytest.mark.parametrize(("x", "y"), [(0, 0), (112, 58), (0, 58), (56, 0)])
def test_opening_may_touch_the_outline(x: float, y: float) -> None:
    """In a corner or along a side."""
    assert problems([area(RECTANGLE, openings=[opening("RTU-1", x, y)])]) == ()


def test_opening_without_a_size() -> None:
    """A width of nothing."""
    made = area(RECTANGLE, openings=[Opening("RTU-1", "curb", (0, 0), (0, FOOT))])
    assert problems([made]) == (Problem("roof[0].openings[0].size", "a size above 0", "size: E 8' x N 6'", "RTU-1"),)


def test_openings_that_overlap() -> None:
    """The later one is told; side to side is allowed."""
    made = area(RECTANGLE, openings=[opening("A", 30, 20), opening("B", 38, 20), opening("C", 45, 25)])
    assert problems([made]) == (
        Problem(
            "roof[0].openings[2]",
            "openings that do not overlap; C overlaps B (touching is allowed)",
            "another at or size",
            "C from E 45' 0\" N 25' 0\" to E 53' 0\" N 31' 0\"; B from E 38' 0\" N 20' 0\" to E 46' 0\" N 26' 0\"",
        ),
    )


def triangle(x: float, y: float) -> Opening:
    """A shaft with a right angle of 10' by 10' at its south-west corner."""
    ring = ((0, 0), (10 * FOOT, 0), (0, 10 * FOOT))
    return Opening("T", "shaft", (round(x * FOOT), round(y * FOOT)), (10 * FOOT, 10 * FOOT), ring=ring)


def test_openings_of_any_shape_overlap_by_their_own_corners() -> None:
    """A curb in the empty half of the rectangle round a triangle is clear of it, one over its slant is not."""
    assert problems([area(RECTANGLE, openings=[triangle(30, 20), opening("A", 36, 25, 3, 3)])]) == ()
    found = problems([area(RECTANGLE, openings=[triangle(30, 20), opening("A", 34, 25, 3, 3)])])
    assert [each.needs for each in found] == ["openings that do not overlap; A overlaps T (touching is allowed)"]


def test_an_opening_of_another_shape_stands_clear_of_the_outline() -> None:
    """What lies behind an opening at an edge is known for upright rectangles alone."""
    assert problems([area(RECTANGLE, openings=[triangle(1, 1)])]) == ()
    assert problems([area(RECTANGLE, openings=[triangle(0, 1)])]) == (
        Problem(
            "roof[0].openings[0]",
            "an opening wholly inside area Main; only an upright rectangle may touch its outline",
            "another place for it",
            'T from E 0" N 1\' 0" to E 10\' 0" N 11\' 0"',
        ),
    )


@pytest.mark.parametrize(
    ("x", "y", "found"),
    [
        (60, 40, None),
        (2 / 12, 40, None),  # a 4" pipe against the side
        (1.9 / 12, 40, "a pipe wholly inside area Main"),
        (-5, 40, "a pipe wholly inside area Main"),
        (34, 22, "a pipe clear of opening RTU-1"),
        (30 - 1 / 12, 22, "a pipe clear of opening RTU-1"),
        (30 - 2 / 12, 22, None),
    ],
)
def test_pipes(x: float, y: float, found: str | None) -> None:
    """On the field, touching at most: an edge, or the curb from E 30' to E 38'."""
    made = area(RECTANGLE, openings=[opening("RTU-1", 30, 20)], pipes=[pipe("V-1", x, y)])
    assert [(each.path, each.needs) for each in problems([made])] == ([("roof[0].pipes[0]", found)] if found else [])


def test_words_of_a_pipe_outside() -> None:
    """Its size and place."""
    assert problems([area(RECTANGLE, pipes=[pipe("V-1", 70, 90)])]) == (
        Problem(
            "roof[0].pipes[0]",
            "a pipe wholly inside area Main",
            "another at",
            'V-1, 4" across, at E 70\' 0" N 90\' 0"',
        ),
    )


def test_drains_in_the_field() -> None:
    """A drain off the roof, one with its bowl over the edge, one in a shaft, a good one."""
    made = area(
        RECTANGLE,
        openings=[opening("S-1", 30, 20)],
        drains=[drain("D-1", 130, 2), drain("D-2", 60, 0.2, diameter=0.3), drain("D-3", 34, 22), drain("D-4", 60, 2)],
    )
    assert [(each.path, each.needs) for each in problems([made])] == [
        ("roof[0].drains[0]", "a drain wholly inside area Main"),
        ("roof[0].drains[1]", "a drain wholly inside area Main"),
        ("roof[0].drains[2]", "a drain clear of opening S-1"),
    ]


def test_a_side_that_is_not_there() -> None:
    """Four sides, and a gutter on a fifth."""
    made = area(RECTANGLE, drains=[Drain("G-1", "gutter", side=5)])
    assert problems([made]) == (
        Problem("roof[0].drains[0].side", "a side of area Main, 1 to 4", "side: 1", "G-1, side 5"),
    )


@pytest.mark.parametrize(
    ("feet", "problem"),
    [
        (32.0, None),
        (0.5, None),
        (63.5, None),
        (
            0.25,
            Problem(
                "roof[0].drains[0].from_start",
                "a scupper wholly on side 2: its middle 6\" to 63' 6\" from the side's start",
                'from_start: 6"',
                'S-1, 1\' 0" wide, its middle 3" from the start',
            ),
        ),
        (
            64.0,
            Problem(
                "roof[0].drains[0].from_start",
                "a scupper wholly on side 2: its middle 6\" to 63' 6\" from the side's start",
                "from_start: 63' 6\"",
                "S-1, 1' 0\" wide, its middle 64' 0\" from the start",
            ),
        ),
    ],
)
def test_scuppers(feet: float, problem: Problem | None) -> None:
    """A scupper of 12" on a side of 64': its middle may stand from 6" to 63' 6"."""
    scupper = Drain("S-1", "scupper", side=2, from_start=feet * 0.3048, width=0.3048)
    assert problems([area(RECTANGLE, drains=[scupper])]) == ((problem,) if problem else ())


def test_a_scupper_wider_than_its_side() -> None:
    """An overflow scupper of 3' on a side of 2'."""
    made = area(
        [(0, 0), (20, 0), (20, 2), (0, 2)],
        drains=[Drain("O-1", "overflow_scupper", side=2, from_start=0.3048, width=0.9144)],
    )
    assert problems([made]) == (
        Problem(
            "roof[0].drains[0].from_start",
            "an overflow scupper no wider than side 2, 2' 0\" long",
            "another side or width",
            "O-1, 3' 0\" wide, its middle 1' 0\" from the start",
        ),
    )


def test_a_scupper_without_a_place_is_left_for_the_checks() -> None:
    """What is missing is unknown, not wrong."""
    assert problems([area(RECTANGLE, drains=[Drain("S-1", "scupper", side=2, width=0.3)])]) == ()
