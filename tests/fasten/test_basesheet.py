"""A nailed base sheet: the worst nail in the worst zone."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.assembly.values import Assembly, Deck, Nailing, Ply, Sheet
from lapwright.fasten.basesheet import check_base_nails
from lapwright.roof.values import Area
from lapwright.units.read import length_ticks, quantity_si
from lapwright.wind.values import Building

BUILDING = Building(
    height=quantity_si("30 ft"),
    exposure="C",
    wind_speed_m_s=quantity_si("115 mph"),
    risk_category=2,
    enclosure="enclosed",
    standard="ASCE 7-16",
    elevation=0.0,
)
SHEET = Sheet("base", length_ticks('36"'), length_ticks("50'"), length_ticks('4"'), length_ticks('6"'))
NAILING = Nailing(quantity_si("9 in"), quantity_si("18 in"), 2, quantity_si("80 lbf"))
NAILED = Ply("base", SHEET, "mechanically_fastened", NAILING)
ASSEMBLY = Assembly(
    plies=(NAILED, Ply("cap", SHEET, "self_adhered")), deck=Deck("plywood", nailable=True, live_load_pa=None)
)
SIDE = length_ticks("200'")
ROOF = (Area("Main", ((0, 0), (SIDE, 0), (SIDE, SIDE), (0, SIDE)), (), falls=(0.0, -1.0), slope=1 / 48),)


def nailed(**changes: object) -> Assembly:
    """The assembly with some of its nailing changed."""
    return replace(ASSEMBLY, plies=(replace(NAILED, nailing=replace(NAILING, **changes)), ASSEMBLY.plies[1]))


@pytest.mark.parametrize(("value", "status"), [("80 lbf", "pass"), ("76 lbf", "fail")])
def test_the_worst_nail_governs(value: str, status: str) -> None:
    """Zone 3 at 57.33 psf on 1.333 sf is 76.4 lbf; the average nail, 57.3 lbf, would have passed."""
    *_, check = check_base_nails(ROOF, BUILDING, nailed(value_n=quantity_si(value)))
    assert check.id == "fasten.nails-base-3"
    assert check.demand == pytest.approx(quantity_si("76.44 lbf"), rel=1e-3)
    assert check.status == status


def test_a_self_adhered_roof_has_no_nails() -> None:
    """No check where nothing is fastened."""
    stuck = replace(ASSEMBLY, plies=(replace(NAILED, attachment="self_adhered"), ASSEMBLY.plies[1]))
    assert check_base_nails(ROOF, BUILDING, stuck) == ()
    assert check_base_nails(ROOF, BUILDING, None) == ()


def test_a_deck_that_takes_no_nails_fails() -> None:
    """However strong the nail, concrete fails."""
    checks = check_base_nails(ROOF, BUILDING, replace(ASSEMBLY, deck=Deck("concrete", nailable=False)))
    assert {check.status for check in checks} == {"fail"}


@pytest.mark.parametrize(
    ("assembly", "building", "supply"),
    [
        (nailed(value_n=None), BUILDING, ("assembly.plies[0].nailing.value",)),
        (nailed(field_rows=None), BUILDING, ("assembly.plies[0].nailing.rows",)),
        (nailed(lap_spacing=None), BUILDING, ("assembly.plies[0].nailing.laps",)),
        (nailed(field_spacing=None), BUILDING, ("assembly.plies[0].nailing.field",)),
        (replace(ASSEMBLY, deck=None), BUILDING, ("assembly.deck.nailable",)),
        (ASSEMBLY, replace(BUILDING, exposure=None), ("building.exposure",)),
    ],
)
def test_without_its_numbers_it_is_unknown(assembly: Assembly, building: Building, supply: tuple[str, ...]) -> None:
    """A nailed sheet never passes on a guess."""
    checks = check_base_nails(ROOF, building, assembly)
    assert {(check.status, check.supply) for check in checks} == {("unknown", supply)}
