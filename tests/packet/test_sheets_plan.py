"""Plan sheets: what is on them, counted by hand on a small roof and by names on a large one."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lettered import numbers_told, overlapping
from sample import edges, points, sample_paper

from lapwright.layout.place import make_layout
from lapwright.layout.values import CornerCut, Course, Frame, Lap, Layout, Piece, PlyLayout, TJoint
from lapwright.packet.drawing import Plate, Ring, Stroke, Text
from lapwright.packet.sheets.day import day_sheet
from lapwright.packet.sheets.details import detail_numbers, detail_plates
from lapwright.packet.sheets.hourspicture import hour_plates
from lapwright.packet.sheets.overview import key_plan, stacked_sheets
from lapwright.packet.sheets.plan import plan_sheet, plan_sheets
from lapwright.packet.svg import svg_text
from lapwright.packet.values import Paper
from lapwright.roof.values import Area, Opening
from lapwright.units.lengths import length_ticks as ticks

LETTER_PAPER, A4_PAPER = (254.0, 170.0), (273.0, 164.0)
HOSTILE = "<b>&%%d\\P{}\x00\u202e" + "W" * 300


def piece(course: int, place: int, u: tuple[int, int], v: tuple[int, int], *cuts: CornerCut) -> Piece:
    """A piece of the small roof."""
    number = 2 * (course - 1) + place
    return Piece(
        id=f"Small/cap/0{course}/{place}",
        area="Small",
        ply="cap",
        course=course,
        place=place,
        u0=u[0],
        u1=u[1],
        v0=v[0],
        v1=v[1],
        cut_length=u[1] - u[0],
        sheet="cap-sa",
        sequence=number,
        corner_cuts=cuts,
    )


def small_paper() -> Paper:
    """8 m by 1.8 m of roof: two courses of two pieces, laid out by hand; metres times 80 000 are ticks."""
    m = 80_000
    cut = CornerCut((5 * m, 1 * m), 11_000, 6_000)
    pieces = (
        piece(1, 1, (0, 5 * m), (0, m), cut),
        piece(1, 2, (5 * m - 12_000, 8 * m), (0, m)),
        piece(2, 1, (0, 3 * m), (m - 6_000, 2 * m)),
        piece(2, 2, (3 * m - 12_000, 8 * m), (m - 6_000, 2 * m)),
    )
    ids = [one.id for one in pieces]
    laps = (
        Lap("side 1-1", "side", "Small", "cap", (ids[0], ids[2]), ((0.0, 0.925), (3.0, 0.925)), 3.0, 0.075),
        Lap("side 1-2", "side", "Small", "cap", (ids[0], ids[3]), ((3.0, 0.925), (8.0, 0.925)), 5.0, 0.075),
        Lap("end 1", "end", "Small", "cap", (ids[0], ids[1]), ((4.85, 0.0), (4.85, 1.0)), 1.0, 0.15),
        Lap("end 2", "end", "Small", "cap", (ids[2], ids[3]), ((2.85, 0.925), (2.85, 1.8)), 0.875, 0.15),
    )
    joints = (TJoint("joint 1", "Small", "cap", (4.85, 0.925), ("end 1", "side 1-2")),)
    courses = (Course(1, 0, m), Course(2, m - 6_000, 2 * m))
    layer = PlyLayout("Small", "cap", 1, "cap-sa", courses, pieces, 0, m, None, None)
    outline = ((0, 0), (8 * m, 0), (8 * m, 144_000), (0, 144_000))
    area = Area("Small", outline, edges(outline, ("metal_edge", "parapet", "ridge", None)), (0.0, -1.0), 0.02)
    layout = Layout({"Small": Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)}, (layer,), (), laps, joints, ())
    return replace(sample_paper(2), areas=(area,), layout=layout, days=())


def named(plate: Plate, layer: str) -> list[str]:
    """Names of strokes and rings on a layer, in order."""
    return [item.name for item in plate.items if isinstance(item, Stroke | Ring) and item.layer == layer]


def words(plate: Plate, layer: str | None = None) -> list[str]:
    """Every text of a plate, or of one of its layers."""
    return [item.text for item in plate.items if isinstance(item, Text) and layer in (None, item.layer)]


def test_a_small_roof_is_drawn_whole() -> None:
    """Two side laps, two end laps, one T-joint and one cut corner, each under its own name."""
    plate = plan_sheet(small_paper(), "cap", width=254, height=170)
    assert named(plate, "CAP-SIDE-LAPS") == ["side 1-1", "side 1-2"]
    assert named(plate, "CAP-END-LAPS") == ["end 1", "end 2"]
    assert named(plate, "CAP-TJOINTS") == ["joint 1"]
    assert named(plate, "CAP-CORNER-CUTS") == ["Small/cap/01/1/cut 1"]


def test_a_small_roof_is_to_scale() -> None:
    """8 m take 254 - 50 - 20 = 184 mm at most: 8 / 0.184 is 43.5, so 1/4" to the foot (48) is the largest that fits."""
    plate = plan_sheet(small_paper(), "cap", width=254, height=170)
    outline = next(item for item in plate.items if isinstance(item, Stroke) and item.layer == "ROOF-OUTLINE")
    assert plate.scale_text == '1/4" = 1\'-0"'
    assert outline.points[1][0] - outline.points[0][0] == pytest.approx(8000 / 48)


