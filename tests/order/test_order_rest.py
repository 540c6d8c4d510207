"""Cant, granules, and pieces for drains, pipes and corners."""

from __future__ import annotations

from dataclasses import replace

import pytest
from order_jobs import BOARDED, FOOT, INCH, by_item, details_of, end_lap, feet, make_area, make_layout, make_needs

from lapwright.defaults.rules import make_rules
from lapwright.layout.details.make import make_details
from lapwright.layout.values import TJoint
from lapwright.order.rest import want_cant, want_covers, want_drain_parts, want_granules, want_pipe_parts
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
LAID = details_of(ROOF, "cant", "drain_metal", "scupper_metal", "pipe_flashing")


def test_cant_runs_along_every_flashed_face() -> None:
    """50 + 30 + 50 ft of parapet; a curb of 18 ft round with a 4" toe beyond its face at 8 mitres: 150 ft 8".

    With 5 % in lengths of 4 ft: 39.55.
    """
    (want,) = want_cant(make_needs(ROOF, make_layout(details=LAID)))
    assert (want.needed, want.unit) == (pytest.approx((50 + 30 + 50 + 18 + 8 / 3) * 1.05 / 4), "length")


def test_no_cant_where_the_rules_have_none_or_nothing_is_flashed() -> None:
    """A cant of 0 is no cant; a roof of ridges has none."""
    without = make_details(ROOF, BOARDED, make_rules({"cant": '0"'})).details
    assert [one for one in without if one.kind == "cant"] == []
    assert list(want_cant(make_needs(ROOF, make_layout()))) == []


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


def test_drains_in_the_field_have_metal_and_scuppers_theirs() -> None:
    """Two drains; a scupper whose size is not given."""
    wants = want_drain_parts(make_needs(ROOF, make_layout(details=LAID)))
    assert [(want.item, want.needed, want.ids) for want in wants] == [
        ("drain metal, lead or copper", 2.0, ("Main/D-1/drain metal", "Main/O-1/drain metal")),
        ("scupper with flange, size not given", 1.0, ("Main/S-1/scupper metal",)),
    ]


def test_each_drain_has_a_sump_by_its_size() -> None:
    """Two far from any edge, 48" square."""
    drains = (Drain("D-1", "drain", at=(15 * FOOT, 25 * FOOT)), Drain("D-2", "drain", at=(15 * FOOT, 40 * FOOT)))
    area = make_area(CORNERS, ["parapet"] * 4, drains=drains)
    (want, *_) = want_drain_parts(make_needs(area, make_layout(details=details_of(area, "sump"))))
    assert (want.item, want.needed, want.ids) == ('drain sump, 48" by 48"', 2.0, ("Main/D-1/sump", "Main/D-2/sump"))


def test_scuppers_are_told_apart_by_their_size() -> None:
    """Two of 12" by 6", one of 8" by 6"."""
    scuppers = tuple(
        Drain(f"S-{k}", "scupper", side=2, width=feet(w / 12), height=feet(0.5)) for k, w in enumerate((12, 8, 12))
    )
    area = make_area(CORNERS, ["parapet"] * 4, drains=scuppers)
    wants = want_drain_parts(make_needs(area, make_layout(details=details_of(area, "scupper_metal"))))
    assert [(want.item, want.needed) for want in wants] == [
        ('scupper with flange, 8" by 6"', 1.0),
        ('scupper with flange, 12" by 6"', 2.0),
    ]


def test_pipes_are_counted_by_diameter() -> None:
    """One of 3", two of 4"."""
    wants = by_item(list(want_pipe_parts(make_needs(ROOF, make_layout(details=LAID)))))
    assert {item: want.ids for item, want in wants.items()} == {
        'pipe flashing with clamp, 3"': ("Main/V-2/pipe flashing",),
        'pipe flashing with clamp, 4"': ("Main/V-1/pipe flashing", "Main/V-3/pipe flashing"),
    }


def test_expansion_joints_are_covered_by_length() -> None:
    """30 ft and 50 ft: 3 and 5 lengths of 10 ft, none joined round the corner."""
    area = make_area(CORNERS, ["expansion", "expansion", "ridge", "ridge"])
    (want,) = want_covers(make_needs(area, make_layout(details=details_of(area, "expansion_cover"))))
    assert (want.needed, want.ordered, len(want.ids)) == (pytest.approx(8.0), 8, 8)


def test_without_them_nothing_is_ordered() -> None:
    """A roof of ridges without openings, pipes or drains."""
    bare = make_needs(make_area(CORNERS, ["ridge"] * 4), make_layout())
    assert [list(make(bare)) for make in (want_drain_parts, want_pipe_parts, want_covers)] == [[], [], []]
