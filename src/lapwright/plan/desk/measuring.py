"""A distance on the plan, as a tape reads it."""

from __future__ import annotations

import math

from lapwright.plan.desk.title import title_of
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units


def tape_words(text: str, start: tuple[float, float], end: tuple[float, float]) -> dict[str, str]:
    """The distance of two plan points [m], and how far one is east and north of the other, in the job's units.

    text: of the job file.
    """
    units = Units(title_of(text).units)
    east, north = end[0] - start[0], end[1] - start[1]

    def words(metres: float) -> str:
        return units.tape(round(metres * TICKS_PER_METRE))

    ways = (f"{'E' if east >= 0 else 'W'} {words(abs(east))}", f"{'N' if north >= 0 else 'S'} {words(abs(north))}")
    return {"distance": words(math.hypot(east, north)), "east": ways[0], "north": ways[1]}
