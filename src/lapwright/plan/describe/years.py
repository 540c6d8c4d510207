"""The bundled years with their places and months, in words, for whoever chooses one."""

from __future__ import annotations

from typing import Any

import numpy as np

Json = dict[str, Any]
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


def years() -> list[Json]:
    """Each bundled year: name, where it was taken, and which months it has."""
    from lapwright.intake.weather_source import bundled_names, read_bundled  # the weather libraries are heavy

    found = []
    for name in bundled_names():
        year, _ = read_bundled(name)
        months = sorted({int(each) % 12 for each in year.start[~year.absent].astype("datetime64[M]").astype(np.int64)})
        has = "all twelve months" if len(months) == len(MONTHS) else ", ".join(MONTHS[each] for each in months)
        ways = ("N" if year.latitude >= 0 else "S", "E" if year.longitude >= 0 else "W")
        place = f"{abs(year.latitude):.2f}° {ways[0]} {abs(year.longitude):.2f}° {ways[1]}"
        found.append({"name": name, "words": f"{year.origin}; {place}; {has}"})
    return found
