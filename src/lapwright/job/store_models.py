"""The warm store as typed, and the way from it to the work.

SI: temperatures °C, lengths m, W/m²K, W; what was not given is None and is either a default with its origin or unknown.
"""

from __future__ import annotations

import re
from typing import Annotated

from lapwright.job.fields import OneOf, Reads, YesNo, key
from lapwright.job.part import Part
from lapwright.units import read
from lapwright.units.unread import Unread

STACKS = ("single", "pallet")
WRAPPINGS = ("wrapped", "opened", "spaced")
FUEL_NAMES = ("propane", "kerosene", "electric")
_GRID = re.compile(r"([0-9]{1,2}) ?[x×] ?([0-9]{1,2})")
_MOST = 10


def grid_of(text: str) -> tuple[int, int]:
    """Rows and columns of rolls on a pallet: `5x5`, `4 x 5`.

    Raises: Unread for anything else, and for more than ten or none either way.
    """
    found = _GRID.fullmatch(text.strip().lower())
    rows, columns = (int(found[1]), int(found[2])) if found else (0, 0)
    if not (1 <= rows <= _MOST and 1 <= columns <= _MOST):
        raise Unread("rows by columns of rolls, 1 to 10 either way", "5x5")
    return rows, columns


def _transmittance(write: str) -> Reads:
    return Reads("thermal transmittance", read.transmittance_w_m2k, write, above="0 W/m2K", high="50 W/m2K")


class StoreTyped(Part):
    """The warm store, and how rolls come from it to the roof."""

    temperature: Annotated[float | None, Reads("temperature", read.temperature_c, "70 F", low="30 F", high="140 F")] = (
        key("how warm it is kept")
    )
    stack: Annotated[str, OneOf(STACKS)] = key("how rolls stand in it: each by itself, or on their pallets", "single")
    pallet: Annotated[tuple[int, int] | None, Reads("rows by columns", grid_of, "5x5", has_unit=False)] = key(
        "rolls on a pallet", shown="5x5"
    )
    wrapping: Annotated[str, OneOf(WRAPPINGS)] = key(
        "of a pallet: wrapped, opened (a fan can blow through it), or its rolls spaced", "wrapped"
    )
    fans: Annotated[bool, YesNo()] = key("whether fans move its air", False, shown="false")
    walls: Annotated[float | None, _transmittance("1 W/m2K")] = key(
        "thermal transmittance of its walls and roof", shown="6 W/m2K"
    )
    heater: Annotated[float | None, Reads("power", read.power_w, "15 kW", above="0 W", high="1000 kW")] = key(
        "heat that its heater gives"
    )
    fuel: Annotated[str | None, OneOf(FUEL_NAMES)] = key("what the heater burns")
    floor: Annotated[float | None, Reads("area", read.area_m2, "160 sf", above="0 sf", high="100000 sf")] = key(
        "its floor"
    )
    distance: Annotated[float | None, Reads("length", read.length_m, "150'", low="0'", high="5000'")] = key(
        "from its door to the farthest work"
    )
    carry: Annotated[int | None, Reads("whole number", read.integer, "4", low="1", high="50", has_unit=False)] = key(
        "rolls that are carried at once", shown="4"
    )
    pace: Annotated[float | None, Reads("speed", read.speed_m_s, "2.5 ft/s", low="0.1 ft/s", high="30 ft/s")] = key(
        "how fast rolls are carried", shown="0.8 m/s"
    )
    cover: Annotated[float | None, _transmittance("3 W/m2K")] = key(
        "thermal transmittance of a cover or box over rolls outside; none where not given"
    )
