"""What is not right with a roof, in words, before anybody lays it out.

A *problem* becomes a fault where the job file's reader knows the line; the roof knows only the key.
"""

from __future__ import annotations

from dataclasses import dataclass

from lapwright.roof.values import Area, Point
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing that can't be laid: key path, what is wanted, what to write, what was found."""

    path: str
    needs: str
    write: str
    read: str


def at_words(point: Point, units: Units) -> str:
    """A place or a way, as typed: `E 30' N 20'`; west and south where negative."""
    east, north = point
    return f"{'W' if east < 0 else 'E'} {units.tape(abs(east))} {'S' if north < 0 else 'N'} {units.tape(abs(north))}"


def from_corner(area: Area, point: Point, units: Units) -> str:
    """A place counted from an area's first corner, as the job file counts it."""
    first = area.outline[0]
    return at_words((point[0] - first[0], point[1] - first[1]), units)
