"""The surface and the sky beside a textbook, a weather file, measured extremes, an almanac and psychrolib.

`tests/weather/denver_rows.csv` holds every 29th hourly row (303 of 8760, seven of the 35 columns) of the typical year
of Denver International Airport, TMY3 data set of the National Renewable Energy Laboratory, 2008 (United States
government data), EPW file USA_CO_Denver.Intl.AP.725650_TMY3 as the package ochre-nrel 0.9.2 (BSD-3) carries it.
Such columns are reckoned from dew point and opaque cover by the same model, by others, so that they check the
arithmetic.
"""

import csv
from functools import cache
from importlib.metadata import version
from pathlib import Path

import numpy as np
import psychrolib
from compared import Live
from scipy.special import erfcx

from lapwright.assembly.values import Assembly, Board, Deck, Ply, Sheet
from lapwright.heat.buildup import BuildUp, Layer, bare_sheet, build_up, step_of
from lapwright.heat.contact import Material
from lapwright.heat.sky import clark_allen_emissivity, sky_radiation_w_m2
from lapwright.heat.surface import Conditions, SurfaceSetting, default_setting
from lapwright.heat.weld import contact_number
from lapwright.heat.year import Water, surface_year
from lapwright.intake.weather_source import read_bundled
from lapwright.weather.sun import daylight, sun_heights, sun_on_roof

ROOF = Assembly(
    (Ply("base", Sheet("b", 1, 1, 1, 1, 0.003)),), Deck("steel"), Board("polyiso", 0.0762), Board("gypsum", 0.0127)
)
DENVER = Path(__file__).parents[1] / "weather" / "denver_rows.csv"
AIRS = ((20.0, 0.5), (35.0, 0.2), (8.0, 0.9))
SHARES = (0.05, 0.1, 0.2, 0.3, 0.4, 0.6, 0.8, 0.95)


def denver() -> dict[str, np.ndarray]:
    """Columns of the rows that the repository holds."""
    with DENVER.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    return {name: np.array([float(row[name]) for row in rows]) for name in rows[0]}


def infrared() -> tuple[np.ndarray, np.ndarray]:
    """The file's infrared column, and Clark and Allen's sky from its dew point and opaque cover."""
    row = denver()
    emissivity = clark_allen_emissivity(row["dew_point_c"], row["opaque_tenths"] / 10)
    return row["infrared_w_m2"], sky_radiation_w_m2(row["air_c"], emissivity)


def denver_times() -> list[str]:
    """Month, day and hour of each row."""
    row = denver()
    return [f"{m:02.0f}-{d:02.0f} hour {h:.0f}" for m, d, h in zip(row["month"], row["day"], row["hour"], strict=True)]


def wet_bulbs() -> tuple[list[float], list[float]]:
    """A surface rained on each hour, without radiation."""
    psychrolib.SetUnitSystem(psychrolib.SI)
    theirs, ours = [], []
    bare = SurfaceSetting(0.85, 1e-9, 0.0, 20.0, 900.0, 120.0)
    for air, humidity in AIRS:
        dew = psychrolib.GetTDewPointFromRelHum(air, humidity)
        theirs.append(psychrolib.GetTWetBulbFromRelHum(air, humidity, 101_325))
        flat = np.zeros(30)
        weather = Conditions(flat + air, flat + dew, flat, flat, flat, flat)
        found = surface_year(weather, Water(flat + 2.0, flat > 0), bare, bare_sheet(0.0))
        ours.append(float(found.surface.middle_c[-1]))
    return theirs, ours


def pipe_wall() -> tuple[list[float], list[float]]:
    """40 mm of steel from -20 °C, insulated on one face, oil of 60 °C at 500 W/m²K on the other, after 8 min."""
    step = step_of(BuildUp((Layer(Material("steel", 63.9, 7823.0, 434.0), 0.040),), None), 1.0)
    points = np.full(len(step.by_flux), -20.0)
    for _ in range(480):
        kept = step.keep @ points
        near = (kept[0] + step.by_flux[0] * 500 * 60) / (1 + step.by_flux[0] * 500)
        points = kept + step.by_flux * 500 * (60 - near)
    return [42.9, 45.2], [float(points[-1]), float(points[0])]