def test_a_corner_cut_is_drawn_to_scale() -> None:
    """11 000 ticks along and 6 000 across are 137.5 by 75 mm; at 1:48 the cut's line is 2.865 by 1.5625 mm."""
    plate = plan_sheet(small_paper(), "cap", width=254, height=170)
    cut = next(item for item in plate.items if isinstance(item, Stroke) and item.layer == "CAP-CORNER-CUTS")
    (x0, y0), (x1, y1) = cut.points
    assert (abs(x1 - x0), abs(y1 - y0)) == (pytest.approx(137.5 / 48), pytest.approx(75 / 48))


def test_sides_are_named_by_kind_and_length() -> None:
    """8 m are 26' 3" on a tape to the sixteenth; an edge of no kind says so."""
    text = words(plan_sheet(small_paper(), "cap", width=254, height=170))
    assert [one for one in text if one.startswith(("side 1", "side 3"))] == [
        "side 1: metal edge, 26' 2 15/16\"",
        "side 3: ridge, 26' 2 15/16\"",
    ]
    assert any("edge not given" in one for one in text)


@pytest.mark.parametrize(("plies", "ply"), [(2, "base"), (2, "cap"), (3, "interply")])
def test_every_lap_is_on_its_sheet(plies: int, ply: str) -> None:
    """The laps drawn are those of the layout, no more and no fewer."""
    paper = sample_paper(plies)
    plate = plan_sheet(paper, ply, width=254, height=170)
    drawn = named(plate, f"{ply.upper()}-SIDE-LAPS") + named(plate, f"{ply.upper()}-END-LAPS")
    expected = [lap.id for lap in paper.layout.laps if lap.ply == ply and lap.kind in ("side", "end")]
    assert sorted(drawn) == sorted(expected)


def test_pieces_are_numbered_once() -> None:
    """No number stands twice, and every piece has its own, is in a run of numbers beside its course, or in the list."""
    paper = sample_paper(2)
    numbers = {one.sequence for one in paper.layout.pieces if one.ply == "base"}
    plate = plan_sheet(paper, "base", width=254, height=170)
    written = [one for one in words(plate, "TEXT") if one.isdigit() and int(one) in numbers]
    assert len(written) == len(set(written))
    assert numbers - numbers_told(plate) == set()


def big_paper() -> Paper:
    """420' by 300' with a corner off: too many courses for one sheet."""
    outline = points(("0'", "0'"), ("420'", "0'"), ("420'", "150'"), ("300'", "300'"), ("0'", "300'"))
    curb = Opening("RTU-9", "curb", (ticks("200'"), ticks("99'")), (ticks("8'"), ticks("6'")), 0.2)
    kinds = ("metal_edge", "parapet", "wall", "ridge", "expansion")
    area = Area("Big", outline, edges(outline, kinds), (0.0, -1.0), 1 / 48, openings=(curb,))
    paper = sample_paper(2)
    return replace(
        paper, areas=(area,), layout=make_layout((area,), paper.assembly, paper.rules, grid=127, patience=0.05), days=()
    )


