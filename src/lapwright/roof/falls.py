"""How an area lies: how high its parts are, how large it is, which sides water runs over, how long its edges are.

Lengths and areas are plan lengths and plan areas unless said otherwise.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from lapwright.geometry.polygon import sides_of, signed_area2
from lapwright.roof.between import shared_edges
from lapwright.roof.values import Area, Edge, Point
from lapwright.units.factors import TICKS_PER_METRE

NOT_GIVEN = "not given"
# A side along the fall takes no water: its outward normal may be off square by rounding to ticks only.
SQUARE = 1e-6


def level_m(area: Area, point: Point) -> float:
    """Height of the area's plane at a plan point [ticks] above its lowest corner [m].

    Source: arithmetic; z = slope times the plan distance up the fall
    Checked: tests/roof/test_roof_falls.py
    """
    return area.slope * (_down(area, _lowest(area)) - _down(area, point)) / TICKS_PER_METRE


def level_range(area: Area) -> tuple[float, float]:
    """Heights of the lowest and the highest corner above the lowest [m]: (0, rise).

    Source: arithmetic
    Checked: tests/roof/test_roof_falls.py
    """
    return (0.0, max(level_m(area, corner) for corner in area.outline))


def stretch(area: Area) -> float:
    """Length up the slope over its plan length.

    Source: arithmetic; sqrt(1 + slope²)
    """
    return math.sqrt(1.0 + area.slope * area.slope)


def area_m2(area: Area, *, net: bool = True, on_slope: bool = False) -> float:
    """Size of an area [m²]: in plan, or along its slope; net of openings, which pipes are not.

    Source: arithmetic
    Checked: tests/roof/test_roof_falls.py
    """
    doubled = abs(signed_area2(area.outline))
    if net:
        doubled -= sum(abs(signed_area2(opening.outline)) for opening in area.openings)
    plan = doubled / 2 / TICKS_PER_METRE**2
    return plan * stretch(area) if on_slope else plan


def edge_length_m(edge: Edge) -> float:
    """Plan length of a side [m].

    Source: arithmetic
    Checked: tests/roof/test_roof_falls.py
    """
    return math.dist(edge.start, edge.end) / TICKS_PER_METRE


def low_sides(area: Area) -> tuple[int, ...]:
    """Sides that water running down the fall meets from inside, from 1, in walking order.

    On an even plane these are all the sides that a gutter, scupper or dam on them would catch water at; a side along
    the fall is none.
    Source: arithmetic; outward normal · falls > 0
    Checked: tests/roof/test_roof_falls.py
    """
    sign = 1 if signed_area2(area.outline) > 0 else -1
    found = []
    for number, ((ax, ay), (bx, by)) in enumerate(sides_of(area.outline), start=1):
        outward = sign * ((by - ay) * area.falls[0] - (bx - ax) * area.falls[1])
        if outward > SQUARE * math.hypot(bx - ax, by - ay):
            found.append(number)
    return tuple(found)


def plan_perimeter_by_kind(areas: Sequence[Area]) -> Mapping[str, float]:
    """Plan length of edge by kind [m], in the order the kinds first come up; "not given" where a side has none.

    A stretch that is the edge of two areas counts once, with the kind that either gives.
    Source: arithmetic
    Checked: tests/roof/test_roof_falls.py
    """
    lengths: dict[str, float] = {}
    for area in areas:
        for edge in area.edges:
            kind = edge.kind or NOT_GIVEN
            lengths[kind] = lengths.get(kind, 0.0) + edge_length_m(edge)
    for shared in shared_edges(areas):
        kinds = (
            areas[shared.area].edges[shared.side - 1].kind,
            areas[shared.other_area].edges[shared.other_side - 1].kind,
        )
        lengths[NOT_GIVEN if None in kinds else str(kinds[1])] -= shared.length
    return {kind: length for kind, length in lengths.items() if length > 0.0}


def _down(area: Area, point: Point) -> float:
    return point[0] * area.falls[0] + point[1] * area.falls[1]


def _lowest(area: Area) -> Point:
    return max(area.outline, key=lambda corner: _down(area, corner))
