"""One surface at one moment, for a question asked on the roof (question 5)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.heat.surface import Conditions, default_setting, surface_temperature
from lapwright.weather.moist import wetting_point_c


@dataclass(frozen=True, slots=True)
class SurfaceNow:
    """Temperature of a surface [°C], its spread over the models, what it is over the air [K], and what settles on it.

    wetting_c: dew or frost settles at and below it [°C].  dew, frost: by the middle of the spread.
    """

    surface_c: float
    surface_low_c: float
    surface_high_c: float
    over_air_k: float
    low_over_air_k: float
    high_over_air_k: float
    wetting_c: float
    dew: bool
    frost: bool


def surface_now(
    *,
    air_c: float,
    dew_point_c: float,
    wind_m_s: float,
    cloud: float | None,
    sun_w_m2: float,
    absorptance: float | None = None,
    inside_c: float | None = None,
    r_value_m2k_w: float | None = None,
) -> SurfaceNow:
    """Temperature of the roof's surface at one moment.

    Args:
        wind_m_s: at the roof; cloud: 0..1, None unknown; sun_w_m2: on the roof.
        r_value_m2k_w: from the surface to the air inside; None: no heat from inside.

    Holds for: as `surface_temperature`.
    Source: heat balance, EnergyPlus engineering reference, outside surface heat balance
    Checked: tests/published/heat.csv night-*, day-*, overcast-*
    """
    u_w_m2k = None if r_value_m2k_w is None else 1 / r_value_m2k_w
    surface = surface_temperature(
        Conditions(
            air_c=np.array([air_c]),
            dew_point_c=np.array([dew_point_c]),
            wind_m_s=np.array([wind_m_s]),
            cloud=np.array([np.nan if cloud is None else cloud]),
            sun_clearest_w_m2=np.array([sun_w_m2]),
            sun_darkest_w_m2=np.array([sun_w_m2]),
        ),
        default_setting(absorptance=absorptance, u_w_m2k=u_w_m2k, inside_c=inside_c),
    )
    middle_c, low_c, high_c = (float(one[0]) for one in (surface.middle_c, surface.low_c, surface.high_c))
    wetting_c = float(wetting_point_c(np.array([dew_point_c]))[0])
    is_wet = middle_c <= wetting_c
    return SurfaceNow(
        surface_c=middle_c,
        surface_low_c=low_c,
        surface_high_c=high_c,
        over_air_k=middle_c - air_c,
        low_over_air_k=low_c - air_c,
        high_over_air_k=high_c - air_c,
        wetting_c=wetting_c,
        dew=is_wet and middle_c > 0,
        frost=is_wet and middle_c <= 0,
    )
