"""Cant, granules, and pieces for drains, pipes and corners."""

from __future__ import annotations

from dataclasses import replace

import pytest
from order_jobs import BOARDED, FOOT, INCH, by_item, end_lap, feet, flashing, make_area, make_layout, make_needs

from lapwright.layout.values import TJoint
from lapwright.order.rest import (
    flashed_corners,
    flashed_faces,
    want_cant,
    want_drain_parts,
    want_granules,
    want_gussets,
    want_pipe_parts,
)
from lapwright.roof.values import Drain, Opening, Pipe

CORNERS: list[tuple[float, float]] = [(0, 0), (30, 0), (30, 50), (0, 50)]
ROOF = make_area(
    CORNERS,
    ["metal_edge", "parapet", "parapet", "parapet"],
    openings=(Opening("RTU-1", "curb", (5 * FOOT, 5 * FOOT), (4 * FOOT, 5 * FOOT)),),
    pipes=(Pipe("V-1", (1, 1), 4 * INCH), Pipe("V-2", (2, 2), 3 * INCH), Pipe("V-3", (3, 3), 4 * INCH)),
    drains=(
        Drain("D-1", "drain", at=(1, 1)),
        Drain("O-1", "overflow_drain", at=(2, 2)),
        Drain("S-1", "scupper", side=2),
    ),
)
# A face of 9 ft in three pieces of 39 3/8" that lap 3", and one of 3 ft.
FACES = (
    flashing("side 2", 1, 0, 3.28),
    flashing("side 2", 2, 3.03, 6.31),
    flashing("side 2", 3, 6.06, 9),
    flashing("side 3", 1, 0, 3),
)


def test_a_face_is_measured_from_end_to_end() -> None:
    """Laps between its pieces count once."""
    found = flashed_faces(make_needs(ROOF, make_layout(details=FACES)))
    assert found == pytest.approx({("Main", "side 2"): feet(9), ("Main", "side 3"): feet(3)})


def test_cant_runs_along_every_flashed_face() -> None:
    """12 ft and 5 % in lengths of 4 ft: 3.15."""
    (want,) = want_cant(make_needs(ROOF, make_layout(details=FACES)))
    assert (want.needed, want.unit) == (pytest.approx(3.15), "length")


def test_no_cant_where_the_rules_have_none_or_nothing_is_flashed() -> None:
    """A cant of 0 is no cant."""
    needs = [make_needs(ROOF, make_layout(details=FACES), cant='0"'), make_needs(ROOF, make_layout())]
    assert [list(want_cant(one)) for one in needs] == [[], []]


def test_granules_are_reckoned_by_the_square_and_traced_to_the_joints() -> None:
    """1500 sf less a curb of 20: 14.8 squares, a bag for 15."""
    joint = TJoint("Main/cap/01/end 1/low", "Main", "cap", (0.0, 0.0), ("a", "b"))
    (want,) = want_granules(make_needs(ROOF, make_layout(laps=(end_lap(1),), tjoints=(joint,))))
    assert want.needed == pytest.approx(14.8 / 15)
    assert want.ids == ("Main/cap/01/end 1/low", "Main/cap/01/end 1")


def test_a_smooth_cap_takes_no_granules() -> None:
    """Surfacing other than granules."""
    cap = replace(BOARDED.plies[1], sheet=replace(BOARDED.plies[1].sheet, surfacing="smooth"))
    smooth = replace(BOARDED, plies=(BOARDED.plies[0], cap))
    assert list(want_granules(make_needs(ROOF, make_layout(), assembly=smooth))) == []


def test_drains_in_the_field_have_metal_and_targets() -> None:
    """Two of them; the scupper has its own metal."""
    wants = want_drain_parts(make_needs(ROOF, make_layout()))
    assert [(want.item, want.needed) for want in wants] == [
        ("drain metal, lead or copper", 2.0),
        ("drain target, base-sa", 2.0),
        ("drain target, cap-sa", 2.0),
    ]


def test_pipes_are_counted_by_diameter() -> None:
    """One of 3", two of 4"."""
    wants = by_item(list(want_pipe_parts(make_needs(ROOF, make_layout()))))
    assert {item: want.ids for item, want in wants.items()} == {
        'pipe flashing with clamp, 3"': ("Main/V-2",),
        'pipe flashing with clamp, 4"': ("Main/V-1", "Main/V-3"),
    }


def test_corners_of_walls_and_curbs_are_flashed() -> None:
    """Two between three parapets, four at the curb: 6 × 2 pieces × 2 plies."""
    assert len(flashed_corners(ROOF)) == 6
    (want,) = want_gussets(make_needs(ROOF, make_layout()))
    assert want.needed == 24.0


def test_without_them_nothing_is_ordered() -> None:
    """A roof of ridges without openings, pipes or drains."""
    bare = make_needs(make_area(CORNERS, ["ridge"] * 4), make_layout())
    assert [list(make(bare)) for make in (want_drain_parts, want_pipe_parts, want_gussets)] == [[], [], []]
