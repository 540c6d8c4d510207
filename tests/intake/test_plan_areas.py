"""Whole plans from DXF drawings: several areas, openings, pipes and drains by layer, blocks; refusals as they read."""

from __future__ import annotations

import math
from typing import Any

import pytest
from drawnplans import (
    ANNEX,
    BARE,
    CURBED,
    EAST,
    FOOT,
    INCH,
    MAIN,
    VENTED,
    WIDE,
    box,
    drawing,
    feet,
    notes,
    plan,
    refused,
)
from ezdxf.math import Matrix44

from lapwright.intake.plan_values import AreaLayers, DrawnArea, DrawnOpening, DrawnSpot


def two_areas() -> Any:
    """Main and annex side by side; a curb, a pipe and a drain in each."""
    made = drawing("ROOF-MAIN")
    space = made.modelspace()
    space.add_lwpolyline(EAST, close=True, dxfattribs={"layer": "ROOF-ANNEX"})
    box(space, "CURBS", 30, 20, 8, 6)
    box(space, "CURBS", 130, 10, 4, 5)
    space.add_text("AH-2", dxfattribs={"layer": "CURBS"}).set_placement((131, 11))
    space.add_circle((50, 50), 0.25, dxfattribs={"layer": "VENTS"})
    space.add_circle((140, 30), 0.125, dxfattribs={"layer": "VENTS"})
    block = made.blocks.new("DRAIN")
    block.add_circle((0, 0), 0.5)
    space.add_blockref("DRAIN", (150, 20), dxfattribs={"layer": "DRAINS"})
    space.add_point((60, 5), dxfattribs={"layer": "DRAINS"})
    return made


