"""What is not right between areas: they may touch, never overlap; sides that lie on one another are one edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from lapwright.defaults.table import table
from lapwright.geometry.meets import coincident_sides, overlap
from lapwright.geometry.polygon import Box, bounds
from lapwright.geometry.thin import overlap_is_thin
from lapwright.roof.problem import Problem
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units


@dataclass(frozen=True, slots=True)
class SharedEdge:
    """A stretch where sides of two areas are one edge: places of the areas, sides from 1, length [m]."""

    area: int
    side: int
    other_area: int
    other_side: int
    length: float


def same_line_ticks() -> int:
    """How far apart two sides may lie and still be one edge: rounding to whole ticks, twice.

    Source: common practice, no source
    """
    return int(table("roof")["same_line"].number())


def shared_edges(areas: Sequence[Area]) -> tuple[SharedEdge, ...]:
    """Every stretch that is an edge of two areas, earlier area first.

    Source: arithmetic
    Checked: tests/roof/test_roof_between.py
    """
    slack = same_line_ticks()
    return tuple(
        SharedEdge(i, each.first + 1, j, each.second + 1, each.length / TICKS_PER_METRE)
        for i, j in _neighbours(areas, slack)
        for each in coincident_sides(areas[i].outline, areas[j].outline, slack=slack)
    )


def overlap_problems(areas: Sequence[Area], places: Sequence[int]) -> Iterator[Problem]:
    """Areas that lie on one another by more than rounding.

    places: where the areas stand in the job file.
    Source: arithmetic
    Checked: tests/roof/test_roof_between.py
    """
    slack = same_line_ticks()
    for i, j in _neighbours(areas, 0):
        one, two = areas[i], areas[j]
        if overlap(one.outline, two.outline) and not overlap_is_thin(one.outline, two.outline, width=slack):
            needs = f"areas that do not overlap; {two.name} overlaps {one.name} (touching is allowed)"
            write = f"a start or outline that keeps {two.name} off {one.name}"
            yield Problem(f"roof[{places[j]}].outline", needs, write, two.name)


def kind_problems(areas: Sequence[Area], places: Sequence[int], units: Units) -> Iterator[Problem]:
    """Sides that are one edge and are given two kinds.  A kind not given disagrees with none.

    Source: arithmetic
    Checked: tests/roof/test_roof_between.py
    """
    for shared in shared_edges(areas):
        one, two = areas[shared.area], areas[shared.other_area]
        kind, other = one.edges[shared.side - 1].kind, two.edges[shared.other_side - 1].kind
        if kind is None or other is None or kind == other:
            continue
        yield Problem(
            f"roof[{places[shared.other_area]}].edges",
            f"one kind for both, since they are one edge along {units.length(shared.length)}; "
            "where only part of a side is shared, a corner at that part's end",
            f"{{sides: {shared.other_side}, kind: {kind}}}",
            f"side {shared.other_side} of {two.name} is {other}, side {shared.side} of {one.name} is {kind}",
        )


def _neighbours(areas: Sequence[Area], slack: int) -> Iterator[tuple[int, int]]:
    """Pairs of areas whose bounding boxes meet, in order."""
    boxes = [bounds(area.outline) for area in areas]
    for j, two in enumerate(boxes):
        for i in range(j):
            if _meet(boxes[i], two, slack):
                yield (i, j)


def _meet(one: Box, two: Box, slack: int) -> bool:
    return (
        one[0] <= two[2] + slack and two[0] <= one[2] + slack and one[1] <= two[3] + slack and two[1] <= one[3] + slack
    )
