"""Pallets against the live load, and how dry the deck must be."""

from __future__ import annotations

import pytest

from lapwright.assembly.values import Assembly, Board, Deck, Sheet
from lapwright.deck.moisture import moisture_limits
from lapwright.deck.pallets import check_pallets
from lapwright.units.read import length_ticks, quantity_si

CAP = Sheet("cap-sa", length_ticks('39 3/8"'), length_ticks("32' 10\""), length_ticks('3"'), length_ticks('6"'))


@pytest.mark.parametrize(("live_load", "status"), [("20 psf", "pass"), ("12.5 psf", "pass"), ("12 psf", "fail")])
def test_a_pallet_spread_on_plywood_presses_twelve_and_a_half(live_load: str, status: str) -> None:
    """2,500 lb over 25 rolls, four to a 32 sf sheet: 12.5 psf, whatever one pallet does on its own footprint."""
    check, _ = check_pallets(Deck(live_load_pa=quantity_si(live_load)), [CAP])
    assert check.demand == pytest.approx(quantity_si("12.5 psf"))
    assert (check.id, check.status) == ("deck.pallet", status)


def test_snow_takes_its_part_of_the_live_load() -> None:
    """5 psf of snow on 20 psf: 12.5 + 5 is within, 12.5 + 8 is not; 15 psf left want 166.7 sf for a pallet."""
    live = quantity_si("20 psf")
    _, check = check_pallets(Deck(live_load_pa=live, snow_pa=quantity_si("5 psf")), [CAP])
    assert (check.id, check.status) == ("deck.pallet-snow", "pass")
    assert check.demand == pytest.approx(quantity_si("17.5 psf"))
    assert check.steps[1].result == pytest.approx(quantity_si("166.67 sf"), rel=1e-3)
    _, check = check_pallets(Deck(live_load_pa=live, snow_pa=quantity_si("8 psf")), [CAP])
    assert check.status == "fail"
    _, check = check_pallets(Deck(live_load_pa=live, snow_pa=live), [CAP])
    assert "clear the deck" in check.steps[1].text


def test_without_a_snow_load_only_the_bare_deck_is_judged() -> None:
    """What may lie there is asked for; none is typed as 0 psf."""
    bare, snowed = check_pallets(Deck(live_load_pa=quantity_si("20 psf")), [CAP])
    assert (bare.status, snowed.status, snowed.supply) == ("pass", "unknown", ("assembly.deck.snow",))


def test_it_says_how_far_a_pallet_must_be_spread() -> None:
    """At 20 psf: never set down whole, 188 psf; 125 sf to itself."""
    check, _ = check_pallets(Deck(live_load_pa=quantity_si("20 psf")), [CAP])
    whole, needed = check.steps[0], check.steps[1]
    assert "never set one down whole" in whole.text
    assert whole.result == pytest.approx(quantity_si("187.5 psf"), rel=1e-3)
    assert needed.result == pytest.approx(quantity_si("125 sf"), rel=1e-3)
    assert whole.values["sheets"] == "cap-sa"


@pytest.mark.parametrize("deck", [None, Deck(kind="steel")])
def test_without_a_live_load_it_is_unknown(deck: Deck | None) -> None:
    """The engineer's number is asked for, never assumed."""
    check, _ = check_pallets(deck, [CAP])
    assert (check.status, check.supply) == ("unknown", ("assembly.deck.live_load",))


@pytest.mark.parametrize("kind", ["concrete", "steel", "plywood", "plank", "gypsum"])
def test_every_kind_of_deck_has_a_limit(kind: str) -> None:
    """Deck and boards each have their line, with its origin."""
    limits = moisture_limits(Assembly(plies=(), deck=Deck(kind=kind), cover_board=Board(kind="gypsum")))
    assert [limit.text for limit in limits] == [f"Deck, {kind}", "Cover board, gypsum"]
    assert all(limit.result and limit.values["origin"] for limit in limits)


def test_concrete_is_read_in_the_slab() -> None:
    """75 % relative humidity by probes; waiting 28 days proves nothing."""
    (limit,) = moisture_limits(Assembly(plies=(), deck=Deck(kind="concrete")))
    assert str(limit.result).startswith("at most 75 % relative humidity in the slab")
    assert moisture_limits(None) == moisture_limits(Assembly(plies=())) == ()
