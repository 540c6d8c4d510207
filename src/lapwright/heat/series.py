"""Conduction in bodies of one temperature put into air of another: the exact series (questions 6 and 7).

Terms.  *Biot number*: film times length over conductivity.  *Fourier number*: diffusivity times time over length
squared; the length is a cylinder's radius.  *Left*: what is left of the first difference to the air, 1 at the start,
0 when all is over.  A series is never cut to its first term here, save where a book is to be compared.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np
from scipy.special import erfc, erfcx, j0, j1, y0, y1

from lapwright.weather.values import Array

TERMS = 160  # enough for a Fourier number of 0.0002, 20 s of a roll; see `Cylinder.left_at`
NOTHING_LEFT = 1e-9  # a limit as near as that to the air is never reached
_HALVINGS = 52


@dataclass(frozen=True, slots=True)
class Cylinder:
    """A long cylinder, solid or with a hole through which no heat goes: roots and coefficients of its series.

    biot: of the outer radius.  hole: radius of the hole over the outer radius, 0 solid.  roots, coefficients: (terms,).
    Places are radii over the outer radius, `hole` to 1.
    """

    biot: float
    hole: float
    roots: Array
    coefficients: Array

    def left_at(self, place: float, fourier: float) -> float:
        """What is left at a place [1].

        Holds for: Fourier numbers over 0.0002; before that the face is that of a half-space, which who asks takes
            (`Wound.face_left`).
        Source: Carslaw and Jaeger, Conduction of Heat in Solids, ch. 7 and 13 [from memory]
        Checked: tests/published/rolls.csv shaft-exact, aluminium-exact, hollow-core
        """
        shape = _wave0(self.roots * place, self.roots * self.hole, self.hole)
        return float(np.sum(self._faded(fourier) * shape))

    def left_between(self, inner: float, outer: float, fourier: float) -> float:
        """The mean of what is left between two places, by area [1]."""
        return float(np.exp(-np.minimum(self.roots**2 * fourier, 700.0)) @ self.weights_between(inner, outer))

    def weights_between(self, inner: float, outer: float) -> Array:
        """Weights of the terms in that mean, (terms,)."""
        flow = outer * self._flow(outer) - inner * self._flow(inner)
        weights: Array = self.coefficients * 2 * flow / (self.roots * (outer**2 - inner**2))
        return weights

    def left_in_all(self, fourier: float) -> float:
        """The mean of what is left in the whole cylinder [1]."""
        return self.left_between(self.hole, 1.0, fourier)

    def _flow(self, place: float) -> Array:
        return _wave1(self.roots * place, self.roots * self.hole, self.hole)

    def _faded(self, fourier: float) -> Array:
        return self.coefficients * np.exp(-np.minimum(self.roots**2 * fourier, 700.0))


def cylinder(biot: float, hole: float = 0.0) -> Cylinder:
    """The series of a cylinder.

    Source: ζ J1(ζ) = Bi J0(ζ), Incropera et al., ch. 5 [from memory]; with a hole J is J·Y1(ζ·hole) - Y·J1(ζ·hole)
    Checked: tests/published/rolls.csv constants-cylinder-*
    """

    def condition(root: Array) -> Array:
        at_hole = root * hole
        return root * _wave1(root, at_hole, hole) - biot * _wave0(root, at_hole, hole)

    roots = _roots(condition, math.pi / (1 - hole))
    at_hole = roots * hole
    surface, flow = _wave0(roots, at_hole, hole), _wave1(roots, at_hole, hole)
    inside = hole**2 * _wave0(at_hole, at_hole, hole) ** 2 if hole else 0.0
    return Cylinder(biot, hole, roots, 2 * flow / (roots * (surface**2 + flow**2 - inside)))


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall with a film on each face: roots, coefficients, shape of its series.  Places 0 to 1 through the wall."""

    biot_low: float
    roots: Array
    coefficients: Array
    means: Array

    def left_at(self, place: float, fourier: float) -> float:
        """What is left at a place [1]; the length of the Fourier number is the whole thickness.

        Source: Carslaw and Jaeger, Conduction of Heat in Solids, ch. 3 [from memory]
        Checked: tests/published/rolls.csv wall-*
        """
        return float(np.sum(self.faded(fourier) * self.waves(np.array([place]))[0]))

    def waves(self, places: Array) -> Array:
        """Each term at places through the wall, before it fades, (places, terms)."""
        at = np.outer(places, self.roots)
        shapes: Array = np.cos(at) + self.biot_low / self.roots * np.sin(at)
        return shapes

    def left_in_all(self, fourier: float) -> float:
        """The mean of what is left in the wall [1]."""
        return float(np.sum(self.faded(fourier) * self.means))

    def faded(self, fourier: float) -> Array:
        """What is left of each term, (terms,)."""
        faded: Array = self.coefficients * np.exp(-np.minimum(self.roots**2 * fourier, 700.0))
        return faded