def test_two_areas_with_what_stands_in_them() -> None:
    """Each area takes those whose middle it holds; a text names an opening, others have their layer and a number."""
    read = plan(two_areas(), MAIN, ANNEX)
    assert read.areas == (
        DrawnArea(
            "Main",
            feet(*WIDE),
            (DrawnOpening("CURBS-1", "CURBS", (30 * FOOT, 20 * FOOT), (8 * FOOT, 6 * FOOT)),),
            (DrawnSpot("VENTS-1", "VENTS", (50 * FOOT, 50 * FOOT), FOOT // 2),),
            (DrawnSpot("DRAINS-2", "DRAINS", (60 * FOOT, 5 * FOOT)),),
        ),
        DrawnArea(
            "Annex",
            feet(*EAST),
            (DrawnOpening("AH-2", "CURBS", (130 * FOOT, 10 * FOOT), (4 * FOOT, 5 * FOOT)),),
            (DrawnSpot("VENTS-2", "VENTS", (140 * FOOT, 30 * FOOT), FOOT // 4),),
            (DrawnSpot("DRAINS-1", "DRAINS", (150 * FOOT, 20 * FOOT)),),
        ),
    )
    assert read.mended == ()


def test_what_stands_in_no_area_is_told() -> None:
    """With the main area alone, the curb, the pipe and the drain of the annex are left out."""
    assert notes(two_areas(), MAIN) == [
        "layer CURBS: in none of the areas that name the layer: AH-2 at E 130' 0\" N 10' 0\"; left out",
        "layer VENTS: in none of the areas that name the layer: VENTS-2 at E 140' 0\" N 30' 0\"; left out",
        "layer DRAINS: in none of the areas that name the layer: DRAINS-1 at E 150' 0\" N 20' 0\"; left out",
    ]


def test_faults_of_all_layers_are_told_together() -> None:
    """An outline's layer that is not there, an open curb and a layer without circles."""
    made = drawing()
    space = made.modelspace()
    space.add_line((30, 20), (38, 20), dxfattribs={"layer": "CURBS"})
    space.add_line((1, 1), (2, 2), dxfattribs={"layer": "VENTS"})
    area = AreaLayers("Main", "ROOF-MIAN", openings=("CURBS",), pipes=("VENTS",))
    assert refused(made, area) == (
        "plan.dxf  layer CURBS, LINE 2F\n"
        "  read:   lines that do not close: 1; the first from E 30' 0\" N 20' 0\" to E 38' 0\" N 20' 0\"\n"
        '  needs:  openings as closed lines; ends up to 1" apart are joined\n'
        "  write:  the lines drawn until their ends meet\n"
        "\n"
        "plan.dxf  layer ROOF-MIAN\n"
        "  read:   ROOF-MIAN\n"
        "  needs:  a layer of the drawing: 0, Defpoints, CURBS, VENTS\n"
        "  write:  0\n"
        "\n"
        "plan.dxf  layer VENTS\n"
        "  read:   1 LINE\n"
        "  needs:  circles, blocks or points on the layer\n"
        "  write:  the layer that holds the pipes or drains"
    )


def test_the_unit_is_asked_for_under_areas() -> None:
    """A drawing that does not say its unit; and one whose outline would be 4,012 ft wide."""
    assert refused(drawing("ROOF-MAIN", insunits=0), BARE) == (
        "plan.dxf  units\n"
        "  read:   INSUNITS 0\n"
        "  needs:  the unit of the drawing, one of in, ft, ftUS, mm, cm, m\n"
        "  write:  units: in  # under areas"
    )
    made = drawing()
    made.modelspace().add_lwpolyline([(0, 0), (4012, 0), (4012, 900)], close=True, dxfattribs={"layer": "ROOF-MAIN"})
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        "  read:   4,012 by 900 ft\n"
        "  needs:  a roof from 5 ft to 3000 ft across; is the drawing in inches? If the size is right, size: accept\n"
        "  write:  units: in  # under areas"
    )
    assert plan(made, BARE, any_size=True).areas[0].outline == feet((0, 0), (4012, 0), (4012, 900))
    assert plan(made, BARE, units="in").areas[0].outline[1] == (4012 * INCH, 0)


def test_lines_and_arcs_make_an_outline() -> None:
    """Three sides and a half circle of 32', its north end 1/2" off: joined and told, the arc's sides numbered."""
    made = drawing()
    space, on = made.modelspace(), {"layer": "ROOF-MAIN"}
    space.add_line((0, 64), (0, 0), dxfattribs=on)
    space.add_line((0, 0), (100, 0), dxfattribs=on)
    space.add_arc((100, 32), 32, -90, 90, dxfattribs=on)
    space.add_line((100, 64 + 1 / 24), (0, 64), dxfattribs=on)
    outline = plan(made, BARE).areas[0].outline
    sides = math.ceil(math.pi / (2 * math.acos(1 - 0.25 / (32 * 12))))
    assert outline[:3] == feet((100, 64 + 1 / 24), (0, 64), (0, 0))
    assert len(outline) == 3 + sides
    assert all(abs(math.dist(corner, feet((100, 32))[0]) - 32 * FOOT) <= 1 for corner in outline[3:])
    assert notes(made, BARE) == [
        "layer ROOF-MAIN: single lines and arcs: 4; joined end to end",
        'layer ROOF-MAIN: ends that do not quite meet: 1/2" at E 100\' 0" N 64\' 1/2"; '
        'joined, being no more than 1" apart',
        'layer ROOF-MAIN: curves: 1; cut into straight sides that keep within 1/4" of them',
        f"layer ROOF-MAIN: curves in the outline; they are sides 4-{3 + sides}",
    ]


@pytest.mark.parametrize("kind", ["circle", "ellipse", "spline"])
def test_closed_curves_are_outlines(kind: str) -> None:
    """A round roof of 30', drawn in three ways: its area is that of the circle less at most 1/4" all round."""
    made = drawing()
    space, on = made.modelspace(), {"layer": "ROOF-MAIN"}
    if kind == "circle":
        space.add_circle((50, 50), 30, dxfattribs=on)
    elif kind == "ellipse":
        space.add_ellipse((50, 50), major_axis=(0, 30), ratio=1, dxfattribs=on)
    else:
        points = [
            (50 + 30 * math.cos(step * math.pi / 32), 50 + 30 * math.sin(step * math.pi / 32)) for step in range(65)
        ]
        space.add_spline(points, dxfattribs=on)
    outline = plan(made, BARE).areas[0].outline
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in zip(outline, (*outline[1:], outline[0]), strict=True)) / 2
    circle = math.pi * (30 * FOOT) ** 2
    assert circle - 2 * math.pi * 30 * FOOT * INCH / 4 < abs(area) <= circle * 1.0001
    assert max(abs(math.dist(corner, (50 * FOOT, 50 * FOOT)) - 30 * FOOT) for corner in outline) < INCH / 4


def test_lines_that_cross() -> None:
    """Two sides drawn past their corner, each by a foot: the place and both lines are told."""
    made = drawing()
    space, on = made.modelspace(), {"layer": "ROOF-MAIN"}
    space.add_line((0, 0), (121, 0), dxfattribs=on)
    space.add_line((120, -1), (120, 64), dxfattribs=on)
    space.add_line((120, 64), (0, 64), dxfattribs=on)
    space.add_line((0, 64), (0, 0), dxfattribs=on)
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, LINE 30; LINE 2F\n"
        '  read:   lines that cross at E 120\' 0" N 0"\n'
        "  needs:  one closed outline on the layer\n"
        "  write:  both lines cut off where they cross"
    )


def test_lines_on_one_another() -> None:
    """The south side drawn in two lines that share 10'."""
    made = drawing()
    space, on = made.modelspace(), {"layer": "ROOF-MAIN"}
    for start, end in (
        ((0, 0), (70, 0)),
        ((60, 0), (120, 0)),
        ((120, 0), (120, 64)),
        ((120, 64), (0, 64)),
        ((0, 64), (0, 0)),
    ):
        space.add_line(start, end, dxfattribs=on)
    told = refused(made, BARE)
    assert told == (
        "plan.dxf  layer ROOF-MAIN, LINE 30; LINE 2F\n"
        '  read:   lines that lie on one another at E 60\' 0" N 0"\n'
        "  needs:  one closed outline on the layer\n"
        "  write:  one line there, from corner to corner"
    )


def test_an_outline_that_crosses_itself() -> None:
    """A bow tie."""
    made = drawing()
    corners = [(0, 0), (120, 64), (120, 0), (0, 64)]
    made.modelspace().add_lwpolyline(corners, close=True, dxfattribs={"layer": "ROOF-MAIN"})
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, LWPOLYLINE 2F\n"
        "  read:   sides 1 and 3 cross or touch at E 60' 0\" N 32' 0\"\n"
        "  needs:  an outline whose sides meet only where one ends and the next starts\n"
        "  write:  the corners in walking order, none passed twice"
    )


