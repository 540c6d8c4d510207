"""Strips at edge metal and tie-ins, covers of expansion joints, steps."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import BRIEF, FOOT, GRID, THREE_PLIES, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.details.joints import covered_sides
from lapwright.layout.details.make import make_details
from lapwright.layout.place import make_layout
from lapwright.layout.values import Detail, Lap
from lapwright.roof.values import Area

IN = 0.0254


def of_kind(area: Area, kind: str) -> list[Detail]:
    """The details of a kind."""
    return [one for one in make_details(area, TWO_PLIES, rules()).details if one.kind == kind]


def strip_laps(area: Area) -> list[Lap]:
    """The laps of strips."""
    return [lap for lap in make_details(area, TWO_PLIES, rules()).laps if lap.kind == "strip"]


def edged(*kinds: str) -> Area:
    """A flat roof of 97' by 40'."""
    return flat(rectangle(97 * FOOT, 40 * FOOT, list(kinds)))


def test_strips_are_no_longer_than_a_crew_can_handle() -> None:
    """97' in strips of up to 33' that lap 6": 33, 33, 32."""
    found = of_kind(edged("metal_edge", "ridge", "ridge", "ridge"), "strip")
    assert [one.length / 0.3048 for one in found] == pytest.approx([33, 33, 32])
    laps = strip_laps(edged("metal_edge", "ridge", "ridge", "ridge"))
    assert [(lap.id, round(lap.width / IN, 6), round(lap.length / IN, 6)) for lap in laps] == [
        ("Main/side 1/strip 2/lap", 6.0, 9.0),
        ("Main/side 1/strip 3/lap", 6.0, 9.0),
    ]


def test_a_strip_turns_each_corner_of_metal() -> None:
    """18" of strip over the corner of sides 1 and 2, 9" on either; its laps are 9" long and wide."""
    area = edged("metal_edge", "metal_edge", "ridge", "ridge")
    (corner,) = of_kind(area, "strip_corner")
    assert (corner.id, corner.form) == ("Main/corner of sides 1 and 2/corner strip", "outside")
    assert (corner.length / IN, corner.width / IN) == pytest.approx((18, 9))
    laps = [lap for lap in strip_laps(area) if corner.id in lap.pieces]
    assert [(lap.pieces[0], round(lap.width / IN, 6)) for lap in laps] == [
        ("Main/side 1/strip 3", 9.0),
        ("Main/side 2/strip 1", 9.0),
    ]


def test_three_plies_have_no_strips_at_metal() -> None:
    """Neither along the sides nor at their corners."""
    made = make_details(edged("metal_edge", "metal_edge", "ridge", "ridge"), THREE_PLIES, rules()).details
    assert {one.kind for one in made} == {"metal", "cleat", "joint_cover", "metal_corner"}


def test_a_tie_in_has_a_strip_of_the_base_under_one_of_the_cap() -> None:
    """40' in two strips of 9" and two of 12"; the cap's come from rolls of 32' 10"."""
    area = edged("ridge", "tie_in", "ridge", "ridge")
    found = of_kind(area, "tie_in")
    assert [(one.id, one.sheet) for one in found] == [
        (f"Main/side 2/tie-in {ply} strip {k}", f"{ply}-sa") for ply in ("base", "cap") for k in (1, 2)
    ]
    assert [one.width / IN for one in found] == pytest.approx([9, 9, 12, 12])
    assert [one.length / IN for one in found] == pytest.approx([396, 90, 394, 92])
    assert [lap.ply for lap in strip_laps(area)] == ["base", "cap"]


def test_an_expansion_joint_has_a_curb_on_either_side_and_one_cover() -> None:
    """Two areas of 40' and 30' width along a joint of 40': each flashes its own curb, the first has the cover."""
    west = replace(edged("ridge", "expansion", "ridge", "ridge"), name="West")
    east = flat(rectangle(30 * FOOT, 40 * FOOT, ["ridge", "ridge", "ridge", "expansion"]))
    shift = [(x + 97 * FOOT, y) for x, y in east.outline]
    ends = [*shift[1:], shift[0]]
    edges = tuple(replace(edge, start=a, end=b) for edge, a, b in zip(east.edges, shift, ends, strict=True))
    east = replace(east, name="East", outline=tuple(shift), edges=edges)
    assert covered_sides([west, east]) == {("East", 4)}
    layout = make_layout([west, east], TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    assert [one.id for one in layout.details if one.kind == "expansion_cover"] == [
        f"West/side 2/expansion cover {k}" for k in (1, 2, 3, 4)
    ]
    flashed = {(one.area, one.of) for one in layout.details if one.kind == "flashing"}
    assert flashed == {("West", "side 2"), ("East", "side 4")}


def test_an_expansion_joint_at_the_edge_of_the_job_has_its_cover() -> None:
    """40' in four lengths of 10'."""
    area = edged("ridge", "expansion", "ridge", "ridge")
    assert [one.length / 0.3048 for one in of_kind(area, "expansion_cover")] == pytest.approx([10] * 4)
    assert covered_sides([area]) == frozenset()


def test_a_step_is_flashed_as_a_wall_where_its_height_is_given() -> None:
    """With a height of 14" it is; without one it is the high side, of which nothing is counted: that is told."""
    area = edged("step", "ridge", "ridge", "ridge")
    bare = replace(area, edges=tuple(replace(edge, height=None) for edge in area.edges))
    assert [len(of_kind(one, "flashing")) > 0 for one in (area, bare)] == [True, False]
    told = [make_details(one, TWO_PLIES, rules()).warnings for one in (area, bare)]
    assert [[id for id, _ in one] for one in told] == [[], ["layout.step-Main"]]
    assert told[1][0][1].startswith("Main, side 1: a step without a height is taken for the high side")
