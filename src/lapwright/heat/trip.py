"""How many warm rolls to bring up in a trip, and how far from the store's door they may stand (question 6).

A roll is unrolled from its outermost wrap, so that wrap has to be down before it is lost: the trip, the handling and
the wait for the rolls before it all count from the store's door.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.heat.values import Trip
from lapwright.verdict import Step

SOURCE = "arithmetic on the roll clock; speed and handling are common practice, no source"


@dataclass(frozen=True, slots=True)
class TripAsk:
    """lasts_s: the outer wrap lasts so long from the door on, None for ever; pace_s: the crew needs a roll so often.

    distance: from the store's door to the work [m].  speed_m_s, handling_s: None takes the default; most: rolls that
    can be carried at once, None the default.
    """

    lasts_s: float | None
    pace_s: float
    distance: float
    speed_m_s: float | None = None
    handling_s: float | None = None
    most: int | None = None


def plan_trip(ask: TripAsk) -> Trip:
    """Rolls to a trip and how far they may be carried.

    Source: arithmetic: distance/speed + handling + (rolls - 1)·pace within what the outer wrap lasts
    Checked: tests/published/rolls.csv trip-*
    """
    rows = table("rolls")
    speed = rows["carry_speed"].number() if ask.speed_m_s is None else ask.speed_m_s
    handling = rows["carry_handling"].number() if ask.handling_s is None else ask.handling_s
    most = int(rows["carry_rolls"].number()) if ask.most is None else ask.most
    trip_s = ask.distance / speed + handling
    if ask.lasts_s is None:
        return Trip(most, None, (), trip_s, _steps(ask, speed, handling, most), SOURCE)
    spare_s = ask.lasts_s - trip_s
    rolls = 0 if spare_s < 0 else min(most, math.floor(spare_s / ask.pace_s + 1e-9) + 1)
    reaches = tuple(
        (count, speed * (ask.lasts_s - handling - (count - 1) * ask.pace_s))
        for count in range(1, most + 1)
        if ask.lasts_s - handling - (count - 1) * ask.pace_s >= 0
    )
    farthest = reaches[0][1] if reaches else 0.0
    return Trip(rolls, farthest, reaches, trip_s, _steps(ask, speed, handling, rolls), SOURCE)


def _steps(ask: TripAsk, speed: float, handling: float, rolls: int) -> tuple[Step, ...]:
    lasts = "for ever" if ask.lasts_s is None else ask.lasts_s
    return (
        Step(
            "From the store's door until the first roll lies ready",
            "d/v + handling",
            {"d [m]": ask.distance, "v [m/s]": speed, "handling [s]": handling},
            ask.distance / speed + handling,
            "s",
        ),
        Step(
            "Rolls to a trip: the last one's outer wrap is laid before it is lost",
            "1 + (lasts - trip)/pace, whole, at most what is carried at once",
            {"lasts [s]": lasts, "pace [s]": ask.pace_s},
            float(rolls),
            "1",
        ),
    )
