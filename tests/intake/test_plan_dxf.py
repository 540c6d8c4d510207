"""Outlines from DXF drawings that ezdxf wrote for the test: units, arcs, loose lines, and every refusal as it reads."""

from __future__ import annotations

import math
from io import BytesIO, StringIO
from itertools import pairwise
from typing import Any

import ezdxf
import pytest
from ezdxf.math import Vec2, arc_to_bulge
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from shapely.geometry import Polygon

from lapwright.faults import Mended, Refused
from lapwright.intake.plan_curves import arc_points
from lapwright.intake.plan_dxf import read_outline
from lapwright.intake.plan_scale import how_read
from lapwright.units.write import Units

FOOT = 24_384
INCH = 2_032
MAIN = {"layer": "ROOF-MAIN"}
RECTANGLE = [(0, 0), (120, 0), (120, 64), (0, 64)]
IN_FEET = tuple((x * FOOT, y * FOOT) for x, y in RECTANGLE)


def drawing(insunits: int = 2, version: str = "R2010") -> Any:
    """An empty drawing, by default in feet."""
    made = ezdxf.new(version)
    made.header["$INSUNITS"] = insunits
    return made


def text(made: Any) -> str:
    """The drawing as its file would read."""
    stream = StringIO()
    made.write(stream)
    return stream.getvalue()


def polyline(corners: list[Any], *, closed: bool = True, insunits: int = 2, form: str = "xy", **given: Any) -> str:
    """A drawing with one polyline on ROOF-MAIN."""
    made = drawing(insunits)
    made.modelspace().add_lwpolyline(corners, format=form, close=closed, dxfattribs=MAIN | given)
    return text(made)


def lines(pairs: list[Any], insunits: int = 2) -> str:
    """A drawing with single lines on ROOF-MAIN."""
    made = drawing(insunits)
    for start, end in pairs:
        made.modelspace().add_line(start, end, dxfattribs=MAIN)
    return text(made)


def read(source: Any, layer: str = "ROOF-MAIN", **asked: Any) -> Any:
    """Corners and what was mended, as the job file's outline asks for them."""
    how = how_read("roof.dxf", head=f"dxf: roof.dxf, layer: {layer}", **asked)
    found = read_outline(source, layer=layer, how=how)
    return found.corners, found.mended


def outline(source: Any, **asked: Any) -> tuple[tuple[int, int], ...]:
    """The corners read."""
    return read(source, **asked)[0]


def notes(source: Any, **asked: Any) -> list[str]:
    """What was mended, as told."""
    return [each.text() for each in read(source, **asked)[1]]


def refused(source: Any, layer: str = "ROOF-MAIN", **asked: Any) -> str:
    """The refusal, as told."""
    with pytest.raises(Refused) as caught:
        read(source, layer, **asked)
    return caught.value.text()


@pytest.mark.parametrize(
    ("insunits", "size"),
    [(1, 2_032), (2, 24_384), (4, 80), (5, 800), (6, 80_000), (21, 1200 / 3937 * 80_000)],
)
def test_units_of_the_drawing(insunits: int, size: float) -> None:
    """Inches, feet, millimetres, centimetres, metres, US survey feet: 900 by 800 of them, in ticks of 1/80 mm."""
    corners = outline(polyline([(0, 0), (900, 0), (900, 800), (0, 800)], insunits=insunits), any_size=True)
    assert corners == ((0, 0), (round(900 * size), 0), (round(900 * size), round(800 * size)), (0, round(800 * size)))


@pytest.mark.parametrize("version", ["R2000", "R2004", "R2007", "R2010", "R2013", "R2018"])
def test_versions(version: str) -> None:
    """Drawings of every version that has lightweight polylines; as text, as bytes, as open streams."""
    made = drawing(version=version)
    made.modelspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs=MAIN)
    content = text(made)
    for source in (content, content.encode(), StringIO(content), BytesIO(content.encode())):
        assert read(source, "ROOF-MAIN") == (IN_FEET, ())


def test_old_polylines_and_a_drawing_without_a_unit() -> None:
    """R12 has POLYLINE and no INSUNITS: refused until the job file gives the unit."""
    made = ezdxf.new("R12")
    made.modelspace().add_polyline2d(RECTANGLE, close=True, dxfattribs=MAIN)
    content = text(made)
    assert refused(content) == (
        "roof.dxf  units\n"
        "  read:   no unit (INSUNITS is absent)\n"
        "  needs:  the unit of the drawing, one of in, ft, ftUS, mm, cm, m\n"
        "  write:  {dxf: roof.dxf, layer: ROOF-MAIN, units: in}"
    )
    assert read(content, "ROOF-MAIN", units="ft") == (IN_FEET, ())


