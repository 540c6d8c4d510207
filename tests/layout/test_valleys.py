"""Valleys and ridges between planes, counted with a pencil in inches."""

from __future__ import annotations

import pytest
from roofs import BRIEF, CAP, FOOT, GRID, INCH, TWO_PLIES, inches, rules

from lapwright.layout.frame import make_frame
from lapwright.layout.place import make_layout
from lapwright.layout.region import make_region
from lapwright.layout.valleys import lengths_up
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Area

METRE = 0.0254


def halves(south: float, north: float, slope: float = 0.0, kind: str = "tie_in") -> tuple[Area, ...]:
    """60' by 40' in two planes with a line across the middle; 1 north, -1 south for the way each falls."""
    ends = [(0, 0), (60 * FOOT, 0), (60 * FOOT, 20 * FOOT), (0, 20 * FOOT)]
    up = [(0, 20 * FOOT), (60 * FOOT, 20 * FOOT), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT)]
    whole = [(0, 0), (60 * FOOT, 0), (60 * FOOT, 40 * FOOT), (0, 40 * FOOT)]
    edges = [EdgeRow((1, 2, 3, 4), kind)]
    area = make_area("Main", whole, falls=(0.0, 1.0), slope=slope, edges=edges)
    rows = [
        PlaneRow("South", tuple(ends), (0.0, south), slope),
        PlaneRow("North", tuple(up), (0.0, north), slope),
    ]
    return split_area(area, rows)


def test_courses_are_held_back_from_a_valley_and_run_over_a_ridge() -> None:
    """A valley 3" from the line; a ridge 6" past it; each plane is 240" deep."""
    valley, ridge = halves(1, -1), halves(-1, 1)
    for area, begins, ends in ((valley[0], 3, 240), (valley[1], 3, 240), (ridge[0], 0, 246), (ridge[1], 0, 246)):
        region = make_region(area, make_frame(area, rules()), rules(), under_cap=False)
        assert (region.begins, region.ends) == (begins * INCH, ends * INCH)


def test_the_upper_plane_runs_over_a_line_that_water_runs_across() -> None:
    """South falls onto North: South reaches 6" past the line, North ends at it."""
    north, south = halves(1, 1, 1 / 48)
    regions = [make_region(area, make_frame(area, rules()), rules(), under_cap=False) for area in (north, south)]
    stretch = (1 + 1 / 48**2) ** 0.5
    assert [region.ends - region.begins for region in regions] == [
        round(240 * INCH * stretch),
        round(240 * INCH * stretch) + 6 * INCH,
    ]


def test_a_valley_sheet_lies_on_the_line_in_each_ply() -> None:
    """A level valley of 720": base (33' = 396" a piece) 396 and 330" lapped 6"; cap (32' 10" = 394") 394 and 332"."""
    layout = make_layout(halves(1, -1), TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    found = [detail for detail in layout.details if detail.kind == "valley"]
    assert [(one.id, round(one.length / METRE, 6)) for one in found] == [
        ("Main South/side 3/base valley 1", 396),
        ("Main South/side 3/base valley 2", 330),
        ("Main South/side 3/cap valley 1", 394),
        ("Main South/side 3/cap valley 2", 332),
    ]
    assert {one.width for one in found} == {CAP.width_ticks / 80_000}
    cut = {id for roll in layout.rolls for id in roll.pieces}
    assert {one.id for one in found} <= cut
    laps = [lap for lap in layout.laps if " valley " in lap.id]
    assert [(lap.pieces, round(lap.width / METRE, 6)) for lap in laps] == [
        (("Main South/side 3/base valley 1", "Main South/side 3/base valley 2"), 6),
        (("Main South/side 3/cap valley 1", "Main South/side 3/cap valley 2"), 6),
    ]


def test_a_valley_sheet_is_laid_from_its_low_end_and_turned_up_at_the_high_one() -> None:
    """A hip roof upside down: the valley falls from the parapet's corner to the drain in the middle.

    24' by 24' in four triangles: each valley is 12' · √2 = 203.6" long in plan; at the corner the base runs up the
    cant and 2", 3.657", at 45°: 5.172" more.  The line begins at the drain.
    """
    side, middle = 24 * FOOT, (12 * FOOT, 12 * FOOT)
    ring = [(0, 0), (side, 0), (side, side), (0, side)]
    ways = ((0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0))
    rows = [PlaneRow(str(k), (ring[k], ring[(k + 1) % 4], middle), way, 0.0) for k, way in enumerate(ways)]
    area = make_area("Main", ring, falls=(0.0, 1.0), slope=0.0, edges=[EdgeRow((1, 2, 3, 4), "parapet", 0.3)])
    sloped = [PlaneRow(row.name, row.outline, row.falls, 1 / 48) for row in rows]
    layout = make_layout(split_area(area, sloped), TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    found = [one for one in layout.details if one.kind == "valley" and one.ply == "base"]
    assert len(found) == 4
    stretch = (1 + (1 / 48) ** 2 / 2) ** 0.5
    assert found[0].length / METRE == pytest.approx(203.647 * stretch + 5.172, abs=0.01)
    assert found[0].line is not None
    assert found[0].line[0] == pytest.approx((12 * 0.3048, 12 * 0.3048), abs=1e-9)


def test_a_short_last_length_takes_from_the_one_before() -> None:
    """410" from 396" pieces, 6" lap: 20" would be left; it gets the 60" asked, the first ends at 356"."""
    spans = lengths_up(410 * INCH, 396 * INCH, 60 * INCH, 6 * INCH)
    assert spans == [(0, inches(356)), (inches(350), inches(410))]
