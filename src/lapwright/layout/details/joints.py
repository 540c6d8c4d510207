"""Covers over expansion joints, and cant strip at the foot of every flashed face."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from lapwright.defaults.values import Rules
from lapwright.layout.details.lengths import TICKS, along, butted, detail_ticks, slope_length
from lapwright.layout.details.stands import Corner, Stand
from lapwright.layout.values import Detail
from lapwright.roof.between import shared_edges
from lapwright.roof.values import Area


def covered_sides(areas: Sequence[Area]) -> frozenset[tuple[str, int]]:
    """Sides at an expansion joint whose cover belongs to the side of an earlier area across it: area and side.

    Source: arithmetic
    """
    if not any(edge.kind == "expansion" for area in areas for edge in area.edges):
        return frozenset()
    return frozenset(
        (areas[shared.other_area].name, shared.other_side)
        for shared in shared_edges(areas)
        if areas[shared.other_area].edges[shared.other_side - 1].kind == "expansion"
        and shared.length > 0.5 * length_of(areas[shared.other_area], shared.other_side)
    )


def length_of(area: Area, side: int) -> float:
    """Length of a side [m].  Source: arithmetic"""
    edge = area.edges[side - 1]
    return math.dist(edge.start, edge.end) / TICKS


def expansion_covers(area: Area, covered: frozenset[tuple[str, int]]) -> Iterator[Detail]:
    """The cover or bellows over each expansion joint, by length; one for the two curbs on either side.

    covered: sides whose cover belongs to another area.
    Source: common practice, no source
    Checked: tests/layout/test_detail_edges.py
    """
    long = detail_ticks("metal_length", "fasten")
    for edge in area.edges:
        if edge.kind != "expansion" or (area.name, edge.side) in covered:
            continue
        total = slope_length(area, edge.start, edge.end)
        for k, (a, b) in enumerate(butted(total, long, detail_ticks("metal_gap")), start=1):
            of, line = f"side {edge.side}", along(edge.start, edge.end, a / total, b / total)
            id = f"{area.name}/{of}/expansion cover {k}"
            yield Detail(id, "expansion_cover", area.name, of, "", "", (b - a) / TICKS, 0.0, line=line)


def cants(area: str, stand: Stand, corners: Sequence[Corner], rules: Rules) -> Iterator[Detail]:
    """Cant strip along a flashed face in lengths as sold, mitred at corners.

    At an outside corner its toe runs on past the face by the cant; the length cut is that of its longer side.
    corners: that the face ends at.
    Source: geometry; defaults/coverage.csv cant_length
    Checked: tests/layout/test_detail_corners.py
    """
    cant = rules.cant_ticks
    if not cant:
        return
    forms = {corner.at: corner.form for corner in corners}
    number = 0
    for stretch in stand.stretches:
        places = butted(stretch[1] - stretch[0], detail_ticks("cant_length", "coverage"), detail_ticks("metal_gap"))
        for k, (a, b) in enumerate(places):
            number += 1
            at_start = forms.get(stand.start) if k == 0 and stretch[0] <= 1.0 else None
            at_end = forms.get(stand.end) if k == len(places) - 1 and stretch[1] >= stand.length - 1.0 else None
            mitres = {"mitre at start": at_start, "mitre at end": at_end}
            parts = {name: cant / TICKS for name, form in mitres.items() if form}
            more = cant * sum(form == "outside" for form in mitres.values())
            yield Detail(
                id=f"{area}/{stand.of}/cant {number}",
                kind="cant",
                area=area,
                of=stand.of,
                sheet="",
                ply="",
                length=(b - a + more) / TICKS,
                width=cant / TICKS,
                line=along(stand.start, stand.end, (stretch[0] + a) / stand.length, (stretch[0] + b) / stand.length),
                parts=parts,
            )
