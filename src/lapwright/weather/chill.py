"""What cold and wind do to the people on the roof (question 5).

*Wind chill* is the air's temperature at which bare skin in a walking wind would lose heat as fast.  Frostbite: how
long bare skin may be out before it freezes.  *Warm-up schedule*: how long a crew works between ten-minute breaks in a
warm place.  The wind of all three is that of the open, 10 m above ground, as weather stations report it.
"""

from __future__ import annotations

import numpy as np

from lapwright.defaults.si import default_number, default_si
from lapwright.units.anything import si_scale
from lapwright.weather.values import Array

NO_SCHEDULE = np.inf
_HAIR = 1e-9  # a bound typed in °F or mph is a hair off after its way through SI


def wind_chill_c(air_c: Array | float, wind_m_s: Array | float) -> Array:
    """Wind chill [°C] from air [°C] and wind [m/s], any shape.

    Returns: the air itself above 50 °F, or in a wind of 3 mph or less; NaN where a reading is NaN.
    Source: US National Weather Service, wind chill chart of 2001, its formula in °F and mph
    Checked: tests/published/weather.csv chill-*
    """
    air, wind = np.asarray(air_c, dtype=np.float64), np.asarray(wind_m_s, dtype=np.float64)
    degree, ice = si_scale("degF")
    air_f, wind_mph = (air - ice) / degree, wind / si_scale("mph")[0]
    power = np.maximum(wind_mph, 0.0) ** default_number("people", "chill_power")
    chill_f = (
        default_number("people", "chill_plain")
        + default_number("people", "chill_air") * air_f
        - default_number("people", "chill_wind") * power
        + default_number("people", "chill_both") * air_f * power
    )
    mild = air_f > default_number("people", "chill_air_most") + _HAIR
    holds = ~mild & (wind_mph > default_number("people", "chill_wind_least") + _HAIR)
    chill: Array = np.where(holds, chill_f * degree + ice, np.where(np.isnan(wind), np.nan, air))
    return chill


def frostbite_min(air_c: float, wind_m_s: float) -> float | None:
    """Minutes until bare skin freezes, at most 30; None where it does not within half an hour, or a reading is NaN.

    Args:
        air_c: [°C]; wind_m_s: [m/s], at 10 m.

    Holds for: winds of 25 to 80 km/h; a lighter wind is taken as 25 km/h, so that the time is never too long.
    Source: Environment Canada, time to freezing of the most exposed skin [from memory]; begins at the wind chill at
        which the US National Weather Service's chart says 30 minutes
    Checked: tests/published/weather.csv frostbite-*
    """
    chill_c = float(wind_chill_c(air_c, wind_m_s))
    if not chill_c <= default_si("people", "frostbite_chill"):
        return None
    wind_km_h = max(wind_m_s, default_si("people", "frostbite_wind_least")) / si_scale("km/h")[0]
    at_face = default_number("people", "frostbite_wind") * wind_km_h + default_number("people", "frostbite_walk")
    heat = default_number("people", "frostbite_still") - default_number("people", "frostbite_per_wind") * at_face
    below_c = default_number("people", "frostbite_skin") - air_c
    minutes: float = max(heat, 0.0) * below_c ** -default_number("people", "frostbite_power")
    return min(minutes, default_number("people", "frostbite_most"))


def warm_up_work_min(air_c: Array | float, wind_m_s: Array | float, *, is_light: bool = False) -> Array:
    """Longest work [min] between ten-minute breaks in a warm place, by the four-hour shift's schedule; any shape.

    Args:
        is_light: work with little movement; it goes by the next colder row.

    Returns: infinite where the schedule asks nothing (air above -26 °C, NaN), 120 for the normal break of a shift,
        75, 55, 40, 30, and 0 where all but urgent work stops.
    Holds for: moderate to heavy work in dry clothes.  A wind between two columns goes by the windier.
    Source: ACGIH threshold limit values, work and warm-up schedule, as Saskatchewan's labour guidance reprints it
    Checked: tests/published/weather.csv warmup-*
    """
    degree, ice = si_scale("degF")
    air_f = (np.asarray(air_c, dtype=np.float64) - ice) / degree
    wind_mph = np.asarray(wind_m_s, dtype=np.float64) / si_scale("mph")[0]
    step_f, step_mph = default_number("people", "warmup_air_step"), default_number("people", "warmup_wind_step")
    rows = np.floor((default_number("people", "warmup_begin") - air_f) / step_f + _HAIR) + is_light
    columns = np.ceil(np.maximum(wind_mph, 0.0) / step_mph - _HAIR)
    # the printed table goes along its diagonals: one row colder asks what one column windier asks
    steps = np.array([default_number("people", f"warmup_{place}") for place in range(7)])
    asked = (rows >= 0) & np.isfinite(columns)
    place = np.clip(np.where(asked, rows + columns, 0.0), 0, len(steps) - 1).astype(np.intp)
    work: Array = np.where(asked, steps[place], NO_SCHEDULE)
    return work
