"""Which part of a blank a piece is, which holes are inside a sheet, what follows what along a line; by hand [m]."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import pytest
from shapely import Point, Polygon, box

from lapwright.rulecheck.faces import Face
from lapwright.rulecheck.feet import _outside
from lapwright.rulecheck.ground import Hole
from lapwright.rulecheck.laplist import LapBook
from lapwright.rulecheck.lie import PlyLie
from lapwright.rulecheck.patches import _crossing
from lapwright.rulecheck.planelaps import Meeting, _found, changes_along
from lapwright.rulecheck.wide import likeliest, wide_parts

LOW, HIGH = box(0, 0, 2, 1), box(0, 3, 3, 4)


def test_of_two_parts_a_piece_is_the_one_that_no_other_piece_is() -> None:
    """Another piece of the course is the upper part and more; with nobody there the order stays."""
    assert likeliest([HIGH, LOW], [], [box(0, 3, 9, 4)]) == (LOW, HIGH)
    assert likeliest([HIGH, LOW], [], []) == (HIGH, LOW)


def test_a_listed_end_lap_tells_before_the_others_do() -> None:
    """A piece that it is listed to meet lies on the upper part; a third one is most of that part."""
    assert likeliest([LOW, HIGH], [box(2.9, 3, 5, 4)], [box(0, 3, 2, 4)]) == (HIGH, LOW)


def test_a_slit_parts_what_lies_on_either_side_of_it() -> None:
    """1 m by 1 m less a slit 0.01 m deep at 0.5 m: all but the topmost 0.1 m of each half, though a chord is longer."""
    shape = box(0, 0, 1, 1).difference(box(-1, 0.5, 2, 0.51))
    found = wide_parts(shape, 0.1, 0.001)
    assert sorted(part.bounds for part in found) == [
        pytest.approx((0.0, 0.0, 1.0, 0.4)),
        pytest.approx((0.0, 0.51, 1.0, 0.9)),
    ]


def test_no_wide_part_of_a_shape_that_is_as_deep_as_the_lap() -> None:
    """A strip 0.1 m deep and one a hair deeper."""
    assert wide_parts(box(0, 0, 1, 0.1), 0.1, 0.001) == ()
    assert len(wide_parts(box(0, 0, 1, 0.11), 0.1, 0.001)) == 1


def diamond(low: float) -> Hole:
    """A square on its corner, 0.4 m high: what lies straight below it or above it reaches to its middle."""
    corners = [(1.0, low), (1.2, low + 0.2), (1.0, low + 0.4), (0.8, low + 0.2)]
    return Hole("O", Polygon(corners), (0.8, low, 1.2, low + 0.4), (0.8, 1.0, 1.0, 1.2), low + 0.2, low + 0.2)


@pytest.mark.parametrize(
    ("low", "is_needed", "may_hold"),
    [(0.3, True, True), (0.07, False, True), (0.53, False, True), (0.09, True, True), (-0.01, False, False)],
)
def test_a_corner_within_the_side_lap_is_cut_free(low: float, is_needed: bool, may_hold: bool) -> None:
    """In a sheet of 1 m with laps of 0.08 m: it needs an end lap where both its corners are farther from its sides."""
    hole = diamond(low)
    assert hole.is_within(0.0, 1.0, (0.08, 0.08), 1e-4, surely=True) is is_needed
    assert hole.is_within(0.0, 1.0, (0.08, 0.08), -1e-4, surely=False) is may_hold


def test_without_a_course_beside_it_no_corner_is_cut_free() -> None:
    """The first course of a ply has nothing under a cut to its low side."""
    assert diamond(0.07).is_within(0.0, 1.0, (0.0, 0.08), 1e-4, surely=True)


def test_pieces_change_on_either_side_of_a_stretch_that_grazes() -> None:
    """Under one piece follow a, b over 0.2 mm, and c: without b they are a and c, whose lap is listed."""
    a, b, c = Meeting(0.0, 1.0, "a", "o"), Meeting(1.0, 1.0002, "b", "o"), Meeting(1.0002, 2.0, "c", "o")
    laps = {frozenset("ab"): "ab", frozenset("bc"): "bc", frozenset("ac"): "ac"}
    assert [lap for *_, lap in changes_along([a, b, c], laps, 0.01)] == ["ab", "bc"]
    assert [lap for *_, lap in changes_along([a, c], laps, 0.01)] == ["ac"]
    assert list(changes_along([a, c], laps, 1e-4)) == []


def face(of: str, *ends: tuple[float, float]) -> Face:
    """A face between two places."""
    return Face(of, "curb", ends[0], ends[1], 1.0, 0.3, ())


def test_a_sharp_corner_is_where_the_lines_cross() -> None:
    """A wall that rises 1 in 8 and a level face meet at (10, 0); roof a hair wide ends 8 mm short of it."""
    wall, curb = face("side 1", (2.0, -1.0), (10.0, 0.0)), face("O-1 S", (9.0, 0.0), (10.0, 0.0))
    assert _crossing(wall, curb, (9.992, -0.001)) == pytest.approx((10.0, 0.0))
    assert _crossing(wall, curb, (9.9, -0.0125)) == (9.9, -0.0125)


def test_roof_lies_outside_of_an_opening_and_on_either_side_of_a_wall() -> None:
    """Faces go round an opening to the left, so the roof is to their right: -1."""
    assert _outside(face("O-1 S", (0.0, 0.0), (1.0, 0.0))) == (-1.0,)
    assert _outside(face("side 1", (0.0, 0.0), (1.0, 0.0))) == (1.0, -1.0)


def test_an_end_lap_does_not_come_down_to_a_scrap_of_a_blank() -> None:
    """An opening parts a scrap at the low left corner from a piece: nothing of it lies where the scrap would be."""
    under, piece, scrap = box(0, 0, 2, 1), box(1.5, 0.4, 4, 1), box(1.5, 0, 2, 0.2)
    book = LapBook.__new__(LapBook)
    book.lie = SimpleNamespace(
        limits=SimpleNamespace(close=1e-4),
        own={"1": under, "2": piece},
        wide={"1": (box(0, 0, 2, 0.9),), "2": (box(1.5, 0.4, 4, 0.9), box(1.5, 0, 2, 0.1))},
    )
    lap = SimpleNamespace(ids=("1", "2"))
    assert not book._reaches(lap, "low", Point(1.5, 0))
    assert book._reaches(lap, "low", Point(1.5, 0.4))
    book.lie.own["2"] = piece.union(scrap)  # neither part goes from end to end, so the piece is both
    assert book._reaches(lap, "low", Point(1.5, 0))


def test_what_alone_goes_from_end_to_end_of_a_blank_is_the_piece() -> None:
    """A strip 0.08 m deep, under a side lap of 0.1 m, all along a blank; a broad part ends half-way, or does not."""
    strip = box(0, 0, 3, 0.08)
    for end, is_strip in ((1.5, True), (3.0, False)):
        broad = box(0, 0.4, end, 1)
        lie: Any = PlyLie.__new__(PlyLie)
        lie.limits, lie.listed = SimpleNamespace(gap=1e-3), frozenset()
        lie.ply = SimpleNamespace(sheet=SimpleNamespace(side_lap_ticks=8000))
        lie.lying = (SimpleNamespace(id="1", u0=0.0, u1=3.0, given=SimpleNamespace(course=1)),)
        lie.parts = {"1": (broad, strip)}
        assert lie.main["1"].equals(strip if is_strip else broad)


def test_a_t_joint_belongs_to_the_line_whose_lap_it_names() -> None:
    """A side lap ends at two ridges 15 mm apart, in a lap over either."""
    joints: Any = [SimpleNamespace(id=id, at=at, laps=("side", id)) for id, at in (("1", (0, 0)), ("2", (0.015, 0)))]
    assert _found(joints, "side", {"2", "3"}, (0.0, 0.0), 0.02) is joints[1]
    assert _found(joints, "side", {"3"}, (0.0, 0.0), 0.02) is None
