"""Feet of details and their T-joints, counted with a pencil, and against a plain count that holds all against all.

The roof of test_detail_joints.py, in inches: 300 by 172, metal on the south, tie-ins on the other sides; the cap's side
laps lie at 36 7/8, 73 1/4, 109 5/8 and 146, the base's at about 18.7, 55.1, 91.4, 127.8 and 164.2.

Curbs A, 60 by 34 from (40, 78), and B, 60 by 36 from (160, 77).  Feet lie 4 and 6 off each face; those of east and west
run up the fall from 78 to 112 and from 77 to 113, over 109 5/8: 2 faces x 2 plies at each curb.  A gusset of 12 by 12
carries them 6 on past the corner: down to 72 and 71, over 73 1/4, at SW and SE in both plies; up to 118 and 119, over
none.  In all 8 at each curb.

Drain D at (250, 60): the base's target, 36 by 36, lies on the base from 42 to 78, over 55.1: its east and west rims, 2.
The cap's, 48 by 48, from 36 to 84, over 36 7/8 and 73 1/4: 4.

The tie-ins on the east and west, 172 long, a strip of the base and one of the cap each, cross all four laps: 8 a side.
The strip of the north runs along the courses, that of the metal too, where only an end lap of the base's first course
can cross it.

On the halved roof of test_planelaps.py courses end at 237 and 243, 3 off the valley at 240; a curb 24 by 24 whose north
face stands at 235 has its feet there at 239 and 241, and those of its gussets, 12 by 12 in both plies, at 241: on the
sheet in the valley.  60' wide, that sheet is a roll of 394 from the east, to 326, and one that begins 6 before its end,
at 332: a curb from 320 to 344 has its north foot over that edge, in either ply, 1 off the line and so within the 3.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from roofs import GRID, INCH, TWO_PLIES, flat, make_area, rules
from shapely import LineString
from test_detail_joints import IN, LAYOUT, A, B, curb, laid
from test_planelaps import halves

from lapwright.layout.feet import is_within
from lapwright.layout.place import make_layout
from lapwright.layout.values import Lap, Layout, TJoint
from lapwright.roof.values import Drain, Opening

PIECES = {piece.id for piece in LAYOUT.pieces}


def feet(layout: Layout) -> list[Lap]:
    """Laps of a piece of the field and a detail."""
    details = {one.id for one in layout.details}
    return [lap for lap in layout.laps if lap.pieces[0] not in details and lap.pieces[1] in details]


def of_feet(layout: Layout) -> list[TJoint]:
    """T-joints in which a foot crosses a lap."""
    names = {lap.id for lap in feet(layout)}
    return [joint for joint in layout.tjoints if joint.laps[0] in names]


def test_tjoints_counted_by_pencil() -> None:
    """8 at each curb, 6 at the drain, 8 at each tie-in up the fall."""
    found = Counter(joint.id.split("/")[1] for joint in of_feet(LAYOUT) if joint.ply == "cap" or "/D/" in joint.id)
    by_thing = Counter(dict.fromkeys(("A", "B", "D", "side 2", "side 4"), 0))
    for name, count in found.items():
        by_thing[name if name.startswith("side") else name.split()[0]] += count
    assert by_thing == {"A": 8, "B": 8, "D": 6, "side 2": 8, "side 4": 8}


def test_feet_counted_by_pencil() -> None:
    """Curbs: 12 flashing pieces a ply (two on a face of 60) and two feet at each of four corners; target 4 and 6."""
    found = Counter((lap.id.split("/")[1].split()[0], lap.ply) for lap in feet(LAYOUT))
    sides = {name: found.pop((name, ply)) for name, ply in [*found] if name == "side"}
    assert found == {(name, ply): 6 + 8 for name in "AB" for ply in ("base", "cap")} | {
        ("D", "base"): 4,
        ("D", "cap"): 6,
    }
    assert sides


def test_where_they_lie_and_on_what() -> None:
    """The foot of curb B's west face: 6 off 160, from 113 down to 77, on the cap's third course."""
    lap = next(lap for lap in feet(LAYOUT) if lap.id == "Main/B W/cap flashing 1/foot")
    assert sorted(lap.line) == [pytest.approx((154 * IN, 77 * IN)), pytest.approx((154 * IN, 113 * IN))]
    assert (lap.kind, lap.pieces[0]) == ("flashing", "Main/cap/03/1")
    assert (lap.length / IN, lap.width / IN) == (pytest.approx(36), pytest.approx(6))


def test_a_rim_shows_what_no_later_panel_covers() -> None:
    """The cap's target: its first panel, 39 wide, shows 36, the second 12."""
    rims = {lap.id.rpartition("/")[2]: lap.length / IN for lap in feet(LAYOUT) if "/cap target 1/" in lap.id}
    assert rims == pytest.approx({"rim S": 36, "rim N": 36, "rim W": 48})
    rims = {lap.id.rpartition("/")[2]: lap.length / IN for lap in feet(LAYOUT) if "/cap target 2/" in lap.id}
    assert rims == pytest.approx({"rim S": 12, "rim N": 12, "rim E": 48})