def wall(biot_low: float, biot_high: float) -> Wall:
    """The series of a wall; Biot numbers of its two faces, of the whole thickness; 0: no heat goes through that face.

    Source: tan ζ = ζ(Bi1 + Bi2)/(ζ² - Bi1·Bi2), Carslaw and Jaeger, Conduction of Heat in Solids, ch. 3 [from memory]
    Checked: tests/published/rolls.csv constants-wall-*
    """

    def condition(root: Array) -> Array:
        return (root**2 - biot_low * biot_high) * np.sin(root) - root * (biot_low + biot_high) * np.cos(root)

    roots = _roots(condition, math.pi)
    slope = biot_low / roots
    means = np.sin(roots) / roots + slope * (1 - np.cos(roots)) / roots
    squares = (
        (1 + slope**2) / 2
        + (1 - slope**2) * np.sin(2 * roots) / (4 * roots)
        + slope * (1 - np.cos(2 * roots)) / (2 * roots)
    )
    return Wall(biot_low, roots, means / squares, means)


def temperature_c(start_c: float, air_c: float, left: float) -> float:
    """Temperature where so much of the first difference to the air is left [°C].

    Source: definition of what is left
    """
    return air_c + (start_c - air_c) * left


def product_left(parts: Sequence[float]) -> float:
    """What is left where bodies cross: a short cylinder of a long one and a wall, a block of three walls.

    Source: product of one-dimensional solutions, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/rolls.csv short-cylinder-*
    """
    return math.prod(parts)


def one_term_left(series: Cylinder, place: float, fourier: float) -> float:
    """The first term alone, as books have it for Fourier numbers over 0.2; only to compare with one.

    Source: Cengel, Heat and Mass Transfer, ch. 4
    Checked: tests/published/rolls.csv shaft-book
    """
    first = Cylinder(series.biot, series.hole, series.roots[:1], series.coefficients[:1])
    return first.left_at(place, fourier)


def half_space_left(
    depth: float, seconds: float, *, film_w_m2k: float, conductivity: float, diffusivity: float
) -> float:
    """What is left at a depth [m] under the face of a thick body in air, after some seconds [1].

    Source: semi-infinite solid with convection, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/rolls.csv half-space-*
    """
    reach = math.sqrt(diffusivity * seconds)
    if reach <= 0:
        return 1.0
    near, film = depth / (2 * reach), film_w_m2k * reach / conductivity
    # erfcx keeps the product of a huge and a tiny number finite
    return float(1 - erfc(near) + math.exp(-(near**2)) * erfcx(near + film))


def half_space_step_left(depth: float, seconds: float, *, diffusivity: float) -> float:
    """What is left at a depth [m] of a thick body whose face is held at another temperature [1].

    Source: semi-infinite solid with a step of the face's temperature, Incropera et al., ch. 5 [from memory]
    Checked: tests/published/rolls.csv step-*
    """
    return 1 - float(erfc(depth / (2 * math.sqrt(diffusivity * seconds))))


def lumped_s(left: float, *, film_w_m2k: float, capacity_j_m2k: float) -> float:
    """Seconds until so much is left [1] of a body of one temperature; capacity over the face that the air touches.

    Source: lumped capacitance, θ = exp(-hAt/ρcV), Incropera et al., ch. 5 [from memory]
    Checked: tests/published/rolls.csv lumped-*
    """
    return -math.log(left) * capacity_j_m2k / film_w_m2k


def _wave0(at: Array, at_hole: Array, hole: float) -> Array:
    wave: Array = j0(at) * y1(at_hole) - y0(at) * j1(at_hole) if hole else j0(at)
    return wave


def _wave1(at: Array, at_hole: Array, hole: float) -> Array:
    wave: Array = j1(at) * y1(at_hole) - y1(at) * j1(at_hole) if hole else j1(at)
    return wave


def _roots(condition: Callable[[Array], Array], spacing: float) -> Array:
    """The first TERMS roots above 0: signs on a fine grid, then halved; roots are never nearer than half a spacing."""
    grid = np.concatenate(([1e-5], np.arange(1, 8 * (TERMS + 1)) / 8)) * spacing
    signs = np.sign(condition(grid))
    starts = np.flatnonzero(signs[:-1] * signs[1:] <= 0)[:TERMS]
    low, high, sign = grid[starts], grid[starts + 1], signs[starts]
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        is_before = np.sign(condition(middle)) == sign
        low, high = np.where(is_before, middle, low), np.where(is_before, high, middle)
    roots: Array = (low + high) / 2
    return roots
