"""Drains, scuppers and pipes."""

from __future__ import annotations

from dataclasses import replace

import pytest
from roofs import FOOT, INCH, TWO_PLIES, flat, rectangle, rules

from lapwright.layout.details.drains import sump_side
from lapwright.layout.details.make import Details, make_details
from lapwright.roof.values import Area, Drain, Opening, Pipe

IN = 0.0254


def roof(*drains: Drain, pipes: tuple[Pipe, ...] = (), openings: tuple[Opening, ...] = ()) -> Area:
    """A flat roof of 20' by 20' between ridges, side 2 metal, with drains and pipes."""
    area = flat(rectangle(20 * FOOT, 20 * FOOT, ["ridge", "metal_edge", "ridge", "ridge"], openings))
    return replace(area, drains=drains, pipes=pipes)


def sizes(made: Details, *kinds: str) -> list[tuple[str, str, float, float]]:
    """Id, sheet, length and width [in] of the details of some kinds."""
    return [
        (one.id, one.sheet, round(one.length / IN, 6), round(one.width / IN, 6))
        for one in made.details
        if one.kind in kinds
    ]


def test_a_drain_has_sump_metal_and_targets() -> None:
    """36" of base in one piece; 48" of cap in two, of 39" and 12" that lap 3", since a sheet is 39 3/8" wide."""
    made = make_details(roof(Drain("D-1", "drain", at=(10 * FOOT, 10 * FOOT))), TWO_PLIES, rules())
    assert sizes(made, "sump", "drain_metal", "target") == [
        ("Main/D-1/sump", "", 48.0, 48.0),
        ("Main/D-1/drain metal", "", 30.0, 30.0),
        ("Main/D-1/base target 1", "base-sa", 36.0, 36.0),
        ("Main/D-1/cap target 1", "cap-sa", 48.0, 39.0),
        ("Main/D-1/cap target 2", "cap-sa", 48.0, 12.0),
    ]
    (lap,) = [lap for lap in made.laps if "target" in lap.id]
    assert (lap.id, lap.kind) == ("Main/D-1/cap target 2/lap", "flashing")
    assert (lap.length / IN, lap.width / IN) == pytest.approx((48, 3))


@pytest.mark.parametrize(
    ("x", "y", "side", "warned"),
    [
        (120, 120, 48, False),
        (240 - 18, 120, 36, False),  # 18" from the metal edge: 36"
        (240 - 10, 120, 20, True),  # 10" from it: 20", less than the least
        (10, 120, 48, False),  # a ridge is no edge: the roof goes on
    ],
)
def test_a_sump_is_as_large_as_there_is_room(x: int, y: int, side: int, warned: bool) -> None:
    """4' by 4', or twice the distance to the next edge; under 2' by 2' it is told."""
    drain = Drain("D-1", "drain", at=(x * INCH, y * INCH))
    made = make_details(roof(drain), TWO_PLIES, rules())
    assert sump_side(roof(drain), drain, rules()) == side * INCH
    assert [id for id, _ in made.warnings] == (["layout.sump-Main/D-1"] if warned else [])


def test_a_sump_stays_off_a_curb() -> None:
    """15" east of the drain's middle a curb begins: 30"."""
    curb = Opening("C", "curb", (115 * INCH, 90 * INCH), (40 * INCH, 40 * INCH), 0.3)
    drain = Drain("D-1", "drain", at=(100 * INCH, 100 * INCH))
    assert sump_side(roof(drain, openings=(curb,)), drain, rules()) == 30 * INCH


def test_a_pipe_has_a_flashing_and_two_strips() -> None:
    """4": (4 + 8 + 8)² of base and (4 + 8 + 12)² of cap; 24" wide pipes take two pieces of each."""
    pipes = (Pipe("V-1", (5 * FOOT, 5 * FOOT), 4 * INCH), Pipe("V-2", (12 * FOOT, 12 * FOOT), 24 * INCH))
    assert sizes(make_details(roof(pipes=pipes), TWO_PLIES, rules()), "pipe_flashing", "pipe_strip") == [
        ("Main/V-1/pipe flashing", "", 4.0, 4.0),
        ("Main/V-1/base pipe strip 1", "base-sa", 20.0, 20.0),
        ("Main/V-1/cap pipe strip 1", "cap-sa", 24.0, 24.0),
        ("Main/V-2/pipe flashing", "", 24.0, 24.0),
        ("Main/V-2/base pipe strip 1", "base-sa", 40.0, 31.0),
        ("Main/V-2/base pipe strip 2", "base-sa", 40.0, 12.0),
        ("Main/V-2/cap pipe strip 1", "cap-sa", 44.0, 35.0),
        ("Main/V-2/cap pipe strip 2", "cap-sa", 44.0, 12.0),
    ]


def test_a_scupper_has_its_metal_and_two_strips() -> None:
    """12" by 6": 28" by 22" of base, 32" by 26" of cap, at 10' along side 2."""
    scupper = Drain("S-1", "scupper", side=2, from_start=10 * 0.3048, width=12 * IN, height=6 * IN)
    made = make_details(roof(scupper), TWO_PLIES, rules())
    assert sizes(made, "scupper_metal", "scupper_strip") == [
        ("Main/S-1/scupper metal", "", 12.0, 6.0),
        ("Main/S-1/base scupper strip 1", "base-sa", 28.0, 22.0),
        ("Main/S-1/cap scupper strip 1", "cap-sa", 32.0, 26.0),
    ]
    assert {one.at for one in made.details if one.of == "S-1"} == {(20 * 0.3048, 10 * 0.3048)}


def test_a_scupper_without_a_size_is_told_and_a_gutter_takes_nothing() -> None:
    """Its metal stands alone, and a warning says what is not counted."""
    made = make_details(roof(Drain("S-1", "scupper", side=2), Drain("G-1", "gutter", side=2)), TWO_PLIES, rules())
    assert [one.id for one in made.details if one.of in ("S-1", "G-1")] == ["Main/S-1/scupper metal"]
    assert [id for id, _ in made.warnings] == ["layout.scupper-Main/S-1"]
