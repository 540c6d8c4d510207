"""Edge metal by straight run, corners, cleat, nails."""

from __future__ import annotations

from dataclasses import replace

import pytest
from order_jobs import (
    BOARDED,
    by_item,
    details_of,
    flashing,
    make_area,
    make_layout,
    make_needs,
    metal_details,
    nailed,
    piece,
)

from lapwright.layout.details.metal import metal_meetings
from lapwright.order.metalwork import want_metal, want_nails

# An L: 40 ft, 20, 26 west, 14 ft, 14 west, 34 south; metal on sides 1, 2, 3 and 4.
L_SHAPE = make_area(
    [(0, 0), (40, 0), (40, 20), (14, 20), (14, 34), (0, 34)],
    ["metal_edge", "metal_edge", "metal_edge", "metal_edge", "parapet", "parapet"],
)
METAL = (
    *metal_details(L_SHAPE, 1, [10, 10, 10, 10]),
    *metal_details(L_SHAPE, 2, [10, 10]),
    *metal_details(L_SHAPE, 3, [10, 10, 6]),
    *metal_details(L_SHAPE, 4, [10, 4]),
    *details_of(L_SHAPE, "cleat", "joint_cover", "metal_corner"),
)
NAME = 'edge metal, galvanised, 24 gauge, face 5", flange 4"'


def test_metal_is_ordered_by_whole_lengths_of_each_run() -> None:
    """40 + 20 + 26 + 14 = 100 ft are 10 lengths, but never joined round a corner: 4 + 2 + 3 + 2 = 11."""
    wants = by_item(list(want_metal(make_needs(L_SHAPE, make_layout(details=METAL)))))
    assert (wants[NAME].needed, wants[NAME].ordered, wants[NAME].unit) == (pytest.approx(10.0), 11, "length")
    assert (wants[f"cleat, {NAME}"].needed, wants[f"cleat, {NAME}"].ordered) == (pytest.approx(10.0), 11)


def test_one_spare_length_for_each_hundred_feet() -> None:
    """100 ft: one (common practice, no source)."""
    wants = by_item(list(want_metal(make_needs(L_SHAPE, make_layout(details=METAL)))))
    assert wants[f"{NAME}, spare"].needed == pytest.approx(1.0)


def test_joints_and_corners_have_covers() -> None:
    """3 + 1 + 2 + 1 joints within runs; three corners between four sides of metal, two covers each."""
    wants = by_item(list(want_metal(make_needs(L_SHAPE, make_layout(details=METAL)))))
    assert (wants[f"joint covers, {NAME}"].needed, wants["joint covers at corners"].needed) == (7.0, 6.0)


def test_corners_are_told_apart_by_their_turn() -> None:
    """Corners of sides 1-2 and 2-3 point out, that of 3-4 points in; the ends at the parapet are no corners."""
    assert [(one.of, one.form) for one in metal_meetings(L_SHAPE)] == [
        ("corner of sides 1 and 2", "outside"),
        ("corner of sides 2 and 3", "outside"),
        ("corner of sides 3 and 4", "inside"),
    ]


def test_the_turn_does_not_hang_on_the_walking_sense() -> None:
    """The same L walked the other way round has the same corners."""
    points = [(0, 34), (14, 34), (14, 20), (40, 20), (40, 0), (0, 0)]
    kinds = ["parapet", "metal_edge", "metal_edge", "metal_edge", "metal_edge", "parapet"]
    assert [one.form for one in metal_meetings(make_area(points, kinds))] == ["inside", "outside", "outside"]


def test_sides_in_one_line_make_no_corner() -> None:
    """A side broken at a point of its own line: a joint cover over the butt, no corner piece."""
    area = make_area([(0, 0), (10, 0), (20, 0), (20, 10), (0, 10)], ["metal_edge", "metal_edge", *["ridge"] * 3])
    found = details_of(area, "metal_corner", "joint_cover")
    assert [(one.id, one.form) for one in found] == [("Main/joint of sides 1 and 2/joint cover 1", "straight")]


def test_two_makes_of_metal_are_two_lines() -> None:
    """A side whose metal is not described has a line of its own."""
    edges = (L_SHAPE.edges[0], replace(L_SHAPE.edges[1], metal=None), *L_SHAPE.edges[2:])
    wants = by_item(list(want_metal(make_needs(replace(L_SHAPE, edges=edges), make_layout(details=METAL)))))
    assert (wants[NAME].ordered, wants["edge metal"].ordered) == (9, 2)


def test_no_metal_no_lines() -> None:
    """A roof within parapets."""
    area = make_area([(0, 0), (10, 0), (10, 10), (0, 10)], ["parapet"] * 4)
    needs = make_needs(area, make_layout())
    assert (list(want_metal(needs)), list(want_nails(needs))) == ([], [])


def test_nails_of_metal_are_counted_length_by_length() -> None:
    """Two rows at 4" with a nail at both ends: 2 × (30 + 1) on 10 ft, 2 × 19 on 6 ft, 2 × 13 on 4 ft.

    Nine lengths of 10 ft, one of 6, one of 4: 558 + 38 + 26 = 622 nails in boxes of 800.
    """
    wants = by_item(list(want_nails(make_needs(L_SHAPE, make_layout(details=METAL)))))
    assert wants["ring-shank nails, edge metal"].needed == pytest.approx(622 / 800)


def test_nails_of_the_cleat_are_counted_run_by_run() -> None:
    """At 6": 81 + 41 + 53 + 29 = 204."""
    wants = by_item(list(want_nails(make_needs(L_SHAPE, make_layout(details=METAL)))))
    assert wants["ring-shank nails, cleat"].needed == pytest.approx(204 / 800)


def test_flashing_tops_are_nailed() -> None:
    """Two cap flashings of 3 ft at 6": 12 nails; the backer under them takes none of its own."""
    details = (
        flashing("side 5", 1, 0, 3, ply="cap", sheet="cap-sa"),
        flashing("side 5", 2, 3, 6, ply="cap", sheet="cap-sa"),
        flashing("side 5", 1, 0, 3),
    )
    wants = by_item(list(want_nails(make_needs(L_SHAPE, make_layout(details=details)))))
    assert wants["cap nails, flashing tops"].needed == pytest.approx(12 / 1000)


def test_a_nailed_base_has_its_nails() -> None:
    """30 ft of base: 40 nails at 9" in the lap and two rows of 20 at 18"; a self-adhered one has none."""
    layout = make_layout(pieces=(piece("base", 1),))
    nails = [
        [want.needed * 1000 for want in want_nails(make_needs(L_SHAPE, layout, assembly=assembly))]
        for assembly in (nailed(BOARDED), BOARDED)
    ]
    assert nails == [[pytest.approx(80.0)], []]


def test_nails_of_a_base_by_the_square() -> None:
    """Common practice, no source: this pattern takes 88 a square at 36.4" exposure and 97 at 33"."""
    layout = make_layout(pieces=(piece("base", 1, length=300.0),))
    (want,) = want_nails(make_needs(L_SHAPE, layout, assembly=nailed(BOARDED)))
    per_inch = want.needed * 1000 / (300 * 12)
    assert [round(per_inch / exposure * 14_400) for exposure in (36.375, 33.0)] == [88, 97]
