"""Which area a drawn opening, pipe or drain stands in: the first that names its layer and holds its middle."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TypeVar

from lapwright.faults import Mended, shorten
from lapwright.geometry.polygon import Point, bounds, place_of
from lapwright.intake.plan_meets import cornered
from lapwright.intake.plan_scale import How
from lapwright.intake.plan_snap import brought_together
from lapwright.intake.plan_values import (
    AreaLayers,
    DrawnArea,
    DrawnOpening,
    DrawnOutline,
    DrawnPlan,
    DrawnSpot,
    LayerShapes,
)

MOST_NAMED = 5
Shape = TypeVar("Shape", DrawnOpening, DrawnSpot)


def put_in_areas(
    areas: Sequence[AreaLayers],
    outlines: Mapping[str, DrawnOutline],
    shapes: Mapping[str, LayerShapes],
    how: How,
) -> DrawnPlan:
    """The areas with what stands in them; what stands in none is left out, and told."""
    keys = {area.area: f"layer {shorten(area.outline, 40)}" for area in areas}
    outlines, notes = brought_together(outlines, keys, how)
    if how.meets:
        outlines, told = cornered(outlines, keys, how)
        notes += told
    taken: set[tuple[str, DrawnOpening | DrawnSpot]] = set()
    made = []
    for area in areas:
        outline, yards = outlines[area.area].corners, outlines[area.area].courtyards
        openings = [each for layer in area.openings for each in _inside(outline, shapes[layer].openings, taken, "")]
        pipes = [each for layer in area.pipes for each in _inside(outline, shapes[layer].spots, taken, "pipe")]
        drains = [each for layer in area.drains for each in _inside(outline, shapes[layer].spots, taken, "drain")]
        yards = tuple(yard for yard in yards if not any(_is_same(yard, each) for each in openings))
        made.append(DrawnArea(area.area, outline, (*yards, *openings), tuple(pipes), tuple(drains)))
    return DrawnPlan(
        tuple(made),
        (*notes, *(_left_out(layer, found, taken, how) for layer, found in shapes.items() if _rest(found, taken))),
    )


def _is_same(one: DrawnOpening, two: DrawnOpening) -> bool:
    """Drawn on the layer of the outline and on one of openings."""
    return (one.corner, one.size, one.ring) == (two.corner, two.size, two.ring)


def _inside(
    outline: Sequence[Point], shapes: Sequence[Shape], taken: set[tuple[str, DrawnOpening | DrawnSpot]], use: str
) -> list[Shape]:
    """The shapes not taken yet whose middle lies in an outline or on it."""
    doubled = [(2 * x, 2 * y) for x, y in outline]
    left, low, right, high = bounds(doubled)
    found = []
    for shape in shapes:
        x, y = shape.middle2
        mark = (use, shape)
        if mark in taken or not (left <= x <= right and low <= y <= high) or place_of(doubled, (x, y)) < 0:
            continue
        taken.add(mark)
        found.append(shape)
    return found


def _rest(shapes: LayerShapes, taken: set[tuple[str, DrawnOpening | DrawnSpot]]) -> list[DrawnOpening | DrawnSpot]:
    known = {shape for _, shape in taken}
    all_of: list[DrawnOpening | DrawnSpot] = [*shapes.openings, *shapes.spots]
    return [each for each in all_of if each not in known]


def _left_out(layer: str, shapes: LayerShapes, taken: set[tuple[str, DrawnOpening | DrawnSpot]], how: How) -> Mended:
    rest = _rest(shapes, taken)
    named = [f"{shorten(each.name, 40)} at {how.at(each.spot())}" for each in rest[:MOST_NAMED]]
    told = ", ".join(named) + (f" and {len(rest) - MOST_NAMED} more" if len(rest) > MOST_NAMED else "")
    found = f"in none of the areas that name the layer: {told}"
    return Mended(how.file, f"layer {shorten(layer, 40)}", found, "left out")