def test_layers_that_are_not_shown() -> None:
    """Frozen or switched off: read all the same, and told.  Paper space and hidden entities do not count."""
    made = drawing("ROOF-MAIN")
    made.layers.add("ROOF-MAIN").freeze()
    made.layers.add("CURBS").off()
    box(made.modelspace(), "CURBS", 30, 20, 8, 6)
    box(made.modelspace(), "CURBS", 50, 20, 8, 6).dxf.invisible = 1
    box(made.paperspace(), "CURBS", 70, 20, 8, 6)
    assert [each.name for each in plan(made, CURBED).areas[0].openings] == ["CURBS-1"]
    assert notes(made, CURBED) == [
        "layer ROOF-MAIN: the layer is frozen in the drawing; read all the same",
        "layer CURBS: the layer is off in the drawing; read all the same",
    ]


def test_blocks_are_taken_apart() -> None:
    """An outline on layer 0 in a block in a block, twice as large, a quarter turned: on the outer INSERT's layer."""
    made = drawing()
    wing = made.blocks.new("WING")
    wing.add_lwpolyline([(0, 0), (30, 0), (30, 20), (0, 20)], close=True)
    wing.add_lwpolyline([(5, 5), (9, 5), (9, 8), (5, 8)], close=True, dxfattribs={"layer": "CURBS"})
    outer = made.blocks.new("OUTER", base_point=(1, 1))
    outer.add_blockref("WING", (1, 1), dxfattribs={"xscale": 2, "yscale": 2, "rotation": 90})
    made.modelspace().add_blockref("OUTER", (100, 100), dxfattribs={"layer": "ROOF-MAIN"})
    area = plan(made, CURBED).areas[0]
    assert area.outline == feet((100, 100), (100, 160), (60, 160), (60, 100))
    assert area.openings == (DrawnOpening("CURBS-1", "CURBS", feet((84, 110))[0], (6 * FOOT, 8 * FOOT)),)


