"""What of pieces and laps shows: by pencil on a small roof whose first sheet the next course covers by half."""

from __future__ import annotations

from dataclasses import replace

import pytest
from test_sheets_plan import small_paper

from lapwright.layout.values import Piece
from lapwright.packet.drawing import Stroke, Text
from lapwright.packet.sheets.plan import plan_sheet
from lapwright.packet.sheets.showing import Showing, Shown, chords
from lapwright.packet.values import Paper
from lapwright.roof.values import Opening

M = 80_000  # ticks
SIZE = {"width": 254.0, "height": 170.0}


def wide_paper() -> Paper:
    """The small roof, 8 m by 1.8 m, its second course moved down to 0.5 m, and left out from 6 m on."""
    paper = small_paper()
    layer = paper.layout.plies[0]
    low, right = layer.pieces[:2], layer.pieces[2:]
    high = (replace(right[0], v0=M // 2, v1=3 * M // 2), replace(right[1], v0=M // 2, v1=3 * M // 2, u1=6 * M))
    plies = (replace(layer, pieces=(*low, *high)),)
    return replace(paper, layout=replace(paper.layout, plies=plies))


def shown(paper: Paper, place: int) -> Shown:
    """What shows of the piece at a place of the ply."""
    return Showing(paper.layout, paper.areas).piece(paper.layout.plies[0].pieces[place])


def test_chords_of_a_u_by_pencil() -> None:
    """A U of 3 by 2 with a notch of 1 by 1 from above: its levels and uprights."""
    ring = ((0.0, 0.0), (3.0, 0.0), (3.0, 2.0), (2.0, 2.0), (2.0, 1.0), (1.0, 1.0), (1.0, 2.0), (0.0, 2.0))
    assert chords(ring, 1, 0.5) == [(0.0, 3.0)]
    assert chords(ring, 1, 1.5) == [(0.0, 1.0), (2.0, 3.0)]
    assert chords(ring, 0, 1.5) == [(0.0, 1.0)]
    assert chords(ring, 0, 0.5) == [(0.0, 2.0)]
    assert chords(ring, 1, 2.5) == []


def test_a_sheet_shows_up_to_the_next_course() -> None:
    """The first sheet shows from 0 to 0.5 m, the second course from 0.5 m to its own edge."""
    paper = wide_paper()
    assert shown(paper, 0) == Shown(0, 5 * M, 0, M / 2)
    assert shown(paper, 2) == Shown(0, 3 * M, M / 2, 3 * M / 2)


def test_a_sheet_shows_as_far_as_there_is_roof() -> None:
    """Of the last course, 0.925 m to 2 m, the roof ends at 1.8 m."""
    paper = small_paper()
    assert shown(paper, 2) == Shown(0, 3 * M, M - 6_000, 144_000)


def test_a_sheet_past_a_step_shows_where_there_is_roof() -> None:
    """The roof ends at 0.1 m but for its last metre: of a sheet from 3 m to 8 m most shows from 7 m on."""
    paper = small_paper()
    outline = ((0, 0), (8 * M, 0), (8 * M, 144_000), (7 * M, 144_000), (7 * M, M // 10), (0, M // 10))
    area = replace(paper.areas[0], outline=outline)
    layer = paper.layout.plies[0]
    piece: Piece = replace(layer.pieces[1], u0=3 * M)
    layout = replace(paper.layout, plies=(replace(layer, pieces=(piece,)),))
    assert Showing(layout, (area,)).piece(piece) == Shown(7 * M, 8 * M, 0, M)


def test_a_sheet_shows_beside_what_goes_through_it() -> None:
    """An opening from 1 m to 4.5 m takes all but the lowest 0.2 m of the first sheet: most shows at its ends."""
    paper = small_paper()
    hole = Opening("HATCH", "hatch", (M, M // 5), (7 * M // 2, M), 0.3)
    area = replace(paper.areas[0], openings=(hole,))
    piece = paper.layout.plies[0].pieces[0]
    assert Showing(paper.layout, (area,)).piece(piece) == Shown(0, M, 0, M - 6_000)
    wide = replace(area, openings=(replace(hole, corner=(-M, M // 5), size=(7 * M, M)),))
    assert Showing(paper.layout, (wide,)).piece(piece) == Shown(0, 5 * M, 0, M // 5)


def test_a_sheet_off_the_roof_shows_whole() -> None:
    """Nothing of it is on the roof: its number stands where it lies."""
    paper = small_paper()
    piece = replace(paper.layout.plies[0].pieces[0], v0=-M, v1=-M // 2)
    assert Showing(paper.layout, paper.areas).piece(piece) == Shown(0, 5 * M, -M, -M // 2)


def test_an_end_lap_is_drawn_up_to_the_next_course() -> None:
    """The end lap of course 1 at 4.85 m, 1 m wide: 0.5 m of it shows; where no course lies on it, all."""
    paper = wide_paper()
    laps = {lap.id: lap for lap in Showing(paper.layout, paper.areas).laps(paper.layout.laps)}
    assert laps["end 1"].line == ((4.85, 0.0), (4.85, 0.5))
    assert laps["side 1-1"] == paper.layout.laps[0]
    bare = replace(paper.layout.plies[0], pieces=paper.layout.plies[0].pieces[:3])
    layout = replace(paper.layout, plies=(bare,))
    (end,) = Showing(layout, paper.areas).laps([paper.layout.laps[2]])
    assert end.line == ((4.85, 0.0), (4.85, 1.0))


def test_an_end_lap_is_drawn_where_there_is_roof() -> None:
    """East of 4.5 m the roof begins 0.3 m up: so does the end lap at 4.85 m, which ends at 0.5 m."""
    paper = wide_paper()
    half, up = 9 * M // 2, 3 * M // 10
    outline = ((0, 0), (half, 0), (half, up), (8 * M, up), (8 * M, 144_000), (0, 144_000))
    laps = Showing(paper.layout, (replace(paper.areas[0], outline=outline),)).laps(paper.layout.laps)
    (end,) = [lap for lap in laps if lap.id == "end 1"]
    assert end.line == ((4.85, pytest.approx(0.3)), (4.85, pytest.approx(0.5)))


def test_numbers_stand_in_what_shows() -> None:
    """On the plan, piece 1 is numbered between the low edge and the next course's, 0.5 m up, not on its line."""
    plate = plan_sheet(wide_paper(), "cap", **SIZE)
    (side,) = [item for item in plate.items if isinstance(item, Stroke) and item.name == "end 1"]
    low, high = sorted(y for _, y in side.points)
    (number,) = [item for item in plate.items if isinstance(item, Text) and item.text == "1"]
    assert low < number.at[1] < high
    assert number.at[1] == pytest.approx((low + high) / 2, abs=number.height)
