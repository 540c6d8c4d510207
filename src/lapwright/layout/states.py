"""States of the sweep from the top down (sweep.py): what later courses need to know of those that lie."""

from __future__ import annotations

from collections.abc import Iterator
from operator import lt
from typing import NamedTuple, TypeVar

from lapwright.layout.levels import Of
from lapwright.layout.zones import Zone, holds

T = TypeVar("T")
Vector = tuple[float, ...]  # for each worth, the least taken by which of the lowest courses are tight: bit k for ply k


class Key(NamedTuple):
    """What later courses need to know besides the places of the lowest lines, ply by ply.

    *Current*: the course below a ply's lowest line so far.  counts: courses so far.  kinds: of the current course, as
    it has to turn out.  pending: lowest band of the one above it, as it has to turn out; -1: it is the top course.
    seen: neighbours that had a line when the lowest line was placed, as bits.  eased: the line is the one next
    to the top line of a neighbour, below it.  ended: the current course is the last.
    """

    counts: tuple[int, ...]
    kinds: tuple[Of, ...]
    pending: tuple[int, ...]
    seen: tuple[int, ...]
    eased: tuple[bool, ...]
    ended: tuple[bool, ...]


Layer = dict[Key, list[tuple[Zone, Vector]]]  # what can be reached with so many lines


def each(layer: Layer) -> Iterator[tuple[Key, Zone, Vector]]:
    """The states of a layer with their keys."""
    for key, states in layer.items():
        for zone, vector in states:
            yield key, zone, vector


def put(values: tuple[T, ...], place: int, value: T) -> tuple[T, ...]:
    """The values with one changed."""
    return (*values[:place], value, *values[place + 1 :])


def keep(states: list[tuple[Zone, Vector]], zone: Zone, vector: Vector) -> None:
    """Add a state unless one that reaches as much takes no more; drop those that it does the same to."""
    for other, taken in states:
        if holds(other, zone) and not any(map(lt, vector, taken)):
            return
    states[:] = [
        (other, taken) for other, taken in states if not (holds(zone, other) and not any(map(lt, taken, vector)))
    ]
    states.append((zone, vector))
