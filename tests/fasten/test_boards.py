"""Boards held by fasteners or ribbons, zone by zone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.assembly.values import Assembly, Board, BoardFastening
from lapwright.fasten.boards import board_needs, check_boards
from lapwright.roof.values import Area, Edge
from lapwright.units.read import length_ticks, quantity_si
from lapwright.units.write import Units
from lapwright.wind.values import Building

BUILDING = Building(quantity_si("30 ft"), "C", quantity_si("115 mph"), 2, "enclosed", "ASCE 7-16", 0.0)
SIDES = (length_ticks("200'"), length_ticks("100'"))
CORNERS = ((0, 0), (SIDES[0], 0), SIDES, (0, SIDES[1]))
ROOF = (
    Area(
        "Main",
        CORNERS,
        tuple(Edge(k + 1, "metal_edge", CORNERS[k], CORNERS[(k + 1) % 4]) for k in range(4)),
        (0.0, -1.0),
        1 / 48,
    ),
)
COUNTS = {"1'": 4, "1": 8, "2": 12, "3": 16}
SCREWS = BoardFastening(quantity_si("32 sf"), COUNTS, quantity_si("120 lbf"))
SCREWED = Assembly((), insulation=Board("polyiso", 0.1, "mechanically_fastened", SCREWS))
RIBBONS = BoardFastening(
    ribbons={"1'": 0.3048, "1": 0.3048, "2": 0.1524, "3": 0.1016}, ribbon_value_n_m=quantity_si("30 plf")
)
STUCK = Assembly((), cover_board=Board("gypsum", 0.0127, "adhered", RIBBONS))


def test_screws_by_pencil() -> None:
    """32 sf at 18.32, 31.89, 42.06 and 57.33 psf by 4, 8, 12 and 16: 146.6, 127.6, 112.2 and 114.7 lbf."""
    checks = check_boards(ROOF, BUILDING, SCREWED)
    loads = [check.demand / quantity_si("1 lbf") for check in checks if check.demand is not None]
    assert loads == pytest.approx([146.6, 127.6, 112.2, 114.7], abs=0.1)
    assert [check.status for check in checks] == ["fail", "fail", "pass", "pass"]
    assert checks[0].id == "fasten.boards-insulation-1'"
    assert checks[1].steps[1].result == 9


def test_ribbons_by_pencil() -> None:
    """57.33 psf on ribbons 4 in apart: 19.1 plf; 31.89 psf on 12 in: 31.9 plf, over the 30 given."""
    checks = check_boards(ROOF, BUILDING, STUCK)
    loads = [check.demand / quantity_si("1 plf") for check in checks if check.demand is not None]
    assert loads == pytest.approx([18.32, 31.89, 21.03, 19.11], abs=0.02)
    assert [check.status for check in checks] == ["pass", "fail", "pass", "pass"]


@pytest.mark.parametrize(
    ("fastening", "supply"),
    [
        (replace(SCREWS, board_m2=None), "assembly.insulation.fastening.board"),
        (replace(SCREWS, value_n=None), "assembly.insulation.fastening.value"),
        (replace(SCREWS, per_board={}), "assembly.insulation.fastening.per_board.2"),
    ],
)
def test_without_its_numbers_a_zone_is_unknown(fastening: BoardFastening, supply: str) -> None:
    """Each missing value is asked for."""
    given = replace(SCREWED, insulation=Board("polyiso", 0.1, "mechanically_fastened", fastening))
    check = check_boards(ROOF, BUILDING, given)[2]
    assert (check.status, check.supply) == ("unknown", (supply,))


def test_boards_whose_fastening_is_not_given_have_no_check() -> None:
    """The listing of the whole assembly answers for them."""
    assert check_boards(ROOF, BUILDING, Assembly((), insulation=Board("polyiso", 0.1, "adhered"))) == ()


def test_what_is_ordered() -> None:
    """Zone 3 of 720 sf: 23 boards of 16; ribbons of zone 2 on 8,784 sf at 6 in: 17,568 ft."""
    screws = {need.zone: need.amount for need in board_needs(ROOF, BUILDING, SCREWED, Units("us"))}
    assert screws["3"] == 23 * 16
    ribbons = {need.zone: need.amount for need in board_needs(ROOF, BUILDING, STUCK, Units("us"))}
    assert ribbons["2"] / quantity_si("1 ft") == pytest.approx(2 * 8784, rel=1e-6)


def test_a_zone_on_two_levels_is_one_line() -> None:
    """The same boards on a part of another height add to the same zone's line."""
    (low,) = ROOF
    high = replace(
        low, name="High", roof_height=quantity_si("34 ft"), outline=tuple((x, y + 10**8) for x, y in CORNERS)
    )
    both = {need.item: need.amount for need in board_needs((low, high), BUILDING, SCREWED, Units("us"))}
    alone = [board_needs((one,), BUILDING, SCREWED, Units("us")) for one in (low, high)]
    assert both["fasteners, insulation, zone 3"] == sum(
        need.amount for needs in alone for need in needs if need.zone == "3"
    )
