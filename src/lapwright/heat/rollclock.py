"""The roll clock: how long a warm roll lasts once it stands outside (question 6).

The roll is a wound cylinder of one temperature that stands in air of another.  It is laid from the outside in, so the
*outermost wrap* is the first sheet on the roof and the first to be lost.  Wraps are taken to touch; a gap between them
would keep the core warm longer and lose the outer wrap sooner.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from scipy.optimize import brentq

from lapwright.heat.contact import Material, material
from lapwright.heat.rollfilm import roll_film_w_m2k
from lapwright.heat.series import NOTHING_LEFT, Cylinder, cylinder, half_space_left
from lapwright.verdict import Step
from lapwright.weather.values import Array

SOURCE = (
    "exact series of a cylinder (Carslaw and Jaeger, ch. 7 and 13); film of Churchill and Bernstein 1977 in wind, of"
    " Churchill and Chu 1975 in still air, radiation at 0.9; properties of bitumen sheet from tables"
)
MINUTES = (5, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 1080, 1440)
_SURE = 36.0  # e to its power is nothing beside 1: a series is whole from here on


@dataclass(frozen=True, slots=True)
class RollAsk:
    """A roll carried outside.

    stored_c, air_c, until_c [°C]; wind_m_s at the roll; thickness, length of its sheet [m]; core: diameter of the hole
    [m].  covered_u_w_m2k: from the roll to the air through a cover; None: it stands bare.
    """

    stored_c: float
    air_c: float
    wind_m_s: float
    until_c: float
    thickness: float
    length: float
    core: float = 0.0
    covered_u_w_m2k: float | None = None


@dataclass(frozen=True, slots=True)
class RollClock:
    """When the roll falls to the limit [s], None never: its face, the means of its outer wraps, its core.

    warm_share: (seconds, share of the sheet's length that is still above).  radius [m].
    """

    surface_s: float | None
    outer_wrap_s: float | None
    outer_two_wraps_s: float | None
    core_s: float | None
    warm_share: tuple[tuple[float, float], ...]
    radius: float
    film_w_m2k: float
    steps: tuple[Step, ...]
    source: str


@dataclass(frozen=True, slots=True)
class Wound:
    """A wound roll in a film: radii [m], what it is made of, its series."""

    radius: float
    hole: float
    film_w_m2k: float
    made_of: Material
    series: Cylinder

    def fourier(self, seconds: float) -> float:
        """Fourier number at a time."""
        return self.diffusivity * seconds / self.radius**2

    def seconds(self, fourier: float) -> float:
        """Time of a Fourier number."""
        return fourier * self.radius**2 / self.diffusivity

    @property
    def diffusivity(self) -> float:
        """Conductivity over heat of a volume [m²/s]."""
        return self.made_of.conductivity / (self.made_of.density * self.made_of.specific_heat)

    def face_left(self, fourier: float) -> float:
        """What is left at the outer face; in the first seconds a roll is as a thick body."""
        if fourier * self.series.roots[-1] ** 2 > _SURE:
            return self.series.left_at(1.0, fourier)
        return half_space_left(
            0.0,
            self.seconds(fourier),
            film_w_m2k=self.film_w_m2k,
            conductivity=self.made_of.conductivity,
            diffusivity=self.diffusivity,
        )

    def core_left(self, fourier: float) -> float:
        """What is left at the core."""
        if fourier * self.series.roots[-1] ** 2 <= _SURE:
            return 1.0
        return self.series.left_at(self.series.hole, fourier)

    def wraps_left(self, wraps: float) -> Callable[[float], float]:
        """The mean of what is left in the outer wraps that are so thick together [m]."""
        weights, rates = self.wrap_weights(wraps), self.series.roots**2
        return lambda fourier: float(np.exp(-np.minimum(rates * fourier, 700.0)) @ weights)

    def wrap_weights(self, wraps: float) -> Array:
        """Weights of the terms in the mean of the outer wraps that are so thick together [m], (terms,)."""
        return self.series.weights_between(max((self.radius - wraps) / self.radius, self.series.hole), 1.0)

    def time_s(self, left_at: Callable[[float], float], left: float) -> float | None:
        """When so much is left [s]: 0 at once, None never."""
        if left >= 1:
            return 0.0
        if left <= NOTHING_LEFT:
            return None
        last = (math.log(4 / left) + 1) / self.series.roots[0] ** 2
        if left_at(1e-9) <= left:
            return 0.0
        return self.seconds(float(brentq(lambda fourier: left_at(fourier) - left, 1e-9, last, xtol=1e-12, rtol=1e-10)))

    def share_above(self, seconds: float, left: float) -> float:
        """Share of the sheet's length with more left than that: what lies inside the place that has just so much."""
        fourier, hole = self.fourier(seconds), self.series.hole
        if left >= 1 or self.core_left(fourier) <= left:
            return 0.0
        if left <= 0 or self.face_left(fourier) >= left:
            return 1.0
        place = float(brentq(lambda at: self.series.left_at(at, fourier) - left, hole, 1.0, xtol=1e-9))
        return (place**2 - hole**2) / (1 - hole**2)


def wound_radius(thickness: float, length: float, core: float = 0.0) -> float:
    """Outer radius of a tight roll [m]; core: diameter of its hole [m].

    Source: geometry: the sheet's edge area is the ring's
    Checked: tests/published/rolls.csv radius-*
    """
    return math.sqrt(thickness * length / math.pi + (core / 2) ** 2)


def wound_roll(thickness: float, length: float, core: float, *, film_w_m2k: float) -> Wound:
    """A roll with its series.

    Source: geometry, and the series of a cylinder
    """
    made_of = material("sheet")
    if made_of is None:
        raise LookupError("defaults/heat.csv has no sheet")
    radius, hole = wound_radius(thickness, length, core), core / 2
    biot = film_w_m2k * radius / made_of.conductivity
    return Wound(radius, hole, film_w_m2k, made_of, cylinder(biot, hole / radius))


def roll_film(ask: RollAsk) -> float:
    """The film of a roll [W/m²·K], taken where its face has come half-way to the air; a cover's U where that is less.

    Source: as `roll_film_w_m2k`
    Checked: tests/published/rolls.csv film-roll-*
    """
    half_way_c = (ask.stored_c + ask.air_c) / 2
    diameter = 2 * wound_radius(ask.thickness, ask.length, ask.core)
    bare = roll_film_w_m2k(half_way_c, ask.air_c, wind_m_s=ask.wind_m_s, diameter=diameter)
    return bare if ask.covered_u_w_m2k is None else min(bare, ask.covered_u_w_m2k)


def roll_clock(ask: RollAsk) -> RollClock:
    """How long a roll stays above a limit outside.

    Holds for: a film that stays as it is, wraps that touch, no sun.  `radial.py` takes weather that changes.
    Source: Carslaw and Jaeger, ch. 7 and 13; Churchill and Bernstein 1977; Churchill and Chu 1975
    Checked: tests/published/rolls.csv clock-*
    """
    film = roll_film(ask)
    roll = wound_roll(ask.thickness, ask.length, ask.core, film_w_m2k=film)
    left = left_at_limit(ask.stored_c, ask.air_c, ask.until_c)
    surface_s = roll.time_s(roll.face_left, left)
    outer_s = roll.time_s(roll.wraps_left(ask.thickness), left)
    two_s = roll.time_s(roll.wraps_left(2 * ask.thickness), left)
    core_s = roll.time_s(roll.core_left, left)
    return RollClock(
        surface_s=surface_s,
        outer_wrap_s=outer_s,
        outer_two_wraps_s=two_s,
        core_s=core_s,
        warm_share=_shares(roll, left, core_s),
        radius=roll.radius,
        film_w_m2k=film,
        steps=_steps(ask, roll, left, (surface_s, outer_s, two_s, core_s)),
        source=SOURCE,
    )


def left_at_limit(start_c: float, air_c: float, until_c: float) -> float:
    """Share of the first difference to the air that is left when a body cools to a limit: 1 at once, 0 never.

    For a body that warms up, hand in all three with their signs turned.
    Source: arithmetic
    """
    if start_c <= until_c:
        return 1.0
    return max((until_c - air_c) / (start_c - air_c), 0.0) if air_c < until_c else 0.0


def _shares(roll: Wound, left: float, core_s: float | None) -> tuple[tuple[float, float], ...]:
    times = [0.0, *(60.0 * minutes for minutes in MINUTES)]
    if core_s is not None:
        times = [time for time in times if time < core_s] + [core_s]
    return tuple((time, 0.0 if time == core_s else roll.share_above(time, left)) for time in times)


def _steps(ask: RollAsk, roll: Wound, left: float, times: tuple[float | None, ...]) -> tuple[Step, ...]:
    sheet = roll.made_of
    cover = "through its cover" if ask.covered_u_w_m2k is not None else "in wind or still air, and by radiation"
    names = ("face of the roll", "outermost wrap, its mean", "two outer wraps, their mean", "core")
    return (
        Step(
            "Radius of the roll as wound",
            "R = √(t·L/π + r²)",
            {"t [m]": ask.thickness, "L [m]": ask.length, "r [m]": ask.core / 2},
            roll.radius,
            "m",
        ),
        Step(
            f"What leaves it {cover}",
            "h",
            {"wind [m/s]": ask.wind_m_s, "air [°C]": ask.air_c, "diameter [m]": 2 * roll.radius},
            roll.film_w_m2k,
            "W/m2K",
        ),
        Step(
            "Biot number",
            "Bi = h·R/k",
            {"k [W/mK]": sheet.conductivity},
            roll.series.biot,
            "1",
        ),
        Step(
            "Share of the first difference left at the limit",
            "θ = (until - air)/(stored - air)",
            {"stored [°C]": ask.stored_c, "air [°C]": ask.air_c, "until [°C]": ask.until_c},
            left,
            "1",
        ),
        *(
            Step(
                f"Time until the {name} is at the limit",
                "θ(t) = Σ C·exp(-ζ²·a·t/R²)",
                {"a [m2/s]": roll.diffusivity, "ζ1": float(roll.series.roots[0])},
                "never" if time is None else time,
                "" if time is None else "s",
            )
            for name, time in zip(names, times, strict=True)
        ),
    )