def with_court(kind: str) -> Plate:
    """The small roof with an L of 2 m by 1.2 m, legs 0.5 m wide, corner at (1, 0.3): its drawing, scaled 1:48."""
    m = 80_000
    ell = ((0, 0), (2 * m, 0), (2 * m, m // 2), (m // 2, m // 2), (m // 2, 12 * m // 10), (0, 12 * m // 10))
    court = Opening("C", kind, (m, 3 * m // 10), (2 * m, 12 * m // 10), 0.3, ring=ell)
    paper = small_paper()
    area = replace(paper.areas[0], openings=(court,))
    return plan_sheet(replace(paper, areas=(area,)), "cap", width=254, height=170)


def test_a_court_of_any_shape_is_named_and_crossed_inside_itself() -> None:
    """The box's middle (2, 0.9) lies outside the L; name and cross lines lie inside it.

    Of the diagonal from (1, 0.3) to (3, 1.5), 3/5 of a metre up for each along, what is under 0.8 lies in the long leg:
    1 m less 1/6 along.  Of the one from (3, 0.3) to (1, 1.5) the same, and what is left of x = 1.5 in the short leg.
    """
    plate = with_court("shaft")
    ring = next(one for one in plate.items if isinstance(one, Stroke) and one.name == "C").points
    x0, y0 = ring[0]
    name = next(one for one in plate.items if isinstance(one, Text) and one.text == "C")
    x, y = (name.at[0] - x0) * 0.048, (name.at[1] - y0) * 0.048
    assert (0 < x < 2 and 0 < y < 0.5) or (0 < x < 0.5 and 0 < y < 1.2)
    lines = [
        [(round((x - x0) * 0.048, 3), round((y - y0) * 0.048, 3)) for x, y in one.points]
        for one in plate.items
        if isinstance(one, Stroke) and one.layer == "OPENINGS" and len(one.points) == 2
    ][:3]  # the legend's sample after them
    assert lines == [
        [(0.0, 0.0), (0.833, 0.5)],
        [(2.0, 0.0), (1.167, 0.5)],
        [(0.5, 0.9), (0.0, 1.2)],
    ]
    assert with_court("skylight") != plate


def test_a_large_roof_is_split_into_parts_that_can_be_read() -> None:
    """Each piece of the cap over 2 m long is numbered on one of the parts, in letters of 1.8 mm or more."""
    paper = big_paper()
    sheets = plan_sheets(paper, "cap", width=254, height=170)
    pieces = [one for one in paper.layout.pieces if one.ply == "cap" and one.u1 - one.u0 > 2 * 80_000]
    numbers = {str(one.sequence) for one in pieces}
    shown = {word for sheet in sheets[1:] for word in words(sheet, "TEXT")} & numbers
    assert [sheet.title for sheet in sheets[:2]] == ["Cap ply", f"Cap ply, part 1 of {len(sheets) - 1}"]
    assert numbers - shown == set()
    assert min(item.height for sheet in sheets for item in sheet.items if isinstance(item, Text)) >= 1.8


def test_parts_show_nothing_beyond_their_window() -> None:
    """No line of the ply leaves the sheet's place for the roof."""
    for sheet in plan_sheets(big_paper(), "cap", width=254, height=170)[1:]:
        laps = [item for item in sheet.items if isinstance(item, Stroke) and item.layer.startswith("CAP-")]
        assert all(-0.01 <= x <= 204.01 and -0.01 <= y <= 170.01 for lap in laps for x, y in lap.points)


@pytest.mark.parametrize("units", ["us", "metric"])
@pytest.mark.parametrize("plies", [2, 3])
@pytest.mark.parametrize("size", [LETTER_PAPER, A4_PAPER, (192.0, 238.0)])
def test_no_text_lies_on_another(plies: int, units: str, size: tuple[float, float]) -> None:
    """On plans, details and pictures no two texts overlap, none hangs over the border, none is under 1.8 mm."""
    paper = sample_paper(plies, units)
    width, height = size
    plates = [
        plate for ply in paper.assembly.plies for plate in plan_sheets(paper, ply.ply, width=width, height=height)
    ]
    plates.append(plan_sheet(paper, None, width=width, height=height))
    plates += stacked_sheets(paper, width=width, height=height)
    plates.append(key_plan(paper, width=width, height=height, details=detail_numbers(paper)))
    plates += detail_plates(paper, width=width, height=height)
    plates += detail_plates(paper, width=width, height=115.0)
    assert paper.hours is not None
    plates += hour_plates(paper.hours, ("base", "cap"), width=width, height=height)
    assert [(plate.title, overlapping(plate)) for plate in plates if overlapping(plate)] == []
    assert min(item.height for plate in plates for item in plate.items if isinstance(item, Text)) >= 1.8


def test_hostile_names_stay_in_their_place() -> None:
    """Names of 300 letters, markup and control characters are left out or cut, never over other texts."""
    paper = sample_paper(2)
    areas = tuple(
        replace(area, openings=tuple(replace(opening, name=HOSTILE) for opening in area.openings))
        for area in paper.areas
    )
    plies = tuple(replace(ply, sheet=replace(ply.sheet, name=HOSTILE)) for ply in paper.assembly.plies)
    hostile = replace(paper, areas=areas, assembly=replace(paper.assembly, plies=plies))
    plates = [plan_sheet(hostile, "cap", width=254, height=170), *detail_plates(hostile, width=254, height=170)]
    assert [(plate.title, overlapping(plate)) for plate in plates if overlapping(plate)] == []


def test_day_sheets_are_in_ten_point() -> None:
    """A capital of ten point type in our font is 10 × 25.4 / 72 × 736 / 1024 = 2.54 mm: no text of a day is lower."""
    paper = sample_paper(2)
    plates = [day_sheet(paper, day, width=192, height=84) for day in paper.days]
    assert min(item.height for plate in plates for item in plate.items if isinstance(item, Text)) >= 2.53
    assert [(plate.title, overlapping(plate)) for plate in plates if overlapping(plate)] == []


def test_a_day_shows_its_laps_pieces_and_tie_off() -> None:
    """Today's laps are bold and in the accent, today's pieces outlined, the tie-off there; no other day's."""
    paper = sample_paper(2)
    day = paper.days[5]
    plate = day_sheet(paper, day, width=254, height=170)
    assert named(plate, "DAY-LAPS") == list(day.laps)
    assert named(plate, "DAY-PIECES") == list(day.pieces)
    assert named(plate, "DAY-TIE-OFF") == [""] * 2 * len(day.tie_off)
    assert "tie-off" in words(plate)


def test_a_day_without_anything_is_still_a_plan() -> None:
    """A day lost to weather shows the roof and nothing to do."""
    paper = sample_paper(2)
    idle = replace(paper.days[0], pieces=(), laps=(), details=(), tie_off=())
    plate = day_sheet(paper, idle, width=192, height=84)
    assert named(plate, "DAY-LAPS") == []
    assert "0 pieces today" in words(plate)


def test_the_key_leads_to_a_detail_for_every_side_and_opening() -> None:
    """Each metal edge, wall, parapet, opening and pipe of the job has a detail that exists."""
    paper = sample_paper(2)
    numbers = detail_numbers(paper)
    plates = detail_plates(paper, width=254, height=170)
    places = [(area.name, f"side {edge.side}") for area in paper.areas for edge in area.edges]
    places += [(area.name, one.name) for area in paper.areas for one in (*area.openings, *area.pipes)]
    places += [(area.name, one.name) for area in paper.areas for one in area.drains if one.kind != "gutter"]
    assert sorted(numbers) == sorted(places)
    assert {int(number) for number in numbers.values()} <= set(range(1, len(plates) + 1))


def test_sheets_are_the_same_twice() -> None:
    """The same paper gives the same bytes."""
    one = [svg_text(plan_sheet(sample_paper(2), "cap", width=254, height=170)) for _ in range(2)]
    assert one[0] == one[1]
