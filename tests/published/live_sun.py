"""The sun's height beside pvlib's other formula, an almanac's."""

from collections.abc import Callable
from importlib.metadata import version

import numpy as np
import pandas as pd
from compared import Live
from pvlib import solarposition

from lapwright.weather.sun import sun_heights

START = np.datetime64("2018-01-01T00:00", "m") + np.arange(8760) * np.timedelta64(60, "m")
PLACES = {"36.1-north": (36.1, -79.95, -5.0), "63-north": (62.96, -141.94, -9.0), "34-south": (-34.0, 18.5, 2.0)}
MOMENTS = {"begin": 0, "middle": 30, "end": 60}


def heights(place: str, moment: str) -> Callable[[], tuple[np.ndarray, np.ndarray]]:
    """True height of the sun [°] through the hours of a year."""
    latitude, longitude, offset_h = PLACES[place]

    def both() -> tuple[np.ndarray, np.ndarray]:
        found = sun_heights(START, offset_h=offset_h, latitude=latitude, longitude=longitude)
        utc = pd.DatetimeIndex(START + np.timedelta64(MOMENTS[moment] - round(60 * offset_h), "m"), tz="UTC")
        theirs = solarposition.ephemeris(utc, latitude, longitude)["elevation"].to_numpy()
        return theirs, getattr(found, f"{moment}_deg")

    return both


LIVE = tuple(
    Live(
        f"weather.live-sun-{place}-{moment}",
        f"pvlib {version('pvlib')}, solarposition.ephemeris",
        f"{moment} of every hour of 2018",
        START,
        heights(place, moment),
        "°",
        0.05,
    )
    for place in PLACES
    for moment in MOMENTS
)
