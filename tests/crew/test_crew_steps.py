"""The order of the work."""

from __future__ import annotations

from dataclasses import replace

import pytest
from crew_jobs import PLAIN, THREE, TWO, flashing, make_roof, make_small, metal, rake_metal, side_lap, strip

from lapwright.crew.steps import Step, make_steps
from lapwright.layout.values import Layout


def steps_of(layout: Layout, **rates: float) -> tuple[Step, ...]:
    """Steps of the roof of 20 m by 2.3 m."""
    assembly = THREE if len(layout.plies) == 3 else TWO
    return make_steps(layout, [make_roof()], assembly, {**PLAIN, **rates})


def ids(steps: tuple[Step, ...]) -> list[str]:
    """What is put down, in order, without the area's name."""
    return [step.work.id.removeprefix("Main/") for step in steps]


def test_each_cap_piece_comes_when_its_base_is_down() -> None:
    """The cap's first course (0-1 m) needs two base courses, its second (0.9-1.9 m) the third."""
    assert ids(steps_of(make_small())) == ["base/01/1", "base/02/1", "cap/01/1", "base/03/1", "cap/02/1", "cap/03/1"]


def test_three_plies_go_from_the_bottom() -> None:
    """The interply lies over the base as the base lies (0-0.5, 0.4-1.4, 1.3-2.3 m): a base course goes ahead of it."""
    order = ids(steps_of(make_small(plies=3)))
    assert order == [
        *("base/01/1", "base/02/1", "base/03/1", "interply/01/1", "interply/02/1", "cap/01/1"),
        *("interply/03/1", "cap/02/1", "cap/03/1"),
    ]


def test_metal_lies_between_base_and_cap() -> None:
    """Strip and metal of the low edge go on the base, before the first cap piece, each set before its own piece."""
    layout = make_small(joints=(0, 10, 20), details=(strip(1, 0, 20), metal(1, 0, 10), metal(2, 11, 20)))
    assert ids(steps_of(layout))[:8] == [
        *("base/01/1", "base/01/2", "base/02/1", "side 1/strip 1", "side 1/metal 1", "cap/01/1"),
        *("base/02/2", "side 1/metal 2"),
    ]


def test_metal_up_the_fall_has_a_base_under_all_of_it() -> None:
    """Metal on the left side from 0 to 2 m needs all three base courses before the first cap piece covers it."""
    order = ids(steps_of(make_small(details=(rake_metal(1, 0.0, 2.0),))))
    assert order[:5] == ["base/01/1", "base/02/1", "base/03/1", "side 4/metal 1", "cap/01/1"]


def test_flashings_follow_the_last_cap_piece_they_touch() -> None:
    """Flashings of the high edge come after the third course."""
    order = ids(steps_of(make_small(details=(flashing(1, 0, 10), flashing(2, 10, 20)))))
    assert order[-3:] == ["cap/03/1", "side 3/cap flashing 1", "side 3/cap flashing 2"]


def test_a_day_may_end_at_course_edges_of_any_ply() -> None:
    """Not after the first piece of a course, nor before the flashings that belong to it."""
    layout = make_small(joints=(0, 8, 16), details=(flashing(1, 0, 16),))
    steps = make_steps(layout, [make_roof(width=16.0)], TWO, PLAIN)
    ends = {step.work.id.removeprefix("Main/"): step.may_end for step in steps}
    assert [id for id, may_end in ends.items() if may_end] == [
        *("base/01/2", "base/02/2", "cap/01/2", "base/03/2", "cap/02/2", "side 3/cap flashing 1"),
    ]


def test_a_day_may_end_at_an_end_lap_of_a_long_course() -> None:
    """Courses of 40 m pass the 60 ft (18.288 m) from which a course is long."""
    layout = make_small(joints=(0, 20, 40))
    roof = make_roof(width=40.0)
    steps = make_steps(layout, [roof], TWO, PLAIN)
    assert [step.work.id for step in steps if not step.may_end] == []


def test_laps_belong_to_the_later_piece() -> None:
    """The side lap of cap courses 1 and 2 is closed with course 2; 20 m to weld and to probe, 131.2 s at the tool."""
    layout = make_small(laps=(side_lap("01/1", "02/1", "cap", 20.0, 0.9), side_lap("01/1", "02/1", "base", 20.0, 0.4)))
    works = {step.work.id: step.work for step in steps_of(layout)}
    upper, base = works["Main/cap/02/1"], works["Main/base/02/1"]
    assert (upper.laps, upper.weld, upper.probe) == (("Main/cap/01/1-02/1",), 20.0, 20.0)
    assert upper.tool_s == pytest.approx(20.0 / (6 * 0.0254))
    assert (base.weld, base.probe, works["Main/cap/01/1"].laps) == (20.0, 0.0, ())


def test_the_cap_is_welded_along_the_metal_it_covers() -> None:
    """3 m of metal under the first cap piece add 3 m of weld to it."""
    works = {step.work.id: step.work for step in steps_of(make_small(details=(metal(1, 0, 3),)))}
    assert (works["Main/cap/01/1"].weld, works["Main/cap/02/1"].weld) == (3.0, 0.0)


def test_what_lies_open_is_known() -> None:
    """After the first cap course the second base course (0.4-1.4 m) still waits for the second cap course."""
    steps = steps_of(make_small())
    assert [step.open_ids for step in steps] == [
        ("Main/base/01/1",),
        ("Main/base/01/1", "Main/base/02/1"),
        ("Main/base/02/1",),
        ("Main/base/02/1", "Main/base/03/1"),
        ("Main/base/03/1",),
        (),
    ]


def test_tie_off_follows_the_base() -> None:
    """At 0.5 m, 1.4 m (still so after the first cap course), and nowhere once the base is down."""
    levels = [{round(y, 6) for line in step.tie_off for _, y in line} for step in steps_of(make_small())]
    assert levels == [{0.5}, {1.4}, {1.4}, set(), set(), set()]


def test_order_does_not_hang_on_the_order_of_the_input() -> None:
    """Pieces, plies and details given the other way round make the same steps, but for details of one place."""
    layout = make_small(joints=(0, 10, 20), details=(metal(1, 0, 10), flashing(1, 0, 10)))
    turned = replace(
        layout,
        plies=tuple(replace(ply, pieces=tuple(reversed(ply.pieces))) for ply in reversed(layout.plies)),
        details=tuple(reversed(layout.details)),
    )
    assert steps_of(turned) == steps_of(layout)


def test_a_detail_without_a_place_comes_last() -> None:
    """A flashing without a line goes with the last piece of its area."""
    lost = replace(flashing(1, 0, 10), line=None)
    assert ids(steps_of(make_small(details=(lost,))))[-1] == "side 3/cap flashing 1"
