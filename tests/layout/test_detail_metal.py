"""Edge metal, its cleat and the covers over its joints."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import FOOT, INCH, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.details.lengths import butted
from lapwright.layout.details.make import make_details
from lapwright.layout.values import Detail
from lapwright.roof.values import Metal

KINDS = ["metal_edge", "metal_edge", "ridge", "ridge"]


def made(kind: str) -> list[Detail]:
    """Details of a kind on a flat roof of 97' by 40' with metal on two sides."""
    area = flat(rectangle(97 * FOOT, 40 * FOOT, KINDS))
    return [one for one in make_details(area, TWO_PLIES, rules()).details if one.kind == kind]


def test_lengths_are_not_joined_round_a_corner() -> None:
    """97' is ten lengths, the last 7'; 40' is four."""
    assert [one.length / 0.3048 for one in made("metal")] == pytest.approx([10] * 9 + [7] + [10] * 4)


def test_the_cleat_is_as_long_as_the_metal() -> None:
    """Length by length."""
    assert [one.length for one in made("cleat")] == [one.length for one in made("metal")]


def test_every_joint_has_a_cover_and_the_corner_two() -> None:
    """9 on side 1, 3 on side 2, 2 at the corner."""
    assert [one.of for one in made("joint_cover")] == ["side 1"] * 9 + ["side 2"] * 3 + ["corner of sides 1 and 2"] * 2
    assert [(one.of, one.form) for one in made("metal_corner")] == [("corner of sides 1 and 2", "outside")]


def test_gaps_of_a_quarter_inch_save_a_sliver() -> None:
    """60' 1" is six lengths with gaps of 1/5"; 60' 2" is seven, the last a foot taken from the one before."""
    ten, gap = 10 * FOOT, INCH // 4
    assert len(butted(60 * FOOT + INCH, ten, gap)) == 6
    assert butted(60 * FOOT + INCH, ten, gap)[1][0] - ten == pytest.approx(INCH / 5)
    assert [round((b - a) / INCH, 6) for a, b in butted(60 * FOOT + 2 * INCH, ten, gap)][-2:] == [110.0, 12.0]
    assert butted(7 * FOOT, ten, gap) == [(0.0, 7 * FOOT)]


def test_covers_and_corners_have_sizes() -> None:
    """Covers 6" along the edge and legs of 12", as wide as the flange: 4" and 5", at the corner the wider."""
    area = flat(rectangle(97 * FOOT, 40 * FOOT, KINDS))
    flanges = {1: 4 * 0.0254, 2: 5 * 0.0254}
    edges = [replace(edge, metal=Metal(flange=flanges.get(edge.side))) for edge in area.edges]
    details = make_details(replace(area, edges=tuple(edges)), TWO_PLIES, rules()).details
    sizes = {(one.kind, one.of): (one.length / 0.0254, one.width / 0.0254) for one in details if one.at}
    assert sizes == {
        ("joint_cover", "side 1"): pytest.approx((6, 4)),
        ("joint_cover", "side 2"): pytest.approx((6, 5)),
        ("joint_cover", "corner of sides 1 and 2"): pytest.approx((6, 5)),
        ("metal_corner", "corner of sides 1 and 2"): pytest.approx((12, 5)),
        ("strip_corner", "corner of sides 1 and 2"): pytest.approx((18, 9)),
    }


def test_without_a_flange_the_width_is_not_made_up() -> None:
    """0, as that of the metal itself."""
    assert {one.width for kind in ("metal", "joint_cover", "metal_corner") for one in made(kind)} == {0.0}
