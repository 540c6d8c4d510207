"""Laps over ridges and onto valley sheets, counted with a pencil in inches.

A roof of 60' or 30' by 40' is halved by a level line 20' = 240 up; sides are tie-ins, where every ply ends at the line.
At a valley courses end 3 back from the line, at 237 and 243, on a sheet 39 3/8 wide with its middle on the line: they
lap it by 19 11/16 - 3 = 16 11/16.  Over a ridge both planes run 6 past: they lap by 12, and the upper one ends 6 down
the lower one, at 234.  Where South falls onto North only South runs over: by 6, to 246.
"""

from __future__ import annotations

from collections import Counter

import pytest
from roofs import BRIEF, FOOT, GRID, TWO_PLIES, rules

from lapwright.layout.place import make_layout
from lapwright.layout.values import Lap, Layout
from lapwright.roof.build import EdgeRow, make_area
from lapwright.roof.planes import PlaneRow, split_area
from lapwright.roof.values import Opening

IN = 0.0254
NAMES = ("valley", "ridge", "step")


def halves(south: float, north: float, feet: int, slope: float = 0.0, openings: tuple[Opening, ...] = ()) -> Layout:
    """The layout of both halves; 1 north, -1 south for the way each falls."""
    wide = feet * FOOT
    low = ((0, 0), (wide, 0), (wide, 20 * FOOT), (0, 20 * FOOT))
    high = ((0, 20 * FOOT), (wide, 20 * FOOT), (wide, 40 * FOOT), (0, 40 * FOOT))
    whole = [(0, 0), (wide, 0), (wide, 40 * FOOT), (0, 40 * FOOT)]
    edges = [EdgeRow((1, 2, 3, 4), "tie_in")]
    area = make_area("Main", whole, falls=(0.0, 1.0), slope=slope, edges=edges, openings=openings)
    rows = [PlaneRow("South", low, (0.0, south), slope), PlaneRow("North", high, (0.0, north), slope)]
    return make_layout(split_area(area, rows), TWO_PLIES, rules(), grid=GRID, aim="fewest_laps", patience=BRIEF)


def between(layout: Layout) -> list[Lap]:
    """Laps between planes."""
    return [lap for lap in layout.laps if lap.id.split("/")[-1].startswith(NAMES)]


def told(layout: Layout) -> list[tuple[str, str, float, float, float]]:
    """Kind, later piece, level, length and width of each lap between planes."""
    return [
        (lap.kind, lap.pieces[1], *(round(x / IN, 4) for x in (lap.line[0][1], lap.length, lap.width)))
        for lap in between(layout)
    ]


def test_courses_lap_onto_a_valley_sheet() -> None:
    """30' wide: one sheet of 360 a ply, one first course on either side, no end lap."""
    assert told(halves(1, -1, 30)) == [
        ("strip", "Main South/base/01/1", 237, 360, 16.6875),
        ("strip", "Main South/cap/01/1", 237, 360, 16.6875),
        ("strip", "Main North/base/01/1", 243, 360, 16.6875),
        ("strip", "Main North/cap/01/1", 243, 360, 16.6875),
    ]


def test_the_plane_laid_later_laps_over_a_ridge() -> None:
    """240 deep and 6 more: the cap takes 7 courses (39 3/8 + 6 x 36 3/8 = 257 5/8), the base 8 from its starter."""
    layout = halves(-1, 1, 30)
    assert told(layout) == [
        ("side", "Main North/base/08/1", 234, 360, 12),
        ("side", "Main North/cap/07/1", 234, 360, 12),
    ]
    assert [lap.pieces[0] for lap in between(layout)] == ["Main South/base/08/1", "Main South/cap/07/1"]


def test_the_upper_plane_laps_over_a_line_that_its_water_crosses() -> None:
    """South, whose first courses lie at the line, ends 6 beyond it on North's last ones."""
    stretch = (1 + 1 / 48**2) ** 0.5
    found = told(halves(1, 1, 30, 1 / 48))
    assert [one[:2] for one in found] == [("side", "Main South/base/01/1"), ("side", "Main South/cap/01/1")]
    assert [one[2:] for one in found] == [pytest.approx((240 + 6 / stretch, 360, 6), abs=1e-3)] * 2


