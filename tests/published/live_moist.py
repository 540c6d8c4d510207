"""Water in the air beside psychrolib, which follows the ASHRAE handbook (Hyland and Wexler)."""

from importlib.metadata import version

import numpy as np
import psychrolib
from compared import Live

from lapwright.weather.moist import dew_point_c, pressure_on_surface_pa, vapour_pressure_pa, wetting_point_c

LIBRARY = f"psychrolib {version('psychrolib')} (ASHRAE handbook)"
SURFACES = (-30.0, -20.0, -10.0, -5.0, -0.5, 0.5, 5.0, 10.0, 20.0, 30.0, 60.0)
ABOVE = (0.5, 5.0, 10.0, 20.0, 30.0, 45.0)
MILD = [(air, humidity) for air in (5.0, 10.0, 20.0, 30.0) for humidity in (0.3, 0.5, 0.7, 0.9, 1.0)]
WARM = [one for one in MILD if psychrolib.SetUnitSystem(psychrolib.SI) or psychrolib.GetTDewPointFromRelHum(*one) > 0]
FROSTY = [one for one in MILD if one not in WARM]


def pressures(step: float = 0.0) -> list[float]:
    """Saturation over ice below 0 °C, over water above."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    return [psychrolib.GetSatVapPres(surface + step) for surface in SURFACES]


def rises() -> list[float]:
    """Of those pressures by a kelvin, over 0.2 K."""
    return [(above - below) / 0.2 for above, below in zip(pressures(0.1), pressures(-0.1), strict=True)]


def dews(airs: list[tuple[float, float]]) -> list[float]:
    """The library's dew point; below 0 °C it is the frost point."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    return [psychrolib.GetTDewPointFromRelHum(air, humidity) for air, humidity in airs]


def own_dews(airs: list[tuple[float, float]]) -> np.ndarray:
    """Our dew point over water."""
    air, humidity = np.array(airs).T
    return dew_point_c(air, humidity)


def named(airs: list[tuple[float, float]]) -> list[str]:
    """Air and humidity in words."""
    return [f"{air:g} °C, {humidity:.0%}" for air, humidity in airs]


def over_water() -> tuple[list[float], np.ndarray]:
    """Vapour pressure from dew points above freezing."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    return [psychrolib.GetSatVapPres(dew) for dew in ABOVE], vapour_pressure_pa(np.array(ABOVE))


LIVE = (
    Live("weather.live-vapour", LIBRARY, "GetSatVapPres", [f"dew point {one:g} °C" for one in ABOVE],
         over_water, "Pa", 0.006, is_share=True),
    Live("weather.live-surface-vapour", LIBRARY, "GetSatVapPres", [f"{one:g} °C" for one in SURFACES],
         lambda: (pressures(), pressure_on_surface_pa(np.array(SURFACES))[0]), "Pa", 0.006, is_share=True),
    Live("weather.live-surface-vapour-rise", LIBRARY, "GetSatVapPres, over 0.2 K", [f"{one:g} °C" for one in SURFACES],
         lambda: (rises(), pressure_on_surface_pa(np.array(SURFACES))[1]), "Pa/K", 0.01, is_share=True),
    Live("weather.live-dew-point", LIBRARY, "GetTDewPointFromRelHum", named(WARM),
         lambda: (dews(WARM), own_dews(WARM)), "°C", 0.06),
    Live("weather.live-frost-point", LIBRARY, "GetTDewPointFromRelHum, over ice below 0 °C", named(FROSTY),
         lambda: (dews(FROSTY), wetting_point_c(own_dews(FROSTY))), "°C", 0.06),
)  # fmt: skip
