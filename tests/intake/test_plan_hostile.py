"""Drawings made to hurt: each is answered within seconds by faults, never by a traceback."""

from __future__ import annotations

import math
from typing import Any

import pytest
from drawnplans import BARE, CURBED, FOOT, VENTED, box, drawing, notes, plan, refused, text
from hypothesis import given, settings
from hypothesis import strategies as st

from lapwright.faults import Refused

ROOF = {"layer": "ROOF-MAIN"}


def test_twenty_thousand_corners() -> None:
    """A saw tooth that nobody lays: refused by its number."""
    made = drawing()
    teeth = [(step / 100, step % 2) for step in range(20_000)]
    made.modelspace().add_lwpolyline([*teeth, (200, 50), (0, 50)], close=True, dxfattribs=ROOF)
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        "  read:   corners: 20,002\n"
        "  needs:  an outline of at most 5,000 corners\n"
        "  write:  the roof's own corners; curves in fewer straight sides"
    )


def test_a_scribble() -> None:
    """Five thousand corners of a star that crosses itself thousands of times: one place and a number are told."""
    made = drawing()
    turns = [(60 + 50 * math.cos(2.4 * step), 60 + 50 * math.sin(2.4 * step)) for step in range(4_990)]
    made.modelspace().add_lwpolyline(turns, close=True, dxfattribs=ROOF)
    told = refused(made, BARE)
    assert "  read:   sides " in told
    assert "; and 19 more places\n" in told


def chain_of_blocks(deep: int, inserts: int) -> Any:
    """Blocks in blocks, each holding the next a number of times; the last holds the outline."""
    made = drawing()
    for level in range(deep):
        block = made.blocks.new(f"B{level}")
        if level == 0:
            block.add_lwpolyline([(0, 0), (120, 0), (120, 64), (0, 64)], close=True)
        for place in range(inserts if level else 0):
            block.add_blockref(f"B{level - 1}", (place, 0))
    made.modelspace().add_blockref(f"B{deep - 1}", (0, 0), dxfattribs=ROOF)
    return made


def test_blocks_a_hundred_deep() -> None:
    """Twenty are read, a hundred refused."""
    assert plan(chain_of_blocks(20, 1), BARE).areas[0].outline[2] == (120 * FOOT, 64 * FOOT)
    assert refused(chain_of_blocks(100, 1), BARE) == (
        "plan.dxf  block B79\n"
        "  read:   blocks nested over 20 deep\n"
        "  needs:  blocks in blocks at most 20 deep\n"
        "  write:  the plan exploded"
    )


def test_blocks_that_double() -> None:
    """Nineteen blocks, each twice in the next: a quarter of a million outlines, counted and not unfolded."""
    assert refused(chain_of_blocks(19, 2), BARE) == (
        "plan.dxf  layers\n"
        "  read:   blocks that hold over 20,000 entities\n"
        "  needs:  the roof alone on the layers named\n"
        "  write:  layers of their own for the outlines and what stands in them"
    )


def test_a_block_that_holds_itself() -> None:
    """At once, or by way of another."""
    made = drawing()
    made.blocks.new("ONE").add_blockref("TWO", (0, 0))
    made.blocks.new("TWO").add_blockref("ONE", (0, 0))
    made.modelspace().add_blockref("ONE", (0, 0), dxfattribs=ROOF)
    assert refused(made, BARE) == (
        "plan.dxf  block ONE\n"
        "  read:   a block that holds itself\n"
        "  needs:  blocks that end\n"
        "  write:  the block redrawn"
    )


def test_blocks_that_do_not_matter_are_left_alone() -> None:
    """Furniture by the thousand, on layers that are not asked for, and a block that is not there."""
    made = drawing("ROOF-MAIN")
    made.blocks.new("CHAIR").add_circle((0, 0), 1, dxfattribs={"layer": "FURNITURE"})
    for place in range(3_000):
        made.modelspace().add_blockref("CHAIR", (place, 0), dxfattribs={"layer": "FURNITURE"})
    made.modelspace().add_blockref("NOWHERE", (0, 0), dxfattribs=ROOF)
    assert len(plan(made, BARE).areas[0].outline) == 4
    assert notes(made, BARE) == ["layer ROOF-MAIN: also on the layer: 1 INSERT; left out"]


@pytest.mark.parametrize(("rows", "columns"), [(32_000, 32_000), (1, 30_000)])
def test_an_array_without_end(rows: int, columns: int) -> None:
    """A block put a billion times nearly in one place."""
    made = drawing("ROOF-MAIN")
    made.blocks.new("PIPE").add_circle((0, 0), 0.5, dxfattribs=ROOF)
    on = {"row_count": rows, "column_count": columns, "row_spacing": 1e-9, "column_spacing": 1e-9}
    insert = made.modelspace().add_blockref("PIPE", (0, 0), dxfattribs={"layer": "VENTS", **on})
    assert refused(made, VENTED) == (
        f"plan.dxf  layer VENTS, INSERT {insert.dxf.handle}\n"
        f"  read:   a block put {rows * columns:,} times\n"
        "  needs:  at most 2,000 of a kind on a layer\n"
        "  write:  the layer that holds the pipes or drains alone"
    )
    assert refused(made, BARE).splitlines()[1] == f"  read:   a block put {rows * columns:,} times"


