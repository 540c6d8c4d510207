"""One roof counted wholly by pencil: an L with metal, parapets, a curb, a drain and a pipe.

All in inches, level.  The L is walked counter-clockwise from (0, 0): 360 east, 240 north, 216 west, 192 north,
144 west, 432 south.  Sides 1 and 2 have metal, sides 3 to 6 a parapet 12 high.  The curb RTU-1 is 60 by 48, 8 high, its
south-west corner at (180, 96).  The drain D-1 is at (72, 192), the 4 pipe V-1 at (288, 48).  Sheets are 39 3/8 wide
with 3 side laps, base rolls 787 long, cap rolls 394; default rules.

Field laps of the cap.  The cap begins 1/2 back from the metal; its side laps lie at 36 7/8, 73 1/4, 109 5/8, 146,
182 3/8, 218 3/4, 255 1/8, 291 1/2, 327 7/8, 364 1/4, 400 5/8 up the fall.  No course is longer than a sheet, so there
are no end laps at the walls.

Field of the cap.  It runs 1.66 up the cant, to 433.66: twelve courses.  The seven that begin under 241.66 run from the
cant of side 6 to 1/2 inside side 2: 360 + 1.66 - 0.5 = 361.16, cut as 361 1/2.  The five above end at the cant of side
4: 144 + 2 x 1.66 = 147.32, cut as 147 1/2.  The curb, from 97.66 to 142.34 in the cap, reaches into the third course
and the fourth and spans neither: no run is split.  All are shorter than the 394 of a roll: no end lap, so no T-joint.
A roll gives one of 361 1/2, or two of 147 1/2: 7 + 3 = 10 rolls.

Field of the base.  It runs 2 past the metal and 3.66 up the walls.  Its side laps keep 18 from the cap's, so the first
is at 18 1/2 to 18 7/8, twelve in all, the last at 418 3/4 or a little over: thirteen courses.  The eighth begins at
about 236.9, under the 243.66 that the base reaches at side 3, so eight are 360 + 3.66 + 2 = 365.66, cut as 366, and
five 144 + 2 x 3.66 = 151.32, cut as 151 1/2.  A crew handles 396: no end lap.  A roll of 787 gives two of 366, or five
of 151 1/2 (757 1/2): 4 + 1 = 5 rolls.

Rolls with the details in them.  Cap: 7 x 361 1/2 + 5 x 147 1/2 = 3268; flashings 29 x 20 + 8 x 16 = 708; the target
2 x 48 = 96: 4072 of 394, more than 10 rolls have.  11 are enough: the seven have 32 1/2 left, of which four take two
of 16 each and three one of 20; one takes 295 and 96; one 295 and 4 of 20; one 147 1/2 and 12 of 20; the last 10 of 20,
which leaves 194 for the gussets and the pipe's strip.  Base: 8 x 366 + 5 x 151 1/2 = 3685 1/2; backers 29 x 18 + 8 x 14
= 634: 4319 1/2 of 787, more than 5 rolls have.  6 are enough: four have 55 left, three of 18 each; one takes 757 1/2;
the last 17 of 18, 8 of 14, the target's 36 and a strip's 240, in all 694 and 93 for the gussets.  The other strip, 360
by 9, lies beside the first course, of which 366 by 15 1/2 are ripped off.

Flashing pieces of one ply: each piece but the last shows 36 3/8 at most, and joints keep 12 off the laps above.
  side 3, 216 level: (216 - 3) / 36 3/8 = 5.9                                                         6
  side 4, 192 up the fall from 240: joints at 36 3/8, 72 3/4, 109 1/8, 145 1/2; the laps there lie at
    15 1/8, 51 1/2, 87 7/8, 124 1/4, 160 5/8, so 14 7/8 or more off; 46 1/2 are left, more than a sheet,
    so there is a joint at 180 more, which leaves a foot                                              6
  side 5, 144 level: (144 - 3) / 36 3/8 = 3.9                                                         4
  side 6, 432 up the fall: the first joint goes back to 36 7/8 - 12 = 24 7/8, ten more follow, the last
    at 388 5/8; 43 3/8 are left, so there is one more at 420                                          13
  curb: 60 and 48 are over 39 3/8, so two pieces to a face                                            8
  in all 37 of the backer and 37 of the cap flashing
Flashing laps of one ply: 5 + 5 + 3 + 12 + 4 = 29, so 58.

Corners: sides 3 and 4 (outside), 4 and 5, 5 and 6 (inside), four at the curb (outside): 7.  Side 2 ends at side 3 and
side 6 at side 1 with metal on one hand: no corner.  Gussets: upright and foot in both plies, 28.  Laps of the upright
ones with the pieces on both sides: 7 x 2 x 2 = 28.

Girth: 12 high is 8 of wall, 4 x 1.414 = 5.66 of cant, and 6 or 4 on the field: 19.66 and 17.66, cut as 20 and 18.
The curb: 4 + 5.66 + 6 or 4: 15.66 and 13.66, cut as 16 and 14.

Strips, 9 wide: side 1, 360: one (396 can be handled); side 2, 240: one; one of 18 over their corner.  Laps: those of
the corner with both.
Metal in lengths of 120: side 1 three, side 2 two; as many of cleat; one outside corner.  Joint covers: 2 + 1 in the
runs, 2 at the corner: 5.
Cant in lengths of 48: side 3, 216: 5; side 4, 192: 4; side 5, 144: 3; side 6, 432: 9; curb 2 + 1 + 2 + 1: 27 in all.
Together 216 + 192 + 144 + 432 + 216 round the curb, and 4 more at each mitre of an outside corner, of which there are
2 + 8: 1240.
T-joints of details, where one of their laps crosses a side lap of the cap, on which they lie. The curb's north face
is at 144, so legs of 6 and 4 go over the lap at 146: the lap of its two pieces and the edges of both upright gussets,
in either ply: 6. Its south face, at 96 with legs down to 90, and the walls of sides 3 and 5, at 240 and 432 with legs
down to 234 and 426, have no lap before them; laps on walls up the fall run along the courses. The target's second
panel begins 36 from its west side, at 84; its edge, from 168 to 216, crosses the lap at 182 3/8: 1.
Feet.  One to each of the 74 flashing pieces, two to a foot gusset at each of the five outside corners, in both plies:
20; four sides to the targets and the pipe's strips, but six to the cap's target, whose panels meet on its north and
south: 4 + 6 + 4 + 4 = 18.  In all 112, and one to either strip.
T-joints of feet.  Those that run along the courses cross none.  Side 6: all 11 laps of the cap, in both plies: 22.
Side 4, from 240 to 432: the 5 from 255 1/8 on, in both: 10; at its south end the gusset carries it down to 234: none.
The curb's east and west faces, 96 to 144: 109 5/8: 2 each. The gussets carry them on to 150, over 146: 2 each at NE
and NW; and to 90: none. The strip of side 2 lies on the base, whose laps up to 240 are at about 18.7, 55.1, 91.4,
127.8, 164.2, 200.6 and 236.9: 7. The target of the base lies on it from 174 to 210, over 200.6: its east and west
rims, 2; that of the cap, from 168 to 216, over 182 3/8: 2. The pipe's cap strip, from 36 to 60, over 36 7/8: 2; the
base's, from 38 on, over none.
Drain: sump 48 by 48, metal, target of base 36 by 36 in one piece, of cap 48 by 48 in two with one lap.
Pipe: flashing, a strip of base 20 by 20, of cap 24 by 24.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from roofs import GRID, INCH, TWO_PLIES, flat, make_area, rules

from lapwright.layout.place import make_layout
from lapwright.roof.values import Area, Drain, Opening, Pipe

IN = 0.0254
POINTS = [(0, 0), (360, 0), (360, 240), (144, 240), (144, 432), (0, 432)]


def the_roof() -> Area:
    """The L."""
    curb = Opening("RTU-1", "curb", (180 * INCH, 96 * INCH), (60 * INCH, 48 * INCH), 8 * IN)
    points = [(x * INCH, y * INCH) for x, y in POINTS]
    area = flat(make_area(points, ["metal_edge", "metal_edge", *["parapet"] * 4], openings=(curb,)))
    edges = tuple(replace(edge, height=12 * IN if edge.kind == "parapet" else None) for edge in area.edges)
    drain, pipe = Drain("D-1", "drain", at=(72 * INCH, 192 * INCH)), Pipe("V-1", (288 * INCH, 48 * INCH), 4 * INCH)
    return replace(area, edges=edges, drains=(drain,), pipes=(pipe,))


LAYOUT = make_layout([the_roof()], TWO_PLIES, rules(), grid=GRID)
PLIES_BY_NAME = {ply.ply: ply for ply in LAYOUT.plies}
PIECES = {piece.id for piece in LAYOUT.pieces}
KINDS = Counter(one.kind for one in LAYOUT.details)


def test_courses_and_rolls_of_the_field() -> None:
    """13 courses of base from 5 rolls, 12 of cap from 10; no end lap."""
    assert {name: (len(ply.courses), ply.rolls, ply.end_laps) for name, ply in PLIES_BY_NAME.items()} == {
        "base": (13, 5, 0),
        "cap": (12, 10, 0),
    }


def test_cut_lengths_of_the_field() -> None:
    """Base 8 of 366 and 5 of 151 1/2, cap 7 of 361 1/2 and 5 of 147 1/2."""
    assert Counter((piece.ply, 2 * piece.cut_length // INCH) for piece in LAYOUT.pieces) == {
        ("base", 732): 8,
        ("base", 303): 5,
        ("cap", 723): 7,
        ("cap", 295): 5,
    }


def test_rolls_with_the_details() -> None:
    """6 of base, 11 of cap."""
    assert Counter(roll.sheet for roll in LAYOUT.rolls) == {"base-sa": 6, "cap-sa": 11}


def test_tjoints() -> None:
    """None in the field, since there is no end lap; of laps between details 6 and 1, of feet the others."""
    assert {joint.kind for joint in LAYOUT.tjoints} == {"detail"}
    assert Counter(joint.id.split("/")[1] for joint in LAYOUT.tjoints) == {
        "side 2": 7,
        "side 4": 10,
        "side 6": 22,
        "RTU-1 E": 2,
        "RTU-1 W": 2,
        "RTU-1 N": 2,
        "RTU-1 NE": 2 + 2,
        "RTU-1 NW": 2 + 2,
        "D-1": 1 + 4,
        "V-1": 2,
    }


def test_details_by_kind() -> None:
    """As counted above."""
    assert dict(KINDS) == {
        "strip": 2,
        "strip_corner": 1,
        "metal": 5,
        "cleat": 5,
        "metal_corner": 1,
        "joint_cover": 5,
        "flashing": 74,
        "gusset": 28,
        "cant": 27,
        "sump": 1,
        "drain_metal": 1,
        "target": 3,
        "pipe_flashing": 1,
        "pipe_strip": 2,
    }


def test_flashing_pieces_by_place_and_ply() -> None:
    """6, 6, 4, 13 along the walls, 8 round the curb, in either ply."""
    found = Counter((one.of.partition(" ")[0], one.of[-1], one.ply) for one in LAYOUT.details if one.kind == "flashing")
    walls = {("side", side, ply): count for side, count in zip("3456", (6, 6, 4, 13), strict=True) for ply in PLIES}
    assert found == walls | {("RTU-1", face, ply): 2 for face in "SENW" for ply in PLIES}


PLIES = ("base", "cap")


def test_cut_lengths_of_flashings() -> None:
    """20 and 18 at the parapets, 16 and 14 at the curb."""
    cut = {(one.of.startswith("side"), one.ply): one.cut_ticks for one in LAYOUT.details if one.kind == "flashing"}
    assert cut == {
        (True, "cap"): 20 * INCH,
        (True, "base"): 18 * INCH,
        (False, "cap"): 16 * INCH,
        (False, "base"): 14 * INCH,
    }


def test_joints_of_the_long_wall() -> None:
    """The backer's at 24 7/8 and every 36 3/8 from there, the last at 420."""
    starts = [one.line[0][1] / IN for one in LAYOUT.details if one.of == "side 6" and one.ply == "base" and one.line]
    assert starts[1:13] == pytest.approx([*(24.875 + 36.375 * k for k in range(11)), 420])


