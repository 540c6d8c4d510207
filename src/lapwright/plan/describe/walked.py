"""A walk while it is typed: its legs one by one, how far it has come, and how it closes."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate, takewhile

from lapwright.job.outline_models import MOST_LEGS
from lapwright.roof.values import Closure, Point
from lapwright.roof.walk import close_walk, is_closed_enough, misclosure_words
from lapwright.units import read
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.unread import Unread
from lapwright.units.write import Units

_PARTS = re.compile(r",(?![0-9])|(?<![0-9]),|\n")  # not a decimal comma
_AXIS = re.compile(r"([ENWSenws])\s*([0-9].*|)")
_NUMBERED = re.compile(r"leg [0-9]+: ")
LEAST_LEGS = 3


@dataclass(frozen=True, slots=True)
class LegRow:
    """One leg as typed.  way: E, N, W or S where it is walked along an axis, else empty; rest: what is behind it.

    leg: as read, None where it can't be; needs, write: what is wrong with it and what to write.
    """

    text: str
    way: str
    rest: str
    leg: read.Leg | None
    needs: str = ""
    write: str = ""


@dataclass(frozen=True, slots=True)
class Walked:
    """A walk as far as it can be read.

    corners: of the outline where it closes, else the places passed, the start first; closure: None where it is no
    outline yet.  is_whole: the corners are an outline.  end: where the tape ended.
    """

    rows: tuple[LegRow, ...]
    corners: tuple[Point, ...]
    end: Point
    closure: Closure | None
    is_whole: bool

    def words(self, units: Units) -> str:
        """How it closes, or how far it has come."""
        if self.closure is not None:
            return misclosure_words(self.closure, units)
        legs = [row.leg for row in takewhile(lambda row: row.leg is not None, self.rows)]
        walked = sum(leg.length_ticks for leg in legs if leg is not None)
        if not walked:
            return ""
        start = self.corners[0]
        east, north = start[0] - self.end[0], start[1] - self.end[1]
        ways = [
            f"{letters[0] if off > 0 else letters[1]} {units.tape(abs(off))}"
            for off, letters in ((east, "EW"), (north, "NS"))
            if off
        ]
        so_far = f"{units.length(walked / TICKS_PER_METRE)} walked so far"
        if len(legs) < len(self.rows):
            so_far = f"{units.length(walked / TICKS_PER_METRE)} walked before leg {len(legs) + 1}, which can't be read"
        return f"{so_far}; the start lies {' '.join(ways)} from here" if ways else f"{so_far}; this is the start"


def leg_rows(text: str) -> tuple[LegRow, ...]:
    """The legs of a walk, each read by itself."""
    parts = [part.strip() for part in _PARTS.split(text)]
    while parts and not parts[-1]:
        parts.pop()
    return tuple(_row(part) for part in parts[:MOST_LEGS])


def walked(text: str, *, start: Point, is_accepted: bool) -> Walked:
    """A walk from its first corner [ticks].  is_accepted: it is closed whatever it misses."""
    rows = leg_rows(text)
    legs = []
    for row in rows:
        if row.leg is None:
            break
        legs.append(row.leg)
    places = _places(legs, start)
    if len(legs) == len(rows) and len(legs) >= LEAST_LEGS:
        corners, closure = close_walk(legs, start=start)
        if is_accepted or is_closed_enough(closure):
            return Walked(rows, corners, places[-1], closure, is_whole=True)
        return Walked(rows, places, places[-1], closure, is_whole=False)
    return Walked(rows, places, places[-1], None, is_whole=False)


def _places(legs: Sequence[read.Leg], start: Point) -> tuple[Point, ...]:
    steps = [(round(leg.length_ticks * leg.direction[0]), round(leg.length_ticks * leg.direction[1])) for leg in legs]
    return tuple(accumulate(steps, lambda at, step: (at[0] + step[0], at[1] + step[1]), initial=start))


def _row(part: str) -> LegRow:
    found = _AXIS.fullmatch(part)
    way, rest = (found[1].upper(), found[2].strip()) if found else ("", part)
    try:
        (leg,) = read.walk(part)
    except Unread as unread:
        return LegRow(part, way, rest, None, _NUMBERED.sub("", unread.needs), unread.write.split(",")[0])
    return LegRow(part, way if leg.is_axis else "", rest if leg.is_axis else part, leg)


def way_words(start: Point, end: Point) -> str:
    """The way from one place to another: E, N, W, S, or a bearing to the minute."""
    east, north = end[0] - start[0], end[1] - start[1]
    if not east or not north:
        return ("E" if east > 0 else "W") if east else ("N" if north > 0 else "S") if north else ""
    minutes = round(math.degrees(math.atan2(abs(east), abs(north))) * 60)
    return f"{'N' if north > 0 else 'S'} {minutes // 60} {minutes % 60} {'E' if east > 0 else 'W'}"
