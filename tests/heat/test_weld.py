"""Weld speed: the test weld stays what it was; colder or with fewer volts is never faster; the tool's limits hold."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from lapwright.heat.weld import WeldAsk, at_sheet, contact_number, is_retest_due, weld_speed

PROVED = WeldAsk(proved_speed_m_s=0.0762, proved_sheet_c=20, sheet_c=20, nozzle_c=550)
sheets = st.floats(-40, 80)
airs = st.floats(-50, 45)
nozzles = st.floats(200, 750)
losses = st.floats(0, 0.5)


@given(nozzle=nozzles, sheet=sheets)
def test_the_proved_lap_keeps_its_speed(nozzle: float, sheet: float) -> None:
    """The same sheet, the same volts: ratio 1."""
    found = weld_speed(replace(PROVED, nozzle_c=nozzle, proved_sheet_c=sheet, sheet_c=sheet))
    assert found.ratio == pytest.approx(1, abs=1e-12)


@given(nozzle=nozzles, one=sheets, other=sheets, lost=losses)
def test_colder_is_never_faster(nozzle: float, one: float, other: float, lost: float) -> None:
    """Of two sheets the colder one is never welded faster."""
    cold, warm = (
        weld_speed(replace(PROVED, nozzle_c=nozzle, sheet_c=sheet, volts_lost_share=lost)).ratio or 0.0
        for sheet in sorted((one, other))
    )
    assert cold <= warm + 1e-12


@given(sheet=sheets, one=losses, other=losses, air=airs)
def test_fewer_volts_are_never_faster(sheet: float, one: float, other: float, air: float) -> None:
    """Of two shares lost the greater never welds faster, whatever the air."""
    ask = replace(PROVED, sheet_c=sheet, proved_air_c=20, air_c=air)
    much, little = (
        weld_speed(replace(ask, volts_lost_share=share)).ratio or 0.0 for share in sorted((one, other), reverse=True)
    )
    assert much <= little + 1e-12


@given(sheet=sheets, one=airs, other=airs)
def test_colder_air_is_never_faster(sheet: float, one: float, other: float) -> None:
    """A tool that draws colder air never welds faster."""
    cold, warm = (
        at_sheet(replace(PROVED, proved_air_c=20), sheet, air_c=air).ratio or 0.0 for air in sorted((one, other))
    )
    assert cold <= warm + 1e-12


@given(share=st.floats(0, 0.999999))
def test_contact_number_solves_the_exact_solution(share: float) -> None:
    """Heat flows into a thick body stepped through in time: the face is as warm as the solution says."""
    from scipy.special import erfcx

    assert 1 - erfcx(contact_number(share)) == pytest.approx(share, abs=1e-12)


def slow_face(share: float, *, film: float, conductivity: float, diffusivity: float) -> float:
    """Seconds until the face of a thick body is a share of the way to the jet, by explicit steps through cells."""
    size = 1e-5
    step = 0.4 * size**2 / diffusivity
    left, seconds = np.ones(300), 0.0  # 3 mm, of which the heat reaches a tenth
    to_face = 1 / (1 + film * size / 2 / conductivity)
    while 1 - left[0] * to_face < share:
        slopes = np.concatenate(([film / conductivity * left[0] * to_face], np.diff(left) / size, [0.0]))
        left = left + step * diffusivity * np.diff(slopes) / size
        seconds += step
    return seconds


@pytest.mark.parametrize("sheet_c", [-17.8, -3.9, 32.2])
def test_ratio_against_cells_stepped_through(sheet_c: float) -> None:
    """Times under the nozzle by slow steps through a cut-up body, for the proved sheet and another: the same ratio."""
    own = {"film": 200.0, "conductivity": 0.19, "diffusivity": 1.16e-7}
    proved = slow_face((150 - 20) / (550 - 20), **own)
    other = slow_face((150 - sheet_c) / (550 - sheet_c), **own)
    assert at_sheet(PROVED, sheet_c).ratio == pytest.approx(proved / other, rel=0.005)


@pytest.mark.parametrize(
    ("change", "why"),
    [
        ({"slowest_m_s": 0.07, "sheet_c": 0.0}, "Slower than the tool goes: warm the lap first"),
        ({"fastest_m_s": 0.08, "sheet_c": 40.0}, "Faster than the tool goes, any slower scorches"),
        ({"nozzle_c": 200.0, "volts_lost_share": 0.4}, "With the volts lost the nozzle is no hotter"),
        ({"nozzle_c": 160.0, "proved_air_c": 20.0, "air_c": -10.0}, "In air so cold the nozzle is no hotter"),
        ({"sheet_c": 151.0}, "A sheet as hot as a welded face needs no nozzle"),
        ({"nozzle_c": 140.0}, "The nozzle of the test weld is no hotter"),
    ],
    ids=["slow", "fast", "volts", "cold air", "sheet", "nozzle"],
)
def test_what_the_tool_can_not_weld_has_no_speed(change: dict[str, float], why: str) -> None:
    """No speed, and words that say why and what to do; they stand among the steps."""
    found = weld_speed(replace(PROVED, **change))
    assert found.speed_m_s is None
    assert found.why.startswith(why)
    assert found.why in [step.text for step in found.steps]


def test_at_the_tools_own_limits_it_still_welds() -> None:
    """A speed that is just the slowest or the fastest is one that the tool has."""
    found = weld_speed(replace(PROVED, slowest_m_s=0.0762 * 0.999999, fastest_m_s=0.0762 * 1.000001))
    assert found.speed_m_s == pytest.approx(0.0762)


@pytest.mark.parametrize(
    ("sheet_f", "lost", "expected"),
    [(70, 0.0, False), (60.1, 0.0, False), (60, 0.0, True), (80, 0.0, True), (70, 0.02, True)],
)
def test_a_new_test_weld_is_due(sheet_f: float, lost: float, expected: bool) -> None:
    """Ten degrees Fahrenheit either way, or other volts."""
    ask = replace(PROVED, proved_sheet_c=(70 - 32) / 1.8, sheet_c=(sheet_f - 32) / 1.8, volts_lost_share=lost)
    assert is_retest_due(ask) is expected


def test_it_is_said_to_be_computed() -> None:
    """The last step says that no source gives such figures, and who judges."""
    last = weld_speed(replace(PROVED, sheet_c=0)).steps[-1].text
    assert last.startswith("Computed, not published: no source gives nozzle or speed figures")
    assert "The test weld stays the judge" in last
