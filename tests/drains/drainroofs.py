"""Roofs for the tests of drains: typed in feet, turned where asked."""

from __future__ import annotations

import math
from collections.abc import Sequence

from lapwright.roof.values import Area, Drain, Edge

FOOT_TICKS = 24_384


def area(
    corners_ft: Sequence[tuple[float, float]],
    kinds: Sequence[str | None],
    *,
    falls: tuple[float, float] = (0.0, -1.0),
    drains: Sequence[Drain] = (),
    turned_deg: float = 0.0,
    name: str = "Main",
    height: float | None = 0.762,
) -> Area:
    """An area by its corners [ft] and the kind of each side; parapets and walls have the height [m]."""
    c, s = math.cos(math.radians(turned_deg)), math.sin(math.radians(turned_deg))
    outline = tuple((round((c * x - s * y) * FOOT_TICKS), round((s * x + c * y) * FOOT_TICKS)) for x, y in corners_ft)
    edges = tuple(
        Edge(
            side=index + 1,
            kind=kind,
            start=outline[index],
            end=outline[(index + 1) % len(outline)],
            height=height if kind in ("parapet", "wall") else None,
            key=f"roof[0].edges[{index}]",
        )
        for index, kind in enumerate(kinds)
    )
    down = (c * falls[0] - s * falls[1], s * falls[0] + c * falls[1])
    return Area(name, outline, edges, falls=down, slope=1 / 48, drains=tuple(drains))


BOX = ((0.0, 0.0), (120.0, 0.0), (120.0, 64.0), (0.0, 64.0))
# South, west part 56 ft deep 45 ft, east part 40 ft deep 27 ft; falls north to two low sides, 3 and 5.
ELL = ((0.0, 0.0), (96.0, 0.0), (96.0, 27.0), (56.0, 27.0), (56.0, 45.0), (0.0, 45.0))
