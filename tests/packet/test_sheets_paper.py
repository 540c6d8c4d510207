"""Scales, clipping and labels: what every sheet is laid out with."""

from __future__ import annotations

import math
import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon, box

from lapwright.packet.drawing import Stroke, Text
from lapwright.packet.sheets.clip import clip_ring, clip_segment, clip_stroke, ring_area
from lapwright.packet.sheets.edges import LINES, WORDS, kind_strokes
from lapwright.packet.sheets.labels import Field, Lettering, Spot, label_box, led, overlap, upright
from lapwright.packet.sheets.scales import (
    DETAIL_METRIC,
    DETAIL_US,
    PLAN_METRIC,
    PLAN_US,
    Scale,
    bar_length,
    fitting,
    plan_scales,
)

WINDOW = (0.0, 0.0, 10.0, 6.0)
near = st.floats(-15, 25, allow_nan=False).map(lambda value: round(value, 3))
points = st.tuples(near, near)


def ratio_of(words: str) -> Fraction:
    """What a scale's words say, worked out from feet and inches."""
    if words.startswith("1:"):
        return Fraction(words[2:])
    left, right = words.split(" = ")
    whole, _, part = left.rstrip('"').rpartition(" ")
    inches = Fraction(whole or 0) + Fraction(part)
    feet = re.fullmatch(r"(\d+)'(?:-0\")?", right)
    assert feet is not None
    return Fraction(feet[1]) * 12 / inches


@pytest.mark.parametrize("scale", [*PLAN_US, *PLAN_METRIC, *DETAIL_US, *DETAIL_METRIC], ids=lambda scale: scale.text)
def test_a_scale_is_what_its_words_say(scale: Scale) -> None:
    """1/16" = 1'-0" is 192 to 1, 1" = 20' is 240 to 1."""
    assert ratio_of(scale.text) == scale.ratio


def test_the_largest_scale_that_fits_is_taken() -> None:
    """120' by 64' (36.576 by 19.5072 m) is 190.5 by 101.6 mm at 1/16": it fits 191 by 102 and not 190 by 102."""
    size = (36.576, 19.5072)
    assert fitting(plan_scales("us"), size, (191.0, 102.0)).text == '1/16" = 1\'-0"'
    assert fitting(plan_scales("us"), size, (190.0, 102.0)).text == "1\" = 20'"


def test_a_thing_too_large_gets_a_round_ratio() -> None:
    """10 km in 200 mm is 1:50000."""
    assert fitting(plan_scales("metric"), (10_000.0, 100.0), (200.0, 200.0)).ratio == 50_000


@pytest.mark.parametrize(
    ("scale", "units", "longest", "bar"),
    [
        (Scale('1/16" = 1\'-0"', 192), "us", 31.0, (10, 15.875, "ft")),
        (Scale("1:200", 200), "metric", 31.0, (5, 25.0, "m")),
        (Scale("1:5", 5), "metric", 31.0, (100, 20.0, "mm")),
        (Scale('3" = 1\'-0"', 4), "us", 31.0, (4, 25.4, "in")),
    ],
)
def test_bars_are_round_lengths(scale: Scale, units: str, longest: float, bar: tuple[int, float, str]) -> None:
    """Ten feet at 1/16" to the foot are 10/16" = 15.875 mm; 4" at a quarter of their size are 1"."""
    number, length, unit = bar_length(scale, units, longest)
    assert (number, pytest.approx(length), unit) == bar


@given(points, points)
def test_segments_are_clipped_as_by_shapely(a: tuple[float, float], b: tuple[float, float]) -> None:
    """What is left of a segment in a window is what shapely finds."""
    part = clip_segment(a, b, WINDOW)
    expected = LineString([a, b]).intersection(box(*WINDOW)).length
    assert (math.dist(*part) if part else 0.0) == pytest.approx(expected, abs=1e-6)


