"""Heat through flat layers, one cell after another: a sheet, what it lies on, what lies under that (question 6).

The layers are cut into cells; between two cells flows what their halves and a contact between them let through.
With films and sun that stay as they are this is a linear system, and it is solved by its own modes: exact in time,
whatever the step.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.linalg import eigh_tridiagonal, solve_banded

from lapwright.heat.contact import Material
from lapwright.weather.values import Array


@dataclass(frozen=True, slots=True)
class Layer:
    """A flat layer: thickness [m], what it is made of, its temperature at the start [°C], cells.

    contact_m2k_w: resistance between it and the layer above [m²·K/W].
    """

    made_of: Material
    thickness: float
    start_c: float
    cells: int
    contact_m2k_w: float = 0.0


@dataclass(frozen=True, slots=True)
class Modes:
    """The solved layers: what they come to at last [°C], (cells,), and their modes, which fade by `rates` [1/s].

    shares: (cells, modes); strengths: (modes,).
    """

    last_c: Array
    rates: Array
    shares: Array
    strengths: Array

    def mean_c(self, cells: int, seconds: Array) -> Array:
        """Mean of the first so many cells, which are alike, at some times [°C], (times,)."""
        fading = np.exp(-np.outer(seconds, self.rates))
        mean: Array = self.last_c[:cells].mean() + fading @ (self.shares[:cells].mean(axis=0) * self.strengths)
        return mean


def solve_layers(layers: Sequence[Layer], *, air_c: float, film_w_m2k: float, taken_in_w_m2: float) -> Modes:
    """Layers from the top down, air over them, nothing through the bottom.

    Args:
        film_w_m2k: from the top face to the air; taken_in_w_m2: sun that the top face keeps.

    Source: Fourier's law between cells, method of our own for time: modes of the symmetric system
    Checked: tests/heat/test_sheet_layers.py, tests/published/rolls.csv sheet-*
    """
    heat, between, top = _cells(layers, film_w_m2k)
    outside_c = air_c + taken_in_w_m2 / film_w_m2k
    diagonal = np.zeros_like(heat)
    diagonal[:-1] += between
    diagonal[1:] += between
    diagonal[0] += top
    root = np.sqrt(heat)
    rates, vectors = eigh_tridiagonal(diagonal / heat, -between / (root[:-1] * root[1:]))
    last_c = np.full_like(heat, outside_c)  # nothing leaves at the bottom, so all comes to the outside at last
    start_c = np.concatenate([np.full(layer.cells, layer.start_c) for layer in layers])
    return Modes(last_c, rates, vectors / root[:, None], vectors.T @ (root * (start_c - last_c)))


def step_layers(
    layers: Sequence[Layer], *, air_c: Array, film_w_m2k: Array, taken_in_w_m2: Array, step_s: float
) -> Array:
    """The same layers stepped through weather that changes, implicitly; the cells after each step [°C], (steps, cells).

    air_c, film_w_m2k, taken_in_w_m2: (steps,).
    Source: Fourier's law between cells, implicit Euler steps
    Checked: tests/heat/test_sheet_layers.py
    """
    now_c = np.concatenate([np.full(layer.cells, layer.start_c) for layer in layers])
    found = np.empty((len(air_c), len(now_c)))
    for index, (air, film, sun) in enumerate(zip(air_c, film_w_m2k, taken_in_w_m2, strict=True)):
        heat, between, top = _cells(layers, float(film))
        bands = np.zeros((3, len(heat)))
        bands[0, 1:] = bands[2, :-1] = -between
        bands[1] = heat / step_s
        bands[1, :-1] += between
        bands[1, 1:] += between
        bands[1, 0] += top
        given = heat / step_s * now_c
        given[0] += top * (air + sun / film)
        now_c = solve_banded((1, 1), bands, given)
        found[index] = now_c
    return found


def _cells(layers: Sequence[Layer], film_w_m2k: float) -> tuple[Array, Array, float]:
    """Heat of each cell [J/m²·K], flow between neighbours and from the air into the first [W/m²·K]."""
    heat, halves, contacts = [], [], []
    for layer in layers:
        depth = layer.thickness / layer.cells
        heat += [layer.made_of.density * layer.made_of.specific_heat * depth] * layer.cells
        halves += [depth / (2 * layer.made_of.conductivity)] * layer.cells
        contacts += [layer.contact_m2k_w] + [0.0] * (layer.cells - 1)
    half, contact = np.array(halves), np.array(contacts)
    between: Array = 1 / (half[:-1] + half[1:] + contact[1:])
    return np.array(heat), between, 1 / (1 / film_w_m2k + halves[0])
