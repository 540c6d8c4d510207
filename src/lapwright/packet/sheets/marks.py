"""Legend entries for the marks of a plan: openings, pipes and ways out for water, each kind once."""

from __future__ import annotations

from collections.abc import Iterable

from lapwright.packet.drawing import moved
from lapwright.packet.sheets.legend import Entry, mark_entry
from lapwright.packet.sheets.model import TICKS, drain_items, opening_items, pipe_items
from lapwright.packet.sheets.naming import DRAIN_WORDS
from lapwright.roof.values import Area, Drain, Edge, Opening, Pipe


def mark_entries(areas: Iterable[Area]) -> list[Entry]:
    """Openings, pipes and drains by kind."""
    entries: list[Entry] = []
    openings: dict[str, Opening] = {}
    drains: dict[str, tuple[Area, Drain]] = {}
    pipes = False
    for area in areas:
        pipes = pipes or bool(area.pipes)
        for opening in area.openings:
            openings.setdefault(opening.kind, opening)
        for drain in area.drains:
            drains.setdefault(drain.kind, (area, drain))
    for kinds in (("curb", "hatch"), ("skylight",), ("shaft",)):
        used = [kind for kind in kinds if kind in openings]
        if used:
            size = (round(7.0 * TICKS), round(3.2 * TICKS))
            sample = Opening("", used[0], (-size[0] // 2, -size[1] // 2), size)
            entries.append(mark_entry(" or ".join(used), opening_items(sample)))
    if pipes:
        entries.append(mark_entry("pipe", pipe_items(Pipe("", (0, 0), 1), 1.0)))
    return [*entries, *map(drain_entry, drains)]


def drain_entry(kind: str) -> Entry:
    """The mark of a drain beside its word."""
    edge = Edge(1, None, (-4 * TICKS, 0), (4 * TICKS, 0))
    corners = ((-4 * TICKS, 0), (4 * TICKS, 0), (0, 4 * TICKS))
    sample = Area("", corners, (edge,), (0.0, -1.0), 0.0)
    at = None if kind in ("scupper", "overflow_scupper", "gutter") else (0, 0)
    drain = Drain("", kind, at=at, side=1, from_start=4.0)
    items = moved(drain_items(sample, drain, 1.0), 0.0, 1.8 if kind == "gutter" else 0.0)
    return mark_entry(DRAIN_WORDS.get(kind, kind), items)
