"""The surface through the hours by a library's solver of differential equations: the plain version.

One pair of models (Clark and Allen's sky, Watmuff's film), layers cut into thin slices, the film of water as one more
unknown.  Formulas are written out again here; only the properties of the layers are taken over.
"""

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from scipy.integrate import solve_ivp

SIGMA = 5.670374419e-8
SLICE = 0.003


def over_ice_or_water_pa(celsius: float) -> float:
    """Saturation pressure by the Magnus forms."""
    a, b = (22.46, 272.62) if celsius < 0 else (17.62, 243.12)
    return 611.2 * math.exp(a * celsius / (b + celsius))


def slices_of(layers: Sequence[tuple[float, float, float]]) -> tuple[list[float], list[float]]:
    """Capacity of each slice and resistance between slice middles, the first from the surface itself."""
    capacities: list[float] = []
    resistances: list[float] = []
    carried = 0.0
    for thickness, conductivity, per_volume in layers:
        count = max(1, round(thickness / SLICE))
        part = thickness / count
        for _ in range(count):
            capacities.append(per_volume * part)
            resistances.append(carried + part / 2 / conductivity)
            carried = part / 2 / conductivity
    resistances.append(carried)
    return capacities, resistances


def surface_c(
    hours: Sequence[dict[str, float]],
    layers: Sequence[tuple[float, float, float]],
    *,
    inside_c: float,
    inside_film: float,
    absorptance: float = 0.85,
    emittance: float = 0.90,
) -> tuple[list[float], list[float]]:
    """Surface [°C] and film [mm] at the end of each hour; each hour has air, dew, wind, cloud 0..1, sun and rain.

    layers: (thickness, conductivity, density times specific heat) from the surface down.
    """
    capacities, resistances = slices_of(layers)
    resistances[-1] += inside_film
    first = hours[0]["air"]
    total = sum(resistances)
    depth = np.cumsum(resistances[:-1])
    state = np.append(first + depth / total * (inside_c - first), 0.0)
    skin = first
    found_c, found_mm = [], []
    before = hours[0]
    for hour in hours:
        state[-1] = min(state[-1] + hour["rain"], 0.2)

        def at(moment: float, hour: dict[str, float] = hour, before: dict[str, float] = before) -> dict[str, float]:
            return {**hour, "air": before["air"] + moment / 3600 * (hour["air"] - before["air"]), "end": hour["air"]}

        def rate(moment: float, values: Any) -> Any:
            return change(values, at(moment), capacities, resistances, inside_c, absorptance, emittance)

        solved = solve_ivp(rate, (0.0, 3600.0), state, method="LSODA", rtol=1e-5, atol=1e-5, max_step=300.0)
        state = solved.y[:, -1]
        state[-1] = min(max(state[-1], 0.0), 0.2)
        skin = skin_c(state, at(3600.0), resistances, absorptance, emittance)
        found_c.append(skin)
        found_mm.append(float(state[-1]))
        before = hour
    return found_c, found_mm


def flux_w_m2(skin: float, left_mm: float, now: dict[str, float], absorptance: float, emittance: float) -> float:
    """Heat into the surface."""
    tenths = 10 * now["cloud"]
    factor = 1 + 0.0224 * tenths - 0.0035 * tenths**2 + 0.00028 * tenths**3
    sky = min((0.787 + 0.764 * math.log((now["dew"] + 273.15) / 273)) * factor, 1.0)
    radiated = emittance * SIGMA * (sky * (now["end"] + 273.15) ** 4 - (skin + 273.15) ** 4)
    carried = film(skin, now) * (skin - now["air"])
    return absorptance * now["sun"] + radiated - carried - 2.5e6 * leaving(skin, left_mm, now)


def leaving(skin: float, left_mm: float, now: dict[str, float]) -> float:
    """Water that leaves the surface [kg/m²s]; what is nearly gone leaves more slowly, to be smooth for the solver."""
    excess = over_ice_or_water_pa(skin) - over_water_pa(now["dew"])
    rate = film(skin, now) / 67.4 * excess / 2.5e6
    return rate * min(1.0, max(left_mm, 0.0) / 0.002) if rate > 0 else rate


def film(skin: float, now: dict[str, float]) -> float:
    """What the air carries off: the wind's, or that of warm air that rises."""
    over = skin - now["air"]
    free = (9.482 / 6.283 if over > 0 else 1.810 / 2.382) * abs(over) ** (1 / 3)
    return max(2.8 + 3.0 * now["wind"], free)


def over_water_pa(celsius: float) -> float:
    """Pressure of the vapour in the air from its dew point."""
    return 611.2 * math.exp(17.62 * celsius / (243.12 + celsius))


def skin_c(
    state: Any, now: dict[str, float], resistances: Sequence[float], absorptance: float, emittance: float
) -> float:
    """Temperature of the surface itself, which holds no heat: bisection."""
    low, high = -90.0, 120.0
    for _ in range(40):
        middle = (low + high) / 2
        left = flux_w_m2(middle, state[-1], now, absorptance, emittance) - (middle - state[0]) / resistances[0]
        low, high = (middle, high) if left > 0 else (low, middle)
    return (low + high) / 2


def change(
    state: Any,
    now: dict[str, float],
    capacities: Sequence[float],
    resistances: Sequence[float],
    inside_c: float,
    absorptance: float,
    emittance: float,
) -> Any:
    """Rate of change of all slices and of the film."""
    skin = skin_c(state, now, resistances, absorptance, emittance)
    chain = np.concatenate([[skin], state[:-1], [inside_c]])
    flows = -np.diff(chain) / np.array(resistances)
    rates = (flows[:-1] - flows[1:]) / np.array(capacities)
    return np.append(rates, -leaving(skin, state[-1], now))
