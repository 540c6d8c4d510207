"""Edge metal: the gauge that a face asks for, and the loads told beside it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.fasten.edgemetal import check_edge_metal
from lapwright.roof.values import Area, Edge, Metal
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
METAL = Metal(kind="galvanised", gauge=24, face=quantity_si("5 in"), flange=quantity_si("4 in"))


def roof(metal: Metal | None) -> tuple[Area, ...]:
    """A roof of 120' by 64' with metal along the south alone."""
    length, width = length_ticks("120'"), length_ticks("64'")
    corners = ((0, 0), (length, 0), (length, width), (0, width))
    kinds = ("metal_edge", "parapet", "parapet", "parapet")
    edges = tuple(
        Edge(side + 1, kind, corners[side], corners[(side + 1) % 4], key="roof[0].edges[0]" if side == 0 else "")
        for side, kind in enumerate(kinds)
    )
    edges = (replace(edges[0], metal=metal), *edges[1:])
    return (Area("Main", corners, edges, falls=(0.0, -1.0), slope=1 / 48),)


@pytest.mark.parametrize(
    ("kind", "gauge", "face", "status"),
    [
        ("galvanised", 24, "5 in", "pass"),
        ("galvanised", 26, "5 in", "fail"),
        ("galvanised", 26, "4 in", "pass"),
        ("galvanized", 22, "9 in", "pass"),
        ("aluminum", 16, "5 in", "pass"),
        ("aluminium", 18, "5 in", "fail"),
        ("copper", 16, "5 in", "pass"),
        ("copper", 16, "9 in", "fail"),
        ("copper", 20, "9 in", "pass"),
    ],
)
def test_a_wider_face_asks_for_thicker_metal(kind: str, gauge: int, face: str, status: str) -> None:
    """Sheet gauges are thicker as they fall, copper's ounces as they rise."""
    metal = replace(METAL, kind=kind, gauge=gauge, face=quantity_si(face))
    (check,) = check_edge_metal(roof(metal), BUILDING)
    assert (check.id, check.status) == ("metal.gauge-Main-1", status)
    assert check.source
    assert check.confirm


def test_loads_per_length_as_reckoned_by_hand() -> None:
    """8" face, 4" flange, outside air behind: 14.2 lb/ft out at the corner, 18.1 lb/ft up in zone 3."""
    (check,) = check_edge_metal(roof(replace(METAL, face=quantity_si("8 in"))), BUILDING)
    loads = {
        step.text.partition(",")[0] + step.text.split(",")[1]: step.values["load with outside air [N/m]"]
        for step in check.steps
        if step.unit == "N/m"
    }
    assert loads["Outward on the face wall zone 5"] == pytest.approx(
        quantity_si("14.2 plf"), abs=quantity_si("0.1 plf")
    )
    assert loads["Upward on the flange roof zone 3"] == pytest.approx(
        quantity_si("18.1 plf"), abs=quantity_si("0.1 plf")
    )


def test_sides_without_edge_metal_have_no_check() -> None:
    """Parapets are not asked for a gauge."""
    assert [check.id for check in check_edge_metal(roof(METAL), BUILDING)] == ["metal.gauge-Main-1"]


@pytest.mark.parametrize(
    ("metal", "building", "supply"),
    [
        (replace(METAL, gauge=None), BUILDING, ("roof[0].edges[0].metal.gauge",)),
        (replace(METAL, kind=None), BUILDING, ("roof[0].edges[0].metal.kind",)),
        (replace(METAL, kind="tin"), BUILDING, ("roof[0].edges[0].metal.kind",)),
        (replace(METAL, face=None), BUILDING, ("roof[0].edges[0].metal.face",)),
        (replace(METAL, flange=None), BUILDING, ("roof[0].edges[0].metal.flange",)),
        (replace(METAL, face=0.5), BUILDING, ("roof[0].edges[0].metal.face",)),
        (METAL, replace(BUILDING, wind_speed_m_s=None), ("building.wind_speed",)),
        (METAL, replace(BUILDING, elevation=None), ("site.elevation",)),
    ],
)
def test_what_is_missing_or_beyond_the_table_is_asked_for(
    metal: Metal, building: Building, supply: tuple[str, ...]
) -> None:
    """Each missing value alone leaves the check unknown and names its key."""
    (check,) = check_edge_metal(roof(metal), building)
    assert (check.status, check.supply) == ("unknown", supply)
    assert set(supply) <= set(check.uses)


def test_an_edge_without_metal_named_asks_for_all_of_it() -> None:
    """No `metal` in the job file: kind, gauge, face and flange are wanted."""
    (check,) = check_edge_metal(roof(None), BUILDING)
    assert check.supply == tuple(f"roof[0].edges[0].metal.{name}" for name in ("kind", "gauge", "face", "flange"))


def test_a_side_of_no_known_kind_is_unknown() -> None:
    """It may be a metal edge: its kind is asked for, nothing else."""
    (area,) = roof(METAL)
    blank = replace(area, edges=(replace(area.edges[0], kind=None), *area.edges[1:]))
    (check,) = check_edge_metal((blank,), BUILDING)
    assert (check.status, check.supply) == ("unknown", ("roof[0].edges[0].kind",))
