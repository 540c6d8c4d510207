"""Taking away any one input turns exactly the checks that read it unknown, and leaves every other as it was."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import pytest

from lapwright.assembly.values import Assembly, Board, BoardFastening, Deck, Nailing, Ply, Sheet, ZonePattern
from lapwright.deck.flashings import check_flashing_heights
from lapwright.deck.pallets import check_pallets
from lapwright.defaults.rules import make_rules
from lapwright.drains.capacity import check_drainage
from lapwright.drains.overflow import check_overflow
from lapwright.drains.places import check_places
from lapwright.drains.slope import check_slope
from lapwright.fasten.basesheet import check_base_nails
from lapwright.fasten.boards import check_boards
from lapwright.fasten.coldpull import check_cold_pull
from lapwright.fasten.edgemetal import check_edge_metal
from lapwright.fasten.edgetest import check_edge_tests
from lapwright.roof.values import Area, Drain, Edge, Metal, Opening
from lapwright.units.read import length_ticks, quantity_si
from lapwright.verdict import Check
from lapwright.wind.uplift import check_uplift
from lapwright.wind.values import Building

LENGTH, WIDTH = length_ticks("120'"), length_ticks("64'")
CORNERS = ((0, 0), (LENGTH, 0), (LENGTH, WIDTH), (0, WIDTH))
SHEET = Sheet("base-sa", length_ticks('39 3/8"'), length_ticks("65' 7\""), length_ticks('3"'), length_ticks('6"'))
CAP = replace(SHEET, name="cap-sa", modulus_n_m=quantity_si("5000 lbf/in"), expansion_per_k=quantity_si("20 ppm/F"))
METAL = Metal(
    "galvanised",
    24,
    quantity_si("5 in"),
    quantity_si("4 in"),
    test_factor=2.0,
    tested_outward_pa=quantity_si("60 psf"),
    tested_upward_pa=quantity_si("120 psf"),
    nail_spacing=quantity_si("3 in"),
    nail_shear_n=quantity_si("60 lbf"),
)
SCREWED = BoardFastening(quantity_si("32 sf"), {"1'": 8, "1": 8, "2": 12, "3": 16}, quantity_si("150 lbf"))
RIBBONS = BoardFastening(
    ribbons={zone: quantity_si("6 in") for zone in ("1'", "1", "2", "3")}, ribbon_value_n_m=quantity_si("45 plf")
)
GUTTER = Drain("G-1", "gutter", side=1, width=quantity_si("6 in"), outlets=3)
DRAIN = Drain("D-1", "drain", at=(0, 0), diameter=quantity_si("6 in"))
SCUPPER = Drain("OS-1", "overflow_scupper", side=1, from_start=3.0, width=0.9, height=0.15, sill=0.05)


@dataclass(frozen=True)
class Job:
    """What the checks read of a job."""

    areas: tuple[Area, ...]
    building: Building
    assembly: Assembly
    work: str | None = "new"
    rain_primary: float | None = quantity_si("3.75 in/h")
    rain_secondary: float | None = quantity_si("6.5 in/h")


def job(kinds: tuple[str, ...], drains: tuple[Drain, ...], *, parapet: float, nailed: bool) -> Job:
    """A job with every input: the contract's own roof, or one walled all round with a nailed base."""
    edges = tuple(
        Edge(
            number + 1,
            kind,
            CORNERS[number],
            CORNERS[(number + 1) % 4],
            height=parapet if kind == "parapet" else None,
            metal=METAL if kind == "metal_edge" else None,
            key=f"roof[0].edges[{min(number, 1)}]",
        )
        for number, kind in enumerate(kinds)
    )
    curb = Opening("RTU-1", "curb", (800_000, 800_000), (160_000, 160_000), height=quantity_si("8 in"))
    area = Area("Main", CORNERS, edges, falls=(0.0, -1.0), slope=1 / 48, openings=(curb,), drains=drains)
    corner = ZonePattern(quantity_si("6 in"), quantity_si("6 in"), 3)
    nailing = Nailing(quantity_si("9 in"), quantity_si("9 in"), 2, quantity_si("60 lbf"), {"3": corner})
    base = Ply("base", SHEET, "mechanically_fastened", nailing) if nailed else Ply("base", SHEET, "self_adhered")
    return Job(
        areas=(area,),
        building=Building(
            quantity_si("22 ft"), "C", quantity_si("112 mph"), 2, "enclosed", "ASCE 7-16", quantity_si("886 ft")
        ),
        assembly=Assembly(
            plies=(base, Ply("cap", CAP, "self_adhered")),
            deck=Deck("plywood", nailable=True, live_load_pa=quantity_si("20 psf"), snow_pa=quantity_si("5 psf")),
            insulation=Board("polyiso", quantity_si("3 in"), "mechanically_fastened", SCREWED),
            cover_board=Board("gypsum", quantity_si("0.5 in"), "adhered", RIBBONS),
            rated_uplift_pa={"all": quantity_si("90 psf")},
        ),
    )


SOUTH_OPEN = job(("metal_edge", *3 * ("parapet",)), (GUTTER,), parapet=quantity_si("30 in"), nailed=False)
WALLED = job(4 * ("parapet",), (DRAIN, replace(DRAIN, name="D-2"), SCUPPER), parapet=1.0, nailed=True)
JOBS = {"south open": SOUTH_OPEN, "walled": WALLED}


