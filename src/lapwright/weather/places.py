"""How far a place whose weather is read lies from the roof (question 5)."""

from __future__ import annotations

import math

EARTH_KM = 6371.0  # mean radius


def km_between(one: tuple[float, float], other: tuple[float, float]) -> float:
    """Way over the ground between two places [km], each north and east [°].

    Source: great circle by haversines (Sinnott 1984 [from memory]), mean radius of the earth 6371 km
    Checked: tests/weather/test_ways_between.py
    """
    (north, east), (other_north, other_east) = (tuple(map(math.radians, place)) for place in (one, other))
    over = math.sin((other_north - north) / 2) ** 2
    along = math.cos(north) * math.cos(other_north) * math.sin((other_east - east) / 2) ** 2
    return 2 * EARTH_KM * math.asin(math.sqrt(min(over + along, 1.0)))
