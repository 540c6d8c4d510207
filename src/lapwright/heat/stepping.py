"""Steps of time at the surface, thousands of balances side by side (question 5).

What is stepped are *columns*: every model of every stretch of the year, one number of each row for each.  Millions of
balances a year are a matter of how few passes over those rows a step takes, so that here

- water is told by the heat that it takes to dry [W/m² over one step], and pressures of vapour as the difference in
  temperature that carries as much heat off [K], so that no constant is left between them;
- free convection is the cube root of one straight line above and one below the air's temperature, whichever is more;
- the points under the surface are those of a step without heat, `base`, and the heat that came `into` them.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from lapwright.defaults.table import table
from lapwright.heat.buildup import Step
from lapwright.heat.sky import ZERO_C_K
from lapwright.heat.surface import SurfaceSetting
from lapwright.weather.moist import SurfaceVapour, vapour_pressure_pa
from lapwright.weather.values import Array, Flags

STEPS_AN_HOUR = 4  # twice as many move 99 of 100 hours by less than 1 K (docs/method/heat.md)
_NEWTON_STEPS = 2
_NOTHING = 1e-30  # keeps 0 over 0 from being asked


@dataclass(frozen=True, slots=True)
class Drive:
    """What drives the surface, by hour and column: (hours, columns) each.

    gain_w_m2: sun and sky taken in.  forced: of the film [W/m²·K]; added: as much of it as free convection comes on
    top of, else 0.  warm, cool: free convection where the surface is warmer or cooler, cubed, (columns,); cool <= 0.
    air_c: with the hour before in front, (hours + 1, columns).  vapour_k: of the air, see above.  rain_mm: never NaN.
    """

    gain_w_m2: Array
    forced: Array
    added: Array
    warm: Array
    cool: Array
    air_c: Array
    vapour_k: Array
    rain_mm: Array
    covered: Flags

    def since(self, hour: int) -> Drive:
        """What drives them from an hour on."""
        return Drive(
            self.gain_w_m2[hour:],
            self.forced[hour:],
            self.added[hour:],
            self.warm,
            self.cool,
            self.air_c[hour:],
            self.vapour_k[hour:],
            self.rain_mm[hour:],
            self.covered[hour:],
        )

    def some(self, columns: Flags) -> Drive:
        """What drives some of the columns."""
        return Drive(
            self.gain_w_m2[:, columns],
            self.forced[:, columns],
            self.added[:, columns],
            self.warm[columns],
            self.cool[columns],
            self.air_c[:, columns],
            self.vapour_k[:, columns],
            self.rain_mm[:, columns],
            self.covered[:, columns],
        )


@dataclass(slots=True)
class State:
    """Temperatures of the points [°C] (points, columns) and the film on the surface [mm] (columns,)."""

    points_c: Array
    film_mm: Array

    def some(self, columns: Flags) -> State:
        """Some of the columns."""
        return State(self.points_c[:, columns], self.film_mm[columns])

    def put(self, columns: Flags, some: State) -> None:
        """Some of the columns anew."""
        self.points_c[:, columns], self.film_mm[columns] = some.points_c, some.film_mm


@dataclass(slots=True)
class Course:
    """Surface [°C] and film [mm] at the end of each hour, (hours, columns), and where all of it ends."""

    surface_c: Array
    film_mm: Array
    ended: State

    def put(self, columns: Flags, some: Course) -> None:
        """Some of the columns anew."""
        self.surface_c[:, columns], self.film_mm[:, columns] = some.surface_c, some.film_mm
        self.ended.put(columns, some.ended)


def vapour_k(dew_point_c: Array) -> Array:
    """Vapour of the air [K]: its pressure over the psychrometric constant; any shape.

    Source: row psychrometric of defaults/heat.csv, with its own
    """
    kelvin: Array = vapour_pressure_pa(dew_point_c) / table("heat")["psychrometric"].number()
    return kelvin


def stepped(drive: Drive, step: Step, setting: SurfaceSetting, begin: State) -> Course:
    """Columns stepped through their hours.

    Args:
        step: of 1 / STEPS_AN_HOUR h.
        setting: its emittance and inside_c are used.
        begin: is left as it is.

    Source: heat balance with storage, EnergyPlus engineering reference; water carried off by the air as heat is (FAO
        Irrigation and drainage paper 56, psychrometric constant [from memory])
    Checked: tests/heat/test_surface_year.py
    """
    rows = _Rows(step, setting, begin)
    surface_c, film_mm = np.empty_like(drive.gain_w_m2), np.empty_like(drive.gain_w_m2)
    rain = drive.rain_mm * rows.w_m2_a_mm
    for hour, covered in enumerate(drive.covered):
        has_snow = bool(covered.any())
        np.minimum(rows.film + rain[hour], rows.most, out=rows.film)
        air, further = drive.air_c[hour].copy(), (drive.air_c[hour + 1] - drive.air_c[hour]) / STEPS_AN_HOUR
        for _ in range(STEPS_AN_HOUR):
            air += further
            rows.conduct()
            rows.balance(drive, hour, air)
            if has_snow:
                rows.cover(covered)
        surface_c[hour] = rows.surface
        np.divide(rows.film, rows.w_m2_a_mm, film_mm[hour])
    return Course(surface_c, film_mm, State(rows.points_c(), film_mm[-1].copy()))


class _Rows:
    """The rows of numbers that are stepped, and those that a step writes on its way.

    points: `base` of every point, the heat `into` them [W/m²], and ones.  conducts: those of the step before times this
    are the next base.  firmness: heat that warms the surface by 1 K in a step [W/m²·K].  w_m2_a_mm: heat that dries
    1 mm in a step.
    """

    def __init__(self, step: Step, setting: SurfaceSetting, begin: State) -> None:
        rows = table("heat")
        count, columns = begin.points_c.shape
        heated, inside = step.keep @ step.by_flux, step.by_inside * setting.inside_c
        self.conducts = np.column_stack([step.keep, heated, inside])
        self.points, self.before = np.zeros((count + 2, columns)), np.ones((count + 2, columns))
        self.points[:count], self.points[count + 1] = begin.points_c, 1.0
        self.by_flux, self.firmness = step.by_flux, 1 / step.by_flux[0]
        self.radiating = setting.emittance * rows["stefan_boltzmann"].number()
        self.w_m2_a_mm = rows["latent_heat"].number() / step.seconds
        self.most = rows["film_most"].number() * self.w_m2_a_mm
        self.surface, self.film = begin.points_c[0].copy(), begin.film_mm * self.w_m2_a_mm
        self.vapour = SurfaceVapour((columns,), rows["psychrometric"].number())
        self.spare = np.empty((7, columns))

    def points_c(self) -> Array:
        """Temperatures of the points, (points, columns)."""
        temperatures: Array = self.points[:-2] + self.by_flux[:, None] * self.points[-2]
        return temperatures

    def conduct(self) -> None:
        """A step in which no heat comes into the surface."""
        self.points, self.before = self.before, self.points
        np.matmul(self.conducts, self.before, self.points[:-2])

    def balance(self, drive: Drive, hour: int, air_c: Array) -> None:
        """The surface where heat in and out are equal, by Newton's steps; then what is left of the film."""
        surface, film, base, into = self.surface, self.film, self.points[0], self.points[-2]
        over, carries, share, given, slope, there, held = self.spare
        vapour, steep = self.vapour.pressure, self.vapour.rise
        np.add(film, _NOTHING, there)
        np.multiply(base, self.firmness, held)
        held += drive.gain_w_m2[hour]
        for _ in range(_NEWTON_STEPS):
            np.subtract(surface, air_c, over)
            np.multiply(drive.warm, over, carries)
            np.multiply(drive.cool, over, slope)
            np.maximum(carries, slope, out=carries)
            np.cbrt(carries, carries)
            carries += drive.added[hour]
            np.maximum(carries, drive.forced[hour], out=carries)
            self.vapour.put(surface)
            # what can leave in a step is what is there; dew always can come
            vapour -= drive.vapour_k[hour]
            np.multiply(carries, vapour, share)
            np.maximum(share, there, out=share)
            np.divide(there, share, share)
            vapour *= share
            steep *= share
            # heat given off, less what is taken in and held; how that rises with temperature
            np.add(surface, ZERO_C_K, given)
            np.multiply(given, given, slope)
            slope *= given
            slope *= self.radiating
            given *= slope
            slope *= 4.0
            over += vapour
            over *= carries
            given += over
            given -= held
            steep += 1.0
            steep *= carries
            slope += steep
            slope += self.firmness
            np.multiply(surface, self.firmness, over)
            given += over
            given /= slope
            surface -= given
        np.subtract(surface, base, into)
        into *= self.firmness
        vapour *= carries
        film -= vapour
        np.maximum(film, 0.0, out=film)
        np.minimum(film, self.most, out=film)

    def cover(self, covered: Flags) -> None:
        """Under snow: no warmer than it melts, and wet."""
        no_warmer = np.where(covered, np.minimum(self.surface, 0.0), self.surface)
        self.points[0] += no_warmer - self.surface
        self.surface[:] = no_warmer
        self.film[covered] = self.most
