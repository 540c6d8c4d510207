"""Layers by their modes against layers stepped through time."""

import numpy as np
import pytest

from lapwright.heat.contact import material
from lapwright.heat.layers import Layer, solve_layers, step_layers
from lapwright.heat.unrolled import SHEET_CELLS, SUBSTRATES, SheetAsk, sheet_clock, sheet_layers

ASK = SheetAsk(21.1, -3.9, 4.47, "gypsum", -3.9, 0.0, 10.0, 0.004)


@pytest.mark.parametrize("substrate", list(SUBSTRATES))
def test_modes_and_steps_agree(substrate: str) -> None:
    """After 60 and 300 s the sheet's mean is the same within 0.15 K, sun and contact in it."""
    ask = SheetAsk(21.1, -3.9, 4.47, substrate, -2.0, 200.0, 10.0, 0.004, 0.02)
    layers = sheet_layers(ask)
    modes = solve_layers(layers, air_c=-3.9, film_w_m2k=25.0, taken_in_w_m2=170.0)
    steps = 1200
    stepped = step_layers(
        layers,
        air_c=np.full(steps, -3.9),
        film_w_m2k=np.full(steps, 25.0),
        taken_in_w_m2=np.full(steps, 170.0),
        step_s=0.25,
    )
    by_steps = stepped[[239, 1199], :SHEET_CELLS].mean(axis=1)
    assert modes.mean_c(SHEET_CELLS, np.array([60.0, 300.0])) == pytest.approx(by_steps, abs=0.15)


def test_at_the_start_nothing_has_moved_and_at_last_all_is_as_the_air() -> None:
    """The modes give back the start, and the air and sun at the end."""
    modes = solve_layers(sheet_layers(ASK), air_c=-3.9, film_w_m2k=25.0, taken_in_w_m2=50.0)
    assert modes.mean_c(SHEET_CELLS, np.array([0.0, 1e9])) == pytest.approx([21.1, -1.9], abs=1e-6)


def test_heat_is_kept_where_none_can_leave() -> None:
    """Two layers of one stuff and a film of next to nothing end half-way between them."""
    stuff = material("sheet")
    assert stuff is not None
    modes = solve_layers(
        (Layer(stuff, 0.004, 20.0, 10), Layer(stuff, 0.004, 0.0, 10)), air_c=0.0, film_w_m2k=1e-9, taken_in_w_m2=0.0
    )
    assert modes.mean_c(20, np.array([1e4])) == pytest.approx([10.0], abs=1e-3)


def test_finer_cells_change_nothing() -> None:
    """The time to the limit on three times as many cells is the same within a hundredth."""
    coarse = sheet_layers(ASK)
    fine = tuple(Layer(one.made_of, one.thickness, one.start_c, 3 * one.cells, one.contact_m2k_w) for one in coarse)
    times = np.linspace(1, 200, 4000)
    by_coarse, by_fine = (
        np.interp(
            -10.0, -solve_layers(layers, air_c=-3.9, film_w_m2k=25.0, taken_in_w_m2=0.0).mean_c(cells, times), times
        )
        for layers, cells in ((coarse, SHEET_CELLS), (fine, 3 * SHEET_CELLS))
    )
    assert by_coarse == pytest.approx(by_fine, rel=0.01)


def test_a_sheet_in_warm_air_on_a_warm_deck_stays_warm() -> None:
    """No time where the sheet never falls, nought where it is cold to begin with; the steps say so."""
    warm = sheet_clock(SheetAsk(21.1, 20.0, 2.0, "gypsum", 20.0, 0.0, 10.0, 0.004))
    assert warm.until_s is None
    assert warm.steps[-1].result == "does not within a day"
    assert sheet_clock(SheetAsk(9.0, 20.0, 2.0, "gypsum", 20.0, 0.0, 10.0, 0.004)).until_s == 0.0
