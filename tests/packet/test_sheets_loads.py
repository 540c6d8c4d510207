"""Plans of wind zones, nails, drainage and material on the roof: what they say, and when there is none."""

from __future__ import annotations

from dataclasses import replace

import pytest
from sample import sample_paper

from lapwright.assembly.values import Deck, Nailing, ZonePattern
from lapwright.deck.moisture import moisture_limits
from lapwright.deck.staging import staging_map
from lapwright.drains.places import water_maps
from lapwright.fasten.rows import fasten_maps
from lapwright.fasten.thermal import gap_table
from lapwright.packet.drawing import Plate, Text
from lapwright.packet.pages.lookup import open_book
from lapwright.packet.pages.readings import gap_words, metal_gaps, moisture
from lapwright.packet.plates import load_sheets
from lapwright.packet.values import Engineered, Paper
from lapwright.roof.values import Drain
from lapwright.units.read import quantity_si
from lapwright.wind.values import Building
from lapwright.wind.zonemap import zone_maps

BUILDING = Building(quantity_si("12 ft"), "C", quantity_si("115 mph"), 2, "enclosed", "ASCE 7-16", 0.0)
PATTERN = Nailing(0.2286, 0.4572, 2, 300.0, {"3": ZonePattern(0.1524, 0.1524, 3)})


def words(plate: Plate) -> str:
    """All lettering of a plate."""
    return " ".join(item.text for item in plate.items if isinstance(item, Text))


@pytest.fixture(scope="module")
def paper() -> Paper:
    """The sample with its base nailed, and everything that is drawn of it."""
    plain = sample_paper(with_days=False)
    base = replace(plain.assembly.plies[0], attachment="mechanically_fastened", nailing=PATTERN)
    assembly = replace(plain.assembly, plies=(base, *plain.assembly.plies[1:]))
    # one drain well up the fall of the first area, so that water stands at its low side
    x, y = plain.areas[0].outline[0]
    drain = Drain("D-9", "drain", at=(x + 800_000, y + 500_000), diameter=0.1)
    areas = (replace(plain.areas[0], drains=(drain,)), *plain.areas[1:])
    engineered = Engineered(
        zones=zone_maps(areas, BUILDING),
        nails=fasten_maps(areas, BUILDING, assembly.plies, plain.layout),
        water=water_maps(areas, rain_primary=quantity_si("4 in/h")),
        staging=staging_map(areas, Deck("steel", live_load_pa=quantity_si("30 psf")), rolls=30),
        moisture=moisture_limits(replace(assembly, deck=Deck("plywood"))),
        gaps=(("aluminium", gap_table("aluminium")),),
    )
    return replace(plain, areas=areas, assembly=assembly, engineered=engineered)


def test_each_plan_is_there_once(paper: Paper) -> None:
    """Zones, nails with their patterns, drainage, material."""
    assert [plate.title for plate in load_sheets(paper)] == [
        "Wind zones",
        "Nails of the base sheet",
        "Nails of the base sheet: patterns",
        "Drainage",
        "Material on the roof",
    ]


def test_a_job_that_gives_nothing_has_none() -> None:
    """No height, no drains, no live load: no plans."""
    assert load_sheets(sample_paper(with_days=False)) == ()


def test_zones_are_told_with_area_uplift_and_class(paper: Paper) -> None:
    """Every zone of the roof stands in the legend, and that the coefficients are from memory."""
    text = words(load_sheets(paper)[0])
    (zones,) = paper.engineered.zones
    for zone in (name for name, m2 in zones.areas_m2.items() if m2 > 0.01):
        assert f"zone {zone}," in text
        assert f"class {zones.pressures[zone].class_psf}" in text
    assert "from memory" in text


def test_patterns_are_told_zone_by_zone(paper: Paper) -> None:
    """Zones that share a pattern share its drawing; the corners have their own."""
    text = words(load_sheets(paper)[2])
    assert "Zone 3 laps at 6" in text
    assert "3 between at 6" in text
    assert "2 between at 1' 6" in text


def test_water_is_told_with_areas_and_places(paper: Paper) -> None:
    """Each way out has its area and flow; the 48 hours stand in the legend."""
    text = words(load_sheets(paper)[3])
    assert "D-9:" in text
    assert "gpm" in text
    assert "48 hours" in " ".join(text.split())


def test_boards_with_one_limit_share_a_line_of_the_day_sheet(paper: Paper) -> None:
    """Deck first, then the boards."""
    lines = list(moisture(open_book(paper)))
    assert lines[0][0] == "Moisture: Deck, plywood"
    assert "19 %" in lines[0][1]
    assert "the maker's limit governs" in lines[0][1]


def test_gaps_stand_on_the_day_on_which_metal_is_set(paper: Paper) -> None:
    """A gap by the metal's temperature, rounded up to a sixteenth: 12.9e-6 x 120 x 150 = 0.232 in at 0 degF."""
    book = open_book(paper)
    assert gap_words(book, quantity_si("0.232 in")) == '1/4"'
    days = sample_paper().days
    with_metal = [day for day in days if any(book.details[id].kind == "metal" for id in day.details)]
    without = [day for day in days if day not in with_metal]
    assert all('0 °F: 1/4"' in words for day in with_metal for _, words in metal_gaps(book, day))
    assert all(list(metal_gaps(book, day)) == [] for day in without)
