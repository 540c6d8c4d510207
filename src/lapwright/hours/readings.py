"""What an hour, or a minute, is judged by."""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.weather.values import Array, Flags


@dataclass(frozen=True, slots=True)
class Readings:
    """What moments are judged by, (moments,) each; of an hour, its readings are those at its end.

    wind_m_s: the greater of the station's and the roof's.  wetting_c: dew or frost settles at and below it.
    falling: rain or snow, a trace too.  rain_unknown: neither a depth nor a dry hour is known.  snow_lying: not cleared
    yet; snow_cleared: would lie still.  film_mm: water or ice left on the surface, film_low_mm and film_high_mm its
    spread over the models.  since_wet_h: whole hours since the surface last was wet; since_unknown_h: since it last
    may have been.  thunder: reported; since_thunder_h: hours since.  until_falling_h: hours until rain or snow begins.
    air_then_c, surface_then_c: when laps laid now must be rolled (rule roll_within).  chill_c: wind chill.  work_min:
    longest work between warm-up breaks, 0: none.
    """

    absent: Flags
    air_c: Array
    surface_c: Array
    surface_low_c: Array
    surface_high_c: Array
    wetting_c: Array
    wind_m_s: Array
    gust_m_s: Array
    falling: Flags
    rain_unknown: Flags
    snow_lying: Flags
    snow_cleared: Flags
    film_mm: Array
    film_low_mm: Array
    film_high_mm: Array
    daylight: Flags
    since_wet_h: Array
    since_unknown_h: Array
    thunder: Flags
    since_thunder_h: Array
    until_falling_h: Array
    air_then_c: Array
    surface_then_c: Array
    chill_c: Array
    work_min: Array
