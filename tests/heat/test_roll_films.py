"""Films of still air; air and films beside open libraries are in tests/published/live_films.py."""

import pytest

from lapwright.heat.rollfilm import roll_film_w_m2k, sheet_film_w_m2k


def test_in_still_air_warmth_itself_moves_the_air() -> None:
    """Without wind the film is that of still air, never nothing."""
    assert roll_film_w_m2k(10.0, -4.0, wind_m_s=0.0, diameter=0.226) > 6
    assert sheet_film_w_m2k(10.0, -4.0, wind_m_s=0.0) > 6


def test_a_body_as_warm_as_the_air_only_radiates() -> None:
    """No difference, no rising air: the film of still air is small, radiation stays."""
    assert roll_film_w_m2k(10.0, 10.0, wind_m_s=0.0, diameter=0.226) == pytest.approx(
        4 * 0.9 * 5.67e-8 * 283.15**3, rel=0.01
    )
