"""What is not right with the planes of an area: they have to fill it, without lying on one another."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from lapwright.geometry.meets import overlap
from lapwright.geometry.thin import GRID, overlap_is_thin
from lapwright.roof.between import same_line_ticks
from lapwright.roof.inside import outline_problems
from lapwright.roof.planes import PlaneRow
from lapwright.roof.problem import Problem, from_corner
from lapwright.roof.values import Area
from lapwright.units.factors import TICKS_PER_METRE
from lapwright.units.write import Units

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry


def plane_problems(area: Area, rows: Sequence[PlaneRow], path: str, units: Units) -> Iterator[Problem]:
    """Planes that enclose nothing, reach beyond their area, lie on one another or leave some of it out.

    path: key of the planes, such as `roof[0].planes`.
    Holds for: an area whose own outline is sound.
    Source: arithmetic
    Checked: tests/roof/test_roof_planes.py
    """
    shapes = [Area(row.name, row.outline, (), row.falls, row.slope) for row in rows]
    unsound = [
        problem for k, shape in enumerate(shapes) for problem in outline_problems(shape, f"{path}[{k}].outline", units)
    ]
    yield from unsound
    if unsound or not rows:
        return
    found = [*_beyond(area, shapes, path, units), *_overlaps(shapes, path)]
    yield from found
    if not found:
        yield from _left_out(area, shapes, path, units)


def _beyond(area: Area, shapes: Sequence[Area], path: str, units: Units) -> Iterator[Problem]:
    from shapely import Polygon, difference

    whole = Polygon(area.outline)
    for k, shape in enumerate(shapes):
        rest = difference(Polygon(shape.outline), whole, grid_size=GRID)
        if _is_wide(rest):
            size = units.area(rest.area / TICKS_PER_METRE**2)
            spot = rest.representative_point()
            place = from_corner(area, (round(spot.x), round(spot.y)), units)
            needs = f"a plane wholly inside area {area.name}; {size} of it lie outside, at {place} among them"
            yield Problem(f"{path}[{k}].outline", needs, "another start or outline", f"{shape.name} reaches beyond it")


def _overlaps(shapes: Sequence[Area], path: str) -> Iterator[Problem]:
    slack = same_line_ticks()
    for k, two in enumerate(shapes):
        for one in shapes[:k]:
            if overlap(one.outline, two.outline) and not overlap_is_thin(one.outline, two.outline, width=slack):
                needs = f"planes that do not overlap; {two.name} overlaps {one.name} (touching is needed)"
                write = f"a start or outline that keeps {two.name} off {one.name}"
                yield Problem(f"{path}[{k}].outline", needs, write, two.name)


def _left_out(area: Area, shapes: Sequence[Area], path: str, units: Units) -> Iterator[Problem]:
    from shapely import Polygon, difference, union_all

    planes = union_all([Polygon(shape.outline) for shape in shapes], grid_size=GRID)
    rest = difference(Polygon(area.outline), planes, grid_size=GRID)
    if _is_wide(rest):
        size = units.area(rest.area / TICKS_PER_METRE**2)
        spot = rest.representative_point()
        place = from_corner(area, (round(spot.x), round(spot.y)), units)
        needs = f"planes that fill area {area.name}; {size} of it are in none, at {place} among them"
        yield Problem(path, needs, "one more plane, or an outline that reaches on", f"planes: {len(shapes)}")


def _is_wide(shape: BaseGeometry) -> bool:
    """Somewhere wider than rounding."""
    return not shape.buffer(-same_line_ticks(), join_style="mitre").is_empty