def test_no_unit_said_and_a_unit_of_its_own() -> None:
    """INSUNITS 0 says nothing; 3 would be miles."""
    assert "  read:   INSUNITS 0\n" in refused(polyline(RECTANGLE, insunits=0))
    assert "  read:   INSUNITS 3\n" in refused(polyline(RECTANGLE, insunits=3))
    assert outline(polyline(RECTANGLE, insunits=0), units="ft") == IN_FEET


def test_the_job_file_overrides_the_drawings_unit() -> None:
    """And it is told."""
    source = polyline(RECTANGLE, insunits=6)
    assert outline(source, units="ft") == IN_FEET
    assert notes(source, units="ft") == ["roof.dxf  INSUNITS: the drawing says m; read in ft, as the job file says"]
    assert refused(source, units="feet") == (
        "roof.dxf  units\n"
        "  read:   feet\n"
        "  needs:  the drawing's unit, one of in, ft, ftUS, mm, cm, m\n"
        "  write:  units: ft"
    )


def test_polyline_in_three_dimensions_is_read_in_plan() -> None:
    """Heights are left aside."""
    made = drawing()
    made.modelspace().add_polyline3d([(x, y, 5 + x) for x, y in RECTANGLE], close=True, dxfattribs=MAIN)
    assert outline(text(made)) == IN_FEET


def test_drawn_from_below_is_mirrored() -> None:
    """A polyline whose plane looks down has its x the other way round, as the drawing shows it; its arcs too."""
    assert outline(polyline(RECTANGLE, extrusion=(0, 0, -1))) == tuple((-x, y) for x, y in IN_FEET)
    above = outline(polyline([(0, 0, 0), (60, 0, 0.3), (60, 40, 0), (0, 40, 0)], form="xyb"))
    below = outline(polyline([(0, 0, 0), (60, 0, 0.3), (60, 40, 0), (0, 40, 0)], form="xyb", extrusion=(0, 0, -1)))
    assert below == tuple((-x, y) for x, y in above)


def test_lines_joined_end_to_end() -> None:
    """Four lines in any order and sense, one end 0.02" off; a line drawn twice; a text on the layer."""
    made = drawing(1)
    space = made.modelspace()
    for start, end in (((0, 0), (100, 0)), ((100, 80), (100, 0.02)), ((100, 80), (0, 80)), ((0, 80), (0, 0))):
        space.add_line(start, end, dxfattribs=MAIN)
    space.add_line((100, 0), (0, 0), dxfattribs=MAIN)
    space.add_text("ROOF", dxfattribs=MAIN)
    assert outline(text(made)) == ((0, 0), (100 * INCH, 0), (100 * INCH, 80 * INCH), (0, 80 * INCH))
    assert notes(text(made)) == [
        "roof.dxf  layer ROOF-MAIN: lines drawn twice: 1; read once",
        "roof.dxf  layer ROOF-MAIN: single lines and arcs: 5; joined end to end",
        'roof.dxf  layer ROOF-MAIN: ends that do not quite meet: 0.51 mm at E 8\' 4" N 0"; '
        'joined, being no more than 1" apart',
        "roof.dxf  layer ROOF-MAIN: also on the layer: 1 TEXT; left out",
    ]


def test_lines_and_open_polylines_join() -> None:
    """An open polyline on three sides and a line on the fourth."""
    made = drawing()
    made.modelspace().add_lwpolyline(RECTANGLE, dxfattribs=MAIN)
    made.modelspace().add_line((0, 64), (0, 0), dxfattribs=MAIN)
    assert outline(text(made)) == IN_FEET


