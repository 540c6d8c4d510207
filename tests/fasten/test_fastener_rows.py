"""Rows of nails on the roof, cut where zones change, counted with a pencil."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from lapwright.assembly.values import Nailing, Ply, Sheet, ZonePattern
from lapwright.fasten.rows import fasten_maps, nail_needs
from lapwright.layout.values import Course, Frame, Layout, Piece, PlyLayout
from lapwright.order.fastened import fastened_lines
from lapwright.roof.values import Area, Edge, Opening
from lapwright.units.read import length_ticks, quantity_si
from lapwright.units.write import Units
from lapwright.wind.values import Building

FOOT = length_ticks("1'")
LONG, WIDE = 100, 33  # ft
SHEET = Sheet("base", length_ticks("40 in"), 100 * FOOT, length_ticks("4 in"), length_ticks("6 in"))
CORNER = ZonePattern(quantity_si("6 in"), quantity_si("6 in"), 3)
EDGE = ZonePattern(quantity_si("9 in"), quantity_si("9 in"), 2)
NAILING = Nailing(quantity_si("12 in"), quantity_si("24 in"), 1, quantity_si("60 lbf"), {"2": EDGE, "3": CORNER})
PLY = Ply("base", SHEET, "mechanically_fastened", NAILING)
CORNERS = ((0, 0), (LONG * FOOT, 0), (LONG * FOOT, WIDE * FOOT), (0, WIDE * FOOT))
AREA = Area(
    "Main",
    CORNERS,
    tuple(Edge(k + 1, "metal_edge", CORNERS[k], CORNERS[(k + 1) % 4]) for k in range(4)),
    (0.0, -1.0),
    0.0,
)
BUILDING = Building(quantity_si("10 ft"), "B", quantity_si("100 mph"), 2, "enclosed", "ASCE 7-16", 0.0)
FRAME = Frame((0.0, 0.0), (1.0, 0.0), (0.0, 1.0), 1.0)


def layout() -> Layout:
    """Eleven full courses of 3 ft exposed, each one piece."""
    pieces = tuple(
        Piece(
            f"Main/base/{n}", "Main", "base", n, 1, 0, LONG * FOOT, 3 * FOOT * (n - 1),
            3 * FOOT * (n - 1) + SHEET.width_ticks, LONG * FOOT, "base",
        )
        for n in range(1, 12)
    )  # fmt: skip
    courses = tuple(Course(piece.course, piece.v0, piece.v1) for piece in pieces)
    ply = PlyLayout(
        area="Main", ply="base", position=1, sheet="base", courses=courses, pieces=pieces,
        begins=0, starter=SHEET.width_ticks, tolerance=None, offset_least=None,
    )  # fmt: skip
    return Layout(frames={"Main": FRAME}, plies=(ply,), details=(), laps=(), tjoints=(), rolls=())


def test_rows_are_cut_where_the_zone_changes() -> None:
    """At 10 ft the bands are 6 and 12 ft: a course in the middle has 76 ft of zone 1 (1'), 12 ft of zone 2."""
    (found,) = fasten_maps([AREA], BUILDING, [PLY], layout())
    middle = [row for row in found.rows if row.is_lap and abs(row.line[0][1] - quantity_si("15.17 ft")) < 0.01]
    by_zone = {zone: sum(math.dist(*row.line) for row in middle if row.zone == zone) for zone in ("1'", "1", "2", "3")}
    feet = {zone: length / quantity_si("1 ft") for zone, length in by_zone.items()}
    assert feet == pytest.approx({"1'": 76, "1": 12, "2": 12, "3": 0}, abs=0.01)
    assert {row.spacing for row in middle if row.zone == "2"} == {EDGE.lap_spacing}
    assert found.patterns["3"].field_rows == 3
    assert found.patterns["1"].field_rows == 1


def test_all_rows_together_are_as_long_as_the_sheets_ask() -> None:
    """Every zone's rows over its area: the sum of lengths is that of laps and rows by zone, to within the edges."""
    (found,) = fasten_maps([AREA], BUILDING, [PLY], layout())
    laps = sum(math.dist(*row.line) for row in found.rows if row.is_lap)
    assert laps == pytest.approx(11 * quantity_si("100 ft"), rel=1e-3)


def test_a_finer_pattern_in_the_corner_is_counted_there() -> None:
    """Zone 3 is four corners of 0.2 x 36 x 10/... = 80 sf: at 6/6 in, 3 rows on 36 in, 2.67 a sf, about 213 nails."""
    maps = fasten_maps([AREA], BUILDING, [PLY], layout())
    counts = {need.zone: need.amount for need in nail_needs(maps, layout(), Units("us"))}
    assert counts["3"] == pytest.approx(80 * 8 / 3, rel=0.15)
    field = 76 * 9 + (88 * 21 - 76 * 9)
    assert counts["1'"] + counts["1"] == pytest.approx(field * (1 + 0.5) / 3, rel=0.1)


def test_openings_have_no_nails() -> None:
    """A curb 10 ft long breaks the row that meets it."""
    curb = Opening("RTU", "curb", (40 * FOOT, 14 * FOOT), (10 * FOOT, 4 * FOOT))
    (found,) = fasten_maps([replace(AREA, openings=(curb,))], BUILDING, [PLY], layout())
    (before,) = fasten_maps([AREA], BUILDING, [PLY], layout())
    lost = sum(math.dist(*row.line) for row in before.rows) - sum(math.dist(*row.line) for row in found.rows)
    assert lost > quantity_si("19 ft")


def test_without_a_height_the_ply_s_own_pattern_is_counted_everywhere() -> None:
    """Nothing is left out of the order for want of zones."""
    (found,) = fasten_maps([AREA], replace(BUILDING, height=None), [PLY], layout())
    assert set(found.patterns) == {"all"}
    (need,) = nail_needs([found], layout(), Units("us"))
    assert need.amount == pytest.approx(11 * (100 + 50), rel=0.01)


def test_a_self_adhered_ply_has_no_map() -> None:
    """Nothing is nailed, nothing drawn."""
    assert fasten_maps([AREA], BUILDING, [replace(PLY, attachment="self_adhered")], layout()) == ()


def test_each_zone_is_a_line_of_the_order() -> None:
    """Boxes of a thousand, each line with the pieces it is for."""
    maps = fasten_maps([AREA], BUILDING, [PLY], layout())
    lines = fastened_lines(nail_needs(maps, layout(), Units("us")), {"fasteners": 40.0}, Units("us"))
    assert [line.item for line in lines] == [f"cap nails, base sheet, zone {zone}" for zone in ("1'", "1", "2", "3")]
    assert all(line.unit == "box" and line.from_ids and line.cost == 40.0 * line.ordered for line in lines)
