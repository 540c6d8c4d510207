"""What hot work needs on a day: permit, extinguishers, the watch, and what may burn near today's laps."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from lapwright.crew.values import CrewDay
from lapwright.defaults.si import default_si
from lapwright.layout.values import Lap
from lapwright.packet.pages.fit import AT_LENGTH
from lapwright.packet.pages.lookup import Book
from lapwright.packet.pages.words import Json, clock, table
from lapwright.roof.values import Area, Point
from lapwright.units.factors import TICKS_PER_METRE

Segments = NDArray[np.float64]
LOOK_AT = "look at sides, vents and below"
WALLS = ("parapet", "wall", "step", "expansion")


@dataclass(frozen=True, slots=True)
class Near:
    """Something near today's laps that may burn or lead a flame on: its kind, how far at its nearest [m]."""

    name: str
    what: str
    distance: float


def hot_work(book: Book, day: CrewDay) -> Json | None:
    """The hot-work lines of a day with welding; None on a day without."""
    if not is_hot(day):
        return None
    within = default_si("packet", "hot_work_clear")
    found = near_laps(book, [book.laps[id] for id in day.laps if id in book.laps], within)
    reach = book.units.length(within) if book.units.is_us else f"{within:.1f} m"
    return {
        "watch": watch_words(book, day),
        "near": near_table(f"Within {reach} of today's laps: {LOOK_AT}", near_kinds(book, found)),
        "boards": board_words(book),
    }


def near_kinds(book: Book, found: Iterable[Near]) -> list[tuple[str, list[str]]]:
    """What is near by its kind, each with its distance; an area is named where it is another than the one before."""
    kinds: dict[str, list[str]] = {}
    last: dict[str, str] = {}
    for one in found:
        area, _, name = one.name.rpartition(", ")
        named = name if last.get(one.what) == area else f"{area} {name}"
        last[one.what] = area
        kinds.setdefault(one.what, []).append(f"{named} {nearest(book, one.distance)}")
    return list(kinds.items())


def near_table(reach: str, kinds: Sequence[tuple[str, Sequence[str]]]) -> Json:
    """A row for each kind of thing that is near, with room to write; `kinds`: the same for whoever cuts it down."""
    rows = [(what, "; ".join(told), "") for what, told in kinds]
    widths = ("24mm", "1fr", "44mm")
    return {**table(("Near", reach, "Burns? Covered by"), rows, widths), "kinds": [list(kind) for kind in kinds]}


def capped_near(near: Json, most: int) -> Json:
    """The same with at most so many things of a kind; how many more there are is said."""
    told = []
    for what, things in near["kinds"]:
        more = len(things) - most
        told.append((what, things if more <= 0 else [*things[:most], f"and {more} more: {AT_LENGTH}"]))
    made = near_table(near["head"][1], told)
    return near if made["rows"] == near["rows"] else made


def nearest(book: Book, distance: float) -> str:
    """A distance to the inch or millimetre: it is judged by eye."""
    return book.units.tape(round(distance * TICKS_PER_METRE), step="1")


def is_hot(day: CrewDay) -> bool:
    """Laps are welded on this day."""
    return day.stop_welding_min is not None or any(task.state == "heat" for task in day.tasks)


def watch_words(book: Book, day: CrewDay) -> str:
    """When welding stops, and until when the watch stays."""
    crew = book.paper.crew
    stop = day.stop_welding_min
    if crew is None or crew.fire_watch_s is None or stop is None:
        return (
            "Fire watch: not given (crew.fire_watch). No lap is welded until the longest of code, owner and "
            "programme is known."
        )
    end = clock(stop + crew.fire_watch_s / 60)
    length = book.units.duration(crew.fire_watch_s)
    return (
        f"Welding stops at {clock(stop)}. Fire watch until {end} ({length}, as given in the job file). "
        "The watch does nothing else from the first weld on."
    )


def board_words(book: Book) -> str:
    """The boards and deck under today's laps, to be judged by whoever signs the permit."""
    build_up = book.paper.assembly
    parts = [
        f"{name} {board.kind}"
        for name, board in (("cover board", build_up.cover_board), ("insulation", build_up.insulation))
        if board and board.kind
    ]
    if build_up.deck and build_up.deck.kind:
        parts.append(f"deck {build_up.deck.kind}")
    told = ", ".join(parts) if parts else "not given"
    return f"Under the laps: {told}. Burns, or joints open to what does?"


def near_laps(book: Book, laps: Sequence[Lap], within: float) -> list[Near]:
    """Walls and openings within a distance [m] of any of the laps, nearest first."""
    if not laps:
        return []
    lines = np.array([[*lap.line[0], *lap.line[1]] for lap in laps])
    found = [
        Near(name, what, distance)
        for area in book.paper.areas
        for name, what, segments in candidates(area)
        if (distance := least_distance(lines, segments)) <= within
    ]
    return sorted(found, key=lambda near: (near.distance, near.name))


def candidates(area: Area) -> Iterator[tuple[str, str, Segments]]:
    """Walls, openings, pipes and drains of an area as segments in plan [m]."""
    for edge in area.edges:
        if edge.kind in WALLS:
            yield f"{area.name}, {edge.kind} side {edge.side}", "walls", ring([edge.start, edge.end])[:1]
    for opening in area.openings:
        yield f"{area.name}, {opening.name}", "openings", ring(opening.outline)
    for pipe in area.pipes:
        yield f"{area.name}, {pipe.name}", "pipes, drains", ring([pipe.at])
    for drain in area.drains:
        if drain.at is not None:
            yield f"{area.name}, {drain.name}", "pipes, drains", ring([drain.at])


def ring(points: Iterable[Point]) -> Segments:
    """Closed segments through plan points, in metres; a single point is a segment of no length."""
    corners = [(x / TICKS_PER_METRE, y / TICKS_PER_METRE) for x, y in points]
    return np.array([[*a, *b] for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)])


def least_distance(lines: Segments, others: Segments) -> float:
    """Least distance between two sets of segments [m]; 0 where any two cross."""
    if crosses(lines, others):
        return 0.0
    ends, other_ends = lines.reshape(-1, 2), others.reshape(-1, 2)
    return float(min(point_distance(ends, others).min(), point_distance(other_ends, lines).min()))


def point_distance(points: Segments, segments: Segments) -> Segments:
    """Distance of every point from every segment, (points, segments)."""
    start, along = segments[:, :2], segments[:, 2:] - segments[:, :2]
    reach = points[:, None, :] - start[None]
    length2 = (along**2).sum(axis=1)
    share = (reach * along[None]).sum(axis=2) / np.where(length2 > 0, length2, 1.0)
    off = reach - np.clip(share, 0.0, 1.0)[..., None] * along[None]
    return np.asarray(np.hypot(off[..., 0], off[..., 1]))


def crosses(lines: Segments, others: Segments) -> bool:
    """Any segment of one set properly crosses one of the other."""
    a, b = lines[:, None, :2], lines[:, None, 2:]
    c, d = others[None, :, :2], others[None, :, 2:]
    return bool(np.any((side(a, b, c) * side(a, b, d) < 0) & (side(c, d, a) * side(c, d, b) < 0)))


def side(a: Segments, b: Segments, p: Segments) -> Segments:
    """On which side of the line from a to b a point lies: the sign of the cross product."""
    return np.asarray(
        (b[..., 0] - a[..., 0]) * (p[..., 1] - a[..., 1]) - (b[..., 1] - a[..., 1]) * (p[..., 0] - a[..., 0])
    )