def test_open_polyline_with_ends_close_together() -> None:
    """Ends within an inch are set on one another; an inch and a half apart is refused with the gap."""
    nearly = [*RECTANGLE, (0, 1 / 16)]
    assert outline(polyline(nearly, closed=False)) == IN_FEET
    assert notes(polyline(nearly, closed=False)) == [
        'roof.dxf  layer ROOF-MAIN: ends that do not quite meet: 3/4" at E 0" N 0"; joined, being no more than 1" apart'
    ]
    assert refused(polyline([*RECTANGLE, (0, 1 / 8)], closed=False)) == (
        "roof.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        '  read:   an open line, its ends 1 1/2" apart, at E 0" N 0" and E 0" N 1 1/2"\n'
        '  needs:  one closed outline on the layer; ends up to 1" apart are joined\n'
        "  write:  the lines drawn until their ends meet, "
        'or {dxf: roof.dxf, layer: ROOF-MAIN, join_within: 1 1/2"}'
    )
    assert outline(polyline([*RECTANGLE, (0, 1 / 8)], closed=False), join=3 * INCH // 2) == IN_FEET
    assert "  read:   an open line, its ends 38 mm apart, at E 0 mm N 0 mm and E 0 mm N 38 mm\n" in refused(
        polyline([*RECTANGLE, (0, 1 / 8)], closed=False), shown=Units("metric")
    )


def test_open_polyline_whose_ends_meet_is_closed() -> None:
    """Exactly: nothing to tell; within the tolerance: told."""
    assert notes(polyline([*RECTANGLE, (0, 0)], closed=False)) == []
    assert notes(polyline([*RECTANGLE, (0, 0.002)], closed=False)) == [
        'roof.dxf  layer ROOF-MAIN: ends that do not quite meet: 0.61 mm at E 0" N 0"; '
        'joined, being no more than 1" apart'
    ]


def test_repeated_corners_are_dropped() -> None:
    """A closed polyline that also repeats its first corner, and one in between."""
    assert outline(polyline([(0, 0), (120, 0), (120, 0), (120, 64), (0, 64), (0, 0)])) == IN_FEET


def test_arcs_become_straight_sides() -> None:
    """A half circle of 20' on the south side of 40' by 30': corners on the circle, no chord over 1/4" off it."""
    source = polyline([(0, 0, 1.0), (40, 0, 0), (40, 30, 0), (0, 30, 0)], form="xyb")
    corners = outline(source)
    arc = corners[: corners.index((40 * FOOT, 0)) + 1]
    away = [math.dist(corner, (20 * FOOT, 0)) for corner in arc]
    middles = [math.dist(((ax + bx) / 2, (ay + by) / 2), (20 * FOOT, 0)) for (ax, ay), (bx, by) in pairwise(arc)]
    assert away == pytest.approx([20 * FOOT] * len(arc), abs=1)
    assert 0 < 20 * FOOT - min(middles) <= INCH / 4 + 1
    assert min(y for _, y in arc) < -19.9 * FOOT
    assert notes(source) == [
        'roof.dxf  layer ROOF-MAIN: curves: 1; cut into straight sides that keep within 1/4" of them',
        f"roof.dxf  layer ROOF-MAIN: curves in the outline; they are sides 1-{len(arc) - 1}",
    ]


def test_the_tolerance_of_curves_can_be_given() -> None:
    """Within 2 mm of 20' = 6,096 mm a side may turn 2 acos(1 - 2/6096)."""
    source = polyline([(0, 0, 1.0), (40, 0, 0), (40, 30, 0), (0, 30, 0)], form="xyb")
    sides = math.ceil(math.pi / (2 * math.acos(1 - 2 / 6096)))
    assert len(outline(source, flat=160)) == 4 + sides - 1


@settings(deadline=None, max_examples=300)
@given(st.floats(1, 100), st.floats(0, 360), st.floats(5, 350), st.booleans(), st.floats(-50, 50), st.floats(1e-4, 0.5))
def test_arc_points_lie_on_ezdxfs_arc(
    radius: float, start: float, span: float, clockwise: bool, x: float, within: float
) -> None:
    """Bulges that ezdxf makes from centre, radius and angles come back as points on that circle, within the arc."""
    centre = Vec2(x, 7)
    begin, end, bulge = arc_to_bulge(centre, math.radians(start), math.radians(start + span), radius)
    ends = [(begin.x, begin.y), (end.x, end.y)]
    if clockwise:
        ends, bulge = ends[::-1], -bulge
    points = [ends[0], *arc_points(ends[0], ends[1], bulge, within=within), ends[1]]
    middle = centre + Vec2.from_deg_angle(start + span / 2, radius)
    assert [math.dist(point, centre) for point in points] == pytest.approx([radius] * len(points))
    chords = [math.dist(a, b) for a, b in pairwise(points)]
    off = radius - math.sqrt(max(0.0, radius**2 - (max(chords) / 2) ** 2))
    assert off <= within * 1.000001 or within > radius
    assert min(math.dist(point, middle) for point in points) <= max(chords)
    assert sum(chords) <= math.radians(span) * radius * 1.000001


def test_an_unknown_layer_tells_the_layers_there() -> None:
    """In file order, with the nearest as what to write; capitals do not matter."""
    made = drawing()
    for name in ("WALLS", "ROOF-MAIN", "ROOF-EAST"):
        made.layers.add(name)
        made.modelspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs={"layer": name})
    assert refused(text(made), layer="ROOF-MIAN") == (
        "roof.dxf  layer ROOF-MIAN\n"
        "  read:   ROOF-MIAN\n"
        "  needs:  a layer of the drawing: 0, Defpoints, WALLS, ROOF-MAIN, ROOF-EAST\n"
        "  write:  layer: ROOF-MAIN"
    )
    assert read(text(made), "roof-main")[0] == IN_FEET


