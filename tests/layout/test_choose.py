"""The way that is taken: a pattern where it costs nearly the same, and joints that stay when a curb moves."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import BRIEF, FOOT, GRID, TWO_PLIES, rectangle, rules

from lapwright.layout.choose import choose_joints, has_place
from lapwright.layout.cost import AIMS, Costs
from lapwright.layout.courses import Conflict
from lapwright.layout.ground import make_area_ground
from lapwright.layout.place import make_layout
from lapwright.layout.setting import Setting, nothing_before
from lapwright.layout.values import Layout
from lapwright.layout.ways import cheapest_way, polished
from lapwright.roof.values import Area, Opening

ROOF = rectangle(100 * FOOT, 40 * FOOT, ["parapet"] * 4)


def curb(east: int, north: int, wide: int, deep: int) -> Opening:
    """A curb with its south-west corner and size in feet."""
    return Opening("C-1", "curb", (east * FOOT, north * FOOT), (wide * FOOT, deep * FOOT), 0.3)


def laid(area: Area) -> Layout:
    """The layout of a roof with two plies."""
    return make_layout([area], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)


def lengths(layout: Layout, course: int) -> list[int]:
    """Cut lengths of a course of the cap."""
    cap = next(ply for ply in layout.plies if ply.ply == "cap")
    return [piece.cut_length for piece in cap.pieces if piece.course == course]


def test_courses_of_a_plain_roof_come_again() -> None:
    """On a rectangle a course has the lengths of the second or third one below it, but for the first few."""
    layout = laid(ROOF)
    count = max(piece.course for piece in layout.pieces if piece.ply == "cap")
    every = [step for step in (2, 3) if all(lengths(layout, k) == lengths(layout, k - step) for k in range(6, count))]
    assert every


def ids_by_course(layout: Layout) -> dict[tuple[str, int], set[str]]:
    """Ids of pieces, and of end laps, by ply and course."""
    found: dict[tuple[str, int], set[str]] = {}
    for piece in layout.pieces:
        found.setdefault((piece.ply, piece.course), set()).add(piece.id)
    for lap in layout.laps:
        if lap.kind == "end":
            ply, course = lap.id.split("/")[1:3]
            found.setdefault((ply, int(course)), set()).add(lap.id)
    return found


def test_a_search_that_is_remembered_gives_what_a_fresh_one_gives() -> None:
    """Each aim laid out first, with nothing remembered, and after the others; prices of another job are searched anew.

    By definition of the search, which draws the same chances every time.
    """
    roof = rectangle(60 * FOOT, 20 * FOOT, ["parapet"] * 4)

    def under(aim: str, costs: Costs | None = None) -> Layout:
        return make_layout([roof], TWO_PLIES, rules(), grid=GRID, patience=BRIEF, aim=aim, costs=costs)

    def forget() -> None:
        cheapest_way.cache_clear()
        polished.cache_clear()

    dear = Costs(labour=6_000.0)
    fresh = []
    for aim, costs in [*((aim, None) for aim in AIMS), ("least_cost", dear)]:
        forget()
        fresh.append(under(aim, costs))
    forget()
    after = [*(under(aim) for aim in AIMS), under("least_cost", dear)]
    assert polished.cache_info().hits > 0
    assert after == fresh
    assert fresh[0].cost != fresh[3].cost


def test_a_moved_curb_changes_only_ids_of_the_courses_it_touches() -> None:
    """A curb 5' by 6' moved 9' along the courses: where its sheets do not lie, pieces and end laps keep their ids."""
    here = laid(replace(ROOF, openings=(curb(30, 18, 5, 6),)))
    there = laid(replace(ROOF, openings=(curb(39, 18, 5, 6),)))
    one, other = ids_by_course(here), ids_by_course(there)
    low, high = 17 * FOOT, 25 * FOOT
    touched = {
        (ply.ply, course.index)
        for ply in here.plies
        for course in ply.courses
        if course.high > low and course.low < high
    }
    assert {key: ids for key, ids in one.items() if key not in touched} == {
        key: ids for key, ids in other.items() if key not in touched
    }
    assert set(one) == set(other)


@pytest.mark.parametrize(("shortest", "has_one"), [("5'", True), ("8'", True), ("10'", False)])
def test_whether_there_is_a_place_is_told_without_choosing(shortest: str, has_one: bool) -> None:
    """290" from pieces of 24' takes two pieces of 10' at least only with a joint from 114" to 170", 56" in all.

    The base's first two courses and the cap's first keep 3' from one another, which takes 72"; from 5' or 8' on there
    are 176" and 104".
    """
    given = rules(shortest_piece=shortest, longest_piece="24'")
    ground = make_area_ground(rectangle(290 * FOOT // 12, 10 * FOOT, ["ridge"] * 4), TWO_PLIES, given, grid=GRID)
    sheets = {ply.sheet.name: ply.sheet.length_ticks for ply in TWO_PLIES.plies}
    none = tuple({} for _ in sheets)
    setting = Setting(given, Costs(), "least_cost", sheets, none, none, 0.01)
    before = nothing_before(len(sheets))
    assert has_place(ground.plies, setting, before) == has_one
    if not has_one:
        with pytest.raises(Conflict):
            choose_joints(ground.bare, ground.plies, setting, before)
