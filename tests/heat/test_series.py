"""The exact series, against what must hold whatever the numbers."""

import numpy as np
import pytest

from lapwright.heat.series import cylinder, half_space_left, wall


@pytest.mark.parametrize("hole", [0.0, 0.2, 0.6])
@pytest.mark.parametrize("biot", [0.05, 1.0, 14.0, 200.0])
def test_all_is_left_at_the_start(biot: float, hole: float) -> None:
    """A moment after the start the mean of a cylinder is where it began."""
    assert cylinder(biot, hole).left_in_all(1e-9) == pytest.approx(1.0, abs=2e-3)


@pytest.mark.parametrize("hole", [0.0, 0.3])
def test_what_the_face_gives_off_is_what_the_cylinder_loses(hole: float) -> None:
    """Between two times the mean falls by as much as the film carries off the face, summed finely."""
    body, times = cylinder(3.0, hole), np.linspace(0.05, 0.25, 2001)
    face = np.array([body.left_at(1.0, float(time)) for time in times])
    carried = 3.0 * np.trapezoid(face, times) * 2 / (1 - hole**2)
    assert body.left_in_all(0.05) - body.left_in_all(0.25) == pytest.approx(carried, rel=1e-5)


def test_a_hole_that_is_a_pinprick_changes_nothing() -> None:
    """A hole of a thousandth of the radius is as good as none."""
    solid, pricked = cylinder(14.0), cylinder(14.0, 0.001)
    assert pricked.left_at(0.5, 0.1) == pytest.approx(solid.left_at(0.5, 0.1), abs=1e-5)


def test_a_wall_is_the_same_from_either_side() -> None:
    """Turned over, with its films, a wall has the same temperatures."""
    one, other = wall(2.0, 7.0), wall(7.0, 2.0)
    assert one.left_at(0.3, 0.1) == pytest.approx(other.left_at(0.7, 0.1), abs=1e-9)
    assert one.left_in_all(0.1) == pytest.approx(other.left_in_all(0.1), abs=1e-9)


def test_the_middle_of_a_wall_in_even_films_is_half_a_wall_with_no_flow() -> None:
    """Symmetry: the whole thickness with Bi 6 twice is the half thickness with Bi 3 and an insulated face."""
    assert wall(6.0, 6.0).left_at(0.5, 0.05) == pytest.approx(wall(0.0, 3.0).left_at(0.0, 0.2), abs=1e-9)


def test_a_roll_begins_as_a_thick_body() -> None:
    """In the first seconds the face of a cylinder is that of a half-space, but for its curve."""
    left = half_space_left(0.0, 1.0, film_w_m2k=14.0, conductivity=1.0, diffusivity=4e-4)
    assert cylinder(14.0).left_at(1.0, 4e-4) == pytest.approx(left, abs=0.01)


def test_deep_in_a_thick_body_nothing_happens_at_first() -> None:
    """No overflow and nothing lost a metre down after a second, under any film."""
    assert half_space_left(1.0, 1.0, film_w_m2k=1e6, conductivity=0.1, diffusivity=1e-7) == pytest.approx(1.0)