def test_a_layer_without_lines_tells_what_is_there() -> None:
    """A text, and a block that holds nothing; an outline on paper does not count."""
    made = drawing()
    made.blocks.new("TITLE")
    made.modelspace().add_blockref("TITLE", (0, 0), dxfattribs=MAIN)
    made.modelspace().add_text("ROOF", dxfattribs=MAIN)
    made.paperspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs=MAIN)
    assert refused(text(made)) == (
        "roof.dxf  layer ROOF-MAIN\n"
        "  read:   1 INSERT, 1 TEXT\n"
        "  needs:  a closed polyline, or lines and arcs end to end, on the layer\n"
        "  write:  the layer that holds the outline"
    )


def test_two_outlines_on_the_layer() -> None:
    """Refused with the count; the same one drawn twice is one."""
    made = drawing()
    made.modelspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs=MAIN)
    made.modelspace().add_lwpolyline(RECTANGLE[::-1], close=True, dxfattribs=MAIN)
    assert read(text(made), "ROOF-MAIN") == (
        IN_FEET,
        (Mended("roof.dxf", "layer ROOF-MAIN", "the same outline drawn 2 times", "read once"),),
    )
    made.modelspace().add_lwpolyline([(200, 0), (240, 0), (240, 40)], close=True, dxfattribs=MAIN)
    assert refused(text(made)) == (
        "roof.dxf  layer ROOF-MAIN, LWPOLYLINE 2F; LWPOLYLINE 34\n"
        "  read:   closed outlines: 2\n"
        "  needs:  one closed outline on the layer\n"
        "  write:  each area's outline on a layer of its own; what stands in it on layers named under openings"
    )


def test_a_closed_outline_beside_an_open_line() -> None:
    """The open line is left out, and told."""
    made = drawing()
    made.modelspace().add_line((300, 0), (310, 0), dxfattribs=MAIN)
    made.modelspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs=MAIN)
    assert outline(text(made)) == IN_FEET
    assert notes(text(made))[-1] == "roof.dxf  layer ROOF-MAIN: open lines beside the outline: 1; left out"


def test_lines_that_do_not_meet() -> None:
    """Three sides of a rectangle in two pieces 6" apart: refused with the gap."""
    source = lines([((0, 0), (120, 0)), ((120, 0.5), (120, 64)), ((120, 64), (0, 64))])
    assert refused(source) == (
        "roof.dxf  layer ROOF-MAIN, LINE 2F; LINE 30\n"
        "  read:   open lines: 2; the two ends nearest to one another are "
        '6" apart, at E 120\' 0" N 0" and E 120\' 0" N 6"\n'
        '  needs:  one closed outline on the layer; ends up to 1" apart are joined\n'
        "  write:  the lines drawn until their ends meet"
    )