def test_faults_in_blocks_name_block_and_insert() -> None:
    """The handle is that of the INSERT that stands in the drawing."""
    made = drawing()
    wing = made.blocks.new("WING")
    wing.add_lwpolyline([(0, 0), (30, 0), (30, 20)], dxfattribs={"layer": "ROOF-MAIN"})
    insert = made.modelspace().add_blockref("WING", (5, 5))
    assert refused(made, BARE).splitlines()[:2] == [
        f"plan.dxf  layer ROOF-MAIN, LWPOLYLINE in block WING, INSERT {insert.dxf.handle}",
        "  read:   an open line, its ends 36' 11/16\" apart, at E 5' 0\" N 5' 0\" and E 35' 0\" N 25' 0\"",
    ]


def test_an_array_of_blocks() -> None:
    """Two rows of three drains, 20' by 30' apart, on a layer of drains."""
    made = drawing("ROOF-MAIN")
    made.blocks.new("DRAIN").add_circle((0, 0), 0.5)
    on = {"layer": "VENTS", "row_count": 2, "column_count": 3, "row_spacing": 30, "column_spacing": 20}
    made.modelspace().add_blockref("DRAIN", (10, 10), dxfattribs=on)
    pipes = plan(made, VENTED).areas[0].pipes
    assert [each.at for each in pipes] == list(feet((10, 10), (30, 10), (50, 10), (10, 40), (30, 40), (50, 40)))


def test_blocks_carry_names() -> None:
    """The attribute NAME of a block names its pipe or drain."""
    made = drawing("ROOF-MAIN")
    made.blocks.new("PIPE").add_circle((0, 0), 0.5)
    insert = made.modelspace().add_blockref("PIPE", (10, 10), dxfattribs={"layer": "VENTS"})
    insert.add_attrib("NAME", "V-7", (10, 10))
    made.modelspace().add_circle((20, 10), 0.25, dxfattribs={"layer": "VENTS"})
    made.modelspace().add_circle((20, 10), 0.5, dxfattribs={"layer": "VENTS"})
    assert plan(made, VENTED).areas[0].pipes == (
        DrawnSpot("V-7", "VENTS", feet((10, 10))[0]),
        DrawnSpot("VENTS-2", "VENTS", feet((20, 10))[0], FOOT),
    )
    assert notes(made, VENTED) == ["layer VENTS: drawn again round the same centre: 1; the widest circle counts"]


def test_a_curb_drawn_with_both_its_faces() -> None:
    """A ring 3" inside another is its inner face; one 2' inside stands for something else, and overlaps."""
    made = drawing("ROOF-MAIN")
    box(made.modelspace(), "CURBS", 30, 20, 8, 6)
    box(made.modelspace(), "CURBS", 30.25, 20.25, 7.5, 5.5)
    assert [each.size for each in plan(made, CURBED).areas[0].openings] == [(8 * FOOT, 6 * FOOT)]
    assert notes(made, CURBED) == ["layer CURBS: rings inside another: 1; the outer one is the opening"]
    box(made.modelspace(), "CURBS", 32, 22, 4, 2)
    assert len(plan(made, CURBED).areas[0].openings) == 2


def test_a_round_opening() -> None:
    """A circle is read as the square round it, and told."""
    made = drawing("ROOF-MAIN")
    space = made.modelspace()
    circle = space.add_circle((20, 20), 1.5, dxfattribs={"layer": "CURBS"})
    assert plan(made, CURBED).areas[0].openings[0].corner == feet((18.5, 18.5))[0]
    assert plan(made, CURBED).areas[0].openings[0].size == (3 * FOOT, 3 * FOOT)
    found = notes(made, CURBED)[1]
    assert found.startswith(f"layer CURBS, CIRCLE {circle.dxf.handle}: an opening of ")
    assert " corners at E 18' 6\" N 18' 6\"; read as the upright rectangle round it, E 3' 0\" x N 3' 0\": " in found
    lost = float(found.split()[-6])
    assert 9 - math.pi * 1.5**2 < lost < 9 - math.pi * 1.5**2 + math.pi * 3 / 48  # up to 1/4" all round is cut off


