"""Areas whose sides are one edge: which of them meet in a ridge or a valley."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from lapwright.roof.between import SharedEdge, same_line_ticks, shared_edges
from lapwright.roof.falls import edge_length_m
from lapwright.roof.values import Area, Edge
from lapwright.units.factors import TICKS_PER_METRE

JOINED = ("ridge", "valley")


def join_areas(areas: Sequence[Area]) -> tuple[Area, ...]:
    """The areas with each ridge and valley knowing the area on its other side.

    Holds for: sides that coincide from end to end; where only a part is shared each area ends at the line.
    Source: common practice, no source
    Checked: tests/roof/test_roof_joins.py
    """
    found = list(areas)
    for shared in shared_edges(areas):
        one, two = found[shared.area], found[shared.other_area]
        first, second = one.edges[shared.side - 1], two.edges[shared.other_side - 1]
        kind = first.kind or second.kind
        if kind not in JOINED or first.meets or second.meets or not _is_whole(shared, first, second):
            continue
        found[shared.area] = _beside(one, replace(first, kind=kind, meets=two.name), two)
        found[shared.other_area] = _beside(two, replace(second, kind=kind, meets=one.name), one)
    return tuple(found)


def _is_whole(shared: SharedEdge, first: Edge, second: Edge) -> bool:
    """Both sides are shared from end to end."""
    slack = 2 * same_line_ticks() / TICKS_PER_METRE
    return max(edge_length_m(first), edge_length_m(second)) - shared.length <= slack


def _beside(area: Area, edge: Edge, other: Area) -> Area:
    """An area with one edge replaced, and with what stands in the area on its other side."""
    edges = tuple(edge if each.side == edge.side else each for each in area.edges)
    near = tuple(drain for drain in other.drains if drain.at is not None and drain not in area.near)
    beside = tuple(one for one in other.openings if one not in area.beside)
    return replace(area, edges=edges, beside=(*area.beside, *beside), near=(*area.near, *near))