@pytest.mark.parametrize(
    ("corners", "insunits", "read", "limits", "asked"),
    [
        ([(0, 0), (4012, 0), (4012, 3000)], 2, "4,012 by 3,000 ft", "5 ft to 3000 ft across", ("inches", "in")),
        (
            [(0, 0), (36000, 0), (36000, 20000)],
            6,
            "36,000 by 20,000 m",
            "5 ft to 3000 ft across",
            ("millimetres", "mm"),
        ),
        ([(0, 0), (36.6, 0), (36.6, 19.5)], 4, "36.6 by 19.5 mm", "5 ft to 3000 ft across", ("feet", "ft")),
        ([(0, 0), (2900, 0), (2900, 2900), (0, 2900)], 2, "2,900 by 2,900 ft", "50 sf to 5000000 sf", ("inches", "in")),
        ([(0, 0), (6, 0), (6, 6)], 2, "6 by 6 ft", "50 sf to 5000000 sf", ("metres", "m")),
    ],
)
def test_sizes_that_are_no_roofs(
    corners: list[Any], insunits: int, read: str, limits: str, asked: tuple[str, str]
) -> None:
    """Over 3,000 ft or under 5 ft across, over 5,000,000 sf or under 50: the unit is asked about."""
    source = polyline(corners, insunits=insunits)
    assert refused(source) == (
        "roof.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        f"  read:   {read}\n"
        f"  needs:  a roof from {limits}; is the drawing in {asked[0]}? If the size is right, size: accept\n"
        f"  write:  {{dxf: roof.dxf, layer: ROOF-MAIN, units: {asked[1]}}}"
    )
    assert len(outline(source, any_size=True)) == len(corners)


def test_a_size_that_no_unit_makes_a_roof() -> None:
    """A hundred times as long as wide by a thousand: only accepting it is left."""
    assert refused(polyline([(0, 0), (9000, 0), (9000, 1), (0, 1)], insunits=2)) == (
        "roof.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        "  read:   9,000 by 1 ft\n"
        "  needs:  a roof from 5 ft to 3000 ft across; is the drawing in feet?\n"
        "  write:  {dxf: roof.dxf, layer: ROOF-MAIN, size: accept}"
    )


@pytest.mark.parametrize("number", [math.nan, math.inf, -math.inf])
def test_numbers_that_are_none(number: float) -> None:
    """NaN and infinity, as a coordinate and as an arc's bulge."""
    expected = (
        "roof.dxf  layer ROOF-MAIN, {} 2F\n"
        "  read:   a coordinate that is no number (NaN or infinite)\n"
        "  needs:  finite coordinates\n"
        "  write:  the side redrawn"
    )
    assert refused(polyline([(0, 0), (120, number), (120, 64)])) == expected.format("LWPOLYLINE")
    assert refused(polyline([(0, 0, number), (120, 0, 0), (120, 64, 0)], form="xyb")) == expected.format("LWPOLYLINE")
    assert refused(lines([((0, 0), (number, 0))])) == expected.format("LINE")


def test_a_tilted_plane() -> None:
    """A polyline drawn on a slope has no plan."""
    assert refused(polyline(RECTANGLE, extrusion=(0, 1, 1))) == (
        "roof.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        "  read:   a polyline or arc drawn on a tilted plane\n"
        "  needs:  an outline drawn in plan\n"
        "  write:  the outline drawn from above"
    )


def test_files_that_are_no_drawings() -> None:
    """Empty, another format, binary DXF, cut off in the middle, a broken pair, a coordinate in words."""
    nothing = (
        "roof.dxf\n"
        "  read:   nothing drawn\n"
        "  needs:  a DXF drawing saved as text\n"
        "  write:  a drawing that holds the roof's outline"
    )
    assert refused("") == nothing
    assert refused(b"\x00\xff" * 500) == nothing
    assert refused(b"AutoCAD Binary DXF\r\n\x1a\x00rest") == (
        "roof.dxf\n"
        "  read:   a binary drawing\n"
        "  needs:  a DXF drawing saved as text\n"
        "  write:  the drawing saved once more, as text (ASCII) DXF"
    )
    assert refused("0\nSECTION\n2\nENTITIES\nzero\nLINE\n") == (
        "roof.dxf:5:1\n  read:   zero\n  needs:  a DXF drawing saved as text, with a group code on this line"
    )
    words = "0\nSECTION\n2\nENTITIES\n0\nLINE\n8\nROOF-MAIN\n10\nfar\n20\n0\n11\n1\n21\n1\n0\nENDSEC\n0\nEOF\n"
    assert refused(words, units="ft") == (
        "roof.dxf\n"
        "  read:   entities that break off or hold no numbers\n"
        "  needs:  a whole DXF drawing\n"
        "  write:  the drawing saved once more"
    )


def test_a_drawing_that_is_too_large() -> None:
    """Over 20 MB: refused without reading on; a large one with a small outline is read."""
    assert refused(BytesIO(b"0\n" * 10_000_001)) == (
        "roof.dxf\n  needs:  a file of at most 20 MB\n  write:  the roof's outline alone, saved in a file of its own"
    )
    wall = "0\nLINE\n8\nWALLS\n10\n0.0\n20\n0.0\n11\n1.0\n21\n1.0\n"
    source = polyline(RECTANGLE).replace("ENTITIES\n", "ENTITIES\n" + wall * 50_000)
    assert outline(source) == IN_FEET