def turned(degrees: float) -> Any:
    """A drawing with a curb of 6' by 6' turned round its first corner at E 60' N 30'."""
    made = drawing("ROOF-MAIN")
    curb = box(made.modelspace(), "CURBS", 0, 0, 6, 6)
    curb.transform(Matrix44.z_rotate(math.radians(degrees)) @ Matrix44.translate(60, 30, 0))
    return made


def test_openings_that_are_turned() -> None:
    """Kept as drawn, counter-clockwise from the face that looks south; nothing is mended."""
    opening = plan(turned(30), CURBED).areas[0].openings[0]
    across, along = 6 * math.cos(math.radians(30)), 6 * math.sin(math.radians(30))
    assert opening.corner == pytest.approx(((60 - along) * FOOT, 30 * FOOT), abs=1)
    assert [each / FOOT for corner in opening.ring for each in corner] == pytest.approx(
        [along, 0, along + across, along, across, along + across, 0, across], abs=1e-4
    )
    assert notes(turned(30), CURBED) == []


def test_an_opening_turned_by_less_than_ends_are_apart() -> None:
    """By half a degree its corners leave the upright rectangle by 0.63", less than 1": it is read as that, and told."""
    assert plan(turned(0.5), CURBED).areas[0].openings[0].ring == ()
    assert notes(turned(0.5), CURBED) == [
        "layer CURBS, LWPOLYLINE 30: an opening of 4 corners at E 59' 11 3/8\" N 30' 0\"; "
        "read as the upright rectangle round it, E 6' 5/8\" x N 6' 5/8\": 0.628 sf more than is drawn"
    ]
    assert len(plan(turned(0.5), CURBED, join=INCH // 4).areas[0].openings[0].ring) == 4


def test_a_small_round_opening_is_read_as_the_rectangle_round_it() -> None:
    """A circle 6" across is cut into eight sides, none of which anyone flashes by itself."""
    made = drawing("ROOF-MAIN")
    made.modelspace().add_circle((60, 30), 0.25, dxfattribs={"layer": "CURBS"})
    opening = plan(made, CURBED).areas[0].openings[0]
    assert (opening.corner, opening.size, opening.ring) == (feet((59.75, 29.75))[0], (FOOT // 2, FOOT // 2), ())


def test_openings_of_other_shapes() -> None:
    """An L keeps its six corners, one more on a straight side is none."""
    made = drawing("ROOF-MAIN")
    ell = [(10, 10), (20, 10), (30, 10), (30, 20), (20, 20), (20, 30), (10, 30)]
    made.modelspace().add_lwpolyline(ell[::-1], close=True, dxfattribs={"layer": "CURBS"})
    opening = plan(made, CURBED).areas[0].openings[0]
    assert opening.ring == feet((0, 0), (20, 0), (20, 10), (10, 10), (10, 20), (0, 20))


def test_an_opening_that_crosses_itself() -> None:
    """A bow tie between the corners of a square, where the two lines cross in its middle."""
    made = drawing("ROOF-MAIN")
    bow = [(40, 10), (50, 20), (50, 10), (40, 20)]
    made.modelspace().add_lwpolyline(bow, close=True, dxfattribs={"layer": "CURBS"})
    assert refused(made, CURBED) == (
        "plan.dxf  layer CURBS, LWPOLYLINE 30\n"
        "  read:   lines that cross or touch at E 45' 0\" N 15' 0\"\n"
        "  needs:  an opening that is one ring\n"
        "  write:  the corners in walking order, none passed twice"
    )


def test_an_opening_of_too_many_corners() -> None:
    """A star of 70 corners is nothing that anyone flashes."""
    made = drawing("ROOF-MAIN")
    angles = [(math.pi * k / 35, 8 if k % 2 else 4) for k in range(70)]
    star = [(30 + radius * math.cos(angle), 30 + radius * math.sin(angle)) for angle, radius in angles]
    made.modelspace().add_lwpolyline(star, close=True, dxfattribs={"layer": "CURBS"})
    assert refused(made, CURBED).splitlines()[1:] == [
        "  read:   an opening of 70 corners at E 22' 0\" N 22' 1/8\"",
        "  needs:  an opening of at most 64 corners",
        '  write:  its curves in fewer straight sides: arcs_within: 2"',
    ]


def test_rings_inside_an_outline_are_courtyards() -> None:
    """Two on the outline's layer, one named by a text in it; one that a layer of openings draws too is read once."""
    made = drawing("ROOF-MAIN")
    space, on = made.modelspace(), {"layer": "ROOF-MAIN"}
    for x in (20, 50, 80):
        box(space, "ROOF-MAIN", x, 20, 10, 20)
    space.add_text("LIGHT WELL", dxfattribs=on).set_placement((55, 25))
    space.add_text("north", dxfattribs=on).set_placement((5, 5))
    box(space, "CURBS", 80, 20, 10, 20)
    size = (10 * FOOT, 20 * FOOT)
    assert plan(made, CURBED).areas[0].openings == (
        DrawnOpening("Courtyard-1", "ROOF-MAIN", feet((20, 20))[0], size),
        DrawnOpening("LIGHT WELL", "ROOF-MAIN", feet((50, 20))[0], size),
        DrawnOpening("CURBS-1", "CURBS", feet((80, 20))[0], size),
    )
    assert notes(made, CURBED) == [
        "layer ROOF-MAIN: also on the layer: 1 TEXT; left out",
        "layer ROOF-MAIN: rings inside the outline: 3; taken as openings: Courtyard-1 at E 20' 0\" N 20' 0\", "
        "LIGHT WELL at E 50' 0\" N 20' 0\", Courtyard-3 at E 80' 0\" N 20' 0\"",
    ]


def test_an_outline_drawn_with_a_line_for_each_face() -> None:
    """A second ring 8" inside all round is the other face of the parapet, no courtyard."""
    made = drawing("ROOF-MAIN")
    box(made.modelspace(), "ROOF-MAIN", 8 / 12, 8 / 12, 120 - 16 / 12, 64 - 16 / 12)
    assert refused(made, BARE) == (
        "plan.dxf  layer ROOF-MAIN, LWPOLYLINE 2F; LWPOLYLINE 30\n"
        '  read:   a ring all round just inside the outline, at E 8" N 8"\n'
        "  needs:  one line where the roof ends, such as the inner face of the parapet\n"
        "  write:  the other line on a layer of its own"
    )


def test_a_ring_without_an_area() -> None:
    """There and back along one line."""
    made = drawing("ROOF-MAIN")
    made.modelspace().add_lwpolyline([(1, 1), (5, 1), (3, 1)], close=True, dxfattribs={"layer": "CURBS"})
    assert refused(made, CURBED) == (
        "plan.dxf  layer CURBS, LWPOLYLINE 30\n"
        "  read:   a ring without an area, at E 1' 0\" N 1' 0\"\n"
        "  needs:  an opening with an area\n"
        "  write:  the opening as a rectangle"
    )


def test_texts_and_other_things_on_a_layer_of_openings() -> None:
    """Two texts in one opening, one beside it, a point."""
    made = drawing("ROOF-MAIN")
    space, on = made.modelspace(), {"layer": "CURBS"}
    box(space, "CURBS", 30, 20, 8, 6)
    space.add_mtext("RTU-1\\P10 tons", dxfattribs=on).set_location((31, 21))
    space.add_text("exhaust", dxfattribs=on).set_placement((32, 22))
    space.add_text("see detail", dxfattribs=on).set_placement((70, 22))
    space.add_point((3, 3), dxfattribs=on)
    assert plan(made, CURBED).areas[0].openings[0].name == "RTU-1 10 tons"
    assert notes(made, CURBED) == [
        "layer CURBS: also on the layer: 1 POINT; left out",
        "layer CURBS: texts in no opening: 1; left out",
        "layer CURBS, LWPOLYLINE 30: texts in the opening: 2; the first is its name: RTU-1 10 tons",
    ]


def test_nothing_on_a_layer_of_openings() -> None:
    """A layer in the table without anything drawn on it."""
    made = drawing("ROOF-MAIN")
    made.layers.add("CURBS")
    assert refused(made, CURBED) == (
        "plan.dxf  layer CURBS\n"
        "  read:   nothing in model space\n"
        "  needs:  openings drawn as closed lines\n"
        "  write:  the layer that holds the openings"
    )
