"""Plans made at random, drawn by ezdxf and written as GeoJSON, and read back."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import Any

from drawnplans import INCH, box, drawing, plan
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.intake.plan_features import read_plan
from lapwright.intake.plan_scale import how_read
from lapwright.intake.plan_values import AreaLayers, DrawnArea

METRE = 80_000
Box = tuple[int, int, int, int]


@dataclass(frozen=True)
class Made:
    """A plan in sixteenths of an inch: outlines, boxes in each, circles in each (x, y, diameter)."""

    outlines: list[list[tuple[int, int]]]
    boxes: list[list[Box]]
    circles: list[list[tuple[int, int, int]]]


@st.composite
def plans(draw: st.DrawFn) -> Made:
    """Up to three areas side by side, each an L, and what stands south of its notch."""
    outlines, boxes, circles, west = [], [], [], draw(st.integers(-90_000, 90_000))
    for _ in range(draw(st.integers(1, 3))):
        wide, deep = draw(st.integers(2_000, 20_000)), draw(st.integers(2_000, 20_000))
        notch_x, notch_y = draw(st.integers(200, wide - 200)), draw(st.integers(1_000, deep - 200))
        ring = [(0, 0), (wide, 0), (wide, notch_y), (notch_x, notch_y), (notch_x, deep), (0, deep)]
        start = draw(st.integers(0, 5))
        outlines.append([(x + west, y) for x, y in ring[start:] + ring[:start]])
        boxes.append(
            [
                (west + 100 + 400 * number, 100, draw(st.integers(200, 390)), draw(st.integers(200, 390)))
                for number in range(draw(st.integers(0, 4)))
            ]
        )
        circles.append(
            [(west + 100 + 200 * number, 800, draw(st.integers(16, 160))) for number in range(draw(st.integers(0, 4)))]
        )
        west += wide
    return Made(outlines, boxes, circles)


def asked(made: Made) -> list[AreaLayers]:
    """The layers of each area; those of openings and pipes are shared, and named where anything stands on them."""
    openings = ("CURBS",) if any(made.boxes) else ()
    pipes = ("VENTS",) if any(made.circles) else ()
    return [AreaLayers(f"A{number}", f"ROOF-{number}", openings, pipes) for number in range(len(made.outlines))]


def apart(one: tuple[int, int], two: tuple[float, float]) -> float:
    """How far two places are from one another along x or y [ticks]."""
    return max(abs(one[0] - two[0]), abs(one[1] - two[1]))


def assert_same(read: tuple[DrawnArea, ...], made: Made, *, with_diameters: bool) -> None:
    """Every corner, opening and pipe is where it was made, to a tick."""
    step = INCH / 16
    assert len(read) == len(made.outlines)
    for area, ring, boxes, circles in zip(read, made.outlines, made.boxes, made.circles, strict=True):
        assert max(apart(a, (x * step, y * step)) for a, (x, y) in zip(area.outline, ring, strict=True)) <= 1
        for opening, (x, y, wide, deep) in zip(area.openings, boxes, strict=True):
            assert apart(opening.corner, (x * step, y * step)) <= 1
            assert apart(opening.size, (wide * step, deep * step)) <= 1
        for pipe, (x, y, diameter) in zip(area.pipes, circles, strict=True):
            assert apart(pipe.at, (x * step, y * step)) <= 1
            assert not with_diameters or abs((pipe.diameter or 0) - diameter * step) <= 1


@settings(deadline=None, max_examples=60)
@given(plans(), st.booleans())
def test_drawn_and_read(made: Made, as_lines: bool) -> None:
    """In inches, outlines as polylines or as single lines of which every other runs backwards."""
    drawn = drawing(insunits=1)
    space = drawn.modelspace()
    for number, ring in enumerate(made.outlines):
        on = {"layer": f"ROOF-{number}"}
        corners = [(x / 16, y / 16) for x, y in ring]
        if as_lines:
            for place, (start, end) in enumerate(zip(corners, corners[1:] + corners[:1], strict=True)):
                space.add_line(*((start, end) if place in (0, 2, 4) else (end, start)), dxfattribs=on)
        else:
            space.add_lwpolyline(corners, close=True, dxfattribs=on)
    for x, y, wide, deep in [each for boxes in made.boxes for each in boxes]:
        box(space, "CURBS", x / 16, y / 16, wide / 16, deep / 16)
    for x, y, diameter in [each for circles in made.circles for each in circles]:
        space.add_circle((x / 16, y / 16), diameter / 32, dxfattribs={"layer": "VENTS"})
    read = plan(drawn, *asked(made))
    assert_same(read.areas, made, with_diameters=True)


@settings(deadline=None, max_examples=60)
@given(plans())
def test_mapped_and_read(made: Made) -> None:
    """In metres of a projected system, far from its origin; the property is `kind`."""
    features: list[dict[str, Any]] = []

    def at(x: float, y: float) -> list[float]:
        return [500_000 + x * INCH / 16 / METRE, 4_000_000 + y * INCH / 16 / METRE]

    def add(kind: str, form: str, coordinates: Any) -> None:
        geometry = {"type": form, "coordinates": coordinates}
        features.append({"type": "Feature", "properties": {"kind": kind}, "geometry": geometry})

    for number, ring in enumerate(made.outlines):
        add(f"ROOF-{number}", "Polygon", [[at(x, y) for x, y in [*ring, ring[0]]]])
    for x, y, wide, deep in [each for boxes in made.boxes for each in boxes]:
        corners = ((x, y), (x + wide, y), (x + wide, y + deep), (x, y + deep), (x, y))
        add("CURBS", "Polygon", [[at(*corner) for corner in corners]])
    for x, y, _ in [each for circles in made.circles for each in circles]:
        add("VENTS", "Point", at(x, y))
    source = json.dumps({"type": "FeatureCollection", "features": features})
    read = read_plan(source, asked(made), named_by="kind", how=how_read("roof.geojson"))
    moved = tuple(
        DrawnArea(
            area.area,
            tuple((x - 500_000 * METRE, y - 4_000_000 * METRE) for x, y in area.outline),
            tuple(
                type(each)(
                    each.name,
                    each.layer,
                    (each.corner[0] - 500_000 * METRE, each.corner[1] - 4_000_000 * METRE),
                    each.size,
                )
                for each in area.openings
            ),
            tuple(
                type(each)(each.name, each.layer, (each.at[0] - 500_000 * METRE, each.at[1] - 4_000_000 * METRE))
                for each in area.pipes
            ),
        )
        for area in read.areas
    )
    assert_same(moved, made, with_diameters=False)