def checks(given: Job) -> dict[str, Check]:
    """Every check of these rooms, by id."""
    rules = make_rules({})
    found = (
        *check_uplift(given.areas, given.building, given.assembly),
        *check_edge_metal(given.areas, given.building),
        *check_edge_tests(given.areas, given.building),
        *check_cold_pull(given.areas, given.assembly),
        *check_base_nails(given.areas, given.building, given.assembly),
        *check_boards(given.areas, given.building, given.assembly),
        *check_places(given.areas),
        *check_slope(given.areas, work=given.work),
        *check_drainage(given.areas, rain_primary=given.rain_primary),
        *check_overflow(given.areas, rules, rain_secondary=given.rain_secondary),
        *check_pallets(given.assembly.deck, [SHEET]),
        *check_flashing_heights(given.areas, rules),
    )
    return {check.id: check for check in found}


def keys(given: Job) -> list[str]:
    """Every key that any check reads."""
    return sorted({key for check in checks(given).values() for key in check.uses})


def nothing(value: Any, path: list[str]) -> Any:
    """The frozen value with what the path leads to taken away."""
    name, rest = path[0], path[1:]
    if isinstance(value, dict):
        if not rest:
            return {key: each for key, each in value.items() if key != name}
        return {**value, name: nothing(value[name], rest)}
    if name.isdigit():
        return tuple(nothing(each, rest) if at == int(name) else each for at, each in enumerate(value))
    if not rest:
        return replace(value, **{name: () if name == "drains" else None})
    return replace(value, **{name: nothing(getattr(value, name), rest)})


FIELDS: Mapping[str, str] = {
    "building.wind_speed": "building.wind_speed_m_s",
    "site.elevation": "building.elevation",
    "site.rain_primary": "rain_primary",
    "site.rain_secondary": "rain_secondary",
    "assembly.deck.live_load": "assembly.deck.live_load_pa",
    "assembly.deck.snow": "assembly.deck.snow_pa",
    "assembly.insulation.fastening.board": "assembly.insulation.fastening.board_m2",
    "assembly.insulation.fastening.value": "assembly.insulation.fastening.value_n",
    "assembly.cover_board.fastening.ribbon_value": "assembly.cover_board.fastening.ribbon_value_n_m",
    "sheets.cap-sa.modulus": "assembly.plies[1].sheet.modulus_n_m",
    "sheets.cap-sa.expansion": "assembly.plies[1].sheet.expansion_per_k",
    "assembly.plies[0].nailing.zones.3.laps": "assembly.plies[0].nailing.zones.3.lap_spacing",
    "assembly.plies[0].nailing.zones.3.field": "assembly.plies[0].nailing.zones.3.field_spacing",
    "assembly.plies[0].nailing.zones.3.rows": "assembly.plies[0].nailing.zones.3.field_rows",
    "assembly.plies[0].nailing.laps": "assembly.plies[0].nailing.lap_spacing",
    "assembly.plies[0].nailing.field": "assembly.plies[0].nailing.field_spacing",
    "assembly.plies[0].nailing.rows": "assembly.plies[0].nailing.field_rows",
    "assembly.plies[0].nailing.value": "assembly.plies[0].nailing.value_n",
}


# Keys that other checks tell beside their verdict where they are given, without needing them.
BESIDE = ("metal.nail_spacing", "per_board.1")
METAL_FIELDS: Mapping[str, str] = {
    "metal.tested_outward": "metal.tested_outward_pa",
    "metal.tested_upward": "metal.tested_upward_pa",
    "metal.nail_shear": "metal.nail_shear_n",
}


def without(given: Job, key: str) -> Job:
    """The job with one key of its file left out; an entry of edges speaks of several sides."""
    if key == "assembly.rated_uplift":
        return replace(given, assembly=replace(given.assembly, rated_uplift_pa={}))
    entry = re.fullmatch(r"(roof\[0\]\.edges\[\d\])\.(.+)", key)
    if entry is not None:
        area = given.areas[0]
        path = METAL_FIELDS.get(entry[2], entry[2]).split(".")
        edges = tuple(nothing(edge, path) if edge.key == entry[1] else edge for edge in area.edges)
        return replace(given, areas=(replace(area, edges=edges),))
    path = re.findall(r"[\w']+", FIELDS.get(key, key).replace("roof[", "areas["))
    return nothing(given, path)


@pytest.mark.parametrize("given", JOBS.values(), ids=JOBS)
def test_with_every_input_nothing_is_unknown(given: Job) -> None:
    """The contract's roof, and a walled one with a nailed base."""
    assert [id for id, check in checks(given).items() if check.status == "unknown"] == []


@pytest.mark.parametrize(
    ("given", "key"),
    [pytest.param(given, key, id=f"{name}: {key}") for name, given in JOBS.items() for key in keys(given)],
)
def test_a_key_taken_away_turns_its_readers_unknown(given: Job, key: str) -> None:
    """Each check that names the key is unknown and asks for it; no other check changes in anything."""
    before, after = checks(given), checks(without(given, key))
    readers = [id for id, check in before.items() if key in check.uses]
    assert readers != []
    assert [id for id in readers if after[id].status != "unknown" or key not in after[id].supply] == []
    told = (lambda check: replace(check, steps=())) if key.endswith(BESIDE) else (lambda check: check)
    assert {id: told(check) for id, check in after.items() if id in before and id not in readers} == {
        id: told(check) for id, check in before.items() if id not in readers
    }
    # A side whose kind is gone may be anything: its checks that were not there before are unknown too.
    assert {check.status for id, check in after.items() if id not in before} <= {"unknown"}