@cache
def over_air_f() -> tuple[float, float, float]:
    """Most over the air by day (middle models), most under it by night (middle, low) [°F].

    By day where the wind is over the 2 m/s at which cup anemometers begin to tell it.
    """
    year, _ = read_bundled("greensboro")
    heights = sun_heights(year.start, offset_h=-5, latitude=year.latitude, longitude=year.longitude)
    sun = sun_on_roof(year.ghi_w_m2, year.cloud, heights.middle_deg)
    weather = Conditions(year.air_c, year.dew_point_c, year.wind_m_s, year.cloud, sun.clearest_w_m2, sun.darkest_w_m2)
    water = Water(np.nan_to_num(year.rain_mm), np.zeros(len(year.start), dtype=bool))
    surface = surface_year(weather, water, default_setting(), build_up(ROOF)).surface
    middle_f, low_f = ((one - year.air_c) * 9 / 5 for one in (surface.middle_c, surface.low_c))
    return float(np.nanmax(middle_f[year.wind_m_s >= 2])), float(np.nanmin(middle_f)), float(np.nanmin(low_f))


def light_hours() -> tuple[list[int], list[int]]:
    """First and last whole hour of light on 21 December: sunrise 7:27, sunset 17:09."""
    start = np.datetime64("2001-12-21T00:00", "m") + np.arange(24) * np.timedelta64(60, "m")
    lit = np.flatnonzero(daylight(sun_heights(start, offset_h=-5, latitude=36.1, longitude=-79.95)))
    return [8, 16], [int(lit[0]), int(lit[-1])]


def contact_shares() -> tuple[list[float], list[float]]:
    """The share of the way to the jet that the solved number stands for."""
    return list(SHARES), [1 - float(erfcx(contact_number(share))) for share in SHARES]


NBS = "National Bureau of Standards, TN 231"
TMY3 = "Denver International Airport TMY3, infrared column of the EPW file"
LIVE = (
    Live("heat.live-infrared", TMY3, "every 29th hour of the year", denver_times(), infrared, "W/m²", 1.0),
    Live("heat.live-infrared-mean", TMY3, "mean of every 29th hour", ["mean of 303 hours"],
         lambda: tuple([float(one.mean())] for one in infrared()), "W/m²", 0.5),
    Live("heat.live-wet-bulb", f"psychrolib {version('psychrolib')}", "GetTWetBulbFromRelHum; rain, no sun or sky",
         [f"{air:g} °C, {humidity:.0%}" for air, humidity in AIRS], wet_bulbs, "°C", 0.3),
    Live("heat.live-pipe-wall", "Incropera, Fundamentals of Heat and Mass Transfer [from memory]",
         "plane-wall example: 40 mm of steel, 8 min in oil; one-term values", ["far face", "near face"],
         pipe_wall, "°C", 0.3, kind="published"),
    Live("heat.live-day-excess", NBS, "most over the air in a year; ours greensboro, 3 in of polyiso",
         ["middle, wind 2 m/s or more"], lambda: ([80], over_air_f()[:1]), "°F over air",
         0.1, is_share=True, kind="published"),
    Live("heat.live-night-excess", NBS, "most under the air in a year, lies between middle and low; ours greensboro",
         ["middle", "low"], lambda: ([-20, -20], over_air_f()[1:]), "°F over air", 6.0, kind="published"),
    Live("weather.live-light", "US Naval Observatory, table of the sun [from memory]",
         "Greensboro, 21 December: 7:27 to 17:09", ["first whole hour of light", "last whole hour of light"],
         light_hours, "h", 0, kind="published"),
    Live("weld.live-contact-number", f"scipy {version('scipy')}", "special.erfcx: 1 - erfcx(number)",
         [f"share {share:g}" for share in SHARES], contact_shares, "", 1e-9),
)  # fmt: skip