@pytest.mark.parametrize("number", [math.nan, math.inf])
def test_curves_of_no_numbers(number: float) -> None:
    """In centres, radii, angles, axes and control points."""
    for kind in range(5):
        made = drawing()
        space = made.modelspace()
        if kind == 0:
            space.add_circle((number, 0), 30, dxfattribs=ROOF)
        elif kind == 1:
            space.add_circle((0, 0), number, dxfattribs=ROOF)
        elif kind == 2:
            space.add_arc((0, 0), 30, 0, number, dxfattribs=ROOF)
        elif kind == 3:
            space.add_ellipse((0, 0), major_axis=(12345.5, 0), ratio=0.5, dxfattribs=ROOF)
        else:
            space.add_open_spline([(0, 0), (10, number), (20, 0), (30, 9)], dxfattribs=ROOF)
        told = refused(text(made).replace("12345.5", str(number)), BARE)
        assert told.startswith("plan.dxf  layer ROOF-MAIN, ") or told.startswith("plan.dxf\n")
        assert "NaN" in told or "numbers" in told


def test_curves_without_end() -> None:
    """A circle and a spline as wide as the earth: their size is told, no side is cut for ever."""
    made = drawing()
    made.modelspace().add_circle((0, 0), 1e12, dxfattribs=ROOF)
    assert "a roof from 5 ft to 3000 ft across" in refused(made, BARE)
    made = drawing()
    made.modelspace().add_open_spline([(0, 0), (1e9, 1e9), (-1e9, 1e9), (0, 0)], dxfattribs=ROOF)
    assert "plan.dxf  layer ROOF-MAIN, SPLINE 2F\n" in refused(made, BARE)
    made = drawing()
    made.modelspace().add_open_spline([(step % 7, step) for step in range(3_000)], dxfattribs=ROOF)
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, SPLINE 2F\n"
        "  read:   a spline of 3,000 points and degree 3\n"
        "  needs:  at most 2,000 points and degree 11\n"
        "  write:  the curve as a polyline"
    )


def test_a_spline_with_a_pole() -> None:
    """Weights of both signs send a rational spline to infinity: refused."""
    made = drawing()
    points = [(0, 0), (30, 50), (60, 50), (90, 0)]
    made.modelspace().add_rational_spline(points, weights=[1, -2, 1, 1], dxfattribs=ROOF)
    with pytest.raises(Refused):
        plan(made, BARE)


def test_too_many_openings_and_pipes() -> None:
    """Two thousand of a kind are enough."""
    made = drawing("ROOF-MAIN")
    for place in range(2_001):
        made.modelspace().add_circle((place / 20, 1), 0.01, dxfattribs={"layer": "VENTS"})
    assert refused(made, VENTED) == (
        "plan.dxf  layer VENTS\n"
        "  read:   places: 2,001\n"
        "  needs:  at most 2,000 of a kind on a layer\n"
        "  write:  the layer that holds the pipes or drains alone"
    )
    made = drawing("ROOF-MAIN")
    for place in range(2_001):
        box(made.modelspace(), "CURBS", place / 20, 1, 0.01, 0.01)
    assert refused(made, CURBED) == (
        "plan.dxf  layer CURBS\n"
        "  read:   shapes: 2,001\n"
        "  needs:  at most 2,000 of a kind on a layer\n"
        "  write:  the layer that holds the openings alone"
    )


SOURCE = text(drawing("ROOF-MAIN", "CURBS", "VENTS"))
ROWS = SOURCE[SOURCE.index("ENTITIES") :].splitlines()
WORDS = [
    "0",
    "8",
    "10",
    "42",
    "70",
    "nan",
    "1e308",
    "-1",
    "INSERT",
    "SPLINE",
    "ARC",
    "ELLIPSE",
    "ROOF-MAIN",
    "",
    "ENDSEC",
]


@settings(deadline=None, max_examples=300)
@given(st.lists(st.tuples(st.integers(1, len(ROWS) - 1), st.sampled_from(WORDS)), min_size=1, max_size=6))
def test_lines_of_a_drawing_changed_at_random(changes: list[tuple[int, str]]) -> None:
    """A plan or a refusal, never another exception."""
    rows = list(ROWS)
    for place, word in changes:
        rows[place] = word
    assert outcome(SOURCE[: SOURCE.index("ENTITIES")] + "\n".join(rows) + "\n")


def outcome(source: str) -> str:
    """What came of it, in a word."""
    try:
        plan(source, CURBED, units="ft")
    except Refused:
        return "refused"
    return "read"
