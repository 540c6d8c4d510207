"""Corners of flashed faces: gussets, mitred cant."""

from __future__ import annotations

import math

import pytest
from roofs import FOOT, TWO_PLIES, flat, make_area, rectangle, rules

from lapwright.layout.details.make import make_details
from lapwright.layout.details.stands import corners_of, stands_of
from lapwright.layout.values import Detail
from lapwright.roof.values import Area, Opening

IN = 0.0254
PARAPETS = ["parapet"] * 4


def corners(area: Area) -> list[tuple[str, str]]:
    """Names and kinds of the corners of an area."""
    return [(one.of, one.form) for one in corners_of(area, stands_of(area))]


def details(area: Area, kind: str) -> list[Detail]:
    """The details of a kind."""
    return [one for one in make_details(area, TWO_PLIES, rules()).details if one.kind == kind]


def l_shape(kinds: list[str]) -> Area:
    """An L whose fourth corner points into the roof."""
    points = [(0, 0), (30, 0), (30, 20), (12, 20), (12, 35), (0, 35)]
    return flat(make_area([(x * FOOT, y * FOOT) for x, y in points], kinds))


def test_walls_that_turn_into_the_roof_make_an_outside_corner() -> None:
    """Five corners of the L are inside ones, the one between sides 3 and 4 an outside one."""
    forms = [form for _, form in corners(l_shape(["parapet"] * 6))]
    assert forms == ["inside", "inside", "outside", "inside", "inside", "inside"]


def test_only_flashed_sides_make_corners() -> None:
    """A parapet that ends at metal or a ridge has no corner there."""
    assert corners(l_shape(["metal_edge", "ridge", "parapet", "parapet", "wall", "ridge"])) == [
        ("corner of sides 3 and 4", "outside"),
        ("corner of sides 4 and 5", "inside"),
    ]


def test_a_curb_has_four_outside_corners() -> None:
    """Named by where they point."""
    curb = Opening("C", "curb", (5 * FOOT, 5 * FOOT), (4 * FOOT, 3 * FOOT), 0.3)
    assert corners(flat(rectangle(20 * FOOT, 20 * FOOT, ["ridge"] * 4, (curb,)))) == [
        ("C SW", "outside"),
        ("C SE", "outside"),
        ("C NE", "outside"),
        ("C NW", "outside"),
    ]


def test_a_courtyard_that_is_an_l() -> None:
    """Six faces by number; where it turns into itself the corner is an inside one."""
    ring = tuple((x * FOOT, y * FOOT) for x, y in ((0, 0), (8, 0), (8, 4), (4, 4), (4, 8), (0, 8)))
    yard = Opening("C", "shaft", (5 * FOOT, 5 * FOOT), (8 * FOOT, 8 * FOOT), 0.3, ring)
    area = flat(rectangle(20 * FOOT, 20 * FOOT, ["ridge"] * 4, (yard,)))
    assert corners(area) == [(f"C corner {k}", "inside" if k == 4 else "outside") for k in range(1, 7)]
    assert [(stand.of, round(stand.length / FOOT, 6)) for stand in stands_of(area)] == [
        (f"C face {k}", length) for k, length in enumerate((8, 4, 4, 4, 4, 8), start=1)
    ]


def test_a_shaft_in_the_corner_of_two_walls() -> None:
    """Its one free corner points out; inside corners stand where its faces meet the walls, none at the walls' own."""
    shaft = Opening("S", "shaft", (0, 0), (4 * FOOT, 4 * FOOT), 0.3)
    assert corners(flat(rectangle(20 * FOOT, 20 * FOOT, PARAPETS, (shaft,)))) == [
        ("corner of sides 1 and 2", "inside"),
        ("corner of sides 2 and 3", "inside"),
        ("corner of sides 3 and 4", "inside"),
        ("S SE", "inside"),
        ("S NE", "outside"),
        ("S NW", "inside"),
    ]


def test_gussets_of_both_plies_stand_upright_and_lie_at_the_foot() -> None:
    """At a parapet of 14": 12" by the girth, 19.66" of the backer and 21.66" of the cap, and 12" by 12"."""
    area = flat(rectangle(20 * FOOT, 20 * FOOT, ["parapet", "parapet", "ridge", "ridge"]))
    found = details(area, "gusset")
    face = 10 + 4 * math.sqrt(2)
    assert [(one.id, one.form) for one in found] == [
        (f"Main/corner of sides 1 and 2/{ply} gusset {name}", "inside")
        for ply in ("base", "cap")
        for name in ("upright", "foot")
    ]
    assert [one.length / IN for one in found] == pytest.approx([face + 4, 12, face + 6, 12])
    assert [one.width / IN for one in found] == pytest.approx([12] * 4)


def test_upright_gussets_lap_the_flashings_on_either_side() -> None:
    """Each ply's gusset laps the last piece of side 1 and the first of side 2 by 6"."""
    area = flat(rectangle(20 * FOOT, 20 * FOOT, ["parapet", "parapet", "ridge", "ridge"]))
    laps = [lap for lap in make_details(area, TWO_PLIES, rules()).laps if "gusset" in lap.id]
    assert [(lap.pieces[0], round(lap.width / IN, 6)) for lap in laps] == [
        (f"Main/side {side}/{ply} flashing {k}", 6.0) for ply in ("base", "cap") for side, k in ((1, 7), (2, 1))
    ]
    x, y = 20 * 12 * IN, 0.0
    assert laps[0].line[0] == pytest.approx((x - 6 * IN, y))
    assert laps[1].line[0] == pytest.approx((x, y + 6 * IN))


def test_cant_is_mitred_and_longer_round_outside_corners() -> None:
    """A curb of 4' by 3': each face one length, 4" longer at both ends."""
    curb = Opening("C", "curb", (5 * FOOT, 5 * FOOT), (4 * FOOT, 3 * FOOT), 0.3)
    found = details(flat(rectangle(20 * FOOT, 20 * FOOT, ["ridge"] * 4, (curb,))), "cant")
    assert [one.length / IN for one in found] == pytest.approx([56, 44, 56, 44])
    assert all(one.parts == {"mitre at start": 4 * IN, "mitre at end": 4 * IN} for one in found)


def test_cant_within_walls_is_as_long_as_they_are() -> None:
    """20' of parapet takes five lengths of 4', mitred at the corner alone."""
    area = flat(rectangle(20 * FOOT, 20 * FOOT, ["parapet", "parapet", "ridge", "ridge"]))
    found = details(area, "cant")
    assert [one.length / IN for one in found] == pytest.approx([48] * 10)
    assert [one.id for one in found if one.parts] == ["Main/side 1/cant 5", "Main/side 2/cant 1"]