def test_too_much_on_the_layer() -> None:
    """Tens of thousands of lines on the layer are no outline."""
    wall = "0\nLINE\n8\nROOF-MAIN\n10\n0.0\n20\n0.0\n11\n1.0\n21\n1.0\n"
    source = "0\nSECTION\n2\nENTITIES\n" + wall * 70_000 + "0\nENDSEC\n0\nEOF\n"
    assert refused(source, units="ft") == (
        "roof.dxf  layers\n"
        "  read:   70,000 lines\n"
        "  needs:  the roof alone on the layers named\n"
        "  write:  layers of their own for the outlines and what stands in them"
    )


def test_old_code_pages() -> None:
    """A layer's name in the code page that the drawing names."""
    made = ezdxf.new("R2000")
    made.encoding = "cp1252"
    made.header["$INSUNITS"] = 2
    made.modelspace().add_lwpolyline(RECTANGLE, close=True, dxfattribs={"layer": "DACH-SÜD"})
    content = text(made)
    assert "ANSI_1252" in content
    assert read(content.encode("cp1252"), "DACH-SÜD")[0] == IN_FEET


@settings(deadline=None, max_examples=150)
@given(st.text(max_size=300) | st.binary(max_size=300))
def test_no_text_gets_past(content: str | bytes) -> None:
    """Whatever a file holds, it is an outline or a refusal."""
    with pytest.raises(Refused):
        read(content, "ROOF-MAIN", units="ft")


CODES = st.sampled_from(["0", "2", "5", "8", "10", "20", "11", "21", "42", "43", "62", "66", "67", "70", "90", "100"])
VALUES = st.sampled_from(
    [
        *(
            "LINE",
            "LWPOLYLINE",
            "POLYLINE",
            "VERTEX",
            "SEQEND",
            "ROOF-MAIN",
            "0",
            "1",
            "-1",
            "64",
            "12.5",
            "nan",
            "1e999",
        ),
        *("AcDbEntity", "AcDbPolyline", "AcDb2dPolyline", "", "x", "ENDSEC", "EOF", "SECTION", "99999999999999999999"),
    ]
)


@settings(deadline=None, max_examples=300)
@given(st.lists(st.tuples(CODES, VALUES), max_size=40))
def test_no_scrambled_drawing_gets_past(pairs: list[tuple[str, str]]) -> None:
    """Pairs at random on the layer: an outline or a refusal, never another exception."""
    body = "".join(f"{code}\n{value}\n" for code, value in pairs)
    source = f"0\nSECTION\n2\nENTITIES\n0\nLWPOLYLINE\n8\nROOF-MAIN\n{body}0\nENDSEC\n0\nEOF\n"
    answer = outcome(source)
    assert answer == "refused" or len(answer) >= 3


def outcome(source: str) -> Any:
    """The corners, or that they were refused."""
    try:
        return outline(source, units="ft")
    except Refused:
        return "refused"


@settings(deadline=None, max_examples=100)
@given(st.lists(st.tuples(st.integers(0, 999), st.integers(0, 999)), min_size=3, max_size=12), st.randoms())
def test_round_trip(corners: list[tuple[int, int]], order: Any) -> None:
    """A closed polyline comes back corner for corner; the same sides as single lines in any order, as the same ring."""
    away = {math.atan2(y - 500.5, x - 500.3): (x, y) for x, y in corners}
    ring = [away[angle] for angle in sorted(away)]
    assume(len(ring) > 2 and Polygon(ring).is_valid and Polygon(ring).area > 8_000)
    assume(min(bounds_of(ring)) >= 60)
    expected = tuple((x * INCH, y * INCH) for x, y in ring)
    assert outline(polyline(ring, insunits=1)) == expected
    sides = list(zip(ring, ring[1:] + ring[:1], strict=True))
    order.shuffle(sides)
    loose = outline(lines(sides, insunits=1))
    assert sorted(loose) == sorted(expected)
    assert {frozenset(side) for side in zip(loose, loose[1:] + loose[:1], strict=True)} == {
        frozenset(side) for side in zip(expected, expected[1:] + expected[:1], strict=True)
    }


def bounds_of(ring: list[tuple[int, int]]) -> tuple[int, int]:
    """Width and depth."""
    xs, ys = zip(*ring, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)
