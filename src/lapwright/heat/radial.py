"""A roll outside in weather that changes: rings of cells stepped through the hours (question 6).

The series of `rollclock` holds for one air and one film; this takes them as they come.  With both held still the two
give the same times, which proves each by the other (tests/heat/test_rollclock.py).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from scipy.linalg import solve_banded

from lapwright.heat.contact import Material
from lapwright.weather.values import Array


@dataclass(frozen=True, slots=True)
class Rings:
    """A roll cut into rings of one depth: radii of their edges [m], (cells + 1,); areas over pi [m²], (cells,)."""

    edges: Array
    areas: Array
    made_of: Material

    def mean_of_outer(self, cells_c: Array, depth: float) -> Array:
        """Mean by area of what lies within a depth of the face [m]; cells_c: (..., cells)."""
        inner = self.edges[-1] - depth
        weights = np.clip(self.edges[1:] ** 2 - np.maximum(self.edges[:-1], inner) ** 2, 0.0, None)
        mean: Array = cells_c @ (weights / weights.sum())
        return mean

    def share_above(self, cells_c: Array, until_c: float) -> Array:
        """Share of the sheet's length in rings above a limit [1]; cells_c: (..., cells)."""
        share: Array = (cells_c > until_c) @ (self.areas / self.areas.sum())
        return share


def rings(radius: float, hole: float, made_of: Material, cells: int = 120) -> Rings:
    """A roll of an outer and an inner radius [m], cut into rings.

    Source: geometry
    """
    edges = np.linspace(hole, radius, cells + 1)
    return Rings(edges, np.diff(edges**2), made_of)


def step_rings(roll: Rings, start_c: Array, *, air_c: Array, film_w_m2k: Array, step_s: float) -> Array:
    """The rings after each step [°C], (steps, cells).

    Args:
        start_c: (cells,); air_c, film_w_m2k: over each step, (steps,).

    Holds for: steps that are short beside the time looked for; implicit, so it stays calm at any step.
    Source: Fourier's law between rings, implicit Euler steps
    Checked: tests/heat/test_rollclock.py
    """
    k = roll.made_of.conductivity
    edges = roll.edges
    depth = edges[1] - edges[0]
    heat = roll.made_of.density * roll.made_of.specific_heat * roll.areas / 2 / step_s
    between = k * edges[1:-1] / depth
    bands = np.zeros((3, len(heat)))
    bands[0, 1:] = bands[2, :-1] = -between
    bands[1] = heat
    bands[1, :-1] += between
    bands[1, 1:] += between
    face = edges[-1] / (1 / film_w_m2k + depth / 2 / k)
    alone = float(bands[1, -1])
    now_c = np.asarray(start_c, dtype=float)
    found = np.empty((len(air_c), len(now_c)))
    for index in range(len(air_c)):
        bands[1, -1] = alone + face[index]
        given = heat * now_c
        given[-1] += face[index] * air_c[index]
        now_c = solve_banded((1, 1), bands, given, check_finite=False)
        found[index] = now_c
    return found