@given(st.lists(points, min_size=3, max_size=7))
def test_polygons_are_clipped_as_by_shapely(ring: list[tuple[float, float]]) -> None:
    """The area of a polygon inside a window is what shapely finds, for every simple polygon."""
    polygon = Polygon(ring)
    if polygon.is_valid:
        found = clip_ring(tuple(ring), WINDOW)
        assert ring_area(found) == pytest.approx(polygon.intersection(box(*WINDOW)).area, abs=1e-6)


def test_a_closed_line_is_cut_into_its_parts() -> None:
    """A square that sticks out of the window on the right loses that side: 3 + 3 + 2 of its 16."""
    square = Stroke(((7.0, 1.0), (13.0, 1.0), (13.0, 3.0), (7.0, 3.0)), "A", closed=True)
    parts = clip_stroke(square, WINDOW)
    assert sum(LineString(part.points).length for part in parts) == pytest.approx(3 + 3 + 2)
    assert not any(part.closed for part in parts)


boxes = st.builds(
    lambda x, y, turn, words: label_box(Text((x, y), words, 2.0, "T", turn)),
    st.floats(-20, 20),
    st.floats(-20, 20),
    st.floats(-90, 90),
    st.text("ABC123", min_size=1, max_size=8),
)


@given(boxes, boxes)
def test_boxes_overlap_as_by_shapely(one: tuple, other: tuple) -> None:
    """Two turned boxes share more than a hair of area, or they do not."""
    shared = Polygon(one).intersection(Polygon(other)).area
    if shared > 1e-6:
        assert overlap(one, other)
    elif Polygon(one).distance(Polygon(other)) > 1e-6:
        assert not overlap(one, other)


def test_labels_take_their_next_spot_or_none() -> None:
    """The first label has the spot, the second goes to the other, the third is left out."""
    field = Field(0.0, 0.0, 40.0, 40.0)
    spots = (Spot((20.0, 20.0)), Spot((20.0, 30.0)))
    written = [field.write("LABEL", spots, Lettering(2.0, "T")) for _ in range(3)]
    assert [[item.at for item in items if isinstance(item, Text)] for items in written] == [
        [(20.0, 20.0)],
        [(20.0, 30.0)],
        [],
    ]


def test_labels_stay_on_the_paper() -> None:
    """A spot at the border is no place for a label that would hang over it."""
    field = Field(0.0, 0.0, 40.0, 40.0)
    assert field.write("LABEL", (Spot((39.0, 20.0)),), Lettering(2.0, "T")) == ()


def test_leaders_do_not_cross_labels() -> None:
    """The way straight up leads through a label: the leader goes another way."""
    field = Field(0.0, 0.0, 60.0, 60.0)
    field.write("A LONG LABEL", (Spot((36.0, 34.0)),), Lettering(2.0, "T"))
    line, _ = field.write("7", led((30.0, 30.0), (12.0,)), Lettering(2.0, "T"))
    taken = Polygon(label_box(Text((36.0, 34.0), "A LONG LABEL", 2.0, "T", 0.0, "middle", "middle")))
    assert not LineString(line.points).crosses(taken)


@pytest.mark.parametrize(("turn", "read"), [(0, 0), (90, 90), (180, 0), (-90, 90), (135, -45), (-170, 10)])
def test_lettering_is_never_upside_down(turn: float, read: float) -> None:
    """Texts read from below or from the right."""
    assert upright(turn) == pytest.approx(read)


def test_edge_kinds_differ_without_colour() -> None:
    """No two kinds have the same lines, and every line is in ink: only the line type tells them apart."""
    strokes = {kind: kind_strokes(kind, (0.0, 0.0), (30.0, 0.0), (0.0, 1.0), 1.0) for kind in WORDS}
    looks = {kind: tuple((s.line, s.weight, s.points) for s in items) for kind, items in strokes.items()}
    assert len(set(looks.values())) == len(WORDS) == len(LINES)
    assert {stroke.ink for items in strokes.values() for stroke in items} == {"ink"}
