"""Closing a roof walked with the tape: where it ended, how far off that is, what each leg takes of it.

*Walk*: legs one after another round the roof.  *Misclosure*: how far east and north of the start the last leg
ended.  *Axis leg*: walked E, N, W or S; it keeps its direction and takes its share in length only.  *Bearing leg*:
any other; it takes its share east and north (compass rule).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction
from typing import Protocol

from lapwright.defaults.table import table
from lapwright.roof.values import Closure, LegChange, Point
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.read import length_ticks
from lapwright.units.write import Units


class Walked(Protocol):
    """A leg as read: unit vector (east, north), whether it was walked E N W S, length [ticks]."""

    @property
    def direction(self) -> tuple[float, float]: ...  # noqa: D102  # named in the class
    @property
    def is_axis(self) -> bool: ...  # noqa: D102  # named by the class
    @property
    def length_ticks(self) -> int: ...  # noqa: D102  # named by the class


def close_walk(legs: Sequence[Walked], *, start: Point = (0, 0), area: str = "") -> tuple[tuple[Point, ...], Closure]:
    """The outline's corners and how the walk closed.

    Args:
        legs: at least one; directions as unit vectors, lengths in ticks.
        start: the first corner [ticks].
        area: whose outline it is, for the report.

    Returns:
        As many corners as legs, side i + 1 being leg i; closure with the misclosure before and each leg's change,
        all in whole ticks.  The changed legs add up to nothing, exactly.

    Holds for: errors of the tape that grow with length.  East, the misclosure is shared by the E, W and bearing legs
        in proportion to their lengths; north, by the N, S and bearing legs.  With bearing legs alone that is the
        compass (Bowditch) rule.
    Source: compass rule, Purdue University ASM 215, traverse calculations
        (engineering.purdue.edu/~asm215/topics/travcalc.html)
    Checked: tests/roof/test_roof_walk.py
    """
    steps = [(_ticks(leg, 0), _ticks(leg, 1)) for leg in legs]
    east, north = sum(x for x, _ in steps), sum(y for _, y in steps)
    lengths = [leg.length_ticks for leg in legs]
    x_shares = [0 if leg.is_axis and leg.direction[0] == 0 else leg.length_ticks for leg in legs]
    y_shares = [0 if leg.is_axis and leg.direction[1] == 0 else leg.length_ticks for leg in legs]
    changes = list(zip(shared_out(-east, x_shares), shared_out(-north, y_shares), strict=True))
    corners = [start]
    for (x, y), (dx, dy) in zip(steps[:-1], changes[:-1], strict=True):
        corners.append((corners[-1][0] + x + dx, corners[-1][1] + y + dy))
    listed = tuple(LegChange(side, dx, dy) for side, (dx, dy) in enumerate(changes, start=1) if dx or dy)
    return tuple(corners), Closure(area, east, north, sum(lengths), listed)


def shared_out(total: int, shares: Sequence[int]) -> list[int]:
    """A whole number shared out in whole numbers in proportion to `shares`, adding up exactly.

    Each gets its share rounded down in size; what is left goes one each to the largest remainders, earlier first.
    Source: arithmetic (largest remainder)
    Raises: ZeroDivisionError where there is something to share out and nobody to take it (a bug).
    """
    if total == 0:
        return [0] * len(shares)
    whole = sum(shares)
    parts = [divmod(abs(total) * share, whole) for share in shares]
    given = [part for part, _ in parts]
    by_rest = sorted(range(len(shares)), key=lambda place: (-parts[place][1], place))
    for place in by_rest[: abs(total) - sum(given)]:
        given[place] += 1
    return [part if total > 0 else -part for part in given]


def misclosure_limit(walked: int) -> int:
    """The largest misclosure [ticks] that a walk of this length [ticks] may have: 1 in 500, at most 2 inches.

    Source: common practice, no source
    """
    rows = table("roof")
    return min(int(walked * Fraction(rows["misclosure_share"].value)), length_ticks(rows["misclosure_most"].value))


def is_closed_enough(closure: Closure) -> bool:
    """The misclosure is within its limit.

    Source: arithmetic
    Checked: tests/roof/test_roof_walk.py
    """
    return closure.east**2 + closure.north**2 <= misclosure_limit(closure.walked) ** 2


def misclosure_words(closure: Closure, units: Units) -> str:
    """The misclosure as people write it: east and north, straight, against the walk and the limit; less than the tape
    shows is none.

    Source: arithmetic
    Checked: tests/roof/test_roof_walk.py
    """
    total = math.hypot(closure.east, closure.north)
    parts = [
        f"{letters[0] if off > 0 else letters[1]} {units.tape(abs(off))}"
        for off, letters in ((closure.east, "EW"), (closure.north, "NS"))
        if units.tape(abs(off)) != units.tape(0)
    ]
    if not parts:
        return "the walk ends at its start"
    return (
        f"the walk ends {' '.join(parts)} of its start: {units.tape(round(total))} in "
        f"{units.length(closure.walked / TICKS_PER_METRE)}, 1 in {round(closure.walked / total)}; "
        f"limit {units.tape(misclosure_limit(closure.walked))}"
    )


def _ticks(leg: Walked, axis: int) -> int:
    return round(leg.length_ticks * leg.direction[axis])
