"""Ways between places."""

import math

import pytest

from lapwright.weather.places import km_between


@pytest.mark.parametrize(
    ("one", "other", "km"),
    [
        ((0.0, 0.0), (90.0, 0.0), 6371.0 * math.pi / 2),  # a quarter of a meridian
        ((0.0, 179.0), (0.0, -179.0), 6371.0 * math.pi / 90),  # two degrees across the date line
        ((60.0, 0.0), (60.0, 180.0), 6371.0 * math.pi / 3),  # over the pole, 60 degrees
        ((36.1, -79.95), (36.1, -79.95), 0.0),
        # Big Ben to the Statue of Liberty, 5,575 km (worked example of a geodesy text [from memory])
        ((51.5007, -0.1246), (40.6892, -74.0445), 5575.0),
    ],
)
def test_ways_over_the_ground(one: tuple[float, float], other: tuple[float, float], km: float) -> None:
    """By plain arithmetic on the sphere, and a known pair within 1 km."""
    assert km_between(one, other) == pytest.approx(km, abs=1.0)
