"""Which operations a roof has and by which limits they go."""

import numpy as np
import pytest
from hours_sample import BASE, CAP

from lapwright.assembly.values import Ply, Sheet
from lapwright.hours.limits import governing_c, held_for, limits_by_operation, lowest_c, temperature_state
from lapwright.hours.values import HEAT, OPEN, SHUT, WARM, Limits


def sheet(apply: float | None, warm: float | None, heat: float | None) -> Sheet:
    """A sheet with three limits."""
    return Sheet("s", 80_000, 800_000, 6096, 12192, None, apply, warm, heat)


def test_two_plies_with_metal_have_eight_operations() -> None:
    """No interply; laps and flashings go by the cap, metal by the mastic."""
    plies = (Ply("base", sheet(10, -5, None)), Ply("cap", sheet(12, None, -6)))
    found = limits_by_operation(plies, primer_c=4.0, mastic_c=None, has_metal=True)
    assert list(found) == ["primer", "base", "cap", "side_lap", "end_lap", "flashing", "mastic", "edge_metal"]
    assert found["base"] == Limits(10, -5, None)
    assert {found[operation] for operation in ("cap", "side_lap", "end_lap", "flashing")} == {Limits(12, None, -6)}
    assert found["primer"] == Limits(4.0, None, None)
    assert found["edge_metal"] == found["mastic"] == Limits(None, None, None)


def test_three_plies_without_metal() -> None:
    """The interply goes by its own sheet; there is no edge metal."""
    plies = (Ply("base", sheet(10, -5, None)), Ply("interply", sheet(8, 0, None)), Ply("cap", sheet(12, None, -6)))
    found = limits_by_operation(plies, primer_c=None, mastic_c=4.0, has_metal=False)
    assert found["interply"] == Limits(8, 0, None)
    assert "edge_metal" not in found


@pytest.mark.parametrize(
    ("value_c", "base", "cap"),
    [(10.0, OPEN, OPEN), (9.9, WARM, HEAT), (-6.6, WARM, HEAT), (-6.7, SHUT, SHUT), (np.nan, SHUT, SHUT)],
)
def test_states_go_down_with_the_temperature(value_c: float, base: int, cap: int) -> None:
    """At or above the first limit open; a base then goes down from warm rolls, a cap is welded; below, nothing."""
    value = np.array([value_c])
    assert temperature_state(value, BASE).tolist() == [base]
    assert temperature_state(value, CAP).tolist() == [cap]


def test_the_lowest_limit_is_the_lowest_that_is_given() -> None:
    """A sheet without a heat limit ends at its warm one; without the first limit nothing holds."""
    assert lowest_c(Limits(10, -5, None)) == -5
    assert lowest_c(Limits(10, 4, -6)) == -6
    assert lowest_c(Limits(10, None, None)) == 10
    assert lowest_c(Limits(None, -5, -6)) is None


def test_air_or_surface_as_the_maker_writes() -> None:
    """Sheets go by what the rule says; primer and mastic must have both."""
    air, surface = np.array([5.0]), np.array([12.0])
    chosen = {
        rule: governing_c(air, surface, held_for("cap", rule))[0] for rule in ("air", "surface", "air_and_surface")
    }
    assert chosen == {"air": 5.0, "surface": 12.0, "air_and_surface": 5.0}
    assert held_for("primer", "surface") == (True, True)
