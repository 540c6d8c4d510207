"""One check a zone; what is missing makes exactly the zones that need it unknown."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fnmatch import fnmatchcase

import pytest

from lapwright.assembly.values import Assembly
from lapwright.roof.values import Area, Edge
from lapwright.units.read import length_ticks, quantity_si
from lapwright.wind.uplift import USES, check_uplift
from lapwright.wind.values import Building

BUILDING = Building(
    height=quantity_si("22 ft"),
    exposure="C",
    wind_speed_m_s=quantity_si("112 mph"),
    risk_category=2,
    enclosure="enclosed",
    standard="ASCE 7-16",
    elevation=quantity_si("886 ft"),
)
ASSEMBLY = Assembly(plies=(), rated_uplift_pa={"all": quantity_si("90 psf")})


def roof(*kinds: str | None, height: float | None = 0.762) -> tuple[Area, ...]:
    """120' by 64', its four sides of the given kinds, south first."""
    length, width = length_ticks("120'"), length_ticks("64'")
    corners = ((0, 0), (length, 0), (length, width), (0, width))
    edges = tuple(
        Edge(
            side=index + 1,
            kind=kind,
            start=corners[index],
            end=corners[(index + 1) % 4],
            height=height if kind == "parapet" else None,
            key=f"roof[0].edges[{index}]",
        )
        for index, kind in enumerate(kinds)
    )
    return (Area("Main", corners, edges, falls=(0.0, -1.0), slope=1 / 48),)


OPEN_SOUTH = roof("metal_edge", "parapet", "parapet", "parapet")


def test_each_zone_of_the_roof_is_judged_by_its_class() -> None:
    """By hand, Kz 0.9202, Ke 0.9684, qh 24.32 psf: ASD 15.8, 27.4, 36.2, 49.3 psf ask for 60, 60, 75, 105."""
    checks = check_uplift(OPEN_SOUTH, BUILDING, ASSEMBLY)
    assert [check.id for check in checks] == ["wind.uplift-1'", "wind.uplift-1", "wind.uplift-2", "wind.uplift-3"]
    asked = [quantity_si(f"{psf} psf") for psf in (60, 60, 75, 105)]
    assert [check.demand for check in checks] == pytest.approx(asked)
    assert [check.status for check in checks] == ["pass", "pass", "pass", "fail"]
    assert all(check.unit == "Pa" and check.source and check.confirm and check.steps for check in checks)


def test_a_listing_of_exactly_the_class_passes() -> None:
    """105 psf typed is 105 psf asked for, whatever the conversion does to the last bit."""
    checks = check_uplift(OPEN_SOUTH, BUILDING, replace(ASSEMBLY, rated_uplift_pa={"all": quantity_si("105 psf")}))
    assert checks[-1].status == "pass"


def test_a_zone_that_the_outline_lacks_is_not_judged() -> None:
    """At 30 ft the 64 ft wide roof is under 2.4 h: no zone 1'."""
    checks = check_uplift(OPEN_SOUTH, replace(BUILDING, height=quantity_si("30 ft")), ASSEMBLY)
    assert [check.id for check in checks] == ["wind.uplift-1", "wind.uplift-2", "wind.uplift-3"]


def test_three_feet_of_parapet_all_round_relieve_the_corners() -> None:
    """Zone 3 then asks for the class of zone 2; one side without a parapet ends that."""
    walled = check_uplift(roof(*4 * ["parapet"], height=0.9144), BUILDING, ASSEMBLY)
    assert walled[3].demand == walled[2].demand
    opened = check_uplift(roof(*3 * ["parapet"], "metal_edge", height=0.9144), BUILDING, ASSEMBLY)
    assert opened[3].demand > opened[2].demand


def test_a_listing_by_zone_serves_its_own_zone() -> None:
    """A zone without a listed value is unknown and names the key, the others are judged."""
    listed = replace(ASSEMBLY, rated_uplift_pa={zone: quantity_si("120 psf") for zone in ("1'", "1", "3")})
    checks = check_uplift(OPEN_SOUTH, BUILDING, listed)
    assert [check.status for check in checks] == ["pass", "pass", "unknown", "pass"]
    assert checks[2].supply == ("assembly.rated_uplift.2",)


def without(name: str) -> Building:
    """The building with one value not given."""
    return replace(BUILDING, **{name: None})


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("height", "building.height"),
        ("exposure", "building.exposure"),
        ("wind_speed_m_s", "building.wind_speed"),
        ("risk_category", "building.risk_category"),
        ("enclosure", "building.enclosure"),
        ("standard", "building.standard"),
        ("elevation", "site.elevation"),
    ],
)
def test_a_missing_value_of_the_building_leaves_every_zone_unknown(name: str, key: str) -> None:
    """The same four checks stay, each unknown for that one key."""
    checks = check_uplift(OPEN_SOUTH, without(name), ASSEMBLY)
    assert len(checks) == 4
    assert {check.status for check in checks} == {"unknown"}
    assert {check.supply for check in checks} == {(key,)}


@pytest.mark.parametrize(
    ("areas", "assembly", "unknown_ids", "supply"),
    [
        (roof(None, *3 * ["parapet"]), ASSEMBLY, ["wind.uplift-3"], "roof[0].edges[0].kind"),
        (
            roof(*4 * ["parapet"], height=None),
            ASSEMBLY,
            ["wind.uplift-3"],
            "roof[0].edges[0].height",
        ),
        (
            OPEN_SOUTH,
            Assembly(plies=()),
            ["wind.uplift-1'", "wind.uplift-1", "wind.uplift-2", "wind.uplift-3"],
            "assembly.rated_uplift",
        ),
    ],
)
def test_only_the_zones_that_read_a_value_miss_it(
    areas: tuple[Area, ...], assembly: Assembly, unknown_ids: list[str], supply: str
) -> None:
    """Edges serve the corner zone alone, the listed value every zone."""
    checks = check_uplift(areas, BUILDING, assembly)
    assert [check.id for check in checks if check.status == "unknown"] == unknown_ids
    assert checks[-1].supply[0] == supply


def test_a_parapet_whose_height_cannot_matter_is_not_asked_for() -> None:
    """With one side open no parapet height is read, and none missing makes a check unknown."""
    checks = check_uplift(roof("metal_edge", *3 * ["parapet"], height=None), BUILDING, ASSEMBLY)
    assert "unknown" not in {check.status for check in checks}


def test_a_roof_steeper_than_the_figure_is_unknown() -> None:
    """The coefficients end at 7 degrees."""
    steep = (replace(OPEN_SOUTH[0], slope=0.13),)
    assert {check.supply for check in check_uplift(steep, BUILDING, ASSEMBLY)} == {("roof[0].slope (at most 7 deg)",)}


def test_what_is_used_stands_in_the_table() -> None:
    """Every key that a check names fits a pattern of USES, edges by index."""
    matches: Callable[[str, str], bool] = fnmatchcase
    for areas in (OPEN_SOUTH, roof(*4 * ["parapet"])):
        for check in check_uplift(areas, BUILDING, ASSEMBLY):
            patterns = [p for id, keys in USES.items() if matches(check.id, id) for p in keys]
            escaped = [p.replace("[*]", "[[]*[]]") for p in patterns]
            assert all(any(matches(key, p) for p in escaped) for key in check.uses), check.uses
