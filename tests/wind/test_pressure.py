"""Pressures against a printed table of an older insurer's standard, and what must hold between cases."""

from __future__ import annotations

from dataclasses import replace

import pytest

from lapwright.units.read import quantity_si
from lapwright.wind.coefficients import gcp
from lapwright.wind.pressure import kz, roof_pressures, velocity_pressure_pa
from lapwright.wind.values import WindCase

SPEEDS = (85, 90, 100, 110, 120, 130, 140, 150, 160, 170, 185)
# FM Global Property Loss Prevention Data Sheet 1-28, older edition, Table 3: roof field, exposure B, whole psf, nominal
# wind speed with importance 1.15, Kd 0.85 (neither printed in the part read; 1.15 stated elsewhere by the same house).
DATA_SHEET = {
    15: (15, 17, 21, 25, 30, 35, 41, 47, 53, 60, 71),
    30: (15, 17, 21, 25, 30, 35, 41, 47, 53, 60, 71),
    60: (18, 20, 25, 31, 36, 43, 49, 57, 65, 73, 86),
    100: (28, 32, 39, 47, 56, 66, 77, 88, 100, 113, 134),
}
PRINTED = [(h, v, p) for h, row in DATA_SHEET.items() for v, p in zip(SPEEDS, row, strict=True)]


@pytest.fixture
def case() -> WindCase:
    """A plain case: 30 ft, exposure C, 115 mph, 10 sf."""
    return WindCase("ASCE 7-16", quantity_si("30 ft"), "C", quantity_si("115 mph"), quantity_si("10 sf"))


@pytest.mark.parametrize(("height_ft", "mph", "psf"), PRINTED)
def test_an_older_data_sheet_prints_the_same_field_pressure(height_ft: int, mph: int, psf: int) -> None:
    """Kz with its floor, Kd, GCp below and above 60 ft and GCpi give each cell to the printed whole psf."""
    height = quantity_si(f"{height_ft} ft")
    exposure = kz(height, "B", standard="ASCE 7-10")
    q_pa = velocity_pressure_pa(quantity_si(f"{mph} mph"), kz=exposure, kd=0.85)
    net = 1.15 * q_pa * (gcp("1", standard="ASCE 7-10", height=height, area=quantity_si("10 sf")) - 0.18)
    assert -net == pytest.approx(quantity_si(f"{psf} psf"), abs=quantity_si("0.6 psf"))


def test_directionality_moves_but_the_pressure_stays(case: WindCase) -> None:
    """7-22 takes Kd out of qh and puts it into p: at the height where both Kz are 1, p is the same and qh is not."""
    old = roof_pressures(replace(case, height=quantity_si("32.81 ft")))
    new = roof_pressures(replace(case, height=quantity_si("32.81 ft"), standard="ASCE 7-22"))
    assert new.zones["2"].strength_pa == pytest.approx(old.zones["2"].strength_pa, rel=5e-3)
    assert new.qh_pa / old.qh_pa == pytest.approx(1 / 0.85, rel=5e-3)


@pytest.mark.parametrize(
    ("standard", "height", "zones"),
    [
        ("ASCE 7-16", "60 ft", ["1'", "1", "2", "3", "positive"]),
        ("ASCE 7-22", "20 ft", ["1'", "1", "2", "3", "positive"]),
        ("ASCE 7-10", "60 ft", ["1", "2", "3", "positive"]),
        ("ASCE 7-16", "61 ft", ["1", "2", "3", "positive"]),
    ],
)
def test_the_figure_follows_edition_and_height(case: WindCase, standard: str, height: str, zones: list[str]) -> None:
    """Zone 1' is known to 7-16 and 7-22 up to 60 ft alone."""
    assert list(roof_pressures(replace(case, standard=standard, height=quantity_si(height))).zones) == zones


@pytest.mark.parametrize(("parapet", "zone_3_as"), [("36 in", "2"), ("35 in", "3")])
def test_a_parapet_of_three_feet_makes_the_corner_an_edge(case: WindCase, parapet: str, zone_3_as: str) -> None:
    """From exactly 3 ft on zone 3 takes the pressure of zone 2; just under, its own."""
    bare = roof_pressures(case).zones
    behind = roof_pressures(replace(case, parapet=quantity_si(parapet))).zones
    assert behind["3"].asd_pa == bare[zone_3_as].asd_pa
    assert behind["2"].asd_pa == bare["2"].asd_pa


@pytest.mark.parametrize(
    ("less", "more"),
    [
        ({"speed_m_s": 40.0}, {"speed_m_s": 50.0}),
        ({"height": 8.0}, {"height": 12.0}),
        ({"exposure": "B"}, {"exposure": "D"}),
        ({"elevation": 1500.0}, {"elevation": 0.0}),
        ({"enclosure": "enclosed"}, {"enclosure": "partially_enclosed"}),
        ({"area": 40.0}, {"area": 0.9}),
    ],
)
def test_more_wind_lifts_harder(case: WindCase, less: dict[str, object], more: dict[str, object]) -> None:
    """Faster, higher, more open, lower ground and a smaller area all raise the uplift in every zone."""
    calm, rough = (roof_pressures(replace(case, **change)).zones for change in (less, more))
    assert all(rough[zone].strength_pa < calm[zone].strength_pa for zone in ("1", "2", "3"))


def test_every_zone_shows_how_it_came_about(case: WindCase) -> None:
    """The steps end at the working-level pressure that the zone states, and the first of them are shared."""
    pressures = roof_pressures(case)
    assert [step.result for step in pressures.steps] == [pressures.kz, pressures.ke, pressures.qh_pa]
    for zone, steps in pressures.zone_steps.items():
        assert steps[-1].result == pressures.zones[zone].asd_pa
    assert "-2.3 is the safe side" in pressures.zone_steps["2"][0].text
