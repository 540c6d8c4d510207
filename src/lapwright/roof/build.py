"""A roof's areas from what was typed: sides numbered, edges given their kinds, openings and drains put in place.

Answers, with walk.py, the first half of "What goes where?": what the roof is.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from lapwright.roof.between import kind_problems, overlap_problems
from lapwright.roof.inside import drain_problems, opening_problems, outline_problems, pipe_problems
from lapwright.roof.problem import Problem
from lapwright.roof.values import Area, Drain, Edge, Metal, Opening, Pipe, Point
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class EdgeRow:
    """One row of the job file's `edges`: sides from 1, kind, height [m] above the finished roof, metal."""

    sides: tuple[int, ...]
    kind: str | None = None
    height: float | None = None
    metal: Metal | None = None


def make_area(
    name: str,
    outline: Sequence[Point],
    *,
    falls: tuple[float, float],
    slope: float,
    edges: Sequence[EdgeRow] = (),
    openings: Sequence[Opening] = (),
    pipes: Sequence[Pipe] = (),
    drains: Sequence[Drain] = (),
) -> Area:
    """One area in job coordinates.

    Args:
        outline: corners in walking order [ticks]; a last corner equal to the first is dropped.
        falls: unit vector (east, north) of the way water runs; slope: rise over run.
        edges: later rows win where two name a side (see edge_problems); a side without a row has kind None.
        openings, pipes, drains: with positions counted from the first corner.

    Source: arithmetic
    Checked: tests/roof/test_roof_build.py
    """
    corners = tuple(outline[:-1]) if len(outline) > 1 and outline[0] == outline[-1] else tuple(outline)
    x, y = corners[0] if corners else (0, 0)
    rows = {side: row for row in edges for side in row.sides}
    numbered = enumerate(zip(corners, corners[1:] + corners[:1], strict=True), start=1)
    return Area(
        name=name,
        outline=corners,
        edges=tuple(_edge(side, start, end, rows.get(side)) for side, (start, end) in numbered),
        falls=falls,
        slope=slope,
        openings=tuple(replace(each, corner=(each.corner[0] + x, each.corner[1] + y)) for each in openings),
        pipes=tuple(replace(each, at=(each.at[0] + x, each.at[1] + y)) for each in pipes),
        drains=tuple(replace(each, at=(each.at[0] + x, each.at[1] + y)) if each.at else each for each in drains),
    )


def _edge(side: int, start: Point, end: Point, row: EdgeRow | None) -> Edge:
    if row is None:
        return Edge(side, None, start, end)
    return Edge(side, row.kind, start, end, row.height, row.metal)


def edge_problems(rows: Sequence[EdgeRow], sides: int, path: str) -> Iterator[Problem]:
    """Rows of `edges` that name a side that is not there, or one that an earlier row has named.

    sides: how many the outline has.  path: key of the rows, such as `roof[0].edges`.
    Source: arithmetic
    Checked: tests/roof/test_roof_build.py
    """
    named: dict[int, int] = {}
    for place, row in enumerate(rows):
        for side in dict.fromkeys(row.sides):
            if not 1 <= side <= sides:
                yield Problem(f"{path}[{place}].sides", f"sides from 1 to {sides}", f"sides: 1-{sides}", f"side {side}")
            elif side in named:
                needs = f"each side in one row only; side {side} is in edges[{named[side]}] too"
                yield Problem(f"{path}[{place}].sides", needs, "the sides that no other row names", f"side {side}")
            else:
                named[side] = place


def problems(areas: Sequence[Area], *, units: Units | None = None) -> tuple[Problem, ...]:
    """Everything that keeps the areas from being laid out, area by area, then between areas.

    units: for the texts; by default US.  An area whose outline is not sound is looked into no further.
    Source: arithmetic
    Checked: tests/roof/test_roof_build.py
    """
    units = units or Units()
    found: list[Problem] = []
    sound: list[int] = []
    for place, area in enumerate(areas):
        faults = list(outline_problems(area, f"roof[{place}].outline", units))
        if not faults:
            sound.append(place)
            faults += opening_problems(area, f"roof[{place}].openings", units)
            faults += pipe_problems(area, f"roof[{place}].pipes", units)
            faults += drain_problems(area, f"roof[{place}].drains", units)
        found += faults
    whole = [areas[place] for place in sound]
    found += overlap_problems(whole, sound)
    found += kind_problems(whole, sound, units)
    return tuple(found)