def test_laps_of_details() -> None:
    """2 of strips and 2 feet; 58 between flashing pieces, 28 of gussets, 1 of the cap's target, 112 feet."""
    assert Counter(lap.kind for lap in LAYOUT.laps if lap.kind in ("strip", "flashing")) == {
        "strip": 2 + 2,
        "flashing": 58 + 28 + 1 + 112,
    }


def test_length_of_cant() -> None:
    """1240 inches."""
    assert sum(one.length for one in LAYOUT.details if one.kind == "cant") / IN == pytest.approx(1240)


def test_corners() -> None:
    """Five outside ones with four gussets each, and two inside."""
    assert Counter(one.form for one in LAYOUT.details if one.kind == "gusset") == {"outside": 20, "inside": 8}


def test_everything_of_a_sheet_is_cut_from_a_roll_and_nothing_else() -> None:
    """Each such detail names the roll whose list has it; a set beside takes the width of the sheet at most.

    What is cut beside a ripped piece is looked at in test_ripoffcuts.py.
    """
    listed = {id: roll.id for roll in LAYOUT.rolls for id in roll.pieces}
    assert {one.id: one.roll for one in LAYOUT.details if one.sheet} == {
        one.id: listed[one.id] for one in LAYOUT.details if one.sheet
    }
    assert {one.roll for one in LAYOUT.details if not one.sheet} == {""}
    width: Counter[str] = Counter()
    for one in LAYOUT.details:
        width["" if one.beside in PIECES else one.beside or one.id] += round(one.width / IN * 1e6) if one.sheet else 0
    del width[""]
    assert max(width.values()) <= 39_375_000 + 10


def test_moving_the_curb_changes_no_id_elsewhere() -> None:
    """A curb 2' to the west: the same ids, every one."""
    area = the_roof()
    curb = replace(area.openings[0], corner=(156 * INCH, 96 * INCH))
    moved = make_layout([replace(area, openings=(curb,))], TWO_PLIES, rules(), grid=GRID)
    assert [one.id for one in moved.details] == [one.id for one in LAYOUT.details]
