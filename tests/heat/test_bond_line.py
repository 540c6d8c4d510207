"""First touch of sheet and substrate, and what the build-up lets through."""

import numpy as np
import pytest

from lapwright.assembly.values import Assembly, Board
from lapwright.heat.contact import Material, contact_temperature_c, material
from lapwright.heat.inside import resistance_m2k_w, transmittance_w_m2k

SOFT = Material("soft", 1.0, 1.0, 1.0)
HARD = Material("hard", 9.0, 1.0, 1.0)


def test_the_bond_line_is_nearer_to_the_body_of_greater_effusivity() -> None:
    """Effusivities of 1 and 3: a quarter of the way from the hard body's temperature."""
    bond = contact_temperature_c(np.array([20.0]), np.array([0.0]), upper=SOFT, lower=HARD)
    assert bond.tolist() == [5.0]


def test_two_bodies_of_one_temperature_stay_so() -> None:
    """No difference, no change."""
    assert contact_temperature_c(np.array([7.0]), np.array([7.0]), upper=SOFT, lower=HARD).tolist() == [7.0]


@pytest.mark.parametrize("kind", ["concrete", "steel", "plywood", "plank", "gypsum", "polyiso", "sheet", "base"])
def test_the_kinds_of_the_job_file_have_a_material(kind: str) -> None:
    """Each deck, board and sheet of a job file can be touched."""
    assert material(kind) is not None


@pytest.mark.parametrize("kind", [None, "", "straw"])
def test_another_kind_has_none(kind: str | None) -> None:
    """What is not in the table is not guessed."""
    assert material(kind) is None


def test_unknown_boards_are_not_guessed() -> None:
    """No kind, no thickness or another kind: no resistance."""
    for board in (None, Board("polyiso", None), Board(None, 0.05), Board("straw", 0.05)):
        assert resistance_m2k_w(board) is None


def test_a_roof_without_known_insulation_has_no_transmittance() -> None:
    """A cover board alone does not tell how warm the roof is kept."""
    assert transmittance_w_m2k(Assembly(plies=(), cover_board=Board("gypsum", 0.0127))) is None


def test_a_cover_board_lowers_the_transmittance() -> None:
    """Resistances add up: half an inch of gypsum (R 0.45) on 3 in of polyiso (R 15) takes 3 % off."""
    insulation, cover = Board("polyiso", 0.0762), Board("gypsum", 0.0127)
    bare = transmittance_w_m2k(Assembly(plies=(), insulation=insulation))
    covered = transmittance_w_m2k(Assembly(plies=(), insulation=insulation, cover_board=cover))
    assert bare is not None
    assert covered is not None
    assert covered / bare == pytest.approx(15.61 / 16.06, abs=0.002)
