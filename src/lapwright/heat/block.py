"""A pallet of rolls as one block: warmed or cooled through its six faces (question 6).

Conduction in a block is the product of conduction through three walls, where it starts at one temperature and stands
in air of another; so the answer is exact, and a block of cells proves it (tests/reference/block_cells.py).
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from lapwright.heat.series import NOTHING_LEFT, Wall, product_left, wall

_PLACES = 101  # places up the block that are looked at for the coldest one
_FIRST_S = 1.0


@dataclass(frozen=True, slots=True)
class Block:
    """A block: east, north, up [m] with their walls; diffusivity [m²/s]."""

    east: float
    north: float
    up: float
    diffusivity_m2_s: float
    across: tuple[Wall, Wall, Wall]

    def last_left(self, seconds: float) -> float:
        """What is left at the place where most is left [1]: the middle in plan, somewhere up the middle."""
        return self._last_left()(seconds)

    def _last_left(self) -> Callable[[float], float]:
        """The same by seconds, its waves worked out once."""
        sizes = (self.east, self.north, self.up)
        middle, whole = np.array([0.5]), np.linspace(0, 1, _PLACES)
        waves = [one.waves(at) for one, at in zip(self.across, (middle, middle, whole), strict=True)]

        def left(seconds: float) -> float:
            parts = (
                float(np.max(wave @ one.faded(self.diffusivity_m2_s * seconds / size**2)))
                for wave, one, size in zip(waves, self.across, sizes, strict=True)
            )
            return min(product_left(list(parts)), 1.0)

        return left

    def mean_left(self, seconds: float) -> float:
        """The mean of what is left [1]."""
        fourier = [self.diffusivity_m2_s * seconds / size**2 for size in (self.east, self.north, self.up)]
        return product_left([one.left_in_all(at) for one, at in zip(self.across, fourier, strict=True)])

    def seconds_until(self, left: float, *, mean: bool) -> float | None:
        """When so much is left, of the mean or where most is left [s]: 0 at once, None never."""
        if left >= 1:
            return 0.0
        if left <= NOTHING_LEFT:
            return None
        left_at = self.mean_left if mean else self._last_left()
        last = _FIRST_S
        if left_at(last) <= left:
            return 0.0
        while left_at(last) > left:
            last *= 4
        return float(brentq(lambda seconds: left_at(seconds) - left, last / 4, last, rtol=1e-8))


def block(
    size: tuple[float, float, float],
    *,
    conductivity: float,
    volumetric_heat: float,
    side_w_m2k: float,
    top_w_m2k: float,
    bottom_w_m2k: float,
) -> Block:
    """A block with its films.

    Args:
        size: east, north, up [m]; volumetric_heat [J/m³·K].

    Source: product of three walls, Incropera et al., ch. 5 [from memory]; walls of Carslaw and Jaeger, ch. 3
    Checked: tests/published/rolls.csv store-wrapped, store-three; tests/reference/test_pallet_cells.py
    """
    east, north, up = size
    sides = [side_w_m2k * each / conductivity for each in (east, north)]
    across = (
        wall(sides[0], sides[0]),
        wall(sides[1], sides[1]),
        wall(bottom_w_m2k * up / conductivity, top_w_m2k * up / conductivity),
    )
    return Block(east, north, up, conductivity / volumetric_heat, across)
