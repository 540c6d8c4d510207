"""Air and films beside CoolProp, fluids and ht."""

from importlib.metadata import version

import CoolProp.CoolProp as coolprop  # noqa: N813  lower case as any module here
import fluids
import ht
from compared import Live

from lapwright.heat.rollfilm import Air, air_at, nusselt_cylinder, nusselt_flat, nusselt_upright

AIRS_C = range(-30, 35, 5)
AIRS = [f"{air} °C" for air in AIRS_C]
FLUID = f"CoolProp {version('CoolProp')}, Air at 101325 Pa"
REYNOLDS = (100, 1000, 6071, 2e4, 5e4, 1e5, 3e5, 1e6)
RAYLEIGH = (1e5, 1e6, 1e7, 1e8, 1e9, 1e10)
SWEPT = (1e5, 2e5, 3e5, 6e5, 1e6)


def of_fluid(name: str) -> list[float]:
    """A property of air at each temperature."""
    return [coolprop.PropsSI(name, "T", air + 273.15, "P", 101325, "Air") for air in AIRS_C]


def ours() -> list[Air]:
    """Our air at each temperature."""
    return [air_at(air) for air in AIRS_C]


def viscosities() -> list[float]:
    """CoolProp's viscosity over its density."""
    return [one / dense for one, dense in zip(of_fluid("V"), of_fluid("D"), strict=True)]


STANDARD = f"fluids {version('fluids')}, ATMOSPHERE_1976(0)"
FILMS = f"ht {version('ht')}"
SEA = ["15 °C, sea level"]
LIVE = (
    Live("heat.live-air-conductivity", FLUID, "L", AIRS,
         lambda: (of_fluid("L"), [air.conductivity for air in ours()]), "W/mK", 0.02, is_share=True),
    Live("heat.live-air-viscosity", FLUID, "V / D", AIRS,
         lambda: (viscosities(), [air.viscosity_m2_s for air in ours()]), "m²/s", 0.01, is_share=True),
    Live("heat.live-air-prandtl", FLUID, "PRANDTL", AIRS,
         lambda: (of_fluid("PRANDTL"), [air.prandtl for air in ours()]), "", 0.015, is_share=True),
    Live("heat.live-standard-air-conductivity", STANDARD, "k", SEA,
         lambda: ([fluids.ATMOSPHERE_1976(0).k], [air_at(15.0).conductivity]), "W/mK", 1e-3, is_share=True),
    Live("heat.live-standard-air-viscosity", STANDARD, "mu / rho", SEA,
         lambda: ([fluids.ATMOSPHERE_1976(0).mu / fluids.ATMOSPHERE_1976(0).rho], [air_at(15.0).viscosity_m2_s]),
         "m²/s", 1e-3, is_share=True),
    Live("heat.live-cylinder", FILMS, "Nu_cylinder_Churchill_Bernstein, Pr 0.71", [f"Re {one:g}" for one in REYNOLDS],
         lambda: ([ht.Nu_cylinder_Churchill_Bernstein(one, 0.71) for one in REYNOLDS],
                  [nusselt_cylinder(one, 0.71) for one in REYNOLDS]), "", 1e-6, is_share=True),
    Live("heat.live-upright", FILMS, "Nu_vertical_plate_Churchill, Pr 0.71", [f"Ra {one:g}" for one in RAYLEIGH],
         lambda: ([ht.Nu_vertical_plate_Churchill(0.71, one / 0.71) for one in RAYLEIGH],
                  [nusselt_upright(one, 0.71) for one in RAYLEIGH]), "", 1e-6, is_share=True),
    Live("heat.live-flat", FILMS, "Nu_horizontal_plate_turbulent_Kreith, Pr 0.71; its factor is 0.036, ours 0.037",
         [f"Re {one:g}" for one in SWEPT],
         lambda: ([ht.Nu_horizontal_plate_turbulent_Kreith(one, 0.71) for one in SWEPT],
                  [nusselt_flat(one, 0.71) for one in SWEPT]), "", 0.03, is_share=True),
)  # fmt: skip