def test_the_plain_count_of_feet_agrees() -> None:
    """Every foot held against every lap of its ply by another library: as many crossings."""
    top = [lap for lap in LAYOUT.laps if lap.kind in ("side", "end") and lap.ply == "cap"]
    low = [lap for lap in LAYOUT.laps if lap.kind in ("side", "end") and lap.ply == "base"]
    count = 0
    for foot in feet(LAYOUT):
        is_low = "base target" in foot.id or "side 1/" in foot.id
        count += sum(LineString(foot.line).crosses(LineString(lap.line)) for lap in (low if is_low else top))
    assert len(of_feet(LAYOUT)) == count
    assert count >= 38


def test_a_moved_curb_leaves_other_feet_their_ids() -> None:
    """With curb A 10 to the west the ids at B and at the drain stay."""
    moved = laid(curb("A", 30, 78, 60, 34), B, drains=(Drain("D", "drain", at=(250 * INCH, 60 * INCH)),))
    far = [[lap.id for lap in feet(layout) if "/A " not in lap.id] for layout in (LAYOUT, moved)]
    assert far[0] == far[1]
    assert A.corner != (30 * INCH, 78 * INCH)


def test_on_a_slope_feet_are_as_long_as_the_slope() -> None:
    """3 in 4 up: a curb's west face of 48 in plan is 60 long; laid with the fall."""
    opening = Opening("C", "curb", (120 * INCH, 60 * INCH), (48 * INCH, 48 * INCH), 8 * IN)
    corners = [(x * INCH, y * INCH) for x, y in ((0, 0), (300, 0), (300, 172), (0, 172))]
    area = replace(make_area(corners, ["metal_edge"] * 4, openings=(opening,)), slope=0.75)
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID)
    west = sum(lap.length for lap in feet(layout) if lap.id.startswith("Main/C W/cap flashing"))
    assert west / IN == pytest.approx(60)


def test_an_inside_corner_has_no_foot_of_its_own() -> None:
    """The feet of two walls that meet there end it."""
    area = flat(make_area([(0, 0), (300 * INCH, 0), (300 * INCH, 172 * INCH), (0, 172 * INCH)], ["parapet"] * 4))
    layout = make_layout([area], TWO_PLIES, rules(), grid=GRID)
    assert not [lap.id for lap in feet(layout) if "gusset" in lap.id]
    assert [lap.id for lap in feet(layout) if "flashing" in lap.id]


def test_feet_beside_a_valley_lie_on_its_sheet() -> None:
    """Each of one piece and, carried on past the corners, of two gussets; none of them crosses a lap there."""
    layout = halves(1, -1, 30, openings=(curb("C", 100, 211, 24, 24),))
    found = {
        lap.id: lap for lap in feet(layout) + on_valleys(layout) if "/C N/" in lap.id or lap.id.endswith("foot C N")
    }
    assert {lap.pieces[0] for lap in found.values()} == {"Main South/side 3/cap valley 1"}
    levels = Counter(round(end[1] / IN, 4) for lap in found.values() for end in lap.line)
    assert levels == {239: 2, 241: 2 * (1 + 2 * 2)}
    assert not [joint.id for joint in layout.tjoints if joint.laps[0] in found]


def on_valleys(layout: Layout) -> list[Lap]:
    """Laps of a valley sheet and a detail that is none."""
    sheets = {one.id for one in layout.details if one.kind == "valley"}
    others = {one.id for one in layout.details} - sheets
    return [lap for lap in layout.laps if lap.pieces[0] in sheets and lap.pieces[1] in others]


def test_a_foot_crosses_the_end_lap_of_a_valley_sheet() -> None:
    """One T-joint a ply of the curb's flashing, at 332."""
    layout = halves(1, -1, 60, openings=(curb("C", 320, 211, 24, 24),))
    ends = "cap valley 2/lap"
    found = [one for one in layout.tjoints if one.kind == "detail" and one.laps[1].endswith(ends)]
    assert sorted((one.laps[0], *(round(x / IN, 4) for x in one.at)) for one in found) == [
        ("Main South/C N/base flashing 1/foot", 332, 239),
        ("Main South/C N/cap flashing 1/foot", 332, 241),
    ]


def test_a_place_right_at_the_end_of_a_valleys_sheet_is_on_it() -> None:
    """A sheet along x from 0 to 3.6 and 0.5 to either side: 3.6 and a bit more, as sums of lengths go, but not 3.61."""
    line = ((0.0, 0.0), (3.6, 0.0))
    assert is_within((3.6 + 1e-12, 0.4), line, 0.5)
    assert is_within((-1e-12, 0.4), line, 0.5)
    assert not is_within((3.61, 0.4), line, 0.5)
    assert not is_within((1.0, 0.6), line, 0.5)
