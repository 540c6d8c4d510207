"""A curve as a page draws it: points within a square of one, round marks along both axes, and a short table."""

from __future__ import annotations

import math
from collections.abc import Iterator
from typing import Any

from lapwright.plan.figures.figure import Curve
from lapwright.units.write import Units, decimals

MINUTE, HOUR, DAY = 60, 3600, 86400
TIME_STEPS = (
    *(1, 2, 5, 10, 20, 30),
    *(MINUTE * step for step in (1, 2, 5, 10, 20, 30)),
    *(HOUR * step for step in (1, 2, 3, 6, 12)),
    *(DAY * step for step in (1, 2, 5, 10, 20, 50, 100)),
)
MOST_ALONG, MOST_UP = 4, 5  # marks beside the first; a phone's width holds no more words
MOST_ROWS = 12
SMALL_M = 0.9  # lengths within less are told in inches or millimetres, as a tape is read


def curve_shown(curve: Curve, units: Units) -> dict[str, Any] | None:
    """The curve for a page; None where it has no two points."""
    points = [point for point in curve.points if all(map(math.isfinite, point))]
    if len(points) < 2:
        return None
    along, up = [point[0] for point in points], [point[1] for point in points]
    left, right = ends(along)
    low, high = ends(up)
    return {
        "along": curve.along,
        "up": curve.up,
        "points": [[share(x, left, right), share(y, low, high)] for x, y in points],
        "marks_along": [[share(at, left, right), words] for at, words in marks(left, right, curve.along_unit, units)],
        "marks_up": [
            [share(at, low, high), words] for at, words in marks(low, high, curve.up_unit, units, most_marks=MOST_UP)
        ],
        "rows": [
            [worded(x, curve.along_unit, units), worded(y, curve.up_unit, units)] for x, y in spread(points, MOST_ROWS)
        ],
    }


def ends(values: list[float]) -> tuple[float, float]:
    """Least and most; apart also where they are the same."""
    least, most = min(values), max(values)
    return (least, most) if most > least else (least - 1, most + 1)


def share(value: float, least: float, most: float) -> float:
    """Where a value stands between two ends, 0 to 1, to a ten thousandth."""
    return round((value - least) / (most - least), 4)


def spread(points: list[tuple[float, float]], most: int) -> list[tuple[float, float]]:
    """At most so many of the points, evenly, the first and the last among them."""
    if len(points) <= most:
        return points
    return [points[round(place * (len(points) - 1) / (most - 1))] for place in range(most)]


def worded(value: float, unit: str, units: Units) -> str:
    """A value with its unit."""
    return units.number_and_unit(value, unit)


def marks(
    least: float, most: float, unit: str, units: Units, *, most_marks: int = MOST_ALONG
) -> Iterator[tuple[float, str]]:
    """Round values between two ends, SI, with their words in the job's units."""
    if unit == "s":
        step = next((step for step in TIME_STEPS if (most - least) / step <= most_marks), most - least)
        for place in range(math.ceil(least / step), math.floor(most / step) + 1):
            yield place * step, units.duration(place * step) if place else "0"
        return
    zero, name = units.converted(0.0, unit)
    size = units.converted(1.0, unit)[0] - zero
    if unit == "m" and most - least < SMALL_M:
        size, name = (1 / 0.0254, "in") if units.is_us else (1000.0, "mm")
    step = round_step((most - least) * size / most_marks)
    first, last = math.ceil((zero + least * size) / step - 1e-9), math.floor((zero + most * size) / step + 1e-9)
    for place in range(first, last + 1):
        shown = place * step
        yield (shown - zero) / size, f"{decimals(shown, 6)} {name}".rstrip()


def round_step(least: float) -> float:
    """The smallest of 1, 2 and 5 times a power of ten that is no less."""
    power = 10.0 ** math.floor(math.log10(least))
    return next(step * power for step in (1, 2, 5, 10) if step * power >= least * (1 - 1e-9))