@pytest.mark.parametrize(("south", "north", "name"), [(1, -1, "valley"), (-1, 1, "ridge")])
def test_every_end_lap_that_runs_in_is_a_tjoint(south: float, north: float, name: str) -> None:
    """60' wide: at a valley the end laps of both first courses and of the valley's sheet on either side; at a ridge
    those of both last courses.
    """
    layout = halves(south, north, 60)
    course = {"valley": {"base": 1, "cap": 1}, "ridge": {"base": 8, "cap": 7}}[name]
    ends = [
        lap
        for lap in layout.laps
        if lap.kind == "end" and int(lap.id.split("/")[2]) == course[lap.ply] and lap.id.startswith("Main")
    ]
    sheets = [lap for lap in layout.laps if lap.id.endswith("valley 2/lap")]
    joints = [joint for joint in layout.tjoints if joint.id.endswith(("/under", "/over"))]
    assert Counter(joint.laps[1] for joint in joints) == Counter([lap.id for lap in [*ends, *sheets, *sheets]])
    assert len(sheets) == {"valley": 2, "ridge": 0}[name]
    assert sum(lap.length for lap in between(layout)) / IN == pytest.approx({"valley": 4, "ridge": 2}[name] * 720)


def test_side_laps_that_run_into_a_slanting_valley_are_tjoints() -> None:
    """A square of 24' that falls to its middle from four parapets, in four triangles.

    Each is 144 deep; the cap begins where it is 3 from both valleys, 3 x 1.414 = 4.24 up, and ends 1.66 up the wall:
    141.4 in all, over 39 3/8 + 2 x 36 3/8 = 112 1/8, so 4 courses and 3 side laps.  Each side lap ends in a valley on
    either hand: 6 T-joints to a triangle, 24; none at the valley sheets, 203.6 long and in one piece.
    """
    side, middle = 24 * FOOT, (12 * FOOT, 12 * FOOT)
    ring = [(0, 0), (side, 0), (side, side), (0, side)]
    ways = ((0.0, 1.0), (-1.0, 0.0), (0.0, -1.0), (1.0, 0.0))
    rows = [PlaneRow(str(k), (ring[k], ring[(k + 1) % 4], middle), way, 0.0) for k, way in enumerate(ways)]
    area = make_area("Main", ring, falls=(0.0, 1.0), slope=0.0, edges=[EdgeRow((1, 2, 3, 4), "parapet", 0.3)])
    layout = make_layout(split_area(area, rows), TWO_PLIES, rules(), grid=GRID, patience=BRIEF)
    joints = [joint for joint in layout.tjoints if joint.ply == "cap" and joint.id.endswith(("/under", "/over"))]
    assert Counter(joint.area for joint in joints) == {f"Main {k}": 6 for k in range(4)}
    assert {joint.laps[1].split("/")[3].split()[0] for joint in joints} == {"side"}


def test_a_curb_that_moves_changes_no_name_of_a_lap_or_joint_elsewhere() -> None:
    """A curb 4' by 4' in South goes 3' to the east: names differ only in the courses that it touches.

    It stands at 96 to 144 up South's fall, measured from the eave, and is no deeper than a sheet: three courses of the
    base and of the cap at most touch it.  The joints of the curb's own flashings go with it.
    """
    size = (4 * FOOT, 4 * FOOT)
    here, there = (
        halves(-1, 1, 60, openings=(Opening("RTU-1", "curb", (x * FOOT, 8 * FOOT), size, 0.2),)) for x in (30, 33)
    )
    changed = {lap.id for lap in here.laps} ^ {lap.id for lap in there.laps}
    changed |= {joint.id for joint in here.tjoints} ^ {joint.id for joint in there.tjoints}
    changed |= {detail.id for detail in here.details} ^ {detail.id for detail in there.details}
    changed = {id for id in changed if not id.startswith("Main South/RTU-1 ")}
    touched = {
        f"Main South/{ply.ply}/{course.index:02d}"
        for layout in (here, there)
        for ply in layout.plies
        for course in ply.courses
        if ply.area == "Main South" and course.low < 144 * 2032 and course.high > 96 * 2032
    }
    assert {"/".join(id.split("/")[:2]) for id in changed} <= {"Main South/base", "Main South/cap"}
    assert [
        id for id in changed if not any(numbers(id) & numbers(one) and one[:15] == id[:15] for one in touched)
    ] == []


def numbers(id: str) -> set[str]:
    """The courses that a name speaks of."""
    return set(id.split("/")[2].split("-"))
