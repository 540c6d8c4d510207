"""Areas of several heights, courtyards, and what is said of both."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.assembly.values import Assembly
from lapwright.roof.values import Area, Edge, Opening
from lapwright.units.read import length_ticks, quantity_si
from lapwright.wind.levels import levels
from lapwright.wind.pressure import AT_EDGES, roof_pressures
from lapwright.wind.uplift import check_uplift
from lapwright.wind.values import Building, WindCase
from lapwright.wind.zonemap import zone_maps
from lapwright.wind.zones import zone_areas_m2

FOOT = length_ticks("1'")
SF = quantity_si("1 sf")
BUILDING = Building(quantity_si("20 ft"), "C", quantity_si("115 mph"), 2, "enclosed", "ASCE 7-16", 0.0)
LISTED = Assembly((), rated_uplift_pa={"all": quantity_si("120 psf")})


def area(name: str, west: int, east: int, *, kind: str = "metal_edge", height: float | None = None) -> Area:
    """A strip 100 ft deep [ft]; its east and west sides are of a kind."""
    points = tuple((x * FOOT, y * FOOT) for x, y in ((west, 0), (east, 0), (east, 100), (west, 100)))
    kinds = ("metal_edge", kind, "metal_edge", kind)
    edges = tuple(Edge(k + 1, kinds[k], points[k], points[(k + 1) % 4]) for k in range(4))
    return Area(name, points, edges, (0.0, -1.0), 1 / 48, roof_height=height)


def test_areas_of_one_height_are_one_roof() -> None:
    """A strip that repeats the building's height belongs to the rest."""
    one = levels([area("A", 0, 100), area("B", 100, 200, height=quantity_si("20 ft"))], BUILDING)
    assert [(level.names, level.tag) for level in one] == [("A, B", "")]


def test_a_higher_part_has_its_own_zones_and_pressures() -> None:
    """Each has its own bands; the low part's field class stays what its own height asks."""
    low, high = area("Low", 0, 100), area("High", 100, 200, height=quantity_si("45 ft"))
    checks = {check.id: check for check in check_uplift([low, high], BUILDING, LISTED)}
    assert "wind.uplift-1'-Low" in checks
    assert "wind.uplift-1'-High" not in checks
    assert checks["wind.uplift-3-High"].demand > checks["wind.uplift-3-Low"].demand
    alone = {check.id: check for check in check_uplift([low], BUILDING, LISTED)}
    assert checks["wind.uplift-2-Low"].demand == alone["wind.uplift-2"].demand
    maps = {one.names: one for one in zone_maps([low, high], BUILDING)}
    assert sum(maps["Low",].areas_m2.values()) == pytest.approx(10_000 * SF, rel=1e-6)
    assert any("each height" in note for note in maps["High",].notes)


def test_a_missing_height_of_one_part_leaves_the_other_known() -> None:
    """The building's height is asked for by the parts without their own, no others."""
    low, high = area("Low", 0, 100), area("High", 100, 200, height=quantity_si("45 ft"))
    checks = check_uplift([low, high], replace(BUILDING, height=None), LISTED)
    unknown = {check.id for check in checks if check.status == "unknown"}
    assert unknown == {f"wind.uplift-{zone}-Low" for zone in ("1'", "1", "2", "3")}


def test_a_courtyard_is_an_edge_with_no_outside_corners() -> None:
    """200 x 200 ft, h 20: a court of 40 x 40 ft in the middle takes 40² out and a mitred band of 12 ft round it."""
    outline = [(0.0, 0.0), (60.96, 0.0), (60.96, 60.96), (0.0, 60.96)]
    court = [(24.384, 24.384), (36.576, 24.384), (36.576, 36.576), (24.384, 36.576)]
    kwargs = {"height": quantity_si("20 ft"), "standard": "ASCE 7-16"}
    plain = zone_areas_m2([outline], **kwargs)
    holed = zone_areas_m2([outline], yards=[court], **kwargs)
    assert holed["3"] == pytest.approx(plain["3"])
    assert (holed["2"] - plain["2"]) / SF == pytest.approx(64**2 - 40**2, rel=1e-6)
    assert (holed["1"] - plain["1"]) / SF == pytest.approx(88**2 - 64**2, rel=1e-6)
    assert sum(holed.values()) / SF == pytest.approx(200**2 - 40**2, rel=1e-6)


def test_a_shaft_in_the_job_is_a_courtyard_and_said_to_be() -> None:
    """Its rim ends the relief of parapets, too."""
    roof = area("A", 0, 200)
    court = Opening("COURT", "shaft", (80 * FOOT, 40 * FOOT), (30 * FOOT, 20 * FOOT))
    (found,) = zone_maps([replace(roof, openings=(court,))], BUILDING)
    assert sum(found.areas_m2.values()) == pytest.approx((20_000 - 600) * SF, rel=1e-6)
    assert any("courtyard" in note for note in found.notes)


def test_an_open_building_is_told_why_it_is_unknown() -> None:
    """Another figure serves it."""
    checks = check_uplift([area("A", 0, 200)], replace(BUILDING, enclosure="open"), LISTED)
    assert {check.status for check in checks} == {"unknown"}
    assert "another figure" in checks[0].steps[0].text


def test_behind_parapets_all_round_the_wind_presses_on_the_edges_as_on_walls() -> None:
    """Wall positive 1.0 less a tenth, 0.9 + 0.18: 1.08 qh against 0.48 qh in the open."""
    case = WindCase("ASCE 7-16", quantity_si("30 ft"), "C", quantity_si("115 mph"), SF * 10, parapet=1.0)
    zones = roof_pressures(case).zones
    assert zones[AT_EDGES].gcp == pytest.approx(0.9)
    assert AT_EDGES not in roof_pressures(replace(case, parapet=0.5)).zones


def test_a_hill_given_raises_every_pressure() -> None:
    """Kzt 1.2 is a fifth more, and the steps no longer say that the ground was taken as flat."""
    flat, hill = (
        check_uplift([area("A", 0, 200)], replace(BUILDING, topographic=kzt), LISTED)[0] for kzt in (None, 1.2)
    )
    pressures = [next(step.result for step in each.steps if step.formula == "0.6 p") for each in (flat, hill)]
    assert pressures[1] / pressures[0] == pytest.approx(1.2)
    assert any("taken as flat" in step.text for step in flat.steps)
    assert not any("taken as flat" in step.text for step in hill.steps)
