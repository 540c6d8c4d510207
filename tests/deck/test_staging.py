"""Spots for spread pallets: as large as the live load asks, clear of everything, none without the engineer's figure."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest
import shapely

from lapwright.assembly.values import Deck
from lapwright.deck.staging import free_ground, staging_map
from lapwright.roof.values import Area, Drain, Opening, Pipe
from lapwright.units.read import length_ticks, quantity_si

FOOT = length_ticks("1'")
CORNERS = ((0, 0), (120 * FOOT, 0), (120 * FOOT, 64 * FOOT), (0, 64 * FOOT))
CURB = Opening("RTU", "curb", (50 * FOOT, 25 * FOOT), (12 * FOOT, 8 * FOOT))
DRAIN = Drain("D", "drain", at=(20 * FOOT, 20 * FOOT), diameter=0.1)
AREA = Area("Main", CORNERS, (), (0.0, -1.0), 1 / 48, openings=(CURB,), drains=(DRAIN,))
DECK = Deck("steel", live_load_pa=quantity_si("20 psf"))


def test_a_pallet_has_125_sf_at_20_psf() -> None:
    """2,500 lb over 20 psf: 11.18 ft square, told as 11 ft 6 in."""
    found = staging_map([AREA], DECK, rolls=60)
    assert found is not None
    assert len(found.spots) == 3
    assert found.spots[0].side == pytest.approx(quantity_si("11.5 ft"))


def test_spots_keep_clear_of_edges_openings_and_one_another() -> None:
    """Six feet from every edge, three from curb and drain, a way between."""
    found = staging_map([AREA], DECK, rolls=250)
    assert found is not None
    squares = [shapely.Polygon(spot.ring) for spot in found.spots]
    assert all(free_ground(AREA).buffer(1e-6).contains(square) for square in squares)
    assert all(one.distance(other) > quantity_si("2.9 ft") for one, other in combinations(squares, 2))
    curb = shapely.Polygon([(x / 80_000, y / 80_000) for x, y in CURB.outline])
    assert min(square.distance(curb) for square in squares) > quantity_si("2.99 ft")


def test_a_pipe_moves_the_spot_that_stood_on_it() -> None:
    """A pallet spread over a vent would be no spot: the first one that a bare roof has goes elsewhere."""
    bare = staging_map([AREA], DECK, rolls=20)
    assert bare is not None
    middle = shapely.Polygon(bare.spots[0].ring).centroid
    vent = Pipe("V", at=(round(middle.x * 80_000), round(middle.y * 80_000)), diameter=0.1)
    found = staging_map([replace(AREA, pipes=(vent,))], DECK, rolls=20)
    assert found is not None
    assert shapely.Polygon(found.spots[0].ring).distance(middle) > quantity_si("2.7 ft")


def test_what_finds_no_room_is_told() -> None:
    """A small roof holds few; the rest wait below."""
    small = Area("Lobby", tuple((x // 3, y // 3) for x, y in CORNERS), (), (0.0, -1.0), 1 / 48)
    found = staging_map([small], DECK, rolls=250)
    assert found is not None
    assert (len(found.spots), found.without_room) == (0, 10)


@pytest.mark.parametrize(
    "deck", [None, Deck("steel"), Deck("steel", live_load_pa=1000.0, snow_pa=1000.0)], ids=["none", "no load", "snow"]
)
def test_without_the_engineer_s_figure_there_are_none(deck: Deck | None) -> None:
    """No live load, or none left under the snow: nothing is drawn."""
    assert staging_map([AREA], deck, rolls=60) is None
